"""What one process may take. The kernel holds it to that, and ends it whatever it is doing."""

import resource
import signal
from dataclasses import dataclass
from pathlib import Path

MEGABYTE = 1024 * 1024


def addresses() -> int:
    """Return how many bytes of addresses this process has; 0 where the system does not say.

    A forked child has those of its parent, whatever threads and libraries have asked for there.
    """
    try:
        pages = Path("/proc/self/statm").read_text(encoding="ascii").split()[0]
    except FileNotFoundError:  # only Linux has it
        return 0
    return int(pages) * resource.getpagesize()


@dataclass(frozen=True, slots=True)
class Limits:
    """seconds: by the clock. work_seconds: of a processor. megabytes: of addresses, beside those it has."""

    seconds: int
    work_seconds: int
    megabytes: int

    def hold(self) -> None:
        """Hold this process to the limits from here on."""
        for each in (signal.SIGTERM, signal.SIGINT, signal.SIGALRM):
            signal.signal(each, signal.SIG_DFL)
        signal.alarm(self.seconds)
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        # At the first limit comes a signal of its own, at the second the end.
        resource.setrlimit(resource.RLIMIT_CPU, (self.work_seconds, self.work_seconds + 5))
        most = addresses() + self.megabytes * MEGABYTE
        resource.setrlimit(resource.RLIMIT_AS, (most, most))

    def sentence(self, error: BaseException) -> str:
        """Say what went wrong inside a process that is held to the limits."""
        if isinstance(error, MemoryError):
            return f"It needed more than {self.megabytes} MB of memory."
        return f"{type(error).__name__}: {error}"

    def ending(self, code: int, said: str) -> str:
        """Say how a process ended, and nothing if well; a negative code is the signal that ended it."""
        if code == 0:
            return ""
        if code > 0:
            return said or f"It ended with code {code} and said nothing."
        match signal.Signals(-code):
            case signal.SIGALRM:
                return f"It took longer than {self.seconds} seconds."
            case signal.SIGXCPU:
                return f"It needed more than {self.work_seconds} seconds of work."
            case ended_by:
                return f"It was ended by {ended_by.name}, perhaps for want of memory."
