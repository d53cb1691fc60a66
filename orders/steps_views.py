"""The page that lies beside the sewing machine: one step of an order's book on a screen."""

import logging

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from orders.delivery import granted_line
from orders.private_pages import behind_a_link
from patterns.documents.errors import DocumentError
from patterns.documents.step_screens import step_screen
from patterns.documents.words import UNIT_WORDS
from studio.htmx import redirect_page, render_page_or_part, wants_part

logger = logging.getLogger(__name__)
# Longer than any number of a step, so that nobody has a long one read.
MOST_DIGITS = 4


@require_safe
@behind_a_link
def order_steps(request: HttpRequest, token: str, line: int) -> HttpResponse:
    """Show the step in the address, else the first; `step` beyond them leads to the nearest there is."""
    found = granted_line(token, line)
    sized = found.sized_pattern
    asked = request.GET.get("step", "")
    number = _number(asked, len(sized.steps))
    if asked and asked != str(number):
        address = reverse("orders:order-steps", args=[token, line])
        return redirect_page(request, f"{address}?step={number}")
    context = {"token": token, "line": found, "order": found.order, "is_part": wants_part(request)}
    try:
        screen = step_screen(sized, number)
    except DocumentError as error:
        logger.error("The steps of line %s of order %s: %s", line, found.order_id, error)
        return render(request, "orders/no_steps.html", context, status=503)
    context |= {
        "screen": screen,
        "units": UNIT_WORDS[sized.units] if found.is_in_other_system else "",
        "is_opened": not asked,
    }
    part = "orders/partials/step_screen.html"
    return render_page_or_part(request, "orders/order_steps.html", part, context)


def _number(asked: str, count: int) -> int:
    """The step that is asked for, or the nearest; the first where no number is asked for."""
    if not (asked.isascii() and asked.isdigit() and len(asked) <= MOST_DIGITS):
        return 1
    return min(max(int(asked), 1), count)
