"""How a message is signed: the time and a keyed hash of time and body, in one header: `t=…,v1=…`."""

import hashlib
import hmac
from datetime import datetime

from orders.providers.interface import UnsignedError

# An older message may be one that somebody recorded. A provider signs anew whenever it sends again.
TOLERANCE_SECONDS = 300


def sign(body: bytes, secret: str, moment: datetime) -> str:
    """Return the header that goes with a body."""
    stamp = int(moment.timestamp())
    return f"t={stamp},v1={_digest(body, secret, stamp)}"


def verify(body: bytes, header: str, secret: str, now: datetime) -> None:
    """Raise UnsignedError unless the header was made with the secret, and lately."""
    parts = [part.partition("=") for part in header.split(",")]
    stamps = [value for name, _, value in parts if name.strip() == "t"]
    signatures = [value for name, _, value in parts if name.strip() == "v1"]
    if len(stamps) != 1 or not (stamps[0].isascii() and stamps[0].isdigit() and len(stamps[0]) <= 12):
        raise UnsignedError("The signature has no time.")
    stamp = int(stamps[0])
    right = _digest(body, secret, stamp)
    # Compared as bytes: a header may hold letters that a comparison of texts refuses.
    if not any(hmac.compare_digest(right.encode(), each.encode()) for each in signatures):
        raise UnsignedError("The signature is not ours.")
    if abs(now.timestamp() - stamp) > TOLERANCE_SECONDS:
        raise UnsignedError("The signature is too old.")


def _digest(body: bytes, secret: str, stamp: int) -> str:
    return hmac.new(secret.encode(), b"%d." % stamp + body, hashlib.sha256).hexdigest()
