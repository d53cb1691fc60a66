from datetime import UTC, datetime

import pytest
from django.http import HttpResponse
from django.template import RequestContext, Template
from django.utils import timezone

from studio.middleware import ShopMiddleware
from studio.models import Shop

pytestmark = pytest.mark.django_db
NOON = datetime(2026, 7, 1, 12, tzinfo=UTC)


def answer(request) -> HttpResponse:
    template = Template("{{ shop.name }}, {{ noon|date:'H:i' }}")
    return HttpResponse(template.render(RequestContext(request, {"noon": NOON})))


def test_page_has_the_shop_and_its_times(rf, django_assert_num_queries):
    Shop(pk=1, name="Reed Lane Patterns", time_zone="Europe/London").save()
    with django_assert_num_queries(1):
        assert ShopMiddleware(answer)(rf.get("/")).content == b"Reed Lane Patterns, 13:00"
    assert timezone.get_current_timezone_name() == "UTC"


def test_template_without_the_middleware_has_the_shop_too(rf):
    assert answer(rf.get("/")).content == b"The pattern room, 12:00"
