"""What people read, on every page that links and forms lead to and in every letter, in both unit systems."""

import re
from collections.abc import Callable, Iterator

import pytest
from django.db.models import F
from django.template.loader import render_to_string
from django.test import Client
from django.utils import timezone

import orders.urls
import patterns.urls
from orders import letters
from orders.errors import NoOtherSystemError
from orders.models import DownloadPass, Letter
from orders.passes import current_pass, token_of_pass
from orders.placing import Placed
from patterns.documents.errors import DocumentError
from tests.busy_shop import LOGIN, LOGIN_PAGES, busy_shop, customer_of, owner_at_the_door, owner_of_it
from tests.reading import faults_of
from tests.walk import Page, Walk, page_of

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
# What is written on pieces.
WRITTEN = frozenset(("TOP", "BASE", "ZIP", "WINDOW", "LINING", "EXTERIOR"))
_CAPITALS = re.compile(r"\b[A-Z]{2,}[0-9]?\b")
# Codes, addresses and commands are no words.
_NO_WORDS = re.compile(
    r"\.venv/bin/python manage\.py forget_second_factor NAME|"
    r"\S+@[\w.]+\w|\blc_[0-9a-f]+|https?://\S+|⟨[^⟩]*⟩|\b[0-9a-f]{16,}\b"
    r"|\b[A-Z2-7]{4}(?: [A-Z2-7]{4})+\b|\b[A-Z2-7]{16,}\b|\bname = \"value\""
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


@pytest.mark.parametrize("units", ["in", "cm"])
def test_words(db: None, units: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """One test for all, as the shop takes some seconds to set up."""
    placed = busy_shop(units)
    customer, begins = customer_of(placed)
    shop_walk, workroom_walk = Walk(customer), Walk(owner_of_it())
    pages = [*shop_walk.pages(*begins), *workroom_walk.pages("/workroom/")]
    pages += [*workroom_walk.alone(*LOGIN_PAGES), *Walk(Client()).alone(LOGIN)]
    pages += [*what_went_wrong(customer, placed, monkeypatch)]
    faults = {fault for page in pages for fault in mistakes(page.address, page.lines)}
    faults |= set(faults_of_letters(placed))
    assert not faults, "\n".join(sorted(faults))
    assert set(Letter.objects.values_list("kind", flat=True)) == set(Letter.Kind.values)
    assert " ".join(sorted(names_of_pages() - shop_walk.names - workroom_walk.names)) == ""


@pytest.mark.parametrize("template", ["403_csrf.html", "429.html", "500.html"])
def test_words_of_pages_that_know_no_shop(template: str) -> None:
    assert not [*mistakes(template, page_of("/", render_to_string(template)).lines)]


def test_words_at_the_door(db: None) -> None:
    door, _ = owner_at_the_door()
    pages = Walk(door).alone(f"{LOGIN}code/")
    assert not [fault for page in pages for fault in mistakes(page.address, page.lines)]


def what_went_wrong(
    customer: Client, placed: dict[str, Placed], monkeypatch: pytest.MonkeyPatch
) -> Iterator[Page]:
    """Yield the pages of what could not be made or does not open any more, and of what is not there."""
    walk = Walk(customer)
    link = {name: f"/orders/{each.token}/" for name, each in placed.items()}
    files = {
        name: f"/downloads/{token_of_pass(current_pass(each.order, timezone.now()))}/1/book-a4.pdf"
        for name, each in placed.items()
    }
    yield from walk.alone(files["free"])  # given up by the worker
    DownloadPass.objects.filter(order=placed["year"].order).update(used=F("most"))
    yield from walk.alone(files["year"], link["year"], "/no/such/page/")
    monkeypatch.setattr("orders.delivery_views.in_other_system", _raise(NoOtherSystemError("centimetres")))
    monkeypatch.setattr("orders.steps_views.step_screen", _raise(DocumentError("A figure is missing.")))
    yield from walk.alone(f"{link['chart']}1/other-units/", f"{link['chart']}1/steps/")


def _raise(error: Exception) -> Callable[..., None]:
    def fail(*_: object) -> None:
        raise error

    return fail


def names_of_pages() -> set[str]:
    """Return the names of all addresses but those of files and machines: each is linked from somewhere."""
    return {
        f"{app}:{each.name}"
        for app, module in (("patterns", patterns.urls), ("orders", orders.urls))
        for each in module.urlpatterns
        # An address that only leads on to another has no name.
        if each.name
        and not re.search(r"\.(?:pdf|csv|xml|txt|jpg|<\w+:\w+>)$|^feed/|/messages/$", str(each.pattern))
    }


def faults_of_letters(placed: dict[str, Placed]) -> Iterator[str]:
    """Yield what reads badly in the letters that these orders had, and in the one with all links again."""
    letters.files_ready(placed["free"].order, timezone.now())
    letters.links_again(
        "isolde@marchbank.example", [each.order for each in placed.values()], 2, timezone.now()
    )
    for letter in Letter.objects.all():
        lines = (letter.subject, *letter.text.splitlines(), *page_of("/", letter.html).lines)
        yield from mistakes(letter.kind, lines)
