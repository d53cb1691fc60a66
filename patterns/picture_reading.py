"""An uploaded picture, opened in a process of its own and made again."""

import dataclasses
import io
import json
import logging
import os
import threading
from collections.abc import Sequence
from typing import Final, Protocol

from django.core.exceptions import ValidationError

from patterns.children import ChildError, answer_of
from patterns.picture_rules import PICTURE, MadeFile, Wanted

logger = logging.getLogger(__name__)

PATIENCE: Final = 30
# What a program needs to be started; the shop's secrets are not for a process that opens strangers' files.
SURROUNDINGS: Final = ("PATH", "LD_LIBRARY_PATH", "LANG", "SYSTEMROOT")
NOT_OPENED: Final = (
    "The picture could not be opened within the time and memory that one may take. "
    "Make it smaller, or save it once more as JPEG, and send that."
)
# A web process opens one picture at a time.
_one_at_a_time = threading.Lock()


class Upload(Protocol):
    """What was sent, as Django's forms give it."""

    size: int | None

    def read(self) -> bytes: ...


def pictures_of(upload: Upload, wanted: Wanted) -> list[MadeFile]:
    """Return the pictures made of an upload, the smallest first.

    Raises ValidationError, which says why it is refused and what to send.
    """
    if (upload.size or 0) > wanted.most_bytes:
        raise ValidationError(too_heavy(wanted))
    head = json.dumps(dataclasses.asdict(wanted)).encode() + b"\n"
    surroundings = {name: os.environ[name] for name in SURROUNDINGS if name in os.environ}
    try:
        with _one_at_a_time:
            said = answer_of("patterns.picture_child", head + upload.read(), PICTURE, PATIENCE, surroundings)
    except ChildError as error:
        logger.warning("An uploaded picture could not be opened: %s", error)
        raise ValidationError(NOT_OPENED) from None
    return _files(said)


def too_heavy(wanted: Wanted) -> str:
    return f"The file is larger than {wanted.most_megabytes} MB. Make the picture smaller and send that."


def _files(said: bytes) -> list[MadeFile]:
    stream = io.BytesIO(said)
    told = json.loads(stream.readline())
    if "mistake" in told:
        raise ValidationError(told["mistake"])
    return [
        MadeFile(each["width"], each["height"], each["format"], stream.read(each["bytes"]))
        for each in told["files"]
    ]


def widths_of(made: Sequence[MadeFile]) -> list[int]:
    """Return the widths that were made, each once, the smallest first."""
    return sorted({each.width for each in made})
