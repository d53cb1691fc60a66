"""The page of an order where another size is chosen, while the year of it lasts."""

from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from orders.errors import OrderError
from orders.models import OrderLine
from orders.models.links import opened_by
from orders.private_pages import behind_a_link
from orders.selling import local_day
from orders.years import add_size
from patterns.drafting.units import Units
from patterns.forms import MeasureForm
from patterns.models import Revision
from patterns.size_page import size_page
from studio.htmx import redirect_page


@require_http_methods(["GET", "HEAD", "POST"])
@behind_a_link
def another_size(request: HttpRequest, token: str, line: int) -> HttpResponse:
    """Choose a size in the address, see it drawn, and add it to the order."""
    lines = OrderLine.objects.select_related("order").filter(opened_by(token, "order__"))
    bought = get_object_or_404(lines.exclude(any_size_until=None), position=line)
    now = timezone.now()
    if not bought.order.is_paid or (bought.any_size_until or local_day(now)) < local_day(now):
        raise Http404
    revision = Revision.objects.latest_of_each().get(pattern=bought.revision.pattern_id)
    form = _form(request, revision, bought)
    page = size_page(revision.pattern.slug, form)
    is_good = form.is_all_read and not page.refusals and not form.notes
    trouble = ""
    if request.method == "POST" and is_good:
        try:
            added = add_size(bought, revision, page.sized, form.buying.wish, now)
        except OrderError as error:
            trouble = str(error)
        else:
            address = reverse("orders:order-detail", args=[token])
            return redirect_page(request, f"{address}#line-{added.position}")
    context = {
        "order": bought.order,
        "bought": bought,
        "token": token,
        "form": form,
        "page": page,
        "units": form.units,
        "is_good": is_good,
        "trouble": trouble,
    }
    return render(request, "orders/another_size.html", context)


def _form(request: HttpRequest, revision: Revision, bought: OrderLine) -> MeasureForm:
    """The size in the address; without one, the recipe's own in the units that were bought."""
    query = request.GET or QueryDict(f"units={bought.sized['units']}")
    return MeasureForm(revision.recipe, query, Units(bought.sized["units"]), bought.currency)
