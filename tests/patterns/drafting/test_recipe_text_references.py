"""Names that nothing answers, and what options and sizes set wrongly."""

import pytest

from tests.recipe_texts import changed, mistakes

# What is changed in the text, and all that is then found wrong with it.
CASES = {
    "unknown name, nearest offered": (
        [('"fold height" = "height ÷ folds"', '"fold height" = "hieght ÷ folds"')],
        [('line 63, amounts."fold height", column 1: There is no “hieght” here. Did you mean “height”?')],
    ),
    "unknown name": (
        [('"fold height" = "height ÷ folds"', '"fold height" = "pocket drop ÷ folds"')],
        [
            (
                'line 63, amounts."fold height", column 1: There is no “pocket drop” here. Give '
                "it a formula or a value of its own first."
            )
        ],
    ),
    "option is no name in formulas": (
        [('cut = "2"', 'cut = "print"')],
        [
            (
                "line 67, pieces.mat.cut, column 1: There is no “print” here. Give it a formula "
                "or a value of its own first."
            )
        ],
    ),
    "piece is no name in formulas": (
        [('across = "mat width ÷ 2"', 'across = "mat"')],
        [
            (
                "line 83, pieces.mat.marks.tie.across, column 1: There is no “mat” here. Did you "
                "mean “mat height”?"
            )
        ],
    ),
    "unknown material": (
        [('from = "cloth"', 'from = "cloht"')],
        ["line 66, pieces.mat.from: “cloht” is no material. Did you mean “cloth”?"],
    ),
    "unknown piece": (
        [('shows = ["mat", "filling"]', 'shows = ["mat", "flap"]')],
        ["line 138, steps[2].shows[2]: “flap” is no piece. There are: mat, filling."],
    ),
    "unknown caution": (
        [('cautions = ["iron"]', 'cautions = ["irons"]')],
        ["line 139, steps[2].cautions[1]: “irons” is no caution. Did you mean “iron”?"],
    ),
    "unknown option": (
        [('upright = { print = ["one way"] }', 'upright = { pint = ["one way"] }')],
        ["line 71, pieces.mat.upright.pint: “pint” is no option. Did you mean “print”?"],
    ),
    "unknown choice": (
        [('upright = { print = ["one way"] }', 'upright = { print = ["no way"] }')],
        [("line 71, pieces.mat.upright.print[1]: “no way” is no choice of “print”. Did you mean “one way”?")],
    ),
    "choice named twice": (
        [('upright = { print = ["one way"] }', 'upright = { print = ["one way", "One way"] }')],
        [("line 71, pieces.mat.upright.print[2]: “one way” stands twice in this list. Take one out.")],
    ),
    "no choice": (
        [('upright = { print = ["one way"] }', "upright = { print = [] }")],
        [("line 71, pieces.mat.upright.print: The list is empty, so this never exists. Name a choice.")],
    ),
    "piece shown twice": (
        [('shows = ["mat", "filling"]', 'shows = ["mat", "mat"]')],
        ["line 138, steps[2].shows[2]: “mat” stands twice in this list. Take one out."],
    ),
    "default that is no choice": (
        [('default = "fleece"', 'default = "flece"')],
        [
            (
                "line 44, options.stiffening.default: “flece” is no choice of “stiffening”. Did "
                "you mean “fleece”?"
            )
        ],
    ),
    "option without choices": (
        [
            (
                "[options.print]\nsays",
                '[options.backing]\nsays = "The back."\nchoices = {}\n\n[options.print]\nsays',
            )
        ],
        [("line 55, options.backing.choices: There is no choice here. An option needs one at least.")],
    ),
    "set in some choices only": (
        [
            (
                '[options.stiffening.choices.none]\nsets = { thickness = { in = "0", cm = "0" } }',
                "[options.stiffening.choices.none]",
            )
        ],
        [
            (
                "line 50, options.stiffening.choices.fleece.sets.thickness: “thickness” has no "
                "value with “none”. Set it in every choice, or make it a measure."
            )
        ],
    ),
    "set as length and as number": (
        [('thickness = { in = "0", cm = "0" }', 'thickness = "0"')],
        [
            (
                "line 51, options.stiffening.choices.fleece.sets.thickness: “thickness” is a "
                "length in one choice and a bare number in another. Write it in one way."
            ),
            (
                'line 62, amounts."packed height", column 22: “+” needs two of a kind: “fold '
                "height × layers” is a length, “thickness” is a bare number. Look for a missing "
                "× or unit."
            ),
        ],
    ),
    "measure set to a number": (
        [('"seam allowance" = { in = "5/8", cm = "1.5" }', '"seam allowance" = "5"')],
        [
            (
                'line 51, options.stiffening.choices.fleece.sets."seam allowance": The measure '
                "“seam allowance” is a length, with in and cm. Write one here."
            )
        ],
    ),
    "measure set out of its range": (
        [('"seam allowance" = { in = "5/8", cm = "1.5" }', '"seam allowance" = { in = "2", cm = "1.5" }')],
        [
            (
                'line 51, options.stiffening.choices.fleece.sets."seam allowance": This lies '
                "outside the range of the measure “seam allowance”. Move one of them."
            )
        ],
    ),
    "measure set by two options": (
        [
            (
                '[options.print.choices."one way"]',
                ('[options.print.choices."one way"]\nsets = { "seam allowance" = { in = "1/2", cm = "1" } }'),
            )
        ],
        [
            (
                'line 60, options.print.choices."one way".sets."seam allowance": Another option '
                "sets “seam allowance” already. Let one option set it."
            )
        ],
    ),
    "size with an unknown measure": (
        [('in = { width = "12", height = "8" }', 'in = { widht = "12", height = "8" }')],
        [
            'line 146, sizes."For a tray".in.widht: “widht” is no measure. Did you mean “width”?',
            ('line 146, sizes."For a tray".in: “width” stands in one unit system only. Write it in both.'),
        ],
    ),
    "size in one system only": (
        [('in = { width = "12", height = "8" }', 'in = { width = "12" }')],
        [('line 146, sizes."For a tray".in: “height” stands in one unit system only. Write it in both.')],
    ),
    "size out of range": (
        [('in = { width = "12", height = "8" }', 'in = { width = "25", height = "8" }')],
        [
            (
                'line 146, sizes."For a tray".in.width: 25 lies outside the range of the measure '
                "“width”. Move one of them."
            )
        ],
    ),
    "size without centimetres": (
        [('cm = { width = "30", height = "20" }\n', "")],
        ['line 145, sizes."For a tray": “cm” is missing here. Write cm = { … }.'],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_each_is_named_with_its_place_and_its_mend(case):
    swaps, expected = CASES[case]
    assert mistakes(changed(*swaps)) == expected
