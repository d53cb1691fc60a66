"""The boxed tote against formulas written anew from the construction, and against the trade.

Here W, H, D are width, height and depth, L and b a handle's length and width and s the seam allowance, in the
units. The seams are walked on the cut outlines, corner by corner.
"""

from fractions import Fraction
from itertools import product
from typing import NamedTuple

import pytest

from patterns.drafting.nearest import nearest_size
from patterns.drafting.outlines import Corner, edge_length, edges, seam_line
from patterns.drafting.recipe import Recipe
from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sized import SizedPattern, SizedPiece
from patterns.drafting.truing import prove
from patterns.drafting.units import Units
from patterns.starters import read_starter, text_of
from tests import starters
from tests.starters import COMBINATIONS, Options, Size, combination_id, sized_at

IN, CM = Units.INCHES, Units.CENTIMETRES
HALF = Fraction(1, 2)
HANDLES = ("fabric", "webbing")
EVERY_CHOICE = [prints | {"handle": handle} for prints, handle in product(COMBINATIONS, HANDLES)]
CORNER, OPENING, HAND, SHOULDER, FIRM = (
    "The cut-outs leave a corner to open.",
    "The opening is wide enough to turn the tote through.",
    "A hand goes through the handles.",
    "The handles go over a shoulder.",
    "The seam allowance is wide enough to hold the handles.",
)


class Letters(NamedTuple):
    w: Fraction
    h: Fraction
    d: Fraction
    length: Fraction
    b: Fraction
    s: Fraction


NAMES = ("width", "height", "depth", "handle length", "handle width", "seam allowance")


@pytest.fixture(scope="module")
def tote() -> Recipe:
    return read_starter("boxed-tote")


def letters(measures: Size) -> Letters:
    return Letters(*(Fraction(measures[name]) for name in NAMES))


def expected_pieces(at: Letters, options: Options) -> dict[str, tuple[int, Fraction, Fraction]]:
    panel = at.w + at.d + 2 * at.s, at.h + at.d / 2 + 2 * at.s
    pieces = {"exterior panel": (2, *panel), "lining panel": (2, *panel)}
    if options["handle"] == "fabric":
        pieces["handle"] = (2, at.length + 2 * at.s, 4 * at.b)
    if options["interfacing"] == "light":
        pieces["light interfacing panel"] = (4, *panel)
        if options["handle"] == "fabric":
            pieces["light interfacing handle"] = (2, at.length, 2 * at.b)
    if options["interfacing"] == "heavy":
        pieces["heavy interfacing panel"] = (2, at.w + at.d, at.h + at.d / 2)
    return pieces


def expected_outline(width: Fraction, height: Fraction, cut: Fraction) -> list[tuple[Fraction, Fraction]]:
    """A square out of both lower corners, from the top left, as a clock's hands run."""
    places = ((0, 0), (width, 0), (width, height - cut), (width - cut, height - cut))
    lower = ((width - cut, height), (cut, height), (cut, height - cut), (0, height - cut))
    return [(Fraction(x), Fraction(y)) for x, y in (*places, *lower)]


def expected_checks(at: Letters, units: Units) -> dict[str, bool]:
    room, firm, most, least, hand, shoulder = (
        (Fraction(1, 4), Fraction(3, 8), Fraction(6), Fraction(5, 2), 3, 8)
        if units is IN
        else (HALF, Fraction(1), Fraction(15), Fraction(13, 2), 8, 20)
    )
    drop = (at.length - at.w / 2) / 2
    return {
        CORNER: at.d / 2 >= at.s + room,
        OPENING: min(most, at.w / 2) >= least,
        HAND: drop >= hand,
        SHOULDER: drop >= shoulder,
        FIRM: at.s >= firm,
    }


def assert_as_constructed(sized: SizedPattern, measures: Size, units: Units, options: Options) -> None:
    at = letters(measures)
    pieces = expected_pieces(at, options)
    assert starters.pieces_of(sized) == pieces
    assert starters.holds(sized) == expected_checks(at, units)
    for piece in sized.pieces:
        if piece.name.endswith("panel"):
            _, *sides = pieces[piece.name]
            places = [tuple(side / units.mm for side in corner.place) for corner in piece.corners]
            assert places == expected_outline(*sides, at.d / 2)
    marks = starters.marks_of(sized)
    centre, opening = at.s + (at.w + at.d) / 2, min(Fraction(6 if units is IN else 15), at.w / 2)
    assert marks["lining panel"]["turning opening"] == (
        *(at.s + at.h + at.d / 2, None),
        *(centre - opening / 2, centre + opening / 2),
    )
    places = {name: place[:2] for name, place in marks["exterior panel"].items()}
    assert places["left handle centre"] == (at.s, centre - at.w / 4)
    assert places["right handle centre"] == (at.s, centre + at.w / 4)


