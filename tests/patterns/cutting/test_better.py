from dataclasses import replace
from fractions import Fraction

import pytest

from patterns.cutting.better import can_be_better, to_json, with_better
from patterns.cutting.choices import Choices
from patterns.cutting.shopping import shopping_list
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter

TOTE = size(read_starter("boxed-tote"), "boxed-tote", Units.INCHES)


@pytest.fixture(scope="module")
def found():
    return shopping_list(TOTE, Choices(work=30_000))


def worse(found, **changes):
    """The same list with another amount, or another proof, for its first line."""
    cloth = found.lines[0].cloth
    changed = {name: getattr(cloth, name) + value for name, value in changes.items()}
    return replace(found, lines=(replace(found.lines[0], cloth=replace(cloth, **changed)), *found.lines[1:]))


def test_less_to_buy_is_put_in_with_its_layout(found):
    more = worse(found, buy=Units.INCHES.mm * 9, length=Units.INCHES.mm * 9)
    mended = with_better(more, to_json(found))
    assert mended.lines[0].amount == found.lines[0].amount
    assert mended.lines[0].cloth == found.lines[0].cloth


def test_better_proof_is_put_in(found):
    less_proved = worse(found, least=-Fraction(1))
    assert with_better(less_proved, to_json(found)).lines[0].cloth == found.lines[0].cloth


def test_same_or_worse_is_left_out(found):
    assert with_better(found, to_json(found)) == found
    assert with_better(found, to_json(worse(found, buy=1, least=-1))) == found


def test_other_question_is_left_out(found):
    kept = to_json(found)
    kept["exterior fabric"]["form"] = "fat quarter"
    more = worse(found, buy=1)
    assert with_better(more, kept) == more
    assert with_better(more, {}) == more


def test_can_be_better_where_cloth_that_lies_open_is_not_proved(found):
    lines = [line for line in found.lines if line.cloth is None or line.cloth.proved]
    assert not can_be_better(replace(found, lines=tuple(lines)))
    more = worse(found, least=-1)
    assert can_be_better(more)
    folded = [
        line
        if line.cloth is None
        else replace(line, cloth=replace(line.cloth, way=replace(line.cloth.way, folded=True)))
        for line in more.lines
    ]
    assert not can_be_better(replace(more, lines=tuple(folded)))
