"""When each rule of what is kept was last seen to."""

from __future__ import annotations

from django.db import models


class KeepingRun(models.Model):
    """One rule's last run. ended_at: null while it is under way, or where it was broken off.

    taken: what it took away then. taken_ever: in all runs together.
    """

    rule = models.CharField(max_length=40, unique=True)
    begun_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True, blank=True)
    taken = models.PositiveBigIntegerField(default=0)
    taken_ever = models.PositiveBigIntegerField(default=0)

    def __str__(self) -> str:
        return f"{self.rule}: {self.taken} taken away"
