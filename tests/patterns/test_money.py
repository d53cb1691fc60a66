import pytest

from patterns.money import amount, money, priced, read_amount


@pytest.mark.parametrize(
    ("minor", "currency", "words"),
    [
        (0, "GBP", "Free"),
        (5, "GBP", "£0.05"),
        (650, "EUR", "€6.50"),
        (650, "JPY", "¥650"),
        (1234, "KWD", "KWD\N{NO-BREAK SPACE}1.234"),
    ],
)
def test_money(minor: int, currency: str, words: str) -> None:
    assert money(minor, currency) == words


def test_amount_has_no_currency() -> None:
    assert amount(0, "GBP") == "0.00"


def test_nothing_that_is_left_is_an_amount() -> None:
    assert priced(0, "GBP") == "£0.00"


@pytest.mark.parametrize(
    ("text", "currency", "minor"),
    [("6.50", "GBP", 650), (" 6,5 ", "EUR", 650), ("6", "GBP", 600), ("650", "JPY", 650), ("0", "GBP", 0)],
)
def test_amount_is_read(text: str, currency: str, minor: int) -> None:
    assert read_amount(text, currency) == minor


@pytest.mark.parametrize("text", ["", "six", "-1", "1e3", "6.", "٦", "1.2.3", "9" * 10, "£6"])
def test_what_is_no_amount_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"is not an amount. Write it like 6.50\."):
        read_amount(text, "GBP")


def test_too_many_decimals_are_refused() -> None:
    with pytest.raises(ValueError, match="GBP has 2 decimals at most"):
        read_amount("6.505", "GBP")
    with pytest.raises(ValueError, match="JPY has no decimals"):
        read_amount("6.5", "JPY")
