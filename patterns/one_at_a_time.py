"""One search at a time for a visitor: whoever asks again before the answer is there is told to wait."""

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from threading import Lock

from django.conf import settings
from django.http import HttpRequest

from patterns.sources import source

# Each visitor's place is a byte of this file that may be locked; it stays empty.
LOCK_FILE = "searches.lock"
_HEX_DIGITS = 15  # 60 bits, which every file system can count

_lock = Lock()
_searching: set[int] = set()


class BusyError(Exception):
    """A search of the same visitor is still running."""


@contextmanager
def one_at_a_time(request: HttpRequest) -> Iterator[None]:
    """Hold the visitor's place while a search runs, in every process of this machine.

    Raises BusyError if it is taken.
    """
    place = int(source(request)[:_HEX_DIGITS], 16)
    with _lock:
        # The set parts the threads of this process, the file the processes: a process owns its locks whole.
        if place in _searching or not _is_locked_for_us(place):
            raise BusyError
        _searching.add(place)
    try:
        yield
    finally:
        with _lock:
            _searching.discard(place)
            fcntl.lockf(_file(), fcntl.LOCK_UN, 1, place)


def _is_locked_for_us(place: int) -> bool:
    try:
        fcntl.lockf(_file(), fcntl.LOCK_EX | fcntl.LOCK_NB, 1, place)
    except (BlockingIOError, PermissionError):  # which of the two it is, systems differ
        return False
    return True


@cache
def _file() -> int:
    """Open the file once: closing any of its handles would let go of all this process's locks."""
    return os.open(settings.SHOP_DATA / LOCK_FILE, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o600)
