"""The process that makes a body for the web server: a question on its input, the PDF on its output.

It is held to the limits and knows no database, so that neither a document that goes wrong nor the second that
a good one takes is the web server's own.
"""

import json
import subprocess
import sys
import threading
from typing import Any

from orders.limits import ending, limit, sentence
from orders.makers import MAKERS
from patterns.cutting.listing_json import from_json
from patterns.drafting.sized_json import from_json as sized_from_json
from studio.env import PROJECT

# Somebody waits for it.
PATIENCE = 30
TOO_LONG = f"It took longer than {PATIENCE} seconds."
# A web process has one such child at a time.
_one_at_a_time = threading.Lock()


class BodyError(Exception):
    """The body could not be made; the text says why, for the owner."""


def made_apart(sized: dict[str, Any], layouts: dict[str, Any], kind: str, paper: str) -> bytes:
    """Return the body of a document, made by a child process. Raises BodyError."""
    question = json.dumps({"sized": sized, "layouts": layouts, "kind": kind, "paper": paper})
    command = [sys.executable, "-m", "orders.body_child"]
    with _one_at_a_time:
        try:
            done = subprocess.run(  # noqa: S603 - our own module; the question is only its input
                command,
                input=question.encode(),
                capture_output=True,
                timeout=PATIENCE,
                cwd=PROJECT,
                check=False,
            )
        except subprocess.TimeoutExpired:
            raise BodyError(TOO_LONG) from None
    if done.returncode != 0:
        raise BodyError(ending(done.returncode, done.stderr.decode(errors="replace").strip()))
    return done.stdout


def main() -> None:
    limit()
    try:
        asked = json.load(sys.stdin)
        sized = sized_from_json(asked["sized"])
        body = MAKERS[asked["kind"]](sized, asked["paper"], from_json(asked["layouts"]))
    except Exception as error:  # noqa: BLE001 - at the end of a process, whatever it is goes to whoever asked
        sys.exit(sentence(error))
    sys.stdout.buffer.write(body)


if __name__ == "__main__":
    main()
