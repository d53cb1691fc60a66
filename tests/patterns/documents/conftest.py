"""Books are slow to make, so each is made once for all tests that look at it."""

from collections.abc import Callable
from fractions import Fraction
from functools import cache

import pytest

from patterns.documents import chart, worksheet
from patterns.documents.book import body
from patterns.documents.paper import PaperName
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter
from tests.starters import unit_of

MakeSized = Callable[..., SizedPattern]


@pytest.fixture(scope="session")
def make_sized() -> MakeSized:
    """`make_sized("zip-pouch", "cm", width=20, interfacing="heavy")`: measures and options by name."""

    def make(slug: str = "fold-flat-basket", units: str = "in", **given: object) -> SizedPattern:
        recipe = read_starter(slug)
        named = {name.replace("_", " "): value for name, value in given.items()}
        options = {name: str(value) for name, value in named.items() if isinstance(value, str)}
        numbers = {name: value for name, value in named.items() if not isinstance(value, str)}
        measures = {
            name: Fraction(value) * unit_of(recipe.measure(name), Units(units))
            for name, value in numbers.items()
        }
        return size(recipe, slug, Units(units), measures, options)

    return make


@pytest.fixture(scope="session")
def make_body(make_sized: MakeSized) -> Callable[..., bytes]:
    @cache
    def make(paper: PaperName = "a4", slug: str = "fold-flat-basket", units: str = "in") -> bytes:
        return body(make_sized(slug, units), paper)

    return make


SHEETS = {"chart": chart.body, "worksheet": worksheet.body}


@pytest.fixture(scope="session")
def make_sheet() -> Callable[..., bytes]:
    """`make_sheet("chart", "letter", "zip-pouch", "cm")`: a document made from a recipe alone."""

    @cache
    def make(kind: str, paper: PaperName = "a4", slug: str = "fold-flat-basket", units: str = "in") -> bytes:
        return SHEETS[kind](read_starter(slug), Units(units), paper)

    return make
