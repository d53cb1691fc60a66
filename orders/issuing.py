"""Issuing a document: a body made once, stamped for its owner each time, and always the same bytes."""

import hashlib
import logging
from collections.abc import Callable
from io import BytesIO
from typing import Any

import pikepdf
from django.utils import timezone

from orders import bodies
from orders.cloth import kept_layouts
from orders.errors import NotPaidError
from orders.makers import MAKERS, made_by
from orders.models import IssuedDocument
from orders.own_cloth import cover_of
from patterns.documents.stamp import stamp

logger = logging.getLogger(__name__)

Make = Callable[..., bytes]
"""Makes a body of a kept size, its kept layouts, a kind, a paper, and the own cloth on its cover, if any."""


def made_here(
    sized: dict[str, Any],
    layouts: dict[str, Any],
    kind: str,
    paper: str,
    cover: dict[str, Any] | None = None,
) -> bytes:
    """Return the body of a document, made in this process."""
    return made_by(MAKERS[kind], sized, layouts, paper, cover)


def issue(document: IssuedDocument, make: Make = made_here) -> bytes:
    """Return the document's file, made if need be: the same bytes every time.

    The first time, its checksum, its pages and its size are kept with it. Drawing pages takes a second, so
    it happens outside a transaction; two at once make the same body and the first one's particulars stay.
    make: where a body is made, if none is kept.
    Raises NotPaidError: the order is not paid, or the money was given back. Raises what `make` raises.
    """
    if not document.line.order.is_paid:
        raise NotPaidError(document.line.order)
    address, body = _body(document, make)
    stamped = stamp(body, document.licence_line)
    checksum = hashlib.sha256(stamped).hexdigest()
    if not document.is_issued:
        _keep_particulars(document, address, stamped, checksum)
    if document.checksum != checksum:
        _report_change(document, address)
    return stamped


def _body(document: IssuedDocument, make: Make) -> tuple[str, bytes]:
    """The body that the document was first issued from, wherever it is still kept; else one made now.

    A body made by an earlier version of the software stays under its own address: a newer version never
    takes its place, so what a customer downloads again is what they downloaded before.
    """
    if document.body_address:
        body = bodies.kept(document.body_address)
        if body is not None:
            return document.body_address, body
    return _made_now(document, make)


def _made_now(document: IssuedDocument, make: Make) -> tuple[str, bytes]:
    line = document.line
    layouts = kept_layouts(line)
    cover = cover_of(line, document.kind)
    address = bodies.body_address(line.sized, layouts, document.kind, document.paper, cover)
    body = bodies.kept(address)
    if body is None:
        body = make(line.sized, layouts, document.kind, document.paper, cover)
        bodies.keep(address, body)
    return address, body


def _keep_particulars(document: IssuedDocument, address: str, stamped: bytes, checksum: str) -> None:
    """Keep what was issued, unless another request was first; then take over what that one kept."""
    with pikepdf.open(BytesIO(stamped)) as pdf:
        pages = len(pdf.pages)
    IssuedDocument.objects.wanted().filter(pk=document.pk).update(
        body_address=address,
        checksum=checksum,
        issued_at=timezone.now(),
        pages=pages,
        size_bytes=len(stamped),
        try_after=None,
        failure="",
    )
    document.refresh_from_db(fields=("body_address", "checksum", "issued_at", "pages", "size_bytes"))


def _report_change(document: IssuedDocument, address: str) -> None:
    """Tell the owner's log that a file is no longer the bytes it was; it is handed out all the same.

    Its numbers come from the kept size, so they are right; only how the pages are drawn has changed,
    because the body was lost or the software that stamps is another version.
    """
    logger.warning(
        "Document %s of order %s is not the bytes first issued: it was made from body %s, at first from %s.",
        document.pk,
        document.line.order_id,
        address,
        document.body_address,
    )
