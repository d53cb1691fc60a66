"""What is wrong with a recipe as a whole, when each of its parts can be read."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from functools import cache, partial

from patterns.drafting.errors import DraftingError
from patterns.drafting.formulas.values import Value
from patterns.drafting.ordering import sorted_out
from patterns.drafting.outline_faults import Fault
from patterns.drafting.outlines import LEAST_CORNERS
from patterns.drafting.recipe import ALWAYS, Piece, Recipe, When
from patterns.drafting.sizing import is_length, outline_fault
from patterns.drafting.units import Units

from .keys import Key, shown
from .reading import Reading


def look_for_circles(reading: Reading, recipe: Recipe) -> None:
    """Note amounts and lengths of pieces that need each other."""
    for circle in sorted_out(_reads(reading, recipe))[1]:
        path = shown_path([*circle, circle[0]])
        mend = "Write one of them without the others." if len(circle) > 1 else "Write it without itself."
        reading.wrong(_key_of(reading, circle[0]), f"This goes round in a circle: {path}. {mend}")


def shown_path(path: Iterable[str]) -> str:
    """Return names with arrows between; of a long way round, the beginning and the end."""
    listed = list(path)
    return " → ".join(listed if len(listed) <= 12 else [*listed[:6], "…", *listed[-5:]])


def _reads(reading: Reading, recipe: Recipe) -> Mapping[str, frozenset[str]]:
    return {name: reading.names_in(formula) for name, formula in recipe.definitions.items()}


def _key_of(reading: Reading, name: str) -> Key:
    """Where the formula of a name stands: an edge's within its piece, a corner's within its outline."""
    key = reading.places[name]
    return (*key, name.rpartition(" ")[2]) if key[0] == "pieces" else key


def look_for_what_never_exists(reading: Reading, recipe: Recipe) -> None:
    """Note truings for which the options would have to be chosen in two ways at once."""
    reached = _pieces_reached(reading, recipe)
    for place, truing in enumerate(recipe.truings):
        wanted = reading.names_in(truing.one) | reading.names_in(truing.other)
        met = frozenset().union(*(reached.get(name, ()) for name in wanted))
        needed = [piece for piece in recipe.pieces if piece.name in met]
        option = clashing_option([truing.when, *(piece.when for piece in needed)])
        if option is not None:
            listed = "” and “".join(piece.name for piece in needed if option in piece.when.names)
            message = f"No choice of “{option}” lets this truing exist: it reads “{shown(listed)}”."
            reading.wrong(("truings", place), f"{message} Write one for pieces that are cut together.")


def _pieces_reached(reading: Reading, recipe: Recipe) -> Mapping[str, frozenset[str]]:
    """For each length of a piece and each amount, the pieces that it speaks of: also through amounts.

    Not those that an edge's own formula reads: an edge has its value even if its piece is not cut.
    """
    reached = {
        name: frozenset([piece]) for piece, lengths in recipe.lengths_of_pieces.items() for name in lengths
    }
    reads = {amount.name: reading.names_in(amount.formula) for amount in recipe.amounts}
    for name in sorted_out(reads)[0]:
        reached.setdefault(name, frozenset().union(*(reached.get(read, ()) for read in reads[name])))
    return reached


def clashing_option(conditions: Iterable[When]) -> str | None:
    """Return an option of which no choice fulfils all the conditions, or None if all can hold at once."""
    allowed: dict[str, set[str]] = {}
    for condition in conditions:
        for option, choices in condition.options:
            allowed[option] = allowed.get(option, set(choices)) & set(choices)
            if not allowed[option]:
                return option
    return None


def look_for_values(reading: Reading, recipe: Recipe) -> None:
    """Note formulas that grow out of bounds at the default size, and counts and boxes that are none."""
    defined = {_key_of(reading, name) for name in recipe.definitions}
    for units in Units:
        values = _known_values(reading, recipe, units, ALWAYS)
        for key in reading.sound:
            for value in () if key in defined else _values(reading, key, values):
                if _is_number_of_pieces(key) and not _is_count(value):
                    reading.wrong(
                        key, "This is not a whole number above 0 at the default size. Write one that is."
                    )
                if key[0] == "holds" and not _is_something(value):
                    reading.wrong(key, "Nothing fits in at the default size. Write what can be filled.")


def look_for_outlines(reading: Reading, recipe: Recipe) -> None:
    """Note outlines that could not be cut at the default size."""
    known = cache(partial(_known_values, reading, recipe))
    for piece in recipe.pieces:
        key = reading.places.get(recipe.edges[piece.name][0], ())
        if len(piece.outline) >= LEAST_CORNERS and _is_sound(reading, key, piece):
            for units in Units:
                for found in _outline_faults(reading, recipe, piece, known(units, piece.when)):
                    message = f"At the default size, the outline {found.says}. {found.mend}"
                    reading.wrong((*key, "outline", found.corner), message)


def _is_sound(reading: Reading, key: Key, piece: Piece) -> bool:
    """Whether every formula of a piece's outline can be worked out, as far as reading it tells."""
    corners = ((*key, "outline", place) for place in range(len(piece.outline)))
    return all((*corner, side) in reading.sound for corner in corners for side in ("across", "down"))


def _outline_faults(
    reading: Reading, recipe: Recipe, piece: Piece, values: Mapping[str, Value]
) -> Iterator[Fault]:
    """The outline's fault, if everything that it reads has a value."""
    edges = recipe.edges[piece.name]
    sides = [side for corner in piece.outline for side in (corner.across, corner.down)]
    if not values.keys() >= frozenset(edges).union(*map(reading.names_in, sides)):
        return
    try:
        found = (
            outline_fault(recipe, piece, values) if all(is_length(values[edge]) for edge in edges) else None
        )
    except DraftingError:
        return  # a number out of bounds, which is noted already
    yield from () if found is None else (found,)


def _known_values(reading: Reading, recipe: Recipe, units: Units, when: When) -> dict[str, Value]:
    """What every name stands for at the default size, as far as it can be worked out.

    when: options take their defaults where those fulfil it, else the first choices that do.
    """
    values: dict[str, Value] = {**reading.values[units]}
    for option, choices in when.options:
        if recipe.option(option).default not in choices and choices:
            values |= {
                each.name: each.values[units] for each in recipe.option(option).choice(choices[0]).sets
            }
    for name in sorted_out(_reads(reading, recipe))[0]:
        for value in _values(reading, _key_of(reading, name), values):
            values[name] = value
    return values


def _values(reading: Reading, key: Key, values: Mapping[str, Value]) -> Iterator[Value]:
    """The values of a key's formulas, as far as they can be worked out."""
    for formula in reading.sound.get(key, ()):
        if reading.names_in(formula) <= values.keys():
            try:
                yield formula.value(values)
            except DraftingError as error:
                reading.wrong(key, f"At the default size: {error}")


def _is_number_of_pieces(key: Key) -> bool:
    return len(key) == 3 and key[0] == "pieces" and key[2] == "cut"


def _is_something(value: Value) -> bool:
    return value is not None and value > 0


def _is_count(value: Value) -> bool:
    return isinstance(value, Fraction) and value.denominator == 1 and value > 0
