"""Making links to orders for letters, and asking to have them sent again."""

import secrets
from datetime import datetime, timedelta

from django.conf import settings
from django.db import transaction
from django.urls import reverse
from django.utils.crypto import salted_hmac

from orders import letters
from orders.errors import LinksLimitMetError
from orders.keys import TOKEN_BYTES
from orders.models import Letter, LinksAsked, Order, OrderLink, hashed

# So many orders stand in one letter, the newest; who has more is told to write.
MOST_IN_A_LETTER = 100
# So many requests are answered in one go.
MOST_AT_ONCE = 50


def address_of(token: str) -> str:
    """Return the whole address of an order. The host is the shop's own setting, whoever asks."""
    return settings.SITE_URL + reverse("orders:order-detail", args=[token])


def with_links(letter: Letter, now: datetime) -> tuple[str, str]:
    """Return the letter's text and HTML with a fresh link in the place of each mark.

    Each try has links of its own: one that failed may still have been delivered, and its links must open.
    """
    text, html = letter.text, letter.html
    for order in letter.orders.all():
        token = secrets.token_urlsafe(TOKEN_BYTES)
        OrderLink.objects.create(order=order, letter=letter, link_hash=hashed(token), made_at=now)
        address, mark = address_of(token), letters.mark(order)
        text, html = text.replace(mark, address), html.replace(mark, address)
    return text, html


def ask_for_links(email: str, source: str, now: datetime) -> None:
    """Note that somebody wants the links of an address: the same work whether it has orders or none.

    Whether it has is looked up by whoever answers, so neither words nor time tell the asker.
    Raises LinksLimitMetError, which counts what was asked and knows no orders either.
    """
    email = email.lower()
    email_hash = salted_hmac("orders.links.email", email, algorithm="sha256").hexdigest()
    with transaction.atomic():
        _hold_to_limits(email_hash, source, now)
        LinksAsked.objects.create(email=email, email_hash=email_hash, source=source, asked_at=now)


def answer_asked(now: datetime) -> int:
    """Write the letters that were asked for; return how many requests were answered.

    A bounded batch, oldest first.
    """
    return sum(_answer(asked, now) for asked in LinksAsked.objects.waiting()[:MOST_AT_ONCE])


def forget_asked(now: datetime, most: int) -> int:
    """Delete what was answered and counts towards no limit any more, so many rows at the most."""
    over = LinksAsked.objects.over_before(now - _window()).values_list("pk", flat=True)[:most]
    return LinksAsked.objects.filter(pk__in=list(over)).delete()[0]


def _answer(asked: LinksAsked, now: datetime) -> bool:
    """Answer one request, unless another process was first."""
    with transaction.atomic():
        mine = LinksAsked.objects.waiting().filter(pk=asked.pk).update(answered_at=now, email="")
        if not mine:
            return False
        found = Order.objects.from_email(asked.email).newest_first()
        newest = list(found.with_lines()[:MOST_IN_A_LETTER])
        if newest:
            # To the address as the order has it: one that only resembles it in other letters gets nothing.
            letters.links_again(newest[0].email, newest, found.count() - len(newest), now)
    return True


def _hold_to_limits(email_hash: str, source: str, now: datetime) -> None:
    window = _window()
    recent = LinksAsked.objects.since(now - window)
    limits = (
        ("one e-mail address", settings.LINKS_AGAIN_PER_EMAIL, recent.filter(email_hash=email_hash)),
        ("one internet connection", settings.LINKS_AGAIN_PER_SOURCE, recent.filter(source=source)),
    )
    for whose, most, asked in limits:
        newest = list(asked.order_by("-asked_at").values_list("asked_at", flat=True)[:most])
        if len(newest) == most:
            raise LinksLimitMetError(whose, most, settings.LINKS_AGAIN_HOURS, newest[-1] + window)


def _window() -> timedelta:
    return timedelta(hours=settings.LINKS_AGAIN_HOURS)
