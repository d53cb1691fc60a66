import json
from pathlib import Path

import pytest

from patterns.drafting.sized_json import FormatError, from_json, to_json
from patterns.drafting.sizing import size
from patterns.starters import read_starter
from tests.recipes import CM, IN, make_disc, make_recipe

KEPT = Path(__file__).parent / "kept"


@pytest.mark.parametrize("units", [IN, CM])
@pytest.mark.parametrize("choice", ["none", "fleece"])
def test_json_and_back_is_equal(units, choice, no_floats):
    sized = size(make_recipe(), "folding-mat", units, options={"stiffening": choice})
    kept = json.loads(json.dumps(to_json(sized)))
    again = from_json(kept)
    assert again == sized
    assert to_json(again) == kept
    assert again.working(again.pieces[0].width) == sized.working(sized.pieces[0].width)


def test_lengths_are_kept_as_exact_millimetres():
    kept = to_json(size(make_recipe(), "folding-mat", IN))
    assert kept["format"] == 1
    assert kept["values"]["seam allowance"] == "127/10"
    assert kept["values"]["diagonal"].startswith("≈274.7")
    assert kept["pieces"][0]["width"] == {
        "value": "254",
        "power": 1,
        "formula": "width + 2 × seam allowance",
    }


def test_an_unknown_format_is_refused():
    with pytest.raises(FormatError, match="format 2 is unknown; 1 is the newest"):
        from_json({"format": 2})


def test_an_outline_is_kept_corner_by_corner(no_floats):
    sized = size(make_recipe(pieces=(make_disc(),)), "disc", IN)
    kept = json.loads(json.dumps(to_json(sized)))
    assert kept["pieces"][0]["shape"] == "circle"
    assert kept["pieces"][0]["outline"][0] == {
        "across": {"value": "1143/10", "power": 1, "formula": "disc width ÷ 2"},
        "down": {"value": "0", "power": 1, "formula": "0"},
        "arc": "right",
    }
    assert from_json(kept) == sized


def test_what_was_kept_before_there_were_outlines_is_read():
    kept = json.loads((KEPT / "format_1.json").read_text())
    assert "outline" not in kept["pieces"][0]
    sized = from_json(kept)
    assert [(piece.shape, piece.outline) for piece in sized.pieces] == [("rectangle", ())] * 2
    assert sized == size(make_recipe(), "folding-mat", IN, options={"stiffening": "fleece"})


def test_what_steps_do_to_the_cloth_is_kept(no_floats):
    sized = size(read_starter("fold-flat-basket"), "fold-flat-basket", CM)
    kept = json.loads(json.dumps(to_json(sized)))
    assert from_json(kept) == sized
    (act,) = next(step["work"] for step in kept["steps"] if step["title"] == "Trim the side seams")
    assert act == {
        "verb": "trim",
        "names": {"trim": ["corners"]},
        "amounts": {"leave": {"value": "5", "power": 1, "formula": "seam allowance ÷ 2"}},
    }


def test_what_was_kept_before_steps_said_what_they_do_is_read():
    kept = to_json(size(make_recipe(), "folding-mat", IN))
    for step in kept["steps"]:
        del step["work"]
    assert from_json(kept) == size(make_recipe(), "folding-mat", IN)
