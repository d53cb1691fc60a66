"""The skyline of a layout that is begun: how high it reaches, from the left to the right of its box."""

from typing import NamedTuple


class Valley(NamedTuple):
    """A place of a skyline that both neighbours overtop; beside the box they are as high as it.

    at: which place it is. x, y: its lower left corner. left, right: how high its neighbours are.
    """

    at: int
    x: int
    y: int
    wide: int
    left: int
    right: int

    @property
    def wall(self) -> int:
        return min(self.left, self.right)


class Sky(NamedTuple):
    """tops, wides: how high and how wide its places are; no two neighbours are equally high."""

    tops: tuple[int, ...]
    wides: tuple[int, ...]

    @property
    def or_mirrored(self) -> "Sky":
        """Return it or its mirror image: for both the same, but where all tops are mirrored alone.

        >>> Sky((3, 0), (1, 5)).or_mirrored == Sky((0, 3), (5, 1)).or_mirrored
        True
        """
        back = self.tops[::-1]
        return self if back >= self.tops else Sky(back, self.wides[::-1])

    def narrowest_valley(self, height: int) -> Valley:
        """Return the valley that leaves the fewest choices, in a box of some height.

        >>> Sky((3, 0, 2, 1, 4), (1, 5, 1, 4, 1)).narrowest_valley(9)
        Valley(at=3, x=7, y=1, wide=4, left=2, right=4)
        """
        tops, wides = self
        walls = (height, *tops, height)
        valleys = [at for at, top in enumerate(tops) if walls[at] >= top <= walls[at + 2]]
        at = min(valleys, key=wides.__getitem__)
        return Valley(at, sum(wides[:at]), tops[at], wides[at], walls[at], walls[at + 2])

    def laid(self, valley: Valley, across: int, high: int) -> "Sky":
        """Return the skyline with a piece at the left of a valley.

        >>> sky = Sky((3, 0), (1, 5))
        >>> sky.laid(sky.narrowest_valley(9), 2, 3)
        Sky(tops=(3, 0), wides=(3, 3))
        """
        at, _, y, wide, left, right = valley
        tops, wides = self.tops[:at], self.wides[:at]
        later_tops, later_wides = self.tops[at + 1 :], self.wides[at + 1 :]
        top, rest = y + high, wide - across
        if tops and left == top:
            across += wides[-1]
            tops, wides = tops[:-1], wides[:-1]
        if rest:
            return Sky((*tops, top, y, *later_tops), (*wides, across, rest, *later_wides))
        if later_tops and right == top:
            across += later_wides[0]
            later_tops, later_wides = later_tops[1:], later_wides[1:]
        return Sky((*tops, top, *later_tops), (*wides, across, *later_wides))

    def given_up(self, valley: Valley) -> "Sky":
        """Return the skyline with a valley raised to its lower neighbour."""
        return self.laid(valley, valley.wide, valley.wall - valley.y)
