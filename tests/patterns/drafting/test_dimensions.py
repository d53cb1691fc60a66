import pytest
from hypothesis import given, settings

from patterns.drafting.errors import FormulaError
from patterns.drafting.formulas.dimensions import YES_NO, kind_of
from patterns.drafting.formulas.evaluate import evaluate
from patterns.drafting.formulas.grammar import read
from patterns.drafting.formulas.values import TooBigError
from tests.strategies import NAMES, trees

KINDS = {"width": 1, "height": 1, "depth": 1, "seam allowance": 1, "folds": 0}


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("width + 2 × seam allowance", 1),
        ("width × height", 2),
        ("width × height × depth", 3),
        ("width³", 3),
        ("width ÷ height", 0),
        ("folds × π", 0),
        ("√(width × height)", 1),
        ("√(folds)", 0),
        ("√(width²) + 3/4 in", 1),
        ("smaller of (width, 5 cm)", 1),
        ("round up (width, to 1/4 in)", 1),
        ("width × height × depth ÷ 6", 3),
        ("width ≥ depth and folds > 2", YES_NO),
    ],
)
def test_kinds(text, kind):
    assert kind_of(read(text), KINDS) == kind


@pytest.mark.parametrize(
    ("text", "column", "says"),
    [
        (
            "3 / 4 in",
            3,
            "“3 ÷ 4 in” divides a number by a length. Write 3/4 in, without spaces.",
        ),
        (
            "width + 2",
            7,
            "“+” needs two of a kind: “width” is a length, “2” is a bare number. Give 2 a unit, "
            "as a constant.",
        ),
        (
            "width > 0",
            7,
            "“>” needs two of a kind: “width” is a length, “0” is a bare number. Give 0 a unit, "
            "as a constant.",
        ),
        ("heigt + width", 1, "There is no “heigt” here. Did you mean “height”?"),
        ("zebra", 1, "There is no “zebra” here. Give it a formula or a value of its own first."),
        (
            "width × width × width × width",
            23,
            "“width × width × width × width” has more than three dimensions. Look for a × too many.",
        ),
        ("√(width)", 1, "“√(width)” is the root of a length. Only a number or an area has one here."),
        (
            "(width > depth) + width",
            8,
            "“width > depth” is yes or no and cannot be added or compared. Compare last.",
        ),
        ("1 ÷ width", 3, "“1 ÷ width” divides by a length, which gives no size. Turn it round."),
        ("width and depth > width", 1, "“and” stands between comparisons; “width” is none. Compare it."),
        (
            "(width × height)²",
            17,
            "“(width × height)²” has more than three dimensions. Look for a ² or ³ too many.",
        ),
    ],
)
def test_mistakes_name_place_and_mend(text, column, says):
    with pytest.raises(FormulaError) as error:
        kind_of(read(text), KINDS)
    assert [(mistake.column, mistake.message) for mistake in error.value.mistakes] == [(column, says)]


def test_every_mistake_is_found():
    with pytest.raises(FormulaError) as error:
        kind_of(read("heigt + smaller of (width, 3) − zebra"), KINDS)
    assert [mistake.column for mistake in error.value.mistakes] == [1, 9, 33]


@settings(max_examples=300)
@given(trees)
def test_dimension_errors_never_reach_evaluation(tree):
    """What has a kind can be evaluated, and gives that kind of value."""
    kinds = dict.fromkeys(NAMES, 1)
    try:
        kind = kind_of(tree, kinds)
    except FormulaError:
        return
    try:
        value = evaluate(tree, dict.fromkeys(NAMES, evaluate(read("7 1/2 in"), {})))
    except TooBigError:
        return
    assert value is None or isinstance(value, bool) == (kind == YES_NO)
