"""A customer's own cloth on the page of a pattern: sent, drawn at its true scale, seen by nobody else."""

import re
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from patterns import own_cloth, own_cloth_views
from patterns.models import Pattern
from patterns.one_at_a_time import BusyError
from patterns.own_cloth import sweep_own_cloths
from patterns.publishing import publish
from patterns.starters import text_of as recipe_of
from studio import uploads
from tests.orders.conftest import text_of, words_of
from tests.pictures import SVG, exif, jpeg

NOW = datetime(2026, 11, 28, 14, 20, tzinfo=UTC)
SIZE = "units=in&width=9&height=6&depth=5"


@pytest.fixture(autouse=True)
def now(time_machine):
    time_machine.move_to(NOW, tick=False)


def send(client, pattern, size=SIZE, **typed):
    files = {
        key: SimpleUploadedFile("cloth.jpg", content)
        for key, content in typed.items()
        if isinstance(content, bytes)
    }
    address = reverse("patterns:pattern-own-cloth", args=[pattern.slug])
    return client.post(address, {**typed, **files, "size": size})


def send_exterior(client, pattern, strip="4 1/2", content=None, **typed):
    picture = jpeg(600, 400) if content is None else content
    return send(client, pattern, exterior_picture=picture, exterior_strip=strip, **typed)


def page(client, pattern, size=SIZE):
    return text_of(client.get(f"{pattern.get_absolute_url()}?{size}"))


def pictures_in(html):
    return sorted(set(re.findall(r'href="(/own-cloth/[^"]+)"', html)))


def files(settings):
    return sorted(path.name for path in (Path(settings.MEDIA_ROOT) / "own-cloth").rglob("*.jpg"))


def test_cloth_is_drawn_at_its_true_scale(client, basket):
    response = send_exterior(client, basket, strip="4 1/2")
    assert response.status_code == 303
    assert response.headers["Location"].endswith("#size-sight")
    assert "width=9&" in response.headers["Location"]
    html = page(client, basket)
    # A picture of 4 1/2 in, 600 × 400 pixels, is a tile of 114.3 × 76.2 mm.
    assert 'patternUnits="userSpaceOnUse" width="114.3" height="76.2"' in html
    assert "Your own cloth is shown on the exterior." in html
    assert "the exterior unrolled" in html
    assert len(pictures_in(html)) == 1


def test_picture_is_the_sessions_own(client, basket):
    send_exterior(client, basket)
    (address,) = pictures_in(page(client, basket))
    response = client.get(address)
    assert response.status_code == 200
    assert response.headers["Content-Type"] == "image/jpeg"
    assert response.headers["Cache-Control"] == "private, max-age=600"
    assert response.headers["X-Content-Type-Options"] == "nosniff"
    assert "Cookie" in response.headers["Vary"]
    stranger = Client()
    assert stranger.get(address).status_code == 404
    assert pictures_in(page(stranger, basket)) == []


def test_owner_does_not_see_it(client, basket, django_user_model):
    send_exterior(client, basket)
    (address,) = pictures_in(page(client, basket))
    owner = Client()
    owner.force_login(django_user_model.objects.create_superuser("owner"))
    assert owner.get(address).status_code == 404


@pytest.mark.parametrize("token", ["no-such", "2026112814-00000000-" + "0" * 32, "..%2fshop"])
@pytest.mark.django_db
def test_other_tokens(client, token):
    assert client.get(f"/own-cloth/{token}.jpg").status_code == 404


def test_nothing_that_came_with_it_is_kept(client, basket, settings):
    send_exterior(client, basket, content=jpeg(600, 400, exif=exif(place=True), comment=b"secret"))
    (kept,) = (Path(settings.MEDIA_ROOT) / "own-cloth").rglob("*.jpg")
    content = kept.read_bytes()
    assert not any(word in content for word in (b"secret", b"Exif", b"camera"))


