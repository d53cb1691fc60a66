from typing import Any

from django.conf import settings
from django.http import HttpRequest

from studio.models import Shop


def shop(request: HttpRequest) -> dict[str, Any]:
    """Give every template the shop as `shop`, and the address that people type as `site_url`."""
    return {"shop": getattr(request, "shop", None) or Shop.objects.current(), "site_url": settings.SITE_URL}
