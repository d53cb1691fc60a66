"""A process that is kept running beside this one, and ends with it."""

import logging
import os
import signal
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from time import monotonic

logger = logging.getLogger(__name__)

FIRST_PAUSE, LONGEST_PAUSE = 1.0, 60.0
# Whoever ran for so long had begun well: the next pause is the first again.
LONG_ENOUGH = 60.0
# Seconds that it has for what it is in the middle of, once it is told to stop.
PATIENCE = 20


@contextmanager
def kept_running(command: Sequence[str]) -> Iterator[None]:
    """Keep a program running meanwhile. Its input stays open so long: it ends even if we are killed.

    command: the whole path of the program, then its arguments.
    """
    keeper = Keeper(command)
    keeper.start()
    try:
        yield
    finally:
        keeper.stop()


class Keeper:
    """Starts a program, and starts it again with growing pauses whenever it ends."""

    def __init__(self, command: Sequence[str], first_pause: float = FIRST_PAUSE) -> None:
        self.command, self.first_pause = list(command), first_pause
        self.process = 0
        self._input, self._held_open = os.pipe()
        self._may_start = threading.Lock()
        self._is_stopping = threading.Event()
        self._thread = threading.Thread(target=self._keep, name="keeper", daemon=True)
        # A server's own processes are forked, and would hold the input open when the server is gone.
        os.register_at_fork(after_in_child=self._let_go)

    def start(self) -> None:
        self._thread.start()

    def stop(self) -> None:
        """End the program: it may finish what it is in the middle of, for a while."""
        with self._may_start:
            self._is_stopping.set()
            self._send(signal.SIGTERM)
        self._thread.join(PATIENCE)
        if self._thread.is_alive():
            with self._may_start:
                self._send(signal.SIGKILL)
            self._thread.join()
        os.close(self._held_open)
        os.close(self._input)

    def _keep(self) -> None:
        pause = self.first_pause
        while self._begin():
            began = monotonic()
            status = self._wait()
            if self._is_stopping.is_set():
                return
            if monotonic() - began >= LONG_ENOUGH:
                pause = self.first_pause
            code = os.waitstatus_to_exitcode(status)
            logger.warning("The worker ended with code %s; it is started again in %g s.", code, pause)
            self._is_stopping.wait(pause)
            pause = min(2 * pause, LONGEST_PAUSE)

    def _begin(self) -> bool:
        """Start the program, unless it is to stop: between asking and starting nobody may come.

        Spawned, and not by `subprocess`, which waits for a pipe to close that a process forked by the
        server in the same moment keeps open. In a session of its own no Ctrl-C reaches it: `stop` tells it.
        """
        with self._may_start:
            if self._is_stopping.is_set():
                return False
            as_its_input = [(os.POSIX_SPAWN_DUP2, self._input, 0)]
            self.process = os.posix_spawn(
                self.command[0], self.command, os.environ, file_actions=as_its_input, setsid=True
            )
            return True

    def _wait(self) -> int:
        """Return how the program ended; from then on its number may be another's, and gets no signal."""
        os.waitid(os.P_PID, self.process, os.WEXITED | os.WNOWAIT)
        with self._may_start:
            ended, self.process = self.process, 0
            return os.waitpid(ended, 0)[1]

    def _send(self, number: signal.Signals) -> None:
        if self.process:
            os.kill(self.process, number)

    def _let_go(self) -> None:
        if not self._is_stopping.is_set():
            os.close(self._held_open)
