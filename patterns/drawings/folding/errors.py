"""What the folding model finds wrong with instructions."""


class AmissError(ValueError):
    """Something that must meet does not; the text is a sentence about it. Not yet known is the step."""


class FoldingError(ValueError):
    """A step that cannot be followed. number: of the step, from 1. amiss: what does not meet."""

    def __init__(self, number: int, title: str, amiss: str) -> None:
        self.number, self.title, self.amiss = number, title, amiss
        super().__init__(f"Step {number}, “{title}”: {amiss}")
