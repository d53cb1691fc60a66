import pytest
from django.test import RequestFactory

from patterns.sources import source


def of(address: str) -> str:
    return source(RequestFactory().get("/", REMOTE_ADDR=address))


def test_address_cannot_be_read_from_it() -> None:
    assert "192.0.2.1" not in of("192.0.2.1")
    assert len(of("192.0.2.1")) == 64


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("2001:db8:1:2::1", "2001:db8:1:2:ffff::9"),  # one household
        ("::ffff:192.0.2.1", "192.0.2.1"),  # one address, written two ways
    ],
)
def test_same_source(one: str, other: str) -> None:
    assert of(one) == of(other)


@pytest.mark.parametrize(
    ("one", "other"), [("192.0.2.1", "192.0.2.2"), ("2001:db8:1:2::1", "2001:db8:1:3::1"), ("", "192.0.2.1")]
)
def test_another_source(one: str, other: str) -> None:
    assert of(one) != of(other)
