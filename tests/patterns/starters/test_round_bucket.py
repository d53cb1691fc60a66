"""The round bucket against formulas written anew from the construction, and against the trade.

Here Ø and H are diameter and height, s the seam allowance, in the units, and n how many pieces the side has.
What has π in it is reckoned by floats of the standard library: the tests' second road.
"""

from decimal import Decimal
from fractions import Fraction
from itertools import product
from math import isclose, pi
from typing import NamedTuple

import pytest

from patterns.drafting.lengths import written
from patterns.drafting.nearest import nearest_size
from patterns.drafting.outlines import edge_length, edges, seam_line
from patterns.drafting.recipe import Recipe
from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sized import Quantity, SizedPattern, SizedPiece
from patterns.drafting.truing import prove
from patterns.drafting.units import Units
from patterns.starters import read_starter, text_of
from tests import starters
from tests.starters import COMBINATIONS, Options, Size, combination_id, sized_at

IN, CM = Units.INCHES, Units.CENTIMETRES
HALF = Fraction(1, 2)
SIDES = ("one piece", "two pieces")
TWO = {"side": "two pieces"}
EVERY_CHOICE = [prints | {"side": side} for prints, side in product(COMBINATIONS, SIDES)]
OPENING, ROOM, EASY = (
    "The opening is wide enough to turn the bucket through.",
    "The seam allowance leaves a base to sew round.",
    "The base is wide enough for a domestic machine.",
)


class Letters(NamedTuple):
    across: Fraction
    h: Fraction
    s: Fraction


@pytest.fixture(scope="module")
def bucket() -> Recipe:
    return read_starter("round-bucket")


def letters(measures: Size) -> Letters:
    return Letters(*(Fraction(measures[name]) for name in ("diameter", "height", "seam allowance")))


def expected_pieces(at: Letters, options: Options) -> dict[str, tuple[int, float, float]]:
    n = SIDES.index(options["side"]) + 1
    side = pi * float(at.across) / n + 2 * float(at.s), float(at.h + 2 * at.s)
    base = (float(at.across + 2 * at.s),) * 2
    pieces: dict[str, tuple[int, float, float]] = {
        "exterior side": (n, *side),
        "lining side": (n, *side),
        "exterior base": (1, *base),
        "lining base": (1, *base),
    }
    if options["interfacing"] == "light":
        pieces |= {"light interfacing side": (2 * n, *side), "light interfacing base": (2, *base)}
    if options["interfacing"] == "heavy":
        pieces["heavy interfacing side"] = (n, pi * float(at.across) / n, float(at.h))
        pieces["heavy interfacing base"] = (1, float(at.across), float(at.across))
    return pieces


def in_units(quantity: Quantity | None, units: Units) -> float:
    assert quantity is not None
    assert quantity.value is not None
    return float(quantity.value) / float(units.mm)


def piece_named(sized: SizedPattern, name: str) -> SizedPiece:
    return next(piece for piece in sized.pieces if piece.name == name)


def assert_as_constructed(sized: SizedPattern, measures: Size, units: Units, options: Options) -> None:
    at = letters(measures)
    expected = expected_pieces(at, options)
    assert [piece.name for piece in sized.pieces] == list(expected)
    for piece in sized.pieces:
        cut, width, height = expected[piece.name]
        assert piece.cut == cut
        assert isclose(in_units(piece.width, units), width, rel_tol=1e-12)
        assert isclose(in_units(piece.height, units), height, rel_tol=1e-12)
        assert piece.shape == ("circle" if piece.name.endswith("base") else "rectangle")
    around, most = pi * float(at.across), 6 if units is IN else 15
    least, easy = (2.5, 4) if units is IN else (6.5, 10)
    assert starters.holds(sized) == {
        OPENING: min(most, around / 4) >= least,
        ROOM: at.across >= 3 * at.s,
        EASY: at.across >= easy,
    }
    opening = next(mark for mark in piece_named(sized, "lining side").marks if mark.kind == "opening")
    middle = expected["lining side"][1] / 2
    assert isclose(in_units(opening.start, units), middle - min(most, around / 4) / 2, rel_tol=1e-12)
    assert isclose(in_units(opening.end, units), middle + min(most, around / 4) / 2, rel_tol=1e-12)


