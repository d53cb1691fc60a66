"""The fold-flat basket against formulas written anew from the construction, and against the trade.

Here W, H, D are width, height and depth and s is the seam allowance, in the units.
"""

from fractions import Fraction

import pytest

from patterns.drafting.nearest import nearest_size
from patterns.drafting.recipe import Recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.units import Units
from patterns.starters import read_starter
from tests import starters
from tests.starters import COMBINATIONS, Options, Size, combination_id, sized_at

IN, CM = Units.INCHES, Units.CENTIMETRES
MEASURES = ("width", "height", "depth", "seam allowance")
EXTERIOR_ONE_WAY = {"exterior print": "one way"}
ROOM, OPENING, BASE_EXTERIOR, BASE_LINING, BALANCE, FIRM = (
    "The triangle leaves room under the top edge.",
    "The opening is wide enough to turn the basket through.",
    "The exterior’s base seam keeps clear of the pleat lines.",
    "The lining’s base seam keeps clear of the pleat lines.",
    "The basket is at least as high as it is deep.",
    "The seam allowance is wide enough to hold eight layers.",
)


@pytest.fixture(scope="module")
def basket() -> Recipe:
    return read_starter("fold-flat-basket")


def letters(measures: Size) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    return tuple(Fraction(measures[name]) for name in MEASURES)


def expected_pieces(measures: Size, options: Options) -> dict[str, tuple[int, Fraction, Fraction]]:
    """Source: common practice: cut width W + D + 2s, height 2H + D + 2s; halves split at the middle."""
    w, h, d, s = letters(measures)
    panel, half = (w + d + 2 * s, 2 * h + d + 2 * s), (w + d + 2 * s, h + d / 2 + 2 * s)
    exterior_halves, lining_halves = (
        options[f"{side} print"] == "one way" for side in ("exterior", "lining")
    )
    pieces = {
        "exterior half panel" if exterior_halves else "exterior panel": (2, *half)
        if exterior_halves
        else (1, *panel),
        "lining half panel" if lining_halves else "lining panel": (2, *half)
        if lining_halves
        else (1, *panel),
    }
    if options["interfacing"] == "heavy":
        name = "heavy interfacing half panel" if exterior_halves else "heavy interfacing panel"
        pieces[name] = (2, w + d, h + d / 2) if exterior_halves else (1, w + d, 2 * h + d)
    if options["interfacing"] == "light":
        pieces |= _light(exterior_halves, lining_halves, panel, half)
    return pieces


def _light(
    exterior_halves: bool,
    lining_halves: bool,
    panel: tuple[Fraction, Fraction],
    half: tuple[Fraction, Fraction],
) -> dict[str, tuple[int, Fraction, Fraction]]:
    if exterior_halves and lining_halves:
        return {"light interfacing half panel": (4, *half)}
    if exterior_halves:
        return {"light interfacing half panel": (2, *half), "light lining interfacing panel": (1, *panel)}
    if lining_halves:
        return {"light interfacing panel": (1, *panel), "light lining interfacing half panel": (2, *half)}
    return {"light interfacing panel": (2, *panel)}


def expected_marks(
    measures: Size, units: Units, options: Options
) -> dict[str, dict[str, tuple[Fraction | None, ...]]]:
    w, h, d, s = letters(measures)
    opening = min(Fraction(5) if units is IN else Fraction(13), (w + d) / 2)
    clip = s - (Fraction(1, 8) if units is IN else Fraction(3, 10))
    centre = s + (w + d) / 2
    sides = {
        "left side seam line": (None, s, None, None),
        "right side seam line": (None, s + w + d, None, None),
    }
    front = {
        "turning opening": (s, None, centre - opening / 2, centre + opening / 2),
        "label place": (s + h / 2, centre, None, None),
    }
    clips = {
        "left clip": (s + h + d / 2, None, None, clip),
        "right clip": (s + h + d / 2, None, w + d + 2 * s - clip, None),
    }
    panel = sides | {
        "middle fold": (s + h + d / 2, None, None, None),
        "front pleat line": (s + h, None, None, None),
        "back pleat line": (s + h + d, None, None, None),
        "front top seam line": (s, None, None, None),
        "back top seam line": (s + 2 * h + d, None, None, None),
    }
    half_height = h + d / 2 + 2 * s
    half = sides | {
        "top seam line": (s, None, None, None),
        "pleat line": (half_height - (s + d / 2), None, None, None),
        "base seam line": (half_height - s, None, None, None),
    }
    exterior, lining = (options[f"{side} print"] == "one way" for side in ("exterior", "lining"))
    return {
        "exterior half panel" if exterior else "exterior panel": (half if exterior else panel) | front,
        "lining half panel" if lining else "lining panel": half if lining else panel | clips,
    }


