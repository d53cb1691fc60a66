import json
import sys
from io import StringIO

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError


def run(*words):
    """The command in this process: exit code, JSON, what it said on standard error."""
    out, code, said = StringIO(), 0, ""
    try:
        call_command("lay", *words, "--json", stdout=out)
    except SystemExit as end:
        code = end.code
    except CommandError as error:
        code, said = error.returncode, str(error)
    return code, json.loads(out.getvalue() or "null"), said


def test_the_example_of_the_contract():
    code, answer, _ = run("--width", "42", "--step", "4.5", "--piece", "13x16*2")
    assert code == 0
    assert isinstance(answer.pop("seconds"), float)
    laid = {"piece": 0, "y": "0", "width": "16", "height": "13", "turned": True, "sheet": None}
    assert answer == {
        "units": "in",
        "length": "13",
        "buy": "27/2",
        "bound": "13",
        "proved": True,
        "placements": [{**laid, "x": "0"}, {**laid, "x": "16"}],
    }


def test_keys_stand_in_the_order_of_the_contract():
    _, answer, _ = run("--width", "42", "--piece", "13x16*2")
    assert list(answer) == ["units", "length", "buy", "bound", "proved", "placements", "seconds"]
    assert list(answer["placements"][0]) == ["piece", "x", "y", "width", "height", "turned", "sheet"]


def test_sheets_are_counted():
    code, answer, _ = run("--sheet", "18x21*3", "--piece", "a:13x16", "b:16x13", "--piece", "2x2*3")
    assert code == 0
    assert [answer[key] for key in ("sheets", "buy", "bound", "proved")] == [2, 2, 2, True]
    assert "length" not in answer
    assert [each["piece"] for each in answer["placements"]] == ["a", "b", 2, 2, 2]
    assert {each["sheet"] for each in answer["placements"]} == {0, 1}


def test_nothing_fits():
    code, answer, _ = run("--sheet", "18x21", "--piece", "13x16*2")
    assert code == 1
    assert [answer[key] for key in ("sheets", "buy", "bound", "proved", "placements")] == [
        None,
        None,
        2,
        True,
        [],
    ]


def test_fixed_pieces_are_not_turned():
    code, answer, _ = run("--width", "42", "--fixed", "--piece", "13x16*2")
    assert (code, answer["length"]) == (0, "16")
    assert not any(each["turned"] for each in answer["placements"])


def test_units_are_those_of_the_cloth():
    _, answer, _ = run("--width", "1.1m", "--step", "10cm", "--piece", "300x400mm*2", "10x10in")
    assert (answer["units"], answer["length"], answer["buy"]) == ("cm", "30", "30")
    _, answer, _ = run("--width", "42in", "--step", "1/8yd", "--piece", "25.4x25.4cm")
    assert (answer["units"], answer["length"], answer["buy"]) == ("in", "10", "27/2")
    _, answer, _ = run("--width", "110", "--units", "cm", "--piece", "21½x10")
    assert (answer["units"], answer["placements"][0]["width"]) in {("cm", "43/2"), ("cm", "10")}


def test_a_longer_search_asks_the_solver():
    code, answer, _ = run("--width", "42", "--step", "4.5", "--piece", "13x16*2", "3x40*2", "--seconds", "3")
    assert code == 0
    assert (answer["buy"], answer["proved"]) == ("45/2", True)


def test_people_read_lines():
    out = StringIO()
    call_command("lay", "--width", "42", "--piece", "panel:13x16*2", stdout=out)
    assert out.getvalue().splitlines() == [
        "Buy 13 in; the layout is 13 in long.",
        "  Less is never enough: that is proved.",
        "    panel: 16 in × 13 in, turned; 0 in across from the left edge, 0 in along",
        "    panel: 16 in × 13 in, turned; 16 in across from the left edge, 0 in along",
    ]
    out = StringIO()
    call_command("lay", "--sheet", "18x21", "--piece", "2x3", stdout=out)
    assert out.getvalue().splitlines()[:2] == ["Sheets: 1.", "  Fewer are never enough: that is proved."]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--width", "4", "--piece", "a:13x16"], "Piece “a”, 13 in × 16 in, does not fit on cloth 4 in wide in either way."),  # noqa: E501
        (["--width", "14", "--fixed", "--piece", "16x3"], "Piece “0”, 16 in × 3 in, does not fit on cloth 14 in wide without being turned."),  # noqa: E501
        (["--sheet", "9x9", "--piece", "16x3"], "Piece “0”, 16 in × 3 in, does not fit on any of the sheets in either way."),  # noqa: E501
        (["--width", "42in", "--piece", "13x16"], "“13x16” has no unit, but others have. Write units everywhere or nowhere."),  # noqa: E501
        (["--width", "42", "--piece", "a:1x1", "a:2x2"], "The piece “a” is given twice. Give it once, like a:3x40*2."),  # noqa: E501
        (["--width", "42", "--piece", ":1x1"], "“:1x1” has no name before the colon. Write it like strap:3x40 or 3x40."),  # noqa: E501
        (["--width", "0", "--piece", "1x1"], "--width: “0” is nothing. Write a length above 0."),
        (["--width", "9", "--step", "0", "--piece", "1x1"], "--step: “0” is nothing. Write a length above 0."),  # noqa: E501
        (["--width", "9", "--piece", "0x1"], "“0x1” has a side of nothing. Write lengths above 0, like 21x29.7."),  # noqa: E501
        (["--width", "9", "--piece", "1x-1"], "1x-1: “-1” is not a length."),
        (["--width", "9", "--piece", "1x1*10000"], "1x1*10000: “10000” is not a whole number from 1 to 1,000."),  # noqa: E501
        (["--width", "9", "--piece", *["1x1*1000"] * 10], "10,000 pieces are too many. A layout is made of at most 1,000."),  # noqa: E501
        (["--width", "9", "--piece", "1x1", "--seconds", "1e9"], "--seconds: “1e9” is not a number."),
        (["--width", "9", "--piece", "1x1", "--seconds", "601"], "--seconds: “601” is too long. Write at most 600."),  # noqa: E501
        (["--width", "9", "--width", "8", "--piece", "1x1"], "--width is given twice. Give it once."),
        (["--piece", "1x1"], "one of the arguments --width --sheet is required"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_told(words, says):
    code, answer, said = run(*words)
    assert (code, answer) == (2, None)
    assert said.removeprefix("Error: ").startswith(says)


def test_the_solver_is_not_loaded_for_a_quick_answer():
    loaded = {name for name in sys.modules if name.startswith("ortools")}
    run("--width", "42", "--piece", "13x16*2", "--seconds", "0.05")
    assert {name for name in sys.modules if name.startswith("ortools")} == loaded
