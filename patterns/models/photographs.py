"""Photographs of a pattern, in the order in which customers see them."""

from __future__ import annotations

from typing import Final

from django.db import models
from django.urls import reverse
from django.utils import timezone

MOST_PHOTOGRAPHS: Final = 12
LONGEST_ALT: Final = 250


class Photograph(models.Model):
    """One photograph. Its files, one for each width and format, are kept under its content address.

    width and height: of the largest. widths: all that were made, the smallest first.
    alt: what it shows, for whoever does not see it.
    """

    pattern = models.ForeignKey("patterns.Pattern", on_delete=models.PROTECT, related_name="photographs")
    position = models.PositiveSmallIntegerField()
    address = models.CharField(max_length=64, editable=False)
    width = models.PositiveIntegerField(editable=False)
    height = models.PositiveIntegerField(editable=False)
    widths = models.JSONField(default=list, editable=False)
    alt = models.CharField("what it shows", max_length=LONGEST_ALT)
    added_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ("pattern", "position", "pk")
        constraints = (models.UniqueConstraint(fields=("pattern", "address"), name="photograph_once"),)

    def __str__(self) -> str:
        return f"{self.pattern}: {self.alt}"

    @property
    def largest(self) -> str:
        """The address of the largest JPEG, which everything that shows pictures can read."""
        return self.file_url(self.width, "jpg")

    @property
    def middle(self) -> str:
        """The address for what knows no choice of widths."""
        return self.file_url(self.widths[len(self.widths) // 2], "jpg")

    @property
    def webp_set(self) -> str:
        return self._set("webp")

    @property
    def jpeg_set(self) -> str:
        return self._set("jpg")

    def file_url(self, width: int, ending: str) -> str:
        return reverse("patterns:photograph-file", args=[self.address, width, ending])

    def _set(self, ending: str) -> str:
        return ", ".join(f"{self.file_url(width, ending)} {width}w" for width in self.widths)
