"""What people read, on every page that links and forms lead to and in every letter, in both unit systems."""

import re
from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.utils import timezone

import orders.urls
import patterns.urls
from orders import letters
from orders.keys import new_key
from orders.models import IssuedDocument, Letter, TaxRate
from orders.models.documents import MOST_ATTEMPTS
from orders.paying import mark_paid, take
from orders.placing import Placed
from orders.pricing import Item, priced_basket
from orders.providers.interface import Kind as MessageKind
from orders.providers.interface import Message
from orders.refunding import ask_refund
from orders.selling import Buyer, place_basket
from patterns.models import Offer
from studio.demo import make_shop, publish_starters
from studio.models import Shop
from tests.pictures import jpeg
from tests.reading import faults_of
from tests.walk import Walk, page_of

# What a page or letter must not show, beside what no line may (tests/reading.py).
_RAW = {
    "a raw key": r"\b[a-z]+(?:_[a-z0-9]+)+\b",
    "a value of the program": r"\b(?:None|True|False|nan|NaN|undefined|null)\b|<\w+[.: ]|\bobject at 0x",
    "a long decimal": r"\d[.]\d{4,}",
    "a fraction never worked out": r"\bFraction\(|\bDecimal\(",
}
RAW = {name: re.compile(pattern) for name, pattern in _RAW.items()}
# Capitals that need no explaining where they stand: names of sizes, papers, files and countries' own words.
KNOWN = frozenset(
    (
        *(
            "A0",
            "A3",
            "A4",
            "A5",
            "A6",
            "C5",
            "C6",
            "DL",
            "ID",
            "PDF",
            "CSV",
            "SVG",
            "DXF",
            "PNG",
            "JPEG",
            "MB",
        ),
        *("US", "UK", "EU", "SAR", "GBP", "EUR", "USD", "VAT"),
    )
)
# What only a script, a provider or a form that is filled in well leads to.
ASKED_FOR = (
    "/patterns/zip-pouch/making/?units=cm",
    "/patterns/zip-pouch/pieces/?units=cm",
    "/payments/back/1/",
    "/orders/links/asked/",
)
# What is written on pieces.
WRITTEN = frozenset(("TOP", "BASE", "ZIP", "WINDOW", "LINING", "EXTERIOR"))
_CAPITALS = re.compile(r"\b[A-Z]{2,}[0-9]?\b")
# Codes and addresses are no words.
_NO_WORDS = re.compile(
    r"\S+@[\w.]+\w|https?://\S+|⟨[^⟩]*⟩|\b[0-9a-f]{16,}\b|\b[A-Z2-7]{4}(?: [A-Z2-7]{4})+\b|\b[A-Z2-7]{16,}\b"
    # `None` is a choice, and begins sentences; and ID-1 is a card, not one of something.
    r"|^None(?=\.?$| of | Nothing: )|\bID-[13]\b"
)


def mistakes(where: str, lines: tuple[str, ...]) -> Iterator[str]:
    """Yield what reads badly, with where it stands. A word in brackets after others is explained by them."""
    brackets = (part for line in lines for part in re.findall(r"\w \(([^)]*)\)", line))
    explained = {each for part in brackets for each in _CAPITALS.findall(part)}
    for line in lines:
        words = _NO_WORDS.sub("…", line)
        faults = faults_of(words) + [f"{name}: {line}" for name, bad in RAW.items() if bad.search(words)]
        capitals = set(_CAPITALS.findall(words)) - KNOWN - WRITTEN - explained
        faults += [f"unexplained {each}: {line}" for each in capitals]
        yield from (f"{where}: {fault}" for fault in faults)


def bought(slug: str, query: str, kind: str, way: str, *, has_batch: bool = False) -> Placed:
    """Place the order of one size."""
    items, now = (Item("one", slug, query, kind, has_batch),), timezone.now()
    shown = priced_basket(items, Shop.objects.current(), "GB", now.date()).shown
    buyer = Buyer("Isolde Marchbank", "isolde@marchbank.example", "GB", way, has_agreed=True)
    return place_basket(items, buyer, shown=shown, key=new_key(), source="walk", now=now)


@pytest.fixture(params=["in", "cm"])
def shop(request: Any, db: None) -> Shop:
    make_shop()
    Shop.objects.update(units=request.param)
    publish_starters()
    return Shop.objects.current()


