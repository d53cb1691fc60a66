import json
import os
import subprocess
import sys
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from patterns.drafting.recipe_text import MOST_BYTES
from patterns.management.script import one_line
from patterns.starters import slugs, text_of

PROJECT = Path(__file__).parents[2]
BASKET = text_of("fold-flat-basket")
SPOILED = BASKET.replace("2 × height + depth + 2 × seam allowance", "2 × height + depth + seam allowance")


def run(*words):
    """The command in this process: exit code, standard output, what it said on standard error."""
    out, code, said = StringIO(), 0, ""
    try:
        call_command("prove", *words, stdout=out)
    except SystemExit as end:
        code = end.code
    except CommandError as error:
        code, said = error.returncode, str(error)
    return code, out.getvalue(), said


def typed(*words, **environment):
    """The command as it is typed."""
    return subprocess.run(
        [sys.executable, "manage.py", "prove", *words],
        cwd=PROJECT,
        env={**os.environ, **environment},
        capture_output=True,
        check=False,
    )


@pytest.fixture
def text_file(tmp_path):
    def write(text, name="spoiled.toml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return str(path)

    return write


@pytest.mark.parametrize("slug", slugs())
def test_starters_are_proved(slug):
    code, out, _ = run(slug, "--json")
    answer = json.loads(out)
    assert (code, answer["recipe"], answer["holds"]) == (0, slug, True)
    for truing in answer["truings"]:
        assert set(truing) == {"says", "options", "one", "other", "result", "difference", "example"}
        assert (truing["result"], truing["difference"], truing["example"]) == ("proved", None, None)


def test_a_spoiled_text_answers_with_the_difference_and_a_size(text_file):
    code, out, said = run(text_file(SPOILED), "--json")
    answer = json.loads(out)
    assert (code, said, answer["recipe"], answer["holds"]) == (1, "", "spoiled", False)
    wrong = [truing for truing in answer["truings"] if truing["result"] != "proved"]
    assert wrong[0]["options"] == {"exterior print": "no direction"}
    assert wrong[0]["one"] == "exterior panel height − 2 × seam allowance"
    assert wrong[0]["other"] == "2 × height + depth"
    assert (wrong[0]["result"], wrong[0]["difference"]) == ("false", "−seam allowance")
    assert wrong[0]["example"] == {
        "units": "in",
        "measures": {"width": "9", "height": "6", "depth": "5", "seam allowance": "1/2"},
        "one": "33/2",
        "other": "17",
    }


def test_irrational_sides_have_six_decimals_and_say_so(text_file):
    pouch = text_of("zip-pouch").replace("√(height² − (depth ÷ 2)²)", "√(height² − depth²)")
    _, out, _ = run(text_file(pouch), "--json")
    examples = [truing["example"] for truing in json.loads(out)["truings"] if truing["result"] == "false"]
    assert examples
    for example in examples:
        for side in ("one", "other"):
            assert ("." in example[side]) == (side in example.get("rounded", []))


def test_json_is_one_line_of_utf_8_wherever_it_runs():
    ended = typed("fold-flat-basket", "--json", PYTHONIOENCODING="ascii")
    assert (ended.returncode, ended.stderr) == (0, b"")
    assert ended.stdout.endswith(b"}\n")
    assert ended.stdout.count(b"\n") == 1
    assert "×" in json.loads(ended.stdout.decode())["truings"][0]["one"]


def test_people_read_words(text_file):
    code, out, _ = run("fold-flat-basket")
    assert code == 0
    assert out.splitlines()[0] == "Fold-flat basket"
    assert out.endswith("All are proved, for every size.\n")
    code, out, _ = run(text_file(SPOILED))
    assert code == 1
    assert "the first less the second is −seam allowance" in out
    assert "at width 9 in, height 6 in, depth 5 in, seam allowance 1⁄2 in: 16 1⁄2 in and 17 in" in out


def test_the_slug_of_a_path_is_its_stem(text_file):
    _, out, _ = run(text_file(BASKET, "my_own_basket.txt"), "--json")
    assert json.loads(out)["recipe"] == "my-own-basket"


def test_a_recipe_without_truings_has_nothing_to_prove(text_file):
    head = BASKET[: BASKET.index("[[truings]]")]
    tail = BASKET[BASKET.index("[[checks]]") :]
    code, out, _ = run(text_file(head + tail))
    assert (code, "nothing to prove" in out) == (0, True)


@pytest.mark.parametrize(
    ("there", "instead", "said"),
    [
        (
            '"triangle point" =',
            '"triangle pint" =',
            "There is no “triangle point” here. Did you mean “triangle pint”?",
        ),
        ("depth + 2 × seam allowance", "depth + 2 × 1/2", "“2 × 1/2” is a bare number."),
        ("2 × height + depth", "2 × hieght + depth", "Did you mean “height”?"),
        ("summary =", "sumary =", "summary"),
        (BASKET, BASKET + "\n[[[", "line "),
        (BASKET, "", "title"),
    ],
    ids=["unknown name", "unit left out", "slip", "unknown key", "no TOML", "nothing"],
)
def test_a_text_that_cannot_be_used_is_one_line(text_file, there, instead, said):
    assert there in BASKET
    code, out, error = run(text_file(BASKET.replace(there, instead)), "--json")
    assert (code, out) == (2, "")
    assert said in error
    assert "\n" not in error


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (
            ["fold-flat-baskt"],
            "“fold-flat-baskt” is neither a starter nor a file. Did you mean fold-flat-basket?",
        ),
        (
            ["nowhere.toml"],
            f"“nowhere.toml” is neither a starter nor a file. The starters are: {', '.join(slugs())}.",
        ),
        (["."], "“.” cannot be read: Is a directory. Name a starter or the file of a recipe text."),
        (["a\0b"], "“a�b” cannot be read: it is no path. Name a starter or the file of a recipe text."),
        (
            ["x" * 5000],
            f"“{'x' * 80}…” cannot be read: File name too long. Name a starter or the file of a recipe text.",
        ),
        ([""], None),
        ([], "the following arguments are required: RECIPE"),
        (["fold-flat-basket", "zip-pouch"], "unrecognized arguments: zip-pouch"),
        (["fold-flat-basket", "--xml"], "unrecognized arguments: --xml"),
    ],
)
def test_what_cannot_be_understood_ends_with_2_and_one_line(words, said):
    code, out, error = run(*words)
    assert (code, out) == (2, "")
    assert "\n" not in error
    assert said is None or error == said


def test_a_text_too_long_is_refused(text_file):
    code, out, error = run(text_file("#" * (MOST_BYTES + 1)))
    assert (code, out) == (2, "")
    assert "is longer than a recipe text may be, 200,000 bytes" in error


@pytest.mark.parametrize("words", [["nowhere.toml"], ["fold-flat-basket", "--xml"], []])
def test_as_typed_the_error_is_one_line_and_nothing_else(words):
    ended = typed(*words)
    assert (ended.returncode, ended.stdout) == (2, b"")
    assert ended.stderr.count(b"\n") == 1


def test_as_typed_a_false_recipe_ends_with_1(text_file):
    ended = typed(text_file(SPOILED), "--json")
    assert (ended.returncode, ended.stderr) == (1, b"")
    assert json.loads(ended.stdout)["holds"] is False


def test_no_database_is_needed(tmp_path):
    ended = typed("zip-pouch", "--json", SHOP_DATA=str(tmp_path / "none"))
    assert (ended.returncode, ended.stderr) == (0, b"")
    assert not (tmp_path / "none").exists()


def test_one_line_steers_no_terminal():
    assert one_line("a\nb\t\x1b[31mc\u202e") == "a b �[31mc�"
