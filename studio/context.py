from typing import Any

from django.http import HttpRequest

from studio.models import Shop


def shop(request: HttpRequest) -> dict[str, Any]:
    """Give every template the shop as `shop`."""
    return {"shop": getattr(request, "shop", None) or Shop.objects.current()}
