import json
import subprocess
import sys
from fractions import Fraction
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from patterns.starters import text_of

PROJECT = Path(__file__).parents[2]


def run(*words):
    """The command in this process: exit code, JSON, what it said on standard error."""
    out, code, said = StringIO(), 0, ""
    try:
        call_command("size", *words, "--json", stdout=out)
    except SystemExit as end:
        code = end.code
    except CommandError as error:
        code, said = error.returncode, str(error)
    return code, json.loads(out.getvalue() or "null"), said


def size(*words):
    code, answer, _ = run(*words)
    assert code == 0
    return answer


def piece(answer, name):
    return next(piece for piece in answer["pieces"] if piece["name"] == name)


def test_the_basket_of_the_contract():
    answer = size("fold-flat-basket", "width=8 1/2", "height=6", "depth=4 3/4")
    assert answer["recipe"] == "fold-flat-basket"
    assert answer["units"] == "in"
    assert answer["measures"] == {"width": "17/2", "height": "6", "depth": "19/4", "seam allowance": "1/2"}
    assert answer["options"] == {
        "interfacing": "light",
        "exterior print": "no direction",
        "lining print": "no direction",
    }
    assert answer["amounts"]["triangle point"] == "19/8"
    assert answer["amounts"]["opening"] == "5"
    panel = piece(answer, "exterior panel")
    assert (panel["from"], panel["cut"], panel["shape"], panel["turns"]) == (
        "exterior fabric",
        1,
        "rectangle",
        True,
    )
    assert (panel["width"], panel["height"]) == ("57/4", "71/4")
    assert panel["working"] == {
        "width": "8 1/2 + 4 3/4 + 2 × 1/2 = 14 1/4",
        "height": "2 × 6 + 4 3/4 + 2 × 1/2 = 17 3/4",
    }
    check = {"level": "refuse", "says": "The triangle leaves room under the top edge.", "holds": True}
    assert check in answer["checks"]
    assert answer["nearest"] is None


def test_what_it_prints_is_accepted_back():
    answer = size("zip-pouch", "width=17/2", "depth=3 1/8", "zip-seam-allowance=5/16")
    words = [f"{name.replace(' ', '-')}={value}" for name, value in answer["measures"].items()]
    options = [
        word for name, choice in answer["options"].items() for word in ("--option", f"{name}={choice}")
    ]
    assert size("zip-pouch", *words, *options) == answer


def test_a_typed_unit_wins():
    assert size("fold-flat-basket", "width=10 in", "--units", "cm")["measures"]["width"] == "127/5"
    assert size("fold-flat-basket", "width=25.4cm")["measures"]["width"] == "10"


def test_centimetres_have_their_own_defaults():
    answer = size("fold-flat-basket", "--units", "cm")
    assert answer["measures"] == {"width": "23", "height": "15", "depth": "12", "seam allowance": "1"}
    assert piece(answer, "exterior panel")["width"] == "37"


def test_an_irrational_value_is_named_as_rounded():
    answer = size("zip-pouch")
    standing = answer["amounts"]["standing height"]
    assert "standing height" in answer["amounts"]["rounded"]
    assert len(standing.partition(".")[2]) == 6


def test_options_may_be_written_with_hyphens():
    answer = size("zip-pouch", "--option", "zip-size=no-5-coil", "--option", "exterior print=one-way")
    assert answer["options"]["zip size"] == "No. 5 coil"
    assert answer["measures"]["zip tape width"] == "5/4"
    assert piece(answer, "exterior half panel")["turns"] is False


def test_a_refused_size_exits_1_with_the_nearest():
    code, answer, _ = run("fold-flat-basket", "height=2", "depth=8")
    assert code == 1
    assert [
        check["says"] for check in answer["checks"] if check["holds"] is False and check["level"] == "refuse"
    ] == ["The triangle leaves room under the top edge."]
    assert answer["nearest"] == {"width": "9", "height": "9/2", "depth": "8", "seam allowance": "1/2"}