def quarters(sized: SizedPattern, name: str) -> list[float]:
    marks = piece_named(sized, name).marks
    places = [mark.in_from_left for mark in marks if mark.name.endswith(("quarter line", "half line"))]
    return [in_units(place, sized.units) for place in places]


def test_measures_have_the_ranges_of_the_construction(bucket: Recipe) -> None:
    ranges = {
        measure.name: [
            tuple(number / units.mm for number in (scale.least, scale.most, scale.default, scale.step))
            for units, scale in measure.scales.items()
        ]
        for measure in bucket.measures
    }
    quarter = Fraction(1, 4)
    assert ranges == {
        "diameter": [(Fraction(13, 4), 20, 8, quarter), (Fraction(17, 2), 50, 20, HALF)],
        "height": [(3, 24, 9, quarter), (8, 60, 23, HALF)],
        "seam allowance": [
            (quarter, 1, HALF, Fraction(1, 8)),
            (HALF, Fraction(5, 2), 1, Fraction(1, 10)),
        ],
    }


def test_published_bolster_of_9_in_has_circles_of_10_and_a_body_of_15_by_29_and_a_quarter(
    bucket: Recipe,
) -> None:
    """Source: published home-sewing tutorial (two copies): 9 in across, 14 in long, 1/2 in seams."""
    measures = {"diameter": Fraction(9), "height": Fraction(14), "seam allowance": HALF}
    sized = sized_at(bucket, IN, measures, {})
    base, side = (piece_named(sized, name) for name in ("exterior base", "exterior side"))
    assert base.width.value == base.height.value == 10 * IN.mm
    assert side.height.value == 15 * IN.mm
    assert told(side.width, IN) == Fraction(117, 4)


@pytest.mark.parametrize(
    ("units", "across", "published"), [(IN, 7, "21.99"), (IN, 12, "37.70"), (CM, 30, "94.25")]
)
def test_published_ways_round(bucket: Recipe, units: Units, across: int, published: str) -> None:
    """Source: arithmetic; tutorials print 22, 37.68 and 94.2, because they reckon with 3.14."""
    around = sized_at(bucket, units, {"diameter": Fraction(across)}, {}).values["circumference"]
    assert type(around) is Decimal
    found = around / (units.mm.numerator / Decimal(units.mm.denominator))
    assert round(found, 2) == Decimal(published)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", EVERY_CHOICE, ids=combination_id)
