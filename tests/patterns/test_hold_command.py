import json
import subprocess
import sys
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from tests.recipe_texts import TEXT

PROJECT = Path(__file__).parents[2]
SHEETS = ["fold-flat-basket", "--units", "cm", "--thing", "14.8x21x0.4"]


def run(*words):
    """The command in this process: exit code, JSON, what it said on standard error."""
    out, code, said = StringIO(), 0, ""
    try:
        call_command("hold", *words, "--json", stdout=out)
    except SystemExit as end:
        code = end.code
    except CommandError as error:
        code, said = error.returncode, str(error)
    return code, json.loads(out.getvalue() or "null"), said


def test_the_example_of_the_contract():
    code, answer, _ = run(*SHEETS, "--count", "12")
    assert code == 0
    assert (answer["recipe"], answer["units"], answer["thing"], answer["count"]) == (
        "fold-flat-basket",
        "cm",
        ["74/5", "21", "2/5"],
        12,
    )
    assert answer["sizes"][0] == {
        "measures": {"width": "15", "height": "21", "depth": "5"},
        "area": "2156",
        "arrangement": {
            "across": 1,
            "deep": 12,
            "high": 1,
            "thing": {"width": "74/5", "height": "21", "depth": "2/5"},
        },
        "spare": {"width": "1/5", "height": "0", "depth": "1/5"},
    }


def test_keys_stand_in_the_order_of_the_contract():
    _, answer, _ = run(*SHEETS, "--count", "12")
    assert list(answer) == ["recipe", "units", "thing", "count", "sizes", "loose", "turn"]
    assert list(answer["sizes"][0]) == ["measures", "area", "arrangement", "spare"]
    assert list(answer["sizes"][0]["arrangement"]) == ["across", "deep", "high", "thing"]


def test_a_typed_unit_wins_and_numbers_are_answered_in_the_units_asked_for():
    """10 in are 25.4 cm."""
    _, answer, _ = run("gift-bag", "--units", "cm", "--thing", "10x5x2in", "--count", "1", "--turn", "none")
    assert answer["thing"] == ["127/5", "127/10", "127/25"]
    first = answer["sizes"][0]
    # Two thirds of 19.5 are 13; no less than the 12.7 that the thing stands high.
    assert first["measures"] == {"width": "51/2", "height": "39/2", "depth": "6"}
    assert first["spare"] == {"width": "1/10", "height": "3/10", "depth": "23/25"}


def test_turned_things_are_given_as_they_lie():
    _, answer, _ = run(*SHEETS, "--count", "12", "--turn", "any", "--limit", "1")
    (first,) = answer["sizes"]
    assert first["measures"] == {"width": "21", "height": "15", "depth": "5"}
    assert first["area"] == "2072"
    assert first["arrangement"]["thing"] == {"width": "21", "height": "74/5", "depth": "2/5"}


def test_options_measures_and_looseness_are_read():
    words = ["--count", "10", "--loose", "5mm", "--turn", "none", "--option", "interfacing=none"]
    _, answer, _ = run(*SHEETS, *words, "seam-allowance=2", "depth=12")
    assert answer["sizes"][0]["measures"] == {"width": "31/2", "height": "43/2", "depth": "12"}
    # Two panels of 15.5 + 12 + 4 by 2 × 21.5 + 12 + 4 cm.
    assert answer["sizes"][0]["area"] == "3717"
    assert (answer["loose"], answer["turn"]) == ("1/2", "none")


def test_what_it_prints_is_accepted_back():
    """By `hold` itself: the size that was found holds the things."""
    _, answer, _ = run("zip-pouch", "--thing", "3x4x1/2", "--count", "30", "--turn", "any")
    for found in answer["sizes"]:
        measures = [f"{name}={value}" for name, value in found["measures"].items()]
        code, back, _ = run("zip-pouch", "--thing", "x".join(answer["thing"]), "--turn", "any", *measures)
        assert code == 0
        assert back["holds"]["count"] >= 30


