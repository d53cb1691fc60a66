"""The owner's page of a pattern's photographs, their files, and where customers see them."""

import json
import re
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.db.models import ProtectedError
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from patterns import photograph_forms, photographs
from patterns.models import MOST_PHOTOGRAPHS, Photograph
from patterns.picture_rules import MadeFile
from studio import uploads
from tests.orders.conftest import owner_client as owner_client
from tests.orders.conftest import text_of
from tests.pictures import SVG, jpeg

SITE = "https://patterns.example"


@pytest.fixture
def shelf(make_pattern):
    return make_pattern()


def page_of(pattern):
    return reverse("patterns:pattern-photographs", args=[pattern.slug])


def send(client, pattern, content=None, alt="The box on a shelf.", name="shelf.jpg"):
    picture = SimpleUploadedFile(name, jpeg(1000, 700) if content is None else content)
    return client.post(page_of(pattern), {"picture": picture, "alt": alt})


def made(shade):
    """Files as the child process gives them."""
    return [
        MadeFile(width, width, ending, bytes([shade]) * width)
        for width in (480, 600)
        for ending in ("webp", "jpg")
    ]


@pytest.fixture
def three(shelf):
    return [photographs.add(shelf, made(shade), f"Picture {shade}") for shade in (1, 2, 3)]


def files(settings):
    return sorted(path.name for path in Path(settings.MEDIA_ROOT).rglob("*") if path.is_file())


def test_owner_adds_one_and_customers_see_it(client, owner_client, shelf, settings):
    settings.SITE_URL = SITE
    assert send(owner_client, shelf, alt="  The box \n on a shelf. ").status_code == 303
    photograph = Photograph.objects.get()
    assert (photograph.alt, photograph.position, photograph.width, photograph.height, photograph.widths) == (
        "The box on a shelf.",
        1,
        1000,
        700,
        [480, 960, 1000],
    )
    done = text_of(owner_client.get(page_of(shelf)))
    assert "Customers now see the photograph: “The box on a shelf.”" in done
    on_list, on_page = (text_of(client.get(path)) for path in ("/", shelf.get_absolute_url()))
    for html in (on_list, on_page):
        picture = re.search("<picture>.*?</picture>", html)[0]
        assert picture.count(f"/photographs/{photograph.address}-960.webp 960w") == 1
        assert 'width="1000" height="700" alt="The box on a shelf."' in picture
        assert "sizes=" in picture
        assert "lazy" not in picture
    block = json.loads(re.search(r'<script type="application/ld\+json">(.*?)</script>', on_page)[1])
    assert block["image"] == [f"{SITE}/photographs/{photograph.address}-1000.jpg"]
    assert f'property="og:image" content="{SITE}/photographs/{photograph.address}-1000.jpg"' in on_page
    assert f'href="{SITE}/photographs/{photograph.address}-1000.jpg"' in text_of(client.get("/feed/"))


def test_files_are_served_for_good(client, owner_client, shelf):
    send(owner_client, shelf)
    photograph = Photograph.objects.get()
    for ending, kind in (("webp", "image/webp"), ("jpg", "image/jpeg")):
        response = client.get(photograph.file_url(480, ending))
        assert response.headers["Content-Type"] == kind
        assert response.headers["Cache-Control"] == "public, max-age=31536000, immutable"
        assert response.headers["X-Content-Type-Options"] == "nosniff"
        assert "default-src 'none'" in response.headers["Content-Security-Policy"]
        assert int(response.headers["Content-Length"]) == len(response.content)
        assert "Cookie" not in response.headers.get("Vary", "")
        assert not response.cookies
    assert client.head(photograph.file_url(480, "jpg")).status_code == 200
    assert client.post(photograph.file_url(480, "jpg")).status_code == 405


@pytest.mark.parametrize(
    "path",
    [
        f"/photographs/{'a' * 64}-480.jpg",
        f"/photographs/{'a' * 64}-480.pdf",
        f"/photographs/{'A' * 64}-480.jpg",
        "/photographs/..%2f..%2fshop.sqlite3-480.jpg",
        f"/photographs/{'a' * 64}-481.webp",
    ],
)
@pytest.mark.django_db
def test_other_addresses_are_not_there(client, path):
    assert client.get(path).status_code == 404


def test_pattern_without_photographs_is_drawn(client, shelf):
    html = text_of(client.get("/"))
    assert "<picture>" not in html
    assert "<svg" in html
    page = text_of(client.get(shelf.get_absolute_url()))
    assert "og:image" not in page
    assert '"image"' not in page
    assert "Made up" not in page


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"alt": " "}, "There is no description."),
        ({"alt": "x" * 251}, "Write at most 250 characters."),
        ({"content": b""}, "The file is empty."),
        ({"content": SVG, "name": "shelf.jpg"}, "That is an SVG drawing."),
        ({"content": jpeg(1000, 700)[:3000]}, "The file is damaged or not all there."),
    ],
)
def test_mistakes_are_told_and_nothing_is_kept(owner_client, shelf, settings, changed, says):
    page = text_of(send(owner_client, shelf, **changed))
    assert says in page
    assert "There is a problem" in page
    assert "<title>Error: " in page
    assert not Photograph.objects.exists()
    assert files(settings) == []


def test_words_are_kept_where_the_file_is_refused(owner_client, shelf):
    page = text_of(send(owner_client, shelf, content=SVG, alt="The box, full"))
    assert 'value="The box, full"' in page


