import pytest

from orders.money import amount, money


@pytest.mark.parametrize(
    ("minor", "currency", "words"),
    [
        (0, "GBP", "Free"),
        (5, "GBP", "0.05 GBP"),
        (650, "EUR", "6.50 EUR"),
        (650, "JPY", "650 JPY"),
        (1234, "KWD", "1.234 KWD"),
    ],
)
def test_money(minor: int, currency: str, words: str) -> None:
    assert money(minor, currency) == words


def test_amount_has_no_currency() -> None:
    assert amount(0, "GBP") == "0.00"
