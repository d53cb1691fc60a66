"""Spoils the formulas of a recipe as people do, one at a time, and tells which slips nothing would show.

A slip counts where it changes what is cut or bought by length: the width, the height, a corner of the outline
or the number of a piece, the length of a zip or a ribbon. It is caught where a truing that exists with these
options comes out unequal at some size, or where the recipe refuses its default or one of its named sizes.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product
from typing import NamedTuple, assert_never

from patterns.drafting.errors import FormulaError
from patterns.drafting.formulas.dimensions import YES_NO, kind_of
from patterns.drafting.formulas.formula import Formula
from patterns.drafting.formulas.names import names
from patterns.drafting.formulas.spell import spell
from patterns.drafting.formulas.tree import (
    Both,
    Choice,
    Comparison,
    Difference,
    Either,
    Name,
    Negative,
    Node,
    Number,
    Pi,
    Power,
    Product,
    Quotient,
    Root,
    Rounding,
    Sum,
)
from patterns.drafting.formulas.values import Measured, TooBigError, Value, compare
from patterns.drafting.recipe import Piece, Recipe, When, corner_names
from patterns.drafting.sizing import all_values, given_values, is_count, is_length, outline_fault
from patterns.drafting.truing import prove
from patterns.drafting.units import Units

# Sizes besides the default and the named ones at which both sides of a truing are compared.
SIZES_TRIED = 5
ONE, TWO, THREE = Number(Fraction(1)), Number(Fraction(2)), Number(Fraction(3))
Options = Mapping[str, str]


def every_combination(recipe: Recipe) -> tuple[Options, ...]:
    """Every combination of the choices of every option."""
    choices = [[choice.name for choice in option.choices] for option in recipe.options]
    return tuple(
        dict(zip((option.name for option in recipe.options), chosen, strict=True))
        for chosen in product(*choices)
    )


def slips(tree: Node, measures: Sequence[str]) -> Iterator[Node]:  # noqa: C901 (one case for each kind of node)
    """Yield the formula with one slip in it, for each slip that is made; of other powers as well.

    measures: names of lengths that are taken for one another.
    """
    match tree:
        case Number(value, unit):
            yield replace(tree, value=value + 1)
            if value > 1:
                yield Number(value - 1, unit)
        case Pi():
            yield THREE
        case Name(text):
            yield Quotient(tree, TWO)
            yield Product(TWO, tree)
            yield from (Name(other) for other in measures if other != text and text in measures)
        case Negative(of) | Root(of):
            yield of
            yield from (replace(tree, of=wrong) for wrong in slips(of, measures))
        case Power(base, _):
            yield base
            yield from (replace(tree, base=wrong) for wrong in slips(base, measures))
        case Sum(left, right):
            yield from (left, right, Difference(left, right))
            yield from _in_either(tree, measures)
        case Difference(left, right):
            yield from (left, Sum(left, right), Difference(right, left))
            yield from _in_either(tree, measures)
        case Product(left, right):
            yield from (left, right, Quotient(left, right), Quotient(right, left))
            yield from _in_either(tree, measures)
        case Quotient(left, right):
            yield from (left, Product(left, right))
            yield from _in_either(tree, measures)
        case Choice(which, among):
            yield replace(tree, which="larger" if which == "smaller" else "smaller")
            yield from among
            for place, part in enumerate(among):
                yield from (
                    replace(tree, among=(*among[:place], wrong, *among[place + 1 :]))
                    for wrong in slips(part, measures)
                )
        case Rounding(way, of, step):
            yield of
            yield replace(tree, way="down" if way == "up" else "up")
            yield from (replace(tree, of=wrong) for wrong in slips(of, measures))
            yield from (replace(tree, step=wrong) for wrong in slips(step, measures))
        case Comparison() | Both() | Either():
            raise ValueError(f"{spell(tree)} is no length")
        case _:
            assert_never(tree)


def _in_either(
    tree: Sum | Difference | Product | Quotient, measures: Sequence[str]
) -> Iterator[Sum | Difference | Product | Quotient]:
    yield from (replace(tree, left=wrong) for wrong in slips(tree.left, measures))
    yield from (replace(tree, right=wrong) for wrong in slips(tree.right, measures))


class Place(NamedTuple):
    """Where a formula stands. name: what formulas call it, or what it is. piece: whose it is, if one's."""

    name: str
    piece: str = ""


class Slip(NamedTuple):
    place: Place
    wrong: Node

    def __str__(self) -> str:
        return f"{self.place.name} = {spell(self.wrong)}"


class Size(NamedTuple):
    """One size. values: of every name. is_shown: whoever writes the recipe looks at it."""

    values: dict[str, Value]
    is_shown: bool


