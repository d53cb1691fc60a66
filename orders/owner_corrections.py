"""The owner's pages of corrections: which there were, who was told, and what waits for her."""

from typing import Any

from django.contrib import messages
from django.core.paginator import Paginator
from django.db.models import Count, Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone

from orders.corrected import called
from orders.correcting import untold
from orders.models import CorrectedLine, Correction, CorrectionTold, IssuedDocument
from patterns.models import Draft, Pattern
from patterns.owners import owners_act, owners_page
from studio.htmx import redirect_page

ON_A_PAGE = 25
# Of what waits for her, so much on one page.
MOST_SHOWN = 50
Outcome = CorrectedLine.Outcome


@owners_page("orders.view_correction")
def owner_corrections(request: HttpRequest) -> HttpResponse:
    """What waits for her, the corrections so far, and each pattern with the way to correct it."""
    corrections = Correction.objects.newest_first().select_related("revision__pattern")
    drafts = set(Draft.objects.values_list("pattern", flat=True))
    patterns = [(pattern, pattern.pk in drafts) for pattern in Pattern.objects.with_latest_revision()]
    page = Paginator(corrections, ON_A_PAGE).get_page(request.GET.get("page"))
    context = {
        "waiting": [_refused(each) for each in _waiting()[:MOST_SHOWN]],
        "untold": untold(),
        "page": page,
        "rows": [_row(correction) for correction in page],
        "patterns": patterns,
    }
    return render(request, "orders/owner_corrections.html", context)


@owners_page("orders.view_correction")
def owner_correction(request: HttpRequest, pk: int) -> HttpResponse:
    """One correction: everyone who was told, and how far the letter and the book are."""
    correction = get_object_or_404(Correction.objects.select_related("revision__pattern"), pk=pk)
    told = CorrectionTold.objects.filter(correction=correction).select_related("order", "letter")
    page = Paginator(told.order_by("-pk"), ON_A_PAGE).get_page(request.GET.get("page"))
    orders = [each.order_id for each in page]
    changed = correction.lines.filter(line__order__in=orders, outcome=Outcome.CHANGED)
    lines: dict[int, list[CorrectedLine]] = {}
    for each in changed.select_related("line", "made"):
        lines.setdefault(each.line.order_id, []).append(each)
    wanted = IssuedDocument.objects.filter(line__correction__correction=correction, issued_at=None)
    unmade = set(wanted.values_list("line__order", flat=True))
    rows = [
        {
            "told": each,
            "is_made": each.order_id not in unmade,
            "lines": [(called(one.line), one.changes) for one in lines.get(each.order_id, [])],
        }
        for each in page
    ]
    return render(request, "orders/owner_correction.html", {**_row(correction), "page": page, "rows": rows})


@owners_act("orders.change_correctedline")
def correction_seen(request: HttpRequest, pk: int) -> HttpResponse:
    """Put away a size that a corrected revision refuses. It stays in the records."""
    line = get_object_or_404(CorrectedLine, pk=pk)
    waiting = CorrectedLine.objects.waiting_for_owner().filter(pk=line.pk).order_by()
    if waiting.update(seen_at=timezone.now(), seen_by=str(request.user)):
        messages.success(request, "It is put away.")
    return redirect_page(request, "orders:owner-corrections")


def _waiting() -> Any:
    waiting = CorrectedLine.objects.waiting_for_owner()
    return waiting.select_related("line__order", "correction__revision__pattern")


def _refused(each: CorrectedLine) -> dict[str, Any]:
    return {"each": each, "line": called(each.line), "order": each.line.order}


def _row(correction: Correction) -> dict[str, Any]:
    """A correction with how many orders it was told to, and how far that is."""
    told = correction.told.aggregate(
        all=Count("pk"),
        sent=Count("pk", filter=Q(letter__sent_at__isnull=False)),
        given_up=Count("pk", filter=Q(letter__sent_at=None, letter__due_at=None)),
    )
    outcomes = dict(correction.lines.order_by().values_list("outcome").annotate(Count("pk")))
    books = IssuedDocument.objects.filter(line__correction__correction=correction)
    return {
        "correction": correction,
        "told": told["all"],
        "sent": told["sent"],
        "given_up": told["given_up"],
        "unsent": told["all"] - told["sent"] - told["given_up"],
        "same": outcomes.get(Outcome.SAME, 0),
        "refused": outcomes.get(Outcome.REFUSED, 0),
        "unmade": books.filter(issued_at=None).count(),
        "unseen": correction.lines_to_look_at().count() if correction.due_at else 0,
    }
