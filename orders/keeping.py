"""What is kept of customers, how long, and why: one list, which they read and the worker obeys."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.conf import settings

from orders.forgetting import (
    LETTERS_FOR,
    UNPAID_FOR,
    forget_counts,
    forget_letters,
    forget_sessions,
    forget_sources,
    forget_unpaid,
)
from orders.further_links import forget_asked
from patterns.own_cloth import sweep_own_cloths

OFTEN, HOURLY, DAILY = timedelta(minutes=10), timedelta(hours=1), timedelta(days=1)
# So many rows go in one portion, so that nobody waits long for the database.
AT_ONCE = 500

Deletes = Callable[[datetime, int], int]
"""Takes away what is too old at a moment, at the most so much; returns how much it was. Twice is harmless."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One kind of thing that is kept. name, how_long, why: in sentences, for customers.

    deletes: what takes it away, and by: what that does, for the owner; none where it is kept for good.
    every: how often it is seen to.
    """

    key: str
    name: str
    how_long: str
    why: str
    by: str = ""
    deletes: Deletes | None = None
    every: timedelta = DAILY


def rules() -> tuple[Rule, ...]:
    """Return every rule, in the order in which a customer meets what it is about."""
    return (
        Rule(
            "basket",
            "Your basket, and what you typed at the checkout",
            f"{_span(timedelta(seconds=settings.SESSION_COOKIE_AGE))} after you last changed any of it.",
            "So that the basket is still there when you come back with the same browser.",
            "Deletes visits (sessions) that have expired.",
            forget_sessions,
        ),
        Rule(
            "own-cloth",
            "A picture of your own cloth",
            "One day. If you order a size drawn in it, the part that was used stays with the order.",
            "To show you the pattern in it. Nobody else sees it.",
            "Deletes the pictures of each hour once that is a day past.",
            lambda now, most: sweep_own_cloths(now),
            OFTEN,
        ),
        Rule(
            "orders",
            "Your order: name, e-mail address, country, size, what was paid, and the files",
            "For good.",
            "So that you can have the same files again next year, and because sellers have to keep their "
            "records of sales for years.",
        ),
        Rule(
            "unpaid",
            "An order that was never paid",
            f"{_span(UNPAID_FOR)}. After that the name, the e-mail address and pictures are deleted from it.",
            "Some transfers take long to come, or are asked about late.",
            "Takes names, addresses and pictures out of such orders; they wait for no transfer any more.",
            forget_unpaid,
        ),
        Rule(
            "sources",
            "Where an order came from on the internet",
            f"{_span(timedelta(hours=settings.FREE_ORDERS_HOURS))}, as a code that cannot be turned back "
            "into an address.",
            "To stop a machine that orders without end.",
            "Takes the code out of orders that count towards no limit any more.",
            forget_sources,
            HOURLY,
        ),
        Rule(
            "letters",
            "The letters that the shop sent you",
            f"{_span(LETTERS_FOR)}. After that their words and your address are deleted; the links in them "
            "stay good.",
            "So that the shop can see what you were told if you ask.",
            "Takes words and addresses out of old letters.",
            forget_letters,
        ),
        Rule(
            "links-asked",
            "The e-mail address that you typed to have your links sent again",
            "Until it is answered, some minutes at the most. A code that cannot be turned back into it stays "
            f"for {_span(timedelta(hours=settings.LINKS_AGAIN_HOURS)).lower()}.",
            "To count how often links are asked for, so that nobody is flooded with letters.",
            "Deletes what was answered and counts towards no limit any more.",
            forget_asked,
            HOURLY,
        ),
        Rule(
            "counts",
            "Wrong passwords at the workroom’s door, with the network address they came from",
            "Some minutes, as counts.",
            "To stop guessing.",
            "Deletes counts that have expired.",
            forget_counts,
            HOURLY,
        ),
        Rule(
            "steps",
            "How far you are with the steps beside the machine",
            "Until you clear it: it stays in your own browser and is never sent to the shop.",
            "So that you find the step again.",
        ),
    )


def _span(span: timedelta) -> str:
    """Return a span of whole hours in words.

    >>> _span(timedelta(days=14)), _span(timedelta(hours=24)), _span(timedelta(hours=30))
    ('14 days', '24 hours', '30 hours')
    """
    hours = span // timedelta(hours=1)
    if hours >= 48 and hours % 24 == 0:
        return f"{hours // 24} days"
    return f"{hours} hour{'' if hours == 1 else 's'}"
