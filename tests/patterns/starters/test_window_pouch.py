"""The window pouch against formulas written anew from the construction, and against the trade.

Here W, H, D are width, height and depth, t the top band, u the lower border, s the seam allowance, z the zip
seam allowance, a the window seam allowance and r the reveal, in the units.
"""

from dataclasses import replace
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
MEASURES = (
    "width",
    "height",
    "depth",
    "top band",
    "lower border",
    "seam allowance",
    "zip seam allowance",
    "window seam allowance",
    "zip tape width",
)
ONE_WAY = {"exterior print": "one way", "lining print": "one way"}
ROOM, WINDOW, REVEAL, BAND, BASE_EXTERIOR, BASE_LINING, FIRM = (
    "The triangle leaves room under the zip.",
    "The window is high enough to see through.",
    "Enough of the zip shows for its slider to run.",
    "The band is wide enough between zip and window.",
    "The exterior’s base seam keeps clear of the pleat lines.",
    "The lining’s base seam keeps clear of the pleat lines.",
    "The seam allowance is wide enough for the pleats and the binding.",
)
Cut = tuple[int, Fraction, Fraction]


@pytest.fixture(scope="module")
def pouch() -> Recipe:
    return read_starter("window-pouch")


def letters(measures: Size) -> tuple[Fraction, ...]:
    """W, H, D, t, u, s, z, a, r"""
    *others, z, a, tape = (Fraction(measures[name]) for name in MEASURES)
    return (*others, z, a, tape - 2 * z)


def expected_pieces(measures: Size, units: Units, options: Options) -> dict[str, Cut]:
    w, h, d, t, u, s, z, a, r = letters(measures)
    across, inch, binding = w + d + 2 * s, units is IN, Fraction(2) if units is IN else Fraction(5)
    sides = {
        "band": t - r / 2 + z + a,
        "main panel": u + d + h - r / 2 + a + z,
        "main front": a + u + d / 2 + s,
        "main back": s + d / 2 + h - r / 2 + z,
    }
    mains = {"no direction": ["main panel"], "one way": ["main front", "main back"]}
    outer, inner = (mains[options[f"{side} print"]] for side in ("exterior", "lining"))
    pieces: dict[str, Cut] = {
        "window": (1, across, h - t - u + 2 * a),
        "binding": (2, h + (1 if inch else Fraction(5, 2)), binding),
    }
    for side, parts in (("exterior", outer), ("lining", inner)):
        pieces |= {f"{side} {part}": (1, across, sides[part]) for part in ("band", *parts)}
    if options["interfacing"] == "light":
        pieces["light interfacing band"] = (2, across, sides["band"])
        pieces |= {f"light interfacing {part}": (1 + (inner == outer), across, sides[part]) for part in outer}
        if inner != outer:
            pieces |= {f"light lining interfacing {part}": (1, across, sides[part]) for part in inner}
    if options["interfacing"] == "heavy":
        bare = {
            "band": t - r / 2,
            "main panel": u + d + h - r / 2,
            "main front": u + d / 2,
            "main back": d / 2 + h - r / 2,
        }
        pieces |= {f"heavy interfacing {part}": (1, w + d, bare[part]) for part in ("band", *outer)}
    return pieces


def expected_levels(measures: Size) -> dict[str, dict[str, Fraction]]:
    """How far from the lower raw edge of a piece its lines lie."""
    _, h, d, t, u, s, _, a, r = letters(measures)
    return {
        "band": {"window fold line": a, "zip seam line": a + t - r / 2},
        "main panel": {
            "window fold line": a,
            "front pleat line": a + u,
            "middle fold": a + u + d / 2,
            "back pleat line": a + u + d,
            "zip seam line": a + u + d + h - r / 2,
        },
        "main front": {"base seam line": s, "pleat line": s + d / 2, "window fold line": s + d / 2 + u},
        "main back": {"base seam line": s, "pleat line": s + d / 2, "zip seam line": s + d / 2 + h - r / 2},
    }


