import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from studio.models import Shop

pytestmark = pytest.mark.django_db
LIST = reverse("patterns:pattern-list")


def page(client):
    return client.get(LIST).content.decode()


def test_pattern_stands_on_the_list(client, basket):
    html = page(client)
    assert f'<a href="{basket.get_absolute_url()}">Fold-flat basket</a>' in html
    assert "<title>Fold-flat basket, 9 in wide, 6 in high, 5 in deep</title>" in html
    assert "width 3 to" in html


def test_units_are_the_shops(client, make_pattern):
    Shop.objects.create(pk=1, units="cm")
    make_pattern()
    assert "23 cm wide" in page(client)


def test_unlisted_and_unpublished_are_not_shown(client, make_pattern):
    make_pattern("secret", is_listed=False)
    make_pattern("empty", text=None)
    html = page(client)
    assert "secret" not in html
    assert "empty" not in html
    assert "There is no pattern here yet" in html


def test_wrong_method(client):
    assert client.post(LIST).status_code == 405


def test_queries_do_not_grow(client, make_pattern, django_assert_num_queries):
    make_pattern("one")
    page(client)
    with CaptureQueriesContext(connection) as one:
        page(client)
    count = len(one)
    for number in range(9):
        make_pattern(f"more-{number}")
    page(client)
    with django_assert_num_queries(count):
        page(client)
