"""The packable tote against formulas written anew from the construction, and against the trade.

Here W, H, D are width, height and depth, L and b a handle's length and width, s the seam allowance, n the
packing folds and e the packing ease; p × q is the finished pocket, k how far it lies below the top edge. All
in the units.
"""

from decimal import Decimal
from fractions import Fraction
from math import ceil, floor
from typing import NamedTuple

import pytest

from patterns.drafting.nearest import nearest_size
from patterns.drafting.recipe import Recipe
from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.truing import prove
from patterns.drafting.units import Units
from patterns.starters import read_starter, text_of
from tests import starters
from tests.starters import SOFT_COMBINATIONS, Options, Size, combination_id, sized_at

IN, CM = Units.INCHES, Units.CENTIMETRES
ONE_WAY = {"exterior print": "one way", "lining print": "one way"}
ROOM, OPENING, BASE_EXTERIOR, BASE_LINING, NARROWER, LOWER, WHOLE, HAND, SHOULDER, THIN, FIRM = (
    "The triangle leaves room under the top edge.",
    "The opening between the handle’s ends is wide enough to turn the tote through.",
    "The exterior’s base seam keeps clear of the pleat lines.",
    "The lining’s base seam keeps clear of the pleat lines.",
    "The pocket is narrower than the flat tote.",
    "The pocket is lower than the tote.",
    "The height is folded a whole number of times.",
    "A hand goes through the handles.",
    "The handles go over a shoulder.",
    "The folded tote is thin enough for its pocket.",
    "The seam allowance is wide enough for the side seams and the handles.",
)


class Letters(NamedTuple):
    w: Fraction
    h: Fraction
    d: Fraction
    length: Fraction
    s: Fraction
    b: Fraction
    n: Fraction
    e: Fraction


NAMES = (
    *("width", "height", "depth", "handle length"),
    *("seam allowance", "handle width", "packing folds", "packing ease"),
)


@pytest.fixture(scope="module")
def tote() -> Recipe:
    return read_starter("packable-tote")


def letters(measures: Size) -> Letters:
    return Letters(*(Fraction(measures[name]) for name in NAMES))


def pocket(at: Letters, units: Units) -> tuple[Fraction, Fraction, Fraction]:
    """p, q and k: sizes up to the next 1/4 in or 0.5 cm, the place down to it."""
    step, margin = (Fraction(1, 4), Fraction(1, 2)) if units is IN else (Fraction(1, 2), Fraction(1))
    p = ceil(((at.w + at.d) / 3 + at.e) / step) * step
    q = ceil((at.h / at.n + at.e) / step) * step
    return p, q, floor(min(at.h / at.n - at.e / 2, at.h - q - margin) / step) * step


def opening_of(at: Letters, units: Units) -> Fraction:
    most, clear = (Fraction(5), Fraction(1, 2)) if units is IN else (Fraction(13), Fraction(1))
    return min(most, at.w / 2 - at.b - clear)


def expected_pieces(
    measures: Size, units: Units, options: Options
) -> dict[str, tuple[int, Fraction, Fraction]]:
    at = letters(measures)
    p, q, _ = pocket(at, units)
    across = at.w + at.d + 2 * at.s
    sheets = {
        "panel": (1, across, 2 * at.h + at.d + 2 * at.s),
        "half panel": (2, across, at.h + at.d / 2 + 2 * at.s),
    }
    outer, inner = (_cut(options[f"{side} print"]) for side in ("exterior", "lining"))
    pieces = {f"exterior {outer}": sheets[outer], f"lining {inner}": sheets[inner]}
    pieces["handle"] = (2, at.length + 2 * at.s, 4 * at.b)
    pieces["pocket"] = (2, p + 2 * at.s, q + 2 * at.s)
    if options["interfacing"] == "light":
        pieces["light interfacing handle"] = (2, at.length, 2 * at.b)
        if outer == inner:
            count, *size = sheets[outer]
            pieces[f"light interfacing {outer}"] = (2 * count, *size)
        else:
            pieces[f"light interfacing {outer}"] = sheets[outer]
            pieces[f"light lining interfacing {inner}"] = sheets[inner]
    return pieces


def _cut(print_way: str) -> str:
    return "half panel" if print_way == "one way" else "panel"


def expected_front(measures: Size, units: Units) -> dict[str, tuple[Fraction | None, ...]]:
    """What is marked on the front alone: down from the top, in from the left, start and end."""
    at = letters(measures)
    p, q, k = pocket(at, units)
    centre, opening = at.s + (at.w + at.d) / 2, opening_of(at, units)
    return {
        "turning opening": (at.s, None, centre - opening / 2, centre + opening / 2),
        "pocket mouth line": (at.s + k, None, centre - p / 2, centre + p / 2),
        "pocket lower line": (at.s + k + q, None, centre - p / 2, centre + p / 2),
        "handle line": (at.s / 2, None, centre - at.w / 4, centre + at.w / 4),
    }


