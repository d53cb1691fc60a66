from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from itertools import permutations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.fat_quarter import SIDES, fits_fat_quarters
from patterns.drafting.judging import Cut
from patterns.drafting.units import Units

IN, CM = Units.INCHES, Units.CENTIMETRES


def cut(size: str, count: int = 1, material: str = "exterior fabric", turns: bool = True) -> Cut:
    """A piece in inches, `13 1/2 x 18`."""
    width, height = (sum(map(Fraction, side.split()), Fraction(0)) * IN.mm for side in size.split("x"))
    return Cut(material, count, width, height, turns)


def fits(*cuts: Cut, units: Units = IN) -> bool | None:
    return fits_fat_quarters(cuts, units)


def test_basket_of_7_by_5_by_5_needs_one_for_each_fabric() -> None:
    """Source: common practice. 13 in wide and 16 in high with its seams."""
    assert fits(cut("13x16"), cut("13x16", material="lining fabric")) is True


@pytest.mark.parametrize(
    ("size", "expected"),
    [("21x18", True), ("18x21", True), ("21 1/8x18", False), ("18 1/64x20", False), ("18x20", True)],
)
def test_one_piece_fits_if_it_is_no_larger(size: str, expected: bool) -> None:
    assert fits(cut(size)) is expected


def test_print_stands_along_the_cloth() -> None:
    assert fits(cut("21x18", turns=False)) is True
    assert fits(cut("18x21", turns=False)) is False


def test_two_halves_lie_side_by_side_or_one_above_the_other() -> None:
    assert fits(cut("10 1/2x18", 2)) is True
    assert fits(cut("21x9", 2)) is True
    assert fits(cut("9x21", 2)) is True
    # 16 × 9 1/2 twice are 19 in high or 32 in wide, and turned 16 in high but one of them only.
    assert fits(cut("16x9 1/2", 2, turns=False)) is False
    assert fits(cut("16x9 1/2", 2)) is True
    assert fits(cut("11x11", 2)) is False


def test_pieces_of_one_fabric_share_a_sheet_and_others_have_their_own() -> None:
    assert fits(cut("20x12"), cut("20x12", material="lining fabric")) is True
    assert fits(cut("20x12"), cut("20x12")) is False


def test_corners_that_an_outline_leaves_free_are_not_held_against_it() -> None:
    """Two panels whose boxes overlap by an inch may still lie with one's corner in the other's cut-out."""
    panel = replace(cut("11x11", 2), is_full=False)
    assert fits(panel) is None
    assert fits(replace(cut("21 1/8x18"), is_full=False)) is False


def test_area_is_a_proof() -> None:
    assert fits(cut("7x7", 8)) is False


def test_what_shelves_cannot_do_and_nothing_excludes_is_not_known() -> None:
    """Four round the middle like the vanes of a windmill fill 21 × 18 in, but stand in no shelves."""
    vanes = cut("12x7", 2, turns=False), cut("9x11", 2, turns=False)
    assert laid_anyhow(list(vanes))
    assert fits(*vanes) is None


def test_nothing_to_cut_fits() -> None:
    assert fits() is True


def test_metric_ones_are_larger() -> None:
    piece = Cut("cloth", 1, Fraction(550), Fraction(500), turns=False)
    assert fits_fat_quarters([piece], CM) is True
    assert fits_fat_quarters([piece], IN) is False


def test_irrational_sides() -> None:
    side = Decimal("502.6548245743669181540229413247204614715471038016")  # π × 160 mm
    assert fits(Cut("cloth", 1, side, Fraction(400), turns=True)) is True
    assert fits(Cut("cloth", 1, side, Fraction(500), turns=True)) is False


inches = st.integers(1, 24).map(lambda side: side * IN.mm)
pieces = st.lists(
    st.builds(Cut, st.just("cloth"), st.integers(1, 2), inches, inches, st.booleans()), min_size=1, max_size=2
)


@settings(max_examples=60, deadline=None)
@given(pieces)
def test_answers_agree_with_every_place_tried(cuts: list[Cut]) -> None:
    """Second road: up to four pieces of whole inches, each at every left and low place."""
    answer = fits_fat_quarters(cuts, IN)
    tried = laid_anyhow(cuts)
    if answer is not None:
        assert answer is tried
    if sum(cut.count for cut in cuts) <= 2:
        assert answer is not None


def laid_anyhow(cuts: list[Cut]) -> bool:
    """Whether some order, some turning and some left-low place for each piece lays them all.

    Left-low: a layout can be pushed down and left until each piece touches another or an edge, so its x is
    a sum of widths before it, and likewise its y.
    """
    across, along = (int(side / IN.mm) for side in SIDES[IN])
    ways = []
    for cut in cuts:
        width, height = int(cut.width / IN.mm), int(cut.height / IN.mm)
        ways += [[(width, height), (height, width)] if cut.turns else [(width, height)]] * cut.count
    return any(
        _placed(list(order), [], across, along)
        for sides in product(*ways)
        for order in set(permutations(sides))
    )


def _placed(
    left: list[tuple[int, int]], laid: list[tuple[int, int, int, int]], across: int, along: int
) -> bool:
    if not left:
        return True
    width, height = left[0]
    xs = {0, *(x + w for x, _, w, _ in laid)}
    ys = {0, *(y + h for _, y, _, h in laid)}
    for x in xs:
        for y in ys:
            inside = x + width <= across and y + height <= along
            if (
                inside
                and all(x + width <= a or a + w <= x or y + height <= b or b + h <= y for a, b, w, h in laid)
                and _placed(left[1:], [*laid, (x, y, width, height)], across, along)
            ):
                return True
    return False


@pytest.mark.usefixtures("no_floats")
def test_no_float_is_made() -> None:
    fits(cut("10 1/3x7 1/7", 2), cut("3x4", 3, turns=False))
