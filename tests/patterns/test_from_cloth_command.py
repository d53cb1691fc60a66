import json
from io import StringIO

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

BASKET = "fold-flat-basket"


def run(*words):
    """The command in this process: exit code, JSON, what it said on standard error."""
    out, code, said = StringIO(), 0, ""
    try:
        call_command("from-cloth", *words, "--json", stdout=out)
    except SystemExit as end:
        code = end.code
    except CommandError as error:
        code, said = error.returncode, str(error)
    return code, json.loads(out.getvalue() or "null"), said


def test_the_example_of_the_contract():
    code, answer, _ = run(BASKET, "--cloth", "18x21*2")
    panel = {"cut": 1, "width": "71/4", "height": "21"}
    laid = {"x": "0", "y": "0", "width": "71/4", "height": "21", "turned": False}
    assert code == 0
    assert answer == {
        "recipe": BASKET,
        "units": "in",
        "keep": "proportions",
        "measures": {"width": "43/4", "height": "7", "depth": "6", "seam allowance": "1/2"},
        "pieces": [
            {"name": "exterior panel", "from": "exterior fabric", **panel},
            {"name": "lining panel", "from": "lining fabric", **panel},
        ],
        "placements": [
            {"piece": "exterior panel", "sheet": 0, **laid},
            {"piece": "lining panel", "sheet": 1, **laid},
        ],
        "next": {"width": "43/4", "height": "29/4", "depth": "6"},
        "proved": True,
        "open": [],
    }


def test_keys_stand_in_the_order_of_the_contract():
    _, answer, _ = run(BASKET, "--cloth", "18x21*2")
    assert list(answer) == [
        *("recipe", "units", "keep", "measures", "pieces", "placements", "next", "proved", "open")
    ]
    assert list(answer["placements"][0]) == ["piece", "sheet", "x", "y", "width", "height", "turned"]


def test_cloth_may_be_for_one_material_and_a_typed_unit_wins():
    one = run(BASKET, "--cloth", "exterior-fabric:45x52.5cm", "lining-fabric:45x52.5cm")
    other = run(BASKET, "--cloth", "exterior fabric:450x525mm", "--cloth", "45x52.5cm")
    assert one[0] == 0
    assert one == other


def test_a_size_may_follow_the_cloth_and_what_is_printed_is_read_again():
    _, plain, _ = run(BASKET, "width=7", "height=5", "depth=5", "--cloth", "18x21*2")
    _, after, _ = run(BASKET, "--cloth", "18x21", "18x21", "width=7", "height=5", "depth=5")
    assert plain == after
    words = [f"{name.replace(' ', '-')}={value}" for name, value in plain["measures"].items()]
    assert run(BASKET, *words, "--cloth", "18x21*2")[0] == 0


def test_one_way_sets_both_prints():
    asked = (BASKET, "--cloth", "18x21*2")
    prints = ("--option", "exterior-print=one-way", "--option", "lining-print=one-way")
    assert run(*asked, "--one-way") == run(*asked, *prints)
    _, answer, _ = run(BASKET, "--cloth", "18x21*2", "--one-way")
    assert {piece["name"] for piece in answer["pieces"]} == {"exterior half panel", "lining half panel"}


@pytest.mark.parametrize("keep", ["width,height", "height,width", "volume"])
def test_what_is_kept_is_said(keep):
    code, answer, _ = run("zip-pouch", "--cloth", "14x14*2", "--keep", keep)
    assert (code, answer["keep"]) == (0, keep)


def test_no_size_is_an_answer():
    code, answer, _ = run(BASKET, "--cloth", "3x3*2")
    assert code == 1
    assert answer["measures"] is None
    assert (answer["pieces"], answer["placements"], answer["next"]) == ([], [], None)
    assert answer["proved"] is True


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["--cloth", "18"], "“18” is not a size. Write 2 lengths like 21x29.7."),
        (["--cloth", "0x21"], "has a side of nothing"),
        (["--cloth", "18x21*0"], "--cloth: “0” is not a whole number from 1 to 24."),
        (["--cloth", "18x21*25"], "is not a whole number from 1 to 24."),
        (["--cloth", "18x21*"], "--cloth"),
        (["--cloth", "18x21*24", "18x21"], "1 to 24 pieces of cloth, not on 25"),
        (
            ["--cloth", "felt:18x21"],
            "“felt” is no fabric of this pattern. There are: exterior",
        ),
        (["--cloth", ":18x21"], "“” is no fabric of this pattern."),
        (["--cloth", "18x21", "--keep", "width"], "leaves no single measure to grow"),
        (["--cloth", "18x21", "--keep", "width,width"], "leaves no single measure to grow"),
        (["--cloth", "18x21", "--keep", "volume", "--keep", "volume"], "--keep is given twice"),
        (["--cloth", "18x21", "--one-way", "--option", "lining-print=no-direction"], "is given twice"),
        (["--cloth", "18x21", "wdth=7"], "There is no measure “wdth”"),
        ([], "--cloth"),
    ],
)
def test_what_cannot_be_read_is_one_line(words, message):
    code, answer, said = run(BASKET, *words)
    assert (code, answer) == (2, None)
    assert message in said
    assert "\n" not in said


def test_people_read_where_each_piece_lies():
    out = StringIO()
    call_command("from-cloth", BASKET, "--cloth", "18x21*2", stdout=out)
    assert out.getvalue().splitlines() == [
        "Fold-flat basket: width 10 3⁄4 in, height 7 in, depth 6 in, seam allowance 1⁄2 in",
        "  Cloth 1, 18 in × 21 in:",
        "    exterior panel: 17 3⁄4 in × 21 in; 0 in across from the left edge, 0 in along",
        "  Cloth 2, 18 in × 21 in:",
        "    lining panel: 17 3⁄4 in × 21 in; 0 in across from the left edge, 0 in along",
        "  Every larger size is shown to be impossible.",
    ]
