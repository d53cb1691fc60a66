"""The owner's pages of payments: what waits for her, and one order with all that was paid for it."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone

from orders.checkout_forms import ways_to_pay
from orders.errors import OrderError
from orders.models import Dispute, Order, Payment, PaymentEvent, Refund, TaxRate
from orders.owner_payment_forms import ReferenceForm, RefundForm
from orders.paying import mark_paid
from orders.refunding import ask_refund, mark_sent, send_refund
from patterns.owners import owners_form, owners_page
from studio.htmx import redirect_page
from studio.models import Shop

# As many of each kind as one page shows; what is older comes up when these are done.
MOST_SHOWN = 100


@owners_page("orders.view_payment")
def owner_payments(request: HttpRequest) -> HttpResponse:
    """What waits for her, most urgent first."""
    refunds = Refund.objects.asked().select_related("payment__order")
    context = {
        "misfits": PaymentEvent.objects.waiting_for_owner().select_related("payment")[:MOST_SHOWN],
        "disputes": Dispute.objects.open().select_related("payment__order")[:MOST_SHOWN],
        "too_much": Order.objects.paid_too_much().newest_first()[:MOST_SHOWN],
        "transfers": Payment.objects.waiting_for_transfer().select_related("order")[:MOST_SHOWN],
        "refunds": refunds[:MOST_SHOWN],
        "has_rates": TaxRate.objects.exists(),
        "has_ways": bool(ways_to_pay(Shop.objects.current())),
    }
    return render(request, "orders/owner_payments.html", context)


@owners_page("orders.view_payment")
def owner_order(request: HttpRequest, number: int) -> HttpResponse:
    return _order_page(request, get_object_or_404(Order.objects.with_lines(), pk=number))


@owners_form("orders.change_payment")
def payment_paid(request: HttpRequest, pk: int) -> HttpResponse:
    """Mark a transfer as come, with the bank's reference."""
    payment = get_object_or_404(Payment.objects.select_related("order"), pk=pk, provider=Payment.TRANSFER)
    form = ReferenceForm(request.POST if request.method == "POST" else None)
    if not form.is_valid():
        return _order_page(request, payment.order, paid=(payment.pk, form))
    mark_paid(payment, form.cleaned_data["reference"], str(request.user), timezone.now())
    messages.success(request, f"Order {payment.order_id} is paid, and its files are the customer’s.")
    return redirect_page(request, "orders:owner-order", payment.order_id)


@owners_form("orders.add_refund")
def payment_refund(request: HttpRequest, pk: int) -> HttpResponse:
    """Give money back. The row is kept before the provider is asked."""
    payment = get_object_or_404(Payment.objects.select_related("order"), pk=pk, state=Payment.State.PAID)
    form = RefundForm(payment, request.POST if request.method == "POST" else None)
    if not form.is_valid() or not _refund(request, payment, form):
        return _order_page(request, payment.order, refund=(payment.pk, form))
    return redirect_page(request, "orders:owner-order", payment.order_id)


def _refund(request: HttpRequest, payment: Payment, form: RefundForm) -> bool:
    now, typed = timezone.now(), form.cleaned_data
    try:
        refund = ask_refund(
            payment,
            typed["amount"],
            reason=typed["reason"],
            key=typed["key"],
            owner=str(request.user),
            now=now,
        )
    except OrderError as error:
        form.add_error("amount", str(error))
        return False
    send_refund(refund, now)
    is_by_hand = payment.provider == Payment.TRANSFER
    then = (
        "Send it from your bank, then write the bank’s reference below."
        if is_by_hand
        else "This page says how far it is."
    )
    messages.success(request, f"{refund} is noted. {then}")
    return True


@owners_form("orders.change_refund")
def refund_sent(request: HttpRequest, pk: int) -> HttpResponse:
    """Mark a transfer as sent back, with the bank's reference."""
    refunds = Refund.objects.select_related("payment__order").filter(payment__provider=Payment.TRANSFER)
    refund = get_object_or_404(refunds, pk=pk)
    form = ReferenceForm(request.POST if request.method == "POST" else None)
    if not form.is_valid():
        return _order_page(request, refund.payment.order, sent=(refund.pk, form))
    mark_sent(refund, form.cleaned_data["reference"], str(request.user), timezone.now())
    messages.success(request, f"{refund} has been sent.")
    return redirect_page(request, "orders:owner-order", refund.payment.order_id)


@owners_form("orders.change_paymentevent")
def event_seen(request: HttpRequest, pk: int) -> HttpResponse:
    """Put away a message that did not fit. It stays in the records."""
    event = get_object_or_404(PaymentEvent, pk=pk)
    if request.method == "POST":
        waiting = PaymentEvent.objects.waiting_for_owner().filter(pk=event.pk)
        waiting.update(seen_at=timezone.now(), seen_by=str(request.user))
        messages.success(request, f"The message {event.event_id} is put away.")
    return redirect_page(request, "orders:owner-payments")


def _order_page(request: HttpRequest, order: Order, **sent: tuple[int, Any]) -> HttpResponse:
    """One order; sent: the form that was sent with a mistake, under what it does, and the row it is for."""
    payments = list(order.payments.prefetch_related("events", "refunds", "disputes"))
    told = order.corrections_told.select_related("correction__revision__pattern", "letter")
    context = {
        "order": order,
        "told": told,
        "payments": [_payment_row(payment, sent) for payment in payments],
        "form": next((form for _, form in sent.values()), None),
    }
    return render(request, "orders/owner_order.html", context)


def _payment_row(payment: Payment, sent: dict[str, tuple[int, Any]]) -> dict[str, Any]:
    """A payment with its messages and refunds, and the forms for what can be done now."""
    is_transfer = payment.provider == Payment.TRANSFER
    paid_pk, paid_form = sent.get("paid", (0, None))
    back_pk, back_form = sent.get("refund", (0, None))
    sent_pk, sent_form = sent.get("sent", (0, None))
    refund_form = back_form if back_pk == payment.pk and back_form else RefundForm(payment)
    return {
        "payment": payment,
        "is_transfer": is_transfer,
        "paid_form": (paid_form if paid_pk == payment.pk else None) or ReferenceForm(auto_id="id_paid_%s"),
        "refund_form": refund_form if refund_form.left else None,
        "refunds": [
            {
                "refund": refund,
                "form": (sent_form if sent_pk == refund.pk else None) or ReferenceForm(auto_id="id_sent_%s")
                if is_transfer and refund.state == Refund.State.ASKED
                else None,
            }
            for refund in payment.refunds.all()
        ],
    }
