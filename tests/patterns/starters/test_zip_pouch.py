"""The zip pouch against formulas written anew from the construction, and against the trade.

Here W, H, D are width, height and depth, s is the seam allowance, z the zip seam allowance, t the zip tape
width and r the reveal, in the units.
"""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from itertools import islice

import pytest

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.nearest import nearest_size
from patterns.drafting.recipe import Recipe
from patterns.drafting.sized import Quantity, SizedPattern
from patterns.drafting.truing import prove
from patterns.drafting.units import Units
from patterns.starters import read_starter
from tests import starters
from tests.starters import COMBINATIONS, Options, Size, combination_id, sized_at

IN, CM = Units.INCHES, Units.CENTIMETRES
MEASURES = ("width", "height", "depth", "seam allowance", "zip seam allowance", "zip tape width")
ROOM, REVEAL, BASE, OPENING, FIRM = (
    "The triangle leaves room under the zip.",
    "Enough of the zip shows for its slider to run.",
    "The base seam keeps clear of the pleat lines.",
    "The opening is wide enough to turn the pouch through.",
    "The seam allowance is wide enough for the pleats in the side seams.",
)
Letters = tuple[Fraction, Fraction, Fraction, Fraction, Fraction, Fraction]


@pytest.fixture(scope="module")
def pouch() -> Recipe:
    return read_starter("zip-pouch")


def letters(measures: Size) -> Letters:
    """W, H, D, s, z, r"""
    w, h, d, s, z, t = (Fraction(measures[name]) for name in MEASURES)
    return w, h, d, s, z, t - 2 * z


def expected_pieces(measures: Size, options: Options) -> dict[str, tuple[int, Fraction, Fraction]]:
    w, h, d, s, z, r = letters(measures)
    across = w + d + 2 * s
    panel, half = (across, 2 * h + d - r + 2 * z), (across, h + d / 2 - r / 2 + z + s)
    halves = options["exterior print"] == "one way"
    pieces: dict[str, tuple[int, Fraction, Fraction]] = {"lining half panel": (2, *half)}
    pieces |= {"exterior half panel": (2, *half)} if halves else {"exterior panel": (1, *panel)}
    if options["interfacing"] == "light":
        pieces["light interfacing half panel"] = (4 if halves else 2, *half)
        pieces |= {} if halves else {"light interfacing panel": (1, *panel)}
    if options["interfacing"] == "heavy" and halves:
        pieces["heavy interfacing half panel"] = (2, w + d, h + d / 2 - r / 2)
    elif options["interfacing"] == "heavy":
        pieces["heavy interfacing panel"] = (1, w + d, 2 * h + d - r)
    return pieces


def expected_marks(
    measures: Size, units: Units, options: Options
) -> dict[str, dict[str, tuple[Fraction | None, ...]]]:
    w, h, d, s, z, r = letters(measures)
    opening = min(Fraction(4) if units is IN else Fraction(10), (w + d) / 2)
    centre, last = s + (w + d) / 2, 2 * h + d - r + z
    sides = {
        "left side seam line": (None, s, None, None),
        "right side seam line": (None, w + d + s, None, None),
    }
    label = {"label place": (z + (h - r / 2) / 2, centre, None, None)}
    panel = {
        "front zip seam line": (z, None, None, None),
        "back zip seam line": (last, None, None, None),
        "middle fold": ((z + last) / 2, None, None, None),
        "front pleat line": ((z + last - d) / 2, None, None, None),
        "back pleat line": ((z + last + d) / 2, None, None, None),
        "front zip centre": (z, centre, None, None),
        "back zip centre": (last, centre, None, None),
    }
    base = h + d / 2 - r / 2 + z
    half = sides | {
        "zip seam line": (z, None, None, None),
        "pleat line": (base + s - (s + d / 2), None, None, None),
        "base seam line": (base, None, None, None),
        "zip centre": (z, centre, None, None),
    }
    halves = options["exterior print"] == "one way"
    return {
        "exterior half panel" if halves else "exterior panel": (half if halves else sides | panel) | label,
        "lining half panel": half
        | {"turning opening": (base, None, centre - opening / 2, centre + opening / 2)},
    }


