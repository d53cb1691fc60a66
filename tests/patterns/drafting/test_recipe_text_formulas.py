"""Formulas that cannot be read, or that cannot stand where they do."""

import pytest

from tests.recipe_texts import changed, mistakes

# What is changed in the text, and all that is then found wrong with it.
CASES = {
    "syntax": (
        [('"fold height" = "height ÷ folds"', '"fold height" = "height ÷ "')],
        [
            (
                'line 63, amounts."fold height", column 8: The formula ends after “÷”. Something '
                "is missing there."
            )
        ],
    ),
    "mixed kinds": (
        [('"fold height" = "height ÷ folds"', '"fold height" = "height + folds"')],
        [
            (
                'line 63, amounts."fold height", column 8: “+” needs two of a kind: “height” is '
                "a length, “folds” is a bare number. Look for a missing × or unit."
            )
        ],
    ),
    "comparison in an amount": (
        [('"fold height" = "height ÷ folds"', '"fold height" = "height > width"')],
        [
            (
                'line 63, amounts."fold height": Only a check may compare. Write here what gives '
                "a number or a length."
            )
        ],
    ),
    "literal with a unit": (
        [('"fold height" = "height ÷ folds"', '"fold height" = "height ÷ folds + 1/2 in"')],
        [
            (
                'line 63, amounts."fold height", column 18: “1/2 in” has a unit. Make it a '
                "constant with in and cm, and write its name here."
            )
        ],
    ),
    "circle of amounts": (
        [('"fold height" = "height ÷ folds"', '"fold height" = "packed height ÷ layers"')],
        [
            (
                'line 62, amounts."packed height": This goes round in a circle: packed height → '
                "fold height → packed height. Write one of them without the others."
            )
        ],
    ),
    "amount of itself": (
        [('"fold height" = "height ÷ folds"', '"fold height" = "fold height ÷ 2"')],
        [
            (
                'line 63, amounts."fold height": This goes round in a circle: fold height → fold '
                "height. Write it without itself."
            )
        ],
    ),
    "circle through a piece": (
        [
            ('"fold height" = "height ÷ folds"', '"fold height" = "filling width"'),
            ('cut = "1"\nwidth = "width"', 'cut = "1"\nwidth = "fold height"'),
        ],
        [
            (
                'line 63, amounts."fold height": This goes round in a circle: fold height → '
                "filling width → fold height. Write one of them without the others."
            )
        ],
    ),
    "finished size": (
        [('depth = "seam allowance"', 'depth = "folds"')],
        [
            (
                "line 13, finished.depth: This is a bare number; a length belongs here. Look for "
                "a missing measure or constant, or for a × or ² too many."
            )
        ],
    ),
    "number of pieces is a length": (
        [('cut = "2"', 'cut = "width"')],
        [
            (
                "line 67, pieces.mat.cut: This is a length; a bare number belongs here. Divide "
                "it by a length, or take the measure out."
            )
        ],
    ),
    "number of pieces is no whole number": (
        [('cut = "2"', 'cut = "folds ÷ 2"')],
        [
            (
                "line 67, pieces.mat.cut: This is not a whole number above 0 at the default "
                "size. Write one that is."
            )
        ],
    ),
    "number of pieces is none": (
        [('cut = "2"', 'cut = "0"')],
        [
            (
                "line 67, pieces.mat.cut: This is not a whole number above 0 at the default "
                "size. Write one that is."
            )
        ],
    ),
    "width of a piece": (
        [('cut = "1"\nwidth = "width"', 'cut = "1"\nwidth = "folds"')],
        [
            (
                "line 88, pieces.filling.width: This is a bare number; a length belongs here. "
                "Look for a missing measure or constant, or for a × or ² too many."
            )
        ],
    ),
    "height of a piece": (
        [('width = "width"\nheight = "height"\nwhen', 'width = "width"\nheight = "height²"\nwhen')],
        [
            (
                "line 89, pieces.filling.height: This is an area; a length belongs here. Look "
                "for a missing measure or constant, or for a × or ² too many."
            )
        ],
    ),
    "place of a mark": (
        [('down = "seam allowance + fold height"', 'down = "folds"')],
        [
            (
                'line 75, pieces.mat.marks."first fold".down: This is a bare number; a length '
                "belongs here. Look for a missing measure or constant, or for a × or ² too many."
            )
        ],
    ),
    "mark without a place": (
        [('down = "seam allowance + fold height"\n', "")],
        [
            (
                'line 73, pieces.mat.marks."first fold": The place is missing. Write down, for a '
                "line across the piece, across, for a line down it, or inside, for one all round it."
            )
        ],
    ),
    "point with ends": (
        [('across = "mat width ÷ 2"', 'across = "mat width ÷ 2"\nfrom = "seam allowance"')],
        [
            (
                "line 80, pieces.mat.marks.tie: With down and across this is a point, which has "
                "no ends. Take out “from” and “to”."
            )
        ],
    ),
    "truing of two kinds": (
        [('other = "width"', 'other = "width × height"')],
        [
            (
                "line 95, truings[1].other: One side is a length, the other an area: they never "
                "agree. Measure the same thing on both sides."
            )
        ],
    ),
    "truing that compares": (
        [('other = "width"', 'other = "width > height"')],
        [
            (
                "line 95, truings[1].other: Only a check may compare. Write here what gives a "
                "number or a length."
            )
        ],
    ),
    "truing that never exists": (
        [
            (
                'when = { stiffening = ["fleece"] }\n\n[[checks]]',
                'when = { stiffening = ["none"] }\n\n[[checks]]',
            )
        ],
        [
            (
                "line 97, truings[2]: No choice of “stiffening” lets this truing exist: it reads "
                "“filling”. Write one for pieces that are cut together."
            )
        ],
    ),
    "check that compares nothing": (
        [('holds = "fold height ≥ least fold"', 'holds = "fold height"')],
        [
            (
                "line 106, checks[1].holds: This is a length; yes or no belongs here. Compare "
                "two things with <, ≤, >, ≥, = or ≠."
            )
        ],
    ),
    "length to buy": (
        [('amount = "2 × (width + height)"', 'amount = "2"')],
        [
            (
                "line 126, materials.tape.amount: This is a bare number; a length belongs here. "
                "Look for a missing measure or constant, or for a × or ² too many."
            )
        ],
    ),
    "placeholder in a check": (
        [("A fold of {fold height} is", "A fold of {fold hieght} is")],
        [
            (
                "line 107, checks[1].otherwise, column 12: There is no “fold hieght” here. Did "
                "you mean “fold height”?"
            )
        ],
    ),
    "placeholder in a material": (
        [("Cotton, {layers} layers", "Cotton, {layer} layers")],
        [("line 118, materials.cloth.says, column 10: There is no “layer” here. Did you mean “layers”?")],
    ),
    "placeholder in a tell": (
        [("{packed height}", "{packed hight}")],
        [
            (
                "line 129, tells[1].says, column 14: There is no “packed hight” here. Did you "
                "mean “packed height”?"
            )
        ],
    ),
    "placeholder in a step": (
        [("Press {layers} layers.", "Press {leyers} layers.")],
        ["line 133, steps[1].does, column 8: There is no “leyers” here. Did you mean “layers”?"],
    ),
    "placeholder that compares": (
        [("A fold of {fold height} is", "A fold of {fold height > width} is")],
        [
            (
                "line 107, checks[1].otherwise, column 12: Only a check may compare. Write here "
                "what gives a number or a length."
            )
        ],
    ),
    "brace never closed": (
        [("A fold of {fold height} is", "A fold of {fold height is")],
        [
            (
                "line 107, checks[1].otherwise, column 11: This brace is never closed. Write } "
                "after the formula."
            )
        ],
    ),
    "brace never opened": (
        [("A fold of {fold height} is", "A fold of fold height} is")],
        [
            (
                "line 107, checks[1].otherwise, column 22: This brace closes nothing. Write { "
                "before the formula, or take it out."
            )
        ],
    ),
    "brace opened twice": (
        [("A fold of {fold height} is", "A fold of {fold {height} is")],
        [
            (
                "line 107, checks[1].otherwise, column 17: This brace opens before the last one "
                "is closed. Write } first."
            )
        ],
    ),
    "empty braces": (
        [("A fold of {fold height} is", "A fold of {} is")],
        [
            (
                "line 107, checks[1].otherwise, column 11: The braces are empty. Write a formula "
                "in them, or take them out."
            )
        ],
    ),
    "grows out of bounds": (
        [
            (
                '"fold height" = "height ÷ folds"',
                (
                    '"fold height" = "height ÷ folds"\ntwo = "(layers × 7)³"\nthree = "two³"\nfour '
                    '= "three³"\nfive = "four³"\nsix = "five³ + five"'
                ),
            )
        ],
        [
            (
                "line 68, amounts.six: At the default size: A number grows too big on the way. "
                "Look for squares of squares."
            )
        ],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_each_is_named_with_its_place_and_its_mend(case):
    swaps, expected = CASES[case]
    assert mistakes(changed(*swaps)) == expected
