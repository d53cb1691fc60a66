from collections.abc import Callable
from datetime import datetime

import pytest

from orders import sweeping
from orders.correcting import sweep_corrections
from orders.housekeeping import keep_house
from orders.making import make_one_wanted
from orders.payment_sweep import sweep_payments
from orders.posting import send_due
from orders.ready import sweep_ready
from orders.sweeping import REST_SECONDS, sweep, work
from tests.orders.conftest import NOW

pytestmark = pytest.mark.django_db


def test_documents_are_swept() -> None:
    assert {make_one_wanted, sweep_ready, sweep_corrections, send_due, sweep_payments, keep_house} == set(
        sweeping.SWEEPS
    )


def with_sweeps(monkeypatch: pytest.MonkeyPatch, *sweeps: Callable[[datetime], int]) -> None:
    monkeypatch.setattr(sweeping, "SWEEPS", sweeps)


def test_each_has_its_turn_in_order(monkeypatch: pytest.MonkeyPatch) -> None:
    turns: list[tuple[str, datetime]] = []
    with_sweeps(
        monkeypatch,
        lambda now: turns.append(("one", now)) or 2,
        lambda now: turns.append(("other", now)) or 3,
    )
    assert sweep(NOW) == 5
    assert turns == [("one", NOW), ("other", NOW)]


def test_one_that_fails_keeps_none_from_its_turn(monkeypatch: pytest.MonkeyPatch) -> None:
    turns: list[str] = []

    def fails(now: datetime) -> int:
        raise RuntimeError("the post office is closed")

    with_sweeps(monkeypatch, fails, lambda now: turns.append("after it") or 1)
    with pytest.raises(RuntimeError, match="closed"):
        sweep(NOW)
    assert turns == ["after it"]


def test_worker_rests_only_when_nothing_is_due(monkeypatch: pytest.MonkeyPatch) -> None:
    due = iter([1, 2, 0, 1, 0])
    with_sweeps(monkeypatch, lambda now: next(due))
    rests: list[float] = []

    def is_told(seconds: float) -> bool:
        rests.append(seconds)
        return len(rests) == 6

    work(is_told)
    assert rests == [0, 0, 0, REST_SECONDS, 0, REST_SECONDS]
