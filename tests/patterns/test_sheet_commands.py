"""`manage.py chart` and `manage.py worksheet`, which differ in nothing but what they write."""

import hashlib
import json
import os
import subprocess
import sys
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError
from pikepdf import Pdf

from patterns.documents.check import check
from patterns.starters import text_of

PROJECT = Path(__file__).parents[2]
NAMES = {"chart": "size chart", "worksheet": "worksheet"}


def run(command, *words):
    """The command in this process: exit code, what it printed, what it said on standard error."""
    out, err, code = StringIO(), StringIO(), 0
    try:
        call_command(command, *words, stdout=out, stderr=err)
    except SystemExit as end:
        code = end.code
    except CommandError as error:
        code = error.returncode
        err.write(str(error))
    return code, out.getvalue(), err.getvalue()


@pytest.fixture(params=list(NAMES))
def command(request):
    return request.param


def test_the_sheet_is_written_and_described(command, tmp_path):
    file = tmp_path / "sheet.pdf"
    words = ("zip-pouch", "--units", "cm", "--paper", "letter", "--option", "zip-size=no-5-coil", "--json")
    code, out, err = run(command, *words, "--to", str(file))
    assert (code, err) == (0, "")
    assert json.loads(out) == {
        "recipe": "zip-pouch",
        "units": "cm",
        "options": {
            "interfacing": "light",
            "exterior print": "no direction",
            "lining print": "no direction",
            "zip size": "No. 5 coil",
        },
        "paper": "letter",
        "file": str(file),
        "bytes": file.stat().st_size,
        "sha256": hashlib.sha256(file.read_bytes()).hexdigest(),
    }
    assert check(file.read_bytes()) == ()
    with Pdf.open(file) as pdf:
        assert str(pdf.docinfo.Title) == f"Zip pouch: {NAMES[command]} in centimetres"
        assert len(pdf.pages) == 1
    assert [path.name for path in tmp_path.iterdir()] == ["sheet.pdf"]


def test_people_read_what_was_written(command, tmp_path):
    file = tmp_path / "sheet.pdf"
    code, out, err = run(command, "fold-flat-basket", "--to", str(file))
    assert (code, out, err) == (0, f"Fold-flat basket, {NAMES[command]}, a4: {file}\n", "")


def test_a_text_of_ones_own_may_be_named(command, tmp_path):
    text = tmp_path / "my_basket.toml"
    text.write_text(text_of("fold-flat-basket"), encoding="utf-8")
    code, out, _ = run(command, str(text), "--json", "--to", str(tmp_path / "sheet.pdf"))
    assert (code, json.loads(out)["recipe"]) == (0, "my-basket")


def spoiled(command):
    """A recipe that has no such sheet, and why."""
    text = text_of("fold-flat-basket")
    if command == "chart":
        return text[: text.index("[sizes.")], "“Fold-flat basket” names no sizes, so it has no size chart."
    text = text.replace('default = "6"', 'default = "2"').replace('default = "15"', 'default = "5"')
    why = "The triangle leaves room under the top edge."
    return text, f"With these choices the default size of “Fold-flat basket” is refused: {why}"


def test_what_has_no_sheet_ends_with_one_and_why(command, tmp_path):
    text, why = spoiled(command)
    file, to = tmp_path / "spoiled.toml", tmp_path / "no.pdf"
    file.write_text(text, encoding="utf-8")
    assert run(command, str(file), "--to", str(to)) == (1, "", f"{why}\n")
    code, out, err = run(command, str(file), "--to", str(to), "--json")
    assert (code, err) == (1, "")
    answer = json.loads(out)
    assert (answer["file"], answer["why"]) == (None, why)
    assert not to.exists()


@pytest.mark.parametrize(
    "words",
    [
        ("no-such-recipe",),
        ("fold-flat-basket", "width=9"),
        ("fold-flat-basket", "--paper", "a5"),
        ("fold-flat-basket", "--units", "mm"),
        ("fold-flat-basket", "--option", "interfacing=tin"),
        ("fold-flat-basket", "--option", "interfacing=none", "--option", "interfacing=light"),
    ],
)
def test_what_cannot_be_read_ends_with_two(command, words, tmp_path):
    code, out, err = run(command, *words, "--to", str(tmp_path / "no.pdf"))
    assert (code, out) == (2, "")
    assert err.strip()
    assert "\n" not in err.strip()
    assert not list(tmp_path.iterdir())


def test_a_place_that_cannot_be_written_is_named(command, tmp_path):
    to = tmp_path / "no such folder" / "sheet.pdf"
    code, out, err = run(command, "fold-flat-basket", "--to", str(to))
    assert (code, out, err) == (2, "", f"“{to}” cannot be written: No such file or directory.")


def test_it_needs_no_database(command, tmp_path):
    """From the shell, in a shop without one: nothing makes it."""
    file = tmp_path / "spoiled.toml"
    file.write_text(spoiled(command)[0], encoding="utf-8")
    data = tmp_path / "shop"
    data.mkdir()
    words = [sys.executable, "manage.py", command, str(file), "--to", str(tmp_path / "no.pdf")]
    ended = subprocess.run(
        words, cwd=PROJECT, env={**os.environ, "SHOP_DATA": str(data)}, capture_output=True
    )
    assert ended.returncode == 1
    assert list(data.iterdir()) == []
