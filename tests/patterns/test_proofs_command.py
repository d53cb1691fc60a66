from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from PIL import Image

from patterns.documents.proofs import proof as room
from patterns.documents.proofs.boxes import Box
from patterns.documents.proofs.cases import every_case
from patterns.documents.proofs.faults import Fault
from patterns.management import pictures
from patterns.management.commands import proofs
from patterns.management.commands.proofs import Command

CASE = "fold-flat-basket-short-smallest-in-a4-first"


@pytest.fixture(autouse=True)
def one_book(monkeypatch):
    """Of all books only the first."""
    monkeypatch.setattr(proofs, "every_case", lambda *asked: list(every_case(*asked))[:1])


def looked(folder, capsys):
    try:
        call_command("proofs", str(folder), "--recipe", "fold-flat-basket", "--kind", "short")
        code = 0
    except SystemExit as ended:
        code = ended.code
    return code, capsys.readouterr()


def test_books_are_shown_on_one_page_with_pictures(tmp_path, capsys):
    code, said = looked(tmp_path / "new", capsys)
    assert code == 0
    assert "1 books, 2 pages, 0 faults" in said.out
    html = (tmp_path / "new" / "proofs.html").read_text(encoding="utf-8")
    assert f'src="{CASE}.png"' in html
    assert f'href="{CASE}.pdf"' in html
    with Image.open(tmp_path / "new" / f"{CASE}.png") as sheet:
        assert sheet.width > 1000
        assert sheet.getextrema() != ((0, 0),)
    assert (tmp_path / "new" / f"{CASE}.pdf").read_bytes().startswith(b"%PDF-")


def test_a_fault_is_told_framed_and_ends_with_1(tmp_path, capsys, monkeypatch):
    fault = Fault("small-letters", 2, "“one” is set in 6.8 pt.", Box(100, 100, 200, 120))
    monkeypatch.setattr(room, "faults", lambda document: (fault, fault))
    code, said = looked(tmp_path, capsys)
    assert code == 1
    assert said.out.count(f"{CASE}, page 2: “one” is set in 6.8 pt. [small-letters]") == 1
    assert "1 with faults" in (tmp_path / "proofs.html").read_text(encoding="utf-8")
    with Image.open(tmp_path / f"{CASE}-page-2.png") as page:
        scale = pictures.PAGE_DPI / 72
        edge = (round(100 * scale) - 3, page.height - round(110 * scale))
        assert page.convert("RGB").getpixel(edge) == (0xA8, 0x45, 0x2C)


def test_without_the_program_for_pictures_it_says_what_to_install(tmp_path, monkeypatch):
    monkeypatch.setattr(pictures, "PRINTER", "no-such-program")
    with pytest.raises(pictures.PictureError, match="install poppler-utils"):
        pictures.contact_sheet(Path("none.pdf"), tmp_path / "none.png")


def test_a_folder_that_cannot_be_is_said_in_one_line(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(CommandError, match="cannot be written"):
        call_command("proofs", str(tmp_path / "file"))


def test_all_is_made_unless_less_is_asked_for():
    parser = Command().create_parser("manage.py", "proofs")
    asked = parser.parse_args(["DIR"])
    assert (asked.recipe, asked.kind, asked.few, asked.jobs) == (None, None, False, 1)
