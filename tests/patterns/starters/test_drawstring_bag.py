"""The drawstring bag against formulas written anew from the construction, and against the trade.

Here W, H, D are width, height and depth, c is the channel, g the channel drop, k the cord thickness and s the
seam allowance, in the units.
"""

from fractions import Fraction
from itertools import islice

import pytest

from patterns.drafting.nearest import nearest_size
from patterns.drafting.recipe import Recipe
from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sized import Quantity, SizedPattern
from patterns.drafting.truing import prove
from patterns.drafting.units import Units
from patterns.starters import read_starter, text_of
from tests import starters
from tests.starters import SOFT_COMBINATIONS, Options, Size, combination_id, sized_at

IN, CM = Units.INCHES, Units.CENTIMETRES
MEASURES = ("width", "height", "depth", "channel", "channel drop", "cord thickness", "seam allowance")
CORNERS, OPENING, HALF, FREE, SHUT = (
    "The cut-outs leave a corner to open.",
    "The opening is wide enough to turn the bag through.",
    "The channel lies in the upper half of the bag.",
    "Both cords run freely in the channel.",
    "The cloth above a full base reaches to the middle when the bag is drawn.",
)


@pytest.fixture(scope="module")
def bag() -> Recipe:
    return read_starter("drawstring-bag")


def letters(measures: Size) -> tuple[Fraction, ...]:
    """W, H, D, c, g, k, s"""
    return tuple(Fraction(measures[name]) for name in MEASURES)


def expected_pieces(measures: Size, options: Options) -> dict[str, tuple[int, Fraction, Fraction]]:
    w, h, d, *_, s = letters(measures)
    panel = w + d + 2 * s, h + d / 2 + 2 * s
    pieces = {f"{side} panel": (2, *panel) for side in ("exterior", "lining")}
    if options["interfacing"] == "light":
        pieces["light interfacing panel"] = (4, *panel)
    return pieces


def expected_marks(measures: Size, units: Units) -> dict[str, dict[str, tuple[Fraction | None, ...]]]:
    w, h, d, c, g, _, s = letters(measures)
    left, right, centre = s, s + w + d, s + (w + d) / 2
    opening = min(Fraction(6) if units is IN else Fraction(15), w / 2)
    return {
        "exterior panel": {
            "seam line": (None, None, None, None),
            "left gap": (None, left, s + g, s + g + c),
            "right gap": (None, right, s + g, s + g + c),
            "upper channel line": (s + g, None, left, right),
            "lower channel line": (s + g + c, None, left, right),
            "label place": (s + (g + c + h) / 2, centre, None, None),
        },
        "lining panel": {
            "seam line": (None, None, None, None),
            "turning opening": (s + h + d / 2, None, centre - opening / 2, centre + opening / 2),
        },
    }


def expected_checks(measures: Size, units: Units) -> dict[str, bool]:
    w, h, d, c, g, k, s = letters(measures)
    inch = units is IN
    return {
        CORNERS: d / 2 >= s + (Fraction(1, 4) if inch else Fraction(1, 2)),
        OPENING: min(Fraction(6) if inch else Fraction(15), w / 2)
        >= (Fraction(5, 2) if inch else Fraction(13, 2)),
        HALF: g + c <= h / 2,
        FREE: c >= 3 * k,
        SHUT: h >= g + c and (2 * (h - g - c)) ** 2 >= w**2 + d**2,
    }


def outline_of(sized: SizedPattern, name: str) -> list[tuple[Fraction, Fraction]]:
    """The corners of a piece, across and down, in the units."""
    piece = next(piece for piece in sized.pieces if piece.name == name)
    return [
        (Fraction(corner.across.value) / sized.units.mm, Fraction(corner.down.value) / sized.units.mm)
        for corner in piece.outline
        if corner.across.value is not None and corner.down.value is not None
    ]


def assert_as_constructed(sized: SizedPattern, measures: Size, units: Units, options: Options) -> None:
    assert starters.pieces_of(sized) == expected_pieces(measures, options)
    assert starters.marks_of(sized) == expected_marks(measures, units)
    assert starters.holds(sized) == expected_checks(measures, units)
    w, _, d, *_ = letters(measures)
    assert cord_of(sized).value == 2 * (2 * (w + d) + (10 if units is IN else 25)) * units.mm


