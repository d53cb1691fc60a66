"""Ranges, constants and what does not go together in them."""

import pytest

from tests.recipe_texts import changed, mistakes

# What is changed in the text, and all that is then found wrong with it.
CASES = {
    "no length": (
        [('default = "9"', 'default = "nine"')],
        [("line 18, measures.width.in.default: “nine” is not a length. Write it like 7, 7.5, 7½ or 7 1/2.")],
    ),
    "no number": (
        [('layers = "2"', 'layers = "two"')],
        ["line 40, constants.layers: “two” is not a number. Write it like 7, 7.5, 7½ or 7 1/2."],
    ),
    "unit in a number": (
        [('number = { least = "2"', 'number = { least = "2 in"')],
        [
            (
                "line 30, measures.folds.number.least: “2 in” has a unit, but a number is wanted "
                "here. Write it without “in”."
            )
        ],
    ),
    "default above": (
        [('default = "9"', 'default = "21"')],
        [
            (
                "line 18, measures.width.in.default: The default, 21, lies outside the range, 3 "
                "to 20. Move one of them."
            )
        ],
    ),
    "default below": (
        [('default = "9"', 'default = "2 1/2"')],
        [
            (
                "line 18, measures.width.in.default: The default, 2 1/2, lies outside the range, "
                "3 to 20. Move one of them."
            )
        ],
    ),
    "least above most": (
        [('least = "3", most = "20"', 'least = "20", most = "3"')],
        [("line 18, measures.width.in.least: The least, 20, is more than the most, 3. Exchange them.")],
    ),
    "no step": (
        [('step = "1/4"', 'step = "0"')],
        ["line 18, measures.width.in.step: The step is 0. Write one above 0."],
    ),
    "no range": (
        [('number = { least = "2", most = "5", default = "3", step = "1" }\n', "")],
        [
            (
                "line 27, measures.folds: The range is missing. Write in = { … } and cm = { … }, "
                "or number = { … } for a bare number."
            )
        ],
    ),
    "two kinds of range": (
        [
            (
                'says = "Across."\n',
                ('says = "Across."\nnumber = { least = "2", most = "5", default = "3", step = "1" }\n'),
            )
        ],
        [
            (
                "line 15, measures.width: A measure is a bare number or a length. Take out "
                "“number”, or “in” and “cm”."
            )
        ],
    ),
    "one unit system": (
        [('cm = { least = "8", most = "50", default = "23", step = "0.5" }\n', "")],
        ["line 15, measures.width: “cm” is missing here. Write cm = { … }."],
    ),
    "constant in one unit system": (
        [('layers = "2"', 'layers = { in = "2" }')],
        ['line 40, constants.layers: “cm” is missing here. Write cm = "…".'],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_each_is_named_with_its_place_and_its_mend(case):
    swaps, expected = CASES[case]
    assert mistakes(changed(*swaps)) == expected