def levels_of(sized: SizedPattern, name: str) -> dict[str, Fraction]:
    """How far from the lower raw edge the lines of a piece lie that run across it."""
    height = starters.pieces_of(sized)[name][2]
    marks = starters.marks_of(sized)[name]
    return {
        mark: height - down
        for mark, (down, across, *_) in marks.items()
        if down is not None and across is None
    }


def expected_checks(measures: Size, units: Units, options: Options) -> dict[str, bool]:
    _, h, d, t, u, s, _, _, r = letters(measures)
    inch = units is IN
    checks = {
        ROOM: h >= d / 2 + (1 if inch else Fraction(5, 2)),
        WINDOW: h - t - u >= (1 if inch else Fraction(5, 2)),
        REVEAL: r >= (Fraction(3, 8) if inch else 1),
        BAND: t - r / 2 >= (Fraction(1, 2) if inch else 1),
        FIRM: s >= (Fraction(3, 8) if inch else 1),
    }
    base = d / 2 >= s + (Fraction(1, 4) if inch else Fraction(1, 2))
    if options["exterior print"] == "one way":
        checks[BASE_EXTERIOR] = base
    elif options["lining print"] == "one way":
        checks[BASE_LINING] = base
    return checks


def assert_as_constructed(sized: SizedPattern, measures: Size, units: Units, options: Options) -> None:
    assert starters.pieces_of(sized) == expected_pieces(measures, units, options)
    held = starters.holds(sized)
    # Of a window that has no height at all the sizing itself says so too.
    held.pop("The window has a width and a height.", None)
    assert held == expected_checks(measures, units, options)
    expected = expected_levels(measures)
    for side in ("exterior", "lining"):
        halves = options[f"{side} print"] == "one way"
        for part in ("band", *(("main front", "main back") if halves else ("main panel",))):
            assert levels_of(sized, f"{side} {part}") == expected[part]
    w, _, d, _, _, s, *_ = letters(measures)
    assert zip_of(sized).value == (w + d + 2 * s + (1 if units is IN else Fraction(5, 2))) * units.mm


def zip_of(sized: SizedPattern) -> Quantity:
    amount = next(material.amount for material in sized.materials if material.kind == "zip")
    assert amount is not None
    return amount


def test_measures_have_the_ranges_of_the_construction(pouch: Recipe) -> None:
    ranges = {
        measure.name: [
            tuple(number / units.mm for number in (scale.least, scale.most, scale.default, scale.step))
            for units, scale in measure.scales.items()
        ]
        for measure in pouch.measures
    }
    quarter, eighth, half, tenth = (Fraction(1, under) for under in (4, 8, 2, 10))
    assert ranges == {
        "width": [(4, 14, 8, quarter), (10, 36, 20, half)],
        "height": [(4, 14, 7, quarter), (10, 36, 18, half)],
        "depth": [(1, 6, 3, quarter), (3, 15, 8, 1)],
        "top band": [(1, 4, Fraction(3, 2), quarter), (Fraction(5, 2), 10, 4, half)],
        "lower border": [(half, 4, Fraction(3, 4), quarter), (Fraction(3, 2), 10, 2, half)],
        "seam allowance": [(quarter, 1, half, eighth), (half, Fraction(5, 2), 1, tenth)],
        "zip seam allowance": [
            (quarter, Fraction(3, 8), quarter, eighth),
            (half, 1, Fraction(7, 10), tenth),
        ],
        "window seam allowance": [
            (Fraction(3, 8), half, Fraction(3, 8), eighth),
            (1, Fraction(3, 2), 1, tenth),
        ],
        "zip tape width": [(Fraction(3, 4), 2, 1, eighth), (2, 5, Fraction(12, 5), tenth)],
    }
    assert [measure.name for measure in pouch.measures if measure.role == "size"] == list(MEASURES[:5])


