from datetime import UTC, datetime, timedelta

import pytest
import stripe

from orders.providers.interface import UnsignedError
from orders.providers.signatures import TOLERANCE_SECONDS, sign, verify

NOW = datetime(2026, 11, 28, 9, 0, tzinfo=UTC)
BODY = "{“a”: 1}".encode()


def test_what_was_signed_is_believed() -> None:
    verify(BODY, sign(BODY, "secret", NOW), "secret", NOW + timedelta(seconds=TOLERANCE_SECONDS))


def test_signature_is_the_one_that_the_library_of_a_real_provider_makes() -> None:
    header = stripe.WebhookSignature.generate_signature_header(
        BODY.decode(), "secret", timestamp=int(NOW.timestamp())
    )
    assert sign(BODY, "secret", NOW) == header


@pytest.mark.parametrize(
    "header",
    [
        "",
        "t=1",
        "v1=abc",
        "t=,v1=",
        f"t={'9' * 40},v1=abc",
        f"t={int(NOW.timestamp())},v1=ä",
        f"t={int(NOW.timestamp())},t=1,v1=abc",
        sign(BODY, "another", NOW),
        sign(BODY + b" ", "secret", NOW),
        sign(BODY, "secret", NOW - timedelta(seconds=TOLERANCE_SECONDS + 1)),
        sign(BODY, "secret", NOW + timedelta(seconds=TOLERANCE_SECONDS + 1)),
    ],
)
def test_what_is_not_signed_is_refused(header: str) -> None:
    with pytest.raises(UnsignedError):
        verify(BODY, header, "secret", NOW)
