"""The payment page of the provider that is only a demonstration: each thing is done once, and in its turn."""

from collections.abc import Callable

import pytest
from django.test import Client

from orders.models import Dispute, LocalCharge, Order
from orders.paying import begin_card
from orders.placing import Placed
from studio.models import Shop
from tests.orders.conftest import NOW


@pytest.fixture
def page(buy: Callable[..., Placed]) -> str:
    return begin_card(buy().order, "local", NOW)


def press(client: Client, page: str, *ends: str) -> tuple[str, str]:
    """Press these buttons, one after the other; return how the payment and its dispute stand."""
    for end in ends:
        assert client.post(page, {"end": end}).status_code == 302
    charge = LocalCharge.objects.get()
    return charge.state, charge.dispute


def test_what_is_not_paid_is_not_called_back(client: Client, page: str) -> None:
    assert press(client, page, "dispute", "won", "lost") == ("open", "")
    assert press(client, page, "decline", "dispute", "pay") == ("declined", "")
    assert not Dispute.objects.exists()


def test_called_back_and_decided_once(client: Client, page: str) -> None:
    assert press(client, page, "pay", "won", "decline") == ("paid", "")
    assert press(client, page, "dispute", "pay", "dispute") == ("paid", "open")
    assert Dispute.objects.get().state == Dispute.State.OPEN
    assert Order.objects.get().is_paid
    assert press(client, page, "lost", "won", "dispute") == ("paid", "lost")
    assert Dispute.objects.get().state == Dispute.State.LOST
    assert not Order.objects.get().is_paid


def test_real_shop_has_no_such_page(client: Client, page: str) -> None:
    Shop.objects.update(is_demo=False)
    assert client.get(page).status_code == 404
    assert client.post(page, {"end": "pay"}).status_code == 404
