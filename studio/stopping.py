"""Being told to stop: by a signal, or because the input that somebody holds open for us has ended."""

import os
import select
import signal
from types import FrameType


class Told:
    """Waits, and knows whether this process was told to stop.

    What is under way when a signal comes is brought to its end first. input: a file descriptor; its end,
    which comes even where its holder was killed, tells us too. None: only signals do.
    """

    def __init__(self, input: int | None = None) -> None:
        self._is_told = False
        self._reads, self._writes = os.pipe()
        self._heard = [self._reads] if input is None else [self._reads, input]
        for each in (signal.SIGTERM, signal.SIGINT):
            signal.signal(each, self._tell)

    def _tell(self, signal_number: int, frame: FrameType | None) -> None:
        os.write(self._writes, b".")

    def __call__(self, seconds: float) -> bool:
        """Wait so long, or until told to stop; return whether that was."""
        if not self._is_told:
            readable, _, _ = select.select(self._heard, [], [], seconds)
            self._is_told = any(each == self._reads or not os.read(each, 1024) for each in readable)
        return self._is_told
