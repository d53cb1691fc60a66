"""What is kept, and how long: for everybody, and for the owner with what was taken away."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from orders.keeping import rules
from orders.models import KeepingRun
from patterns.owners import owners_page


@require_safe
def what_is_kept(request: HttpRequest) -> HttpResponse:
    return render(request, "orders/what_is_kept.html", {"rules": rules()})


@owners_page("orders.view_order")
def owner_keeping(request: HttpRequest) -> HttpResponse:
    """Each rule with its last run."""
    runs = {run.rule: run for run in KeepingRun.objects.all()}
    rows = [{"rule": rule, "run": runs.get(rule.key)} for rule in rules()]
    return render(request, "orders/owner_keeping.html", {"rows": rows})