def test_default_pouch_worked_by_hand_in_inches(pouch: Recipe) -> None:
    """8 × 7 × 3, t 1 1/2, u 3/4, s 1/2, z 1/4, a 3/8, tape 1, so r = 1/2: 8 + 3 + 1 = 12 across.

    Band 1 1/2 − 1/4 + 1/4 + 3/8 = 1 7/8. Window 7 − 1 1/2 − 3/4 + 3/4 = 5 1/2.
    Main 3/4 + 3 + 7 − 1/4 + 3/8 + 1/4 = 11 1/8. Binding 7 + 1 by 2.
    """
    sized = sized_at(pouch, IN, {}, {"interfacing": "heavy"})
    assert starters.pieces_of(sized) == {
        "exterior band": (1, 12, Fraction(15, 8)),
        "exterior main panel": (1, 12, Fraction(89, 8)),
        "window": (1, 12, Fraction(11, 2)),
        "lining band": (1, 12, Fraction(15, 8)),
        "lining main panel": (1, 12, Fraction(89, 8)),
        "binding": (2, 8, 2),
        "heavy interfacing band": (1, 11, Fraction(5, 4)),
        "heavy interfacing main panel": (1, 11, Fraction(21, 2)),
    }
    assert zip_of(sized).value == 13 * IN.mm


