"""Makers of patterns, sizes and orders: keywords, fixed values, no randomness."""

import re
from collections.abc import Callable
from datetime import UTC, datetime
from fractions import Fraction
from html import unescape
from io import BytesIO
from typing import Any

import pikepdf
import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.utils import timezone

from orders import delivery_views, issuing
from orders.keys import new_key
from orders.models import IssuedDocument
from orders.passes import current_pass, token_of_pass
from orders.placing import Placed, place_order
from orders.pricing import Item, priced_basket
from orders.selling import Buyer, place_basket
from patterns.cutting.listing import ShoppingList
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.models import Offer, Pattern, Revision
from patterns.publishing import publish
from studio.models import SHOP_PK, Shop

NOW = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)

# The least that shows everything: a length, a bare number, an option, a check that refuses.
RECIPE = """
title = "Plain tray"
language = "en"
summary = "A tray of one panel."
skill = "Beginner"
time = "1 hour"
revised = "2026-11-20"

[finished]
form = "open basket"
width = "width"
height = "height"
depth = "depth"

[measures.width]
role = "size"
says = "Across the front."
in = { least = "3", most = "20", default = "9", step = "1/4" }
cm = { least = "8", most = "50", default = "23", step = "0.5" }

[measures.height]
role = "size"
says = "From base to edge."
in = { least = "2", most = "12", default = "6", step = "1/4" }
cm = { least = "5", most = "30", default = "15", step = "0.5" }

[measures.depth]
role = "size"
says = "From front to back."
in = { least = "2", most = "10", default = "5", step = "1/4" }
cm = { least = "5", most = "25", default = "13", step = "0.5" }

[measures.layers]
role = "making"
says = "How many layers of stiffening."
number = { least = "1", most = "4", default = "2", step = "1" }

[options.lining]
says = "Whether it has one."
default = "none"

[options.lining.choices]
none = {}
plain = {}

[pieces.panel]
from = "cloth"
cut = "1"
width = "width + depth"
height = "2 × height + depth"

[[truings]]
says = "round the base"
one = "2 × panel width"
other = "2 × (width + depth)"

[[checks]]
level = "refuse"
says = "It is wide enough to stand."
holds = "width ≥ depth"
otherwise = "A width of {width} is less than the depth."

[materials.cloth]
kind = "fabric"
tint = "exterior"
says = "Any firm cloth."

[[steps]]
title = "Cut"
does = "Cut the panel {panel width} wide."
shows = ["panel"]
"""


def text_of(response: Any) -> str:
    """The markup of an answer, its white space made single."""
    return " ".join(response.content.decode().split())


def words_of(response: Any) -> str:
    """What a person reads of an answer: without the tags."""
    inline = re.sub(r"</?span[^>]*>", "", response.content.decode())
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", inline)).split())


def pass_of(placed: Placed) -> str:
    """The token in the links of an order's files."""
    return token_of_pass(current_pass(placed.order, timezone.now()))


@pytest.fixture
def make_pattern(db: None) -> Callable[..., Pattern]:
    def make(
        slug: str = "plain-tray", text: str = RECIPE, *, is_listed: bool = True, title: str = ""
    ) -> Pattern:
        pattern = Pattern.objects.create(slug=slug, is_listed=is_listed)
        publish(pattern, text.replace("Plain tray", title) if title else text)
        pattern.refresh_from_db()
        return pattern

    return make


@pytest.fixture
def pattern(make_pattern: Callable[..., Pattern]) -> Pattern:
    return make_pattern()


def sized_as(revision: Revision, units: str = "in", **measures: str) -> SizedPattern:
    """Size a revision; measures in its units, a bare number as it is."""
    recipe, system = revision.recipe, Units(units)
    values = {
        name: Fraction(text) * (system.mm if recipe.measure(name).power else 1)
        for name, text in measures.items()
    }
    return size(recipe, revision.pattern.slug, system, values)