def test_both_sides_and_the_middle_of_a_picture(client, basket):
    send(
        client,
        basket,
        exterior_picture=jpeg(800, 600),
        exterior_strip="10 cm",
        exterior_part="50",
        lining_picture=jpeg(800, 800),
        lining_strip="3",
    )
    html = page(client, basket)
    assert 'width="100" height="75"' in html
    assert 'width="76.2" height="76.2"' in html
    assert "shown on the exterior and the lining" in html


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({}, "There is no picture. Choose one of a cloth."),
        ({"exterior_strip": "4"}, "There is no picture to this width."),
        ({"exterior_picture": jpeg(600, 400)}, "Write how wide the strip is that the picture shows"),
        ({"exterior_picture": jpeg(600, 400), "exterior_strip": "wide"}, "“wide” is not a length"),
        (
            {"exterior_picture": jpeg(600, 400), "exterior_strip": "900"},
            "900 in cannot be shown. Write 1/4 in to 78 in.",
        ),
        ({"exterior_picture": SVG, "exterior_strip": "4"}, "That is an SVG drawing."),
        ({"exterior_picture": b"", "exterior_strip": "4"}, "That is an empty file."),
        ({"lining_picture": jpeg(600, 100), "lining_strip": "4"}, "The shorter side needs 200 or more"),
        ({"exterior_picture": bytes(5 * 1024 * 1024 + 1), "exterior_strip": "4"}, "larger than 5 MB"),
    ],
)
def test_mistakes_are_told_and_nothing_is_kept(client, basket, settings, typed, says):
    response = send(client, basket, **typed)
    assert response.status_code == 200
    assert says in words_of(response)
    assert "<title>Error: " in text_of(response)
    assert files(settings) == []
    if "exterior_strip" in typed:
        assert f'value="{typed["exterior_strip"]}"' in text_of(response)
    assert "width=9&amp;" in text_of(response)


def test_file_far_too_large_is_dropped(client, basket, monkeypatch):
    monkeypatch.setattr(uploads, "MOST_BYTES", 10_000)
    response = send_exterior(client, basket, content=bytes(20_000))
    assert "The file is larger than 5 MB." in words_of(response)


def test_width_is_changed_without_another_picture(client, basket, settings):
    send_exterior(client, basket, strip="4")
    before = files(settings)
    send(client, basket, exterior_strip="8", exterior_one_way="on", on_cover="on")
    html = page(client, basket)
    assert 'width="203.2"' in html
    assert files(settings) == before
    assert 'name="on_cover" id="id_on_cover" checked' in html


def test_another_picture_takes_its_place(client, basket, settings):
    send_exterior(client, basket)
    before = files(settings)
    send_exterior(client, basket, content=jpeg(900, 600))
    assert len(files(settings)) == 1
    assert files(settings) != before


def test_taken_off(client, basket, settings):
    send(
        client,
        basket,
        exterior_picture=jpeg(600, 400),
        exterior_strip="4",
        lining_picture=jpeg(600, 600),
        lining_strip="4",
    )
    address = reverse("patterns:own-cloth-off", args=[basket.slug])
    assert client.post(address, {"off": "lining", "size": SIZE}).status_code == 303
    assert len(files(settings)) == 1
    assert "shown on the exterior." in page(client, basket)
    client.post(address, {"size": SIZE})
    assert files(settings) == []
    assert pictures_in(page(client, basket)) == []
    assert client.get(address).status_code == 405


def test_each_pattern_has_its_own(client, basket, make_pattern):
    other = make_pattern("gift-bag", recipe_of("gift-bag"))
    send_exterior(client, basket)
    assert pictures_in(page(client, other, "units=in")) == []


def test_print_with_a_direction_is_warned_of(client, basket):
    send_exterior(client, basket, exterior_one_way="on")
    html = page(client, basket)
    assert "One panel runs round under the base here, so the print stands upside down on one face." in html
    assert "exterior-print=one-way" in html
    upright = page(client, basket, f"{SIZE}&exterior-print=one-way")
    assert "stands upside down on one face" not in upright
    assert "Two panels meet in the base seam" in upright


