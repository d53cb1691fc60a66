"""Taking away what is too old. Each takes a moment and the most rows to touch; done twice it is harmless."""

from datetime import datetime, timedelta
from typing import Final

from django.conf import settings
from django.contrib.sessions.models import Session
from django.db import transaction
from django.db.models import F, Q

from orders import own_cloth
from orders.models import IssuedDocument, Letter, Order, OrderLine, Payment
from patterns.documents.names import licence_line
from studio.models import Counted

UNPAID_FOR: Final = timedelta(days=180)
LETTERS_FOR: Final = timedelta(days=365)


def forget_sessions(now: datetime, most: int) -> int:
    """Delete visits that have expired: baskets that were left, and logins."""
    over = Session.objects.filter(expire_date__lt=now).values_list("pk", flat=True)[:most]
    return Session.objects.filter(pk__in=list(over)).delete()[0]


def forget_counts(now: datetime, most: int) -> int:
    """Delete what the default cache counts no longer."""
    over = Counted.objects.filter(expires__lt=now).values_list("pk", flat=True)[:most]
    return Counted.objects.filter(pk__in=list(over)).delete()[0]


def forget_sources(now: datetime, most: int) -> int:
    """Take the keyed hash of the network address out of orders that count towards no limit any more."""
    before = now - timedelta(hours=settings.FREE_ORDERS_HOURS)
    over = Order.objects.filter(placed_at__lt=before).exclude(source="").values_list("pk", flat=True)[:most]
    return Order.objects.filter(pk__in=list(over)).update(source="")


def forget_letters(now: datetime, most: int) -> int:
    """Take words and addresses out of old letters. The rows stay, because links were made for them."""
    over = Letter.objects.filter(created_at__lt=now - LETTERS_FOR).exclude(to="")
    pks = list(over.exclude(Q(sent_at=None) & Q(due_at__isnull=False)).values_list("pk", flat=True)[:most])
    return Letter.objects.filter(pk__in=pks).update(to="", text="", html="")


def forget_unpaid(now: datetime, most: int) -> int:
    """Take names, addresses and pictures out of orders that were never paid.

    The order, its sizes and its prices stay. Its transfer is waited for no longer; money that comes after
    all still finds the order.
    """
    orders = Order.objects.never_paid(now - UNPAID_FOR).exclude(email="")
    numbers = list(orders.values_list("pk", flat=True)[:most])
    for number in numbers:
        _forget_unpaid(number)
    return len(numbers)


def _forget_unpaid(number: int) -> None:
    with transaction.atomic():
        # With nobody to write to, nobody is told that files are ready.
        nameless = {"name": "", "email": "", "source": "", "ready_at": F("placed_at")}
        Order.objects.filter(pk=number, paid_minor=0).update(**nameless)
        # Letters with the links of several orders are the affair of the one who asked for them.
        letters = Letter.objects.filter(orders=number).exclude(kind=Letter.Kind.LINKS_AGAIN)
        letters.update(to="", due_at=None)
        unmade = IssuedDocument.objects.filter(line__order=number)
        unmade.update(licence_line=licence_line(str(number), ""))
        begun = Payment.objects.filter(order=number, provider=Payment.TRANSFER, state=Payment.State.BEGUN)
        begun.update(state=Payment.State.FAILED)
        for line in OrderLine.objects.filter(order=number, own_cloth__isnull=False):
            own_cloth.forget(line)
