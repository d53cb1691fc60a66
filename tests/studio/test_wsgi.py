"""What reaches the shop as a web server hands it on, before Django has read anything of it."""

import io
from collections.abc import Iterator
from typing import Any
from wsgiref.util import setup_testing_defaults

import pytest
from django.core.signals import request_finished, request_started
from django.db import close_old_connections

from studio.wsgi import application

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def connection_stays_open() -> Iterator[None]:
    """The test's own transaction, which a real request would end."""
    for signal in (request_started, request_finished):
        signal.disconnect(close_old_connections)
    yield
    for signal in (request_started, request_finished):
        signal.connect(close_old_connections)


def status(**asked: Any) -> str:
    environ: dict[str, Any] = {"HTTP_HOST": "127.0.0.1", "REMOTE_ADDR": "127.0.0.1", **asked}
    setup_testing_defaults(environ)
    said: list[str] = []
    list(application(environ, lambda status, headers: said.append(status)))
    return said[0]


@pytest.mark.parametrize("charset", ["base64", "idna", "utf-16", '"rot13"'])
@pytest.mark.parametrize("said", ["; charset=", ";Charset = "])
def test_letters_that_a_request_claims_to_be_in_are_not_believed(charset: str, said: str) -> None:
    kind = f"application/x-www-form-urlencoded{said}{charset}"
    assert status(QUERY_STRING="q=a%ff", CONTENT_TYPE=kind) == "200 OK"
    body = b"email=ada%40example.org"
    sent = {"wsgi.input": io.BytesIO(body), "CONTENT_LENGTH": str(len(body)), "PATH_INFO": "/orders/links/"}
    # Refused for the token that is missing, and so read.
    assert status(REQUEST_METHOD="POST", CONTENT_TYPE=kind, **sent) == "403 Forbidden"
