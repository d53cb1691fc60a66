"""Which way a formula goes, against its values at sizes that rise."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from patterns.drafting.formulas.evaluate import evaluate
from patterns.drafting.formulas.grammar import read
from patterns.drafting.formulas.trend import NOT_KNOWN, Sign, Trend, sign_of, trend
from patterns.drafting.formulas.values import TooBigError, compare
from tests.strategies import NAMES, trees

STILL, RISES = Trend(True, True, Sign.ABOVE_0), Trend(True, False, Sign.ABOVE_0)
FALLS = Trend(False, True, Sign.ABOVE_0)
OF = {
    "width": RISES,
    "height": STILL,
    "depth": STILL,
    "left": FALLS,
    "nothing": STILL._replace(sign=Sign.NOT_BELOW_0),
}


def going(text):
    found = trend(read(text), OF)
    return {(True, True): "still", (True, False): "rises", (False, True): "falls"}.get(found[:2], "not known")


@pytest.mark.parametrize(
    ("text", "goes"),
    [
        ("width", "rises"),
        ("2 × height + depth", "still"),
        ("height − width ÷ 2", "falls"),
        ("height − √(width² + depth²) ÷ 2", "falls"),
        ("−left", "rises"),
        ("width × left", "not known"),
        ("width − left", "rises"),
        ("width ÷ left", "rises"),
        ("left ÷ width", "falls"),
        ("height × (depth − width)", "falls"),
        ("(depth − width) ÷ height", "falls"),
        ("(depth − width) × (depth − width)", "not known"),
        ("(depth − width)²", "not known"),
        ("√(height − depth)", "not known"),
        ("width ÷ nothing", "not known"),
        ("width ÷ (height − depth)", "not known"),
        ("smaller of (width, height)", "rises"),
        ("larger of (left, height)", "falls"),
        ("smaller of (width, left)", "not known"),
        ("round up (width, to depth)", "rises"),
        ("round down (left, to 1/2 in)", "falls"),
        ("round up (height, to width)", "not known"),
        ("width > height", "not known"),
        ("girth", "not known"),
        ("π × width", "rises"),
    ],
)
def test_goes(text, goes):
    assert going(text) == goes


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("width + nothing", Sign.ABOVE_0),
        ("nothing + nothing", Sign.NOT_BELOW_0),
        ("width − height", Sign.UNKNOWN),
        ("width × nothing", Sign.NOT_BELOW_0),
        ("larger of (width, height − depth)", Sign.ABOVE_0),
        ("smaller of (width, height − depth)", Sign.UNKNOWN),
        ("round down (width, to depth)", Sign.NOT_BELOW_0),
        ("0 × width", Sign.NOT_BELOW_0),
    ],
)
def test_sign(text, sign):
    assert trend(read(text), OF).sign is sign


def test_sign_of_what_is_no_number_is_not_known():
    assert [sign_of(value) for value in (None, True, Fraction(-1))] == [Sign.UNKNOWN] * 3
    assert trend(read("girth"), {}) == NOT_KNOWN


@settings(max_examples=400, deadline=None)
@given(trees, st.sampled_from(NAMES), st.data())
def test_what_is_said_is_so(node, moving, data):
    """One name rises from size to size, the others stand still; all are above 0."""
    positive = st.fractions(Fraction(1, 16), Fraction(60), max_denominator=16)
    fixed = {name: data.draw(positive) for name in NAMES}
    steps = sorted(data.draw(st.sets(positive, min_size=2, max_size=6)))
    said = trend(node, {name: RISES if name == moving else STILL for name in NAMES})
    try:
        values = [evaluate(node, {**fixed, moving: step}) for step in steps]
    except TooBigError:
        assume(False)
    if said.rises or said.falls:
        assert None not in values
    for one, other in pairwise(values):
        assert not said.rises or compare(other, one) >= 0
        assert not said.falls or compare(other, one) <= 0
    for value in values:
        if said.sign and value is not None:
            assert compare(value, Fraction(0)) >= (1 if said.sign is Sign.ABOVE_0 else 0)
