"""What stands in a size chart: every named size of a recipe beside the others, in words and drawings."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from patterns.drafting.recipe import Recipe
from patterns.drafting.sized import SizedCheck, SizedPattern, SizedPiece, SizedText
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.side_by_side import side_by_side

from .book_content import Fact
from .errors import NoDocumentError
from .needs import enough_of
from .words import UNIT_WORDS, Words, day_in_words, listed

Mood = Literal["", "well", "advice", "refused"]
# Room for a drawing at the head of a column, page micrometres.
DRAWING = (46_000, 30_000)
NOTHING = "–"


@dataclass(frozen=True, slots=True)
class Cell:
    """A number, or a verdict in a word; the mood is empty for a number."""

    text: str
    mood: Mood = ""


@dataclass(frozen=True, slots=True)
class ChartRow:
    """One line across all sizes. says: what the numbers are, where the name leaves that open."""

    name: str
    says: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class ChartGroup:
    title: str
    rows: tuple[ChartRow, ...]


@dataclass(frozen=True, slots=True)
class ChartSize:
    """The head of a column. values: what the size chooses, mm or bare numbers. drawing: SVG, or None."""

    name: str
    values: Mapping[str, Fraction]
    drawing: str | None


@dataclass(frozen=True, slots=True)
class Note:
    """Why a size is not simply in order."""

    size: str
    word: str
    says: str
    mood: Mood


@dataclass(frozen=True, slots=True)
class Chart:
    """A size chart, ready to be set. remarks: how its numbers are to be read, and what has none."""

    language: str
    title: str
    revised: str
    revised_words: str
    units: str
    choices: tuple[Fact, ...]
    sizes: tuple[ChartSize, ...]
    groups: tuple[ChartGroup, ...]
    notes: tuple[Note, ...]
    remarks: tuple[str, ...]
    thing: str
    thing_words: str

    def abreast(self, most: int) -> tuple["Chart", ...]:
        """Return the chart in parts of so many sizes at most; of one that is not wider, the chart itself."""
        starts = range(0, len(self.sizes), most)
        return tuple(self._part(start, start + most) for start in starts)

    def _part(self, start: int, end: int) -> "Chart":
        groups = tuple(
            replace(group, rows=tuple(replace(row, cells=row.cells[start:end]) for row in group.rows))
            for group in self.groups
        )
        return replace(self, sizes=self.sizes[start:end], groups=groups)


def chart_content(recipe: Recipe, units: Units, options: Mapping[str, str] | None = None) -> Chart:
    """Return the chart of all named sizes of a recipe.

    options: name → choice, for all sizes alike; the rest take their defaults.
    Raises NoDocumentError: the recipe names no sizes. SizingError: no such option or choice.
    """
    if not recipe.sizes:
        raise NoDocumentError(f"“{recipe.title}” names no sizes, so it has no size chart.")
    named = [
        (each.name, size(recipe, "", units, each.values.get(units, {}), options)) for each in recipe.sizes
    ]
    columns = [_Column(name, sized, Words(sized)) for name, sized in named]
    row = side_by_side(named, units, *DRAWING)
    groups = tuple(group for group in _groups(columns) if group.rows)
    return Chart(
        language=recipe.language,
        title=recipe.title,
        revised=recipe.revised.isoformat(),
        revised_words=day_in_words(recipe.revised.isoformat()),
        units=UNIT_WORDS[units],
        choices=tuple(Fact(name, choice) for name, choice in columns[0].sized.options.items()),
        sizes=tuple(
            ChartSize(each.name, each.values.get(units, {}), drawing)
            for each, drawing in zip(recipe.sizes, row.items, strict=True)
        ),
        groups=groups,
        notes=tuple(note for column in columns for note in column.notes()),
        remarks=tuple(_remarks(columns[0], groups)),
        thing=row.thing,
        thing_words=row.thing_words,
    )


@dataclass(frozen=True, slots=True)
class _Column:
    """One size being written down. What a refused size would be cut to is not told: nobody should cut it."""

    name: str
    sized: SizedPattern
    words: Words

    def piece(self, name: str) -> SizedPiece:
        return next(piece for piece in self.sized.pieces if piece.name == name)

    def cut_size(self, piece: str, has_count: bool) -> Cell:
        if self.sized.is_refused:
            return Cell(NOTHING)
        found = self.piece(piece)
        width, height = (self.words.number(side) for side in (found.width, found.height))
        sides = f"{width} across" if found.shape == "circle" else f"{width} × {height}"
        return Cell(f"{found.cut} of {sides}" if has_count else sides)

    def to_buy(self, material: str) -> Cell:
        amount = self.sized.materials_by_name[material].amount
        return Cell(NOTHING if amount is None or self.sized.is_refused else self.words.number(amount))

    def cloth(self, material: str) -> Cell:
        """A piece of cloth that is certainly enough."""
        if self.sized.is_refused:
            return Cell(NOTHING)
        strip = enough_of((piece for piece in self.sized.pieces if piece.material == material), self.words)
        if strip is None:
            return Cell(NOTHING)
        return Cell(f"{self.words.length(strip.width)} × {self.words.length(strip.length)}")

    def check(self, says: str) -> SizedCheck | None:
        """The check that says so; one that is only made where it fails may be missing."""
        return next((check for check in self.sized.checks if check.says == says), None)

    def notes(self) -> Iterator[Note]:
        for check in self.sized.failed:
            verdict = _verdict(check)
            yield Note(self.name, verdict.text, self.said(check.otherwise), verdict.mood)

    def said(self, text: SizedText) -> str:
        """Words of a check; a number without a value is what it fails for."""
        return "".join(
            part if isinstance(part, str) else NOTHING if part.value is None else self.words.number(part)
            for part in text
        )


def _groups(columns: Sequence[_Column]) -> Iterator[ChartGroup]:
    yield ChartGroup("Measures", tuple(_measure_rows(columns)))
    yield ChartGroup("Pieces to cut", tuple(_piece_rows(columns)))
    yield ChartGroup("What it needs", tuple(_need_rows(columns)))
    yield ChartGroup("Checked", tuple(_check_rows(columns)))


def _measure_rows(columns: Sequence[_Column]) -> Iterator[ChartRow]:
    for at, measure in enumerate(columns[0].sized.measures):
        cells = tuple(Cell(column.words.chosen(column.sized.measures[at])) for column in columns)
        yield ChartRow(measure.name, "", cells)


def _piece_rows(columns: Sequence[_Column]) -> Iterator[ChartRow]:
    """The options are the same in all columns, so the pieces are; how often each is cut may differ."""
    for piece in columns[0].sized.pieces:
        counts = {column.piece(piece.name).cut for column in columns if not column.sized.is_refused}
        has_counts = len(counts) > 1
        cut = "" if has_counts else f"cut {min(counts, default=piece.cut)} "
        cells = tuple(column.cut_size(piece.name, has_counts) for column in columns)
        yield ChartRow(piece.name, f"{cut}from {piece.material}", cells)


def _need_rows(columns: Sequence[_Column]) -> Iterator[ChartRow]:
    """What there is a number for: a length to buy, or a piece of cloth that is certainly enough."""
    sized = columns[0].sized
    cut_from = {piece.material for piece in sized.pieces}
    for material in sized.materials:
        if material.amount is not None:
            cells = tuple(column.to_buy(material.name) for column in columns)
            says = "at least so long" if material.kind == "zip" else "length to buy"
            yield ChartRow(material.name, says, cells)
        if material.name in cut_from:
            cells = tuple(column.cloth(material.name) for column in columns)
            yield ChartRow(material.name, "one piece is enough", cells)


def _check_rows(columns: Sequence[_Column]) -> Iterator[ChartRow]:
    """Every check of the recipe; a range only where a size is outside it."""
    made = {check.says: check for column in columns for check in column.sized.checks}
    for says, check in made.items():
        found = [column.check(says) for column in columns]
        if check.measure is None or any(each and each.holds is not True for each in found):
            yield ChartRow(says, "", tuple(map(_verdict, found)))


def _verdict(check: SizedCheck | None) -> Cell:
    if check is None or check.holds:
        return Cell("In order", "well")
    return Cell("Refused", "refused") if check.level == "refuse" else Cell("Advice", "advice")


def _remarks(column: _Column, groups: Sequence[ChartGroup]) -> Iterator[str]:
    """How the numbers are to be read; and what every size needs besides, which has none: thread, tools."""
    yield "Pieces are given at their cut size, width × height: the seam allowances are in them."
    yield (
        "Where one piece of cloth is enough, given as width × length, all that is cut from it lies one below "
        "the other."
    )
    if others := _without_number(column.sized):
        yield f"Every size needs besides: {listed(others)}."
    if any("≈" in cell.text for group in groups for row in group.rows for cell in row.cells):
        step = column.words.length(column.sized.units.cutting_step)
        yield f"≈ stands before a number that is rounded to the nearest {step}."


def _without_number(sized: SizedPattern) -> tuple[str, ...]:
    cut_from = {piece.material for piece in sized.pieces}
    return tuple(each.name for each in sized.materials if each.amount is None and each.name not in cut_from)
