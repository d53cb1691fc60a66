"""What lies on the table: cloths, what is marked on them, their layers and seams."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from patterns.drafting.sized import SizedAct

from .bag_parts import Sewn
from .errors import AmissError
from .layers import End, Layer, look_for_crossings, places_of
from .openings import Opening
from .strips import Strip


@dataclass(frozen=True, slots=True)
class Seam:
    """Two strips sewn together across. ends: where the stitching runs on each."""

    ends: frozenset[End]
    opening: Opening | None = None


@dataclass(frozen=True, slots=True)
class SideSeams:
    """Both side seams, through every layer. left, right: mm from the left raw edges.

    doubled: how far up from the bottom folds they run through the pleats.
    """

    left: Fraction
    right: Fraction
    doubled: Fraction


@dataclass(frozen=True, slots=True)
class Row:
    """A row of stitches through two cloths beside a seam. short: where it ends before the side seam lines."""

    strips: frozenset[str]
    seam: frozenset[End]
    off: Fraction
    short: Fraction


@dataclass(frozen=True, slots=True)
class Lap:
    """A window's edge between two folds. ends: the lap line and the folds. rows: how far from these."""

    ends: frozenset[End]
    rows: tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class State:
    """The work so far. layers: what lies on the table, from it up; none while all cloths lie apart.

    drawn, creased: the marks there are by now, and the creases. outside: the cloth that lies outside once
    the work is turned; "" before. rows: stitched through two cloths. hems: edges turned in. laps: of a
    window. pairs: cloths that are worked as one, with how much is free at the ends. secured: zips sewn
    across their ends. unzipped: how far each is open, of 1. shut: openings that are closed. trimmed: what
    is left of the side seams' allowances; None before. bound: the strip that binds them; "" for none. sewn:
    what is sewn of bags and of their handles and cords.
    """

    strips: Mapping[str, Strip] = field(default_factory=dict)
    drawn: frozenset[tuple[str, str]] = frozenset()
    creased: frozenset[tuple[str, str]] = frozenset()
    layers: tuple[Layer, ...] = ()
    seams: tuple[Seam, ...] = ()
    sides: SideSeams | None = None
    outside: str = ""
    rows: tuple[Row, ...] = ()
    hems: frozenset[End] = frozenset()
    laps: tuple[Lap, ...] = ()
    pairs: Mapping[frozenset[str], Fraction] = field(default_factory=dict)
    secured: frozenset[str] = frozenset()
    unzipped: Mapping[str, Fraction] = field(default_factory=dict)
    shut: frozenset[str] = frozenset()
    trimmed: Fraction | None = None
    bound: str = ""
    sewn: Sewn = field(default_factory=Sewn)

    def strip(self, name: str) -> Strip:
        """Raises AmissError for a cloth that no step has cut so far."""
        if name not in self.strips:
            raise AmissError(f"no step has cut the {name} so far.")
        return self.strips[name]

    def mark(self, name: str) -> tuple[Strip, str]:
        """Return the cloth and the mark that a name like “exterior middle fold” means.

        Raises AmissError: there is no such cloth yet, or nothing has been drawn there.
        """
        strip, mark = self.mark_there(name)
        if (strip.name, mark) not in self.drawn:
            raise AmissError(f"the {mark} of the {strip.name} has not been drawn so far.")
        return strip, mark

    def mark_there(self, name: str) -> tuple[Strip, str]:
        """Return the cloth and the mark of a name, whether it is drawn by now or not. Raises AmissError."""
        for strip in sorted(self.strips.values(), key=lambda strip: -len(strip.name)):
            mark = name.removeprefix(f"{strip.name} ")
            if mark != name and mark in strip.lines:
                return strip, mark
        raise AmissError(f"there is no {name} at this size so far.")

    def places(self, name: str) -> set[Fraction]:
        """Return where a mark lies on the table. Raises AmissError."""
        return places_of(self.layers, *self.mark(name))

    def place(self, names: Iterable[str]) -> Fraction:
        """Return the one place where marks lie. Raises AmissError where they do not meet."""
        listed = list(names)
        found = {name: self.places(name) for name in listed}
        every = set().union(*found.values())
        if len(every) != 1:
            raise ApartError(listed, max(every) - min(every))
        return every.pop()

    @property
    def zips(self) -> list[Strip]:
        return [strip for strip in self.strips.values() if strip.is_zip]

    def laid(self, layers: Iterable[Layer]) -> "State":
        """Return the work with its layers lying anew. Raises AmissError: cloth would pass through cloth."""
        changed = replace(self, layers=tuple(layers))
        changed.look_for_crossings()
        return changed

    def look_for_crossings(self) -> None:
        look_for_crossings(self.layers, [seam.ends for seam in self.seams])

    def opened(self, name: str) -> Seam:
        """Return the seam that was left open at a mark. Raises AmissError for none."""
        strip, mark = self.mark(name)
        for seam in self.seams:
            if seam.opening and (seam.opening.strip, seam.opening.mark) == (strip.name, mark):
                return seam
        raise AmissError(f"no seam has been left open at the {name}.")


def opening_of(strip: Strip, mark: str) -> Opening:
    """Return the opening at a mark. Raises AmissError: it has no length, or runs into a side seam."""
    line = strip.line(mark)
    if line.start is None or line.end is None or not line.start < line.end:
        raise AmissError(f"the {strip.name} {mark} has no length.")
    sides = [
        each.across for each in strip.lines.values() if each.kind == "stitch" and each.across is not None
    ]
    if sides and not min(sides) < line.start < line.end < max(sides):
        raise AmissError(f"the {strip.name} {mark} runs into a side seam.")
    return Opening(strip.name, mark, line.start, line.end)


class ApartError(AmissError):
    """Marks that should lie on each other lie apart. apart: mm; whoever knows the units writes it."""

    def __init__(self, names: list[str], apart: Fraction) -> None:
        self.names, self.apart = names, apart
        super().__init__("")


class DiffersError(AmissError):
    """A length is not what it should be: what it is called, what is found and what is told, mm."""

    def __init__(self, what: str, found: Fraction, told: Fraction) -> None:
        self.what, self.found, self.told = what, found, told
        super().__init__("")


def amount(act: SizedAct, key: str) -> Fraction:
    """Return an amount of an act, mm or a bare number. Raises AmissError: it has no value."""
    value = act.amount(key).value
    if value is None:
        raise AmissError(f"{act.amount(key).formula} has no value at this size.")
    return Fraction(value)
