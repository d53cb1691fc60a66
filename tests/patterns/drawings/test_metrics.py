"""The table of widths against the font itself."""

import importlib.util
from pathlib import Path

from fontTools.subset import Subsetter
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

from patterns.drawings.metrics import WIDTHS, text_width


def test_widths_are_those_of_the_text_face() -> None:
    spec = importlib.util.find_spec("fontpkg_source_sans_3")
    assert spec is not None
    assert spec.origin is not None
    whole = TTFont(Path(spec.origin).parent / "files" / "SourceSans3[wght].ttf")
    needed = Subsetter()
    needed.populate(text="".join(WIDTHS))
    needed.subset(whole)
    font = instantiateVariableFont(whole, {"wght": 400})
    glyphs, advances = font.getBestCmap(), font["hmtx"]
    assert font["head"].unitsPerEm == 1000
    assert {sign: advances[glyphs[ord(sign)]][0] for sign in WIDTHS} == WIDTHS


def test_text_width_is_never_less_than_it_takes() -> None:
    assert text_width("10", 3000) == 2982
    assert text_width("i", 1) == 1  # 0.246 of a micrometre


def test_sign_of_another_script_counts_as_a_square() -> None:
    assert text_width("袋", 3000) == 3000
