"""Pieces that are proved impossible to cut, and with them all that are no smaller."""

# Widths and heights, piece by piece.
Sides = tuple[tuple[int, int], ...]


class Impossible:
    """Questions of one kind, which differ only in lengths, that are proved impossible.

    None of them is larger than another: what excludes one excludes every larger one.
    """

    def __init__(self) -> None:
        self._known: list[Sides] = []

    def is_no_larger_than(self, sides: Sides) -> bool:
        """Whether one of those that are known needs no more room than these pieces."""
        for rank, known in enumerate(self._known):
            if are_no_smaller(sides, known):
                if rank:  # what excluded one is likely to exclude the next
                    del self._known[rank]
                    self._known.insert(0, known)
                return True
        return False

    def add(self, sides: Sides) -> None:
        """Take in what was proved impossible."""
        self._known = [sides, *(each for each in self._known if not are_no_smaller(each, sides))]


def are_no_smaller(pieces: Sides, than: Sides) -> bool:
    """Whether each piece is at least as wide and as high as its fellow, so that it needs no less room."""
    for (width, height), (other_width, other_height) in zip(pieces, than, strict=True):
        if width < other_width or height < other_height:
            return False
    return True
