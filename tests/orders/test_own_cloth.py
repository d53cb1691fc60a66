"""A customer's own cloth with an order: kept as part of what was sold, and seen behind its link alone."""

import hashlib
import re
from datetime import timedelta
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from orders import bodies, own_cloth
from orders.body_child import made_apart
from orders.cloth import kept_layouts
from orders.issuing import issue, made_here
from orders.models import Order, OrderLine
from orders.other_system import keep_in_other_system
from patterns.own_cloth import sweep_own_cloths
from patterns.starters import text_of as recipe_of
from tests.orders.conftest import sell, text_of, words_of
from tests.pictures import jpeg

QUERY = "units=in&width=9&height=6&depth=5"


@pytest.fixture
def basket(make_pattern):
    return make_pattern("fold-flat-basket", recipe_of("fold-flat-basket"))


def send(client, pattern, **typed):
    picture = SimpleUploadedFile("cloth.jpg", jpeg(600, 400))
    data = {"exterior_picture": picture, "exterior_strip": "4 1/2", "size": QUERY, **typed}
    assert client.post(reverse("patterns:pattern-own-cloth", args=[pattern.slug]), data).status_code == 303


def order(client, pattern):
    address = f"{reverse('orders:order-new', args=[pattern.slug])}?{QUERY}"
    page = text_of(client.get(address))
    hidden = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', page))
    response = client.post(address, {**hidden, "name": "Ada Example", "email": "ada@example.org"})
    return page, response.headers["Location"]


def test_crop_is_kept_with_the_order(client, basket, settings):
    send(client, basket, on_cover="on")
    page, link = order(client, basket)
    assert "Kept with the order, and on the cover of the book." in words_of(
        client.get(f"{reverse('orders:order-new', args=[basket.slug])}?{QUERY}")
    )
    assert "Your own cloth is shown on the exterior." in page
    line = OrderLine.objects.get()
    said = line.own_cloth["exterior"]
    assert (said["width"], said["height"], said["one_way"]) == ("1143/10", "381/5", False)
    assert line.own_cloth["on_cover"] is True
    content = own_cloth.content(line, "exterior")
    assert hashlib.sha256(content).hexdigest() == said["picture"]
    # The day's copy is deleted, the order's stays.
    assert sweep_own_cloths(timezone.now() + timedelta(hours=25)) == 1
    assert own_cloth.content(line, "exterior") == content
    shown = text_of(client.get(link))
    assert "is on the cover of its book" in shown
    (address,) = set(re.findall(r'href="(/orders/[^"]+/own-cloth/exterior.jpg)"', shown))
    assert client.get(address).content == content
    assert "no-store" in client.get(address).headers["Cache-Control"]


def test_nobody_else_sees_it(client, basket, owner_client):
    visitor = Client()
    send(visitor, basket)
    _, link = order(visitor, basket)
    wrong = f"/orders/{'A' * 43}/1/own-cloth/exterior.jpg"
    assert Client().get(wrong).status_code == 404
    assert Client().get(f"{link}1/own-cloth/lining.jpg").status_code == 404
    assert Client().get(f"{link}2/own-cloth/exterior.jpg").status_code == 404
    number = Order.objects.get().number
    assert "own-cloth" not in text_of(owner_client.get(reverse("orders:owner-order", args=[number])))


def test_order_without_cloth_says_nothing_of_it(client, basket):
    page, link = order(client, basket)
    assert "Own cloth" not in page
    assert OrderLine.objects.get().own_cloth is None
    assert "own cloth" not in text_of(client.get(link)).replace("Your own cloth on it", "")


def test_cover_is_part_of_the_address(client, basket):
    send(client, basket, on_cover="on")
    order(client, basket)
    line = OrderLine.objects.get()
    cover = own_cloth.cover_of(line, "book")
    asked = line.sized, kept_layouts(line), "book", "a4"
    assert bodies.body_address(*asked) == bodies.body_address(*asked, None)
    assert bodies.body_address(*asked) != bodies.body_address(*asked, cover)
    assert own_cloth.cover_of(line, "plain") is None
    assert own_cloth.cover_of(line, "templates") is None
    line.own_cloth["on_cover"] = False
    assert own_cloth.cover_of(line, "book") is None


def test_book_shows_it_and_both_ways_make_the_same(client, basket):
    send(client, basket, on_cover="on")
    order(client, basket)
    line = OrderLine.objects.get()
    asked = line.sized, kept_layouts(line), "book", "a4", own_cloth.cover_of(line, "book")
    made = made_apart(*asked)
    assert made == made_here(*asked)
    document = line.documents.get(kind="book", paper="a4")
    with pikepdf.open(BytesIO(issue(document))) as pdf:
        kinds = [each.get("/Subtype") for each in pdf.objects if isinstance(each, pikepdf.Stream)]
    assert kinds.count("/Image") == 1
    assert document.body_address == bodies.body_address(*asked)


def test_other_system_has_it_too(client, basket):
    send(client, basket)
    order(client, basket)
    line = OrderLine.objects.get()
    assert keep_in_other_system(line).own_cloth == line.own_cloth


def test_print_with_a_direction_is_warned_of_before_it_is_bought(client, demo_shop, basket):
    send(client, basket, exterior_one_way="on")
    warned = "Your exterior print has a direction."
    free = reverse("orders:order-new", args=[basket.slug])
    assert warned in words_of(client.get(f"{free}?{QUERY}"))
    sell(basket, "one-size", 650)
    address = f"{reverse('orders:basket-add', args=[basket.slug])}?{QUERY}"
    client.post(address, {"kind": "one-size"})
    page = client.get(reverse("orders:basket"))
    assert warned in words_of(page)
    assert f'href="/patterns/{basket.slug}/?{QUERY.replace("&", "&amp;")}#own-cloth"' in text_of(page)
    assert "Your own cloth is shown on the exterior." in text_of(page)


def test_picture_that_was_lost_leaves_the_drawing(client, basket, settings):
    send(client, basket, on_cover="on")
    order(client, basket)
    for path in (Path(settings.MEDIA_ROOT) / own_cloth.FOLDER).rglob("*.jpg"):
        path.unlink()
    assert own_cloth.cover_of(OrderLine.objects.get(), "book") is None


def test_basket_keeps_it_with_its_lines(client, buy, tray):
    from orders.keys import new_key
    from orders.pricing import Item, priced_basket
    from orders.selling import Buyer, place_basket
    from patterns.own_cloth import OwnCloth, OwnCloths, keep_picture
    from patterns.picture_rules import MadeFile
    from studio.models import Shop
    from tests.orders.conftest import NOW

    token = keep_picture(MadeFile(600, 400, "jpg", jpeg(600, 400)), "0123456789", timezone.now())
    cloths = OwnCloths({"lining": OwnCloth(token, "80", True, 600, 400)}, is_on_cover=True)
    items = (Item("one", tray.slug, "units=in&width=8", "one-size", False),)
    shown = priced_basket(items, Shop.objects.current(), "GB", NOW.date()).shown
    buyer = Buyer("Ada Example", "ada@example.org", "GB", "transfer", has_agreed=True)
    placed = place_basket(
        items, buyer, shown=shown, key=new_key(), source="s", now=NOW, own={tray.slug: cloths}
    )
    said = placed.order.lines.get().own_cloth
    assert said["lining"]["one_way"] is True
    assert said["on_cover"] is True
