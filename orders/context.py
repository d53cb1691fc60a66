from typing import Any

from django.http import HttpRequest

from orders.basket import SESSION_KEY, basket_of


def basket(request: HttpRequest) -> dict[str, Any]:
    """Give every template how many lines the visitor's basket has, as `basket_count`."""
    has_basket = hasattr(request, "session") and SESSION_KEY in request.session
    return {"basket_count": len(basket_of(request).items) if has_basket else 0}
