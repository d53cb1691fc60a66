from fractions import Fraction

from patterns.drafting.units import INCH, Units
from patterns.drawings.familiar import familiar
from patterns.drawings.geometry import Spot
from patterns.drawings.page import Placing


def test_centimetres_have_a_sheet_of_a5() -> None:
    # Source: ISO 216: A5 is 148 mm by 210 mm.
    sheet = familiar(Units.CENTIMETRES)
    assert (sheet.width, sheet.height) == (148, 210)
    (_, outline) = sheet.drawn(Placing(Fraction(100), Spot(0, 21_000)))
    assert 'd="M0 21L14.8 21L14.8 0L0 0Z"' in outline


def test_inches_have_a_hand_of_seven_inches() -> None:
    hand = familiar(Units.INCHES)
    assert hand.height == 7 * INCH
    (outline,) = hand.drawn(Placing(Fraction(1000), Spot(0, 177_800)))
    corners = outline.split('d="')[1].split('"')[0].replace("M", "").split("C")
    ends = [tuple(map(float, corner.split()[-2:])) for corner in corners]
    assert min(x for x, _ in ends) == 0
    assert max(x for x, _ in ends) == hand.width
    assert 0 < min(y for _, y in ends) < 2
