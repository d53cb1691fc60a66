import os
import signal
import threading
from collections.abc import Iterator

import pytest

from studio.stopping import Told


@pytest.fixture(autouse=True)
def usual_signals() -> Iterator[None]:
    usual = {each: signal.getsignal(each) for each in (signal.SIGTERM, signal.SIGINT)}
    yield
    for each, handler in usual.items():
        signal.signal(each, handler)


def test_nobody_has_told():
    assert not Told()(0.01)


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT])
def test_signal_tells_and_is_not_forgotten(number):
    told = Told()
    os.kill(os.getpid(), number)
    assert told(600)
    assert told(600)


def test_signal_ends_the_wait():
    told = Told()
    threading.Timer(0.05, os.kill, (os.getpid(), signal.SIGTERM)).start()
    assert told(600)


def test_end_of_the_input_tells_and_what_comes_in_before_does_not():
    reads, writes = os.pipe()
    told = Told(reads)
    os.write(writes, b"still there")
    assert not told(600)
    os.close(writes)
    assert told(600)
    os.close(reads)
