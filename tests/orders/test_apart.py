import mmap
import os
import signal
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from orders import apart
from orders.apart import failure_of
from patterns.limits import Limits


def raises() -> None:
    raise ValueError("a label lies on another")


def asks_for_too_much() -> None:
    bytearray(1 << 42)


def takes_too_long() -> None:
    signal.alarm(1)
    time.sleep(30)


def works_too_much() -> None:
    os.kill(os.getpid(), signal.SIGXCPU)


def is_killed() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def exits() -> None:
    raise SystemExit(0)


def test_act_is_done_in_another_process(tmp_path: Path) -> None:
    mark = tmp_path / "mark"
    assert failure_of(lambda: mark.write_text(str(os.getpid()))) == ""
    assert int(mark.read_text()) != os.getpid()


@pytest.mark.parametrize(
    ("act", "says"),
    [
        (raises, "ValueError: a label lies on another"),
        (asks_for_too_much, "It needed more than 1536 MB of memory."),
        (takes_too_long, "It took longer than 60 seconds."),
        (works_too_much, "It needed more than 40 seconds of work."),
        (is_killed, "It was ended by SIGKILL, perhaps for want of memory."),
        (exits, "SystemExit: 0"),
    ],
)
def test_failure_is_a_sentence(act: Callable[[], None], says: str) -> None:
    assert failure_of(act) == says


def test_addresses_of_the_parent_do_not_count() -> None:
    """Each of its threads may have asked for 64 MB of them."""
    with mmap.mmap(-1, 2 << 30):
        assert failure_of(lambda: bytearray(100 << 20)) == ""


def test_limits_are_set(monkeypatch: pytest.MonkeyPatch) -> None:
    """The kernel ends who works on and on, and who waits for ever."""
    monkeypatch.setattr(apart, "DOCUMENT", Limits(seconds=60, work_seconds=1, megabytes=1536))

    def works_on() -> None:
        while True:
            pass

    assert failure_of(works_on) == "It needed more than 1 seconds of work."
    monkeypatch.setattr(apart, "DOCUMENT", Limits(seconds=1, work_seconds=40, megabytes=1536))
    assert failure_of(lambda: time.sleep(30)) == "It took longer than 1 seconds."


def test_long_failure_is_cut_short() -> None:
    def raises_at_length() -> None:
        raise ValueError("é" * 100_000)

    assert failure_of(raises_at_length).startswith("ValueError: éé")
