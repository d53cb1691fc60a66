from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.drafting.errors import FormulaError
from patterns.drafting.formulas.grammar import MOST_BRACKETS, MOST_CHARACTERS, read
from patterns.drafting.formulas.spell import spell
from patterns.drafting.formulas.tree import (
    Both,
    Choice,
    Comparison,
    Difference,
    Either,
    Name,
    Negative,
    Number,
    Pi,
    Power,
    Product,
    Quotient,
    Root,
    Rounding,
    Sum,
)
from tests.strategies import trees

A, B, C = Name("a"), Name("b"), Name("c")


def whole(value: int) -> Number:
    return Number(Fraction(value))


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("a + b × c", Sum(A, Product(B, C))),
        ("a − b − c", Difference(Difference(A, B), C)),
        ("a ÷ b × c", Product(Quotient(A, B), C)),
        ("−a × b", Product(Negative(A), B)),
        ("−a²", Negative(Power(A, 2))),
        ("a³", Power(A, 3)),
        ("8 ÷ 1/2", Quotient(whole(8), Number(Fraction(1, 2)))),
        ("1 / 2", Quotient(whole(1), whole(2))),
        ("a/2", Quotient(A, whole(2))),
        ("3 / 4 in", Quotient(whole(3), Number(Fraction(4), "in"))),
        ("3/4 in", Number(Fraction(3, 4), "in")),
        ('7 1/2"', Number(Fraction(15, 2), "in")),
        ("7½ cm", Number(Fraction(15, 2), "cm")),
        ("2 m", Number(Fraction(2), "m")),
        ("π × a", Product(Pi(), A)),
        ("pi × a", Product(Pi(), A)),
        ("one-way", Difference(Name("one"), Name("way"))),
        ("Seam   Allowance", Name("seam allowance")),
        ("round base", Name("round base")),
        ("top of the bag", Name("top of the bag")),
        ("sewer’s mark", Name("sewer's mark")),
        ("w2", Name("w2")),
        ("into", Name("into")),
        ("√(a²)", Root(Power(A, 2))),
        ("smaller of (a, b, c)", Choice("smaller", (A, B, C))),
        ("larger of (a, b)", Choice("larger", (A, B))),
        ("round up (a, to b)", Rounding("up", A, B)),
        ("Round Down (a, to b)", Rounding("down", A, B)),
        ("a <= b and b <> c", Both(Comparison("≤", A, B), Comparison("≠", B, C))),
        (
            "a < b or b < c and a = c",
            Either(Comparison("<", A, B), Both(Comparison("<", B, C), Comparison("=", A, C))),
        ),
    ],
)
def test_reads(text, tree):
    assert read(text) == tree


@given(trees)
def test_text_tree_text(tree):
    text = spell(tree)
    if len(text) > MOST_CHARACTERS:
        return
    again = read(text)
    assert again == tree
    assert spell(again) == text


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_with_a_column(text):
    try:
        tree = read(text)
    except FormulaError as error:
        assert error.mistakes
        assert all(mistake.column >= 1 and mistake.message for mistake in error.mistakes)
    else:
        assert read(spell(tree)) == tree


BRACKETS = "could mean two things. Put brackets or spaces: 1/2 is one number, 1 / 2 divides."


@pytest.mark.parametrize(
    ("text", "column", "says"),
    [
        ("1/2/3", 1, f"“1/2/3” {BRACKETS}"),
        ("2/3²", 1, f"“2/3²” {BRACKETS}"),
        ("a + 1/ 2", 5, f"“1/ 2” {BRACKETS}"),
        ("1 /2", 1, f"“1 /2” {BRACKETS}"),
        ("4,5", 1, "“4,5” is not a number. Write 4.5 or 4, 5."),
        ("smaller of (a,b)", 14, "A comma needs a space after it. Write “, ”."),
        ("2 width", 3, "“2” and “width” stand side by side. Write × between: 2 × width."),
        ("2 in width", 6, "“in” and “width” stand side by side. Write × between, as in 2 × width."),
        ("a x b", 3, "“x” between numbers is not read. Write ×."),
        ("2x3", 1, "“2x3” is not read. Write 2 × 3."),
        (
            "pocket 2 height",
            8,
            "A name cannot hold the number “2”. Call it “pocket two height”, or write × between.",
        ),
        (
            "top to bottom",
            5,
            "“to” has a meaning of its own and can be in no name. Call it “top bottom”, say.",
        ),
        (
            "width in",
            7,
            "“in” is a unit, and a unit stands directly after a number. "
            "Take it out: a name has its unit already.",
        ),
        ("a – b", 3, "“–” is a dash. Write − or - to take away."),
        ("a < b < c", 7, "Comparisons do not chain. Write a < b and b < c."),
        ("(a + b", 1, "This bracket is never closed. Write ) where it ends."),
        ("a + b)", 6, "This bracket closes nothing. Take it out, or open one before."),
        ("a +", 3, "The formula ends after “+”. Something is missing there."),
        ("√ a", 1, "“√” needs brackets. Write √ (a)."),
        ("smaller of (a)", 14, "“smaller of” is written smaller of (a, b)."),
        ("round up (a, b)", 14, "“round up” is written round up (a, to b)."),
        ("9e9", 1, "“9e9” is not read as a number. Write the number out."),
        ("1_000", 1, "“1_000” is not a number. Write 1000."),
        (".5", 1, "“.5” begins with a point. Write 0.5."),
        ("a²²", 2, "“²²” could mean two things. Put brackets, like (width²)²."),
        ("a ** 2", 3, "“**” is not used here. Write ² or ³, like width²."),
        ("a\x07", 2, "A control character (U+0007) stands here. Delete it."),
        ("a\u00a0b", 2, "An unusual space stands here. Write a plain one."),
        ("a.b", 2, "“.” has no meaning in a formula. Take it out."),
        ("Ⅷ", 1, "“Ⅷ” is not a letter. Write names with letters only."),
        ("", 1, "There is no formula here. Write one, like width + 2 × seam allowance."),
        (
            "7 3/2",
            1,
            "“7 3/2” has a fraction of 1 or more beside the 7. Write 7 + 3/2, or a fraction smaller than 1.",
        ),
    ],
)
def test_says_what_to_write(text, column, says):
    with pytest.raises(FormulaError) as error:
        read(text)
    first = error.value.mistakes[0]
    assert (first.column, first.message) == (column, says)


def test_all_slips_of_a_text_are_reported():
    with pytest.raises(FormulaError) as error:
        read("4,5 + 1/2/3 + .5")
    assert [mistake.column for mistake in error.value.mistakes] == [1, 7, 15]


def test_length_is_bounded():
    assert read("a" * MOST_CHARACTERS)
    with pytest.raises(FormulaError, match="The formula has 501 characters; 500 are the most"):
        read("a" * (MOST_CHARACTERS + 1))


def test_depth_of_brackets_is_bounded():
    assert read("(" * MOST_BRACKETS + "a" + ")" * MOST_BRACKETS) == A
    with pytest.raises(FormulaError, match="Brackets stand more than 32 deep"):
        read("(" * 33 + "a" + ")" * 33)


@pytest.mark.parametrize("text", ["(" * 5000, "√" * 499, "−" * 499, "²" * 499, "a+" * 249 + "a", "/" * 499])
def test_hostile_texts_end(text):
    try:
        read(text)
    except FormulaError as error:
        assert error.mistakes
