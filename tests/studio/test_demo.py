from io import StringIO
from pathlib import Path

import pytest
from django.contrib.auth import authenticate, get_user_model
from django.core.management import call_command
from django.core.management.base import CommandError

from orders.models import Order
from patterns.models import Pattern, Revision
from patterns.publishing import publish
from patterns.starters import slugs, text_of
from studio.models import Shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def demo(settings, tmp_path):
    """Run the demo in a folder of its own, without serving; return the lines that it says."""
    settings.SHOP_DATA = tmp_path

    def run() -> list[str]:
        out = StringIO()
        call_command("demo", "--no-serve", stdout=out)
        return out.getvalue().splitlines()

    return run


def book_of(order: Order, folder: Path) -> Path:
    return folder / "demo" / f"fold-flat-basket-book-a4-order-{order.number}.pdf"


def kept() -> tuple[int, ...]:
    return tuple(model.objects.count() for model in (Pattern, Revision, Order, get_user_model()))


def test_demo_fills_a_shop_and_issues_a_book(demo, client, tmp_path):
    lines = demo()
    assert Shop.objects.current().is_demo
    assert set(Pattern.objects.listed().values_list("slug", flat=True)) == set(slugs())
    order = Order.objects.get()
    assert order.lines.get().size_words.startswith("width 8 1⁄2 in, height 6 in, depth 4 3⁄4 in")
    book = book_of(order, tmp_path)
    assert f"Its book: {book}" in lines
    assert book.read_bytes().startswith(b"%PDF-")
    place = f"Order {order.number}, at "
    link = next(line for line in lines if line.startswith(place)).removeprefix(place)
    assert client.get(link.removeprefix("http://127.0.0.1:8000")).status_code == 200


def test_demo_says_a_password_that_opens_the_workroom_once(demo):
    said = [line for line in demo() if line.startswith("Owner: owner")]
    password = said[0].split("with the password ")[1].split(" ")[0]
    assert authenticate(username="owner", password=password).is_superuser
    assert not any(password in line for line in demo())


def test_demo_run_again_keeps_what_is_there(demo, tmp_path):
    first = demo()
    book = book_of(Order.objects.get(), tmp_path)
    before = kept(), book.read_bytes()
    Shop.objects.update(name="Renamed")
    again = demo()
    assert (kept(), book.read_bytes()) == before
    assert again[0] == "Shop: Renamed, invented."
    assert again[-2:] == first[-2:]


def test_demo_keeps_its_order_when_the_pattern_was_revised(demo):
    first = demo()
    pattern = Pattern.objects.get(slug="fold-flat-basket")
    publish(pattern, text_of("fold-flat-basket").replace("2 to 3 hours", "3 hours"))
    assert demo()[-2:] == first[-2:]
    assert Order.objects.count() == 1


def test_demo_leaves_a_shop_with_orders_alone(demo):
    demo()
    Shop.objects.update(is_demo=False, name="Reed Lane Patterns")
    before = kept()
    with pytest.raises(CommandError, match="holds real orders: the demo leaves it alone"):
        demo()
    assert (kept(), Shop.objects.current().name) == (before, "Reed Lane Patterns")


def test_demo_finds_its_order_under_another_secret(demo, settings):
    demo()
    settings.SECRET_KEY_FALLBACKS = [settings.SECRET_KEY]
    settings.SECRET_KEY = "another key that only the tests use for this"
    assert demo()[-1].startswith("Its book: ")
