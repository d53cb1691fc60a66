"""The payment page of the provider that is only a demonstration."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods

from orders.models import LocalCharge
from orders.paying import receive
from orders.providers.interface import Message
from orders.providers.local import NAME, dispute_message_of, message_of, signed
from patterns.money import money
from studio.models import Shop


@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def local_checkout(request: HttpRequest, reference: str) -> HttpResponse:
    """Pay, or decline, without any money, and be the bank that calls it back; in the invented shop alone."""
    if not Shop.objects.current().is_demo:
        raise Http404
    charge = get_object_or_404(LocalCharge, reference=reference)
    if request.method == "POST":
        message = _done(charge, request.POST.get("end", ""))
        if message and "lose" not in request.POST:
            _tell(message)
        return redirect("orders:payment-back", charge.order_number)
    context = {"charge": charge, "amount": money(charge.amount_minor, charge.currency)}
    return render(request, "orders/local_checkout.html", context)


def _done(charge: LocalCharge, end: str) -> Message | None:
    """Do what was pressed, once, and return what is said of it; where that is lost, the sweep finds it.

    None: there was nothing to do, such as calling back what is not paid.
    """
    states, disputes = LocalCharge.State, LocalCharge.Dispute
    known = LocalCharge.objects.filter(pk=charge.pk)
    if end == "dispute":
        known.filter(state=states.PAID, dispute=disputes.NONE).update(
            dispute=disputes.OPEN, disputed_at=timezone.now()
        )
    elif end in (disputes.WON, disputes.LOST):
        known.filter(dispute=disputes.OPEN).update(dispute=end)
    else:
        known.filter(state=states.OPEN).update(state=states.PAID if end == "pay" else states.DECLINED)
    charge.refresh_from_db()
    if charge.dispute:
        return dispute_message_of(charge)
    return None if charge.state == states.OPEN else message_of(charge)


def _tell(message: Message) -> None:
    now = timezone.now()
    body, signature = signed(message, now)
    receive(NAME, body, signature, now)
