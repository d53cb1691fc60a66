from fractions import Fraction

import pytest

from patterns.cutting import book_list as module
from patterns.cutting.book_list import TOO_SMALL, book_list
from patterns.cutting.choices import Making
from patterns.cutting.effort import USUAL_EFFORT
from patterns.cutting.forms import off_the_roll
from patterns.cutting.shopping import shopping_list
from patterns.cutting.wish import Wish
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs


def sized(slug="fold-flat-basket", units=Units.INCHES, **measures):
    lengths = {name.replace("_", " "): Fraction(number) * units.mm for name, number in measures.items()}
    return size(read_starter(slug), slug, units, lengths)


@pytest.mark.parametrize("slug", slugs())
@pytest.mark.parametrize("units", Units)
def test_it_holds_every_material_and_the_same_twice(slug, units):
    pattern = sized(slug, units)
    found = book_list(pattern)
    assert found == book_list(pattern)
    assert {line.material for line in found.lines} == {line.material for line in shopping_list(pattern).lines}
    assert all(line.amount for line in found.lines if line.cloth)


def test_it_is_what_the_usual_list_says_where_that_is_proved():
    usual = {line.material: line for line in shopping_list(sized()).lines}
    for line in book_list(sized()).lines:
        if line.cloth is None:
            assert line == usual[line.material]
        elif usual[line.material].cloth.proved:
            assert line.amount == usual[line.material].amount


def test_several_are_laid_together_and_the_wash_is_counted():
    found = book_list(sized(), Wish(shrinkage=Fraction(5), count=3))
    assert found.items == 3
    exterior = next(line for line in found.lines if line.material == "exterior fabric")
    assert len(exterior.cloth.layout) == 3
    assert "it shrinks 5 % along the cloth and 5 % across it" in exterior.reason
    alone = shopping_list([Making(sized(), 3)]).lines[0]
    assert exterior.bought > alone.bought


def test_cloth_that_is_too_small_gives_way_to_the_usual_one():
    found = book_list(sized(), Wish(form="precut 5 in square"))
    exterior = next(line for line in found.lines if line.material == "exterior fabric")
    assert exterior.amount == "1⁄2 yd, 44 in wide"
    assert exterior.reason.startswith(TOO_SMALL)
    thread = next(line for line in found.lines if line.material == "sewing thread")
    assert TOO_SMALL not in thread.reason


def test_a_piece_wider_than_all_cloth_has_no_line(monkeypatch):
    """Only what is too large is left out."""
    basket = sized(units=Units.CENTIMETRES, width=50, height=50, depth=30)
    narrow = {
        "fabric": (off_the_roll(300, Units.CENTIMETRES),),
        "interfacing": (off_the_roll(1500, Units.CENTIMETRES),),
    }
    monkeypatch.setattr("patterns.cutting.shopping.by_length", lambda units, kind: narrow[kind])
    found = {line.material for line in book_list(basket).lines}
    assert "exterior fabric" not in found
    assert {"light interfacing", "sewing thread"} <= found


def test_the_search_is_bounded_by_work_and_no_clock():
    chosen = module.choices_of(Wish(), sized(), work=module.BOOK_WORK)
    assert chosen.watch is None
    assert not chosen.may_solve
    assert module.BOOK_WORK >= USUAL_EFFORT