def test_agrees_with_the_construction_at_the_ends_of_the_range(
    bucket: Recipe, units: Units, options: Options
) -> None:
    for measures in starters.corners(bucket, units):
        assert_as_constructed(sized_at(bucket, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("side", SIDES)
def test_agrees_with_the_construction_along_the_range(bucket: Recipe, units: Units, side: str) -> None:
    options = COMBINATIONS[-1] | {"side": side}
    for measures in starters.walks(bucket, units):
        assert_as_constructed(sized_at(bucket, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("side", SIDES)
def test_the_seam_is_walked_from_quarter_to_quarter(bucket: Recipe, units: Units, side: str) -> None:
    """Each quarter of the base's seam line is as long as the ring between two of its quarters."""
    for measures in starters.walks(bucket, units):
        sized = sized_at(bucket, units, measures, {"side": side})
        allowance = sized.values["seam allowance"]
        line = seam_line(piece_named(sized, "exterior base").corners, allowance)
        assert line is not None
        ring = piece_named(sized, "exterior side")
        s, width = float(allowance) / float(units.mm), in_units(ring.width, units)
        places = [s, *quarters(sized, "exterior side"), width - s]
        assert len(places) == (5 if side == "one piece" else 3)
        assert places == pytest.approx([s + each * (places[1] - s) for each in range(len(places))])
        for edge in edges(line):
            assert isclose(float(edge_length(edge)) / float(units.mm), places[1] - s, rel_tol=1e-9)


def told(quantity: Quantity, units: Units) -> Fraction:
    """A length as people read it, rounded to the cutting precision, in the units."""
    assert quantity.value is not None
    text = written(quantity.value, 1, units).text.removeprefix("≈ ").removesuffix(f" {units}")
    return sum((Fraction(part) for part in text.replace("⁄", "/").split()), Fraction(0))


@pytest.mark.parametrize(("units", "most"), [(IN, 1 / 16), (CM, 0.1)])
def test_a_side_cut_to_rounded_numbers_trues_within_a_hair(bucket: Recipe, units: Units, most: float) -> None:
    """The ring of one piece, sewn at the allowance, is within 1/16 in or 1 mm of once round the base.

    Of two pieces in inches each may be 1/16 in off, both one way; so their second seam is sewn to the way
    round, which is told as exactly. In centimetres both together are within 1 mm as they are.
    """
    for measures in starters.walks(bucket, units):
        one, two = (sized_at(bucket, units, measures, {"side": side}) for side in SIDES)
        s, around = letters(measures).s, pi * float(measures["diameter"])
        for sized, pieces in ((one, 1), (two, 2)):
            half = told(piece_named(sized, "exterior side").width, units) - 2 * s
            assert abs(float(half) - around / pieces) <= most / (1 if units is IN else 2) + 1e-12
            base = told(piece_named(sized, "exterior base").width, units) - 2 * s
            assert base == measures["diameter"]
        circumference = next(each for each in two.amounts if each.name == "circumference")
        assert abs(float(told(circumference.quantity, units)) - around) <= most


def test_two_halves_are_sewn_to_the_way_round(bucket: Recipe) -> None:
    words = " ".join(starters.step_words(sized_at(bucket, IN, {}, TWO)))
    assert "Sew the other pair so that the ring measures ≈ 25 1⁄8 in round" in words
    assert "Sew the other pair" not in " ".join(starters.step_words(sized_at(bucket, IN, {}, {})))


def test_circle_is_drawn_with_half_its_width(bucket: Recipe) -> None:
    sized = sized_at(bucket, CM, {"diameter": Fraction(25)}, {})
    assert sized.values["circle radius"] == Fraction(27, 2) * CM.mm
    assert "a radius of 13.5 cm" in " ".join(starters.step_words(sized))


def test_a_small_base_is_advised_against_and_an_allowance_too_wide_refused(bucket: Recipe) -> None:
    small = sized_at(bucket, IN, {"diameter": Fraction(13, 4)}, {})
    assert [(check.level, check.says) for check in small.failed] == [("advise", EASY)]
    given = {"diameter": Fraction(7, 2), "seam allowance": Fraction(5, 4)}
    nearest = nearest_size(bucket, IN, {name: value * IN.mm for name, value in given.items()}, {})
    assert nearest is not None
    assert nearest["seam allowance"] == IN.mm


def test_only_sides_of_a_one_way_print_must_not_be_turned(bucket: Recipe) -> None:
    sized = sized_at(bucket, IN, {}, {"lining print": "one way"})
    assert {piece.name for piece in sized.pieces if not piece.turns} == {"lining side"}


def test_tells_give_the_way_round_capacity_and_footprint(bucket: Recipe) -> None:
    """A cylinder of Archimedes: π × 4² × 9 is 452.39."""
    sized = sized_at(bucket, IN, {}, {})
    tells = " ".join(starters.said(sized, tell) for tell in sized.tells)
    assert "Stands 8 in across and 9 in high, open at the top, and is ≈ 25 1⁄8 in round." in tells
    assert "it holds ≈ 452 in³" in tells
    assert "a footprint whose diagonal is 8 in or less" in tells


@pytest.mark.parametrize(
    ("units", "side", "eased"),
    [(IN, "one piece", "≈ 1⁄4 in"), (CM, "one piece", "≈ 0.6 cm"), (CM, "two pieces", "≈ 0.3 cm")],
)
def test_a_lining_sewn_narrower_is_eased_into_its_base(
    bucket: Recipe, units: Units, side: str, eased: str
) -> None:
    """Base and side seams each e further in: 2πe comes off the base's way round, 2e off the ring's a seam."""
    sized = sized_at(bucket, units, {}, {"side": side})
    assert f"then {eased} too long" in " ".join(starters.said(sized, tell) for tell in sized.tells)


SLIPS = {
    "side for the radius": (
        'width = "π × diameter ÷ side pieces + 2 × seam allowance"',
        'width = "π × diameter ÷ 2 ÷ side pieces + 2 × seam allowance"',
    ),
    "two pieces of the whole way round": (
        'width = "π × diameter ÷ side pieces + 2 × seam allowance"',
        'width = "π × diameter + 2 × seam allowance"',
    ),
    "radius without allowance": (
        '"circle radius" = "diameter ÷ 2 + seam allowance"',
        '"circle radius" = "diameter ÷ 2"',
    ),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_slips_are_shown_to_be_wrong(slip: str) -> None:
    right, wrong = SLIPS[slip]
    text = text_of("round-bucket")
    assert right in text
    proofs = prove(read_recipe(text.replace(right, wrong, 1)))
    assert "false" in {proof.result for proof in proofs}


@pytest.mark.parametrize("options", EVERY_CHOICE, ids=combination_id)
class TestInstructions:
    @pytest.fixture
    def sized(self, bucket: Recipe, options: Options) -> SizedPattern:
        return sized_at(bucket, IN, {"diameter": Fraction(19, 2)}, options)

    def test_have_fifteen_to_thirty_steps_that_read_well(self, sized: SizedPattern) -> None:
        assert 15 <= len(sized.steps) <= 30
        starters.assert_read_well(sized)

    def test_speak_of_nothing_that_was_not_chosen(self, sized: SizedPattern, options: Options) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        is_whole = options["side"] == "one piece"
        assert ("the seam will be the fourth" in words) == is_whole
        assert ("both seams open" in words) == (not is_whole)
        one_way = "one way" in (options["exterior print"], options["lining print"])
        assert ("upright" in words) == one_way
        assert ("heavy" in words) == (options["interfacing"] == "heavy")

    def test_show_every_piece(self, sized: SizedPattern) -> None:
        assert {piece.name for piece in sized.pieces} <= {name for step in sized.steps for name in step.shows}

    def test_use_nothing_before_it_is_made(self, sized: SizedPattern, options: Options) -> None:
        backed = {"light": ["^back side and base"], "heavy": ["^cut the heavy", "^fuse the heavy"]}
        words = starters.step_words(sized)
        order = [
            starters.first_step(words, pattern)
            for pattern in (
                "press them flat",
                "^cut the sides? of the exterior",
                "^cut the sides? of the lining",
                "^cut the bases",
                *backed.get(options["interfacing"], []),
                "^mark the bases in quarters",
                "^mark the sides? in quarters",
                "^mark the opening",
                "^sew the exterior into a ring",
                "^stay stitch and clip",
                "^pin the ring",
                "^sew the base",
                "^trim and turn the exterior",
                "^sew the lining",
                "^put the exterior into the lining",
                "^sew the top seam",
                "^turn the bucket",
                "^press the top edge",
                "^topstitch the top edge",
                "^stand it up",
            )
        ]
        assert None not in order
        assert order == sorted(order)

    def test_lists_all_that_the_steps_take(self, sized: SizedPattern) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        names = {material.name for material in sized.materials}
        for used, name in (
            *(("clip", "sewing clips"), ("string and pencil", "string and pencil")),
            *(("by hand", "hand needle"), ("press", "iron and ironing board"), ("snip", "cutting tools")),
        ):
            assert used in words
            assert name in names