def expected_checks(measures: Size, units: Units) -> dict[str, bool]:
    w, h, d, s, _, r = letters(measures)
    inches = units is IN
    return {
        ROOM: h >= d / 2 + (1 if inches else Fraction(5, 2)),
        REVEAL: r >= (Fraction(3, 8) if inches else 1),
        BASE: d / 2 >= s + (Fraction(1, 4) if inches else Fraction(1, 2)),
        OPENING: min(Fraction(4) if inches else Fraction(10), (w + d) / 2)
        >= (Fraction(5, 2) if inches else Fraction(13, 2)),
        FIRM: s >= (Fraction(3, 8) if inches else 1),
    }


def assert_as_constructed(sized: SizedPattern, measures: Size, units: Units, options: Options) -> None:
    assert starters.pieces_of(sized) == expected_pieces(measures, options)
    assert starters.marks_of(sized) == expected_marks(measures, units, options)
    assert starters.holds(sized) == expected_checks(measures, units)
    w, _, d, s, _, _ = letters(measures)
    assert zip_of(sized).value == (w + d + 2 * s + (1 if units is IN else Fraction(5, 2))) * units.mm


def zip_of(sized: SizedPattern) -> Quantity:
    amount = next(material.amount for material in sized.materials if material.kind == "zip")
    assert amount is not None
    return amount


def test_measures_have_the_ranges_of_the_construction(pouch: Recipe) -> None:
    ranges = {
        measure.name: [
            tuple(number / units.mm for number in (scale.least, scale.most, scale.default))
            for units, scale in measure.scales.items()
        ]
        for measure in pouch.measures
    }
    assert ranges == {
        "width": [(4, 16, 8), (10, 40, 20)],
        "height": [(Fraction(5, 2), 12, 5), (Fraction(13, 2), 30, 13)],
        "depth": [(1, 8, 3), (3, 20, 8)],
        "seam allowance": [(Fraction(1, 4), 1, Fraction(1, 2)), (Fraction(1, 2), Fraction(5, 2), 1)],
        "zip seam allowance": [
            (Fraction(1, 4), Fraction(3, 8), Fraction(1, 4)),
            (Fraction(1, 2), 1, Fraction(7, 10)),
        ],
        "zip tape width": [(Fraction(3, 4), 2, 1), (2, 5, Fraction(12, 5))],
    }
    assert [measure.role for measure in pouch.measures] == ["size"] * 3 + ["making"] * 3


def test_default_pouch_worked_by_hand(pouch: Recipe) -> None:
    """8 × 5 × 3 at 1/2 and 1/4 in with a 1 in tape: r = 1/2, so 8 + 3 + 1 = 12 by 10 + 3 − 1/2 + 1/2 = 13."""
    sized = sized_at(pouch, IN, {}, {"interfacing": "heavy"})
    assert starters.pieces_of(sized) == {
        "exterior panel": (1, 12, 13),
        "lining half panel": (2, 12, 7),
        "heavy interfacing panel": (1, 11, Fraction(25, 2)),
    }
    assert zip_of(sized).value == 13 * IN.mm


@pytest.mark.parametrize(
    ("choice", "inches", "centimetres"), [(0, 1, Fraction(12, 5)), (1, Fraction(5, 4), Fraction(16, 5))]
)
def test_zip_size_sets_the_tape_width(
    pouch: Recipe, choice: int, inches: Fraction, centimetres: Fraction
) -> None:
    """Source: common practice: coil zips No. 3 and No. 5 measure about 1 and 1 1/4 in across both tapes."""
    options = {"zip size": pouch.option("zip size").choices[choice].name}
    assert sized_at(pouch, IN, {}, options).values["zip tape width"] == inches * IN.mm
    assert sized_at(pouch, CM, {}, options).values["zip tape width"] == centimetres * CM.mm


def test_zips_are_number_three_and_number_five_coil(pouch: Recipe) -> None:
    option = pouch.option("zip size")
    assert [choice.name for choice in option.choices] == ["No. 3 coil", "No. 5 coil"]
    assert option.default == option.choices[0].name


