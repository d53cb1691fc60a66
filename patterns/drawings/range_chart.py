"""The range chart: over two measures, which sizes are refused, advised against and good, and what bites.

Each verdict has a ground and a pattern of its own. Each line has a letter or a word on it, and short strokes
on the side that it is about.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import assert_never

from patterns.drafting.judging import Verdict
from patterns.drafting.ranges import Axis, Cell, RangeGrid

from .axes import AxisLine
from .geometry import Box, Spot, around
from .labels import Block, Placed, TextLine, corners_near, first_free
from .lines import Line, line, lines
from .regions import Lattice, hatch, outlines, rows, seams
from .svg import document, element, millimetres, path_through, plate
from .tokens import ADVISED, BRICK, INK, OCHRE, PETROL, QUIET_INK, REFUSED, SHEET, WELL

# Page, micrometres: as wide as the finished item's, so that its letters are read on a telephone.
WIDTH = 114_000
RIGHT = 5_000
LEAST_HEIGHT, MOST_HEIGHT = 46_000, 100_000
# Of a picture whose measures have no common scale.
USUAL_HEIGHT = 66_000
NUMBER = 3_600
LETTER = 3_900
TICK = 1_300
# Hatch, dots, and the strokes along a line.
GAP = 2_000
STROKE = 1_300
BETWEEN_STROKES = 3_600
MARK = 1_150
RINGS = 12
APART = 600
VERDICT_WORDS: Mapping[Verdict, str] = {"refused": "refused", "advised": "advised against", "good": "good"}
GROUNDS: Mapping[Verdict, str] = {"refused": REFUSED, "advised": ADVISED, "good": WELL}


@dataclass(frozen=True, slots=True)
class Marked:
    """A size to be marked, with a word: the default by a diamond, another by a ring."""

    word: str
    across: Fraction
    up: Fraction
    is_default: bool = False


def range_svg(
    grid: RangeGrid, title: str, letters: Mapping[int, str], fit_word: str, marks: Sequence[Marked]
) -> str:
    """Return the chart of a grid as a whole drawing.

    letters: by the place of each rule that fails somewhere. fit_word: what stands on the line round the
    sizes that fit. marks: sizes to be marked; one outside of the picture is left out.
    """
    chart = _Chart(grid, fit_word)
    chart.draw_regions()
    seamed = [*chart.rule_seams(letters), chart.fit_seams()]
    for each in seamed:
        chart.draw_seams(each)
    chart.draw_marks(marks)
    for each in seamed:
        chart.name_seams(each)
    page = Box(0, 0, WIDTH, chart.draw_axes())
    parts = (plate(page, SHEET), *chart.drawn, *chart.named)
    return document(page.width, page.height, title, told(grid, fit_word), parts)


def told(grid: RangeGrid, fit_word: str) -> str:
    """Return the picture in words."""
    across, up = (
        f"{line.name_words} {line.number(line.axis.scale.least)} to {line.number(line.axis.scale.most)}"
        for line in (AxisLine(axis, grid.units, 0, 1) for axis in (grid.across, grid.up))
    )
    verdicts = [f"{grid.counts.get(verdict, 0):,} {words}" for verdict, words in VERDICT_WORDS.items()]
    return (
        f"From left to right: {across}. From bottom to top: {up}. "
        f"Of {sum(grid.counts.values()):,} sizes {', '.join(verdicts)}. "
        f"Not refused and “{fit_word}”: {grid.fit_counts.get(True, 0):,}."
    )


def sample_svg(verdict: Verdict) -> str:
    """Return a small square in the ground and pattern of a verdict, for a key beside words."""
    box = Box(0, 0, 7_000, 5_000)
    loop = (
        Spot(box.left, box.top),
        Spot(box.right, box.top),
        Spot(box.right, box.bottom),
        Spot(box.left, box.bottom),
    )
    edge = line(Line.MEASURE, *loop, is_closed=True)
    attributes = (
        ("width", "7mm"),
        ("height", "5mm"),
        ("viewBox", "0 0 7 5"),
        ("aria-hidden", "true"),
    )
    return element("svg", attributes, _ground([loop], GROUNDS[verdict]), *_pattern(verdict, [loop]), edge)


@dataclass(frozen=True, slots=True)
class _Seamed:
    """Lines that say one thing, with what is written on them."""

    ways: Sequence[Sequence[Spot]]
    kind: Line
    word: str
    colour: str


class _Chart:
    """One chart being laid out. drawn: lines and marks. named: their words, which lie on top.

    taken: boxes of words and marks. lined: boxes of lines, which words cover only where they must.
    """

    def __init__(self, grid: RangeGrid, fit_word: str) -> None:
        self.grid, self.fit_word = grid, fit_word
        measuring = AxisLine(grid.up, grid.units, 0, MOST_HEIGHT)
        numbers = [_line(measuring.number(value)) for value in measuring.written(2 * NUMBER)]
        left = max(block.width for block in numbers) + 2 * TICK
        height = _height(grid.across, grid.up, WIDTH - left - RIGHT)
        self.plot = Box(left, 2 * NUMBER, WIDTH - RIGHT, 2 * NUMBER + height)
        self.inside = self.plot.grown(-APART)
        self.across = AxisLine(grid.across, grid.units, self.plot.left, self.plot.right)
        self.up = AxisLine(grid.up, grid.units, self.plot.bottom, self.plot.top)
        self.lattice = Lattice(self.across.edges, self.up.edges)
        self.taken: list[Box] = []
        self.lined: list[Box] = []
        self.drawn: list[str] = []
        self.named: list[str] = []

    def draw_regions(self) -> None:
        for verdict, ground in GROUNDS.items():
            loops = outlines(self.mask(lambda cell: cell.verdict == verdict), self.lattice)  # noqa: B023
            if loops:
                self.drawn += [_ground(loops, ground), *_pattern(verdict, loops)]

    def mask(self, holds: Callable[[Cell], bool]) -> list[list[bool]]:
        return [[holds(cell) for cell in row] for row in self.grid.cells]

    def draw_axes(self) -> int:
        """Draw the frame, the numbers and the names of both axes; return where they end."""
        plot = self.plot
        corners = (Spot(*plot[:2]), Spot(plot.right, plot.top), Spot(*plot[2:]), Spot(plot.left, plot.bottom))
        self.drawn.append(line(Line.EDGE, *corners, is_closed=True))
        self.named += _line(self.up.name_words, QUIET_INK).at(0, 0).drawn()
        for value in self.up.written(2 * NUMBER):
            level = self.up.at(value)
            self.drawn.append(line(Line.MEASURE, Spot(plot.left - TICK, level), Spot(plot.left, level)))
            block = _line(self.up.number(value))
            self.named += block.at(plot.left - TICK - APART, level - block.height // 2, "end").drawn()
        for value in self.across.written(self._widest()):
            x = self.across.at(value)
            self.drawn.append(line(Line.MEASURE, Spot(x, plot.bottom), Spot(x, plot.bottom + TICK)))
            self.named += _line(self.across.number(value)).at(x, plot.bottom + TICK, "middle").drawn()
        below = plot.bottom + TICK + NUMBER + APART
        placed = _line(self.across.name_words, QUIET_INK).at(plot.right, below, "end")
        self.named += placed.drawn()
        return placed.box.bottom + APART

    def _widest(self) -> int:
        """Room for any number of the level axis, with a space to the next."""
        values = self.grid.across.values
        return max(_line(self.across.number(value)).width for value in values) + NUMBER

    def draw_marks(self, marks: Iterable[Marked]) -> None:
        """Mark sizes, those at one spot together, and write their words beside them."""
        words: dict[Spot, list[Marked]] = {}
        for mark in marks:
            spot = Spot(self.across.at(mark.across), self.up.at(mark.up))
            if self.plot.holds(Box(*spot, *spot)):
                words.setdefault(spot, []).append(mark)
        boxes = {spot: Box(*spot, *spot).grown(MARK + APART) for spot in words}
        self.taken += boxes.values()
        for spot, here in words.items():
            self.drawn.append(_mark(spot, is_default=any(mark.is_default for mark in here)))
            block = _line(", ".join(mark.word for mark in here))
            self._name_near(block, boxes[spot], INK)

    def rule_seams(self, letters: Mapping[int, str]) -> Iterator[_Seamed]:
        """Yield where each rule starts to bite; those that bite alike share a line and its word."""
        alike: dict[tuple[tuple[bool, ...], ...], list[int]] = {}
        for rule in letters:
            mask = tuple(tuple(rule in cell.failed for cell in row) for row in self.grid.cells)
            alike.setdefault(mask, []).append(rule)
        for mask, rules in alike.items():
            beyond = [[not fails for fails in row] for row in mask]
            is_limit = any(self.grid.rules[rule].level == "refuse" for rule in rules)
            word = " ".join(letters[rule] for rule in rules)
            ways = seams(mask, beyond, self.lattice)
            yield _Seamed(ways, Line.LIMIT if is_limit else Line.ADVICE, word, INK)

    def fit_seams(self) -> _Seamed:
        """Return the line between the sizes that fit and those, not refused, that do not or may not."""
        fits = self.mask(lambda cell: cell.fits is True)
        others = self.mask(lambda cell: cell.fits is not True and cell.verdict != "refused")
        return _Seamed(seams(fits, others, self.lattice), Line.FITS, self.fit_word, PETROL)

    def draw_seams(self, seamed: _Seamed) -> None:
        if not seamed.ways:
            return
        self.drawn.append(lines(seamed.kind, seamed.ways))
        strokes = "".join(path_through(stroke) for way in seamed.ways for stroke in _strokes(way))
        self.drawn.append(element("path", (("d", strokes), ("fill", "none"), *_thin(seamed.colour))))
        self.lined += [
            around([Box(*start, *start), Box(*end, *end)]).grown(APART)
            for way in seamed.ways
            for start, end in pairwise(way)
        ]

    def name_seams(self, seamed: _Seamed) -> None:
        """Write a word on a line: as near the middle of its longest part as there is room."""
        if not seamed.ways:
            return
        block = _line(seamed.word, seamed.colour, LETTER)
        longest = max(seamed.ways, key=_length)
        spots = [*_along(longest)] or [longest[0]]
        middle = len(spots) // 2
        ordered = sorted(range(len(spots)), key=lambda place: abs(place - middle))
        corners = [
            Spot(spots[place].x - block.width // 2, spots[place].y - block.height // 2) for place in ordered
        ]
        placed = first_free(block, corners, self.taken, self.inside)
        # On a short line, round a corner of the range, the word would hide what it names.
        if placed and _length(longest) > 3 * max(block.width, block.height):
            self._write(placed, seamed.colour)
        else:
            self._lead_to(block, spots[middle], seamed.colour)

    def _name_near(self, block: Block, thing: Box, colour: str) -> Placed | None:
        """Write a word beside a thing, if possible where it covers no line; return it in its place."""
        for taken in ([*self.taken, *self.lined], self.taken):
            corners = corners_near(block, thing, 2 * APART, RINGS)
            placed = first_free(block, corners, taken, self.inside)
            if placed:
                self._write(placed, colour)
                return placed
        return None

    def _lead_to(self, block: Block, spot: Spot, colour: str) -> None:
        """Write a word near a spot of a line on which there is no room for it, and lead to that spot."""
        placed = self._name_near(block, Box(*spot, *spot), colour)
        if placed:
            self.drawn.append(line(Line.LEADER, spot, placed.box.middle))

    def _write(self, placed: Placed, colour: str) -> None:
        box = placed.box.grown(APART)
        self.taken.append(box.grown(APART))
        place = (("x", box.left), ("y", box.top), ("width", box.width), ("height", box.height))
        self.named.append(element("rect", (*place, ("fill", SHEET), *_thin(colour))))
        self.named += placed.drawn()


def _line(text: str, colour: str = INK, size: int = NUMBER) -> Block:
    return Block((TextLine(text, size, colour),))


def _height(across: Axis, up: Axis, width: int) -> int:
    """Lengths against lengths are drawn to one scale, as far as that makes a picture."""
    level, upright = (axis.scale.most - axis.scale.least for axis in (across, up))
    if not (across.measure.power and up.measure.power and level):
        return USUAL_HEIGHT
    return min(max(round(width * upright / level), LEAST_HEIGHT), MOST_HEIGHT)


def _ground(loops: Sequence[Sequence[Spot]], colour: str) -> str:
    way = "".join(path_through(loop, is_closed=True) for loop in loops)
    return element("path", (("d", way), ("fill", colour), ("fill-rule", "evenodd")))


def _pattern(verdict: Verdict, loops: Sequence[Sequence[Spot]]) -> list[str]:
    """Return crossed lines for what is refused, dots for what is advised against, else nothing."""
    match verdict:
        case "refused":
            ways = [*hatch(loops, GAP * 3 // 2, 1), *hatch(loops, GAP * 3 // 2, -1)]
            pen = _thin(BRICK)
        case "advised":
            # Dots stand in columns of their own, so that they do not shift where a region's edge does.
            ways = [dotted for way in rows(loops, GAP) if (dotted := _on_dots(*way))]
            pen = (
                ("stroke", OCHRE),
                ("stroke-width", 520),
                ("stroke-dasharray", f"0 {millimetres(GAP)}"),
                ("stroke-linecap", "round"),
            )
        case "good":
            return []
        case _:
            assert_never(verdict)
    return (
        [element("path", (("d", "".join(map(path_through, ways))), ("fill", "none"), *pen))] if ways else []
    )


def _on_dots(start: Spot, end: Spot) -> tuple[Spot, Spot] | None:
    """Begin a row of dots at a place that all rows share, every other row half a step further."""
    shift = GAP // 2 if start.y // GAP % 2 else 0
    first = Spot(-(-(start.x + APART - shift) // GAP) * GAP + shift, start.y)
    return (first, Spot(end.x - APART, end.y)) if first.x < end.x - APART else None


def _thin(colour: str) -> tuple[tuple[str, str | int], ...]:
    return (("stroke", colour), ("stroke-width", 200))


def _mark(at: Spot, *, is_default: bool) -> str:
    if not is_default:
        ring = (
            ("cx", at.x),
            ("cy", at.y),
            ("r", MARK),
            ("fill", SHEET),
            ("stroke", INK),
            ("stroke-width", 420),
        )
        return element("circle", ring)
    reach = MARK * 3 // 2
    diamond = (
        Spot(at.x, at.y - reach),
        Spot(at.x + reach, at.y),
        Spot(at.x, at.y + reach),
        Spot(at.x - reach, at.y),
    )
    way = ("d", path_through(diamond, is_closed=True))
    return element("path", (way, ("fill", INK), ("stroke", SHEET), ("stroke-width", 400)))


def _length(way: Sequence[Spot]) -> int:
    return sum(abs(end.x - start.x) + abs(end.y - start.y) for start, end in pairwise(way))


def _along(way: Sequence[Spot], step: int = 1000) -> Iterator[Spot]:
    """Yield spots along a way of level and upright parts, a step from each to the next."""
    yield from (spot for spot, _ in _walked(way, step))


def _walked(way: Sequence[Spot], step: int) -> Iterator[tuple[Spot, Spot]]:
    """Yield spots along a way with the direction there, the first half a step from its start."""
    far = step // 2
    for start, end in pairwise(way):
        length = abs(end.x - start.x) + abs(end.y - start.y)
        ahead = Spot(_sign(end.x - start.x), _sign(end.y - start.y))
        while far < length:
            yield Spot(start.x + ahead.x * far, start.y + ahead.y * far), ahead
            far += step
        far -= length


def _strokes(way: Sequence[Spot]) -> Iterator[tuple[Spot, Spot]]:
    """Yield short strokes to the left of a way as it runs, which is where its region lies."""
    for spot, ahead in _walked(way, BETWEEN_STROKES):
        yield spot, Spot(spot.x + ahead.y * STROKE, spot.y - ahead.x * STROKE)


def _sign(number: int) -> int:
    return (number > 0) - (number < 0)
