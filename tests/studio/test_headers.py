"""What every answer tells the browser, whichever page it is."""

import pytest
from django.test import Client
from django.urls import reverse

pytestmark = pytest.mark.django_db


@pytest.fixture
def headers(client):
    return client.get(reverse("admin:login")).headers


def test_content_comes_from_this_shop_alone(headers):
    policy = dict(part.strip().split(" ", 1) for part in headers["Content-Security-Policy"].split(";"))
    assert policy.pop("img-src") == "'self' data:"
    nothing = {"default-src", "frame-ancestors", "base-uri", "object-src"}
    own = {"script-src", "style-src", "font-src", "connect-src", "form-action"}
    assert policy == dict.fromkeys(nothing, "'none'") | dict.fromkeys(own, "'self'")


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("X-Frame-Options", "DENY"),
        ("X-Content-Type-Options", "nosniff"),
        ("Referrer-Policy", "same-origin"),
        ("Cross-Origin-Opener-Policy", "same-origin"),
    ],
)
def test_header(headers, name, value):
    assert headers[name] == value


def test_camera_and_the_like_are_off(headers):
    assert "camera=()" in headers["Permissions-Policy"]


def test_stranger_host_is_refused(client):
    assert client.get("/", headers={"host": "elsewhere.example"}).status_code == 400


def test_stranger_is_sent_to_the_login(client):
    response = client.get(reverse("admin:index"))
    assert response.status_code == 302
    assert response.url.startswith(reverse("admin:login"))


def test_forms_are_answered_from_the_shop_alone():
    client = Client(enforce_csrf_checks=True)
    assert client.post(reverse("admin:login"), {"username": "owner"}).status_code == 403
