"""The pass that an order's files are downloaded with: given, renewed and used."""

from datetime import datetime, timedelta

from django.conf import settings
from django.db import IntegrityError, transaction

from orders.keys import pass_tokens
from orders.models import DownloadPass, IssuedDocument, Order, hashed


def current_pass(order: Order, now: datetime) -> DownloadPass:
    """Return the pass whose links the order's page shows; the first is given when that is first opened."""
    latest = order.passes.not_renewed().first()
    if latest is not None and token_of_pass(latest):
        return latest
    return renew(order, now)


def token_of_pass(one: DownloadPass) -> str:
    """Return its token; empty where the shop's secret was changed since and the earlier one is not kept."""
    tokens = pass_tokens(one.order_id, one.number)
    return next((token for token in tokens if hashed(token) == one.token_hash), "")


def renew(order: Order, now: datetime) -> DownloadPass:
    """Give the order a new pass. Links of the one before open no more; sent twice at once, it is one pass."""
    before = order.passes.order_by("number").last()
    number = before.number + 1 if before else 1
    try:
        with transaction.atomic():
            order.passes.not_renewed().update(renewed_at=now)
            return DownloadPass.objects.create(
                order=order,
                number=number,
                token_hash=hashed(next(pass_tokens(order.number, number))),
                made_at=now,
                ends_at=now + timedelta(days=settings.PASS_DAYS),
                most=settings.PASS_DOWNLOADS,
            )
    except IntegrityError:
        # The other of a double click has given it meanwhile.
        return order.passes.get(number=number)


def may_download(one: DownloadPass, document: IssuedDocument, now: datetime) -> bool:
    """Whether the pass opens this file now: one that is used up still ends what it began."""
    return not one.has_ended(now) and (not one.is_used_up or document.is_same_download(now))


def use(one: DownloadPass, document: IssuedDocument, now: datetime) -> bool:
    """Count a download, unless it goes on with the last one; False if the pass is good for no other."""
    with transaction.atomic():
        # Read in the transaction: another part of the same download may have been counted meanwhile.
        document.refresh_from_db(fields=("downloads", "downloaded_at"))
        if document.is_same_download(now):
            return True
        if not one.count():
            return False
        document.count_download(now)
        return True
