import hashlib
import json
from io import BytesIO, StringIO

import ezdxf
import pytest
from django.core.management import call_command
from django.core.management.base import CommandError
from pikepdf import Pdf

from patterns.documents.check import check


def run(*words):
    """The command in this process: exit code, what it printed, what it said on standard error."""
    out, err, code = StringIO(), StringIO(), 0
    try:
        call_command("templates", *words, stdout=out, stderr=err)
    except SystemExit as end:
        code = end.code
    except CommandError as error:
        code = error.returncode
        err.write(str(error))
    return code, out.getvalue(), err.getvalue()


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """Templates of a bucket 7 in across on Letter, and what the command printed."""
    file = tmp_path_factory.mktemp("templates") / "bucket.pdf"
    words = ("diameter=7", "--paper", "letter", "--for", "Ada Example", "--to", str(file), "--json")
    code, out, err = run("round-bucket", *words)
    assert (code, err) == (0, "")
    return file, json.loads(out)


def test_the_file_is_written_and_described(made):
    file, answer = made
    assert answer == {
        "recipe": "round-bucket",
        "units": "in",
        "measures": {"diameter": "7", "height": "9", "seam allowance": "1/2"},
        "paper": "letter",
        "file": str(file),
        "bytes": file.stat().st_size,
        "sha256": hashlib.sha256(file.read_bytes()).hexdigest(),
    }
    assert check(file.read_bytes()) == ()


def test_its_foot_says_the_name(made):
    with Pdf.open(BytesIO(made[0].read_bytes())) as pdf:
        assert str(pdf.docinfo["/Licence"]) == "Trial copy, not an order · made for Ada Example"


def test_one_large_sheet(tmp_path):
    file = tmp_path / "large.pdf"
    code, out, _ = run("boxed-tote", "--large", "--to", str(file))
    assert (code, out) == (0, f"Boxed tote, large: {file}\n")
    with Pdf.open(file) as pdf:
        assert len(pdf.pages) == 1
        # A1 is 594 × 841 mm (ISO 216).
        assert [float(side) * 25.4 / 72 for side in pdf.pages[0].mediabox[2:]] == pytest.approx(
            [594, 841], abs=0.01
        )


def test_pieces_by_name(tmp_path):
    file = tmp_path / "handle.pdf"
    assert run("packable-tote", "--piece", "handle", "--piece", "pocket", "--to", str(file))[0] == 0
    assert check(file.read_bytes()) == ()


@pytest.mark.parametrize("kind", ["svg", "dxf"])
def test_one_piece_for_a_machine(tmp_path, kind):
    file = tmp_path / f"base.{kind}"
    code, out, _ = run("round-bucket", "--piece", "lining base", "--to", str(file))
    assert (code, out) == (0, f"Round bucket, {kind}: {file}\n")
    if kind == "dxf":
        assert ezdxf.readfile(file).modelspace().query('LWPOLYLINE[layer=="cut"]')
    else:
        assert file.read_text(encoding="utf-8").startswith("<svg ")


def test_a_recipe_that_needs_none_ends_with_one(tmp_path):
    code, out, err = run("fold-flat-basket", "--to", str(tmp_path / "no.pdf"))
    assert (code, out) == (1, "")
    assert err == (
        "No piece of Fold-flat basket needs a template: all are cut with a ruler. Name the pieces you want.\n"
    )
    code, out, _ = run("fold-flat-basket", "--to", str(tmp_path / "no.pdf"), "--json")
    assert code == 1
    assert json.loads(out)["file"] is None
    assert not list(tmp_path.iterdir())


def test_a_refused_size_ends_with_one_and_its_nearest(tmp_path):
    code, out, _ = run("fold-flat-basket", "height=2", "--to", str(tmp_path / "no.pdf"), "--json")
    assert code == 1
    assert json.loads(out)["nearest"]["height"] == "3"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("round-bucket", "--piece", "sail"), "No piece “sail” is cut."),
        (("round-bucket", "--paper", "a5"), "a5"),
        (("no-such-recipe",), "neither a starter nor a file"),
    ],
)
def test_what_cannot_be_read_ends_with_two(words, said, tmp_path):
    code, out, err = run(*words, "--to", str(tmp_path / "no.pdf"))
    assert (code, out) == (2, "")
    assert said in err
    assert not list(tmp_path.iterdir())


def test_a_file_of_one_piece_wants_one_piece(tmp_path):
    code, _, err = run("round-bucket", "--to", str(tmp_path / "no.dxf"))
    assert code == 2
    assert "Name one." in err
