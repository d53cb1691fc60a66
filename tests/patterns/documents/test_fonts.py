import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from django.contrib.staticfiles import finders
from fontTools.ttLib import TTFont

from patterns.documents import fonts
from patterns.documents.errors import DocumentError

PROJECT = Path(__file__).resolve().parents[3]
PRINTED = {face.stem: face for face in fonts.FACES}
ON_PAGES = {stem: face for stem, face in PRINTED.items() if face.family != fonts.NAMES_FAMILY}
# What lengths, formulas and sentences are written with.
NEEDED = "½⅓⅔¼¾⅛⅜⅝⅞⁄×÷−≤≥≠≈√πØ′″←↑→↓⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉–—…‘’“”€£\u00a0\u2009\u202f\u2011ŐőŁłĐșț"


@pytest.fixture(scope="module")
def folder() -> Path:
    return fonts.directory()


def opened(folder: Path, stem: str) -> TTFont:
    return TTFont(folder / "print" / f"{stem}.ttf")


def files_in(folder: Path) -> dict[str, bytes]:
    parts = (folder / "print", folder / "web")
    return {f"{part.name}/{file.name}": file.read_bytes() for part in parts for file in part.iterdir()}


def test_two_builds_give_the_same_bytes(folder, tmp_path):
    """The other build is another process, with another hash seed, at another time."""
    command = [sys.executable, "-m", "patterns.documents.fonts"]
    environment = {**os.environ, "SHOP_DATA": str(tmp_path), "PYTHONHASHSEED": "7"}
    subprocess.run(command, cwd=PROJECT, env=environment, check=True, timeout=300, capture_output=True)
    assert files_in(tmp_path / "fonts") == files_in(folder)
    assert fonts.digest(tmp_path / "fonts") == fonts.digest(folder)


def test_built_fonts_are_left_alone(folder, monkeypatch):
    monkeypatch.setattr(fonts, "write_fonts", lambda made: pytest.fail("built again"))
    assert fonts.build(folder) is False


def test_fonts_of_another_version_are_built_again_whole(tmp_path, monkeypatch):
    def write(made: Path) -> None:
        (made / "print").mkdir(parents=True)
        (made / "print" / "new.ttf").touch()

    monkeypatch.setattr(fonts, "write_fonts", write)
    (tmp_path / "fonts" / "print").mkdir(parents=True)
    (tmp_path / "fonts" / "print" / "old.ttf").touch()
    assert fonts.build(tmp_path / "fonts") is True
    assert [file.name for file in (tmp_path / "fonts" / "print").iterdir()] == ["new.ttf"]
    assert [file.name for file in tmp_path.iterdir()] == ["fonts"]


def test_every_face_is_there_for_print_and_page_with_its_licence(folder):
    licences = {"source-sans-3-licence.txt", "bitter-licence.txt"}
    assert {file.name for file in (folder / "print").iterdir()} == {
        f"{stem}.ttf" for stem in PRINTED
    } | licences
    assert {file.name for file in (folder / "web").iterdir()} == {
        f"{stem}.woff2" for stem in ON_PAGES
    } | licences
    assert all("SIL OPEN FONT LICENSE" in (folder / "web" / name).read_text() for name in licences)


@pytest.mark.parametrize("stem", ON_PAGES)
def test_face_has_every_sign_of_the_trade(folder, stem):
    for font in (opened(folder, stem), TTFont(folder / "web" / f"{stem}.woff2")):
        missing = [sign for sign in NEEDED if ord(sign) not in font.getBestCmap()]
        assert missing == []


def test_names_of_many_scripts_have_their_letters(folder):
    letters = opened(folder, "workroom-names-400").getBestCmap()
    assert [letter for letter in "NguyễnΕλένηЇжакевичŁukaszÁ" if ord(letter) not in letters] == []


@pytest.mark.parametrize("stem", PRINTED)
def test_face_is_static_and_chosen_by_our_name_and_its_weight(folder, stem):
    font, face = opened(folder, stem), PRINTED[stem]
    assert "fvar" not in font
    assert font["name"].getDebugName(16) == face.family
    assert (font["OS/2"].usWeightClass, bool(font["OS/2"].fsSelection & 1)) == (face.weight, face.is_italic)


@pytest.mark.parametrize("stem", PRINTED)
def test_reserved_names_are_not_ours(folder, stem):
    names = opened(folder, stem)["name"]
    shown = [names.getDebugName(number) for number in (1, 3, 4, 6, 16)]
    assert not any(reserved in name for reserved in ("Source", "Bitter") for name in (shown[0], *shown[2:]))


