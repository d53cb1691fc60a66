"""A recipe at one size: Recipe + measures + options + units → SizedPattern."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Protocol, TypeVar

from .errors import DraftingError
from .formulas.formula import Formula
from .formulas.tree import Name
from .formulas.values import Measured, Value
from .lengths import as_chosen
from .outline_faults import Fault, fault
from .outlines import Corner, shape_of
from .recipe import Check, Mark, Measure, Piece, Recipe, Scale, Text, When
from .sized import (
    Quantity,
    SizedAct,
    SizedAmount,
    SizedCaution,
    SizedCheck,
    SizedCorner,
    SizedMark,
    SizedMaterial,
    SizedMeasure,
    SizedPattern,
    SizedPiece,
    SizedStep,
    SizedText,
    valued,
)
from .units import Units
from .work import VERBS, Act


class _Conditional(Protocol):
    @property
    def when(self) -> When: ...


Thing = TypeVar("Thing", bound=_Conditional)


class SizingError(DraftingError):
    """A measure, option or choice that the recipe does not have."""


def size(
    recipe: Recipe,
    slug: str,
    units: Units,
    measures: Mapping[str, Fraction] | None = None,
    options: Mapping[str, str] | None = None,
) -> SizedPattern:
    """Return the recipe at one size, whether or not its checks hold.

    measures: mm, or bare numbers; what is not given takes the default of the units, or what a chosen
    option sets. options: name → choice; the rest take their defaults.
    Raises SizingError: a name or a choice that the recipe does not have.
    """
    chosen = choose(recipe, options or {})
    values = all_values(recipe, units, measures or {}, chosen)
    return _Sizer(recipe, units, values, chosen).pattern(slug)


def choose(recipe: Recipe, options: Mapping[str, str]) -> Mapping[str, str]:
    """Return a choice for every option of the recipe. Raises SizingError."""
    known = {option.name for option in recipe.options}
    for name, choice in options.items():
        if name not in known:
            raise SizingError(_no_such("option", name, known))
        choices = {each.name for each in recipe.option(name).choices}
        if choice not in choices:
            raise SizingError(_no_such(f"choice of “{name}”", choice, choices))
    return {option.name: options.get(option.name, option.default) for option in recipe.options}


def _no_such(what: str, name: str, known: set[str]) -> str:
    listed = ", ".join(sorted(known)) or "none"
    return f"There is no {what} “{name}”. There are: {listed}."


def all_values(
    recipe: Recipe, units: Units, measures: Mapping[str, Fraction], chosen: Mapping[str, str]
) -> dict[str, Value]:
    """Return what every name of the recipe stands for at this size.

    Raises SizingError for a measure the recipe does not have, TooBigError for numbers out of bounds.
    """
    refuse_strangers(recipe, measures)
    values = given_values(recipe, units, measures, chosen)
    for name, formula in recipe.worked_out:
        values[name] = formula.value(values)
    return values


def refuse_strangers(recipe: Recipe, measures: Iterable[str]) -> None:
    """Raise SizingError for a name that is no measure of the recipe."""
    known = {measure.name for measure in recipe.measures}
    for name in measures:
        if name not in known:
            raise SizingError(_no_such("measure", name, known))


def given_values(
    recipe: Recipe, units: Units, measures: Mapping[str, Fraction], chosen: Mapping[str, str]
) -> dict[str, Value]:
    """Return the values of the names that are chosen or fixed, not worked out."""
    values: dict[str, Value] = {constant.name: constant.values[units] for constant in recipe.constants}
    values |= {measure.name: measure.scales[units].default for measure in recipe.measures}
    for option in recipe.options:
        values |= {value.name: value.values[units] for value in option.choice(chosen[option.name]).sets}
    values |= measures
    return values


@dataclass(frozen=True, slots=True)
class _Sizer:
    """One size being worked out: the recipe, and what every name stands for."""

    recipe: Recipe
    units: Units
    values: Mapping[str, Value]
    chosen: Mapping[str, str]
    known: dict[int, Quantity] = field(default_factory=dict)

    def pattern(self, slug: str) -> SizedPattern:
        recipe = self.recipe
        width, height, depth = (self.quantity(formula, 1) for formula in recipe.finished)
        return SizedPattern(
            recipe=slug,
            title=recipe.title,
            language=recipe.language,
            summary=recipe.summary,
            skill=recipe.skill,
            time=recipe.time,
            revised=recipe.revised.isoformat(),
            units=self.units,
            form=recipe.form,
            finished=(width, height, depth),
            values=self.values,
            powers=recipe.powers,
            measures=tuple(self.measure(measure) for measure in recipe.measures),
            options=self.chosen,
            amounts=tuple(
                SizedAmount(amount.name, self.named(amount.name, amount.formula, amount.power))
                for amount in recipe.amounts
            ),
            pieces=tuple(self.piece(piece) for piece in self.existing(recipe.pieces)),
            checks=(
                *self.ranges(),
                *(self.check(check) for check in self.existing(recipe.checks)),
                *self.uncuttable(),
            ),
            materials=tuple(
                SizedMaterial(
                    material.name,
                    material.kind,
                    material.tint,
                    self.text(material.says),
                    None if material.amount is None else self.quantity(material.amount, 1),
                )
                for material in self.existing(recipe.materials)
            ),
            tells=tuple(self.text(tell.says) for tell in self.existing(recipe.tells)),
            steps=tuple(
                SizedStep(
                    step.title,
                    self.text(step.does),
                    step.shows,
                    step.cautions,
                    tuple(self.act(act) for act in step.work),
                )
                for step in self.existing(recipe.steps)
            ),
            cautions=tuple(SizedCaution(each.name, each.says) for each in self.existing(recipe.cautions)),
        )

    def existing(self, things: Iterable[Thing]) -> Iterator[Thing]:
        """What exists with the chosen options."""
        return (thing for thing in things if thing.when.holds(self.chosen))

    def quantity(self, formula: Formula, power: int) -> Quantity:
        """Formulas with the same text are one object, and many marks and steps share theirs."""
        known = self.known.get(id(formula))
        if known is None:
            known = Quantity(_measured(formula.value(self.values)), power, formula)
            self.known[id(formula)] = known
        return known

    def named(self, name: str, formula: Formula, power: int) -> Quantity:
        """The quantity of a name that has been worked out already."""
        return Quantity(_measured(self.values[name]), power, formula)

    def text(self, text: Text) -> SizedText:
        return tuple(
            part if isinstance(part, str) else self.quantity(part.formula, part.power) for part in text
        )

    def act(self, act: Act) -> SizedAct:
        kinds = VERBS[act.verb].kinds
        amounts = tuple(
            (key, self.quantity(formula, int(kinds[key] == "length"))) for key, formula in act.amounts
        )
        return SizedAct(act.verb, act.names, amounts)

    def measure(self, measure: Measure) -> SizedMeasure:
        value = self.values[measure.name]
        assert isinstance(value, Fraction)  # measures are given, not worked out
        return SizedMeasure(measure.name, value, measure.power, measure.role)

    def piece(self, piece: Piece) -> SizedPiece:
        width, height = self.recipe.edges[piece.name]
        outline = self.outline(piece)
        return SizedPiece(
            name=piece.name,
            material=piece.material,
            cut=_whole(piece.cut.value(self.values)),
            width=self.named(width, piece.width, 1),
            height=self.named(height, piece.height, 1),
            turns=piece.upright is None or not piece.upright.holds(self.chosen),
            marks=tuple(self.mark(mark) for mark in self.existing(piece.marks)),
            says=piece.says,
            shape=shape_of(valued(outline)) if outline else "rectangle",
            outline=outline,
        )

    def outline(self, piece: Piece) -> tuple[SizedCorner, ...]:
        return tuple(
            SizedCorner(self.quantity(corner.across, 1), self.quantity(corner.down, 1), corner.arc)
            for corner in piece.outline
        )

    def mark(self, mark: Mark) -> SizedMark:
        places = (mark.down_from_top, mark.in_from_left, mark.start, mark.end, mark.inside)
        down, across, start, end, inside = (
            None if place is None else self.quantity(place, 1) for place in places
        )
        return SizedMark(mark.name, mark.kind, down, across, start, end, mark.says, inside)

    def check(self, check: Check) -> SizedCheck:
        holds = check.holds.value(self.values)
        return SizedCheck(check.level, check.says, self.text(check.otherwise), _yes_no(holds))

    def ranges(self) -> Iterator[SizedCheck]:
        for measure in self.recipe.measures:
            yield self.range_check(measure, measure.scales[self.units])

    def range_check(self, measure: Measure, scale: Scale) -> SizedCheck:
        value = _measured(self.values[measure.name])
        assert value is not None
        least, most = (as_chosen(end, measure.power, self.units) for end in (scale.least, scale.most))
        here = Quantity(value, measure.power, Formula(Name(measure.name)))
        return SizedCheck(
            level="refuse",
            says=f"The {measure.name} is between {least} and {most}.",
            otherwise=(f"The {measure.name} is between {least} and {most}; ", here, " is outside."),
            holds=scale.least <= value <= scale.most,
            measure=measure.name,
        )

    def uncuttable(self) -> Iterator[SizedCheck]:
        """What cannot be cut, whatever the recipe checks: an edge of nothing, half a piece, no outline."""
        for piece in self.existing(self.recipe.pieces):
            count = piece.cut.value(self.values)
            if not is_count(count):
                says = f"The {piece.name} is cut a whole number of times."
                cut = Quantity(_measured(count), 0, piece.cut)
                yield SizedCheck("refuse", says, (f"The {piece.name} would be cut ", cut, " times."), False)
            if not all(is_length(self.values[edge]) for edge in self.recipe.edges[piece.name]):
                says = f"The {piece.name} has a width and a height."
                yield SizedCheck(
                    "refuse", says, (f"Nothing would be left of the {piece.name} at this size.",), False
                )
            elif found := outline_fault(self.recipe, piece, self.values):
                says = f"The outline of the {piece.name} can be cut."
                wrong = f"The {piece.name} cannot be cut at this size: its outline {found.says}."
                yield SizedCheck("refuse", says, (wrong,), False)


def outline_fault(recipe: Recipe, piece: Piece, values: Mapping[str, Value]) -> Fault | None:
    """Return what keeps a piece's outline from being cut at a size, None if nothing does.

    values: of every name; the width and the height of the piece are lengths above nothing.
    """
    corners = []
    for place, corner in enumerate(piece.outline):
        across, down = _measured(corner.across.value(values)), _measured(corner.down.value(values))
        if across is None or down is None:
            return Fault(place, "has a corner without a place", "Give it one that has a value.")
        corners.append(Corner(across, down, corner.arc))
    width, height = (_measured(values[edge]) for edge in recipe.edges[piece.name])
    assert width is not None
    assert height is not None
    return fault(corners, width, height) if corners else None


def _measured(value: Value) -> Measured | None:
    assert not isinstance(value, bool)  # the reader of recipes lets no comparison stand here
    return value


def _yes_no(value: Value) -> bool | None:
    assert value is None or isinstance(value, bool)
    return value


def is_length(value: Value) -> bool:
    """Whether there is anything of it to cut."""
    return value is not None and value > 0


def is_count(value: Value) -> bool:
    """Whether a piece can be cut so many times."""
    return isinstance(value, Fraction) and value.denominator == 1 and value > 0


def _whole(count: Value) -> int:
    """How often a piece is cut; 0 where that is no count, which `uncuttable` refuses."""
    return int(count) if isinstance(count, Fraction) and is_count(count) else 0
