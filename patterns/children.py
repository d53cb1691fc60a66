"""A process of its own for what must not be the web server's: a question goes in, the answer comes out.

It is started afresh, not forked: a web process has threads.
"""

import subprocess
import sys
from collections.abc import Mapping

from patterns.limits import Limits
from studio.env import PROJECT


class ChildError(Exception):
    """The process gave no answer; the text says why."""


def answer_of(
    module: str,
    question: bytes,
    limits: Limits,
    patience: float,
    surroundings: Mapping[str, str] | None = None,
) -> bytes:
    """Return what a module of ours says to a question. Raises ChildError.

    limits: those the module holds itself to. patience: seconds until it is ended.
    surroundings: its environment; without it, ours.
    """
    try:
        done = subprocess.run(  # noqa: S603 - our own module; the question is only its input
            [sys.executable, "-m", module],
            input=question,
            capture_output=True,
            timeout=patience,
            cwd=PROJECT,
            env=surroundings,
            check=False,
        )
    except subprocess.TimeoutExpired:
        raise ChildError(f"It took longer than {patience:g} seconds.") from None
    if done.returncode != 0:
        raise ChildError(limits.ending(done.returncode, done.stderr.decode(errors="replace").strip()))
    return done.stdout
