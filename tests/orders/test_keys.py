from typing import Any

import pytest
from django.test import RequestFactory

from orders.keys import is_key, key_of, new_key, token_of, tokens_of


def key_at(path: str = "/patterns/tray/order/?width=8", cookie: str = "a" * 32, revision: int = 1) -> str:
    request = RequestFactory().get(path)
    request.META["CSRF_COOKIE"] = cookie
    return key_of(request, revision)


def test_same_form_in_the_same_browser_has_the_same_key() -> None:
    assert key_at() == key_at()
    assert is_key(key_at())


@pytest.mark.parametrize(
    "other", [{"path": "/patterns/tray/order/?width=9"}, {"cookie": "b" * 32}, {"revision": 2}]
)
def test_every_other_form_has_another_key(other: dict[str, Any]) -> None:
    assert key_at(**other) != key_at()


def test_browser_without_a_cookie_is_given_one() -> None:
    request = RequestFactory().get("/")
    assert key_of(request, 1) == key_of(request, 1)
    assert request.META["CSRF_COOKIE_NEEDS_UPDATE"]


def test_key_does_not_show_the_cookie() -> None:
    assert "a" * 32 not in key_at()


def test_key_is_new_every_time() -> None:
    assert new_key() != new_key()


def test_only_the_shops_own_keys_are_keys() -> None:
    key = new_key()
    assert is_key(key)
    assert not is_key(key[:-1] + ("A" if key[-1] != "A" else "B"))
    assert not any(is_key(text) for text in ("", "1", "a" * 43, "\0", key + "\n", "é:é"))


def test_token_is_256_bits_and_always_the_same_for_a_key() -> None:
    key = new_key()
    assert token_of(key) == token_of(key)
    assert token_of(key) != token_of(new_key())
    assert len(token_of(key)) == 43  # 32 bytes, 6 bits a letter


def test_token_says_nothing_of_the_key() -> None:
    key = new_key()
    assert token_of(key) not in key
    assert key not in token_of(key)


def test_earlier_secret_gives_the_earlier_token(settings: Any) -> None:
    key = new_key()
    before, earlier = token_of(key), settings.SECRET_KEY
    settings.SECRET_KEY = "another secret, as long as the shop asks for"
    settings.SECRET_KEY_FALLBACKS = [earlier]
    assert is_key(key)
    assert list(tokens_of(key))[1:] == [before]
