"""Corrected revisions, and what each means for what was sold before."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.db import models
from django.db.models import Exists, OuterRef, Q

from orders.models.order import Order, OrderLine
from orders.models.payments import granted


class CorrectionQuerySet(models.QuerySet["Correction"]):
    def due(self, now: datetime) -> CorrectionQuerySet:
        """Those whose orders are to be looked at now, the longest overdue first."""
        return self.filter(due_at__lte=now).order_by("due_at", "pk")

    def newest_first(self) -> CorrectionQuerySet:
        return self.order_by("-pk")


class Correction(models.Model):
    """A revision whose buyers are told: each once, and only those whose size comes out otherwise.

    due_at: when orders are looked at next; null once a later correction has taken its place.
    """

    revision = models.OneToOneField("patterns.Revision", on_delete=models.PROTECT, related_name="correction")
    begun_at = models.DateTimeField()
    begun_by = models.CharField(max_length=150, blank=True, default="")
    due_at = models.DateTimeField(null=True, blank=True)

    objects = CorrectionQuerySet.as_manager()

    class Meta:
        indexes = (models.Index(fields=("due_at",), name="correction_due"),)

    def __str__(self) -> str:
        return f"Correction by {self.revision}"

    @property
    def is_later(self) -> bool:
        """Whether it was begun at another time than the revision was published."""
        return self.begun_at - self.revision.published_at > timedelta(minutes=1)

    def lines_to_look_at(self) -> models.QuerySet[OrderLine]:
        """Lines of the pattern that it says nothing of yet: sold before, paid, and not corrected already.

        A line whose order is paid later, or that is kept later, is found as well.
        """
        looked_at = CorrectedLine.objects.filter(correction=self, line=OuterRef("pk"))
        return sold_before(self.revision.pattern_id, self.revision.number).exclude(Exists(looked_at))


def sold_before(pattern: int, number: int) -> models.QuerySet[OrderLine]:
    """The lines that customers use now, made from a revision of a pattern before the one of that number."""
    lines = OrderLine.objects.filter(granted("order__"), corrected=None)
    return lines.filter(revision__pattern=pattern, revision__number__lt=number).order_by("order", "position")


class CorrectedLineQuerySet(models.QuerySet["CorrectedLine"]):
    def waiting_for_owner(self) -> CorrectedLineQuerySet:
        """Sizes that the newest correction refuses, and which the owner has not put away."""
        refused = self.filter(outcome=CorrectedLine.Outcome.REFUSED, seen_at=None)
        refused = refused.filter(correction__due_at__isnull=False)
        return refused.filter(granted("line__order__")).order_by("pk")


class CorrectedLine(models.Model):
    """What a correction means for one line: looked at once, whatever is tried again.

    made: the line that takes its place, where its size is affected. changes: what is another in it, in
    sentences. why: the check that refuses its size.
    """

    class Outcome(models.TextChoices):
        SAME = "same", "Comes out the same"
        CHANGED = "changed", "Corrected"
        REFUSED = "refused", "Refused by the new revision"

    correction = models.ForeignKey(Correction, on_delete=models.PROTECT, related_name="lines")
    line = models.ForeignKey(OrderLine, on_delete=models.PROTECT, related_name="corrections")
    made = models.OneToOneField(
        OrderLine, on_delete=models.PROTECT, null=True, blank=True, related_name="correction"
    )
    outcome = models.CharField(max_length=10, choices=Outcome)
    changes = models.JSONField(default=list)
    why = models.CharField(max_length=500, blank=True, default="")
    looked_at = models.DateTimeField()
    seen_at = models.DateTimeField(null=True, blank=True)
    seen_by = models.CharField(max_length=150, blank=True, default="")

    objects = CorrectedLineQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        constraints = (
            models.UniqueConstraint(fields=("correction", "line"), name="correction_once_a_line"),
            models.CheckConstraint(
                condition=Q(outcome="changed", made__isnull=False) | ~Q(outcome="changed") & Q(made=None),
                name="correction_changed_is_made",
            ),
        )

    def __str__(self) -> str:
        return f"{self.line}: {self.get_outcome_display().lower()}"


class CorrectionTold(models.Model):
    """The one letter about a correction that an order gets."""

    correction = models.ForeignKey(Correction, on_delete=models.PROTECT, related_name="told")
    order = models.ForeignKey(Order, on_delete=models.PROTECT, related_name="corrections_told")
    letter = models.OneToOneField("orders.Letter", on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=("correction", "order"), name="correction_told_once"),)

    def __str__(self) -> str:
        return f"{self.correction}, told to order {self.order_id}"
