"""The owner's pages: what was ordered, which letters could not be sent, and which sizes sell."""

from collections.abc import Iterator, Sequence
from datetime import UTC, timedelta
from typing import Any

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.utils.safestring import mark_safe

from orders import sizes_sold as report
from orders.charts import bar_chart
from orders.models import IssuedDocument, Letter, Order, SizeSold
from orders.spreadsheets import Cell, csv_response
from orders.waiting import waiting
from patterns.models import Pattern
from patterns.money import amount
from patterns.owners import owners_act, owners_page
from patterns.views import usual_units
from studio.htmx import redirect_page, render_page_or_part

ORDERS_ON_A_PAGE = 25
ORDERS_ON_FRONT = 5
LATELY = timedelta(days=7)
LETTERS_ON_A_PAGE = 20
# As much as is searched for; more is no name.
LONGEST_SEARCH = 100


@owners_page("orders.view_order")
def workroom(request: HttpRequest) -> HttpResponse:
    """Her front page: what waits for her, each with the way to it, and what was ordered lately."""
    now = timezone.now()
    lately = Order.objects.filter(placed_at__gt=now - LATELY)
    context = {
        "waiting": waiting(request.shop.currency, now),  # type: ignore[attr-defined]
        "letters_waiting": Letter.objects.waiting().count(),
        "ordered": lately.count(),
        "newest": Order.objects.with_lines().newest_first()[:ORDERS_ON_FRONT],
        "days": LATELY.days,
        "has_patterns": Pattern.objects.listed().exists(),
    }
    return render(request, "orders/workroom.html", context)


@owners_page("orders.view_order")
def owner_orders(request: HttpRequest) -> HttpResponse:
    words = request.GET.get("q", "")[:LONGEST_SEARCH].replace("\0", "").strip()
    orders = Order.objects.matching(words).with_lines().newest_first()
    page = Paginator(orders, ORDERS_ON_A_PAGE).get_page(request.GET.get("page"))
    part = "orders/partials/order_rows.html"
    unsent = Letter.objects.waiting().order_by("pk")
    context = {
        "page": page,
        "words": words,
        **_files_that_need_her(),
        "letters_given_up": Letter.objects.given_up()[:LETTERS_ON_A_PAGE],
        "letters_waiting": unsent.count(),
        "letter_failing": unsent.exclude(last_error="").last(),
    }
    return render_page_or_part(request, "orders/owner_orders.html", part, context)


@owners_act("orders.change_letter")
def letter_again(request: HttpRequest, pk: int) -> HttpResponse:
    """Let a letter that could not be sent be tried again; pressed twice, it is tried once."""
    letter = get_object_or_404(Letter, pk=pk)
    if letter.try_again(timezone.now()):
        messages.success(request, f"The letter to {letter.to} is tried again now.")
    return redirect_page(request, "orders:owner-orders")


@owners_act("orders.change_issueddocument")
def try_again(request: HttpRequest) -> HttpResponse:
    """Let the worker begin afresh with the files that it has given up."""
    count = IssuedDocument.objects.given_up(timezone.now()).order_by().try_again()
    if count:
        messages.success(request, f"{count} file{'' if count == 1 else 's'} will be tried again now.")
    return redirect_page(request, "orders:owner-orders")


@owners_page("orders.view_order")
def owner_orders_csv(request: HttpRequest) -> HttpResponseBase:
    head = (
        *("order", "placed (UTC)", "name", "email", "pattern", "size", "price", "currency", "downloads"),
        *("licence price", "tax in both", "country", "payment", "invoice"),
    )
    return csv_response("orders.csv", head, _order_rows())


@owners_page("orders.view_sizesold")
def sizes_sold(request: HttpRequest) -> HttpResponse:
    chosen = _chosen_pattern(request)
    patterns = list(Pattern.objects.all())
    tallies = report.tallies(SizeSold.objects.of(chosen), usual_units(request))
    sold = [(pattern, _drawn(pattern, tallies[pattern.pk])) for pattern in patterns if pattern.pk in tallies]
    context = {"patterns": patterns, "chosen": chosen, "sold": sold}
    return render_page_or_part(
        request, "orders/sizes_sold.html", "orders/partials/sold_tallies.html", context
    )


@owners_page("orders.view_sizesold")
def sizes_sold_csv(request: HttpRequest) -> HttpResponseBase:
    sizes = SizeSold.objects.of(_chosen_pattern(request))
    slugs = dict(Pattern.objects.values_list("pk", "slug"))
    rows = (
        (slugs[pk], one.measure, one.words, one.units, one.decimal, one.nanometres or "", one.sold)
        for pk, one in report.values(sizes)
    )
    head = ("pattern", "measure", "size", "units", "size as decimal", "nanometres", "sold")
    return csv_response("sizes-sold.csv", head, rows)


def _files_that_need_her() -> dict[str, Any]:
    """The files that the worker has given up, and how many have waited so long that it cannot be at work."""
    now = timezone.now()
    given_up = IssuedDocument.objects.given_up(now).select_related("line__order")
    given_up = given_up.defer("line__sized", "line__layouts")
    return {"given_up": list(given_up), "overdue": IssuedDocument.objects.overdue(now).count()}


def _order_rows() -> Iterator[Sequence[Cell]]:
    """A row for each line, newest order first, a few hundred orders in memory at a time."""
    for order in Order.objects.with_lines().newest_first().iterator(chunk_size=500):
        placed = order.placed_at.astimezone(UTC).strftime("%Y-%m-%d %H:%M:%S")
        for line in order.lines.all():
            bought = (line.title, line.size_words, amount(line.price_minor, line.currency), line.currency)
            more = (amount(line.batch_minor, line.currency), amount(line.tax_minor, line.currency))
            paid = (order.country, order.payment_words, order.invoice_number or "")
            yield (
                *(order.number, placed, order.name, order.email, *bought, line.download_count),
                *(*more, *paid),
            )


def _chosen_pattern(request: HttpRequest) -> Pattern | None:
    """The pattern that the address names; an unknown one is no page."""
    slug = request.GET.get("pattern", "")
    return get_object_or_404(Pattern, slug=slug) if slug else None


def _drawn(pattern: Pattern, tallies: Sequence[report.Tally]) -> list[dict[str, Any]]:
    """Each tally with its picture. The picture escapes its own texts."""
    return [
        {"tally": tally, "picture": mark_safe(_picture(f"{pattern.slug}-{at}", pattern, tally))}  # noqa: S308
        for at, tally in enumerate(tallies, start=1)
    ]


def _picture(name: str, pattern: Pattern, tally: report.Tally) -> str:
    title = f"{pattern}: {tally.measure}, {tally.in_units}"
    return bar_chart(name, title, [(bar.label, bar.sold) for bar in tally.bars])
