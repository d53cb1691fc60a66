"""What the worker does: whatever is due, a piece at a time, for as long as it runs."""

from collections.abc import Callable
from contextlib import ExitStack
from datetime import datetime

from django.db import close_old_connections
from django.utils import timezone

from orders.correcting import sweep_corrections
from orders.housekeeping import keep_house
from orders.making import make_one_wanted
from orders.payment_sweep import sweep_payments
from orders.posting import send_due
from orders.ready import sweep_ready

Sweep = Callable[[datetime], int]
"""Does a bounded piece of the work that is due at a moment, and returns how many things it did."""

SWEEPS: tuple[Sweep, ...] = (
    make_one_wanted,
    sweep_ready,
    sweep_corrections,
    send_due,
    sweep_payments,
    keep_house,
)
# How long the worker rests when nothing is due: a customer hardly notices, and the database neither.
REST_SECONDS = 1.0


def sweep(now: datetime) -> int:
    """Give each sweep its turn and return how many things were done.

    A sweep that fails keeps none of the others from its turn; its error is raised when all have had theirs.
    """
    done: list[int] = []
    with ExitStack() as turns:
        for each in reversed(SWEEPS):
            turns.callback(_turn, each, now, done)
    return sum(done)


def _turn(each: Sweep, now: datetime, done: list[int]) -> None:
    done.append(each(now))


def work(is_told: Callable[[float], bool]) -> None:
    """Sweep until told to stop. is_told: waits so many seconds, less if told to stop meanwhile."""
    rest = 0.0
    while not is_told(rest):
        close_old_connections()
        rest = 0.0 if sweep(timezone.now()) else REST_SECONDS
