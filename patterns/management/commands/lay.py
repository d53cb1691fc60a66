"""`manage.py lay`: how to cut pieces from cloth sold by length or from sheets, and how much is needed."""

import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from django.core.management.base import CommandParser

from patterns.cutting.answers import Cut, OnLength, OnSheets
from patterns.cutting.effort import Effort
from patterns.cutting.errors import NoWayError, TooLittleClothError
from patterns.cutting.fewest import MOST_SHEETS_LAID, fewest
from patterns.cutting.sheets import Layout, Rectangle, Sheet
from patterns.cutting.shortest import shortest
from patterns.cutting.strip import MOST_LAID
from patterns.drafting.lengths import LengthError, as_chosen, exact, read_length, read_number
from patterns.drafting.units import Units
from patterns.management.arguments import ArgumentError, whole_number
from patterns.management.extents import read_extent, unit_at_end
from patterns.management.printing import Json, printed_values
from patterns.management.script import Once, ScriptCommand

# The longest search, s; and from when on the exact solver is worth loading.
MOST_SECONDS = 600
SOLVER_FROM = Fraction(3, 10)
# More work than any machine does in a second: the clock is to end the search, and shares of it are shares.
WORK_A_SECOND = 3_000_000
METRIC = ("cm", "mm", "m")