def expected_checks(measures: Size, units: Units, options: Options) -> dict[str, bool]:
    w, h, d, s = letters(measures)
    room, firm, least = (
        (Fraction(1, 4), Fraction(3, 8), Fraction(5, 2))
        if units is IN
        else (Fraction(1, 2), Fraction(1), Fraction(13, 2))
    )
    checks = {
        ROOM: h >= d / 2 + s,
        OPENING: min(2 * least, (w + d) / 2) >= least,
        BALANCE: h >= d,
        FIRM: s >= firm,
    }
    if options["exterior print"] == "one way":
        checks[BASE_EXTERIOR] = d / 2 >= s + room
    elif options["lining print"] == "one way":
        checks[BASE_LINING] = d / 2 >= s + room
    return checks


def assert_as_constructed(sized: SizedPattern, measures: Size, units: Units, options: Options) -> None:
    assert starters.pieces_of(sized) == expected_pieces(measures, options)
    assert starters.marks_of(sized) == expected_marks(measures, units, options)
    assert starters.holds(sized) == expected_checks(measures, units, options)


def test_measures_have_the_ranges_of_the_construction(basket: Recipe) -> None:
    ranges = {
        measure.name: [
            tuple(number / units.mm for number in (scale.least, scale.most, scale.default, scale.step))
            for units, scale in measure.scales.items()
        ]
        for measure in basket.measures
    }
    assert ranges == {
        "width": [(3, 20, 9, Fraction(1, 4)), (8, 50, 23, Fraction(1, 2))],
        "height": [(2, 20, 6, Fraction(1, 4)), (5, 50, 15, Fraction(1, 2))],
        "depth": [(2, 12, 5, Fraction(1, 4)), (5, 30, 12, 1)],
        "seam allowance": [
            (Fraction(1, 4), 1, Fraction(1, 2), Fraction(1, 8)),
            (Fraction(1, 2), Fraction(5, 2), 1, Fraction(1, 10)),
        ],
    }
    assert [measure.role for measure in basket.measures] == ["size", "size", "size", "making"]


def test_basket_of_seven_by_five_by_five(basket: Recipe) -> None:
    """Source: common practice: 7 wide, 5 high, 5 deep at 1/2 in is cut 13 × 16, heavy interfacing 12 × 15."""
    measures = {
        "width": Fraction(7),
        "height": Fraction(5),
        "depth": Fraction(5),
        "seam allowance": Fraction(1, 2),
    }
    sized = sized_at(basket, IN, measures, {"interfacing": "heavy"})
    assert starters.pieces_of(sized) == {
        "exterior panel": (1, 13, 16),
        "lining panel": (1, 13, 16),
        "heavy interfacing panel": (1, 12, 15),
    }


def test_triangle_and_pleats_of_seven_by_five_by_five(basket: Recipe) -> None:
    """Source: common practice: the triangle stands 2 1/2 in, the pleats lie as far from the middle."""
    measures = {
        "width": Fraction(7),
        "height": Fraction(5),
        "depth": Fraction(5),
        "seam allowance": Fraction(1, 2),
    }
    sized = sized_at(basket, IN, measures, {})
    point = next(amount.quantity.value for amount in sized.amounts if amount.name == "triangle point")
    lines = {name: at[0] for name, at in starters.marks_of(sized)["exterior panel"].items()}
    assert point == Fraction(5, 2) * IN.mm
    assert lines["middle fold"] - lines["front pleat line"] == Fraction(5, 2)
    assert lines["back pleat line"] - lines["middle fold"] == Fraction(5, 2)


def test_light_interfacing_is_cut_for_both_panels_by_default(basket: Recipe) -> None:
    sized = sized_at(basket, IN, {}, {})
    assert starters.pieces_of(sized)["light interfacing panel"] == (2, 15, 18)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", COMBINATIONS, ids=combination_id)