def test_pieces_that_may_be_turned_are_warned_of(client, make_pattern):
    tote = make_pattern("boxed-tote", recipe_of("boxed-tote"))
    send_exterior(client, tote, size="units=in", exterior_one_way="on")
    assert "its pieces may be turned here to save cloth" in page(client, tote, "units=in")


@pytest.mark.parametrize(
    "slug", ["round-bucket", "zip-pouch", "window-pouch", "packable-tote", "drawstring-bag"]
)
def test_every_form_wears_it(client, make_pattern, slug):
    pattern = make_pattern(slug, recipe_of(slug))
    send_exterior(client, pattern, size="units=cm")
    assert "shown on the exterior." in page(client, pattern, "units=cm")


def test_part_of_the_page_follows_the_size(client, basket):
    send_exterior(client, basket)
    part = text_of(
        client.get(
            f"{basket.get_absolute_url()}?units=in&width=12&height=6&depth=5", headers={"HX-Request": "true"}
        )
    )
    assert len(pictures_in(part)) == 1
    assert 'id="own-cloth-size" value="units=in&amp;width=12' in part


def test_gone_after_a_day(client, basket, settings, time_machine):
    send_exterior(client, basket)
    (address,) = pictures_in(page(client, basket))
    time_machine.move_to(NOW + timedelta(hours=23, minutes=30), tick=False)
    assert sweep_own_cloths(datetime.now(UTC)) == 0
    assert client.get(address).status_code == 200
    time_machine.move_to(NOW + timedelta(hours=24), tick=False)
    assert client.get(address).status_code == 404
    assert pictures_in(page(client, basket)) == []
    assert sweep_own_cloths(datetime.now(UTC)) == 1
    assert files(settings) == []
    assert sweep_own_cloths(datetime.now(UTC)) == 0


def test_no_more_than_a_household_tries(client, basket, monkeypatch):
    monkeypatch.setattr(own_cloth, "MOST_AN_HOUR", 1)
    send_exterior(client, basket)
    response = send_exterior(client, basket, content=jpeg(900, 600))
    assert "no more are taken in this hour" in words_of(response)
    assert len(pictures_in(page(client, basket))) == 1


def test_one_at_a_time_for_a_visitor(client, basket, monkeypatch):
    def busy(request):
        raise BusyError

    monkeypatch.setattr(own_cloth_views, "one_at_a_time", busy)
    assert "still being opened" in words_of(send_exterior(client, basket))


def test_page_by_itself(client, basket):
    address = reverse("patterns:pattern-own-cloth", args=[basket.slug])
    html = text_of(client.get(f"{address}?{SIZE}"))
    assert 'value="units=in&amp;width=9' in html
    assert "noindex" in html


def test_strangers_sessions_and_patterns(client, basket, make_pattern):
    hidden = make_pattern("hidden-box", is_listed=False)
    assert send_exterior(client, hidden).status_code == 404
    session = client.session
    session[own_cloth.SESSION_KEY] = {basket.slug: {"exterior": {"token": "x"}}}
    session.save()
    assert pictures_in(page(client, basket)) == []


def test_size_of_the_address_goes_nowhere_else(client, basket):
    response = send_exterior(client, basket, size="//elsewhere.example/?width=7")
    assert response.headers["Location"].startswith(basket.get_absolute_url())


def test_strip_is_exact():
    cloth = own_cloth.OwnCloth("x", "1143/10", False, 600, 400)
    assert (cloth.width, cloth.height) == (Fraction(1143, 10), Fraction(381, 5))


@pytest.mark.django_db
def test_recipe_without_print_options(client):
    pattern = Pattern.objects.create(slug="shelf", is_listed=True)
    from tests.patterns.conftest import SHELF_TEXT

    publish(pattern, SHELF_TEXT)
    send_exterior(client, pattern, size="units=in", exterior_one_way="on")
    assert "but its pieces may be turned here" in page(client, pattern, "units=in")
