"""What can be wrong with something a person wrote: the family of errors of this room."""

from dataclasses import dataclass


class DraftingError(ValueError):
    """Something a person wrote cannot be used; the text says what, why and what to write."""


@dataclass(frozen=True, slots=True)
class Mistake:
    """One mistake in a text, with its place and its mend.

    message: a whole sentence or two, ready to be read by a person.
    column: from 1, in the formula or value itself; 0 when the whole of it is meant.
    key: where in a recipe text, `pieces."exterior panel".width`; empty for a lone formula.
    line: of the recipe text, from 1; 0 when unknown.
    """

    message: str
    column: int = 0
    key: str = ""
    line: int = 0

    def __str__(self) -> str:
        place = [f"line {self.line}"] if self.line else []
        place += [self.key] if self.key else []
        place += [f"column {self.column}"] if self.column else []
        return f"{', '.join(place)}: {self.message}" if place else self.message


class MistakesError(DraftingError):
    """A text has mistakes; `mistakes` holds all that were found, in the order of the text."""

    def __init__(self, mistakes: tuple[Mistake, ...]) -> None:
        self.mistakes = mistakes
        super().__init__("\n".join(str(mistake) for mistake in mistakes))


class HoldingError(DraftingError):
    """A question about contents that cannot be answered; the text says why."""


class FormulaError(MistakesError):
    """A formula that cannot be read, or that mixes kinds."""


class RecipeTextError(MistakesError):
    """A recipe text that cannot be used; every mistake in it is listed."""