class TestTheOtherWayRound:
    def test_a_number_and_its_arrangement(self):
        code, answer, _ = run(*SHEETS, "width=15", "height=21", "depth=5")
        assert code == 0
        assert answer["measures"] == {"width": "15", "height": "21", "depth": "5", "seam allowance": "1"}
        assert answer["holds"] == {
            "count": 12,
            "arrangement": {
                "across": 1,
                "deep": 12,
                "high": 1,
                "thing": {"width": "74/5", "height": "21", "depth": "2/5"},
            },
            "spare": {"width": "1/5", "height": "0", "depth": "1/5"},
        }
        assert "sizes" not in answer

    def test_nothing_goes_in(self):
        code, answer, _ = run(*SHEETS, "width=14")
        assert code == 1
        assert answer["holds"] == {"count": 0, "arrangement": None, "spare": None}

    def test_a_refused_size_holds_nothing(self):
        code, answer, _ = run(*SHEETS, "height=5", "depth=30")
        assert code == 1
        assert answer["holds"] is None
        assert answer["refused"] == ["The triangle leaves room under the top edge."]

    def test_an_irrational_number_is_named_as_rounded(self, tmp_path):
        path = tmp_path / "mat.toml"
        holds = '[holds]\nwidth = "√(width² + height²)"\nheight = "height"\ndepth = "width"\n\n'
        path.write_text(TEXT.replace("[measures.width]", f"{holds}[measures.width]", 1), encoding="utf-8")
        _, answer, _ = run(str(path), "--thing", "1x1x1", "width=9", "--turn", "none")
        spare = answer["holds"]["spare"]
        assert spare == {"width": "0.816654", "height": "0", "depth": "0", "rounded": ["width"]}
        assert answer["holds"]["count"] == 10 * 6 * 9


class TestARoundFloor:
    def test_the_corners_stay_within_the_circle(self):
        """√(14.8² + 4.8²) = 15.56 cm; in a circle of 16 cm, √(16² − 4.8²) − 14.8 is left beside 4.8 cm."""
        _, answer, _ = run("round-bucket", *SHEETS[1:], "--count", "12", "--limit", "1", "--turn", "none")
        (first,) = answer["sizes"]
        assert first["measures"] == {"diameter": "16", "height": "21"}
        assert first["arrangement"] == {
            "across": 1,
            "deep": 12,
            "high": 1,
            "thing": {"width": "74/5", "height": "21", "depth": "2/5"},
        }
        assert first["spare"] == {
            "width": "0.463027",
            "height": "0",
            "depth": "1.279474",
            "rounded": ["width", "depth"],
        }

    def test_the_other_way_round(self):
        code, answer, _ = run("round-bucket", "--thing", "1x1x1", "diameter=5", "height=3")
        assert code == 0
        assert answer["holds"]["count"] == 3 * 4 * 3
        assert answer["holds"]["spare"] == {"width": "0", "height": "0", "depth": "0"}

    def test_for_people(self):
        assert said("round-bucket", *SHEETS[1:], "--count", "12", "--limit", "1", "--turn", "none")[1][
            1:
        ] == [
            "  diameter 16 cm, height 21 cm",
            "    1 across, 12 deep, 1 high; each lies as 14.8 × 21 × 0.4 cm.",
            "    Left over: width ≈ 0.5 cm or depth ≈ 1.3 cm. Fabric to cut: ≈ 3052 cm².",
        ]

    def test_things_too_small_to_count_exit_2(self):
        assert run("round-bucket", "--thing", "0.0001x1x0.0001", "diameter=5") == (
            2,
            None,
            "Things so small are not counted on a round floor: more than 10,000 stand side by side on it. "
            "Ask for larger ones.",
        )


def test_no_size_exits_1_with_json():
    code, answer, _ = run(*SHEETS, "--count", "1000", "--loose", "40")
    assert code == 1
    assert answer["sizes"] == []


