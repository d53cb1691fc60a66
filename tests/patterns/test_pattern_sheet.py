import threading
from io import BytesIO
from pathlib import Path

import pytest
from django.urls import reverse
from pikepdf import Pdf

from patterns import sheets
from patterns.documents.check import check
from patterns.drafting.units import Units
from patterns.publishing import publish
from patterns.sheets import Sheet, made

from .conftest import SHELF_TEXT

pytestmark = pytest.mark.django_db
IN, CM = Units.INCHES, Units.CENTIMETRES
WORKSHEET = Sheet("worksheet", IN, "a4")


def address(slug="shelf-box", sheet="worksheet-in-a4"):
    return f"/patterns/{slug}/{sheet}.pdf"


@pytest.fixture
def drawn(monkeypatch):
    """Sheets made of no pages, in no time; the list holds what was asked for."""
    asked = []

    def body(kind):
        def make(recipe, units, paper):
            asked.append((recipe.title, kind, units, paper))
            return f"%PDF- {kind} {units} {paper}".encode()

        return make

    monkeypatch.setattr(sheets, "MAKERS", {kind: body(kind) for kind in sheets.MAKERS})
    return asked


def kept(settings):
    return [path for path in Path(settings.MEDIA_ROOT).rglob("*") if path.is_file()]


def test_worksheet_is_a_pdf_of_the_pattern_with_a_name_of_its_own(client, make_pattern):
    make_pattern()
    response = client.get(address(sheet="worksheet-cm-letter"))
    assert response.status_code == 200
    assert response["Content-Type"] == "application/pdf"
    name = "shelf-box-worksheet-cm-letter.pdf"
    assert response["Content-Disposition"] == f'attachment; filename="{name}"'
    assert response["Content-Length"] == str(len(response.content))
    assert response["X-Content-Type-Options"] == "nosniff"
    assert check(response.content) == ()
    with Pdf.open(BytesIO(response.content)) as pdf:
        assert str(pdf.docinfo.Title) == "Shelf box: worksheet in centimetres"


def test_chart_is_one_too(client, make_pattern):
    make_pattern()
    with Pdf.open(BytesIO(client.get(address(sheet="chart-in-a4")).content)) as pdf:
        assert str(pdf.docinfo.Title) == "Shelf box: size chart in inches"


def test_pattern_page_links_to_both_papers_in_its_units(client, make_pattern, drawn):
    html = client.get(f"{make_pattern().get_absolute_url()}?units=cm").content.decode()
    for paper in ("a4", "letter"):
        link = address(sheet=f"worksheet-cm-{paper}")
        assert f'href="{link}" download>' in html
        assert client.get(link).status_code == 200


def test_chart_page_links_to_its_own(client, make_pattern):
    make_pattern()
    html = client.get("/patterns/shelf-box/sizes/?units=in").content.decode()
    assert address(sheet="chart-in-a4") in html
    assert address(sheet="chart-in-letter") in html


def test_address_says_which(make_pattern):
    sheet = Sheet("chart", CM, "letter")
    assert reverse("patterns:pattern-sheet", args=["shelf-box", sheet]) == address(sheet="chart-cm-letter")


def test_it_is_made_once(client, make_pattern, drawn, settings):
    make_pattern()
    first, second = client.get(address()), client.get(address())
    assert first.content == second.content
    assert drawn == [("Shelf box", "worksheet", "in", "a4")]
    assert len(kept(settings)) == 1


def test_there_are_eight_of_a_revision_and_no_more(client, make_pattern, drawn, settings):
    make_pattern()
    for kind in ("chart", "worksheet"):
        for units in ("in", "cm"):
            for paper in ("a4", "letter"):
                client.get(address(sheet=f"{kind}-{units}-{paper}"), {"interfacing": "x", "width": "7"})
    assert len(drawn) == len(kept(settings)) == 8


def test_new_revision_and_new_renderer_have_new_sheets(client, make_pattern, drawn, monkeypatch):
    pattern = make_pattern()
    client.get(address())
    publish(pattern, SHELF_TEXT.replace("Shelf box", "Better box"))
    client.get(address())
    monkeypatch.setattr(sheets, "renderer_key", lambda: "a later version")
    client.get(address())
    assert [title for title, *_ in drawn] == ["Shelf box", "Better box", "Better box"]


def test_two_visitors_at_once_wait_for_one(make_pattern, monkeypatch):
    """The second comes while the first draws, and finds what that one kept."""
    revision = make_pattern().latest_revision
    recipe, drawn, begun = revision.recipe, [], threading.Event()

    def slow(recipe, units, paper):
        drawn.append(recipe.title)
        begun.set()
        second.join(0.2)
        return b"%PDF-"

    monkeypatch.setattr(sheets, "MAKERS", {"worksheet": slow})
    monkeypatch.setattr(type(revision), "recipe", recipe)
    found = []
    second = threading.Thread(target=lambda: begun.wait(5) and found.append(made(revision, WORKSHEET)))
    second.start()
    found.append(made(revision, WORKSHEET))
    second.join(5)
    assert found == [b"%PDF-", b"%PDF-"]
    assert drawn == ["Shelf box"]


def test_failure_keeps_nothing(client, make_pattern, monkeypatch, settings):
    make_pattern()

    def fail(*_):
        raise RuntimeError("no pages")

    monkeypatch.setattr(sheets, "MAKERS", {"worksheet": fail})
    with pytest.raises(RuntimeError):
        client.get(address())
    assert not kept(settings)


def test_pattern_without_named_sizes_has_a_worksheet_and_no_chart(client, make_pattern, settings):
    make_pattern(text=SHELF_TEXT[: SHELF_TEXT.index("[sizes.")])
    assert client.get(address(sheet="chart-in-a4")).status_code == 404
    assert client.get(address()).status_code == 200


def test_stranger_gets_404_and_the_owner_does_not(client, make_pattern, owner, drawn):
    make_pattern(is_listed=False)
    assert client.get(address()).status_code == 404
    assert not drawn
    client.force_login(owner)
    assert client.get(address()).status_code == 200


@pytest.mark.parametrize(
    "sheet", ["book-in-a4", "worksheet-mm-a4", "worksheet-in-a5", "worksheet-in", "worksheet-in-a4-a4"]
)
def test_unknown_sheet_gets_404(client, make_pattern, drawn, sheet):
    make_pattern()
    assert client.get(address(sheet=sheet)).status_code == 404
    assert not drawn


def test_unknown_pattern_gets_404(client, make_pattern, drawn):
    make_pattern("unpublished", text=None)
    assert client.get(address("no-such-pattern")).status_code == 404
    assert client.get(address("unpublished")).status_code == 404


@pytest.mark.parametrize("method", ["post", "put", "delete"])
def test_wrong_method_gets_405(client, make_pattern, method):
    make_pattern()
    assert getattr(client, method)(address()).status_code == 405
