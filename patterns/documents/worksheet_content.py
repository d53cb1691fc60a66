"""What stands in a worksheet: every formula of a recipe, in its own words and with gaps to write numbers in.

All of it comes from the recipe, so the sheet can say nothing else than the book. Its example is the recipe
worked out at its default size.
"""

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass
from functools import cached_property

from patterns.drafting.formulas.blanks import Gap, blanks
from patterns.drafting.formulas.formula import Formula
from patterns.drafting.formulas.names import names
from patterns.drafting.formulas.tree import Name, Node
from patterns.drafting.formulas.working import number_node, working
from patterns.drafting.lengths import as_chosen, typed, typeset
from patterns.drafting.recipe import Check, Material, Measure, Piece, Recipe
from patterns.drafting.sized import SizedMeasure, SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units

from .book_content import Fact
from .errors import NoDocumentError
from .words import UNIT_WORDS, Words, day_in_words, listed, litres_behind, unit_of

SIDES = ("width", "height")
# More lines than these leave a page no room for boxes; then it holds those that something is cut, bought or
# checked by, and names the rest.
MOST_LINES = 16


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a formula to fill in: its text, or a gap for the number of a name."""

    text: str = ""
    gap: str = ""


@dataclass(frozen=True, slots=True)
class Asked:
    """A number that the sewer chooses. range: `3 to 20 in`. unit: ` in`. example: `9 in`."""

    name: str
    says: str
    range: str
    unit: str
    example: str


@dataclass(frozen=True, slots=True)
class Line:
    """A number to be worked out: its formula, the same to fill in, and with the example's numbers.

    unit: what stands behind the result, ` in`.
    """

    name: str
    formula: str
    parts: tuple[Part, ...]
    unit: str
    example: str


@dataclass(frozen=True, slots=True)
class Rule:
    """A check. must: a size that breaks it cannot be sewn; another is only advised against."""

    says: str
    must: bool
    formula: str
    parts: tuple[Part, ...]
    example: str


@dataclass(frozen=True, slots=True)
class Worksheet:
    """A worksheet, ready to be set.

    example: the size that is worked through.
    cuts, buys: what to cut and to buy, a sentence for each material.
    has_powers: an area or a volume is among its lines.
    has_litres: a volume that is written in litres too, once it comes to one.
    """

    language: str
    title: str
    revised: str
    revised_words: str
    units: str
    example: str
    choices: tuple[Fact, ...]
    asked: tuple[Asked, ...]
    lines: tuple[Line, ...]
    left_out: str
    cuts: tuple[str, ...]
    buys: tuple[str, ...]
    rules: tuple[Rule, ...]
    precision: str
    has_powers: bool
    has_litres: bool


def worksheet_content(recipe: Recipe, units: Units, options: Mapping[str, str] | None = None) -> Worksheet:
    """Return what the worksheet of a recipe says, in one unit system.

    options: name → choice; the rest take their defaults.
    Raises NoDocumentError: with these options the default size is refused, so it is no example.
    SizingError: no such option or choice.
    """
    sized = size(recipe, "", units, {}, options)
    if sized.is_refused:
        why = sized.failed[0].says
        raise NoDocumentError(f"With these choices the default size of “{recipe.title}” is refused: {why}")
    words, sheet = Words(sized), _Sheet(recipe, sized)
    lines = tuple(sheet.lines(sheet.all_needed))
    if len(lines) > MOST_LINES:
        lines = tuple(sheet.lines(sheet.needed))
    return Worksheet(
        language=recipe.language,
        title=recipe.title,
        revised=sized.revised,
        revised_words=day_in_words(sized.revised),
        units=UNIT_WORDS[units],
        example=words.size(),
        choices=tuple(Fact(name, choice) for name, choice in sized.options.items()),
        asked=tuple(
            _asked(measure, chosen, words)
            for measure, chosen in zip(recipe.measures, sized.measures, strict=True)
        ),
        lines=lines,
        left_out=listed(
            amount.name for amount in recipe.amounts if amount.name not in {line.name for line in lines}
        ),
        cuts=tuple(sheet.cuts()),
        buys=tuple(sheet.buys()),
        rules=tuple(sheet.rule(check) for check in sheet.checks),
        precision=words.length(units.cutting_step),
        has_powers=any(line.unit.endswith(("²", "³")) for line in lines),
        has_litres=units is Units.CENTIMETRES and any(line.unit.endswith("³") for line in lines),
    )


def _asked(measure: Measure, chosen: SizedMeasure, words: Words) -> Asked:
    units = words.sized.units
    scale = measure.scales[units]
    least, most = typed(scale.least, measure.power, units), as_chosen(scale.most, measure.power, units)
    unit = unit_of(measure.power, units)
    return Asked(measure.name, measure.says, f"{typeset(least)} to {most}", unit, words.chosen(chosen))


class _Sheet:
    """One worksheet being written: the recipe, with what exists under the chosen options, and its example."""

    def __init__(self, recipe: Recipe, sized: SizedPattern) -> None:
        self.recipe, self.sized = recipe, sized
        self.pieces = [each for each in recipe.pieces if each.when.holds(sized.options)]
        self.checks = [each for each in recipe.checks if each.when.holds(sized.options)]
        self.materials = [each for each in recipe.materials if each.when.holds(sized.options)]

    @cached_property
    def known(self) -> Mapping[str, Node]:
        """The numbers that are the same for everybody: constants, and what the chosen options set."""
        sized = self.sized
        own = {*self.recipe.definitions, *(measure.name for measure in sized.measures)}
        return {
            name: number_node(value, sized.powers[name], sized.units)
            for name, value in sized.values.items()
            if name not in own
        }

    @cached_property
    def needed(self) -> Set[str]:
        """What is cut, and whatever that, the checks and the shopping read."""
        found = {edge for piece in self.pieces for edge in self.recipe.edges[piece.name]}
        return self._with_what_it_reads(found.union(*map(names_of, self.bare_formulas())))

    @cached_property
    def all_needed(self) -> Set[str]:
        """The same, and all amounts with what they read."""
        return self._with_what_it_reads(self.needed | {amount.name for amount in self.recipe.amounts})

    def _with_what_it_reads(self, wanted: Set[str]) -> Set[str]:
        found = set(wanted)
        for name, formula in reversed(self.recipe.worked_out):
            if name in found:
                found |= names_of(formula)
        return found

    def bare_formulas(self) -> Iterator[Formula]:
        """The formulas that have no name of their own: checks, how often to cut, how much to buy."""
        yield from (check.holds for check in self.checks)
        yield from (piece.cut for piece in self.pieces)
        yield from (each.amount for each in self.materials if each.amount)

    def lines(self, needed: Set[str]) -> Iterator[Line]:
        """Return a line for each needed name, after those it reads; edges of the same formula share one."""
        edges = self.edges(needed)
        for name, formula in self.recipe.worked_out:
            if name in edges:
                yield self.line(edges[name], formula, 1)
            elif name in needed and not self.is_edge(name):
                yield self.line(name, formula, self.sized.powers[name])
        for piece in self.pieces:
            if not self.is_counted(piece):
                yield self.line(f"how often to cut the {piece.name}", piece.cut, 0)
        for each in self.materials:
            if each.amount and not isinstance(each.amount.tree, Name):
                yield self.line(f"length of {each.name} to buy", each.amount, 1)

    def edges(self, needed: Set[str]) -> Mapping[str, str]:
        """The first edge of each formula, and what its line is called: `width of front and back`."""
        alike: dict[tuple[str, Formula], list[tuple[str, str]]] = {}
        for piece in self.recipe.pieces:
            for side, edge in zip(SIDES, self.recipe.edges[piece.name], strict=True):
                if edge in needed:
                    alike.setdefault((side, self.recipe.definitions[edge]), []).append((edge, piece.name))
        order = {name: at for at, (name, _) in enumerate(self.recipe.worked_out)}
        return {
            min((edge for edge, _ in edges), key=order.__getitem__): f"{side} of "
            + listed(piece for _, piece in edges)
            for (side, _), edges in alike.items()
        }

    def is_edge(self, name: str) -> bool:
        return any(name in edges for edges in self.recipe.edges.values())

    def line(self, name: str, formula: Formula, power: int) -> Line:
        unit = unit_of(power, self.sized.units)
        example = self.worked(formula, power)
        value = formula.value(self.sized.values)
        if value is not None and not isinstance(value, bool):
            example += unit + litres_behind(value, power, self.sized.units)
        return Line(name, str(formula), self.parts(formula), unit, example)

    def rule(self, check: Check) -> Rule:
        holds = check.holds
        return Rule(check.says, check.level == "refuse", str(holds), self.parts(holds), self.worked(holds, 0))

    def parts(self, formula: Formula) -> tuple[Part, ...]:
        return tuple(
            Part(gap=part.name) if isinstance(part, Gap) else Part(text=typeset(part))
            for part in blanks(formula.tree, self.known)
        )

    def worked(self, formula: Formula, power: int) -> str:
        sized = self.sized
        return typeset(working(formula.tree, sized.values, sized.powers, sized.units, power))

    def is_counted(self, piece: Piece) -> bool:
        """Whether a piece is cut equally often at every size."""
        return names_of(piece.cut) <= self.known.keys()

    def cuts(self) -> Iterator[str]:
        """`From lining fabric: lining half panel (cut 2).`"""
        for material in dict.fromkeys(piece.material for piece in self.pieces):
            pieces = [piece for piece in self.pieces if piece.material == material]
            yield f"From {material}: {listed(f'{piece.name} ({self.count(piece)})' for piece in pieces)}."

    def count(self, piece: Piece) -> str:
        return (
            f"cut\u00a0{piece.cut.value(self.sized.values)}"
            if self.is_counted(piece)
            else "as often as above"
        )

    def buys(self) -> Iterator[str]:
        """`Zip to buy: the zip length.`"""
        yield from (_bought(each, each.amount) for each in self.materials if each.amount)


def names_of(formula: Formula) -> frozenset[str]:
    return names(formula.tree)


def _bought(material: Material, amount: Formula) -> str:
    length = f"the {amount.tree.text}" if isinstance(amount.tree, Name) else "as above"
    return f"{material.name[:1].upper()}{material.name[1:]} to buy: {length}."