def test_agrees_with_the_construction_at_the_ends_of_the_range(
    basket: Recipe, units: Units, options: Options, no_floats: None
) -> None:
    for measures in starters.corners(basket, units):
        assert_as_constructed(sized_at(basket, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", COMBINATIONS[::5], ids=combination_id)
def test_agrees_with_the_construction_along_the_range(basket: Recipe, units: Units, options: Options) -> None:
    for measures in starters.walks(basket, units):
        assert_as_constructed(sized_at(basket, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
def test_every_accepted_size_can_be_sewn(basket: Recipe, units: Units) -> None:
    """Lines follow each other, the opening fits, no clip reaches a seam and no allowance a pleat."""
    for measures in starters.corners(basket, units):
        for options in ({}, EXTERIOR_ONE_WAY | {"lining print": "one way"}):
            sized = sized_at(basket, units, measures, options)
            if not sized.is_refused:
                assert_can_be_sewn(sized, *letters(measures))


def assert_can_be_sewn(sized: SizedPattern, w: Fraction, h: Fraction, d: Fraction, s: Fraction) -> None:
    for marks in starters.marks_of(sized).values():
        if "base seam line" in marks:
            assert marks["top seam line"] < marks["pleat line"]
            assert marks["base seam line"][0] - s > marks["pleat line"][0]
    exterior = next(marks for name, marks in starters.marks_of(sized).items() if name.startswith("exterior"))
    _, _, begins, ends = exterior["turning opening"]
    assert s < begins < ends < s + w + d
    lining = starters.marks_of(sized).get("lining panel")
    assert lining is None or 0 < lining["left clip"][3] < s
    assert h - s >= d / 2


def test_height_of_the_triangle_and_the_seam_is_just_enough(basket: Recipe) -> None:
    at = {"depth": Fraction(5), "seam allowance": Fraction(1, 2)}
    assert starters.holds(sized_at(basket, IN, at | {"height": Fraction(3)}, {}))[ROOM] is True
    assert starters.holds(sized_at(basket, IN, at | {"height": Fraction(23, 8)}, {}))[ROOM] is False


def test_refusal_says_what_is_wrong_and_the_nearest_size_mends_it(basket: Recipe) -> None:
    measures = {"height": 2 * IN.mm}
    sized = sized_at(basket, IN, {"height": Fraction(2)}, {})
    assert starters.said(sized, sized.failed[0].otherwise) == (
        "A height of 2 in leaves no room for the top seam above the triangle, which stands 2 1⁄2 in: "
        "the seam takes another 1⁄2 in."
    )
    nearest = nearest_size(basket, IN, measures, {})
    assert nearest is not None
    assert nearest["height"] == 3 * IN.mm


def test_base_seam_is_refused_once_where_both_prints_run_one_way(basket: Recipe) -> None:
    sized = sized_at(
        basket,
        IN,
        {"depth": Fraction(2), "seam allowance": Fraction(7, 8)},
        EXTERIOR_ONE_WAY | {"lining print": "one way"},
    )
    assert [check.says for check in sized.failed] == [BASE_EXTERIOR]


def test_only_pieces_of_a_one_way_print_must_not_be_turned(basket: Recipe) -> None:
    sized = sized_at(basket, IN, {}, {"exterior print": "one way", "lining print": "no direction"})
    assert {piece.name: piece.turns for piece in sized.pieces} == {
        "exterior half panel": False,
        "lining panel": True,
        "light interfacing half panel": True,
        "light lining interfacing panel": True,
    }


def test_tells_give_the_flat_size_and_what_it_holds(basket: Recipe) -> None:
    sized = sized_at(basket, IN, {}, {})
    tells = [starters.said(sized, tell) for tell in sized.tells]
    assert "Folds flat to 14 in × 6 in." in tells
    assert "Filled level to the top it holds 270 in³." in tells
    assert any("8 3⁄4 in × 4 3⁄4 in" in tell for tell in tells)


def test_capacity_is_that_of_the_box(basket: Recipe) -> None:
    sized = sized_at(basket, CM, {}, {})
    assert sized.values["capacity"] == 23 * 12 * 15 * CM.mm**3


@pytest.mark.parametrize("options", COMBINATIONS, ids=combination_id)
class TestInstructions:
    @pytest.fixture
    def sized(self, basket: Recipe, options: Options) -> SizedPattern:
        return sized_at(basket, IN, {"width": Fraction(17, 2), "depth": Fraction(19, 4)}, options)

    def test_speak_of_nothing_that_was_not_chosen(self, sized: SizedPattern, options: Options) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        one_way = {side for side in ("exterior", "lining") if options[f"{side} print"] == "one way"}
        assert ("half panel" in words or "halves" in words or "base seam" in words) == bool(one_way)
        assert ("exterior half panel" in words) == ("exterior" in one_way)
        assert ("lining half panel" in words) == ("lining" in one_way)
        assert ("middle fold" in words) == (len(one_way) < 2)
        assert ("snip" in words) == ("lining" not in one_way)

    def test_use_nothing_before_it_is_made(self, sized: SizedPattern) -> None:
        words = starters.step_words(sized)
        order = [
            first_of(words, pattern)
            for pattern in (
                "press them flat",
                "^cut the exterior",
                "^cut the lining",
                "side seam line",
                "pleat line",
                "mark the opening",
                "crease",
                "top seam from raw|sew on the top seam line",
                "loop",
                r"\bflap",
                "push the middle of the lining",
                "eight layers over",
                "^sew the sides",
                "corners off",
                "through the opening|through it",
                "topstitch once",
                "it stands",
            )
        ]
        assert order == sorted(order)


def first_of(words: list[str], pattern: str) -> int:
    place = starters.first_step(words, pattern)
    assert place is not None, pattern
    return place