def piece_named(sized: SizedPattern, name: str) -> SizedPiece:
    return next(piece for piece in sized.pieces if piece.name == name)


def seams(sized: SizedPattern, name: str) -> tuple[Fraction, ...]:
    """Walk a panel's seam line, in the units: top, side, level cut-out edge, upright one, base and so on."""
    line = seam_line(piece_named(sized, name).corners, sized.values["seam allowance"])
    assert line is not None
    walked = [Fraction(edge_length(edge)) / sized.units.mm for edge in edges(line)]
    return (*walked[1:], walked[0])


def test_measures_have_the_ranges_of_the_construction(tote: Recipe) -> None:
    ranges = {
        measure.name: [
            tuple(number / units.mm for number in (scale.least, scale.most, scale.default, scale.step))
            for units, scale in measure.scales.items()
        ]
        for measure in tote.measures
    }
    quarter, eighth = Fraction(1, 4), Fraction(1, 8)
    assert ranges == {
        "width": [(6, 24, 14, quarter), (15, 60, 36, HALF)],
        "height": [(6, 24, 13, quarter), (15, 60, 33, HALF)],
        "depth": [(2, 10, 5, quarter), (5, 25, 12, 1)],
        "handle length": [(12, 36, 24, HALF), (30, 90, 60, 1)],
        "handle width": [(Fraction(3, 4), Fraction(3, 2), 1, eighth), (2, 4, Fraction(5, 2), HALF)],
        "seam allowance": [(quarter, 1, HALF, eighth), (HALF, Fraction(5, 2), 1, Fraction(1, 10))],
    }


def test_published_panels_of_19_by_13_make_14_by_10_by_4(tote: Recipe, no_floats: None) -> None:
    """Source: published home-sewing tutorial, recomputed: 1/2 in seams, 2 in squares out of the corners."""
    measures = {"width": Fraction(14), "height": Fraction(10), "depth": Fraction(4), "seam allowance": HALF}
    sized = sized_at(tote, IN, measures, {})
    assert starters.pieces_of(sized)["exterior panel"] == (2, 19, 13)
    assert sized.values["corner square"] == 2 * IN.mm
    top, right_side, right_level, right_upright, base, left_upright, left_level, left_side = seams(
        sized, "exterior panel"
    )
    assert base == 14
    assert right_side == left_side == 10
    assert right_level + right_upright == left_level + left_upright == 4
    assert top == 14 + 4


def test_published_tube_of_74_cm_has_a_base_of_18_by_18(tote: Recipe) -> None:
    """Source: UK craft magazine, Fabric basket, recomputed: joined at 1 cm, boxed with a line of 18 cm."""
    sized = sized_at(tote, CM, {"width": Fraction(18), "depth": Fraction(18)}, {})
    top, *_, left_side = seams(sized, "exterior panel")
    assert 2 * top == 74 - 2
    assert seams(sized, "exterior panel")[4] == 18
    assert sum(seams(sized, "exterior panel")[2:4]) == 18
    assert left_side == 33


def test_published_base_of_4_in_has_its_boxing_line_2_in_from_the_tip(tote: Recipe) -> None:
    """Source: community reuse leaflet (Maine), Reusable shopping bag. The cut-out takes that tip away."""
    assert sized_at(tote, IN, {"depth": Fraction(4)}, {}).values["corner square"] == 2 * IN.mm


def test_published_liner_of_a_carton_is_as_wide_and_as_long_as_the_panel(tote: Recipe) -> None:
    """Source: packaging suppliers' How to measure guides (four agree): 14 × 10 × 32 in lies 26 × 42 in flat.

    Its 2 in of ease count to the width, its 5 in of overhang to the height. Such a bag is taller than the
    recipe's range; the panel between its seam lines is W + D by H + D/2 at any height.
    """
    liner = {"width": Fraction(14 + 2), "height": Fraction(32 + 5), "depth": Fraction(10)}
    sized = sized_at(tote, IN, liner, {"interfacing": "heavy"})
    assert starters.pieces_of(sized)["heavy interfacing panel"] == (2, 26, 42)
    assert starters.pieces_of(sized)["exterior panel"] == (2, 26 + 1, 42 + 1)