def test_default_pouch_of_one_way_prints_worked_by_hand_in_centimetres(pouch: Recipe) -> None:
    """20 × 18 × 8, t 4, u 2, s 1, z 0.7, a 1, tape 2.4, so r = 1: 20 + 8 + 2 = 30 across.

    Band 4 − 0.5 + 0.7 + 1 = 5.2. Window 18 − 4 − 2 + 2 = 14. Front 1 + 2 + 4 + 1 = 8.
    Back 1 + 4 + 18 − 0.5 + 0.7 = 23.2. Binding 18 + 2.5 by 4 × 1.
    """
    sized = sized_at(pouch, CM, {}, ONE_WAY | {"interfacing": "light"})
    band, front, back = Fraction(26, 5), 8, Fraction(116, 5)
    assert starters.pieces_of(sized) == {
        "exterior band": (1, 30, band),
        "exterior main front": (1, 30, front),
        "exterior main back": (1, 30, back),
        "window": (1, 30, 14),
        "lining band": (1, 30, band),
        "lining main front": (1, 30, front),
        "lining main back": (1, 30, back),
        "binding": (2, Fraction(41, 2), 5),
        "light interfacing band": (2, 30, band),
        "light interfacing main front": (2, 30, front),
        "light interfacing main back": (2, 30, back),
    }
    assert zip_of(sized).value == Fraction(65, 2) * CM.mm


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", COMBINATIONS, ids=combination_id)
def test_agrees_with_the_construction_at_the_ends_of_the_range(
    pouch: Recipe, units: Units, options: Options, no_floats: None
) -> None:
    for measures in starters.some_corners(pouch, units, about=60):
        assert_as_constructed(sized_at(pouch, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("options", COMBINATIONS[::5], ids=combination_id)
def test_agrees_with_the_construction_along_the_range(pouch: Recipe, units: Units, options: Options) -> None:
    for measures in islice(starters.walks(pouch, units), 0, None, 3):
        assert_as_constructed(sized_at(pouch, units, measures, options), measures, units, options)


@pytest.mark.parametrize("units", Units)
def test_girth_is_its_parts_and_the_reveal(pouch: Recipe, units: Units) -> None:
    """Truing of the construction: (band − z − a) + (window − 2a) + (main − a − z) + r = 2H + D."""
    for measures in starters.some_corners(pouch, units, about=200):
        _, h, d, _, _, s, z, a, r = letters(measures)
        whole, halves = (
            {name: height for name, (_, _, height) in starters.pieces_of(sized).items()}
            for sized in (sized_at(pouch, units, measures, {}), sized_at(pouch, units, measures, ONE_WAY))
        )
        front = (whole["exterior band"] - z - a) + (whole["window"] - 2 * a)
        assert front + (whole["exterior main panel"] - a - z) + r == 2 * h + d
        joined = halves["exterior main front"] + halves["exterior main back"] - 2 * s
        assert front + (joined - a - z) + r == 2 * h + d


@pytest.mark.parametrize("units", Units)
def test_every_accepted_size_can_be_sewn(pouch: Recipe, units: Units) -> None:
    """Folds come in order, no base seam reaches a pleat, the lap holds two rows, a hand gets through."""
    seen = 0
    for measures in starters.some_corners(pouch, units, about=300):
        sized = sized_at(pouch, units, measures, ONE_WAY)
        if sized.is_refused:
            continue
        seen += 1
        w, h, d, _, _, s, _, a, r = letters(measures)
        front, back = (levels_of(sized, f"exterior main {half}") for half in ("front", "back"))
        assert s < front["pleat line"] - s < front["window fold line"]
        assert s < back["pleat line"] - s < back["zip seam line"]
        assert a * units.mm > sized.values["second row"] > sized.values["topstitch distance"]
        assert sized.values["clear height"] >= sized.values["least window"]
        assert 0 < r < 2 * (h - d / 2)
        # Two thirds of the zip, against the least opening that a bag is turned through.
        assert (w + d) * Fraction(2, 3) >= (Fraction(5, 2) if units is IN else Fraction(13, 2))
        assert 0 < sized.values["standing height"] < h * units.mm
    assert seen > 20


def test_a_window_too_low_is_refused_and_the_nearest_size_mends_it(pouch: Recipe) -> None:
    measures = {"height": Fraction(5), "top band": Fraction(5, 2), "lower border": Fraction(7, 4)}
    sized = sized_at(pouch, IN, measures, {})
    assert [starters.said(sized, check.otherwise) for check in sized.failed] == [
        "A top band of 2 1⁄2 in and a lower border of 1 3⁄4 in take 4 1⁄4 in of a height of 5 in: a window "
        "needs 1 in between them."
    ]
    nearest = nearest_size(pouch, IN, {name: value * IN.mm for name, value in measures.items()}, {})
    assert nearest is not None
    assert nearest["height"] == Fraction(21, 4) * IN.mm


def test_a_band_that_the_zip_leaves_nothing_of_is_refused(pouch: Recipe) -> None:
    """1 in less half of a reveal of 1 1/4 in leaves 3/8 in."""
    sized = sized_at(pouch, IN, {"top band": Fraction(1), "zip tape width": Fraction(7, 4)}, {})
    assert [starters.said(sized, check.otherwise) for check in sized.failed] == [
        "Of a top band of 1 in the zip takes 5⁄8 in. The fabric below it would be 3⁄8 in wide, and the two "
        "rows along the zip and the window need 1⁄2 in."
    ]


def test_a_shallow_base_is_refused_only_where_it_has_a_seam(pouch: Recipe) -> None:
    shallow = {"depth": Fraction(1)}
    assert sized_at(pouch, IN, shallow, {}).failed == ()
    for side, says in (("exterior", BASE_EXTERIOR), ("lining", BASE_LINING)):
        sized = sized_at(pouch, IN, shallow, {f"{side} print": "one way"})
        assert [check.says for check in sized.failed] == [says]
    assert [check.says for check in sized_at(pouch, IN, shallow, ONE_WAY).failed] == [BASE_EXTERIOR]


def test_low_deep_pouch_is_refused(pouch: Recipe) -> None:
    sized = sized_at(pouch, CM, {"height": Fraction(9), "depth": Fraction(15)}, {})
    assert ROOM in [check.says for check in sized.failed]


def test_standing_height_is_exact_where_the_root_is(pouch: Recipe) -> None:
    """3, 4, 5: a front of 5 in slants over half a depth of 3 in and stands 4 in."""
    standing = sized_at(pouch, IN, {"height": Fraction(5), "depth": Fraction(6)}, {}).values[
        "standing height"
    ]
    assert standing == 4 * IN.mm
    assert type(standing) is Fraction


@pytest.mark.parametrize(
    ("name", "wrong"),
    [
        ("reveal", "zip tape width − zip seam allowance"),
        ("clear height", "height − top band"),
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
    sized = sized_at(pouch, IN, {}, {"lining print": "one way", "interfacing": "none"})
    assert {piece.name: piece.turns for piece in sized.pieces} == {
        "exterior band": True,
        "exterior main panel": True,
        "window": True,
        "lining band": False,
        "lining main front": False,
        "lining main back": False,
        "binding": True,
    }


def test_window_is_cut_from_vinyl_that_is_drawn_clear(pouch: Recipe) -> None:
    sized = sized_at(pouch, IN, {}, {})
    (vinyl,) = [material for material in sized.materials if material.kind == "vinyl"]
    assert vinyl.tint == "clear"
    assert [piece.name for piece in sized.pieces if piece.material == vinyl.name] == ["window"]


def test_tells_give_the_window_the_flat_size_and_what_it_holds(pouch: Recipe) -> None:
    """Holds H − D/2 = 18 − 4 = 14 cm; √(18² − 4²) = 17.5 cm; 8 × 17.55 × 68 ÷ 6 = 1591 cm³."""
    sized = sized_at(pouch, CM, {}, {})
    tells = "\n".join(starters.said(sized, tell) for tell in sized.tells)
    assert "The window is 12 cm high" in tells
    assert "Folds flat to 28 cm × 18 cm at the middle" in tells
    assert "Holds a box of 20 cm × 8 cm, 14 cm high" in tells
    assert "≈ 1.59 l" in tells


@pytest.mark.parametrize("options", COMBINATIONS, ids=combination_id)
class TestInstructions:
    @pytest.fixture
    def sized(self, pouch: Recipe, options: Options) -> SizedPattern:
        return sized_at(pouch, IN, {"width": Fraction(17, 2), "depth": Fraction(11, 4)}, options)

    def test_speak_of_nothing_that_was_not_chosen(self, sized: SizedPattern, options: Options) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        one_way = {side for side in ("exterior", "lining") if options[f"{side} print"] == "one way"}
        assert ("print" in words) == bool(one_way)
        assert ("base seam" in words) == bool(one_way)
        assert ("main panel" in words) == (len(one_way) < 2)
        assert ("middle fold" in words) == (len(one_way) < 2)
        for side in ("exterior", "lining"):
            assert (f"join the {side} main" in words) == (side in one_way)

    def test_never_iron_or_pin_the_vinyl(self, sized: SizedPattern) -> None:
        words = starters.step_words(sized)
        cut = starters.first_step(words, "^cut the window")
        assert cut is not None
        for step in sized.steps[cut:]:
            assert "iron" not in step.cautions
        assert not [text for text in words[cut:] if "press" in text or " pin" in text.lower()]
        sewn = [step for step in sized.steps if step.title.startswith("Sew the window")]
        assert all("vinyl" in step.cautions for step in sewn)
        assert all(
            "3 to 3.5 mm" in words[place] or "in the same way" in words[place] for place in (cut + 1, cut + 2)
        )

    def test_draw_the_side_seams_where_they_are_seen(self, sized: SizedPattern) -> None:
        """The loop is sewn lining out: a line on a wrong side would lie hidden inside."""
        words = starters.step_words(sized)
        drawn = starters.first_step(words, "right side of the lining.*side seam line")
        sewn = starters.first_step(words, "^sew the sides")
        assert drawn is not None
        assert sewn is not None
        assert drawn < sewn
        assert not [text for text in words if "wrong side" in text and "draw a side seam line" in text]

    def test_need_nothing_that_is_not_listed(self, sized: SizedPattern) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        listed = {material.name for material in sized.materials}
        for tool in ("wax pencil", "non-stick foot", "zip foot", "point turner"):
            assert tool in words
            assert tool in listed

    def test_use_nothing_before_it_is_made(self, sized: SizedPattern) -> None:
        words = starters.step_words(sized)
        order = [
            starters.first_step(words, pattern)
            for pattern in (
                "press them flat",
                "^cut the exterior",
                "^cut the lining",
                "^cut and press the bindings",
                "^draw the zip seam lines",
                "^draw the window fold lines",
                "pleat line",
                "slider",
                "^sew the bands",
                "^topstitch the bands",
                "^sew the mains",
                "^topstitch the mains",
                "^press the window edges",
                "one cloth",
                "switch the iron off",
                "^cut the window",
                "^sew the window to the band",
                "^sew the window to the main",
                "^trim the sides",
                "zip two thirds",
                "loop lining out",
                "^sew the sides",
                "^trim the side seams",
                "^bind",
                "^turn the pouch",
                "crease the base",
            )
        ]
        assert None not in order
        assert order == sorted(order)
