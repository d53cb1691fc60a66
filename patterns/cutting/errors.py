"""What can be wrong with a question about cloth."""

from patterns.drafting.errors import DraftingError


class CuttingError(DraftingError):
    """A question about cloth that cannot be answered; the text says why, and what to ask instead."""


class EndedError(CuttingError):
    """A search that was ended before it had looked at everything: what its watch raises."""