def cord_of(sized: SizedPattern) -> Quantity:
    amount = next(material.amount for material in sized.materials if material.name == "cord")
    assert amount is not None
    return amount


def test_measures_have_the_ranges_of_the_construction(bag: Recipe) -> None:
    ranges = {
        measure.name: [
            tuple(number / units.mm for number in (scale.least, scale.most, scale.default))
            for units, scale in measure.scales.items()
        ]
        for measure in bag.measures
        if measure.name != "cord thickness"
    }
    assert ranges == {
        "width": [(5, 16, 7), (13, 40, 18)],
        "height": [(5, 20, 9), (13, 50, 23)],
        "depth": [(2, 10, 4), (5, 25, 10)],
        "channel": [(Fraction(1, 2), Fraction(3, 2), Fraction(3, 4)), (Fraction(6, 5), 4, 2)],
        "channel drop": [(1, 4, 2), (Fraction(5, 2), 10, 5)],
        "seam allowance": [(Fraction(1, 4), 1, Fraction(1, 2)), (Fraction(1, 2), Fraction(5, 2), 1)],
    }


def test_it_is_never_stiff(bag: Recipe) -> None:
    assert [choice.name for choice in bag.option("interfacing").choices] == ["none", "light"]


def test_default_bag_worked_by_hand_in_inches(bag: Recipe) -> None:
    """7 × 9 × 4 at 1/2 in: 7 + 4 + 1 = 12 by 9 + 2 + 1 = 12, squares of 2; gaps from 2 1/2 to 3 1/4.

    Two cords of 2 × 11 + 10 = 32.
    """
    sized = sized_at(bag, IN, {}, {"interfacing": "none"})
    assert starters.pieces_of(sized) == {"exterior panel": (2, 12, 12), "lining panel": (2, 12, 12)}
    assert outline_of(sized, "exterior panel") == [
        *((0, 0), (12, 0), (12, 10), (10, 10)),
        *((10, 12), (2, 12), (2, 10), (0, 10)),
    ]
    gap = starters.marks_of(sized)["exterior panel"]["left gap"]
    assert gap == (None, Fraction(1, 2), Fraction(5, 2), Fraction(13, 4))
    assert cord_of(sized).value == 64 * IN.mm


def test_default_bag_worked_by_hand_in_centimetres(bag: Recipe) -> None:
    """18 × 23 × 10 at 1 cm: 18 + 10 + 2 = 30 by 23 + 5 + 2 = 30, squares of 5; gaps from 6 to 8.

    Two cords of 2 × 28 + 25 = 81.
    """
    sized = sized_at(bag, CM, {}, {"interfacing": "light"})
    assert starters.pieces_of(sized) == {
        "exterior panel": (2, 30, 30),
        "lining panel": (2, 30, 30),
        "light interfacing panel": (4, 30, 30),
    }
    for name in ("exterior panel", "lining panel", "light interfacing panel"):
        assert outline_of(sized, name) == [
            *((0, 0), (30, 0), (30, 25), (25, 25)),
            *((25, 30), (5, 30), (5, 25), (0, 25)),
        ]
    assert starters.marks_of(sized)["exterior panel"]["right gap"] == (None, 29, 6, 8)
    assert cord_of(sized).value == 162 * CM.mm


def test_published_drawstrings_are_shorter_by_another_custom(bag: Recipe) -> None:
    """Source: two published tutorials: two drawstrings of 22 in for a bag 8 1/4 in wide.

    That is 2 × width + 5 1/2 in for a flat bag, which is twice its width round; ours is 2 × (width + depth)
    round, here 6 1/4 and 2 in. Theirs leaves 2 3/4 in of each end hanging out, ours 5 in to get a knot and
    two fingers round: 4 1/2 in more.
    """
    published, round_it = Fraction(22), 2 * Fraction(33, 4)
    sized = sized_at(bag, IN, {"width": Fraction(25, 4), "depth": Fraction(2)}, {})
    assert sized.values["cord length"] == (published + Fraction(9, 2)) * IN.mm
    assert published - round_it == Fraction(11, 2)
    assert sized.values["cord end"] == 5 * IN.mm


