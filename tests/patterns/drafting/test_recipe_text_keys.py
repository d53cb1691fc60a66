"""Keys that are missing or unknown, and values that have no place where they stand."""

from typing import get_args

import pytest

from patterns.drafting.recipe import Form
from tests.recipe_texts import changed, mistakes

# What is changed in the text, and all that is then found wrong with it.
CASES = {
    "unknown key, nearest offered": (
        [('skill = "Beginner"', 'skil = "Beginner"')],
        ["line 4, skil: The key “skil” is not known here. Did you mean “skill”?"],
    ),
    "unknown key, all named": (
        [('shows = ["mat", "filling"]', 'pictures = ["mat"]')],
        [
            (
                "line 138, steps[2].pictures: The key “pictures” is not known here. The keys "
                "here are: title, does, shows, cautions, when, work."
            )
        ],
    ),
    "missing key": (
        [('skill = "Beginner"\n', "")],
        ['“skill” is missing at the top of the text. Write skill = "…".'],
    ),
    "missing key in a range": (
        [(', step = "1/4" }\ncm = { least = "8"', ' }\ncm = { least = "8"')],
        ['line 18, measures.width.in: “step” is missing here. Write step = "…".'],
    ),
    "missing table": (
        [
            (
                (
                    '[finished]\nform = "open basket"\nwidth = "width"\nheight = "height"\ndepth = '
                    '"seam allowance"\n'
                ),
                "",
            )
        ],
        ["“finished” is missing at the top of the text. Write a table [finished]."],
    ),
    "empty text": (
        [('skill = "Beginner"', 'skill = "  "')],
        ["line 4, skill: The text is empty. Write something, or delete the line."],
    ),
    "number for a text": (
        [('skill = "Beginner"', "skill = 1")],
        [
            (
                "line 4, skill: A text in quotes belongs here; a number without quotes stands "
                'here. Write skill = "1".'
            )
        ],
    ),
    "list for a text": (
        [('title = "Folding mat"', 'title = ["Folding"]')],
        ["line 1, title: A text in quotes belongs here; a list stands here."],
    ),
    "whole number without quotes": (
        [('default = "9"', "default = 9")],
        [
            (
                "line 18, measures.width.in.default: A text in quotes belongs here; a number "
                'without quotes stands here. Write default = "9".'
            )
        ],
    ),
    "decimal number without quotes": (
        [('default = "9"', "default = 9.50")],
        [
            (
                "line 18, measures.width.in.default: A text in quotes belongs here; a number "
                'without quotes stands here. Write default = "9.50".'
            )
        ],
    ),
    "bare true": (
        [('default = "9"', "default = true")],
        [
            (
                "line 18, measures.width.in.default: A text in quotes belongs here; a bare true "
                'stands here. Write default = "true".'
            )
        ],
    ),
    "text for a table": (
        [('number = { least = "2", most = "5", default = "3", step = "1" }\n', 'number = "2 to 5"\n')],
        ["line 30, measures.folds.number: A table belongs here; a text stands here."],
    ),
    "list for a table": (
        [('upright = { print = ["one way"] }', 'upright = ["one way"]')],
        ["line 71, pieces.mat.upright: A table belongs here; a list stands here."],
    ),
    "text for a list": (
        [('upright = { print = ["one way"] }', 'upright = { print = "one way" }')],
        [
            (
                "line 71, pieces.mat.upright.print: A list belongs here; a text stands here. "
                'Write print = ["…"].'
            )
        ],
    ),
    "number in a list": (
        [('cautions = ["iron"]', 'cautions = ["iron", 3]')],
        [
            (
                "line 139, steps[2].cautions[2]: A name in quotes belongs here; a number without "
                "quotes stands here."
            )
        ],
    ),
    "listed table where one belongs": (
        [("[finished]", "[[finished]]")],
        ["line 9, finished: A table belongs here; a list stands here."],
    ),
    "one table where a list belongs": (
        [("[[tells]]", "[tells]")],
        ["line 128, tells: Write [[tells]], with two brackets, before each of the tells."],
    ),
    "text for a listed table": (
        [('note = "Only for the tests."', 'steps = ["Sew it."]')],
        [
            (
                "line 131, steps: This header stands in one bracket and in two. Write it in the "
                "same way everywhere."
            ),
            (
                "line 135, steps: This header stands in one bracket and in two. Write it in the "
                "same way everywhere."
            ),
        ],
    ),
    "two lines": (
        [('title = "Folding mat"', 'title = "Folding\\nmat"')],
        ["line 1, title: The text must stand in one line. Take out the line breaks."],
    ),
    "control character by an escape": (
        [('summary = "A mat that folds up."', 'summary = "A mat\\u0000."')],
        [("line 3, summary: A character that cannot be seen (U+0000) has no place in a recipe. Delete it.")],
    ),
    "language": (
        [('language = "en"', 'language = "english"')],
        ["line 2, language: “english” is not a language code. Write one like en, en-GB or de."],
    ),
    "date in words": (
        [('revised = "2026-11-20"', 'revised = "20 November"')],
        [("line 6, revised: “20 November” is not a date. Write year, month and day like 2026-11-20.")],
    ),
    "no day of the calendar": (
        [('revised = "2026-11-20"', 'revised = "2026-02-30"')],
        [
            (
                "line 6, revised: “2026-02-30” is no day of the calendar: day is out of range "
                "for month. Write another."
            )
        ],
    ),
    "week date": (
        [('revised = "2026-11-20"', 'revised = "2026-W47"')],
        ["line 6, revised: “2026-W47” is not a date. Write year, month and day like 2026-11-20."],
    ),
    "date without quotes": (
        [('revised = "2026-11-20"', "revised = 2026-11-20")],
        ['line 6, revised: A date stands in quotes. Write revised = "2026-11-20".'],
    ),
    "form, nearest offered": (
        [('form = "open basket"', 'form = "open baskte"')],
        [("line 10, finished.form: “open baskte” is no form that is known. Did you mean “open basket”?")],
    ),
    "form": (
        [('form = "open basket"', 'form = "hammock"')],
        [
            (
                "line 10, finished.form: “hammock” is no form that is known. Write one of: "
                f"{', '.join(get_args(Form))}."
            )
        ],
    ),
    "role": (
        [('role = "size"', 'role = "sizing"')],
        ["line 16, measures.width.role: “sizing” is no role that is known. Did you mean “size”?"],
    ),
    "level": (
        [('level = "refuse"', 'level = "forbid"')],
        [("line 104, checks[1].level: “forbid” is no level that is known. Write one of: refuse, advise.")],
    ),
    "kind of a material": (
        [('kind = "fabric"', 'kind = "fabrics"')],
        [("line 116, materials.cloth.kind: “fabrics” is no kind that is known. Did you mean “fabric”?")],
    ),
    "kind of a mark": (
        [('kind = "fold"', 'kind = "crease"')],
        [
            (
                'line 74, pieces.mat.marks."first fold".kind: “crease” is no kind that is known. '
                "Write one of: fold, stitch, opening, clip, place."
            )
        ],
    ),
    "tint": (
        [('tint = "exterior"', 'tint = "blue"')],
        [
            (
                "line 117, materials.cloth.tint: “blue” is no tint that is known. Write one of: "
                "exterior, lining, interfacing, clear."
            )
        ],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_each_is_named_with_its_place_and_its_mend(case):
    swaps, expected = CASES[case]
    assert mistakes(changed(*swaps)) == expected
