"""Placing the order of a basket: priced anew and kept, with the payment it waits for, in one transaction."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.db import IntegrityError, transaction
from django.utils import timezone

from orders import consents, letters, own_cloth
from orders.errors import KeyUsedError, NotForSaleError, PriceChangedError
from orders.keys import token_of, tokens_of
from orders.models import Order, OrderLine, Payment, hashed
from orders.paying import begin_transfer
from orders.placing import Placed, hold_to_limits, keep_line, refuse_superseded
from orders.pricing import Item, Kind, PricedBasket, PricedItem, priced_basket
from patterns.cutting.wish import NO_WISH
from patterns.cutting.wish import to_json as wish_json
from patterns.documents.names import clean_name
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sized_json import to_json
from patterns.money import money
from patterns.own_cloth import NO_CLOTHS, OwnCloths
from studio.models import Shop

NONE_OF_THEM: Mapping[str, OwnCloths] = {}


@dataclass(frozen=True, slots=True)
class Buyer:
    """Who buys. way: `transfer`, or the name of a provider. has_agreed: to both consents."""

    name: str
    email: str
    country: str
    way: str
    has_agreed: bool


def place_basket(
    items: Sequence[Item],
    buyer: Buyer,
    *,
    shown: str,
    key: str,
    source: str,
    now: datetime,
    own: Mapping[str, OwnCloths] = NONE_OF_THEM,
) -> Placed:
    """Place the order for a basket, or find the one that this very page has placed before.

    shown: the total that the customer agreed to, as `PricedBasket.shown` wrote it.
    own: the customer's own cloths, by the pattern's address.
    Raises NotForSaleError, RevisedError; PriceChangedError: the total is another one now; LimitMetError;
    KeyUsedError: the order is placed, and its link cannot be made again.
    """
    try:
        with transaction.atomic():
            return placed_with(key) or _place(
                items, buyer, shown=shown, key=key, source=source, now=now, own=own
            )
    except IntegrityError:
        # Where two transactions may run side by side, the other of a double click has placed it meanwhile.
        placed = placed_with(key)
        if placed is None:
            raise
        return placed


def placed_with(key: str) -> Placed | None:
    """The order that a page has placed. Its key says all that was on the page, so it is for nothing else."""
    order = Order.objects.placed_with(key).first()
    if order is None:
        return None
    token = next((token for token in tokens_of(key) if hashed(token) == order.link_hash), None)
    if token is None:
        raise KeyUsedError(order)
    return Placed(order, token)


def _place(
    items: Sequence[Item],
    buyer: Buyer,
    *,
    shown: str,
    key: str,
    source: str,
    now: datetime,
    own: Mapping[str, OwnCloths],
) -> Placed:
    basket = priced_basket(items, Shop.objects.current(), buyer.country, local_day(now))
    if basket.gone or not basket.items:
        raise NotForSaleError
    if shown != basket.shown:
        raise PriceChangedError(_in_words(shown), basket.total)
    for each in basket.items:
        refuse_superseded(each.revision)
    hold_to_limits(buyer.email, source, now, "unpaid" if basket.total_minor else "free")
    token = token_of(key)
    order = _order(basket, buyer, now)
    order.key_hash, order.link_hash, order.source = hashed(key), hashed(token), source
    order.save(force_insert=True)
    for line, sized in _lines(order, basket, now):
        line.own_cloth = own_cloth.keep(own.get(sized.recipe, NO_CLOTHS))
        keep_line(line, sized)
    if order.way == Payment.TRANSFER:
        begin_transfer(order, now)
    letters.order_placed(order, now)
    return Placed(order, token)


def _order(basket: PricedBasket, buyer: Buyer, now: datetime) -> Order:
    has_agreed = buyer.has_agreed and consents.are_asked(buyer.country, basket.total_minor)
    return Order(
        name=clean_name(buyer.name),
        email=buyer.email.lower(),
        country=buyer.country,
        way=buyer.way if basket.total_minor else "",
        placed_at=now,
        currency=basket.currency,
        total_minor=basket.total_minor,
        tax_minor=basket.tax_minor,
        tax_milli_percent=basket.milli_percent,
        tax_name=basket.tax_name,
        consent_text=consents.text() if has_agreed else "",
        consented_at=now if has_agreed else None,
    )


def _lines(order: Order, basket: PricedBasket, now: datetime) -> list[tuple[OrderLine, SizedPattern]]:
    """A line for each size, the first of an item with its price; positions run through the order."""
    pairs = [(item, at) for item in basket.items for at in range(len(item.sizes))]
    return [
        (_line(order, position, item, at, now), item.sizes[at])
        for position, (item, at) in enumerate(pairs, start=1)
    ]


def _line(order: Order, position: int, item: PricedItem, at: int, now: datetime) -> OrderLine:
    """at: which of the item's sizes it is for."""
    offer, batch, sized, is_first = item.way.offer, item.batch, item.sizes[at], at == 0
    is_year = offer.kind == Kind.YEAR and is_first
    title = f"{sized.title}: {item.size_names[at]}" if item.size_names else sized.title
    return OrderLine(
        order=order,
        position=position,
        revision=item.revision,
        title=title[:200],
        sized=to_json(sized),
        wish=None if item.cloth == NO_WISH else wish_json(item.cloth),
        price_minor=item.way.price_minor if is_first else 0,
        currency=order.currency,
        offer=offer,
        offer_kind=offer.kind,
        licence=offer.licence,
        is_included=not is_first,
        batch_minor=item.batch_minor if is_first else 0,
        batch_licence=batch.licence if batch else "",
        tax_minor=item.tax_minor if is_first else 0,
        any_size_until=a_year_after(local_day(now)) if is_year else None,
    )


def local_day(now: datetime) -> date:
    """Return the day in the shop's zone: the one by which rates and years are counted."""
    return timezone.localtime(now, Shop.objects.current().zone).date()


def a_year_after(day: date) -> date:
    """Return the same day of the next year; of 29 February the 28th."""
    try:
        return day.replace(year=day.year + 1)
    except ValueError:
        return day.replace(year=day.year + 1, day=28)


def _in_words(shown: str) -> str:
    """A total as a form carried it, or nothing that a stranger wrote into it."""
    minor, _, currency = shown.partition(" ")
    is_total = minor.isascii() and minor.isdigit() and len(minor) <= 15 and len(currency) == 3
    return (
        money(int(minor), currency) if is_total and currency.isascii() and currency.isalpha() else "another"
    )
