import json

import pytest

from patterns.drafting.sized_json import FormatError, from_json, to_json
from patterns.drafting.sizing import size
from tests.recipes import CM, IN, make_recipe


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