@dataclass(frozen=True, slots=True)
class Spoiler:
    """One recipe, whose formulas are spoiled one after the other.

    groups: the combinations of options with which every name has the same values, and the sizes to look at.
    exists: for each truing the choices with which it exists.
    """

    recipe: Recipe
    groups: tuple[tuple[tuple[Options, ...], tuple[Size, ...]], ...]
    exists: tuple[tuple[Options, ...], ...]

    @staticmethod
    def of(recipe: Recipe) -> "Spoiler":
        chosen = {measure.name: measure.scales[Units.INCHES].default for measure in recipe.measures}
        alike: dict[str, list[Options]] = {}
        for options in every_combination(recipe):
            # What an option sets of a measure the customer may change: it makes no kind of its own.
            alike.setdefault(str(given_values(recipe, Units.INCHES, chosen, options)), []).append(options)
        proofs = prove(recipe)
        return Spoiler(
            recipe,
            tuple((tuple(group), tuple(_sizes(recipe, group[0]))) for group in alike.values()),
            tuple(
                tuple(proof.options for proof in proofs if proof.truing is truing)
                for truing in recipe.truings
            ),
        )

    def missed(self) -> list[str]:
        """Return the slips that change what is cut, and that nothing shows with some of the options."""
        return [str(slip) for slip in self.slips() if self.is_missed(slip)]

    def slips(self) -> Iterator[Slip]:
        """Yield every slip that leaves the formula of its power, once."""
        powers = self.recipe.powers
        lengths = [measure.name for measure in self.recipe.measures if measure.power]
        for place, tree in self.formulas():
            power = kind_of(tree, powers)
            too_much = [Sum(tree, Name("seam allowance"))] if power else []
            made = {spell(wrong): wrong for wrong in (*slips(tree, lengths), *too_much)}
            for text, wrong in made.items():
                if text != spell(tree) and _power(wrong, powers) == power:
                    yield Slip(place, wrong)

    def formulas(self) -> Iterator[tuple[Place, Node]]:
        """Yield the formulas of what is cut, and of every amount that those come to read."""
        for piece in self.recipe.pieces:
            for name, formula in self.recipe.lengths_of_pieces[piece.name].items():
                yield Place(name, piece.name), formula.tree
            yield Place(f"number of {piece.name}", piece.name), piece.cut.tree
            for name, formula in _unnamed_corners(piece).items():
                yield Place(name, piece.name), formula.tree
        for material in self.recipe.materials:
            if material.amount is not None:
                yield Place(f"length of {material.name}"), material.amount.tree
        feeds = self.feeds()
        for amount in self.recipe.amounts:
            if amount.name in feeds:
                yield Place(amount.name), amount.formula.tree

    def feeds(self) -> set[str]:
        """Return every name that something cut comes to read."""
        definitions = self.recipe.definitions
        bought = [material.amount for material in self.recipe.materials if material.amount is not None]
        cut = [formula for piece in self.recipe.pieces for formula in _cuts(piece)]
        waiting = [name for formula in (*cut, *bought) for name in names(formula.tree)]
        found: set[str] = set()
        while waiting:
            name = waiting.pop()
            if name not in found:
                found.add(name)
                waiting += names(definitions[name].tree) if name in definitions else ()
        return found

    def is_missed(self, slip: Slip) -> bool:
        spoiled = _spoiled(self.recipe, slip)
        order = _after(self.recipe, slip.place.name)
        return any(self._is_missed_with(group, sizes, spoiled, order) for group, sizes in self.groups)

    def _is_missed_with(
        self, group: Sequence[Options], sizes: Sequence[Size], spoiled: Recipe, order: Sequence[str]
    ) -> bool:
        """Whether some of these options cut something that the slip changes and nothing shows it."""
        changed: list[When] = []
        shown: list[Options | When] = []
        for size in sizes:
            values = dict(size.values)
            try:
                for name in order:
                    values[name] = spoiled.definitions[name].value(values)
            except TooBigError:
                continue
            changed += self._changed(spoiled, size.values, values)
            shown += self._unequal(values)
            if size.is_shown:
                shown += _refused(self.recipe, spoiled, size.values, values)
            if changed and not any(_is_blind(options, changed, shown) for options in group):
                return False
        return any(_is_blind(options, changed, shown) for options in group)

    def _changed(
        self, spoiled: Recipe, before: Mapping[str, Value], after: Mapping[str, Value]
    ) -> Iterator[When]:
        for piece, wrong in zip(self.recipe.pieces, spoiled.pieces, strict=True):
            if any(
                one.value(before) != other.value(after)
                for one, other in zip(_cuts(piece), _cuts(wrong), strict=True)
            ):
                yield piece.when
        for material, other in zip(self.recipe.materials, spoiled.materials, strict=True):
            if (
                material.amount is not None
                and other.amount is not None
                and material.amount.value(before) != other.amount.value(after)
            ):
                yield material.when

    def _unequal(self, values: Mapping[str, Value]) -> Iterator[Options]:
        for truing, exists in zip(self.recipe.truings, self.exists, strict=True):
            one, other = _measured(truing.one, values), _measured(truing.other, values)
            if one is not None and other is not None and compare(one, other) != 0:
                yield from exists


