"""Outlines in a recipe text: read, written, proved, and every mistake in them."""

from fractions import Fraction

import pytest

from patterns.drafting.recipe_text import read_recipe, write_recipe
from patterns.drafting.sizing import size
from patterns.drafting.truing import prove
from tests.recipe_texts import changed, mistakes
from tests.recipes import CM, IN

BEFORE = '[pieces.mat.marks."first fold"]\n'
OUTLINE = """\
[[pieces.mat.outline]]
across = "mat width − seam allowance"
down = "0"
name = "curve's begin"

[[pieces.mat.outline]]
across = "mat width"
down = "seam allowance"
arc = "right"

[[pieces.mat.outline]]
across = "mat width"
down = "mat height"

[[pieces.mat.outline]]
across = "0"
down = "mat height"

[[pieces.mat.outline]]
across = "0"
down = "0"

"""
TEXT = changed((BEFORE, OUTLINE + BEFORE))
TRUING = """\
[[truings]]
says = "the curve begins an allowance from the edge"
one = "mat curve's begin across + seam allowance"
other = "mat width"

"""
# The lines that the five corners begin in.
LINES = [first + 1 for first, line in enumerate(TEXT.split("\n")) if line == "[[pieces.mat.outline]]"]


def with_outline(*swaps):
    text = OUTLINE
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new, 1)
    return changed((BEFORE, text + BEFORE))


def test_an_outline_is_kept_to_the_letter():
    recipe = read_recipe(TEXT)
    assert write_recipe(recipe) == TEXT
    mat, filling = recipe.pieces
    assert [corner.arc for corner in mat.outline] == [None, "right", None, None, None]
    assert [corner.name for corner in mat.outline] == ["curve's begin", "", "", "", ""]
    assert filling.outline == ()


@pytest.mark.parametrize(
    ("canonical", "typed"),
    [
        ('down = "0"', 'down = " 0 "'),
        ("""name = "curve's begin\"""", """name = "Curve's  BEGIN\""""),
        ("mat width − seam allowance", "Mat width - seam allowance"),
    ],
)
def test_what_means_the_same_is_written_in_one_way(canonical, typed):
    assert write_recipe(read_recipe(with_outline((canonical, typed)))) == TEXT


def test_named_corners_are_proved_and_a_spoiled_one_is_not():
    [proof] = prove_only("curve begins", TEXT)
    assert proof.result == "proved"
    spoiled = with_outline(("mat width − seam allowance", "mat width − 2 × seam allowance"))
    spoiled = spoiled.replace('down = "seam allowance"\narc', 'down = "2 × seam allowance"\narc')
    [proof] = prove_only("curve begins", spoiled)
    assert (proof.result, str(proof.difference)) == ("false", "−seam allowance")


def prove_only(says, text):
    recipe = read_recipe(text.replace("[[checks]]", TRUING + "[[checks]]", 1))
    return [proof for proof in prove(recipe) if says in proof.truing.says]


def test_a_named_corner_has_its_value_at_every_size():
    sized = size(read_recipe(TEXT), "mat", IN, {"width": 10 * IN.mm, "seam allowance": IN.mm})
    assert sized.values["mat curve's begin across"] == 11 * IN.mm
    assert sized.values["mat curve's begin down"] == 0
    assert sized.powers["mat curve's begin down"] == 1


def test_a_truing_that_reads_a_corner_exists_with_its_piece():
    text = TEXT.replace('from = "cloth"\n', 'from = "cloth"\n', 1)
    text = text.replace('upright = { print = ["one way"] }', 'when = { print = ["one way"] }', 1).replace(
        "[[checks]]", TRUING + "[[checks]]", 1
    )
    [proof] = [proof for proof in prove(read_recipe(text)) if "curve begins" in proof.truing.says]
    assert proof.options == {"print": "one way"}


def test_the_shape_is_told_at_every_size():
    sized = size(read_recipe(TEXT), "mat", CM, {"width": Fraction(200)})
    assert [piece.shape for piece in sized.pieces] == ["outline", "rectangle"]
    mat, filling = sized.pieces
    assert [(corner.across, corner.down, corner.arc) for corner in mat.corners[:3]] == [
        (mat.width.value - 15, 0, None),
        (mat.width.value, 15, "right"),
        (mat.width.value, mat.height.value, None),
    ]
    assert [(corner.across, corner.down) for corner in filling.corners] == [
        (0, 0),
        (200, 0),
        (200, 150),
        (0, 150),
    ]


