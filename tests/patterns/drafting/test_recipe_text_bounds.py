"""The bounds of a recipe text: each holds, and just below it a text is read. Hostile texts get a sentence."""

import pytest

from patterns.drafting.recipe_text import (
    MOST_BYTES,
    MOST_DEPTH,
    MOST_DOTS,
    MOST_FORMULA_LETTERS,
    MOST_FORMULAS,
    MOST_KEYS,
    MOST_LINE_BYTES,
    MOST_NAMES,
    read_recipe,
)
from patterns.drafting.recipe_text.names import MOST_LETTERS
from tests.hostile_texts import HOSTILE, letters
from tests.recipe_texts import TEXT, changed, mistakes


def padded(size: int) -> str:
    """The text with comments up to so many bytes."""
    missing = size - len(TEXT.encode())
    whole, rest = divmod(missing, 100)
    return TEXT + ("#" * 99 + "\n") * whole + "#" * rest


def test_bytes():
    assert mistakes(padded(MOST_BYTES)) == []
    assert mistakes(padded(MOST_BYTES).encode()) == []
    expected = ["The text has 200,001 bytes; 200,000 bytes are the most. Shorten it."]
    assert mistakes(padded(MOST_BYTES + 1).encode()) == expected
    assert mistakes(padded(MOST_BYTES - 10) + "é" * 6) == [
        "The text has 200,002 bytes; 200,000 bytes are the most. Shorten it."
    ]


