"""An invented shop to look at: its name and terms, its patterns, its owner, and one real order.

Everything here is kept where it is there already, so it may run again.
"""

import secrets
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.contrib.auth import get_user_model
from django.core.management.base import CommandError
from django.core.signing import Signer
from django.utils import timezone

from orders.errors import KeyUsedError
from orders.issuing import issue
from orders.keys import KEY_SALT, tokens_of
from orders.models import IssuedDocument, Order, hashed
from orders.placing import place_order
from patterns import starters
from patterns.drafting.lengths import read_length
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.models import Offer, Pattern
from patterns.offers_form import BATCH, PERSONAL
from patterns.publishing import publish
from studio.models import SHOP_PK, Shop

OWNER = "owner"
SHOP = {
    "name": "Thimble Weir Patterns",
    "email": "post@thimble-weir.example",
    "currency": "GBP",
    "units": Shop.Units.INCHES,
    "time_zone": "Europe/London",
    "terms": (
        "Sew as many as you like, for yourself and as gifts; to sell them, take a small-batch licence. "
        "Please do not copy the book or pass it on: it was worked out for the person named at its foot."
    ),
    "transfer_details": (
        "Thimble Weir Patterns, Invented Bank\n"
        "Account 00000000, sort code 00-00-00 (this account does not exist: send no money)"
    ),
    "cautions": (
        "Irons are hot, needles and blades sharp: keep children and animals away from both.\n"
        "Try the iron on a scrap of each fabric first."
    ),
}
_KINDS = Offer.Kind
# Kind, pence, the named size that is free: each way of selling once.
OFFERS: dict[str, tuple[tuple[str, int, str], ...]] = {
    "boxed-tote": (
        (_KINDS.ONE_SIZE, 650, ""),
        (_KINDS.CHART, 1400, ""),
        (_KINDS.YEAR, 1900, ""),
        (_KINDS.BATCH, 1200, ""),
    ),
    "zip-pouch": ((_KINDS.ONE_FREE, 450, "For pens"), (_KINDS.BATCH, 900, "")),
    "round-bucket": ((_KINDS.ONE_SIZE, 550, ""),),
}
CUSTOMER = {"name": "Isolde Marchbank", "email": "isolde@marchbank.example"}
BASKET, BASKET_SIZE = "fold-flat-basket", {"width": "8 1/2", "height": "6", "depth": "4 3/4"}


@dataclass(frozen=True, slots=True)
class DemoOrder:
    """The demo's order, its link's token (None where it cannot be made again) and its book."""

    order: Order
    token: str | None
    book: Path


def refuse_real_orders() -> None:
    """Raise CommandError where the database is a shop's own: it has orders, and is not the demo."""
    if Order.objects.exists() and not Shop.objects.current().is_demo:
        raise CommandError(
            f"{settings.DATABASES['default']['NAME']} holds real orders: the demo leaves it alone. "
            "Set SHOP_DATA to another folder for the demo."
        )


def make_shop() -> None:
    """Turn an empty database into the demo shop."""
    if not Shop.objects.current().is_demo:
        Shop.objects.update_or_create(pk=SHOP_PK, defaults={**SHOP, "is_demo": True})


def publish_starters() -> list[Pattern]:
    """Publish and list the starter recipes that are not there; return the patterns that were."""
    made = []
    for slug in starters.slugs():
        if Pattern.objects.filter(slug=slug).exists():
            continue
        pattern = Pattern.objects.create(slug=slug, title=starters.read_starter(slug).title, is_listed=True)
        publish(pattern, starters.text_of(slug))
        _offer(pattern)
        made.append(pattern)
    return made


def _offer(pattern: Pattern) -> None:
    """Sell a starter in one of the ways that there are; what is not named here stays free."""
    for kind, price_minor, size_name in OFFERS.get(pattern.slug, ()):
        if kind in Offer.BY_SIZE:
            pattern.offers.filter(kind=Offer.Kind.FREE).update(is_on_sale=False)
        Offer.objects.create(
            pattern=pattern,
            kind=kind,
            price_minor=price_minor,
            currency=SHOP["currency"],
            size_name=size_name,
            licence=BATCH if kind == Offer.Kind.BATCH else PERSONAL,
        )


def make_owner() -> str | None:
    """Make the owner's login; return its password, kept nowhere, or None where it is there already."""
    users = get_user_model().objects
    if users.filter(username=OWNER).exists():
        return None
    password = secrets.token_urlsafe(12)
    users.create_superuser(username=OWNER, email=str(SHOP["email"]), password=password)
    return password


def issue_order() -> DemoOrder:
    """Place the demo's order as the site does, issue its book on A4, and write it where it can be opened."""
    # Always the same key, signed by the shop as those of its forms are: it finds the order again.
    key = Signer(salt=KEY_SALT).sign("the demo's order")
    order = place_basket(key)
    document = IssuedDocument.objects.get(
        line__order=order, kind=IssuedDocument.Kind.BOOK, paper=IssuedDocument.Paper.A4
    )
    book = settings.SHOP_DATA / "demo" / document.file_name
    book.parent.mkdir(parents=True, exist_ok=True)
    book.write_bytes(issue(document))
    token = next((token for token in tokens_of(key) if hashed(token) == order.link_hash), None)
    return DemoOrder(order, token, book)


def place_basket(key: str) -> Order:
    """Place the order for the basket, or return the one that was placed with this key."""
    revision = Pattern.objects.get(slug=BASKET).latest_revision
    if revision is None:
        raise CommandError(f"The pattern {BASKET} has no revision. Publish it in the admin.")
    measures = {name: read_length(text, Units.INCHES) for name, text in BASKET_SIZE.items()}
    sized = size(revision.recipe, BASKET, Units.INCHES, measures)
    try:
        placed = place_order(
            revision,
            sized,
            name=CUSTOMER["name"],
            email=CUSTOMER["email"],
            key=key,
            source="demo",
            now=timezone.now(),
        )
    except KeyUsedError as error:
        # The pattern was revised since: what was sold stays as it was.
        return error.order
    return placed.order
