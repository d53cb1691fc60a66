"""Why an order was not placed, a letter not asked for, or something not made: this room's errors."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from django.utils import formats, timezone

if TYPE_CHECKING:
    from orders.models import Order


class OrderError(ValueError):
    """What was asked for was not done; the text is a sentence for the customer."""


class RefusedSizeError(OrderError):
    """A check of the pattern refuses the size."""

    def __init__(self) -> None:
        super().__init__("The pattern cannot be made at this size.")


class RevisedError(OrderError):
    """The revision that was looked at is no longer the one that is sold."""

    def __init__(self) -> None:
        super().__init__(
            "The pattern was revised while you were here. This is the new revision at your size: "
            "look at it again, then place the order."
        )


class NotForSaleError(OrderError):
    """What the form asks for is not sold, or not for nothing."""

    def __init__(self) -> None:
        super().__init__("This is not sold in that way any more. Look at the pattern again.")


class PriceChangedError(OrderError):
    """The price is no longer the one that the page showed."""

    def __init__(self, was: str, now: str) -> None:
        super().__init__(
            f"The price was {was} when this page was made, and is {now} now. Nothing was ordered. Look at it "
            "again, and order only if you agree."
        )


class NotPaidError(OrderError):
    """The order's files are not the customer's yet, or no longer."""

    def __init__(self, order: Order) -> None:
        super().__init__(f"Order {order.number} is not paid.")


class AlreadyPaidError(OrderError):
    """Nothing is to be paid for the order."""

    def __init__(self, order: Order) -> None:
        super().__init__(f"Nothing is to be paid for order {order.number}.")


class RefundTooMuchError(OrderError):
    """More would be given back than was paid. left: what can be given back still, in words."""

    def __init__(self, left: str) -> None:
        super().__init__(f"That is more than is left of this payment. At most {left} can be given back.")


class LimitMetError(OrderError):
    """The e-mail address, or the place the request came from, has had its free or its unpaid orders.

    again_at: when the next one can be placed. kind: `free` or `unpaid`.
    """

    def __init__(self, whose: str, most: int, hours: int, again_at: datetime, kind: str = "free") -> None:
        self.again_at = again_at
        when = formats.date_format(timezone.localtime(again_at), "j F Y, H:i")
        orders = f"One {kind} order" if most == 1 else f"{most} {kind} orders"
        window = "one hour" if hours == 1 else f"{hours} hours"
        super().__init__(
            f"{orders} in {window} is the most for {whose}, and that many have been placed. "
            f"The next can be placed after {when}."
        )


class LinksLimitMetError(ValueError):
    """The e-mail address, or the place the request came from, has asked for links often enough."""

    def __init__(self, whose: str, most: int, hours: int, again_at: datetime) -> None:
        when = formats.date_format(timezone.localtime(again_at), "j F Y, H:i")
        often = "once" if most == 1 else f"{most} times"
        window = "one hour" if hours == 1 else f"{hours} hours"
        super().__init__(
            f"Links are sent at most {often} in {window} for {whose}, and they were asked for that often. "
            f"Look in the spam folder for the earlier letter, or ask again after {when}."
        )


class KeyUsedError(OrderError):
    """The form has placed an order already, and cannot simply be answered with that order's page.

    Either it now asks for something else, or the shop's secret was changed since, and the link cannot be made
    again. The order's link is not given away: another person may be sitting at the same browser.
    """

    def __init__(self, order: Order) -> None:
        self.order = order
        super().__init__(
            f"Order {order.number} was placed with this form before, when it said something else. To place "
            "another order, for what it says now, send it once more."
        )


class NoOtherSystemError(OrderError):
    """Nothing near the size works in the other unit system."""

    def __init__(self, units: str) -> None:
        super().__init__(
            f"This size has no near one in {units} that the pattern can be made at. Write to the shop, and "
            "name your order: a size a little farther off may serve."
        )
