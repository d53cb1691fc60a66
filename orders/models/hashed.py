"""The only form in which a secret is kept."""

import hashlib


def hashed(secret: str) -> str:
    """Return the only form in which a link's token or a form's key is kept.

    Neither can be guessed, so neither can a plain hash of it.
    """
    return hashlib.sha256(secret.encode()).hexdigest()
