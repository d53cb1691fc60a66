"""An act in a process of its own, with limits on its time and its memory: whatever it does, this one goes on.

The child is forked, so that it need not load the renderer again. That is safe only in a process without other
threads, as the worker is; a web server has `body_child`.
"""

import logging
import os
import sys
from collections.abc import Callable
from typing import NoReturn

from django.db import connections

from orders.limits import DOCUMENT

logger = logging.getLogger(__name__)

LONGEST_SENTENCE = 2000


def failure_of(act: Callable[[], object]) -> str:
    """Do an act in a child process; return why it failed, in a sentence, or nothing if it was done."""
    # An open connection must not be shared with a child.
    connections.close_all()
    sys.stdout.flush()
    sys.stderr.flush()
    reads, writes = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reads)
        _do(act, writes)
    os.close(writes)
    with os.fdopen(reads, "rb") as pipe:
        said = pipe.read(LONGEST_SENTENCE).decode(errors="replace")
    _, status = os.waitpid(child, 0)
    return DOCUMENT.ending(os.waitstatus_to_exitcode(status), said)


def _do(act: Callable[[], object], writes: int) -> NoReturn:
    """Do the act as the child, and end. Nothing that the parent had begun is gone on with."""
    code = 1
    try:
        DOCUMENT.hold()
        act()
        code = 0
    except BaseException as error:  # whatever it is, it must not get into the parent's code
        os.write(writes, DOCUMENT.sentence(error).encode(errors="replace")[:LONGEST_SENTENCE])
        logger.exception("It could not be made.")
    finally:
        os._exit(code)
