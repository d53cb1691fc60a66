"""The pages for what went wrong: each is whole, also where nothing of the request is at hand."""

import pytest
from django.template.loader import render_to_string
from django.test import Client

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("template", ["500.html", "403_csrf.html", "404.html"])
def test_page_needs_no_request(template):
    html = render_to_string(template)
    assert "<h1>" in html
    assert 'href="/"' in html


def test_unknown_address_is_answered_in_the_shops_own_page(client):
    response = client.get("/no/such/page/")
    assert response.status_code == 404
    assert "There is no such page" in response.content.decode()


def test_form_from_elsewhere(admin_user):
    response = Client(enforce_csrf_checks=True).post("/admin/login/", {"username": "owner"})
    assert response.status_code == 403
    assert "That could not be accepted" in response.content.decode()
