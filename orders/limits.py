"""What one document may take. The kernel holds a process to it, and ends it whatever it is doing."""

import resource
import signal

# A book takes two seconds, the largest templates five; a machine that is busy, some times that.
MOST_SECONDS = 60
MOST_WORK_SECONDS = 40
# Of addresses, of which a book needs less than a third.
MOST_MEGABYTES = 1536
MEGABYTE = 1024 * 1024
ENDS = {
    signal.SIGALRM: f"It took longer than {MOST_SECONDS} seconds.",
    signal.SIGXCPU: f"It needed more than {MOST_WORK_SECONDS} seconds of work.",
}
TOO_LARGE = f"It needed more than {MOST_MEGABYTES} MB of memory."


def limit() -> None:
    """Hold this process to the limits from here on."""
    for each in (signal.SIGTERM, signal.SIGINT, signal.SIGALRM):
        signal.signal(each, signal.SIG_DFL)
    signal.alarm(MOST_SECONDS)
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    # At the first limit comes a signal of its own, at the second the end.
    resource.setrlimit(resource.RLIMIT_CPU, (MOST_WORK_SECONDS, MOST_WORK_SECONDS + 5))
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEGABYTES * MEGABYTE, MOST_MEGABYTES * MEGABYTE))


def sentence(error: BaseException) -> str:
    """Say what went wrong inside a process that is held to the limits."""
    return TOO_LARGE if isinstance(error, MemoryError) else f"{type(error).__name__}: {error}"


def ending(code: int, said: str) -> str:
    """Say how a process ended, and nothing if well; a negative code is the signal that ended it."""
    if code == 0:
        return ""
    if code > 0:
        return said or f"It ended with code {code} and said nothing."
    ended_by = signal.Signals(-code)
    return ENDS.get(ended_by, f"It was ended by {ended_by.name}, perhaps for want of memory.")