def expected_small(measures: Size, units: Units) -> dict[str, dict[str, tuple[Fraction | None, ...]]]:
    at = letters(measures)
    p, q, _ = pocket(at, units)
    gap = Fraction(5, 2) if units is IN else Fraction(13, 2)
    return {
        "handle": {
            "upper quarter line": (at.b, None, None, None),
            "middle fold": (2 * at.b, None, None, None),
            "lower quarter line": (3 * at.b, None, None, None),
            "left end seam line": (None, at.s, None, None),
            "right end seam line": (None, at.s + at.length, None, None),
        },
        "pocket": {
            "mouth seam line": (at.s, None, None, None),
            "lower seam line": (at.s + q, None, None, None),
            "left seam line": (None, at.s, None, None),
            "right seam line": (None, at.s + p, None, None),
            "pocket opening": (at.s + q, None, at.s + (p - gap) / 2, at.s + (p + gap) / 2),
            "label place": (at.s + q / 2, at.s + p / 2, None, None),
        },
    }


def expected_checks(measures: Size, units: Units, options: Options) -> dict[str, bool]:
    at = letters(measures)
    room, firm, least, hand, shoulder, bare, faced = (
        (Fraction(1, 4), Fraction(3, 8), Fraction(5, 2), 3, 8, Fraction(1, 80), Fraction(1, 48))
        if units is IN
        else (Fraction(1, 2), Fraction(1), Fraction(13, 2), 8, 20, Fraction(3, 100), Fraction(1, 20))
    )
    p, q, _ = pocket(at, units)
    layer = bare if options["interfacing"] == "none" else faced
    drop = (at.length - at.w / 2) / 2
    checks = {
        ROOM: at.h >= at.d / 2 + at.s,
        OPENING: opening_of(at, units) >= least,
        NARROWER: p < at.w + at.d,
        LOWER: q < at.h,
        WHOLE: at.n.denominator == 1,
        HAND: drop >= hand,
        SHOULDER: drop >= shoulder,
        THIN: 12 * at.n * layer <= at.e,
        FIRM: at.s >= firm,
    }
    if options["exterior print"] == "one way":
        checks[BASE_EXTERIOR] = at.d / 2 >= at.s + room
    elif options["lining print"] == "one way":
        checks[BASE_LINING] = at.d / 2 >= at.s + room
    return checks


def assert_as_constructed(sized: SizedPattern, measures: Size, units: Units, options: Options) -> None:
    assert starters.pieces_of(sized) == expected_pieces(measures, units, options)
    assert starters.holds(sized) == expected_checks(measures, units, options)
    marks = starters.marks_of(sized)
    for name, wanted in expected_small(measures, units).items():
        assert marks[name] == wanted
    front = expected_front(measures, units)
    if options["exterior print"] == "one way":
        assert front.items() <= marks["exterior half panel"].items()
    else:
        line = front.pop("handle line")
        at = letters(measures)
        assert front.items() <= marks["exterior panel"].items()
        assert marks["exterior panel"]["front handle line"] == line
        back = 2 * at.h + at.d + at.s * 3 / 2
        assert marks["exterior panel"]["back handle line"] == (back, *line[1:])


def test_measures_have_the_ranges_of_the_construction(tote: Recipe) -> None:
    ranges = {
        measure.name: [
            tuple(
                number / starters.unit_of(measure, units)
                for number in (scale.least, scale.most, scale.default)
            )
            for units, scale in measure.scales.items()
        ]
        for measure in tote.measures
    }
    assert ranges == {
        "width": [(8, 20, 13), (20, 50, 33)],
        "height": [(8, 20, 14), (20, 50, 35)],
        "depth": [(2, 8, 5), (5, 20, 12)],
        "handle length": [(12, 36, 24), (30, 90, 60)],
        "seam allowance": [
            (Fraction(1, 4), 1, Fraction(1, 2)),
            (Fraction(1, 2), Fraction(5, 2), 1),
        ],
        "handle width": [(Fraction(3, 4), Fraction(3, 2), 1), (2, 4, Fraction(5, 2))],
        "packing folds": [(2, 5, 3), (2, 5, 3)],
        "packing ease": [(Fraction(1, 2), 2, 1), (Fraction(3, 2), 5, Fraction(5, 2))],
    }


def test_packing_folds_are_a_bare_number(tote: Recipe) -> None:
    assert tote.measure("packing folds").power == 0


def test_it_is_never_stiff(tote: Recipe) -> None:
    assert [choice.name for choice in tote.option("interfacing").choices] == ["none", "light"]


