"""Where a payment begins and ends for a customer's browser, and where providers send their messages."""

from dataclasses import dataclass
from datetime import timedelta

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_POST, require_safe

from orders.errors import AlreadyPaidError
from orders.models import Order, Payment
from orders.paying import begin_card, receive
from orders.placing import Placed
from orders.private_pages import behind_a_link
from orders.providers import NoProviderError, card_provider
from orders.providers.interface import ProviderError, UnreadableError, UnsignedError
from studio.htmx import redirect_page
from studio.models import Shop

# A message is a few KiB. A sender of more is nobody we have asked.
MOST_BYTES = 64 * 1024
SIGNATURE_HEADERS = ("HTTP_STRIPE_SIGNATURE", "HTTP_LOCAL_SIGNATURE")
# A page that is left open asks whether the money is there for so long, and then only when it is loaded.
STILL_ASKED = timedelta(hours=1)
# So that the browser finds its order's page when it comes back from the provider, who is not told the link.
BACK_COOKIE = "order-{}"
BACK_COOKIE_SECONDS = 2 * 24 * 60 * 60


def go_on(request: HttpRequest, placed: Placed) -> HttpResponse:
    """Lead from an order that was just placed to where it is paid, or to its page."""
    address = _card_address(placed.order)
    answer = redirect_page(request, address or reverse("orders:order-detail", args=[placed.token]))
    if address:
        _remember(answer, placed.order, placed.token)
    return answer


@require_POST
@behind_a_link
def pay(request: HttpRequest, token: str) -> HttpResponse:
    """Begin to pay for an order, or go on with the payment that is open."""
    order = get_object_or_404(Order.objects.behind(token))
    return go_on(request, Placed(order, token))


def _card_address(order: Order) -> str | None:
    """Where the order is paid by card; None where it is not, or the provider cannot be reached."""
    if order.is_paid or order.way in ("", Payment.TRANSFER):
        return None
    shop = Shop.objects.current()
    card = card_provider(shop)
    try:
        return begin_card(order, card.name, timezone.now()) if card else None
    except (AlreadyPaidError, ProviderError, NoProviderError):
        return None


def _remember(answer: HttpResponse, order: Order, token: str) -> None:
    answer.set_signed_cookie(
        BACK_COOKIE.format(order.number),
        token,
        max_age=BACK_COOKIE_SECONDS,
        path=reverse("orders:payment-back", args=[order.number]),
        secure=settings.IS_HTTPS,
        httponly=True,
        samesite="Lax",
    )


@require_safe
@never_cache
def payment_back(request: HttpRequest, number: int) -> HttpResponse:
    """Where a provider sends the browser: on to the order's page. It grants nothing, whatever it is told."""
    name = BACK_COOKIE.format(number)
    token = request.get_signed_cookie(name, default="", max_age=BACK_COOKIE_SECONDS)
    if token and Order.objects.behind(token).filter(pk=number).exists():
        return redirect("orders:order-detail", token)
    return render(request, "orders/payment_back.html", {"number": number})


@csrf_exempt
@require_POST
def payment_message(request: HttpRequest, name: str) -> HttpResponse:
    """A provider's message. Only the signature says whose it is; an answer of 400 changes nothing here."""
    body = request.read(MOST_BYTES + 1)
    if len(body) > MOST_BYTES:
        return HttpResponse("Too long.", status=413, content_type="text/plain")
    signature = next((request.META[each] for each in SIGNATURE_HEADERS if each in request.META), "")
    try:
        receive(name, body, signature, timezone.now())
    except NoProviderError:
        return HttpResponse("No such provider.", status=404, content_type="text/plain")
    except (UnsignedError, UnreadableError):
        return HttpResponse("Not a message of the provider.", status=400, content_type="text/plain")
    return HttpResponse("Taken.", content_type="text/plain")


@dataclass(frozen=True, slots=True)
class PaymentState:
    """What an order's page says of its payment. may_pay_by_card: there is a provider to pay at now.

    is_pending: the customer has been at the provider, and nothing has been heard yet. has_failed: the last
    try came to nothing.
    """

    may_pay_by_card: bool = False
    is_pending: bool = False
    has_failed: bool = False
    transfer_details: str = ""


def payment_state(order: Order, shop: Shop) -> PaymentState | None:
    """Return what an order's page says of its payment; None where there is nothing to do."""
    if order.total_minor == 0 or order.paid_at is not None:
        return None
    if order.is_by_transfer:
        return PaymentState(transfer_details=shop.transfer_details)
    begun = order.payments.filter(state=Payment.State.BEGUN, begun_at__gt=timezone.now() - STILL_ASKED)
    begun = begun.exclude(reference="")
    return PaymentState(
        may_pay_by_card=card_provider(shop) is not None,
        is_pending=begun.exists(),
        has_failed=order.payments.order_by("-pk").values_list("state", flat=True).first()
        == Payment.State.FAILED,
    )


@require_safe
@behind_a_link
def payment_part(request: HttpRequest, token: str) -> HttpResponse:
    """What an order's page asks again while it waits; when the money is there, the whole page comes anew."""
    order = get_object_or_404(Order.objects.behind(token))
    state = payment_state(order, Shop.objects.current())
    if state is None or not request.htmx:  # type: ignore[attr-defined]
        return redirect_page(request, "orders:order-detail", token)
    context = {"order": order, "token": token, "payment": state}
    return render(request, "orders/partials/order_payment.html", context)