def _is_blind(options: Options, changed: Sequence[When], shown: Sequence[Options | When]) -> bool:
    return any(when.holds(options) for when in changed) and not any(
        each.holds(options) if isinstance(each, When) else each.items() <= options.items() for each in shown
    )


def _refused(
    right: Recipe, spoiled: Recipe, before: Mapping[str, Value], after: Mapping[str, Value]
) -> Iterator[When]:
    """Yield when a size is refused that was not: by a check, or because a piece cannot be cut."""
    for check in right.checks:
        if check.level == "refuse" and check.holds.value(before) is True is not check.holds.value(after):
            yield check.when
    for piece in spoiled.pieces:
        edges = [after[edge] for edge in spoiled.edges[piece.name]]
        if (
            not is_count(piece.cut.value(after))
            or not all(is_length(edge) for edge in edges)
            or outline_fault(spoiled, piece, after)
        ):
            yield piece.when


def _spoiled(recipe: Recipe, slip: Slip) -> Recipe:
    wrong = Formula(slip.wrong)
    if not slip.place.piece:
        amounts = (
            replace(each, formula=wrong) if each.name == slip.place.name else each for each in recipe.amounts
        )
        materials = (
            replace(each, amount=wrong) if f"length of {each.name}" == slip.place.name else each
            for each in recipe.materials
        )
        return replace(recipe, amounts=tuple(amounts), materials=tuple(materials))
    pieces = (
        _spoiled_piece(recipe, piece, slip.place.name, wrong) if piece.name == slip.place.piece else piece
        for piece in recipe.pieces
    )
    return replace(recipe, pieces=tuple(pieces))


def _spoiled_piece(recipe: Recipe, piece: Piece, name: str, wrong: Formula) -> Piece:
    width, height = recipe.edges[piece.name]
    if name == width:
        return replace(piece, width=wrong)
    if name == height:
        return replace(piece, height=wrong)
    if name == f"number of {piece.name}":
        return replace(piece, cut=wrong)
    corners = []
    for number, corner in enumerate(piece.outline, 1):
        across, down = _corner_names(piece, number)
        corners.append(
            replace(
                corner,
                across=wrong if name == across else corner.across,
                down=wrong if name == down else corner.down,
            )
        )
    return replace(piece, outline=tuple(corners))


def _corner_names(piece: Piece, number: int) -> tuple[str, str]:
    """What formulas call where a corner lies; if none does, its number."""
    return corner_names(piece.name, piece.outline[number - 1].name or f"corner {number}")


def _unnamed_corners(piece: Piece) -> dict[str, Formula]:
    return {
        name: formula
        for number, corner in enumerate(piece.outline, 1)
        if not corner.name
        for name, formula in zip(_corner_names(piece, number), (corner.across, corner.down), strict=True)
    }


def _cuts(piece: Piece) -> tuple[Formula, ...]:
    """Every formula of what is cut."""
    corners = (side for corner in piece.outline for side in (corner.across, corner.down))
    return (piece.cut, piece.width, piece.height, *corners)


def _after(recipe: Recipe, spoiled: str) -> list[str]:
    """Return the names to be worked out anew, each after those it reads."""
    anew: list[str] = []
    for name, formula in recipe.worked_out:
        if name == spoiled or names(formula.tree) & set(anew):
            anew.append(name)
    return anew


def _sizes(recipe: Recipe, options: Options) -> Iterator[Size]:
    for units in Units:
        yield _size(recipe, units, {}, options, is_shown=True)
        for named in recipe.sizes:
            yield _size(recipe, units, named.values[units], options, is_shown=True)
        for place in range(1, SIZES_TRIED + 1):
            scattered = {
                measure.name: scale.least
                + (place * (2 * number + 3)) % ((scale.most - scale.least) // scale.step + 1) * scale.step
                for number, measure in enumerate(recipe.measures)
                for scale in [measure.scales[units]]
            }
            yield _size(recipe, units, scattered, options, is_shown=False)


def _size(
    recipe: Recipe, units: Units, measures: Mapping[str, Fraction], options: Options, *, is_shown: bool
) -> Size:
    return Size(all_values(recipe, units, measures, options), is_shown)


def _measured(formula: Formula, values: Mapping[str, Value]) -> Measured | None:
    try:
        value = formula.value(values)
    except TooBigError:
        return None
    assert not isinstance(value, bool)
    return value


def _power(tree: Node, powers: Mapping[str, int]) -> int | None:
    try:
        found = kind_of(tree, powers)
    except FormulaError:
        return None
    return None if found == YES_NO else found
