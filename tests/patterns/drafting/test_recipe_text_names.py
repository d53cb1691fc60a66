"""Names that cannot be, or that stand for two things."""

import pytest

from tests.recipe_texts import changed, mistakes

# What is changed in the text, and all that is then found wrong with it.
CASES = {
    "hyphen": (
        [('layers = "2"', 'layers = "2"\n"one-way fold" = "2"')],
        [
            (
                'line 41, constants."one-way fold": “one-way fold” cannot be a name: a hyphen is '
                "read as minus. Call it “one way fold”."
            )
        ],
    ),
    "digits": (
        [('layers = "2"', 'layers = "2"\n"pocket 2 fold" = "2"')],
        [
            (
                'line 41, constants."pocket 2 fold": “pocket 2 fold” cannot be a name: “2” is '
                "read as a number. Call it “pocket two fold”."
            )
        ],
    ),
    "reserved word": (
        [('layers = "2"', 'layers = "2"\n"fold in half" = "1"')],
        [
            (
                'line 41, constants."fold in half": “fold in half” cannot be a name: “in” has a '
                "meaning in formulas. Call it “fold half”."
            )
        ],
    ),
    "reserved phrase": (
        [('layers = "2"', 'layers = "2"\n"smaller of folds" = "1"')],
        [
            (
                'line 41, constants."smaller of folds": “smaller of folds” cannot be a name: '
                "“smaller of” has a meaning in formulas. Call it “smaller folds”."
            )
        ],
    ),
    "sign": (
        [('layers = "2"', 'layers = "2"\nfold_line = "1"')],
        [
            (
                "line 41, constants.fold_line: “fold_line” cannot be a name: “_” has no place in "
                "one. Call it “fold line”."
            )
        ],
    ),
    "nothing left to propose": (
        [('layers = "2"', 'layers = "2"\n"½ 3/4" = "1"')],
        [('line 41, constants."½ 3/4": “½ 3/4” cannot be a name: “½” is read as a number. Call it “half”.')],
    ),
    "empty": (
        [('layers = "2"', 'layers = "2"\n"" = "3"')],
        ['line 41, constants."": A name is missing. Write one.'],
    ),
    "too long": (
        [
            (
                'layers = "2"',
                'layers = "2"\naaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa = "3"',
            )
        ],
        [
            (
                "line 41, "
                'constants."aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa…": '
                "“aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa…” is too long for "
                "a name: 61 characters, 60 are the most."
            )
        ],
    ),
    "name of a measure": (
        [("[measures.folds]", '[measures."2 folds"]')],
        [
            (
                'line 27, measures."2 folds": “2 folds” cannot be a name: “2” is read as a '
                "number. Call it “two folds”."
            ),
            ('line 63, amounts."fold height", column 10: There is no “folds” here. Did you mean “2 folds”?'),
        ],
    ),
    "name of a piece": (
        [("[pieces.filling]", '[pieces."one-way filling"]')],
        [
            (
                'line 85, pieces."one-way filling": “one-way filling” cannot be a name: a hyphen '
                "is read as minus. Call it “one way filling”."
            ),
            (
                "line 99, truings[2].one, column 1: There is no “filling width” here. Did you "
                "mean “one-way filling width”?"
            ),
            "line 138, steps[2].shows[2]: “filling” is no piece. Did you mean “one-way filling”?",
        ],
    ),
    "equals sign in a name of another kind": (
        [("[materials.tape]", '[materials."tape=1"]')],
        ['line 124, materials."tape=1": “=” has no place in a name. Take it out.'],
    ),
    "capitals make no other name": (
        [('layers = "2"', 'layers = "2"\nLayers = "3"')],
        [("line 41, constants.Layers: “layers” stands here twice, first in line 40. Keep one of the two.")],
    ),
    "measure and constant": (
        [('layers = "2"', 'layers = "2"\nwidth = "3"')],
        [
            (
                "line 41, constants.width: “width” is used twice: measures.width in line 15 has "
                "it too. Give one of the two another name."
            )
        ],
    ),
    "constant and edge of a piece": (
        [('layers = "2"', 'layers = "2"\n"mat width" = "3"')],
        [
            (
                'line 66, pieces.mat: “mat width” is used twice: constants."mat width" in line '
                "41 has it too. Give one of the two another name."
            )
        ],
    ),
    "constant and amount": (
        [('layers = "2"', 'layers = "2"\n"fold height" = "3"')],
        [
            (
                'line 64, amounts."fold height": “fold height” is used twice: constants."fold '
                'height" in line 41 has it too. Give one of the two another name.'
            )
        ],
    ),
    "constant and option": (
        [('layers = "2"', 'layers = "2"\nprint = "3"')],
        [
            (
                "line 54, options.print: “print” is used twice: constants.print in line 41 has "
                "it too. Give one of the two another name."
            )
        ],
    ),
    "constant and what a choice sets": (
        [('layers = "2"', 'layers = "2"\nthickness = "3"')],
        [
            (
                "line 48, options.stiffening.choices.none.sets.thickness: “thickness” is used "
                "twice: constants.thickness in line 41 has it too. Give one of the two another name."
            )
        ],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_each_is_named_with_its_place_and_its_mend(case):
    swaps, expected = CASES[case]
    assert mistakes(changed(*swaps)) == expected
