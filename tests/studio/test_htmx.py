import pytest
from django.http import HttpRequest, HttpResponse
from django.test import override_settings
from django_htmx.middleware import HtmxDetails

from studio.htmx import redirect_page, render_page_or_part

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "OPTIONS": {
            "loaders": [
                (
                    "django.template.loaders.locmem.Loader",
                    {"page.html": "<html>{{ word }}</html>", "part.html": "<p>{{ word }}</p>"},
                )
            ]
        },
    }
]
PART = {"HX-Request": "true"}
BOOSTED = {"HX-Request": "true", "HX-Boosted": "true"}
RESTORED = {"HX-Request": "true", "HX-History-Restore-Request": "true"}
VARY = "HX-Request, HX-Boosted, HX-History-Restore-Request"


@pytest.fixture
def ask(rf):
    def make(headers: dict[str, str]) -> HttpRequest:
        request = rf.get("/", headers=headers)
        request.htmx = HtmxDetails(request)
        return request

    return make


def rendered(request: HttpRequest) -> HttpResponse:
    with override_settings(TEMPLATES=TEMPLATES):
        return render_page_or_part(request, "page.html", "part.html", {"word": "hem"})


@pytest.mark.parametrize("headers", [{}, BOOSTED, RESTORED])
def test_page(ask, headers):
    assert rendered(ask(headers)).content == b"<html>hem</html>"


def test_part(ask):
    assert rendered(ask(PART)).content == b"<p>hem</p>"


@pytest.mark.parametrize("headers", [{}, PART])
def test_caches_are_told_what_the_answer_depends_on(ask, headers):
    assert rendered(ask(headers)).headers["Vary"] == VARY


@pytest.mark.parametrize("headers", [{}, BOOSTED, RESTORED])
def test_redirect(ask, headers):
    response = redirect_page(ask(headers), "admin:index")
    assert (response.status_code, response.headers["Location"]) == (303, "/admin/")
    assert response.headers["Vary"] == VARY


def test_redirect_of_the_whole_page_from_a_part(ask):
    response = redirect_page(ask(PART), "/orders/1/")
    assert (response.status_code, response.headers["HX-Redirect"]) == (200, "/orders/1/")
    assert response.headers["Vary"] == VARY
    assert "Location" not in response.headers


def test_redirect_to_a_record_and_to_a_view_with_arguments(ask):
    class Record:
        def get_absolute_url(self) -> str:
            return "/records/7/"

    assert redirect_page(ask({}), Record()).headers["Location"] == "/records/7/"
    there = redirect_page(ask({}), "admin:app_list", app_label="studio")
    assert there.headers["Location"] == "/admin/studio/"
