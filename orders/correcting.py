"""Corrections: a revised pattern is published, and whoever it concerns is told, each once.

Publishing only notes that there is a correction. Whoever sweeps then looks at what was sold, a few orders in
one go: for each line a row says what the correction means for it, in the transaction that makes the corrected
line, promises its files and writes the letter. So it may be broken off and begun again anywhere.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta

from django.db import models, transaction
from django.db.models import Max

from orders import letters
from orders.corrected import Anew, all_anew, called
from orders.models import CorrectedLine, Correction, CorrectionTold, Order, OrderLine
from orders.promising import promise
from patterns.drafting.sized_json import to_json
from patterns.models import Draft, Pattern, Revision
from patterns.publishing import publish

Outcome = CorrectedLine.Outcome
# So many orders are looked at in one go.
MOST_AT_ONCE = 5
# When all have been, it is looked again for orders that were paid since.
PAUSE = timedelta(minutes=10)


def publish_revision(
    pattern: Pattern, text: str, reason: str, *, tells: bool, owner: str, now: datetime
) -> Revision:
    """Publish a text, and have the buyers told whose size it changes; its draft is gone then.

    tells: whether anybody is to be told. The same text twice is one revision and one correction.
    Raises PublishingError.
    """
    with transaction.atomic():
        revision = publish(pattern, text, reason)
        if tells and revision.number > 1:
            begin_correction(revision, owner, now)
        Draft.objects.filter(pattern=pattern).delete()
    return revision


def begin_correction(revision: Revision, owner: str, now: datetime) -> Correction:
    """Note that a revision corrects the ones before it; earlier corrections of the pattern have done then."""
    earlier = Correction.objects.filter(revision__pattern=revision.pattern_id)
    earlier.filter(revision__number__lt=revision.number).update(due_at=None)
    begun, _ = Correction.objects.get_or_create(
        revision=revision, defaults={"begun_at": now, "begun_by": owner, "due_at": now}
    )
    return begun


def untold() -> models.QuerySet[Revision]:
    """The revisions on sale that took an earlier one's place without anybody being told, newest first."""
    later = Revision.objects.latest_of_each().without_text().filter(number__gt=1, correction=None)
    return later.select_related("pattern").order_by("-published_at", "-pk")


def tell_later(revision: Revision, owner: str, now: datetime) -> bool:
    """Have the buyers told of a revision that was published without it; False where that is done or over.

    It is over once a later revision is on sale: that one's correction compares with what they have.
    """
    with transaction.atomic():
        Pattern.objects.select_for_update().get(pk=revision.pattern_id)  # as publishing does
        if not untold().filter(pk=revision.pk).exists():
            return False
        begin_correction(revision, owner, now)
    return True


def sweep_corrections(now: datetime) -> int:
    """Look at some orders of the correction that is due; return at how many lines."""
    correction = Correction.objects.due(now).select_related("revision__pattern").first()
    if correction is None:
        return 0
    numbers = correction.lines_to_look_at().order_by("order").values_list("order", flat=True)
    orders = list(numbers.distinct()[:MOST_AT_ONCE])
    if not orders:
        Correction.objects.due(now).filter(pk=correction.pk).update(due_at=now + PAUSE)
    return sum(look_at(correction, order, now) for order in orders)


def look_at(correction: Correction, number: int, now: datetime) -> int:
    """Say what a correction means for an order, and tell its customer if anything is another.

    Working it out takes some milliseconds a line, so that it is done before the transaction begins.
    Returns how many lines were looked at.
    """
    lines = list(correction.lines_to_look_at().filter(order=number).select_related("revision"))
    found = list(all_anew(lines, correction.revision.recipe))
    with transaction.atomic():
        order = Order.objects.select_for_update().get(pk=number)
        still = set(correction.lines_to_look_at().filter(order=number).values_list("pk", flat=True))
        looked_at = [
            _keep(correction, order, line, made_anew, now) for line, made_anew in found if line.pk in still
        ]
        changed = [each for each in looked_at if each.outcome == Outcome.CHANGED]
        if changed and not CorrectionTold.objects.filter(correction=correction, order=order).exists():
            letter = letters.corrected(order, told(correction, changed), now)
            CorrectionTold.objects.create(correction=correction, order=order, letter=letter)
    return len(looked_at)


def _keep(
    correction: Correction, order: Order, line: OrderLine, made_anew: Anew, now: datetime
) -> CorrectedLine:
    return CorrectedLine.objects.create(
        correction=correction,
        line=line,
        made=_corrected_line(correction, order, line, made_anew),
        outcome=made_anew.outcome,
        changes=list(made_anew.changes),
        why=made_anew.why[:500],
        looked_at=now,
    )


def _corrected_line(
    correction: Correction, order: Order, line: OrderLine, made_anew: Anew
) -> OrderLine | None:
    """The line that takes the place of one whose size is affected; the other's files stay."""
    if made_anew.outcome != Outcome.CHANGED or made_anew.sized is None:
        return None
    made = OrderLine.objects.create(
        order=order,
        position=order.lines.aggregate(last=Max("position"))["last"] + 1,
        revision=correction.revision,
        title=made_anew.sized.title,
        sized=to_json(made_anew.sized),
        wish=line.wish,
        own_cloth=line.own_cloth,
        quantity=line.quantity,
        price_minor=0,
        currency=line.currency,
        corrects=line,
    )
    promise(made, made_anew.sized)
    return made


def told(correction: Correction, changed: Sequence[CorrectedLine]) -> list[letters.Told]:
    """Return what a letter says of the lines that a correction changes."""
    pattern, number = correction.revision.pattern_id, correction.revision.number
    return [
        letters.Told(
            called(each.line), reasons(pattern, each.line.revision.number, number), tuple(each.changes)
        )
        for each in changed
    ]


def reasons(pattern: int, since: int, number: int) -> tuple[str, ...]:
    """Return why a pattern was revised after one revision of it and up to another, oldest first."""
    found = Revision.objects.filter(pattern=pattern, number__gt=since, number__lte=number).exclude(reason="")
    return tuple(dict.fromkeys(found.order_by("number").values_list("reason", flat=True)))
