"""What people read, on every page that links and forms lead to and in every letter, in both unit systems."""

import re
from collections.abc import Iterator

import pytest
from django.utils import timezone

import orders.urls
import patterns.urls
from orders import letters
from orders.models import Letter
from orders.placing import Placed
from tests.busy_shop import busy_shop, customer_of, owner_of_it
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
# What is written on pieces.
WRITTEN = frozenset(("TOP", "BASE", "ZIP", "WINDOW", "LINING", "EXTERIOR"))
_CAPITALS = re.compile(r"\b[A-Z]{2,}[0-9]?\b")
# Codes and addresses are no words.
_NO_WORDS = re.compile(
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
def test_words(db: None, units: str) -> None:
    """One test for all, as the shop takes some seconds to set up."""
    placed = busy_shop(units)
    customer, begins = customer_of(placed)
    shop_walk, workroom_walk = Walk(customer), Walk(owner_of_it())
    pages = [*shop_walk.pages(*begins), *workroom_walk.pages("/workroom/")]
    faults = {fault for page in pages for fault in mistakes(page.address, page.lines)}
    faults |= set(faults_of_letters(placed))
    assert not faults, "\n".join(sorted(faults))
    assert set(Letter.objects.values_list("kind", flat=True)) == set(Letter.Kind.values)
    assert " ".join(sorted(names_of_pages() - shop_walk.names - workroom_walk.names)) == ""


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