NO_COUNT = "Say how many go in, like --count 12, or give a size, like width=9, to hear what it holds."


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ([*SHEETS], NO_COUNT),
        ([*SHEETS, "--thing", "1x1x1", "--count", "1"], "--thing is given twice. Give it once."),
        ([*SHEETS, "--count", "1", "--count", "1"], "--count is given twice. Give it once."),
        ([*SHEETS, "--count", "1", "--loose", "0", "--loose", "0"], "--loose is given twice. Give it once."),
        ([*SHEETS, "--count", "1", "--units", "cm"], "--units is given twice. Give it once."),
        (
            [*SHEETS, "--count", "1", "--loose=-1"],
            "--loose: “-1” is not a length. A size is never less than nothing. Write it without the minus.",
        ),
        (
            [*SHEETS, "--count=-1"],
            "--count: “-1” is not a number. A size is never less than nothing. Write it without the minus.",
        ),
        (
            ["fold-flat-basket", "--thing", "1e9x1x1", "--count", "1"],
            "1e9x1x1: “1e9” is not a length. Write the number out.",
        ),
        ([*SHEETS, "--count", "1001"], "--count: “1001” is not a whole number from 1 to 1,000."),
        ([*SHEETS, "--count", "0"], "--count: “0” is not a whole number from 1 to 1,000."),
        ([*SHEETS, "--count", "1/2"], "--count: “1/2” is not a whole number from 1 to 1,000."),
        (
            [*SHEETS, "--count", "many"],
            "--count: “many” is not a number. Write it like 7, 7.5, 7½ or 7 1/2.",
        ),
        ([*SHEETS, "--count", "1", "--limit", "0"], "--limit: “0” is not a whole number from 1 to 100."),
        (
            [*SHEETS, "--count", "1", "--loose", "a lot"],
            "--loose: “a lot” is not a length. Write it like 7, 7.5, 7½ or 7 1/2.",
        ),
        (
            ["fold-flat-basket", "--thing", "14.8x21", "--count", "1"],
            "“14.8x21” is not a size. Write 3 lengths like 21x29.7x0.5.",
        ),
        (
            ["fold-flat-basket", "--thing", "1x0x1", "--count", "1"],
            "“1x0x1” has a side of nothing. Write lengths above 0, like 21x29.7x0.5.",
        ),
        (
            ["fold-flat-basket", "--thing", "1xtwox1", "--count", "1"],
            "1xtwox1: “two” is not a length. Write it like 7, 7.5, 7½ or 7 1/2.",
        ),
        (
            [*SHEETS, "--count", "1", "girth=2"],
            "There is no measure “girth”. There are: width, height, depth, seam allowance.",
        ),
        (
            [*SHEETS, "--count", "1", "width=9", "width=8"],
            "The measure “width” is given twice. Give it once.",
        ),
    ],
)
def test_what_cannot_be_read_exits_2(words, says):
    assert run(*words) == (2, None, says)


def test_a_recipe_that_does_not_say_what_it_holds_exits_2(tmp_path):
    path = tmp_path / "mat.toml"
    path.write_text(TEXT, encoding="utf-8")
    code, answer, said = run(str(path), "--thing", "1x1x1", "--count", "1")
    assert (code, answer) == (2, None)
    assert said == (
        "“Folding mat” does not say what it holds, so nobody can ask. "
        "Its recipe text wants a table [holds] with the width, height and depth that can be filled, or with "
        "the diameter and height of what is round."
    )


@pytest.mark.parametrize("words", [["no-such-recipe", "--thing", "1x1x1"], ["zip-pouch", "--count", "1"]])
def test_from_the_shell_one_line_and_nothing_else(words):
    done = subprocess.run(
        [sys.executable, "manage.py", "hold", *words, "--json"], cwd=PROJECT, capture_output=True, text=True
    )
    assert done.returncode == 2
    assert done.stdout == ""
    assert len(done.stderr.strip().splitlines()) == 1


def said(*words):
    out = StringIO()
    code = 0
    try:
        call_command("hold", *words, stdout=out)
    except SystemExit as end:
        code = end.code
    return code, out.getvalue().splitlines()


def test_for_people_it_is_readable():
    assert said(*SHEETS, "--count", "12", "--limit", "1") == (
        0,
        [
            "Fold-flat basket",
            "  width 15 cm, height 21 cm, depth 5 cm",
            "    1 across, 12 deep, 1 high; each lies as 14.8 × 21 × 0.4 cm.",
            "    Left over: width 0.2 cm, depth 0.2 cm. Fabric to cut: 2156 cm².",
        ],
    )
    assert said(*SHEETS, "--count", "900", "--loose", "40")[1][1:] == ["  No size of it holds them."]
    assert said(*SHEETS, "width=15", "height=21", "depth=5")[1][1] == "  12 go in."
    assert said(*SHEETS, "width=14")[1][1:] == ["  Not even one goes in."]
    assert said(*SHEETS, "height=5", "depth=30") == (
        1,
        [
            "Fold-flat basket: width 23 cm, height 5 cm, depth 30 cm, seam allowance 1 cm",
            "  Refused: The triangle leaves room under the top edge.",
        ],
    )