@pytest.fixture
def placed(shop: Shop) -> dict[str, Placed]:
    """One order of each sort: free, to be transferred, paid by card and partly given back, for a year."""
    kinds, query = Offer.Kind, f"units={shop.units}"
    TaxRate.objects.create(country="GB", valid_from=date(2020, 1, 1), milli_percent=20_000)
    made = {
        "free": bought("fold-flat-basket", query, kinds.FREE, ""),
        "transfer": bought("zip-pouch", query, kinds.ONE_FREE, "transfer", has_batch=True),
        "card": bought("boxed-tote", query, kinds.ONE_SIZE, "local", has_batch=True),
        "chart": bought("boxed-tote", query, kinds.CHART, "transfer"),
        "year": bought("boxed-tote", query, kinds.YEAR, "transfer"),
    }
    for name in ("chart", "year"):
        mark_paid(made[name].order.payments.get(), f"Bank {name}", "owner", timezone.now())
    return made


@pytest.fixture
def waiting(placed: dict[str, Placed]) -> None:
    """What waits for the owner, one of each: a refund, a message, a letter, a file."""
    now, paid = timezone.now(), placed["chart"].order.payments.get()
    ask_refund(paid, 100, reason="A page was missing", key=new_key(), owner="owner", now=now)
    stray = Message("stray", MessageKind.PAID, "nobody", amount_minor=1, currency="GBP")
    take("local", stray, now)
    Letter.objects.filter(pk=Letter.objects.earliest("pk").pk).update(
        due_at=None, last_error="Nobody at home", tries=9
    )
    IssuedDocument.objects.filter(line__order=placed["free"].order).update(
        attempts=MOST_ATTEMPTS, try_after=now, failure="The paper ran out"
    )


@pytest.fixture
def customer(client: Client, placed: dict[str, Placed]) -> Client:
    """A customer with two things in the basket and the questions answered, and with cloth of their own."""
    for slug in ("boxed-tote", "zip-pouch"):
        put_into_basket(client, slug)
    who = {
        "name": "Isolde Marchbank",
        "email": "isolde@marchbank.example",
        "country": "GB",
        "way": "transfer",
    }
    assert client.post("/basket/", who).status_code == 303
    cloth = SimpleUploadedFile("cloth.jpg", jpeg(600, 600))
    own = {"exterior_picture": cloth, "exterior_strip": "10", "exterior_part": "100", "size": ""}
    assert client.post("/patterns/zip-pouch/own-cloth/", own).status_code == 303
    return client


@pytest.fixture
def owner(placed: dict[str, Placed]) -> Client:
    """The owner, with a photograph of one pattern."""
    owner = Client()
    owner.force_login(User.objects.create_superuser("owner"))
    sent = {"picture": SimpleUploadedFile("tote.jpg", jpeg(800, 600)), "alt": "A tote of striped canvas"}
    assert owner.post("/workroom/patterns/boxed-tote/photographs/", sent).status_code == 303
    return owner


def put_into_basket(client: Client, slug: str) -> None:
    address = f"/patterns/{slug}/order/"
    page = page_of(address, client.get(address).content.decode())
    form = next(form for form in page.forms if form.address.endswith("/basket/"))
    assert client.post(form.address, dict(form.fields)).status_code == 303


@pytest.mark.usefixtures("waiting")
def test_words(customer: Client, owner: Client, placed: dict[str, Placed]) -> None:
    """One test for all, as the shop takes some seconds to set up."""
    shop_walk, workroom_walk = Walk(customer), Walk(owner)
    links = [f"/orders/{each.token}/" for each in placed.values()]
    pages = [*shop_walk.pages("/", "/basket/", "/basket/check/", *ASKED_FOR, *links, links[2] + "payment/")]
    pages += workroom_walk.pages("/workroom/orders/")
    faults = {fault for page in pages for fault in mistakes(page.address, page.lines)}
    faults |= set(faults_of_letters(placed))
    assert sorted(faults) == []
    assert set(Letter.objects.values_list("kind", flat=True)) == set(Letter.Kind.values)
    assert " ".join(sorted(names_of_pages() - shop_walk.names - workroom_walk.names)) == ""


def names_of_pages() -> set[str]:
    """Return the names of all addresses but those of files and machines: each is linked from somewhere."""
    return {
        f"{app}:{each.name}"
        for app, module in (("patterns", patterns.urls), ("orders", orders.urls))
        for each in module.urlpatterns
        if not re.search(r"\.(?:pdf|csv|xml|txt|jpg|<\w+:\w+>)$|^feed/|/messages/$", str(each.pattern))
    }


def faults_of_letters(placed: dict[str, Placed]) -> Iterator[str]:
    """Yield what reads badly in the letters that these orders had, and in the one with all links again."""
    letters.links_again(
        "isolde@marchbank.example", [each.order for each in placed.values()], 2, timezone.now()
    )
    for letter in Letter.objects.all():
        lines = (letter.subject, *letter.text.splitlines(), *page_of("/", letter.html).lines)
        yield from mistakes(letter.kind, lines)
