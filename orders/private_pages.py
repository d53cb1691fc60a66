"""Pages behind a link that is their only key."""

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.http import HttpResponse

View = Callable[..., HttpResponse]


def behind_a_link(view: View) -> View:
    """A page that whoever holds its link may read: no copy is kept, nothing lists it or hands the link on.

    A request from it names the shop and never the page. It must name the shop: from a page that names nothing
    browsers send forms with no origin, and such forms are refused.
    """

    @wraps(view)
    def private(*args: Any, **kwargs: Any) -> HttpResponse:
        response = view(*args, **kwargs)
        response.headers["Cache-Control"] = "private, no-store"
        response.headers["X-Robots-Tag"] = "noindex, nofollow"
        response.headers["Referrer-Policy"] = "strict-origin"
        return response

    return private