def test_measured_tape_wins_over_the_zip_size(pouch: Recipe) -> None:
    options = {"zip size": pouch.option("zip size").choices[1].name}
    sized = sized_at(pouch, IN, {"zip tape width": Fraction(9, 8)}, options)
    assert sized.values["reveal"] == Fraction(5, 8) * IN.mm


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", COMBINATIONS, ids=combination_id)
def test_agrees_with_the_construction_at_the_ends_of_the_range(
    pouch: Recipe, units: Units, options: Options, no_floats: None
) -> None:
    """Every seventh of the 729 corners for each combination, another seventh for the next."""
    start = COMBINATIONS.index(options) % 7
    for measures in islice(starters.corners(pouch, units), start, None, 7):
        assert_as_constructed(sized_at(pouch, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", COMBINATIONS[::5], ids=combination_id)
def test_agrees_with_the_construction_along_the_range(pouch: Recipe, units: Units, options: Options) -> None:
    for measures in starters.walks(pouch, units):
        assert_as_constructed(sized_at(pouch, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
def test_every_accepted_size_can_be_sewn(pouch: Recipe, units: Units) -> None:
    """The opening lies between the side seams, no allowance reaches a pleat, the zip reaches across."""
    for measures in starters.corners(pouch, units):
        sized = sized_at(pouch, units, measures, {})
        if not sized.is_refused:
            assert_can_be_sewn(sized, *letters(measures))


def assert_can_be_sewn(
    sized: SizedPattern, w: Fraction, h: Fraction, d: Fraction, s: Fraction, z: Fraction, r: Fraction
) -> None:
    lining = starters.marks_of(sized)["lining half panel"]
    _, _, begins, ends = lining["turning opening"]
    assert s < begins < ends < s + w + d
    assert z < lining["pleat line"][0] < lining["base seam line"][0] - s
    assert 0 < r < 2 * (h - d / 2)
    assert zip_of(sized).value > (w + d + 2 * s) * sized.units.mm
    standing = sized.values["standing height"]
    assert 0 < standing < h * sized.units.mm


def test_girth_is_the_panel_and_the_reveal(pouch: Recipe) -> None:
    """Truing of the construction: (cut height − 2z) + r = 2H + D."""
    for units in Units:
        for measures in starters.corners(pouch, units):
            _, h, d, _, z, r = letters(measures)
            _, _, height = starters.pieces_of(sized_at(pouch, units, measures, {}))["exterior panel"]
            assert height - 2 * z + r == 2 * h + d


def test_standing_height_is_exact_where_the_root_is(pouch: Recipe) -> None:
    """3, 4, 5: a front of 5 in slants over half a depth of 3 in and stands 4 in."""
    standing = sized_at(pouch, IN, {"height": Fraction(5), "depth": Fraction(6)}, {}).values[
        "standing height"
    ]
    assert standing == 4 * IN.mm
    assert type(standing) is Fraction


def test_standing_height_of_the_default_is_rounded(pouch: Recipe) -> None:
    standing = sized_at(pouch, IN, {}, {}).values["standing height"]
    assert type(standing) is Decimal
    assert abs(Fraction(standing) ** 2 - Fraction(91, 4) * IN.mm**2) < Fraction(1, 10**40)


def test_capacity_agrees_with_the_sum_of_its_slices(pouch: Recipe) -> None:
    """A slice at t of the height is W + D t long and D (1 − t) deep; Simpson's rule is exact for it."""
    w, d, standing = Fraction(8), Fraction(6), Fraction(4)
    least, middle, most = ((w + d * t) * d * (1 - t) for t in (Fraction(0), Fraction(1, 2), Fraction(1)))
    sized = sized_at(pouch, IN, {"width": w, "height": Fraction(5), "depth": d}, {})
    assert sized.values["capacity"] == standing * (least + 4 * middle + most) / 6 * IN.mm**3


def test_room_above_the_triangle_is_just_enough(pouch: Recipe) -> None:
    assert (
        starters.holds(sized_at(pouch, CM, {"height": Fraction(13, 2), "depth": Fraction(8)}, {}))[ROOM]
        is True
    )
    assert (
        starters.holds(sized_at(pouch, CM, {"height": Fraction(64, 10), "depth": Fraction(8)}, {}))[ROOM]
        is False
    )


def test_low_pouch_is_refused_and_the_nearest_size_mends_it(pouch: Recipe) -> None:
    sized = sized_at(pouch, IN, {"depth": Fraction(8)} | {"height": Fraction(4)}, {})
    assert starters.said(sized, sized.failed[0].otherwise) == (
        "A height of 4 in is too little for a depth of 8 in: "
        "the triangle stands 4 in, and the zip needs 1 in above it."
    )
    nearest = nearest_size(pouch, IN, {"depth": 8 * IN.mm, "height": 4 * IN.mm}, {})
    assert nearest is not None
    assert nearest["height"] == 5 * IN.mm


def test_narrow_reveal_is_refused_with_the_tape_that_would_do(pouch: Recipe) -> None:
    sized = sized_at(pouch, IN, {"zip seam allowance": Fraction(3, 8)}, {})
    assert starters.said(sized, sized.failed[0].otherwise) == (
        "With 3⁄8 in of each tape in its seam, a zip tape width of 1 in leaves a strip of 1⁄4 in to show, "
        "and the slider needs 3⁄8 in. A zip sewn in like that is 1 1⁄8 in wide or wider."
    )


@pytest.mark.parametrize(
    ("name", "wrong"),
    [
        ("reveal", "zip tape width − zip seam allowance"),
        ("triangle point", "depth"),
        ("standing height", "√(height² − depth²)"),
        ("zip length", "width + depth + seam allowance + zip spare"),
    ],
)
def test_spoiled_amount_is_caught(pouch: Recipe, name: str, wrong: str) -> None:
    amounts = tuple(
        replace(amount, formula=Formula.read(wrong)) if amount.name == name else amount
        for amount in pouch.amounts
    )
    assert "false" in {proof.result for proof in prove(replace(pouch, amounts=amounts))}


def test_only_pieces_of_a_one_way_print_must_not_be_turned(pouch: Recipe) -> None:
    sized = sized_at(pouch, IN, {}, {"lining print": "one way"})
    assert {piece.name: piece.turns for piece in sized.pieces} == {
        "exterior panel": True,
        "lining half panel": False,
        "light interfacing panel": True,
        "light interfacing half panel": True,
    }


def test_tells_give_the_flat_size_and_what_it_holds(pouch: Recipe) -> None:
    sized = sized_at(pouch, CM, {}, {})
    tells = "\n".join(starters.said(sized, tell) for tell in sized.tells)
    assert "Folds flat to 28 cm × 13 cm at the middle" in tells
    assert "it is 0.5 cm lower" in tells
    assert "Holds a box of 20 cm × 8 cm, 9 cm high" in tells
    assert "≈ 1.12 l" in tells


@pytest.mark.parametrize("options", COMBINATIONS, ids=combination_id)
class TestInstructions:
    @pytest.fixture
    def sized(self, pouch: Recipe, options: Options) -> SizedPattern:
        return sized_at(pouch, IN, {"width": Fraction(17, 2), "depth": Fraction(11, 4)}, options)

    def test_speak_of_nothing_that_was_not_chosen(self, sized: SizedPattern, options: Options) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        halves = options["exterior print"] == "one way"
        assert ("exterior half panel" in words or "exterior halves" in words) == halves
        assert ("exterior panel" in words and halves) is False
        assert ("middle fold" in words) == (not halves)
        assert ("print" in words) == (halves or options["lining print"] == "one way")

    def test_use_nothing_before_it_is_made(self, sized: SizedPattern) -> None:
        words = starters.step_words(sized)
        order = [
            starters.first_step(words, pattern)
            for pattern in (
                "press them flat",
                "^cut the exterior",
                "^cut the lining",
                "opening measures",
                "side seam line",
                "pleat line",
                "crease",
                "slider",
                "centres lie on each other",
                "^sew the front of the zip",
                "topstitch both",
                r"a loop without",
                "sews? several times across",
                "four layers",
                "as a flap",
                "^sew the sides",
                "ends of the zip level",
                "draw the exterior out",
                "edge-stitch",
                "triangles down into",
            )
        ]
        assert None not in order
        assert order == sorted(order)
