"""The swap for a changed measure: everything between the request and the bytes of the answer.

Aim: under 15 ms. Run by hand: `.venv/bin/python -m pytest tests/benchmarks -n 0 --benchmark-only`.
"""

from itertools import cycle

import pytest
from django.core.handlers.wsgi import WSGIHandler
from django.test import RequestFactory

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import slugs, text_of

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}


@pytest.fixture(params=slugs())
def address(request):
    pattern = Pattern.objects.create(slug=request.param, is_listed=True)
    publish(pattern, text_of(request.param))
    return pattern.get_absolute_url()


def swap(benchmark, address, queries):
    """Answer as the server does, middleware and all; the test client would add copies of every context."""
    server, requests, turn = WSGIHandler(), RequestFactory(headers=HTMX), cycle(queries)

    def answer():
        return server.get_response(requests.get(f"{address}?{next(turn)}"))

    answer()
    return benchmark(answer)


def test_changed_measure(benchmark, address):
    answer = swap(benchmark, address, [f"width={number}/4" for number in range(32, 60)])
    assert b"Get this size" in answer.content


def test_refused_measure(benchmark, address):
    answer = swap(benchmark, address, ["height=2.5&depth=8", "height=2.75&depth=8"])
    assert b"Refused" in answer.content


def test_mistake(benchmark, address):
    answer = swap(benchmark, address, ["width=seven"])
    assert b"Mend this" in answer.content
