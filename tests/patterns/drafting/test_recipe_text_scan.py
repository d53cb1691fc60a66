"""What is wrong with a text as TOML, and the lines of what is right."""

import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.drafting.errors import RecipeTextError
from patterns.drafting.recipe_text.scan import parsed
from patterns.starters import slugs, text_of
from tests.recipe_texts import TEXT, changed, mistakes

SKILL = 'skill = "Beginner"'
UPRIGHT = 'upright = { print = ["one way"] }'

# What is changed in the text, and all that is then found wrong with it.
CASES = {
    "no quotes": (
        SKILL,
        "skill = Beginner",
        'line 4, skill: “Beginner” stands without quotes. Write "Beginner".',
    ),
    "no value": (
        SKILL,
        "skill =",
        "line 4, skill: A value is missing after the sign =. Write one in quotes.",
    ),
    "only a word": (
        SKILL,
        "skill",
        'line 4: “skill” is neither a header nor a key with its value. Write name = "value".',
    ),
    "two words": (
        SKILL,
        'skill level = "Beginner"',
        'line 4: A name with spaces or signs stands in quotes. Write "skill level" = …',
    ),
    "other letters": (
        SKILL,
        'größe = "Beginner"',
        'line 4: A name with spaces or signs stands in quotes. Write "größe" = …',
    ),
    "no name": (
        SKILL,
        '= "Beginner"',
        "line 4: A name is missing in this line. Write one, or delete the line.",
    ),
    "unclosed text": (
        SKILL,
        'skill = "Beginner',
        'line 4, skill: The text that begins here is not closed in its line. Write " where it ends.',
    ),
    "unclosed long text": (
        SKILL,
        'skill = """Beginner',
        'line 4, skill: The text that begins here is never closed. Write """ where it ends.',
    ),
    "two values": (
        SKILL,
        'skill = "Beginner" easy',
        "line 4: “easy” cannot follow here. Put it on a line of its own, or take it out.",
    ),
    "unknown escape": (
        SKILL,
        'skill = "Beg\\inner"',
        'line 4: A backslash begins an escape like \\" or \\n. Write \\\\ for a backslash itself.',
    ),
    "unknown escape in a key": (
        SKILL,
        '"sk\\ill" = "Beginner"',
        'line 4: A backslash begins an escape like \\" or \\n. Write \\\\ for a backslash itself.',
    ),
    "key twice": (
        SKILL,
        f'{SKILL}\nskill = "Expert"',
        "line 5, skill: skill stands here twice, first in line 4. Keep one of the two.",
    ),
    "header twice": (
        "[measures.height]",
        "[measures.width]",
        "line 21, measures.width: width stands here twice, first in line 15. Keep one of the two.",
    ),
    "header of two words": (
        '[measures."seam allowance"]',
        "[measures.seam allowance]",
        'line 32: A name with spaces or signs stands in quotes. Write [measures."seam allowance"].',
    ),
    "unclosed header": (
        "[measures.width]",
        "[measures.width",
        "line 15: The header “[measures.width” is not closed. Write ] at its end.",
    ),
    "empty header": (
        "[measures.width]",
        "[]",
        "line 15: A name is missing in this header. Write one, or delete the line.",
    ),
    "header of a table and of a list": (
        '[[steps]]\ntitle = "Sew"',
        '[steps]\ntitle = "Sew"',
        "line 135, steps: This header stands in one bracket and in two. Write it in the same way everywhere.",
    ),
    "key and table": (
        '[cautions.iron]\nsays = "Hot."',
        '[cautions]\niron.says = "Hot."\n\n[cautions.iron]',
        "line 145: What stands here was given above in another way. Keep one of the two.",
    ),
    "unclosed list": (
        UPRIGHT,
        'upright = { print = ["one way" }',
        "line 71, pieces.mat.upright.print: The list that begins in line 71 is not closed. "
        "Write ] at its end, and commas between.",
    ),
    "unclosed list over lines": (
        'shows = ["mat", "filling"]',
        'shows = [\n"mat"\n"filling"]',
        "line 140, steps[2].shows: The list that begins in line 138 is not closed. "
        "Write ] at its end, and commas between.",
    ),
    "unclosed braces": (
        UPRIGHT,
        'upright = { print = ["one way"]',
        "line 71, pieces.mat.upright: The braces that begin here are not closed in their line. "
        "Write } at the end, and commas between.",
    ),
    "comma before a brace": (
        UPRIGHT,
        'upright = { print = ["one way"], }',
        "line 71, pieces.mat.upright: A comma stands before the } here. Take it out.",
    ),
    "no time of day": (
        'time = "1 hour"',
        "time = 25:61:00",
        "line 5: This cannot be read as TOML: expected newline or end of document after a statement.",
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_each_is_named_with_its_line_and_its_mend(case):
    old, new, expected = CASES[case]
    assert mistakes(changed((old, new)))[:1] == [expected]


def test_several_are_reported_at_once():
    found = mistakes(
        changed((SKILL, "skill = Beginner"), ("[measures.width]", "[measures.width"), (UPRIGHT, "upright"))
    )
    assert [line.partition(":")[0] for line in found] == ["line 4, skill", "line 15", "line 71"]


@pytest.mark.parametrize("text", [TEXT, *map(text_of, slugs())])
def test_every_key_has_the_line_it_stands_in(text):
    found = parsed(text)
    lines = text.splitlines()
    for key in _keys(found.data):
        assert key in found.lines, key
        if isinstance(key[-1], str) and len(key) > 1:
            assert key[-1] in lines[found.lines[key] - 1]


def _keys(value, before=()):
    if isinstance(value, dict):
        for name, inner in value.items():
            yield (*before, name)
            yield from _keys(inner, (*before, name))
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            yield (*before, place)
            yield from _keys(inner, (*before, place))


PARTS = [
    "a",
    "b.c",
    '"a b"',
    "'a'",
    '""',
    "=",
    " = ",
    '"x"',
    "'x'",
    '"""x\ny"""',
    "'''x\n'''",
    "[",
    "]",
    "[[",
    "]]",
    "{",
    "}",
]
PARTS += [
    ",",
    ", ",
    "\n",
    "\n\n",
    " ",
    "\t",
    "# x",
    "1",
    "-2.5",
    "true",
    "2026-11-20",
    '\\"',
    "\\",
    '"',
    "'",
    "ä",
    "[a]\n",
]
PARTS += [
    "[[b]]\n",
    'a = "x"\n',
    "b = [1, 2]\n",
    "c = { a = 1 }\n",
    '"""',
    "'''",
    '""""',
    "inf",
    "+1e5",
    "0x1F",
    "1_000",
]


@settings(deadline=None)
@given(st.lists(st.sampled_from(PARTS), max_size=14).map("".join))
def test_the_scan_refuses_no_text_that_is_toml_and_finds_its_keys(text):
    """Two roads: whatever the parser of the library takes, the scan takes too, and knows its lines."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        with pytest.raises(RecipeTextError):
            parsed(text)
        return
    found = parsed(text)
    assert set(_keys(data)) <= found.lines.keys()


@settings(deadline=None)
@given(st.data())
def test_a_spoiled_recipe_is_read_or_refused_with_sentences(data):
    at = data.draw(st.integers(0, len(TEXT)))
    gone = data.draw(st.integers(0, 12))
    new = data.draw(st.sampled_from(PARTS) | st.text(max_size=3))
    for sentence in mistakes(TEXT[:at] + new + TEXT[at + gone :]):
        assert sentence.endswith((".", "?", "…"))
