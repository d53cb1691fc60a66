"""The payment page of the provider that is only a demonstration."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods

from orders.models import LocalCharge
from orders.paying import receive
from orders.providers.local import NAME, message_of, signed
from patterns.money import money
from studio.models import Shop


@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def local_checkout(request: HttpRequest, reference: str) -> HttpResponse:
    """Pay, or decline, without any money; in the invented shop alone."""
    if not Shop.objects.current().is_demo:
        raise Http404
    charge = get_object_or_404(LocalCharge, reference=reference)
    if request.method == "POST":
        _end(charge, request.POST.get("end", ""), is_told="lose" not in request.POST)
        return redirect("orders:payment-back", charge.order_number)
    context = {"charge": charge, "amount": money(charge.amount_minor, charge.currency)}
    return render(request, "orders/local_checkout.html", context)


def _end(charge: LocalCharge, end: str, *, is_told: bool) -> None:
    """Bring a charge to its end, once, and send the message of it; a lost one is for the sweep to find."""
    states = LocalCharge.State
    state = states.PAID if end == "pay" else states.DECLINED
    LocalCharge.objects.filter(pk=charge.pk, state=states.OPEN).update(state=state)
    charge.refresh_from_db()
    if is_told:
        now = timezone.now()
        body, signature = signed(message_of(charge), now)
        receive(NAME, body, signature, now)