@pytest.mark.parametrize(("units", "least", "most"), [(IN, 8, 12), (CM, 20, 30)])
def test_sizes_hang_from_a_shoulder(tote: Recipe, units: Units, least: int, most: int) -> None:
    """Source: published guides: a handle drop of 8 to 12 in (20 to 30 cm) for the shoulder."""
    for named in [{}, *(dict(size.values[units]) for size in tote.sizes)]:
        measures = {name: value / units.mm for name, value in named.items()}
        drop = sized_at(tote, units, measures, {}).values["drop"]
        assert least * units.mm <= drop <= most * units.mm


def test_strap_is_cut_four_times_its_finished_width(tote: Recipe) -> None:
    """Source: published tutorial: a fabric strap folded in four is cut 4 × its finished width."""
    sized = sized_at(tote, IN, {"handle width": Fraction(3, 2)}, {})
    assert starters.pieces_of(sized)["handle"] == (2, 25, 6)


def test_a_drop_to_a_point_is_the_leg_of_a_triangle(tote: Recipe) -> None:
    """Source: the 3-4-5 triangle: half of 10 in, drawn to a point over a quarter of 12 in, is 4 in high."""
    sized = sized_at(tote, IN, {"width": Fraction(12), "handle length": Fraction(10)}, {})
    assert sized.values["pointed drop"] == 4 * IN.mm
    rounded = sized_at(tote, IN, {}, {}).values["pointed drop"]
    assert isinstance(rounded, Decimal)


