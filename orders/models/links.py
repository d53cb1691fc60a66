"""The further links of an order, and who asked to have theirs sent again."""

from __future__ import annotations

from datetime import datetime

from django.db import models
from django.db.models import Q

from orders.models.hashed import hashed


def opened_by(token: str, order: str = "") -> Q:
    """Whether one of an order's links holds the token: the one it was placed with, or a further one.

    order: how the order is reached from what is filtered, `line__order__`.
    """
    further = OrderLink.objects.filter(link_hash=hashed(token)).values("order")
    return Q(**{f"{order}link_hash": hashed(token)}) | Q(**{f"{order}pk__in": further})


class OrderLink(models.Model):
    """A link beside the one that the order was placed with. All of them stay good; only hashes are kept."""

    order = models.ForeignKey("orders.Order", on_delete=models.PROTECT, related_name="links")
    letter = models.ForeignKey("orders.Letter", on_delete=models.PROTECT, related_name="links")
    link_hash = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField()

    def __str__(self) -> str:
        return f"A further link of order {self.order_id}"


class LinksAskedQuerySet(models.QuerySet["LinksAsked"]):
    def waiting(self) -> LinksAskedQuerySet:
        """What nobody has answered yet, the oldest first."""
        return self.filter(answered_at=None).order_by("asked_at", "pk")

    def since(self, moment: datetime) -> LinksAskedQuerySet:
        return self.filter(asked_at__gt=moment)

    def over_before(self, moment: datetime) -> LinksAskedQuerySet:
        """What was answered and counts towards no limit any more."""
        return self.filter(asked_at__lte=moment, answered_at__isnull=False)


class LinksAsked(models.Model):
    """Somebody asked for the links of an address, which may have orders or none.

    email: as it was typed; empty once answered, because it may be nobody's customer. email_hash, source:
    keyed hashes, to count by.
    """

    email = models.EmailField(max_length=254, blank=True)
    email_hash = models.CharField(max_length=64)
    source = models.CharField(max_length=64)
    asked_at = models.DateTimeField()
    answered_at = models.DateTimeField(null=True, blank=True)

    objects = LinksAskedQuerySet.as_manager()

    class Meta:
        indexes = (
            models.Index(fields=("email_hash", "asked_at"), name="links_email_asked"),
            models.Index(fields=("source", "asked_at"), name="links_source_asked"),
            models.Index(fields=("answered_at", "asked_at"), name="links_answered_asked"),
        )

    def __str__(self) -> str:
        return f"Links asked for at {self.asked_at:%Y-%m-%d %H:%M}"
