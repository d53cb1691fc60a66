"""What a layout that is begun wastes for certain, whatever comes next.

Every line across the box meets pieces whose sides make a sum; what no sum of the sides that are left fills is
lost all along the line. The same holds of every line along the box.
"""

from collections.abc import Sequence

from .sky import Sky

# Sums of sides are kept for so many choices of pieces: about 1 MB.
_MOST_KEPT = 4_000

# How wide and high a kind may lie.
Ways = Sequence[tuple[int, int]]


class Waste:
    """ways: of each kind. width and height: of the box. Whole numbers."""

    def __init__(self, ways: Sequence[Ways], width: int, height: int) -> None:
        self.ways, self.width, self.height = ways, width, height
        self._up_to = [(2 << most) - 1 for most in range(max(width, height) + 1)]
        self._sums: dict[tuple[int, ...], tuple[int, int]] = {}

    def spared(self, sky: Sky, counts: tuple[int, ...], spare: int) -> int:
        """Return what may still be wasted of a spare once the certain loss is taken off; below 0: too much.

        counts: how many of each kind are to be laid above the skyline.
        """
        across, along = self._sums_of(counts)
        up_to, height = self._up_to, self.height
        lost = 0
        for top, wide in zip(*sky, strict=True):
            room = height - top
            lost += wide * (room + 1 - (along & up_to[room]).bit_length())
        if lost > spare:
            return spare - lost
        return spare - max(lost, self._lost_across(sky, across))

    def _lost_across(self, sky: Sky, sums: int) -> int:
        """Return what is lost in the lines across; each valley is a run of lines of one width."""
        up_to, height = self._up_to, self.height
        # The steps that fall from the left to where we are; beside the box there are walls as high as it.
        tops, wides = [height], [0]
        lost = 0
        for top, wide in zip((*sky.tops, height), (*sky.wides, 0), strict=True):
            valley = 0
            while tops[-1] < top:
                low = tops.pop()
                valley += wides.pop()
                wall = tops[-1]
                lines = (wall if wall < top else top) - low
                lost += lines * (valley + 1 - (sums & up_to[valley]).bit_length())
            tops.append(top)
            wides.append(valley + wide)
        return lost

    def _sums_of(self, counts: tuple[int, ...]) -> tuple[int, int]:
        """Return the sums of sides that are left, across and along, as bits."""
        sums = self._sums.get(counts)
        if sums is None:
            if len(self._sums) >= _MOST_KEPT:
                self._sums.clear()
            sums = self._sums[counts] = (self._summed(counts, 0), self._summed(counts, 1))
        return sums

    def _summed(self, counts: tuple[int, ...], side: int) -> int:
        sums, within = 1, self._up_to[self.height if side else self.width]
        for count, ways in zip(counts, self.ways, strict=True):
            for _ in range(count):
                more = sums
                for way in ways:
                    more |= sums << way[side]
                sums, before = more & within, sums
                if sums == before:
                    break
        return sums