def test_published_boxed_bag_has_our_panels(bag: Recipe) -> None:
    """Source: a published tutorial: 19 × 13 in, 1/2 in seams, squares of 2 in: 14 wide, 10 high, 4 deep."""
    sized = sized_at(bag, IN, {"width": Fraction(14), "height": Fraction(10), "depth": Fraction(4)}, {})
    assert starters.pieces_of(sized)["exterior panel"] == (2, 19, 13)
    assert sized.values["corner square"] == 2 * IN.mm


def test_published_boxing_line_makes_our_base(bag: Recipe) -> None:
    """Source: UK craft magazine, Fabric basket: a tube of 74 cm joined at 1 cm, line of 18: base 18 × 18."""
    sized = sized_at(bag, CM, {"width": Fraction(18), "depth": Fraction(18)}, {})
    _, across, _ = starters.pieces_of(sized)["exterior panel"]
    assert 2 * (across - 2) == 74 - 2 * 1


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", SOFT_COMBINATIONS, ids=combination_id)
def test_agrees_with_the_construction_at_the_ends_of_the_range(
    bag: Recipe, units: Units, options: Options, no_floats: None
) -> None:
    for measures in starters.some_corners(bag, units, about=100):
        assert_as_constructed(sized_at(bag, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", SOFT_COMBINATIONS[::3], ids=combination_id)
def test_agrees_with_the_construction_along_the_range(bag: Recipe, units: Units, options: Options) -> None:
    for measures in islice(starters.walks(bag, units), 0, None, 3):
        assert_as_constructed(sized_at(bag, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
def test_every_accepted_size_can_be_sewn_and_drawn(bag: Recipe, units: Units) -> None:
    """The gaps lie between top seam and cut-outs, the opening between the corners, the knots stay outside."""
    seen = 0
    for measures in starters.some_corners(bag, units, about=200):
        sized = sized_at(bag, units, measures, {})
        if sized.is_refused:
            continue
        seen += 1
        w, h, d, _, _, _, s = letters(measures)
        marks = starters.marks_of(sized)
        _, _, begins, ends = marks["exterior panel"]["left gap"]
        assert s < begins < ends < s + h
        _, _, left, right = marks["lining panel"]["turning opening"]
        assert s + d / 2 < left < right < s + d / 2 + w
        assert sized.values["cord end"] > sized.values["knot place"] > 0
        outline = outline_of(sized, "exterior panel")
        assert {(d / 2, h + 2 * s), (w + d / 2 + 2 * s, h + 2 * s)} <= set(outline)
    assert seen > 20


def test_low_channel_is_refused_and_the_nearest_size_mends_it(bag: Recipe) -> None:
    measures = {"height": Fraction(6), "channel drop": Fraction(3)}
    sized = sized_at(bag, IN, measures, {})
    refused = [check for check in sized.failed if check.level == "refuse"]
    assert [starters.said(sized, check.otherwise) for check in refused] == [
        "A channel drop of 3 in and a channel of 3⁄4 in put the lower row 3 3⁄4 in below the top edge; with "
        "a height of 6 in it may lie no lower than 3 in."
    ]
    nearest = nearest_size(bag, IN, {name: value * IN.mm for name, value in measures.items()}, {})
    assert nearest is not None
    assert nearest["height"] == Fraction(15, 2) * IN.mm


def test_wide_allowance_leaves_no_corner(bag: Recipe) -> None:
    sized = sized_at(bag, CM, {"depth": Fraction(5), "seam allowance": Fraction(5, 2)}, {})
    assert [starters.said(sized, check.otherwise) for check in sized.failed] == [
        "A depth of 5 cm makes the squares in the corners 2.5 cm, but a seam allowance of 2.5 cm needs 3 cm "
        "there: no corner would be left to pull open."
    ]


def test_thick_cord_is_advised_against_not_refused(bag: Recipe) -> None:
    sized = sized_at(bag, IN, {"cord thickness": Fraction(3, 8)}, {})
    assert not sized.is_refused
    assert [starters.said(sized, check.otherwise) for check in sized.failed] == [
        "A channel of 3⁄4 in is tight for two cords 3⁄8 in thick: from 1 1⁄8 in on they run past each other."
    ]


def test_heights_that_it_holds_drawn_shut(bag: Recipe) -> None:
    """6 × 8 base: half its diagonal is 5. Of 12 in, 2 3/4 are channel and ruffle: 4 1/4 in; soft 5 1/4 in."""
    size = {"width": Fraction(6), "depth": Fraction(8), "height": Fraction(12)}
    sized = sized_at(bag, IN, size, {})
    assert sized.values["height over a full base"] == Fraction(17, 4) * IN.mm
    assert sized.values["height over soft things"] == Fraction(21, 4) * IN.mm


def test_low_wide_bag_holds_nothing_high_and_says_so(bag: Recipe) -> None:
    sized = sized_at(bag, IN, {"width": Fraction(16), "depth": Fraction(10), "height": Fraction(6)}, {})
    assert sized.values["height over a full base"] == 0
    assert [check.says for check in sized.failed] == [SHUT]
    assert "the bag does not draw shut" in starters.said(sized, sized.failed[0].otherwise)


def test_only_pieces_of_a_one_way_print_must_not_be_turned(bag: Recipe) -> None:
    sized = sized_at(bag, IN, {}, {"lining print": "one way"})
    assert {piece.name: piece.turns for piece in sized.pieces} == {
        "exterior panel": True,
        "lining panel": False,
        "light interfacing panel": True,
    }


def test_tells_and_cautions_of_a_bag_with_cords(bag: Recipe) -> None:
    sized = sized_at(bag, CM, {}, {})
    tells = " ".join(starters.said(sized, tell) for tell in sized.tells)
    assert "opens to 56 cm round the top with the knots still outside" in tells
    assert "lies flat, 18 cm × 23 cm" in tells
    assert "holds 4.14 l" in tells
    said = {caution.name: caution.says for caution in sized.cautions}
    assert said["cord"].startswith("Strangulation hazard")
    assert "cord stop" in said["small parts"]


SLIPS = {
    "cord once across": ('"2 × (width + depth) + cord spare"', '"width + depth + cord spare"'),
    "no cord for the knot": ('"2 × (width + depth) + cord spare"', '"2 × (width + depth)"'),
    "gap without its allowance": (
        '"gap top" = "seam allowance + channel drop"',
        '"gap top" = "channel drop"',
    ),
    "gap too long": ('"gap top + channel"', '"gap top + 2 × channel"'),
    "side for a diagonal": ('"√(width² + depth²) ÷ 2"', '"(width + depth) ÷ 2"'),
    "square of the depth": ('"corner square" = "depth ÷ 2"', '"corner square" = "depth"'),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_slips_in_amounts_are_shown_to_be_wrong(slip: str) -> None:
    right, wrong = SLIPS[slip]
    text = text_of("drawstring-bag")
    assert right in text
    proofs = prove(read_recipe(text.replace(right, wrong, 1)))
    assert "false" in {proof.result for proof in proofs}


@pytest.mark.parametrize("options", SOFT_COMBINATIONS, ids=combination_id)
class TestInstructions:
    @pytest.fixture
    def sized(self, bag: Recipe, options: Options) -> SizedPattern:
        return sized_at(bag, IN, {"width": Fraction(17, 2), "depth": Fraction(19, 4)}, options)

    def test_speak_of_nothing_that_was_not_chosen(self, sized: SizedPattern, options: Options) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        assert ("print" in words) == ("one way" in options.values())
        for other in ("tote", "handle", "pleat", "zip"):
            assert other not in words

    def test_need_nothing_that_is_not_listed(self, sized: SizedPattern) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        listed = {material.name for material in sized.materials}
        for tool in ("bodkin", "point turner", "pins", "cord"):
            assert tool in words
            assert tool in listed

    def test_use_nothing_before_it_is_made(self, sized: SizedPattern) -> None:
        words = starters.step_words(sized)
        order = [
            starters.first_step(words, pattern)
            for pattern in (
                "press the fabrics flat",
                "^cut the exterior",
                "^cut the lining",
                "^cut out the corners",
                "side seam line",
                "^mark the gaps",
                "^mark the opening",
                "^sew the sides of the exterior",
                "^press the side seams",
                "narrow rectangle",
                "^sew the base of the exterior",
                "^sew the corners of the exterior",
                "^turn the exterior",
                "^sew the base and the sides of the lining",
                "^sew the corners of the lining",
                "^join",
                "^turn the bag",
                "edge-stitch",
                "topstitch once round",
                "^draw the channel",
                "^pin the channel",
                "^sew the channel",
                "^cut the cords",
                "bodkin",
                "^knot",
                "^draw the bag shut",
            )
        ]
        assert None not in order
        assert order == sorted(order)