@pytest.mark.parametrize("stem", ON_PAGES)
def test_face_sets_fractions_and_tabular_figures(folder, stem):
    font = opened(folder, stem)
    features = {record.FeatureTag for record in font["GSUB"].table.FeatureList.FeatureRecord}
    assert {"frac", "numr", "dnom", "sups", "subs"} <= features
    widths = {font["hmtx"][font.getBestCmap()[ord(figure)]][0] for figure in "0123456789"}
    assert "tnum" in features or max(widths) - min(widths) <= 1  # of 1,000 to the em


@pytest.mark.parametrize(
    "stem", [stem for stem, face in ON_PAGES.items() if face.family == fonts.TEXT_FAMILY]
)
def test_figures_of_a_fraction_are_larger_than_the_same_figures_raised(folder, stem):
    font = opened(folder, stem)
    (over,) = {maps["seven"] for maps in fonts.maps_of(font, "numr")}
    (bar,) = {maps["fraction"] for maps in fonts.maps_of(font, "frac") if "fraction" in maps}
    raised = font.getBestCmap()[ord("⁷")]
    assert height(font, over) == pytest.approx(fonts.FRACTION_SIZE * height(font, raised), abs=2)
    assert height(font, bar) == pytest.approx(fonts.FRACTION_SIZE * height(font, "fraction"), abs=2)
    assert font["hmtx"][over][0] == pytest.approx(fonts.FRACTION_SIZE * font["hmtx"][raised][0], abs=1)


def height(font: TTFont, name: str) -> int:
    return font["glyf"][name].yMax - font["glyf"][name].yMin


def test_configuration_knows_this_folder_alone(folder, tmp_path):
    shutil.copytree(folder, tmp_path / "moved & gone")
    file = fonts.fontconfig_file(tmp_path / "moved & gone")
    assert file.read_text().count("<dir>") == 1
    assert f"<dir>{tmp_path}/moved &amp; gone/print</dir>" in file.read_text()
    assert [left.name for left in file.parent.glob("tmp*")] == []


def test_missing_fonts_are_said_to_be_missing(tmp_path):
    with pytest.raises(DocumentError, match=r"There are no fonts in .*setup.sh"):
        fonts.fontconfig_file(tmp_path)
    with pytest.raises(DocumentError, match="0 of 5 fonts are built"):
        fonts.digest(tmp_path)


def test_digest_tells_one_set_of_fonts_from_another(folder, tmp_path):
    shutil.copytree(folder, tmp_path / "fonts")
    with (tmp_path / "fonts" / "print" / "workroom-text-400.ttf").open("ab") as file:
        file.write(b"\0")
    assert fonts.digest(tmp_path / "fonts") != fonts.digest(folder)


def test_pages_find_the_web_fonts():
    assert finders.find("fonts/web/workroom-text-400.woff2")


SHAPED = """
import weasyprint
page = "<style>@page{size:20in;margin:0}p{font:100pt 'Workroom Text'}</style><p>7\\u20448</p><p>78</p>"
weasyprint.HTML(string=page).write_pdf("shaped.pdf")
"""


def test_fraction_slash_makes_a_fraction(folder, tmp_path):
    """As wide as the 7, the bar and the 8 that the face keeps for fractions."""
    environment = {**os.environ, "FONTCONFIG_FILE": str(fonts.fontconfig_file(folder))}
    subprocess.run([sys.executable, "-c", SHAPED], cwd=tmp_path, env=environment, check=True, timeout=60)
    boxes = subprocess.check_output(["pdftotext", "-bbox", "shaped.pdf", "-"], cwd=tmp_path, text=True)
    lines = [line.split('"') for line in boxes.splitlines() if "<word" in line]
    fraction, figures = (float(parts[5]) - float(parts[1]) for parts in lines)
    font = opened(folder, "workroom-text-400")
    advance = {glyph: width for glyph, (width, _) in font["hmtx"].metrics.items()}
    (over,) = {maps["seven"] for maps in fonts.maps_of(font, "numr")}
    (under,) = {maps["eight"] for maps in fonts.maps_of(font, "dnom")}
    (bar,) = {maps["fraction"] for maps in fonts.maps_of(font, "frac") if "fraction" in maps}
    assert figures == pytest.approx((advance["seven"] + advance["eight"]) / 10, abs=0.5)
    assert fraction == pytest.approx((advance[over] + advance[bar] + advance[under]) / 10, abs=4)  # kerned