def test_published_strap_is_cut_four_times_its_width(tote: Recipe) -> None:
    """Source: published tutorial: a fabric strap folded in four is cut 4 × its finished width."""
    sized = sized_at(tote, IN, {"handle width": Fraction(5, 4)}, {})
    assert starters.pieces_of(sized)["handle"][2] == 5


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", EVERY_CHOICE, ids=combination_id)
def test_agrees_with_the_construction_at_the_ends_of_the_range(
    tote: Recipe, units: Units, options: Options, no_floats: None
) -> None:
    for measures in starters.some_corners(tote, units, about=90):
        assert_as_constructed(sized_at(tote, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
def test_agrees_with_the_construction_along_the_range(tote: Recipe, units: Units) -> None:
    options = EVERY_CHOICE[-1]
    for measures in starters.walks(tote, units):
        assert_as_constructed(sized_at(tote, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
def test_every_accepted_size_can_be_sewn(tote: Recipe, units: Units) -> None:
    """Seam on seam: each cut-out closes to the depth, and exterior and lining meet edge to edge."""
    for measures in starters.some_corners(tote, units, about=240):
        sized = sized_at(tote, units, measures, {})
        if sized.is_refused:
            continue
        at, outer = letters(measures), seams(sized, "exterior panel")
        assert outer == seams(sized, "lining panel")
        top, right_side, right_level, right_upright, base, left_upright, left_level, left_side = outer
        assert (top, base) == (at.w + at.d, at.w)
        assert right_side == left_side == at.h
        assert right_level == right_upright == left_level == left_upright == at.d / 2
        marks = starters.marks_of(sized)
        _, _, begins, ends = marks["lining panel"]["turning opening"]
        assert at.s + at.d / 2 < begins < ends < at.s + at.d / 2 + at.w
        assert marks["exterior panel"]["left handle centre"][1] > at.s + at.b / 2


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("name", ["exterior panel", "light interfacing panel"])
def test_pieces_are_cut_as_they_are_told(tote: Recipe, units: Units, name: str) -> None:
    """Exact numbers: nothing in the panels is rounded, so that they true to the hair."""
    for measures in starters.some_corners(tote, units, about=60):
        corners = piece_named(sized_at(tote, units, measures, {}), name).corners
        assert all(type(side) is Fraction for corner in corners for side in corner.place)
        assert {type(corner) for corner in corners} == {Corner}


def test_heavy_interfacing_ends_at_every_seam_line(tote: Recipe) -> None:
    """Laid in the middle of its panel it fills what the seam line encloses, along the cut-outs too."""
    sized = sized_at(tote, CM, {}, {"interfacing": "heavy"})
    line = seam_line(piece_named(sized, "exterior panel").corners, sized.values["seam allowance"])
    assert line is not None
    heavy = piece_named(sized, "heavy interfacing panel").corners
    assert [(corner.across + CM.mm, corner.down + CM.mm) for corner in heavy] == [
        corner.place for corner in line
    ]


def test_webbing_is_bought_for_both_handles(tote: Recipe) -> None:
    sized = sized_at(tote, IN, {}, {"handle": "webbing"})
    (webbing,) = [material for material in sized.materials if material.name == "handle webbing"]
    assert webbing.amount is not None
    assert webbing.amount.value == 2 * (24 + 1) * IN.mm
    assert starters.said(sized, webbing.says).startswith("Cotton or synthetic webbing, 1 in wide")


def test_drop_is_told_standing_and_drawn_to_a_point(tote: Recipe) -> None:
    """Half a handle of 25 in over a quarter of 14 in: 3 1/2, 12 and 12 1/2 make a right angle."""
    sized = sized_at(tote, IN, {"handle length": Fraction(25)}, {})
    assert sized.values["drop"] == 9 * IN.mm
    assert sized.values["pointed drop"] == 12 * IN.mm


def test_a_depth_that_leaves_no_corner_is_refused_and_mended(tote: Recipe) -> None:
    measures = {"depth": Fraction(2), "seam allowance": Fraction(1)}
    sized = sized_at(tote, IN, measures, {})
    assert starters.said(sized, sized.failed[0].otherwise) == (
        "A depth of 2 in makes the squares in the corners 1 in, but a seam allowance of 1 in needs 1 1⁄4 in "
        "there: no corner would be left to pull open."
    )
    nearest = nearest_size(tote, IN, {name: value * IN.mm for name, value in measures.items()}, {})
    assert nearest is not None
    assert nearest["depth"] == Fraction(5, 2) * IN.mm


def test_only_panels_of_a_one_way_print_must_not_be_turned(tote: Recipe) -> None:
    sized = sized_at(tote, IN, {}, {"exterior print": "one way"})
    assert {piece.name: piece.turns for piece in sized.pieces} == {
        "exterior panel": False,
        "lining panel": True,
        "handle": True,
        "light interfacing panel": True,
        "light interfacing handle": True,
    }


def test_tells_give_flat_size_capacity_and_no_load(tote: Recipe) -> None:
    soft, stiff = (sized_at(tote, IN, {}, {"interfacing": choice}) for choice in ("none", "heavy"))
    tells, others = (" ".join(starters.said(sized, tell) for tell in sized.tells) for sized in (soft, stiff))
    assert "Stands 14 in wide, 5 in deep and 13 in high, without the handles, and is 38 in round" in tells
    assert "it folds flat to 19 in × 13 in" in tells
    assert "folds flat" not in others
    assert "it holds 910 in³" in tells
    assert "no rated load" in tells
    assert "base board, 13 3⁄4 in × 4 3⁄4 in" in tells


SLIPS = {
    "square of the whole depth": ('"corner square" = "depth ÷ 2"', '"corner square" = "depth"'),
    "handle ends too near": (
        '"right handle place" = "seam allowance + (width + depth) ÷ 2 + width ÷ 4"',
        '"right handle place" = "seam allowance + (width + depth) ÷ 2 + width ÷ 8"',
    ),
    "drop forgets the width": ('drop = "(handle length − width ÷ 2) ÷ 2"', 'drop = "handle length ÷ 2"'),
    "webbing without allowances": (
        '"handle cut length" = "handle length + 2 × seam allowance"',
        '"handle cut length" = "handle length"',
    ),
    "one square lower": (
        'down = "lining panel height − corner square"\nname = "left inner"',
        'down = "lining panel height − corner square ÷ 2"\nname = "left inner"',
    ),
    "one square narrower": (
        'across = "heavy interfacing panel width − corner square"\n'
        'down = "heavy interfacing panel height − corner square"',
        'across = "heavy interfacing panel width − corner square ÷ 2"\n'
        'down = "heavy interfacing panel height − corner square"',
    ),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_slips_are_shown_to_be_wrong(slip: str) -> None:
    right, wrong = SLIPS[slip]
    text = text_of("boxed-tote")
    assert right in text
    proofs = prove(read_recipe(text.replace(right, wrong, 1)))
    assert "false" in {proof.result for proof in proofs}


@pytest.mark.parametrize("options", EVERY_CHOICE, ids=combination_id)
class TestInstructions:
    @pytest.fixture
    def sized(self, tote: Recipe, options: Options) -> SizedPattern:
        return sized_at(tote, IN, {"width": Fraction(23, 2), "depth": Fraction(9, 2)}, options)

    def test_have_fifteen_to_thirty_steps_that_read_well(self, sized: SizedPattern) -> None:
        assert 15 <= len(sized.steps) <= 30
        starters.assert_read_well(sized)

    def test_speak_of_nothing_that_was_not_chosen(self, sized: SizedPattern, options: Options) -> None:
        words = starters.all_words(sized).lower()
        steps = "\n".join(starters.step_words(sized)).lower()
        assert ("webbing" in steps) == ("lighter" in words) == (options["handle"] == "webbing")
        assert ("crease, so" in steps or "middle crease" in steps) == (options["handle"] == "fabric")
        assert ("upright on both" in steps) == (
            "one way" in (options["exterior print"], options["lining print"])
        )
        assert ("heavy" in steps) == (options["interfacing"] == "heavy")
        assert ("if you like, fuse" in steps) == (
            (options["interfacing"], options["handle"]) == ("light", "fabric")
        )

    def test_show_every_piece(self, sized: SizedPattern) -> None:
        assert {piece.name for piece in sized.pieces} <= {name for step in sized.steps for name in step.shows}

    def test_use_nothing_before_it_is_made(self, sized: SizedPattern, options: Options) -> None:
        made = {"fabric": "topstitch both long edges", "webbing": "^cut the webbing"}[options["handle"]]
        backed = {"light": ["^back the panels"], "heavy": ["^cut the heavy", "^fuse the heavy"]}
        words = starters.step_words(sized)
        order = [
            starters.first_step(words, pattern)
            for pattern in (
                "press them flat",
                "^cut the exterior",
                "^cut the lining",
                "^cut out the corners",
                *backed.get(options["interfacing"], []),
                "^draw the seam lines",
                "two handle centres",
                made,
                "^sew the base and the sides of the exterior",
                "^press the seams of the exterior",
                "^sew the corners of the exterior",
                "^turn the exterior",
                "^sew the base and the sides of the lining",
                "^sew the corners of the lining",
                "^baste the handles",
                "^join",
                "^turn the tote",
                "^close the opening",
                "^press the top edge",
                "^topstitch the top edge",
                "^press the base",
            )
        ]
        assert None not in order
        assert order == sorted(order)

    def test_lists_all_that_the_steps_take(self, sized: SizedPattern) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        names = {material.name for material in sized.materials}
        for used, name in (
            *(("clip", "sewing clips"), ("point turner", "point turner"), ("chalk", "marking tool")),
            *(("press", "iron and ironing board"), ("cut", "cutting tools"), ("webbing", "handle webbing")),
            ("seal the ends", "lighter or seam sealant"),
        ):
            assert (used in words) <= (name in names), name