def test_out_of_range_is_refused():
    code, answer, _ = run("fold-flat-basket", "width=25")
    assert code == 1
    assert answer["nearest"]["width"] == "20"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (
            ["fold-flat-basket", "width=seven"],
            "width: “seven” is not a length. Write it like 7, 7.5, 7½ or 7 1/2.",
        ),
        (
            ["fold-flat-basket", "width=1/0"],
            "width: “1/0” divides by 0. Write another number under the stroke.",
        ),
        (
            ["fold-flat-basket", "weight=3"],
            "There is no measure “weight”. There are: width, height, depth, seam allowance.",
        ),
        (["fold-flat-basket", "width=7", "Width=8"], "The measure “width” is given twice. Give it once."),
        (["fold-flat-basket", "width"], "“width” is not a measure. Write it like width=8 1/2."),
        (
            ["fold-flat-basket", "--option", "interfacing=steel"],
            "“steel” is no choice of “interfacing”. There are: none, light, heavy.",
        ),
    ],
)
def test_what_cannot_be_read_exits_2(words, says):
    code, answer, said = run(*words)
    assert (code, answer, said) == (2, None, says)


@pytest.mark.parametrize("words", [["no-such-recipe"], ["fold-flat-basket", "--units", "miles"], []])
def test_from_the_shell_one_line_and_nothing_else(words, tmp_path):
    done = subprocess.run(
        [sys.executable, "manage.py", "size", *words, "--json"], cwd=PROJECT, capture_output=True, text=True
    )
    assert done.returncode == 2
    assert done.stdout == ""
    assert len(done.stderr.strip().splitlines()) == 1


def test_for_people_it_is_readable():
    out = StringIO()
    call_command("size", "fold-flat-basket", "width=8 1/2", stdout=out)
    assert "exterior panel, 1 from exterior fabric" in out.getvalue()
    assert "8 1⁄2 + 5 + 2 × 1⁄2 = 14 1⁄2" in out.getvalue()


def test_values_stay_exact_over_the_range(no_floats):
    for eighths in range(24, 161, 7):
        width = Fraction(eighths, 8)
        answer = size("fold-flat-basket", f"width={width}")
        assert Fraction(piece(answer, "exterior panel")["width"]) == width + 5 + 1


OUTLINES = """
[[pieces.flap.outline]]
across = "flap width"
down = "0"

[[pieces.flap.outline]]
across = "flap width"
down = "height"

[[pieces.flap.outline]]
across = "flap width − depth"
down = "flap height"
arc = "right"

[[pieces.flap.outline]]
across = "0"
down = "flap height"

[[pieces.flap.outline]]
across = "0"
down = "0"

[[pieces.disc.outline]]
across = "width ÷ 2"
down = "0"
arc = "right"

[[pieces.disc.outline]]
across = "width"
down = "width ÷ 2"
arc = "right"

[[pieces.disc.outline]]
across = "width ÷ 2"
down = "width"
arc = "right"

[[pieces.disc.outline]]
across = "0"
down = "width ÷ 2"
arc = "right"
"""


@pytest.fixture
def outlined(tmp_path):
    """A recipe with a piece rounded at one corner and one that is a circle."""
    text = text_of("fold-flat-basket")
    pieces = "".join(
        f'\n[pieces.{name}]\nfrom = "lining fabric"\ncut = "1"\nwidth = "{wide}"\nheight = "{high}"\n'
        for name, wide, high in (("flap", "π × width", "height + depth"), ("disc", "width", "width"))
    )
    path = tmp_path / "outlined.toml"
    path.write_text(text.replace("[[truings]]", f"{pieces}{OUTLINES}\n[[truings]]", 1))
    return str(path)


def test_an_outline_is_told_by_its_corners(outlined):
    flap = piece(size(outlined, "depth=3"), "flap")
    assert flap["shape"] == "outline"
    assert (flap["width"], flap["height"], flap["rounded"]) == ("28.274334", "9", ["width"])
    assert flap["outline"] == [
        {"to": ["28.274334", "0"], "arc": None, "rounded": ["to"]},
        {"to": ["28.274334", "6"], "arc": None, "rounded": ["to"]},
        {"to": ["25.274334", "9"], "arc": "right", "rounded": ["to"]},
        {"to": ["0", "9"], "arc": None},
        {"to": ["0", "0"], "arc": None},
    ]


def test_a_circle_is_told_by_its_box(outlined):
    disc = piece(size(outlined), "disc")
    assert (disc["shape"], disc["width"], disc["height"]) == ("circle", "9", "9")
    assert "outline" not in disc


def test_shapes_are_told_in_words(outlined):
    out = StringIO()
    call_command("size", outlined, stdout=out)
    assert "disc, 1 from lining fabric, a circle" in out.getvalue()
    assert "flap, 1 from lining fabric, cut to an outline within" in out.getvalue()
