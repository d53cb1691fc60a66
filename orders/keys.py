"""The key that a form carries, the token of an order's link, and the token of its files' links.

A browser that opens the same form again (by reload, back, or in a second tab) finds the same key in it, and
the key places one order only: that is what makes a double click, a reload or going back harmless. It is
made from what the browser's cookie for forms holds, and signed, so that nobody can guess it, nor choose one
that another customer's form will carry.

The token is made from the key with the shop's secret. So the same form, sent twice, leads to the very same
link, although neither key nor token is kept: whoever reads the database, or a copy of it, can open no
order, and without the secret a key gives no token.
"""

import secrets
from collections.abc import Iterator

from django.conf import settings
from django.core import signing
from django.http import HttpRequest
from django.middleware.csrf import get_token
from django.utils.crypto import salted_hmac

KEY_SALT = "orders.keys.key"
TOKEN_SALT = "orders.keys.token"  # noqa: S105 - names a use of the secret, and is none
PASS_SALT = "orders.keys.pass"  # noqa: S105 - as above
TOKEN_BYTES = 32


class TokenConverter:
    """A token in an address: 32 bytes in the alphabet of web addresses."""

    regex = "[A-Za-z0-9_-]{43}"

    def to_python(self, text: str) -> str:
        return text

    def to_url(self, token: str) -> str:
        return token


def key_of(request: HttpRequest, revision: int) -> str:
    """Return the key of the form at this address: always the same in one browser, another in every other."""
    return key_for(request, request.get_full_path(), str(revision))


def key_for(request: HttpRequest, *asked: str) -> str:
    """Return the key of a form that asks for these things: the same in one browser for the same things."""
    get_token(request)  # a browser that has no cookie yet is given one
    parts = (request.META["CSRF_COOKIE"], *asked)
    digest = salted_hmac(KEY_SALT, "\n".join(parts), algorithm="sha256").digest()
    return _signed(signing.b64_encode(digest).decode())


def new_key() -> str:
    """Return a key that no form has carried: for another order after the form has placed one."""
    return _signed(secrets.token_urlsafe(TOKEN_BYTES))


def _signed(text: str) -> str:
    return signing.Signer(salt=KEY_SALT).sign(text)


def is_key(text: str) -> bool:
    """Return whether the shop gave this key to a form."""
    try:
        signing.Signer(salt=KEY_SALT).unsign(text)
    except signing.BadSignature:
        return False
    return True


def token_of(key: str) -> str:
    return next(tokens_of(key))


def tokens_of(key: str) -> Iterator[str]:
    """The key's token, then those it had under the shop's earlier secrets."""
    return _tokens(TOKEN_SALT, key)


def pass_tokens(order: int, number: int) -> Iterator[str]:
    """The token of an order's pass of that number, then those it had under the shop's earlier secrets.

    So every link of an order leads to the same links of its files, and those lead back to no order.
    """
    return _tokens(PASS_SALT, f"{order} {number}")


def _tokens(salt: str, text: str) -> Iterator[str]:
    for secret in (settings.SECRET_KEY, *settings.SECRET_KEY_FALLBACKS):
        digest = salted_hmac(salt, text, secret=secret, algorithm="sha256").digest()
        yield signing.b64_encode(digest).decode()
