import os
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from studio.keeping import Keeper, kept_running

# Says its number, then waits until its input ends.
WAITS = "import os, sys; open(sys.argv[1], 'a').write(f'{os.getpid()}\\n'); sys.stdin.read()"


def command(file: Path, program: str = WAITS) -> list[str]:
    return [sys.executable, "-S", "-c", program, str(file)]


def numbers(file: Path) -> list[int]:
    return [int(line) for line in file.read_text().splitlines()] if file.exists() else []


def wait_until(is_so: Callable[[], bool]) -> None:
    until = time.monotonic() + 30
    while not is_so():
        assert time.monotonic() < until
        time.sleep(0.02)


def runs(number: int) -> bool:
    stat = Path(f"/proc/{number}/stat")
    return stat.exists() and stat.read_text().rpartition(")")[2].split()[0] != "Z"


@pytest.fixture
def said(tmp_path: Path) -> Path:
    return tmp_path / "said"


def test_program_runs_meanwhile_and_ends_with_it(said: Path) -> None:
    with kept_running(command(said)):
        wait_until(lambda: len(numbers(said)) == 1)
        assert runs(numbers(said)[0])
    assert not runs(numbers(said)[0])


def test_program_that_is_killed_is_started_again(said: Path, caplog: pytest.LogCaptureFixture) -> None:
    keeper = Keeper(command(said), first_pause=0.05)
    keeper.start()
    wait_until(lambda: len(numbers(said)) == 1)
    os.kill(numbers(said)[0], signal.SIGKILL)
    wait_until(lambda: len(numbers(said)) == 2)
    keeper.stop()
    assert not runs(numbers(said)[1])
    assert "The worker ended with code -9; it is started again in 0.05 s." in caplog.text


def test_pauses_grow(said: Path, caplog: pytest.LogCaptureFixture) -> None:
    keeper = Keeper(command(said, "raise SystemExit(3)"), first_pause=0.01)
    keeper.start()
    wait_until(lambda: len(caplog.records) >= 3)
    keeper.stop()
    pauses = [record.args[1] for record in caplog.records[:3]]
    assert pauses == [0.01, 0.02, 0.04]
    assert {record.args[0] for record in caplog.records} == {3}


def test_stopping_does_not_wait_for_a_pause(said: Path, caplog: pytest.LogCaptureFixture) -> None:
    keeper = Keeper(command(said, "raise SystemExit(3)"), first_pause=600)
    keeper.start()
    wait_until(lambda: len(caplog.records) == 1)
    keeper.stop()


def test_program_ends_when_its_keeper_is_killed(said: Path, tmp_path: Path) -> None:
    """Even while a process lives on that the keeper's own process has forked, as a web server does."""
    forked = tmp_path / "forked"
    keeper = os.fork()
    if keeper == 0:
        with kept_running(command(said)):
            server = os.fork()
            if server:
                forked.write_text(f"{server}\n")
            time.sleep(60)
            os._exit(0)
    wait_until(lambda: len(numbers(said)) == len(numbers(forked)) == 1)
    os.kill(keeper, signal.SIGKILL)
    os.waitpid(keeper, 0)
    try:
        wait_until(lambda: not runs(numbers(said)[0]))
    finally:
        os.kill(numbers(forked)[0], signal.SIGKILL)