@dataclass(frozen=True, slots=True)
class Wanted:
    """One --piece of the command line. name: as it is printed."""

    name: str | int
    width: Fraction
    height: Fraction
    copies: int


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked. width: of cloth sold by length; None where there are sheets. step: of the shop."""

    units: Units
    wanted: tuple[Wanted, ...]
    width: Fraction | None
    sheets: tuple[Sheet, ...]
    step: Fraction | None
    turns: bool
    edge_to_edge: bool

    @property
    def names(self) -> list[str | int]:
        return [each.name for each in self.wanted for _ in range(each.copies)]

    @property
    def pieces(self) -> list[Rectangle]:
        return [
            Rectangle(each.width, each.height, self.turns) for each in self.wanted for _ in range(each.copies)
        ]


class Command(ScriptCommand):
    help = (
        "Lays pieces on cloth sold by length, or on sheets, and proves how little will do. Changes nothing."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--json", action="store_true", help="Answer scripts: one object of JSON.")
        cloth = parser.add_mutually_exclusive_group(required=True)
        cloth.add_argument("--width", action=Once, metavar="W", help="Of cloth sold by length.")
        cloth.add_argument(
            "--sheet",
            nargs="+",
            action="extend",
            metavar="AxB[*N]",
            help="A sheet, across and along, and how many of it, like 18x21*4.",
        )
        parser.add_argument("--step", action=Once, metavar="S", help="What the shop cuts: 4.5 is 1/8 yd.")
        parser.add_argument(
            "--piece",
            nargs="+",
            action="extend",
            required=True,
            metavar="[NAME:]AxB[*N]",
            help="A piece, and how many of it, like strap:3x40*2.",
        )
        parser.add_argument("--fixed", action="store_true", help="No piece may be turned.")
        parser.add_argument(
            "--edge-to-edge", action="store_true", help="Every cut goes right through the part that it cuts."
        )
        parser.add_argument("--seconds", action=Once, default="1", help="How long to search; without it, 1.")
        parser.add_argument(
            "--units", action=Once, choices=[units.value for units in Units], default=Units.INCHES.value
        )

    def answer(self, **options: Any) -> bool:
        asked, seconds = _read(options), _seconds(options["seconds"])
        began = time.monotonic()
        end = began + float(seconds)
        effort = Effort(
            max(1, int(WORK_A_SECOND * seconds)),
            lambda: time.monotonic() >= end,
            may_solve=seconds >= SOLVER_FROM,
        )
        try:
            data, words = _laid(asked, effort)
            is_yes = True
        except TooLittleClothError as error:
            data, words = _too_little(asked, error), [str(error)]
            is_yes = False
        except NoWayError as error:
            raise ArgumentError(_fits_no_way(asked, error.piece)) from None
        data["seconds"] = round(time.monotonic() - began, 3)
        if options["json"]:
            self.write_json(data)
        else:
            self.stdout.write("\n".join(words))
        return is_yes


def _read(options: dict[str, Any]) -> Asked:
    """Return what is asked; one typed unit anywhere means that every measure needs its own."""
    pieces = [_parts(word) for word in options["piece"]]
    sheets = [_counted(word, MOST_SHEETS_LAID) for word in options["sheet"] or ()]
    lengths = [text for text in (options["width"], options["step"]) if text is not None]
    typed = [*lengths, *(extent for _, extent, _ in pieces), *(extent for extent, _ in sheets)]
    if len({unit_at_end(text) is None for text in typed}) == 2:
        plain = next(text for text in typed if unit_at_end(text) is None)
        raise ArgumentError(f"“{plain}” has no unit, but others have. Write units everywhere or nowhere.")
    of_cloth = unit_at_end(options["width"] if options["width"] is not None else sheets[0][0])
    units = Units(options["units"])
    if of_cloth is not None:
        units = Units.CENTIMETRES if of_cloth.lower() in METRIC else Units.INCHES
    return Asked(
        units,
        _wanted(pieces, units),
        None if options["width"] is None else _length("--width", options["width"], units),
        tuple(
            sheet for extent, copies in sheets for sheet in [Sheet(*read_extent(extent, 2, units))] * copies
        ),
        None if options["step"] is None else _length("--step", options["step"], units),
        not options["fixed"],
        options["edge_to_edge"],
    )


def _parts(word: str) -> tuple[str | None, str, int]:
    """`strap:3x40*2` is a name, a size and a number."""
    name, is_named, rest = word.rpartition(":")
    if is_named and not name.strip():
        raise ArgumentError(f"“{word}” has no name before the colon. Write it like strap:3x40 or 3x40.")
    return (name.strip() if is_named else None, *_counted(rest, MOST_LAID))


def _counted(word: str, most: int) -> tuple[str, int]:
    extent, is_counted, times = word.partition("*")
    return extent, whole_number(word, times, most) if is_counted else 1


def _wanted(pieces: Sequence[tuple[str | None, str, int]], units: Units) -> tuple[Wanted, ...]:
    wanted: list[Wanted] = []
    for number, (name, extent, copies) in enumerate(pieces):
        if name is not None and any(each.name == name for each in wanted):
            raise ArgumentError(f"The piece “{name}” is given twice. Give it once, like {name}:3x40*2.")
        width, height = read_extent(extent, 2, units)
        wanted.append(Wanted(number if name is None else name, width, height, copies))
    return tuple(wanted)


def _length(name: str, text: str, units: Units) -> Fraction:
    try:
        length = read_length(text, units)
    except LengthError as error:
        raise ArgumentError(f"{name}: {error}") from None
    if not length:
        raise ArgumentError(f"{name}: “{text}” is nothing. Write a length above 0.")
    return length


def _seconds(text: str) -> Fraction:
    try:
        seconds = read_number(text)
    except LengthError as error:
        raise ArgumentError(f"--seconds: {error}") from None
    if seconds > MOST_SECONDS:
        raise ArgumentError(f"--seconds: “{text}” is too long. Write at most {MOST_SECONDS}.")
    return seconds


def _fits_no_way(asked: Asked, piece: int) -> str:
    names = asked.names
    wanted = next(each for each in asked.wanted if each.name == names[piece])
    size = " × ".join(as_chosen(side, 1, asked.units) for side in (wanted.width, wanted.height))
    if asked.width is not None:
        cloth = f"cloth {as_chosen(asked.width, 1, asked.units)} wide"
    else:
        cloth = "any of the sheets"
    ways = "in either way" if asked.turns else "without being turned"
    return f"Piece “{wanted.name}”, {size}, does not fit on {cloth} {ways}."


def _laid(asked: Asked, effort: Effort) -> tuple[Json, list[str]]:
    if asked.width is None:
        sheets = fewest(asked.pieces, asked.sheets, effort, asked.edge_to_edge)
        return _sheets_json(asked, sheets), list(_sheets_lines(asked, sheets))
    length = shortest(asked.pieces, asked.width, effort, asked.step, asked.edge_to_edge)
    return _length_json(asked, length), list(_length_lines(asked, length))


def _length_json(asked: Asked, found: OnLength) -> Json:
    measures = {"length": found.length, "buy": found.buy(asked.step), "bound": found.bound}
    return {
        "units": asked.units.value,
        **{name: exact(Fraction(value), 1, asked.units) for name, value in measures.items()},
        "proved": found.proved(asked.step),
        **_layout_json(asked, found.layout, found.cuts),
    }


def _sheets_json(asked: Asked, found: OnSheets) -> Json:
    return {
        "units": asked.units.value,
        "sheets": found.sheets_used,
        "buy": found.sheets_used,
        "bound": found.bound,
        "proved": found.proved,
        **_layout_json(asked, found.layout, found.cuts),
    }


def _too_little(asked: Asked, error: TooLittleClothError) -> Json:
    """Nothing fits; proved says whether nothing can."""
    return {
        "units": asked.units.value,
        "sheets": None,
        "buy": None,
        "bound": error.bound,
        "proved": error.bound > len(asked.sheets),
        **_layout_json(asked, (), ()),
    }


def _layout_json(asked: Asked, layout: Layout, cuts: Sequence[Cut]) -> Json:
    names = asked.names
    data: Json = {
        "placements": [
            {
                "piece": names[each.piece],
                **_lengths(asked, x=each.x, y=each.y, width=each.width, height=each.height),
                "turned": each.turned,
                "sheet": None if asked.width is not None else each.sheet,
            }
            for each in layout
        ]
    }
    if asked.edge_to_edge:
        data["cuts"] = [
            {
                "sheet": None if asked.width is not None else each.sheet,
                "along": each.along,
                "at": exact(Fraction(each.at), 1, asked.units),
                "from": exact(Fraction(each.start), 1, asked.units),
                "to": exact(Fraction(each.end), 1, asked.units),
            }
            for each in cuts
        ]
    return data


def _lengths(asked: Asked, **lengths: Fraction | int) -> Json:
    return printed_values({name: (Fraction(value), 1) for name, value in lengths.items()}, asked.units)


def _length_lines(asked: Asked, found: OnLength) -> Iterator[str]:
    say = _saying(asked.units)
    yield f"Buy {say(found.buy(asked.step))}; the layout is {say(found.length)} long."
    if found.proved(asked.step):
        yield "  Less is never enough: that is proved."
    else:
        yield f"  The best that was found; at least {say(found.bound)} are needed."
    yield from _placement_lines(asked, found.layout)


def _sheets_lines(asked: Asked, found: OnSheets) -> Iterator[str]:
    yield f"Sheets: {found.sheets_used}."
    if found.proved:
        yield "  Fewer are never enough: that is proved."
    else:
        yield f"  The best that was found; at least {found.bound} are needed."
    yield from _placement_lines(asked, found.layout)


def _placement_lines(asked: Asked, layout: Layout) -> Iterator[str]:
    say, names = _saying(asked.units), asked.names
    for each in layout:
        turned = ", turned" if each.turned else ""
        sheet = "" if asked.width is not None else f" on sheet {each.sheet + 1}"
        where = f"{say(each.x)} across from the left edge, {say(each.y)} along{sheet}"
        yield f"    {names[each.piece]}: {say(each.width)} × {say(each.height)}{turned}; {where}"


def _saying(units: Units) -> Callable[[Fraction | int], str]:
    return lambda length: as_chosen(Fraction(length), 1, units)
