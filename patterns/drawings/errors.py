"""What keeps a drawing from being made."""


class DrawingError(ValueError):
    """A length that the drawing needs does not exist, or is not above nothing, at this size."""
