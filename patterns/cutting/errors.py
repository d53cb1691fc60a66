"""What can be wrong with a question about cloth."""

from patterns.drafting.errors import DraftingError


class CuttingError(DraftingError):
    """A question about cloth that cannot be answered; the text says why, and what to ask instead."""


class EndedError(CuttingError):
    """A search that was ended before it had looked at everything: what its watch raises."""


class NoWayError(CuttingError):
    """A piece that fits no way. piece: its place in what was asked."""

    def __init__(self, piece: int) -> None:
        super().__init__(
            f"Piece {piece + 1} fits on the cloth in no way. Take wider cloth or a smaller piece."
        )
        self.piece = piece


class TooLittleClothError(CuttingError):
    """No layout was found on the sheets that there are. bound: so many sheets are needed at least."""

    def __init__(self, bound: int, there: int) -> None:
        how = "do not fit" if bound > there else "were not made to fit"
        super().__init__(f"The pieces {how} on the sheets that there are. Take more of them, or larger ones.")
        self.bound = bound
