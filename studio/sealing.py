"""Keeping a short secret in the database so that only who has the shop's secret key can read it."""

import base64
from collections.abc import Iterator

from cryptography.fernet import Fernet, InvalidToken, MultiFernet
from django.conf import settings
from django.utils.crypto import salted_hmac

SALT = "studio.sealing"


class SealError(ValueError):
    """It was sealed with another key, or is not what was sealed."""


def seal(text: str) -> str:
    """Return the text, encrypted and signed with the shop's secret key of today."""
    return _box().encrypt(text.encode()).decode()


def unseal(sealed: str) -> str:
    """Return what was sealed with the shop's key or an earlier one (SECRET_KEY_FALLBACKS).

    Raises SealError.
    """
    try:
        return _box().decrypt(sealed.encode()).decode()
    except InvalidToken:
        raise SealError("This was sealed with another SECRET_KEY.") from None


def _box() -> MultiFernet:
    return MultiFernet(_boxes())


def _boxes() -> Iterator[Fernet]:
    for secret in (settings.SECRET_KEY, *settings.SECRET_KEY_FALLBACKS):
        key = salted_hmac(SALT, "", secret=secret, algorithm="sha256").digest()
        yield Fernet(base64.urlsafe_b64encode(key))
