"""The search for a layout that wastes next to nothing: each place is filled or given up, and waste counted.

The pieces that lie already end in a skyline. Its lowest place, the leftmost of several, is where the next
piece lies, or it is given up as high as its lower wall; all layouts that are pushed down and to the left come
about in this way. How much may be given up is known beforehand: what the box has more than the pieces. So a
box that the pieces nearly fill leaves few choices, and what no sum of their sides can fill counts at once.
Many short tries, each with preferences of its own, find more than one that tries everything.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from random import Random

from .effort import Effort
from .strip import Placed, Strip

# A box with more to spare than this share of it leaves so many choices that other searches do better.
_MOST_SPARE = 16
# More pieces are tried in too many orders.
MOST_TIGHT = 40
# Places looked at in the shortest tries.
_PLACES = 200
# Work for a place looked at: microseconds.
_A_PLACE = 4
# Of one kind so many count in a sum of sides: more of them rarely lie side by side.
_MOST_OF_A_KIND = 3
# What speaks for a piece at a place: as wide as the place, as high as the wall at its left, both at once
# with the wall at its right, as high as the box.
_WIDE, _LEFT, _RIGHT, _TOP = 4, 3, 2, 1
# How much its size speaks for a piece at most, and chance.
_MOST_FOR_SIZE, _MOST_FOR_CHANCE = 8, 4

# The places of a skyline from the left: x, y and width.
_Sky = tuple[tuple[int, int, int], ...]


@dataclass(slots=True)
class Tight:
    """The tries for one strip; tries: how many there were."""

    strip: Strip
    effort: Effort
    tries: int = 0
    lot: Random = field(init=False)

    def __post_init__(self) -> None:
        self.lot = Random(self.effort.seed)  # noqa: S311 (no secret)

    def is_worth_trying(self, length: int) -> bool:
        """Whether a length leaves little to spare, and the pieces are few and fill their rectangles."""
        spare = self.strip.width * length - self.strip.area
        is_little = 0 <= spare * _MOST_SPARE <= self.strip.width * length
        return is_little and self.strip.is_full and self.strip.count <= MOST_TIGHT

    def filled(self, length: int, work: int) -> tuple[Placed, ...]:
        """Return a layout on a length, in units; nothing where none was found with so much work."""
        end = self.effort.work - work
        while not self.effort.is_done and self.effort.work > end:
            # Every other try the box lies on its side.
            is_across = self.tries % 2 == 1
            found = self._try(length, is_across)
            self.tries += 1
            if found is not None:
                return tuple((kind, y, x, h, w) for kind, x, y, w, h in found) if is_across else found
        return ()

    def _try(self, length: int, is_across: bool) -> tuple[Placed, ...] | None:
        width = self.strip.width
        kinds = [kind.ways(width, length) for kind in self.strip.kinds]
        if is_across:
            kinds = [[(high, wide) for wide, high in ways] for ways in kinds]
        wide, high = (length, width) if is_across else (width, length)
        is_plain = self.tries < 2
        size = _MOST_FOR_SIZE / 4 if is_plain else _MOST_FOR_SIZE * self.lot.random()
        chance = 0.0 if is_plain else _MOST_FOR_CHANCE * self.lot.random()
        largest = max(kind.area for kind in self.strip.kinds)
        places = _PLACES * in_turn(self.tries // 2 + 1)
        filling = _Filling(
            ways=kinds,
            counts=[kind.count for kind in self.strip.kinds],
            liked=[size * kind.area / largest + chance * self.lot.random() for kind in self.strip.kinds],
            height=high,
            spare=wide * high - self.strip.area,
            places=places,
        )
        is_filled = filling.fill(((0, 0, wide),), 0)
        self.effort.work -= _A_PLACE * (places - max(filling.places, 0))
        return tuple(filling.placed) if is_filled else None


def in_turn(number: int) -> int:
    """Return how much longer than the shortest a try is: 1, 1, 2, 1, 1, 2, 4, 1, …

    Whatever the best length is, this takes little longer than it.
    Source: M. Luby, A. Sinclair and D. Zuckerman, “Optimal speedup of Las Vegas algorithms”, 1993;
    from memory.

    >>> [in_turn(number) for number in range(1, 16)]
    [1, 1, 2, 1, 1, 2, 4, 1, 1, 2, 1, 1, 2, 4, 8]
    """
    while number & (number + 1):
        number -= (1 << (number.bit_length() - 1)) - 1
    return (number + 1) // 2


@dataclass(slots=True)
class _Filling:
    """One try. ways, counts, liked: by kind. spare: what may be given up. places: to be looked at yet."""

    ways: list[list[tuple[int, int]]]
    counts: list[int]
    liked: list[float]
    height: int
    spare: int
    places: int
    placed: list[Placed] = field(default_factory=list)

    def fill(self, sky: _Sky, given_up: int) -> bool:
        """Lay all pieces that are left over a skyline; False where they cannot, or no try is left."""
        if not any(self.counts):
            return True
        self.places -= 1
        if self.places < 0:
            return False
        at = min(range(len(sky)), key=lambda place: sky[place][1])
        x, y, wide = sky[at]
        left = sky[at - 1][1] if at else self.height
        right = sky[at + 1][1] if at + 1 < len(sky) else self.height
        wall = min(left, right)
        for kind, across, high in self._pieces(y, wide, left, right, given_up):
            self.counts[kind] -= 1
            self.placed.append((kind, x, y, across, high))
            if self.fill(_laid(sky, at, across, high), given_up):
                return True
            self.placed.pop()
            self.counts[kind] += 1
        lost = given_up + wide * (wall - y)
        return wall < self.height and lost <= self.spare and self.fill(_raised(sky, at, wall), lost)

    def _pieces(self, y: int, wide: int, left: int, right: int, given_up: int) -> list[tuple[int, int, int]]:
        """Return kinds and sides that the place takes, the likeliest first; none where too much would go."""
        fit = [
            (kind, across, high)
            for kind, count in enumerate(self.counts)
            if count
            for across, high in self.ways[kind]
            if across <= wide and y + high <= self.height
        ]
        if not fit:
            return fit
        unfilled = wide - self._widest(wide)
        if (
            unfilled
            and given_up + unfilled * min(*(each[2] for each in fit), left - y, right - y) > self.spare
        ):
            return []

        def likeliness(piece: tuple[int, int, int]) -> float:
            kind, across, high = piece
            top = y + high
            is_wide = across == wide
            fits = _WIDE * is_wide + _LEFT * (top == left) + _RIGHT * (is_wide and top == right)
            return -(fits + _TOP * (top == self.height) + self.liked[kind])

        fit.sort(key=likeliness)
        return fit

    def _widest(self, wide: int) -> int:
        """Return the largest sum of sides that are left, within a width."""
        sums, mask = 1, (1 << (wide + 1)) - 1
        for count, ways in zip(self.counts, self.ways, strict=True):
            for _ in range(min(count, _MOST_OF_A_KIND)):
                more = sums
                for across, _ in ways:
                    more |= sums << across
                sums = more & mask
        return sums.bit_length() - 1


def _laid(sky: _Sky, at: int, across: int, high: int) -> _Sky:
    """Return the skyline with a piece at the left of a place.

    >>> _laid(((0, 0, 5), (5, 3, 2)), 0, 3, 3)
    ((0, 3, 3), (3, 0, 2), (5, 3, 2))
    """
    x, y, wide = sky[at]
    rest = ((x + across, y, wide - across),) if across < wide else ()
    return _joined((*sky[:at], (x, y + high, across), *rest, *sky[at + 1 :]))


def _raised(sky: _Sky, at: int, wall: int) -> _Sky:
    """Return the skyline with a place given up to a height."""
    x, _, wide = sky[at]
    return _joined((*sky[:at], (x, wall, wide), *sky[at + 1 :]))


def _joined(sky: _Sky) -> _Sky:
    """Return the skyline with neighbours of one height made one place."""
    return tuple(_runs(sky))


def _runs(sky: _Sky) -> Iterator[tuple[int, int, int]]:
    x, y, wide = sky[0]
    for next_x, next_y, next_wide in sky[1:]:
        if next_y == y:
            wide += next_wide
        else:
            yield x, y, wide
            x, y, wide = next_x, next_y, next_wide
    yield x, y, wide
