"""What the owner has written of a pattern's next revision, before it is published."""

from __future__ import annotations

from django.db import models

from patterns.models.pattern import LONGEST_REASON, checksum


class Draft(models.Model):
    """The text of a pattern's next revision, with its mistakes if it has any; gone once it is published."""

    pattern = models.OneToOneField("patterns.Pattern", on_delete=models.CASCADE, related_name="draft")
    text = models.TextField("recipe text")
    reason = models.CharField("why it is revised", max_length=LONGEST_REASON, blank=True, default="")
    kept_at = models.DateTimeField()

    def __str__(self) -> str:
        return f"Draft of {self.pattern}"

    @property
    def checksum(self) -> str:
        """What tells what stands in it now, reason and all, from what stood in it before."""
        return checksum(f"{self.reason}\n{self.text}")
