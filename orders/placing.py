"""Placing an order: everything that a sale must leave behind, in one transaction."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from fractions import Fraction

from django.conf import settings
from django.db import IntegrityError, transaction

from orders import letters
from orders import own_cloth as own_cloths
from orders.errors import KeyUsedError, LimitMetError, NotForSaleError, RefusedSizeError, RevisedError
from orders.keys import token_of, tokens_of
from orders.models import Order, OrderLine, SizeSold, hashed
from orders.promising import promise
from orders.sizes import millionths, nanometres
from patterns.cutting.wish import NO_WISH, Wish
from patterns.cutting.wish import to_json as wish_json
from patterns.documents.names import clean_name
from patterns.drafting.lengths import exact
from patterns.drafting.sized import SizedMeasure, SizedPattern
from patterns.drafting.sized_json import to_json
from patterns.models import Revision
from patterns.own_cloth import NO_CLOTHS, OwnCloths
from patterns.sale import sale_now
from studio.models import Shop


@dataclass(frozen=True, slots=True)
class Placed:
    """An order and the token of its link, which is known only to who holds the form or the link."""

    order: Order
    token: str


@dataclass(frozen=True, slots=True)
class _Wish:
    """What one form asks for. The name is clean, the address in small letters."""

    revision: Revision
    sized: SizedPattern
    data: dict[str, object]
    name: str
    email: str
    key: str
    cloth: dict[str, object] | None
    own_cloth: OwnCloths


def place_order(
    revision: Revision,
    sized: SizedPattern,
    *,
    name: str,
    email: str,
    key: str,
    source: str,
    now: datetime,
    cloth: Wish = NO_WISH,
    own_cloth: OwnCloths = NO_CLOTHS,
) -> Placed:
    """Place a free order, or find the one that this very form has placed before.

    cloth: what the customer said of it. own_cloth: pictures of theirs.
    key: as `orders.keys` made it. source: as `sources.source` made it.
    Raises RefusedSizeError; RevisedError: a newer revision is sold now; NotForSaleError: this size is not
    free; LimitMetError; KeyUsedError: the form has placed something else before.
    """
    if sized.recipe != revision.pattern.slug:
        raise ValueError(f"{sized.recipe} was not sized from {revision}.")
    if sized.is_refused:
        raise RefusedSizeError
    kept_cloth = None if cloth == NO_WISH else wish_json(cloth)
    wish = _Wish(revision, sized, to_json(sized), clean_name(name), email.lower(), key, kept_cloth, own_cloth)
    try:
        with transaction.atomic():
            return _placed_before(wish) or _place(wish, source, now)
    except IntegrityError:
        # Where two transactions may run side by side, the other of a double click has placed it meanwhile.
        placed = _placed_before(wish)
        if placed is None:
            raise
        return placed


def _placed_before(wish: _Wish) -> Placed | None:
    order = Order.objects.placed_with(wish.key).first()
    if order is None:
        return None
    token = next((token for token in tokens_of(wish.key) if hashed(token) == order.link_hash), None)
    if token is None or not _is_what_was_placed(wish, order):
        raise KeyUsedError(order)
    return Placed(order, token)


def _is_what_was_placed(wish: _Wish, order: Order) -> bool:
    """Whether the order is for the same size of the same revision and cloth, and for the same person."""
    lines = [(line.revision_id, line.sized, line.wish) for line in order.lines.sold()]
    wanted = [(wish.revision.pk, wish.data, wish.cloth)]
    return (order.name, order.email, lines) == (wish.name, wish.email, wanted)


def _place(wish: _Wish, source: str, now: datetime) -> Placed:
    refuse_superseded(wish.revision)
    currency = Shop.objects.current().currency
    free = sale_now(wish.revision.pattern, wish.revision.recipe, wish.sized, currency).free
    if free is None:
        raise NotForSaleError
    hold_to_limits(wish.email, source, now)
    token = token_of(wish.key)
    order = Order.objects.create(
        key_hash=hashed(wish.key),
        link_hash=hashed(token),
        name=wish.name,
        email=wish.email,
        source=source,
        placed_at=now,
        currency=currency,
        total_minor=0,
    )
    line = OrderLine(
        order=order,
        revision=wish.revision,
        title=wish.sized.title,
        sized=wish.data,
        wish=wish.cloth,
        own_cloth=own_cloths.keep(wish.own_cloth),
        price_minor=0,
        currency=currency,
        offer=free.offer,
        offer_kind=free.offer.kind,
        licence=free.offer.licence,
    )
    keep_line(line, wish.sized)
    letters.order_placed(order, now)
    return Placed(order, token)


def refuse_superseded(revision: Revision) -> None:
    """Raise RevisedError if a newer revision of the pattern is sold now."""
    if Revision.objects.filter(pattern=revision.pattern_id, number__gt=revision.number).exists():
        raise RevisedError


def keep_line(line: OrderLine, sized: SizedPattern) -> None:
    """Keep a line of an order with the documents that it promises and the sizes that it sells."""
    line.save(force_insert=True)
    promise(line, sized)
    SizeSold.objects.bulk_create(_size_sold(line, sized, measure) for measure in sized.measures)


def hold_to_limits(email: str, source: str, now: datetime, kind: str = "free") -> None:
    """Raise LimitMetError if the address or the source has had its free orders, or its unpaid ones.

    Counted in the transaction that places the order. On SQLite nobody else writes meanwhile; elsewhere
    orders placed in the same instant may pass together, one beyond the limit for each of them.
    """
    window = timedelta(hours=settings.FREE_ORDERS_HOURS)
    orders = Order.objects.all()
    recent = orders.free_since(now - window) if kind == "free" else orders.unpaid_since(now - window)
    limits = (
        ("one e-mail address", settings.FREE_ORDERS_PER_EMAIL, recent.from_email(email)),
        ("one internet connection", settings.FREE_ORDERS_PER_SOURCE, recent.from_source(source)),
    )
    for whose, most, found in limits:
        newest = list(found.order_by("-placed_at").values_list("placed_at", flat=True)[:most])
        if len(newest) == most:
            raise LimitMetError(whose, most, settings.FREE_ORDERS_HOURS, newest[-1] + window, kind)


def _size_sold(line: OrderLine, sized: SizedPattern, measure: SizedMeasure) -> SizeSold:
    value, units = Fraction(measure.value), sized.units
    is_length = measure.power == 1
    return SizeSold(
        line=line,
        pattern=line.revision.pattern,
        measure=measure.name,
        text=exact(measure.value, measure.power, units),
        units=units.value if is_length else "",
        nanometres=nanometres(value) if is_length else None,
        millionths=None if is_length else millionths(value),
    )
