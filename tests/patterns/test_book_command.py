import hashlib
import json
import os
import subprocess
import sys
from io import BytesIO, StringIO
from pathlib import Path

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError
from pikepdf import Pdf

from patterns.documents.check import check
from patterns.management.writing import write_whole

PROJECT = Path(__file__).parents[2]


def run(*words):
    """The command in this process: exit code, what it printed, what it said on standard error."""
    out, err, code = StringIO(), StringIO(), 0
    try:
        call_command("book", *words, stdout=out, stderr=err)
    except SystemExit as end:
        code = end.code
    except CommandError as error:
        code = error.returncode
        err.write(str(error))
    return code, out.getvalue(), err.getvalue()


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A book of 8½ × 6 × 4¾ in on Letter, and what the command printed."""
    file = tmp_path_factory.mktemp("book") / "basket.pdf"
    size = ("width=8½", "height=6", "depth=4 3/4")
    code, out, err = run(
        "fold-flat-basket", *size, "--paper", "letter", "--for", "Ada Example", "--to", str(file), "--json"
    )
    assert (code, err) == (0, "")
    return file, json.loads(out)


def test_the_book_is_written_and_described(made):
    file, answer = made
    assert answer == {
        "recipe": "fold-flat-basket",
        "units": "in",
        "measures": {"width": "17/2", "height": "6", "depth": "19/4", "seam allowance": "1/2"},
        "paper": "letter",
        "file": str(file),
        "bytes": file.stat().st_size,
        "sha256": hashlib.sha256(file.read_bytes()).hexdigest(),
    }


def test_the_book_is_sound_and_of_its_paper(made):
    assert check(made[0].read_bytes()) == ()
    with Pdf.open(made[0]) as pdf:
        assert [float(number) for number in pdf.pages[0].mediabox] == [0, 0, 612, 792]


def test_its_foot_says_the_name_and_that_it_is_no_order(made):
    with Pdf.open(BytesIO(made[0].read_bytes())) as pdf:
        assert str(pdf.docinfo["/Licence"]) == "Trial copy, not an order · made for Ada Example"


def test_nothing_but_the_book_is_left_beside_it(made):
    assert [path.name for path in made[0].parent.iterdir()] == ["basket.pdf"]


def test_a_refused_size_ends_with_one_and_its_nearest(tmp_path):
    to = tmp_path / "no.pdf"
    code, out, _ = run("fold-flat-basket", "height=2", "--to", str(to), "--json")
    answer = json.loads(out)
    assert code == 1
    assert answer["measures"]["height"] == "2"
    assert answer["nearest"] == {"width": "9", "height": "3", "depth": "5", "seam allowance": "1/2"}
    assert "no room" in answer["refused"][0]
    assert not to.exists()


def test_people_read_the_refusal_on_standard_error(tmp_path):
    code, out, err = run("fold-flat-basket", "height=2", "--to", str(tmp_path / "no.pdf"))
    assert (code, out) == (1, "")
    assert err.endswith(
        "The nearest size that works: width 9 in, height 3 in, depth 5 in, seam allowance 1⁄2 in.\n"
    )
    assert err.count("\n") == 1


@pytest.mark.parametrize(
    "words",
    [
        ("no-such-recipe",),
        ("fold-flat-basket", "width=seven"),
        ("fold-flat-basket", "width=9", "width=8"),
        ("fold-flat-basket", "--paper", "a5"),
        ("fold-flat-basket", "--option", "interfacing=tin"),
    ],
)
def test_what_cannot_be_read_ends_with_two(words, tmp_path):
    code, out, err = run(*words, "--to", str(tmp_path / "no.pdf"))
    assert (code, out) == (2, "")
    assert err.strip()
    assert "\n" not in err.strip()
    assert not list(tmp_path.iterdir())


def test_a_place_that_cannot_be_written_is_named(tmp_path):
    to = tmp_path / "no such folder" / "book.pdf"
    code, out, err = run("fold-flat-basket", "--to", str(to))
    assert (code, out) == (2, "")
    assert err == f"“{to}” cannot be written: No such file or directory."


def test_a_file_that_is_there_is_replaced_whole(tmp_path):
    file = tmp_path / "book.pdf"
    file.write_bytes(b"old")
    write_whole(file, b"new")
    assert file.read_bytes() == b"new"
    assert file.stat().st_mode & 0o777 == 0o666 & ~current_umask()
    assert list(tmp_path.iterdir()) == [file]


def current_umask():
    mask = os.umask(0)
    os.umask(mask)
    return mask


def test_it_needs_no_database(tmp_path):
    """From the shell, in a shop without one: nothing makes it."""
    command = [sys.executable, "manage.py", "book", "zip-pouch", "height=1", "--to", str(tmp_path / "no.pdf")]
    data = tmp_path / "shop"
    data.mkdir()
    ended = subprocess.run(
        command, cwd=PROJECT, env={**os.environ, "SHOP_DATA": str(data)}, capture_output=True
    )
    assert ended.returncode == 1
    assert list(data.iterdir()) == []
