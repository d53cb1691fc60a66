"""The process that makes a body for the web server: a question on its input, the PDF on its output.

It is held to the limits and knows no database, so that neither a document that goes wrong nor the second that
a good one takes is the web server's own.
"""

import json
import sys
import threading
from typing import Any

from orders.limits import DOCUMENT
from orders.makers import MAKERS, made_by
from patterns.children import ChildError, answer_of

# Somebody waits for it.
PATIENCE = 30
# A web process has one such child at a time.
_one_at_a_time = threading.Lock()


class BodyError(Exception):
    """The body could not be made; the text says why, for the owner."""


def made_apart(
    sized: dict[str, Any],
    layouts: dict[str, Any],
    kind: str,
    paper: str,
    cover: dict[str, Any] | None = None,
) -> bytes:
    """Return the body of a document, made by a child process. Raises BodyError."""
    question = json.dumps({"sized": sized, "layouts": layouts, "kind": kind, "paper": paper, "cover": cover})
    with _one_at_a_time:
        try:
            return answer_of("orders.body_child", question.encode(), DOCUMENT, PATIENCE)
        except ChildError as error:
            raise BodyError(str(error)) from None


def main() -> None:
    DOCUMENT.hold()
    try:
        asked = json.load(sys.stdin)
        maker = MAKERS[asked["kind"]]
        body = made_by(maker, asked["sized"], asked["layouts"], asked["paper"], asked["cover"])
    except Exception as error:  # noqa: BLE001 - at the end of a process, whatever it is goes to whoever asked
        sys.exit(DOCUMENT.sentence(error))
    sys.stdout.buffer.write(body)


if __name__ == "__main__":
    main()
