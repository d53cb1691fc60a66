import csv
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from orders.models import SizeSold
from orders.placing import Placed
from orders.sizes_sold import MOST_BARS, Value, tallies, tally
from patterns.drafting.units import Units
from patterns.models import Pattern
from tests.orders.conftest import text_of

Maker = Callable[..., Placed]
PAGE = "/workroom/sizes/"
CSV = "/workroom/sizes/sizes-sold.csv"


def sold(*pairs: tuple[str, int]) -> list[Value]:
    return [Value("width", "in", Fraction(number), None, count, 1) for number, count in pairs]


# The tallies


def test_each_value_has_a_bar_smallest_first(no_floats: None) -> None:
    made = tally("width", "in", sold(("17/2", 3), ("9", 12)))
    assert [(bar.label, bar.sold) for bar in made.bars] == [("8 1⁄2", 3), ("9", 12)]
    assert (made.sold, made.is_banded) == (15, False)


def test_many_values_share_bars_of_one_width(no_floats: None) -> None:
    made = tally("width", "in", sold(*((f"{at}/4", 1) for at in range(12, 52))))
    assert made.is_banded
    assert made.sold == 40
    assert [(bar.label, bar.sold) for bar in made.bars][:2] == [("3 to under 4", 4), ("4 to under 5", 4)]
    assert sum(bar.sold for bar in made.bars) == 40
    assert len(made.bars) <= MOST_BARS


def test_bands_keep_the_scale_where_nothing_was_sold(no_floats: None) -> None:
    made = tally("width", "in", sold(*((f"{at}/64", 1) for at in range(192, 209)), ("6", 1)))
    assert [bar.sold for bar in made.bars] == [16, 1, *[0] * 10, 1]


def test_bands_of_any_range_are_few(no_floats: None) -> None:
    made = tally("width", "in", sold(*((str(at * 997), 1) for at in range(1, 40))))
    assert len(made.bars) <= MOST_BARS + 1
    assert sum(bar.sold for bar in made.bars) == 39


def test_tallies_go_by_pattern_measure_and_system(make_order: Maker, pattern: Pattern) -> None:
    make_order(pattern, width="17/2")
    make_order(pattern, width="17/2")
    make_order(pattern, units="cm")
    found = tallies(SizeSold.objects.all(), Units.INCHES)
    assert list(found) == [pattern.pk]
    assert [(one.measure, one.units, one.sold) for one in found[pattern.pk]] == [
        ("width", "in", 2),
        ("width", "cm", 1),
        ("height", "in", 2),
        ("height", "cm", 1),
        ("depth", "in", 2),
        ("depth", "cm", 1),
        ("layers", "", 3),
    ]
    assert found[pattern.pk][0].bars[0].label == "8 1⁄2"


def test_report_is_read_from_the_index(pattern: Pattern) -> None:
    plan = SizeSold.objects.of(pattern).by_value().explain()
    assert "sold_by_value" in plan
    assert "TEMP B-TREE FOR GROUP BY" not in plan


# The page


def test_page_has_a_picture_and_its_table(owner_client: Client, make_order: Maker) -> None:
    make_order(width="17/2")
    response = owner_client.get(PAGE)
    page = text_of(response)
    assert response.status_code == 200
    assert "<h2>Plain tray</h2>" in page
    assert "<h3>Width, in inches</h3>" in page
    assert "<h3>Layers, as a number</h3>" in page
    assert 'aria-labelledby="plain-tray-1-title plain-tray-1-desc"' in page
    assert "Plain tray: width, in inches</title>" in page
    assert "8 1⁄2: 1</desc>" in page
    assert page.count("<svg") == page.count("<table") == 4
    assert "style=" not in page


def test_page_and_part(owner_client: Client, make_order: Maker) -> None:
    make_order()
    part = owner_client.get(PAGE, headers={"HX-Request": "true"}).content.decode()
    assert part.strip().startswith('<div id="sold-tallies"')


def test_nothing_sold_says_so(owner_client: Client, pattern: Pattern) -> None:
    assert "Nothing has been ordered yet." in text_of(owner_client.get(PAGE))
    assert "ordered yet of Plain tray." in text_of(owner_client.get(PAGE, {"pattern": "plain-tray"}))


def test_one_pattern_can_be_chosen(
    owner_client: Client, make_order: Maker, make_pattern: Callable[..., Pattern]
) -> None:
    make_order()
    make_order(make_pattern("deep-tray", title="Deep tray"))
    page = text_of(owner_client.get(PAGE, {"pattern": "deep-tray"}))
    assert "<h2>Deep tray</h2>" in page
    assert "<h2>Plain tray</h2>" not in page
    assert '<option value="deep-tray" selected>' in page
    assert f"{CSV}?pattern=deep-tray" in page


@pytest.mark.parametrize("path", [PAGE, CSV])
@pytest.mark.parametrize("slug", ["no-such-tray", "'", "<b>"])
def test_unknown_pattern_gets_404(owner_client: Client, path: str, slug: str) -> None:
    assert owner_client.get(path, {"pattern": slug}).status_code == 404


def test_title_with_markup_stays_text(
    owner_client: Client, make_order: Maker, make_pattern: Callable[..., Pattern]
) -> None:
    make_order(make_pattern(title="</title><b>Tray</b>"))
    assert "<b>Tray" not in owner_client.get(PAGE).content.decode()


def test_csv_has_each_value_exactly(
    owner_client: Client, make_order: Maker, rows: Callable[[Any], list[str]]
) -> None:
    make_order(width="17/2")
    make_order(width="17/2", depth="19/4")
    head, *found = csv.reader(rows(owner_client.get(CSV)))
    assert head == ["pattern", "measure", "size", "units", "size as decimal", "nanometres", "sold"]
    assert ["plain-tray", "width", "8 1⁄2", "in", "8.5", "215900000", "2"] in found
    assert ["plain-tray", "depth", "4 3⁄4", "in", "4.75", "120650000", "1"] in found
    assert ["plain-tray", "layers", "2", "", "2", "", "2"] in found


@pytest.mark.parametrize("path", [PAGE, CSV])
def test_stranger_is_asked_to_log_in(client: Client, db: None, path: str) -> None:
    response = client.get(path)
    assert response.status_code == 302
    assert response.headers["Location"] == f"{reverse('admin:login')}?next={path}"


@pytest.mark.parametrize("path", [PAGE, CSV])
def test_staff_needs_the_permission(client: Client, db: None, path: str) -> None:
    client.force_login(User.objects.create_user("helper", is_staff=True))
    assert client.get(path).status_code == 403


@pytest.mark.parametrize("path", [PAGE, CSV])
def test_wrong_method_gets_405(owner_client: Client, path: str) -> None:
    assert owner_client.post(path).status_code == 405


@pytest.mark.parametrize("path", [PAGE, CSV])
def test_queries_do_not_grow(
    owner_client: Client, make_order: Maker, django_assert_num_queries: Any, path: str
) -> None:
    def read() -> None:
        response = owner_client.get(path)
        b"".join(response) if response.streaming else response.content

    make_order()
    read()
    with CaptureQueriesContext(connection) as one:
        read()
    for at in range(9):
        make_order(email=f"{at}@example.org", width=str(8 + at))
    with django_assert_num_queries(len(one)):
        read()
