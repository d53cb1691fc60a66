import re

import pytest

from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings import tokens
from patterns.drawings.black_and_white import GREYS, in_black_and_white
from patterns.drawings.finished import finished_svg
from patterns.starters import read_starter

TOKENS = {value for name, value in vars(tokens).items() if name.isupper() and str(value).startswith("#")}


def test_every_colour_of_the_drawings_has_a_grey():
    assert set(GREYS) == TOKENS
    for grey in GREYS.values():
        red, green, blue = re.findall("[0-9a-f]{2}", grey)
        assert red == green == blue


def test_right_and_wrong_sides_stay_apart():
    assert GREYS[tokens.EXTERIOR] != GREYS[tokens.EXTERIOR_PALE]
    assert GREYS[tokens.LINING_HATCH] != GREYS[tokens.LINING_HATCH_PALE]
    assert GREYS[tokens.INTERFACING_DOTS] != GREYS[tokens.INTERFACING_DOTS_PALE]


def test_a_drawing_keeps_all_but_its_colours():
    svg = finished_svg(size(read_starter("fold-flat-basket"), "fold-flat-basket", Units.INCHES, {}, {}))
    plain = in_black_and_white(svg)
    assert re.sub("#[0-9a-f]{6}", "", plain) == re.sub("#[0-9a-f]{6}", "", svg)
    assert set(re.findall("#[0-9a-f]{6}", plain)) <= set(GREYS.values())


def test_a_colour_that_is_not_known_is_refused():
    with pytest.raises(KeyError):
        in_black_and_white('<path fill="#123456"/>')