def test_without_a_file(owner_client, shelf):
    page = text_of(owner_client.post(page_of(shelf), {"alt": "The box"}))
    assert "There is no photograph. Choose a file." in page


def test_limits_are_said_before(owner_client, shelf):
    page = text_of(owner_client.get(page_of(shelf)))
    assert "JPEG, PNG or WebP file of at most 20 MB and 40 megapixels, 480 to 12,000 pixels a side." in page


def test_file_far_too_large_is_dropped_as_it_comes(owner_client, shelf, settings, monkeypatch):
    monkeypatch.setattr(uploads, "MOST_BYTES", 100_000)
    page = text_of(send(owner_client, shelf, content=bytes(200_000)))
    assert "The file is larger than 20 MB. Make the picture smaller and send that." in page
    assert 'value="The box on a shelf."' in page


def test_endless_upload_is_not_read(owner_client, shelf, monkeypatch):
    monkeypatch.setattr(uploads, "MOST_READ", 1000)
    assert send(owner_client, shelf).status_code == 200
    assert not Photograph.objects.exists()


def test_same_photograph_twice(owner_client, shelf):
    send(owner_client, shelf)
    assert "This photograph is there already." in text_of(send(owner_client, shelf))
    assert Photograph.objects.count() == 1


def test_as_many_as_are_shown(owner_client, shelf, monkeypatch):
    for shade in range(MOST_PHOTOGRAPHS):
        photographs.add(shelf, made(shade), f"Picture {shade}")
    monkeypatch.setattr(photograph_forms, "pictures_of", lambda *asked: pytest.fail("it was opened"))
    assert "Remove one first." in text_of(send(owner_client, shelf))
    assert "Add this photograph" not in text_of(owner_client.get(page_of(shelf)))


def test_order_is_changed(client, owner_client, shelf, three):
    def shown():
        return re.findall('alt="Picture (.)"', text_of(client.get(shelf.get_absolute_url())))

    def go(photograph, to):
        return owner_client.post(reverse("patterns:photograph-move", args=[photograph.pk]), {"to": to})

    assert go(three[2], "earlier").status_code == 303
    assert shown() == ["1", "3", "2"]
    go(three[0], "later")
    assert shown() == ["3", "1", "2"]
    go(three[2], "earlier")
    go(three[1], "later")
    assert shown() == ["3", "1", "2"]
    html = text_of(client.get(shelf.get_absolute_url()))
    assert html.count('loading="lazy"') == 2
    assert 'alt="Picture 3"' in text_of(client.get("/"))


def test_other_words(owner_client, shelf, three):
    address = reverse("patterns:photograph-describe", args=[three[1].pk])
    box = f"photograph-{three[1].pk}-alt"
    page = text_of(owner_client.post(address, {box: " "}))
    assert "There is no description." in page
    assert f'href="#id_{box}"' in page
    assert owner_client.post(address, {box: "The box from above"}).status_code == 303
    three[1].refresh_from_db()
    assert three[1].alt == "The box from above"


def test_removed_with_its_files(
    client, owner_client, shelf, three, settings, django_capture_on_commit_callbacks
):
    address = reverse("patterns:photograph-remove", args=[three[1].pk])
    assert "“Picture 2”" in text_of(owner_client.get(address))
    assert Photograph.objects.count() == 3
    with django_capture_on_commit_callbacks(execute=True):
        assert owner_client.post(address).status_code == 303
    assert client.get(three[1].largest).status_code == 404
    assert len(files(settings)) == 8
    assert not any(three[1].address in name for name in files(settings))
    assert "is gone from the shop" in text_of(owner_client.get(page_of(shelf)))


def test_patterns_do_not_share_files(make_pattern, shelf, three):
    other = make_pattern("another-box")
    assert photographs.add(other, made(1), "The same").address != three[0].address


def test_pattern_with_photographs_is_not_deleted(shelf, three):
    with pytest.raises(ProtectedError):
        shelf.delete()


@pytest.mark.parametrize("name", ["describe", "move", "remove"])
def test_strangers_are_asked_to_log_in(client, shelf, three, name):
    for path in (
        page_of(shelf),
        reverse("patterns:photograph-list"),
        reverse(f"patterns:photograph-{name}", args=[three[0].pk]),
    ):
        for response in (client.get(path), client.post(path)):
            assert response.status_code in (302, 405)
    assert Photograph.objects.count() == 3


def test_unknown_ones(owner_client, shelf):
    assert owner_client.get("/workroom/patterns/no-such/photographs/").status_code == 404
    assert owner_client.post(reverse("patterns:photograph-move", args=[1])).status_code == 404
    assert owner_client.get(reverse("patterns:photograph-move", args=[1])).status_code == 405


def test_she_finds_the_page(owner_client, shelf, three):
    address = page_of(shelf)
    row = text_of(owner_client.get(reverse("patterns:photograph-list")))
    assert "<td>3</td>" in row
    assert address in row
    assert address in text_of(owner_client.get(shelf.get_absolute_url()))
    assert address in text_of(owner_client.get(reverse("admin:patterns_pattern_changelist")))
    assert reverse("patterns:photograph-list") in text_of(owner_client.get(reverse("orders:owner-orders")))


def test_queries_do_not_grow(client, make_pattern, three, django_assert_num_queries):
    client.get("/")
    with CaptureQueriesContext(connection) as captured:
        client.get("/")
    one = len(captured)
    for number in range(9):
        photographs.add(make_pattern(f"box-{number}"), made(number), "A box")
    client.get("/")  # each recipe is read once in a process
    with django_assert_num_queries(one):
        client.get("/")
