import re
from dataclasses import replace
from fractions import Fraction

import pytest

from patterns.cutting.effort import Effort
from patterns.cutting.forms import YARD, off_the_roll, scrap
from patterns.cutting.notions import thread
from patterns.cutting.on_cloth import ClothPiece, on_cloth, sides_in_words
from patterns.cutting.on_length import Way
from patterns.cutting.sheets import Rectangle
from patterns.cutting.shopping_words import (
    cloth_amount,
    cloth_reason,
    per_cent,
    shop_length,
    thread_amount,
    thread_reason,
)
from patterns.cutting.shrinkage import Shrinkage
from patterns.drafting.units import INCH, Units

IN, CM = Units.INCHES, Units.CENTIMETRES


@pytest.mark.parametrize(
    ("length", "units", "words"),
    [
        (YARD * Fraction(3, 8), IN, "3⁄8 yd"),
        (YARD * Fraction(33, 8), IN, "4 1⁄8 yd"),
        (2 * YARD, IN, "2 yd"),
        (13 * INCH, IN, "13 in"),
        (INCH * Fraction(209, 16), IN, "13 1⁄8 in"),
        (400, CM, "40 cm"),
        (1000, CM, "1 m"),
        (3500, CM, "3.5 m"),
        (Fraction(1001, 3), CM, "33.4 cm"),
    ],
)
def test_lengths_as_they_are_asked_for(length, units, words):
    assert shop_length(length, units) == words


def laid(form, *pieces, units=IN, **way):
    named = [
        ClothPiece(name, Rectangle(width * units.mm, height * units.mm)) for name, width, height in pieces
    ]
    return on_cloth(named, form, Way(**way), Effort(), units)


def test_two_panels_side_by_side_on_measured_cloth():
    cloth = laid(off_the_roll(42 * INCH, IN), ("panel", 13, 16), ("panel", 13, 16))
    assert cloth_amount(cloth, IN) == "3⁄8 yd, 42 in wide"
    assert cloth_reason(cloth, IN) == (
        "2 × panel of 13 × 16 in lie side by side on 42 in. Less is not enough."
    )


def test_what_is_not_proved_tells_its_bound():
    found = laid(off_the_roll(42 * INCH, IN), ("panel", 13, 16), ("panel", 13, 16))
    cloth = replace(found, least=YARD / 4)
    assert cloth_reason(cloth, IN).endswith(" on 42 in. The best found; at least 1⁄4 yd is needed.")


def test_a_bound_is_never_rounded_up():
    """Without a step the bound may lie between two cutting steps."""
    found = laid(off_the_roll(42 * INCH, IN), ("panel", 13, 16))
    cloth = replace(found, least=Fraction(101, 8) * INCH - 1)
    assert cloth_reason(cloth, IN).endswith("at least 12 1⁄2 in is needed.")


def test_a_scrap_that_is_enough():
    cloth = laid(scrap(300, 200, CM), ("panel", 20, 30), units=CM)
    assert cloth_amount(cloth, CM) == "1 × scrap 30 cm × 20 cm"
    assert cloth_reason(cloth, CM) == "1 panel of 20 × 30 cm lies on one. Less is not enough."


def test_what_the_wash_takes():
    shrinkage = Shrinkage(Fraction(5, 2), Fraction(1, 3))
    cloth = laid(off_the_roll(600, CM), ("panel", 20, 30), units=CM, shrinkage=shrinkage)
    said = "Counted in: in the first wash it shrinks 2.5 % along the cloth and 1⁄3 % across it."
    assert said in cloth_reason(cloth, CM)


def test_an_odd_one_that_is_cut_double():
    cloth = laid(off_the_roll(12 * INCH, IN), *[("tab", 3, 5)] * 3, folded=True)
    assert "1 × tab is cut double as well, so that one more of each is left over." in cloth_reason(cloth, IN)
    assert cloth_reason(cloth, IN).endswith("with every pair cut double.")


def test_per_cent_and_sides():
    assert per_cent(3) == "3 %"
    assert sides_in_words(Fraction(33, 2) * INCH, 20 * INCH, IN) == "16 1⁄2 × 20 in"


def test_thread_in_both_systems():
    found = thread(Fraction(40_000))
    assert (thread_amount(found, CM), thread_amount(found, IN)) == ("2 spools of 100 m", "2 spools of 109 yd")
    assert thread_reason(found, "301", CM) == (
        "≈ 115 m of thread: ≈ 40 m of stitching × 2.5 (stitch type 301, from industry consumption tables), "
        "and 15 % for ends."
    )


@pytest.mark.parametrize("metres", range(1, 60, 7))
def test_thread_comes_out_when_it_is_reckoned_again(metres):
    """From the stitching that is told, to a whole metre or yard, as it is bought."""
    found = thread(Fraction(metres * 1137))
    for units in (IN, CM):
        told, seams = re.findall(r"≈ ([^ ]+(?: [^ ]+⁄[^ ]+)?) (?:m|yd)", thread_reason(found, "301", units))[
            :2
        ]
        parts = [Fraction(part.replace("⁄", "/")) for part in seams.split()]
        assert abs(Fraction(told) - sum(parts) * Fraction("2.5") * Fraction("1.15")) < 1