def test_pocket_of_the_defaults(tote: Recipe) -> None:
    """18 ÷ 3 + 1 is 7; 14 ÷ 3 + 1 is 5 2/3, up to 5 3/4; 14 ÷ 3 − 1/2 is 4 1/6, down to 4."""
    values = sized_at(tote, IN, {}, {}).values
    names = ("finished pocket width", "finished pocket height", "pocket place")
    assert [values[name] / IN.mm for name in names] == [7, Fraction(23, 4), 4]


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", SOFT_COMBINATIONS, ids=combination_id)
def test_agrees_with_the_construction_at_the_ends_of_the_range(
    tote: Recipe, units: Units, options: Options, no_floats: None
) -> None:
    for measures in starters.some_corners(tote, units, about=80):
        assert_as_constructed(sized_at(tote, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", SOFT_COMBINATIONS[::3], ids=combination_id)
def test_agrees_with_the_construction_along_the_range(tote: Recipe, units: Units, options: Options) -> None:
    for measures in starters.walks(tote, units):
        assert_as_constructed(sized_at(tote, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
def test_every_accepted_size_can_be_sewn_and_packed(tote: Recipe, units: Units) -> None:
    for measures in starters.some_corners(tote, units, about=300):
        sized = sized_at(tote, units, measures, ONE_WAY)
        if not sized.is_refused:
            assert_can_be_sewn(sized, letters(measures), units)


def assert_can_be_sewn(sized: SizedPattern, at: Letters, units: Units) -> None:
    """The opening lies between the handle's ends, the pocket on the front, clear of all other stitches."""
    front = starters.marks_of(sized)["exterior half panel"]
    _, _, left, right = front["handle line"]
    _, _, begins, ends = front["turning opening"]
    assert left + at.b / 2 < begins < ends < right - at.b / 2
    assert at.s < left - at.b / 2
    assert front["base seam line"][0] - at.s > front["pleat line"][0]
    p, q, k = pocket(at, units)
    assert at.s + k + q < front["pleat line"][0]
    assert p <= at.w
    edge = Fraction(1, 8) if units is IN else Fraction(3, 10)
    second = sized.values["second row"] / units.mm
    assert edge <= second < k
    assert second <= max(at.s - edge, edge)
    assert 0 <= sized.values["handle overrun"] / units.mm <= k
    _, _, starts, stops = starters.marks_of(sized)["pocket"]["pocket opening"]
    assert at.s < starts < stops < at.s + p
    assert k <= at.h / at.n - at.e / 2


def test_refusal_offers_a_longer_handle_or_a_narrower_tote(tote: Recipe) -> None:
    sized = sized_at(tote, IN, {"width": Fraction(20), "handle length": Fraction(14)}, {})
    assert starters.said(sized, sized.failed[0].otherwise) == (
        "A handle of 14 in whose ends stand 10 in apart has a drop of only 2 in, and a hand needs 3 in."
    )
    nearest = nearest_size(tote, IN, {"width": 20 * IN.mm, "handle length": 14 * IN.mm}, {})
    assert nearest is not None
    assert nearest["handle length"] == 16 * IN.mm


def test_half_a_fold_is_refused(tote: Recipe) -> None:
    sized = sized_at(tote, IN, {"packing folds": Fraction(5, 2)}, {})
    assert [check.says for check in sized.failed if check.level == "refuse"] == [WHOLE]
    assert "into 2 1⁄2 turns" in starters.said(sized, sized.failed[0].otherwise)


def test_a_tote_too_thick_for_its_pocket_is_advised_against(tote: Recipe) -> None:
    """Twelve layers of 0.5 mm for each of five turns are 30 mm; of 0.3 mm without interfacing, 18 mm."""
    thick = {"packing folds": Fraction(5), "packing ease": Fraction(5, 2)}
    light, none = (sized_at(tote, CM, thick, {"interfacing": choice}) for choice in ("light", "none"))
    assert [check.says for check in light.failed] == [THIN]
    assert "is 3 cm thick" in starters.said(light, light.failed[0].otherwise)
    assert none.failed == ()


def test_only_pieces_of_a_one_way_print_must_not_be_turned(tote: Recipe) -> None:
    sized = sized_at(tote, IN, {}, {"exterior print": "one way"})
    assert {piece.name: piece.turns for piece in sized.pieces} == {
        "exterior half panel": False,
        "handle": True,
        "pocket": False,
        "lining panel": True,
        "light interfacing half panel": True,
        "light lining interfacing panel": True,
        "light interfacing handle": True,
    }


def test_tells_give_flat_and_packed_size_and_no_load(tote: Recipe) -> None:
    sized = sized_at(tote, IN, {}, {})
    tells = " ".join(starters.said(sized, tell) for tell in sized.tells)
    assert "Folds flat to 18 in × 14 in, and packs into its pocket to about 7 in × 5 3⁄4 in." in tells
    assert "hang 8 3⁄4 in down" in tells
    assert "no load is rated" in tells
    assert "cut each 27 in long" in tells


SLIPS = {
    "handle ends too near": ("(width + depth) ÷ 2 + width ÷ 4", "(width + depth) ÷ 2 + width ÷ 8"),
    "pocket not in the middle": (
        "seam allowance + (width + depth − finished pocket width) ÷ 2",
        "seam allowance + (width − finished pocket width) ÷ 2",
    ),
    "pocket without ease": (
        '"round up ((width + depth) ÷ 3 + packing ease, to pocket step)"',
        '"round up ((width + depth) ÷ 3, to pocket step)"',
    ),
    "pocket rounded down": (
        '"round up (height ÷ packing folds + packing ease, to pocket step)"',
        '"round down (height ÷ packing folds + packing ease, to pocket step)"',
    ),
    "drop forgets the width": ('drop = "(handle length − width ÷ 2) ÷ 2"', 'drop = "handle length ÷ 2"'),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_slips_in_amounts_are_shown_to_be_wrong(slip: str) -> None:
    right, wrong = SLIPS[slip]
    text = text_of("packable-tote")
    assert right in text
    proofs = prove(read_recipe(text.replace(right, wrong, 1)))
    assert "false" in {proof.result for proof in proofs}


@pytest.mark.parametrize("options", SOFT_COMBINATIONS, ids=combination_id)
class TestInstructions:
    @pytest.fixture
    def sized(self, tote: Recipe, options: Options) -> SizedPattern:
        return sized_at(tote, IN, {"width": Fraction(23, 2), "depth": Fraction(19, 4)}, options)

    def test_speak_of_nothing_that_was_not_chosen(self, sized: SizedPattern, options: Options) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        one_way = {side for side in ("exterior", "lining") if options[f"{side} print"] == "one way"}
        assert ("half panel" in words or "base seam" in words) == bool(one_way)
        assert ("exterior half panel" in words) == ("exterior" in one_way)
        assert ("lining half panel" in words) == ("lining" in one_way)
        assert ("middle fold right across" in words) == (len(one_way) < 2)
        assert ("snip" in words) == ("lining" not in one_way)
        assert ("upright on both. write top along the upper edge of each pocket" in words) == (
            "exterior" in one_way
        )

    def test_use_nothing_before_it_is_made(self, sized: SizedPattern) -> None:
        words = starters.step_words(sized)
        order = [
            starters.first_step(words, pattern)
            for pattern in (
                "press them flat",
                "^cut the exterior",
                "^cut the lining",
                "^cut the handles",
                "side seam line",
                "mark the opening",
                "handle line",
                "mouth line",
                "crease",
                "topstitch both long sides",
                "^sew the pocket",
                "^turn the pocket and",
                "pin the pocket",
                "pin one handle",
                "top seam line from raw",
                "the back handle between",
                "roll up each handle",
                r"\bflap",
                "push the middle of the lining",
                "eight layers over",
                "^sew the sides",
                "^trim the side seams",
                "clips off the rolled handles",
                "topstitch once round",
                "it stands",
                "in thirds",
                "inside out",
            )
        ]
        assert None not in order
        assert order == sorted(order)

    def test_lists_all_that_the_steps_take(self, sized: SizedPattern) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        names = {material.name for material in sized.materials}
        for used, name in (("pin ", "pins"), ("clip ", "sewing clips"), ("point turner", "point turner")):
            assert used in words
            assert name in names
