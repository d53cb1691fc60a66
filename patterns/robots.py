"""What machines that walk from page to page are asked to leave alone."""

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_safe


@require_safe
def robots(request: HttpRequest) -> HttpResponse:
    """Name the list of pages, and what is not for machines. An invented shop asks to be left alone whole.

    Every size of a pattern has an address with a `?`, and there are too many of them to walk through. What is
    behind a secret link is not named here: its pages say themselves that they are not to be listed.
    """
    lines = ["User-agent: *"]
    if request.shop.is_demo:  # type: ignore[attr-defined]
        lines.append("Disallow: /")
    else:
        closed = (reverse("admin:index"), "/workroom/", reverse("orders:basket"))
        lines += [f"Disallow: {path}" for path in (*closed, "/*?")]
        lines += ["", f"Sitemap: {settings.SITE_URL}{reverse('patterns:sitemap')}"]
    return HttpResponse("\n".join(lines) + "\n", content_type="text/plain; charset=utf-8")
