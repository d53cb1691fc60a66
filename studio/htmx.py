"""The two answers that a view gives, to htmx and to everyone else: a page or its part, and a redirect."""

from collections.abc import Mapping
from typing import Any

from django.db.models import Model
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render, resolve_url
from django.utils.cache import patch_vary_headers
from django_htmx.http import HttpResponseClientRedirect

# What htmx says of its request; an answer that depends on it must not be served from a cache to another.
VARY = ("HX-Request", "HX-Boosted", "HX-History-Restore-Request")


def render_page_or_part(
    request: HttpRequest, page: str, part: str, context: Mapping[str, Any]
) -> HttpResponse:
    """Return the part where htmx swaps it in, and the page otherwise.

    A boosted link and a history restore ask for the page, although htmx sends them.
    """
    response = render(request, part if wants_part(request) else page, dict(context))
    patch_vary_headers(response, VARY)
    return response


def redirect_page(request: HttpRequest, to: str | Model, *args: Any, **kwargs: Any) -> HttpResponse:
    """Send the whole page to a view's name, an address or a record's own address.

    htmx would follow a 302 itself and swap the answer into the part: it is told with a header of its own.
    """
    address = resolve_url(to, *args, **kwargs)
    if wants_part(request):
        response: HttpResponse = HttpResponseClientRedirect(address)
    else:
        # 303: what follows a POST is fetched with GET.
        response = HttpResponse(status=303, headers={"Location": address})
    patch_vary_headers(response, VARY)
    return response


def wants_part(request: HttpRequest) -> bool:
    """Return whether htmx will swap the answer into a part of the page."""
    htmx = request.htmx  # type: ignore[attr-defined]
    return bool(htmx) and not htmx.boosted and not htmx.history_restore_request
