"""Documents that were promised come true: the oldest first, each made in a process of its own."""

from datetime import datetime

from orders.apart import failure_of
from orders.issuing import issue
from orders.models import IssuedDocument
from patterns.documents.render import make_ready


def make_one_wanted(now: datetime) -> int:
    """Make the oldest document that is due; return how many were tried: one, or none.

    The attempt is counted before it begins. So whatever ends this process, or the machine, the document
    stays wanted and is begun again; and one that brings the process down is not begun without end.
    """
    document = IssuedDocument.objects.due(now).first()
    if document is None or not document.claim(now):
        return 0
    make_ready()
    failure = failure_of(lambda: _make(document.pk))
    if failure:
        document.put_off(failure, now)
    return 1


def _make(pk: int) -> None:
    issue(IssuedDocument.objects.select_related("line").get(pk=pk))
