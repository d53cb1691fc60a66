"""The worker's housekeeping: each rule of what is kept is seen to once a day, or once an hour."""

from datetime import datetime

from django.db import IntegrityError, transaction
from django.db.models import F

from orders.keeping import AT_ONCE, Rule, rules
from orders.models import KeepingRun

# What is more than so many portions goes the next time.
MOST_PORTIONS = 20


def keep_house(now: datetime) -> int:
    """See to the rule that is longest due; return how much was taken away.

    That it was begun is kept before anything is deleted, so that one that fails keeps no other from its turn.
    """
    known = {run.rule: run for run in KeepingRun.objects.all()}
    due = [rule for rule in rules() if rule.deletes and _is_due(rule, known.get(rule.key), now)]
    if not due:
        return 0
    rule = next((each for each in due if each.key not in known), None)
    rule = rule or min(due, key=lambda each: known[each.key].begun_at)
    return _see_to(rule, known.get(rule.key), now)


def _is_due(rule: Rule, run: KeepingRun | None, now: datetime) -> bool:
    return run is None or run.begun_at <= now - rule.every


def _see_to(rule: Rule, run: KeepingRun | None, now: datetime) -> int:
    if rule.deletes is None or not _begin(rule, run, now):
        return 0
    taken = 0
    for _ in range(MOST_PORTIONS):
        portion = rule.deletes(now, AT_ONCE)
        taken += portion
        if portion < AT_ONCE:
            break
    mine = KeepingRun.objects.filter(rule=rule.key, begun_at=now)
    mine.update(ended_at=now, taken=taken, taken_ever=F("taken_ever") + taken)
    return taken


def _begin(rule: Rule, run: KeepingRun | None, now: datetime) -> bool:
    """Take a rule's turn; False where another process has just taken it."""
    if run is None:
        try:
            with transaction.atomic():
                KeepingRun.objects.create(rule=rule.key, begun_at=now)
        except IntegrityError:
            return False
        return True
    as_read = KeepingRun.objects.filter(pk=run.pk, begun_at=run.begun_at)
    return as_read.update(begun_at=now, ended_at=None, taken=0) == 1
