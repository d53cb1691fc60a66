"""The customer's pages after an order: the order behind its link, its files, its receipt."""

import logging
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from orders import own_cloth, receipts
from orders.body_child import BodyError, made_apart
from orders.delivery import files_of, granted_line, lines_shown, pass_shown
from orders.errors import NoOtherSystemError
from orders.further import further_document
from orders.issuing import issue
from orders.models import DownloadPass, IssuedDocument, Order, OrderLine
from orders.models.payments import granted
from orders.other_system import in_other_system, keep_in_other_system, turned
from orders.partial_content import file_response
from orders.passes import may_download, renew, use
from orders.payment_views import payment_state
from orders.private_pages import behind_a_link
from orders.ready import saw_ready
from orders.to_buy import to_buy
from patterns.documents.paper import PaperName
from patterns.documents.words import UNIT_WORDS
from patterns.size_page import drawing
from studio.htmx import redirect_page, wants_part
from studio.models import Shop

logger = logging.getLogger(__name__)


@require_safe
@behind_a_link
def order_detail(request: HttpRequest, token: str) -> HttpResponse:
    now = timezone.now()
    order = get_object_or_404(Order.objects.behind(token).prefetch_related("lines__documents"))
    saw_ready(order, now)
    context = {
        "order": order,
        "token": token,
        "link": request.build_absolute_uri(reverse("orders:order-detail", args=[token])),
        "lines": lines_shown(order, now, token),
        "pass": pass_shown(order, now),
        "payment": payment_state(order, Shop.objects.current()),
    }
    return render(request, "orders/order_detail.html", context)


@require_safe
@behind_a_link
def order_files(request: HttpRequest, token: str, line: int) -> HttpResponse:
    """How far the files of one line are: a part that asks for itself again while some are wanted."""
    found = granted_line(token, line)
    if not wants_part(request):
        return redirect_page(request, f"{reverse('orders:order-detail', args=[token])}#files-{line}")
    now = timezone.now()
    saw_ready(found.order, now)
    context = {
        "token": token,
        "files": files_of(found, now),
        "pass": pass_shown(found.order, now),
        "to_buy": to_buy(found),
        "is_part": True,
    }
    return render(request, "orders/partials/order_files.html", context)


@require_safe
@behind_a_link
def order_cloth(request: HttpRequest, token: str, line: int, role: str) -> HttpResponse:
    """The customer's own cloth, as it was kept with a line of the order."""
    found = get_object_or_404(OrderLine, order=get_object_or_404(Order.objects.behind(token)), position=line)
    content = own_cloth.content(found, role)
    if content is None:
        raise Http404
    return HttpResponse(content, content_type="image/jpeg", headers={"X-Content-Type-Options": "nosniff"})


@require_POST
@behind_a_link
def pass_renew(request: HttpRequest, token: str) -> HttpResponse:
    renew(get_object_or_404(Order.objects.behind(token)), timezone.now())
    return redirect_page(request, f"{reverse('orders:order-detail', args=[token])}#order-pass")


@require_http_methods(["GET", "HEAD", "POST"])
@behind_a_link
def other_system(request: HttpRequest, token: str, line: int) -> HttpResponse:
    """Show a line in the other unit system, and keep it beside the first if the customer says so."""
    found = granted_line(token, line)
    if found.beside is not None or (request.method != "POST" and found.other is not None):
        return redirect_page(request, "orders:order-detail", token)
    context: dict[str, Any] = {"order": found.order, "token": token, "line": found}
    try:
        if request.method == "POST":
            kept = keep_in_other_system(found)
            return redirect_page(
                request, f"{reverse('orders:order-detail', args=[token])}#line-{kept.position}"
            )
        sized = in_other_system(found)
    except NoOtherSystemError as error:
        return render(request, "orders/no_other_system.html", {**context, "error": error})
    before = found.sized_pattern
    context |= {
        "before": before,
        "sized": sized,
        "drawing": drawing(sized),
        "measures": turned(before, sized),
        "advice": sized.failed,
        "units_before": UNIT_WORDS[before.units],
        "units": UNIT_WORDS[sized.units],
    }
    return render(request, "orders/other_system.html", context)


@require_safe
@behind_a_link
def receipt(request: HttpRequest, token: str, paper: PaperName) -> HttpResponse:
    order = get_object_or_404(Order.objects.behind(token).filter(granted()))
    shop = request.shop  # type: ignore[attr-defined]
    return file_response(request, receipts.receipt(order, shop, paper), f"receipt-order-{order.number}.pdf")


@require_safe
@behind_a_link
def download(request: HttpRequest, token: str, line: int, kind: str, paper: str) -> HttpResponse:
    """Hand out a file by a pass; made first if need be. A part of it, or all, counts once in ten minutes."""
    now = timezone.now()
    one = get_object_or_404(DownloadPass.objects.behind(token))
    documents = IssuedDocument.objects.granted().filter(line__order=one.order_id).select_related("line")
    document = documents.filter(line__position=line, kind=kind, paper=paper).first()
    document = document or further_document(one.order, line, kind, paper)
    if document is None:
        raise Http404
    if not may_download(one, document, now):
        return _pass_ended(request, one)
    if document.has_failed:
        return _not_made(request, document)
    try:
        content = issue(document, made_apart)
    except BodyError as error:
        logger.error("Document %s of order %s was not made: %s", document.pk, one.order_id, error)
        return _not_made(request, document)
    response = file_response(request, content, document.file_name)
    if request.method == "GET" and response.status_code != 416 and not use(one, document, now):
        return _pass_ended(request, one)
    return response


def _pass_ended(request: HttpRequest, one: DownloadPass) -> HttpResponse:
    return render(request, "orders/pass_ended.html", {"pass": one}, status=410)


def _not_made(request: HttpRequest, document: IssuedDocument) -> HttpResponse:
    response = render(request, "orders/not_made.html", {"document": document}, status=503)
    response.headers["Retry-After"] = "600"
    return response
