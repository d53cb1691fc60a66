from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from studio.models import Shop


class ShopMiddleware:
    """Put the shop on every request (one query), and show that request's times in the shop's zone."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        request.shop = Shop.objects.current()  # type: ignore[attr-defined]
        with timezone.override(request.shop.zone):  # type: ignore[attr-defined]
            return self.get_response(request)