# What is changed in the outline, and all that is then found wrong with the text: the corner, from 1, what is
# added to its line, and the mistake.
CASES = {
    "key missing": (
        [('across = "0"\ndown = "0"', 'across = "0"')],
        [(5, 0, "outline[5]", '“down” is missing here. Write down = "…".')],
    ),
    "unknown key": (
        [('arc = "right"', 'arch = "right"')],
        [(2, 3, "outline[2].arch", "The key “arch” is not known here. Did you mean “arc”?")],
    ),
    "unknown turn": (
        [('arc = "right"', 'arc = "rihgt"')],
        [(2, 3, "outline[2].arc", "“rihgt” is no arc that is known. Did you mean “right”?")],
    ),
    "bare number": (
        [('down = "0"', 'down = "1"')],
        [
            (
                1,
                2,
                "outline[1].down",
                (
                    "This is a bare number; a length belongs here. Look for a missing measure or "
                    "constant, or for a × or ² too many."
                ),
            )
        ],
    ),
    "curve that is none": (
        [('down = "seam allowance"', 'down = "2 × seam allowance"')],
        [
            (
                2,
                0,
                "outline[2]",
                (
                    "At the default size, the outline has a curve that is no quarter circle. A quarter "
                    "circle goes as far across as down. Move one of its ends, or leave arc out."
                ),
            )
        ],
    ),
    "box not filled": (
        [
            ('across = "mat width"\ndown = "mat height"', 'across = "mat width"\ndown = "height"'),
            ('across = "0"\ndown = "mat height"', 'across = "0"\ndown = "height"'),
        ],
        [
            (
                1,
                0,
                "outline[1]",
                (
                    "At the default size, the outline does not fill the width and the height of the "
                    "piece. The least across and down are 0, the most are the piece's width and height."
                ),
            )
        ],
    ),
    "edges that cross": (
        [
            ('across = "mat width"\ndown = "mat height"', 'across = "0"\ndown = "mat height"'),
            (
                'across = "0"\ndown = "mat height"\n\n[[pieces.mat.outline]]\nacross = "0"\ndown = "0"',
                (
                    'across = "mat width"\ndown = "mat height"\n\n[[pieces.mat.outline]]\nacross = '
                    '"0"\ndown = "0"'
                ),
            ),
        ],
        [
            (
                5,
                0,
                "outline[5]",
                "At the default size, the outline crosses itself. Let its edges meet at their ends only.",
            )
        ],
    ),
    "name that no formula can read": (
        [("curve's begin", "curve-begin")],
        [
            (
                1,
                3,
                "outline[1].name",
                (
                    "“mat curve-begin across” cannot be a name: a hyphen is read as minus. Call it “mat "
                    "curve begin across”."
                ),
            )
        ],
    ),
    "name used twice": (
        [('arc = "right"', 'arc = "right"\nname = "curve\'s begin"')],
        [
            (
                2,
                0,
                "outline[2]",
                (
                    f"“mat curve's begin across” is used twice: pieces.mat.outline[1] in line {LINES[0]} "
                    f"has it too. Give one of the two another name."
                ),
            ),
            (
                2,
                0,
                "outline[2]",
                (
                    f"“mat curve's begin down” is used twice: pieces.mat.outline[1] in line {LINES[0]} "
                    f"has it too. Give one of the two another name."
                ),
            ),
        ],
    ),
    "circle of formulas": (
        [('across = "mat width − seam allowance"', 'across = "mat curve\'s begin across"')],
        [
            (
                1,
                1,
                "outline[1].across",
                (
                    "This goes round in a circle: mat curve's begin across → mat curve's begin across. "
                    "Write it without itself."
                ),
            )
        ],
    ),
}


@pytest.mark.parametrize(("swaps", "wrong"), CASES.values(), ids=CASES)
def test_every_mistake_is_told_with_its_line_and_mend(swaps, wrong):
    assert mistakes(with_outline(*swaps)) == [
        f"line {LINES[corner - 1] + more}, pieces.mat.{key}: {message}"
        for corner, more, key, message in wrong
    ]


def test_two_corners_are_too_few():
    short = "".join(f"{part}\n\n" for part in OUTLINE.split("\n\n")[2:4])
    assert mistakes(changed((BEFORE, short + BEFORE))) == [
        f"line {LINES[0]}, pieces.mat.outline: An outline has 3 corners or more; this one has 2. "
        "Write the others, or leave the outline out for a rectangle."
    ]


def test_one_table_where_a_list_belongs():
    [found] = mistakes(changed((BEFORE, '[pieces.mat.outline]\nacross = "0"\ndown = "0"\n\n' + BEFORE)))
    assert found == (
        f"line {LINES[0]}, pieces.mat.outline: Write [[pieces.mat.outline]], with two brackets, "
        "before each of the corners."
    )


def test_a_wrong_outline_of_a_piece_cut_with_another_choice_only_is_told():
    text = with_outline(('down = "seam allowance"', 'down = "2 × seam allowance"'))
    text = text.replace('upright = { print = ["one way"] }', 'when = { print = ["one way"] }', 1)
    [found] = mistakes(text)
    assert "has a curve that is no quarter circle" in found


def test_a_formula_that_is_wrong_itself_is_blamed_alone():
    [found] = mistakes(with_outline(('down = "seam allowance"', 'down = "seem allowance"')))
    assert "There is no “seem allowance” here." in found
