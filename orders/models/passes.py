"""The passes that an order's files are downloaded with."""

from __future__ import annotations

from datetime import datetime

from django.db import models
from django.db.models import F, Q

from orders.models.hashed import hashed


class DownloadPassQuerySet(models.QuerySet["DownloadPass"]):
    def behind(self, token: str) -> DownloadPassQuerySet:
        """The pass whose links hold the token: none, or one."""
        return self.filter(token_hash=hashed(token))

    def not_renewed(self) -> DownloadPassQuerySet:
        """The one pass of each order whose links may still open."""
        return self.filter(renewed_at=None)


class DownloadPass(models.Model):
    """Leave to download the files of one order: until a day, and so often. Only its token's hash is kept.

    number: the order's passes are counted from 1. renewed_at: when the next one took its place.
    """

    order = models.ForeignKey("orders.Order", on_delete=models.PROTECT, related_name="passes")
    number = models.PositiveIntegerField()
    token_hash = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField()
    ends_at = models.DateTimeField()
    most = models.PositiveIntegerField("downloads it is good for")
    used = models.PositiveIntegerField("downloads so far", default=0)
    renewed_at = models.DateTimeField(null=True, blank=True)

    objects = DownloadPassQuerySet.as_manager()

    class Meta:
        verbose_name_plural = "download passes"
        ordering = ("order", "number")
        constraints = (
            models.UniqueConstraint(fields=("order", "number"), name="pass_number_once"),
            models.UniqueConstraint(
                fields=("order",), condition=Q(renewed_at=None), name="pass_one_open_for_an_order"
            ),
            models.CheckConstraint(condition=Q(used__lte=F("most")), name="pass_not_overused"),
        )

    def __str__(self) -> str:
        return f"Pass {self.number} of order {self.order_id}"

    def has_ended(self, now: datetime) -> bool:
        """Whether its links open no more: its day is over, or a newer pass has taken its place."""
        return self.renewed_at is not None or now >= self.ends_at

    @property
    def is_used_up(self) -> bool:
        return self.used >= self.most

    def is_good(self, now: datetime) -> bool:
        return not self.has_ended(now) and not self.is_used_up

    def count(self) -> bool:
        """Use it once more; False if it was used up meanwhile."""
        left = DownloadPass.objects.filter(pk=self.pk, used__lt=F("most"), renewed_at=None)
        return left.update(used=F("used") + 1) == 1
