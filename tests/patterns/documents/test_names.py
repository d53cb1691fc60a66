import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.documents.names import MOST_CHARACTERS, can_print, clean_name, licence_line, trial_line

HOSTILE = {
    "markup": "</style><script>alert(1)</script><img src=file:///etc/passwd>",
    "quotes": "\"Ada\" & 'Bea' <b>",
    "right to left override": "Ada \u202edrawkcab\u202c Example",
    "isolates": "\u2066Ada\u2069\u200f\u061c",
    "newlines": "Ada\r\nExample\u2028of\u2029Shop\v\f",
    "lone surrogate": "Ada\ud800\udfffExample\udc00",
    "NUL and controls": "A\x00d\x07a\x1b[31m",
    "emoji": "😀" * 400,
    "long": "W" * 600,
    "accents in a tower": "Z\u0300" + "\u0301" * 200 + "algo",
    "private": "\ue000\U000f0000Ada",
    "tags": "Ada\U000e0041\U000e007f",
    "blank": " \u00a0\u3000\t ",
    "empty": "",
    "Chinese": "王小明",
    "Arabic": "آدا مثال",
    "Hebrew": "עדה לדוגמה",
}


@pytest.mark.parametrize("typed", HOSTILE.values(), ids=HOSTILE)
def test_a_cleaned_name_is_one_short_printable_line(typed):
    cleaned = clean_name(typed)
    assert len(cleaned) <= MOST_CHARACTERS
    assert all(
        unicodedata.category(sign) not in {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"} for sign in cleaned
    )
    assert cleaned == cleaned.strip() == unicodedata.normalize("NFC", cleaned)
    cleaned.encode()


def test_what_is_dropped_and_what_stays():
    assert clean_name("Ada \u202eelpmaxE") == "Ada elpmaxE"
    assert clean_name("Ada\r\nExample") == "Ada Example"
    assert clean_name("Ada\ud800 Example") == "Ada Example"
    assert clean_name("A\u0301da") == "Áda"
    assert clean_name("Zoë O’Example-Ünder") == "Zoë O’Example-Ünder"
    assert clean_name("Z" + "\u0316" * 9) == "Z" + "\u0316" * 2


@given(st.text())
def test_cleaning_twice_changes_nothing(typed):
    assert clean_name(clean_name(typed)) == clean_name(typed)


def test_the_order_stands_before_the_name():
    assert licence_line("1042", "Ada Example") == "Order 1042 · made for Ada Example"
    assert trial_line("Ada Example") == "Trial copy, not an order · made for Ada Example"


@pytest.mark.parametrize("name", ["", "  ", "王小明", "😀" * 400, "עדה", "Ada 王"])
def test_a_name_that_our_fonts_cannot_write_is_left_out(name):
    assert licence_line("1042", name) == "Order 1042"
    assert trial_line(name) == "Trial copy, not an order"


@pytest.mark.parametrize(
    "name", ["Ada Example", "Zoë Ünder", "Łucja Żak", "Đặng Thị Ví Dụ", "Άντα", "Ада Пример"]
)
def test_names_of_many_languages_can_be_printed(name):
    assert can_print(clean_name(name))