@pytest.fixture
def make_order(make_pattern: Callable[..., Pattern]) -> Callable[..., Placed]:
    """Place an order; of one pattern that is made when first needed, unless another is given."""
    made: list[Pattern] = []

    def make(
        pattern: Pattern | None = None,
        *,
        units: str = "in",
        name: str = "Ada Example",
        email: str = "ada@example.org",
        key: str = "",
        source: str = "s",
        now: datetime = NOW,
        **measures: str,
    ) -> Placed:
        if pattern is None:
            made[:] = made or [make_pattern()]
            pattern = made[0]
        revision = pattern.revisions.latest_of_each().get()
        sized = sized_as(revision, units, **measures)
        return place_order(
            revision, sized, name=name, email=email, key=key or new_key(), source=source, now=now
        )

    return make


@pytest.fixture
def blank_book(monkeypatch: pytest.MonkeyPatch) -> list[tuple[SizedPattern, str]]:
    """A one-page body at once instead of a book in a second; says what was asked to be made."""
    asked: list[tuple[SizedPattern, str]] = []

    def body(sized: SizedPattern, paper: str, shopping: ShoppingList) -> bytes:
        asked.append((sized, paper))
        return blank_page()

    monkeypatch.setattr(issuing, "MAKERS", {IssuedDocument.Kind.BOOK: body})
    monkeypatch.setattr(delivery_views, "made_apart", issuing.made_here)
    return asked


def blank_page() -> bytes:
    target = BytesIO()
    with pikepdf.new() as pdf:
        pdf.add_blank_page(page_size=(595.28, 841.89)).obj.Resources = pikepdf.Dictionary()
        pdf.save(target, deterministic_id=True)
    return target.getvalue()


@pytest.fixture
def owner_client(db: None, client: Client) -> Client:
    client.force_login(User.objects.create_superuser("owner"))
    return client


@pytest.fixture
def rows() -> Callable[[Any], list[str]]:
    """The lines of a CSV answer, its byte order mark taken off."""

    def read(response: Any) -> list[str]:
        return b"".join(response.streaming_content).decode("utf-8-sig").splitlines()

    return read


# The same tray with two named sizes.
SIZES = """
[sizes.Small]
in = { width = "6", height = "4", depth = "3" }
cm = { width = "15", height = "10", depth = "8" }

[sizes.Large]
in = { width = "12", height = "8", depth = "6" }
cm = { width = "30", height = "20", depth = "15" }
"""
LICENCE = "Sew as many as you like. Do not pass the files on."


def sell(pattern: Pattern, kind: str, price_minor: int, *, size_name: str = "") -> Offer:
    """Put an offer on sale, in place of another of its sort."""
    if kind in Offer.BY_SIZE:
        pattern.offers.filter(kind__in=Offer.BY_SIZE).update(is_on_sale=False)
    offer, _ = Offer.objects.update_or_create(
        pattern=pattern,
        kind=kind,
        defaults={
            "is_on_sale": True,
            "price_minor": price_minor,
            "currency": "GBP" if price_minor else "",
            "size_name": size_name,
            "licence": LICENCE,
        },
    )
    return offer


@pytest.fixture
def demo_shop(db: None) -> Shop:
    """An invented shop, where the local provider may be used, with an account for transfers."""
    return Shop.objects.create(pk=SHOP_PK, is_demo=True, transfer_details="An account at an invented bank")


@pytest.fixture
def tray(make_pattern: Callable[..., Pattern]) -> Pattern:
    """A tray with two named sizes, each size at 6.50."""
    pattern = make_pattern("sized-tray", RECIPE + SIZES)
    sell(pattern, Offer.Kind.ONE_SIZE, 650)
    return pattern


@pytest.fixture
def buy(demo_shop: Shop, tray: Pattern) -> Callable[..., Placed]:
    """Place the order of a basket with one item, which is by card unless it is said otherwise."""

    def place(
        *,
        query: str = "units=in&width=8",
        kind: str = Offer.Kind.ONE_SIZE,
        has_batch: bool = False,
        way: str = "local",
        country: str = "GB",
        shown: str = "",
        key: str = "",
        source: str = "s",
        now: datetime = NOW,
    ) -> Placed:
        items = (Item("one", "sized-tray", query, kind, has_batch),)
        total = shown or priced_basket(items, Shop.objects.current(), country, now.date()).shown
        buyer = Buyer("Ada Example", "ada@example.org", country, way, has_agreed=True)
        return place_basket(items, buyer, shown=total, key=key or new_key(), source=source, now=now)

    return place
