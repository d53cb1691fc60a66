"""The swap for a changed measure: everything between the request and the bytes of the answer.

Aim: under 15 ms. Run by hand: `.venv/bin/python -m pytest tests/benchmarks -n 0 --benchmark-only`.
"""

from itertools import cycle, product

import pytest
from django.core.handlers.wsgi import WSGIHandler
from django.test import RequestFactory

from patterns.addresses import size_query
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import read_starter, slugs, text_of

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}


@pytest.fixture(params=slugs())
def slug(request):
    return request.param


@pytest.fixture
def address(slug):
    pattern = Pattern.objects.create(slug=slug, is_listed=True)
    publish(pattern, text_of(slug))
    return pattern.get_absolute_url()


@pytest.fixture
def refused(slug):
    """A measure or two at the ends of their ranges, so that the size is refused."""
    recipe = read_starter(slug)
    ends = [
        {measure.name: end}
        for measure in recipe.measures
        for end in (measure.scales[Units.INCHES].least, measure.scales[Units.INCHES].most)
    ]
    for one, other in product(ends, ends):
        if size(recipe, slug, Units.INCHES, one | other).is_refused:
            return size_query(recipe, Units.INCHES, one | other, {})
    pytest.skip("No corner of its range is refused.")


def swap(benchmark, address, queries):
    """Answer as the server does, middleware and all; the test client would add copies of every context."""
    server, requests, turn = WSGIHandler(), RequestFactory(headers=HTMX), cycle(queries)

    def answer():
        return server.get_response(requests.get(f"{address}?{next(turn)}"))

    answer()
    return benchmark(answer)


def test_changed_measure(benchmark, slug, address):
    recipe = read_starter(slug)
    first = recipe.measures[0]
    scale = first.scales[Units.INCHES]
    values = [scale.default + number * scale.step for number in range(-6, 7)]
    queries = [size_query(recipe, Units.INCHES, {first.name: value}, {}) for value in values]
    answer = swap(benchmark, address, queries)
    assert b"Get this size" in answer.content


def test_refused_measure(benchmark, address, refused):
    answer = swap(benchmark, address, [refused])
    assert b"Refused" in answer.content


def test_mistake(benchmark, slug, address):
    answer = swap(benchmark, address, [f"{read_starter(slug).measures[0].name}=seven"])
    assert b"Mend this" in answer.content