def test_bytes_of_a_line():
    line = "# " + "é" * (MOST_LINE_BYTES // 2 - 1)
    assert mistakes(f"{line}\n{TEXT}") == []
    assert mistakes(f"\n{line}é\n{TEXT}") == [
        "line 2: The line has 2,002 bytes; 2,000 are the most. "
        'Break it: a text between """ and """ may run over many lines.'
    ]


def test_dots():
    assert MOST_DOTS == 3
    deepest = '[pieces.filling.marks."a line"]\nkind = "clip"\ndown = "width"\n\n[[truings]]'
    assert mistakes(changed(("[[truings]]", deepest))) == []
    assert mistakes(changed(("[[truings]]", "[pieces.filling.marks.line.when]\n\n[[truings]]"))) == [
        "line 92: A name with 4 dots stands here; 3 are the most. "
        "A name that holds dots itself stands in quotes."
    ]
    assert mistakes(changed(("[[truings]]", '[cautions."a.b.c.d.e"]\nsays = "a"\n\n[[truings]]'))) == []


def test_depth():
    assert MOST_DEPTH == 4
    big = '{ big = { in = "1", cm = "2" } }'
    choices = f'[options.print.choices]\n"no direction" = {{}}\n"one way" = {{ sets = {big} }}'
    old = '[options.print.choices."no direction"]\n\n[options.print.choices."one way"]'
    assert mistakes(changed((old, choices))) == [
        'line 59, options.print.choices."one way".sets.big: “big” has no value with “no direction”. '
        "Set it in every choice, or make it a measure."
    ]
    assert "deep" not in mistakes(changed((old, "choices = " + "[" * 4 + "]" * 4)))[-1]
    assert mistakes(changed((old, "choices = " + "[" * 5 + "]" * 5))) == [
        "line 57: Brackets and braces stand more than 4 deep here. Nothing in a recipe needs that."
    ]


def test_keys():
    text = "".join(f'a{number} = ""\n' for number in range(MOST_KEYS))
    assert len(mistakes(text)) == 201
    assert mistakes(f"{text}b = 1\n") == ["line 10001: The text has more than 10,000 keys. Shorten it."]


def constants(count: int) -> str:
    return "".join(f'const {letters(number)}" = "1"\n' for number in range(count)).replace("const", '"const')


def test_names_of_a_recipe():
    """The text itself has 15: 4 measures, 2 constants, 2 options, 1 set, 2 amounts, 4 edges."""
    assert mistakes(changed(('layers = "2"\n', 'layers = "2"\n' + constants(MOST_NAMES - 15)))) == []
    assert mistakes(changed(('layers = "2"\n', 'layers = "2"\n' + constants(MOST_NAMES - 14)))) == [
        'line 349, amounts."fold height": The recipe has more than 300 names. Take out what no formula needs.'
    ]


def test_names_of_a_table():
    cautions = "".join(f'[cautions.{letters(number)}]\nsays = "a"\n' for number in range(MOST_NAMES))
    assert mistakes(changed(("[cautions.iron]", f"{cautions}[cautions.iron]"))) == [
        "line 142, cautions: There are 301 names here; 300 are the most. Shorten it."
    ]


def test_letters_of_a_name():
    assert mistakes(changed(('layers = "2"', f'layers = "2"\n{"a" * MOST_LETTERS} = "1"'))) == []
    found = mistakes(changed(('layers = "2"', f'layers = "2"\n{"a" * (MOST_LETTERS + 1)} = "1"')))
    assert found[0].endswith("is too long for a name: 61 characters, 60 are the most.")


# What the text itself has.
OWN_FORMULAS = 28
OWN_FORMULA_LETTERS = 432


def tells(*formulas: str) -> str:
    return "".join(f'[[tells]]\nsays = "{{{formula}}}"\n' for formula in formulas)


def test_formulas():
    most = ["width"] * (MOST_FORMULAS - OWN_FORMULAS)
    assert mistakes(TEXT + tells(*most)) == []
    assert mistakes(TEXT + tells(*most, "width"))[-1].endswith(
        "The recipe has more than 2,000 formulas. Shorten it."
    )


def test_letters_of_all_formulas():
    whole, rest = divmod(MOST_FORMULA_LETTERS - OWN_FORMULA_LETTERS, 500)
    most = [f"{'width':500}"] * whole
    assert mistakes(TEXT + tells(*most, f"{'width':{rest}}")) == []
    assert mistakes(TEXT + tells(*most, f"{'width':{rest + 1}}"))[-1].endswith(
        "The formulas of the recipe have more than 30,000 letters in all. "
        "Give parts that come again names of their own."
    )


@pytest.mark.parametrize(
    "text", ["\ufeff" + TEXT, TEXT.replace("\n", "\r\n"), TEXT.encode(), b"\xef\xbb\xbf" + TEXT.encode()]
)
def test_a_byte_order_mark_and_other_line_ends_are_taken(text):
    assert read_recipe(text) == read_recipe(TEXT)


def test_the_text_is_taken_in_nfc():
    spelled_apart = changed(
        ("A mat that folds up.", "Ein Ma\u0308ppchen."), ('says = "Hot."', 'says = "Hei\\u0041\\u030A"')
    )
    recipe = read_recipe(spelled_apart)
    assert recipe.summary == "Ein Mäppchen."
    assert recipe.cautions[0].says == "HeiÅ"


@pytest.mark.parametrize(
    ("text", "place", "sign"),
    [
        ("\x00", "line 1, column 1", "U+0000"),
        ("\n a\x85", "line 2, column 3", "U+0085"),
        ("\r", "line 1, column 1", "U+000D"),
        ("\u2028", "line 1, column 1", "line separator, U+2028"),
        ("\u202e", "line 1, column 1", "right-to-left override, U+202E"),
        ("a\ufeff", "line 1, column 2", "zero width no-break space, U+FEFF"),
        ("\ud800", "line 1, column 1", "U+D800"),
        ("\uffff", "line 1, column 1", "U+FFFF"),
        ("\U0010ffff", "line 1, column 1", "U+10FFFF"),
    ],
)
def test_characters_that_have_no_place_in_a_text(text, place, sign):
    sentence = f"A character that cannot be seen ({sign}) has no place in a recipe. Delete it."
    assert mistakes(text) == [f"{place}: {sentence}"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (b"a\n\xe4", "line 2: The byte 0xE4 here is not UTF-8. Save the text as UTF-8."),
        (b"\xed\xa0\x80", "line 1: The byte 0xED here is not UTF-8. Save the text as UTF-8."),
        (TEXT.encode("utf-16"), "line 1: The text is saved as UTF-16. Save it as UTF-8."),
    ],
)
def test_bytes_that_are_not_utf_8(text, expected):
    assert mistakes(text) == [expected]


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_texts_get_a_clear_answer(name):
    """Each is refused with sentences, not too many; one is a good recipe that only looks dangerous."""
    found = mistakes(HOSTILE[name])
    assert bool(found) == (name != "a deep chain")
    assert len(found) <= 201
    assert all(len(sentence) < 600 and sentence.endswith((".", "?")) for sentence in found)
