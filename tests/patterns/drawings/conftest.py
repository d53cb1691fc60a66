"""Makers of sized patterns, by hand, for drawings: a basket and a pouch as constructions.md has them."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType

import pytest

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.recipe import Form, MarkKind
from patterns.drafting.sized import Quantity, SizedMark, SizedMaterial, SizedMeasure, SizedPattern, SizedPiece
from patterns.drafting.units import Units

FORMULA = Formula.read("width")


def length(value: Fraction | Decimal | int | None) -> Quantity:
    return Quantity(Fraction(value) if isinstance(value, int) else value, 1, FORMULA)


def mark(
    name: str,
    kind: MarkKind,
    down: Fraction | int | None = None,
    across: Fraction | int | None = None,
    start: Fraction | int | None = None,
    end: Fraction | int | None = None,
) -> SizedMark:
    """Make a mark; all in mm."""
    down_from_top, in_from_left, first, last = (
        None if value is None else length(value) for value in (down, across, start, end)
    )
    return SizedMark(name, kind, down_from_top, in_from_left, first, last, "")


def piece(
    width: Fraction | int,
    height: Fraction | int,
    marks: tuple[SizedMark, ...] = (),
    name: str = "exterior panel",
    material: str = "exterior fabric",
    cut: int = 1,
    turns: bool = True,
) -> SizedPiece:
    return SizedPiece(name, material, cut, length(width), length(height), turns, marks, "")


def panel(width: Fraction, height: Fraction, depth: Fraction, allowance: Fraction, name: str) -> SizedPiece:
    """Make a basket's panel with all its marks; the exterior has the opening, the lining its clips."""
    wide, high = width + depth + 2 * allowance, 2 * height + depth + 2 * allowance
    middle = high / 2
    long = min(Fraction(127), (width + depth) / 2)
    marks = [
        mark("top seam line of the front", "stitch", down=allowance),
        mark("front pleat line", "fold", down=middle - depth / 2),
        mark("middle fold", "fold", down=middle),
        mark("back pleat line", "fold", down=middle + depth / 2),
        mark("top seam line of the back", "stitch", down=high - allowance),
        mark("left side seam line", "stitch", across=allowance),
        mark("right side seam line", "stitch", across=wide - allowance),
    ]
    if name.startswith("exterior"):
        marks.append(
            mark("opening", "opening", down=allowance, start=(wide - long) / 2, end=(wide + long) / 2)
        )
    else:
        clip = allowance - min(allowance / 2, Fraction(3))
        marks.append(mark("left clip", "clip", down=middle, start=0, end=clip))
        marks.append(mark("right clip", "clip", down=middle, start=wide - clip, end=wide))
    return piece(wide, high, tuple(marks), name, f"{name.split()[0]} fabric")


def pattern(
    title: str,
    form: Form,
    finished: tuple[Fraction | Decimal, ...],
    units: Units,
    values: dict[str, Fraction],
    pieces: tuple[SizedPiece, ...] = (),
) -> SizedPattern:
    width, height, depth = (length(value) for value in finished)
    return SizedPattern(
        recipe=title.lower().replace(" ", "-"),
        title=title,
        language="en",
        summary="",
        skill="",
        time="",
        revised="2026-11-20",
        units=units,
        form=form,
        finished=(width, height, depth),
        values=MappingProxyType(values),
        powers=MappingProxyType(dict.fromkeys(values, 1)),
        measures=tuple(SizedMeasure(name, value, 1, "size") for name, value in values.items()),
        options=MappingProxyType({}),
        amounts=(),
        pieces=pieces,
        checks=(),
        materials=(
            SizedMaterial("exterior fabric", "fabric", "exterior", (), None),
            SizedMaterial("lining fabric", "fabric", "lining", (), None),
            SizedMaterial("light interfacing", "interfacing", "interfacing", (), None),
            SizedMaterial("clear vinyl", "vinyl", "clear", (), None),
        ),
        tells=(),
        steps=(),
        cautions=(),
    )


def basket(
    width: str = "17/2", height: str = "6", depth: str = "19/4", units: Units = Units.INCHES
) -> SizedPattern:
    """Make a fold-flat basket, its measures in its units."""
    measures = tuple(Fraction(measure) * units.mm for measure in (width, height, depth))
    allowance = Fraction(127, 10) if units is Units.INCHES else Fraction(10)
    outer, inner = (panel(*measures, allowance, name) for name in ("exterior panel", "lining panel"))
    interfacing = piece(
        outer.width.value, outer.height.value, (), "light interfacing panel", "light interfacing"
    )
    values = dict(zip(("width", "height", "depth"), measures, strict=True))
    return pattern("Fold-flat basket", "open basket", measures, units, values, (outer, inner, interfacing))


def pouch(width: str = "8", height: str = "5", depth: str = "3", units: Units = Units.INCHES) -> SizedPattern:
    """Make a zip pouch, its measures in its units."""
    measures = tuple(Fraction(measure) * units.mm for measure in (width, height, depth))
    values = dict(zip(("width", "height", "depth"), measures, strict=True))
    values["zip tape width"] = Fraction(127, 5) if units is Units.INCHES else Fraction(24)
    values["zip seam allowance"] = Fraction(127, 20) if units is Units.INCHES else Fraction(7)
    return pattern("Zip pouch", "zip-top pouch", measures, units, values)


@pytest.fixture
def make_basket() -> Callable[..., SizedPattern]:
    return basket


@pytest.fixture
def make_pouch() -> Callable[..., SizedPattern]:
    return pouch


@pytest.fixture
def make_pattern() -> Callable[..., SizedPattern]:
    return pattern


@pytest.fixture
def make_piece() -> Callable[..., SizedPiece]:
    return piece


@pytest.fixture
def make_mark() -> Callable[..., SizedMark]:
    return mark
