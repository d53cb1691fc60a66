"""Recipe → recipe text, in one spelling: reading it gives an equal recipe, and writing that the same text."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.lengths import typed
from patterns.drafting.recipe import (
    Check,
    Constant,
    Corner,
    Mark,
    Material,
    Measure,
    NamedSize,
    Option,
    OptionChoice,
    Piece,
    Recipe,
    Scale,
    Step,
    Text,
    Truing,
    When,
)
from patterns.drafting.units import Units
from patterns.drafting.work import LISTS, VERBS, Act

from .toml import Table, Value, tables_text

_LENGTH, _NUMBER = 1, 0
_DIMENSIONS = ("width", "height", "depth")


def write_recipe(recipe: Recipe) -> str:
    """Return the canonical text of a recipe: keys in a fixed order, ranges in braces, formulas spelled.

    A recipe that was read loses nothing in it but comments and the spelling of what means the same.
    """
    return tables_text(_tables(recipe))


def _tables(recipe: Recipe) -> Iterator[Table]:
    yield Table((), _top(recipe))
    yield Table(("finished",), _finished(recipe))
    if recipe.holds:
        yield Table(("holds",), _formulas(recipe.holds._fields, recipe.holds))
    yield from (Table(("measures", measure.name), _measure(measure)) for measure in recipe.measures)
    yield from _single("constants", {constant.name: _constant(constant) for constant in recipe.constants})
    for option in recipe.options:
        yield from _option(option)
    yield from _single("amounts", {amount.name: str(amount.formula) for amount in recipe.amounts})
    for piece in recipe.pieces:
        yield from _piece(piece)
    yield from _listed("truings", map(_truing, recipe.truings))
    yield from _listed("checks", map(_check, recipe.checks))
    yield from (Table(("materials", material.name), _material(material)) for material in recipe.materials)
    yield from _listed("tells", ({"says": _text(tell.says), **_when(tell.when)} for tell in recipe.tells))
    for step in recipe.steps:
        yield from _step(step)
    yield from (
        Table(("cautions", each.name), {"says": each.says, **_when(each.when)}) for each in recipe.cautions
    )
    yield from (Table(("sizes", each.name), _size(each, recipe)) for each in recipe.sizes)


def _single(name: str, values: dict[str, Value]) -> Iterator[Table]:
    """A table that is left out when it is empty."""
    if values:
        yield Table((name,), values)


def _listed(name: str, tables: Iterable[dict[str, Value]]) -> Iterator[Table]:
    return (Table((name,), values, is_listed=True) for values in tables)


def _given(**values: str) -> dict[str, Value]:
    """What is not empty."""
    return {name: value for name, value in values.items() if value}


def _top(recipe: Recipe) -> dict[str, Value]:
    return {
        "title": recipe.title,
        "language": recipe.language,
        "summary": recipe.summary,
        "skill": recipe.skill,
        "time": recipe.time,
        "revised": recipe.revised.isoformat(),
        **_given(note=recipe.note),
    }


def _finished(recipe: Recipe) -> dict[str, Value]:
    return {"form": recipe.form, **_formulas(_DIMENSIONS, recipe.finished)}


def _formulas(keys: Iterable[str], formulas: Iterable[Formula | None]) -> dict[str, Value]:
    return {key: str(formula) for key, formula in zip(keys, formulas, strict=True) if formula is not None}


def _measure(measure: Measure) -> dict[str, Value]:
    ranges: dict[str, Value] = {units.value: _scale(measure.scales[units], _LENGTH, units) for units in Units}
    if measure.power == _NUMBER:
        ranges = {"number": _scale(measure.scales[Units.INCHES], _NUMBER, Units.INCHES)}
    return {"role": measure.role, "says": measure.says, **ranges}


def _scale(scale: Scale, power: int, units: Units) -> dict[str, Value]:
    ends = {"least": scale.least, "most": scale.most, "default": scale.default, "step": scale.step}
    return {key: typed(value, power, units) for key, value in ends.items()}


def _constant(constant: Constant) -> Value:
    if constant.power == _NUMBER:
        return typed(constant.values[Units.INCHES], _NUMBER, Units.INCHES)
    return {units.value: typed(constant.values[units], _LENGTH, units) for units in Units}


def _option(option: Option) -> Iterator[Table]:
    yield Table(("options", option.name), {"says": option.says, "default": option.default})
    for choice in option.choices:
        yield Table(("options", option.name, "choices", choice.name), _choice(choice))


def _choice(choice: OptionChoice) -> dict[str, Value]:
    sets: dict[str, Value] = {constant.name: _constant(constant) for constant in choice.sets}
    return {**_given(says=choice.says), **({"sets": sets} if sets else {})}


def _piece(piece: Piece) -> Iterator[Table]:
    upright: dict[str, Value] = {} if piece.upright is None else {"upright": _choices(piece.upright)}
    values = {
        "from": piece.material,
        **_formulas(("cut", "width", "height"), (piece.cut, piece.width, piece.height)),
        **_given(says=piece.says),
        **upright,
        **_when(piece.when),
    }
    yield Table(("pieces", piece.name), values)
    yield from (
        Table(("pieces", piece.name, "outline"), _corner(each), is_listed=True) for each in piece.outline
    )
    for mark in piece.marks:
        yield Table(("pieces", piece.name, "marks", mark.name), _mark(mark))


def _corner(corner: Corner) -> dict[str, Value]:
    return {
        **_formulas(("across", "down"), (corner.across, corner.down)),
        **_given(arc=corner.arc or "", name=corner.name),
    }


def _mark(mark: Mark) -> dict[str, Value]:
    places = (mark.down_from_top, mark.in_from_left, mark.start, mark.end, mark.inside)
    return {
        "kind": mark.kind,
        **_formulas(("down", "across", "from", "to", "inside"), places),
        **_given(says=mark.says),
        **_when(mark.when),
    }


def _truing(truing: Truing) -> dict[str, Value]:
    return {
        "says": truing.says,
        **_formulas(("one", "other"), (truing.one, truing.other)),
        **_when(truing.when),
    }


def _check(check: Check) -> dict[str, Value]:
    return {
        "level": check.level,
        "says": check.says,
        "holds": str(check.holds),
        "otherwise": _text(check.otherwise),
        **_when(check.when),
    }


def _material(material: Material) -> dict[str, Value]:
    return {
        "kind": material.kind,
        **_given(tint=material.tint or "", says=_text(material.says)),
        **_formulas(("amount",), (material.amount,)),
        **_when(material.when),
    }


def _step(step: Step) -> Iterator[Table]:
    lists: dict[str, Value] = {"shows": list(step.shows), "cautions": list(step.cautions)}
    values = {
        "title": step.title,
        "does": _text(step.does),
        **{name: listed for name, listed in lists.items() if listed},
        **_when(step.when),
    }
    yield Table(("steps",), values, is_listed=True)
    yield from (Table(("steps", "work"), _act(act), is_listed=True) for act in step.work)


def _act(act: Act) -> dict[str, Value]:
    names, amounts = dict(act.names), dict(act.amounts)
    values: dict[str, Value] = {}
    for key, kind in VERBS[act.verb].kinds.items():
        if key in names:
            values[key] = list(names[key]) if kind in LISTS else names[key][0]
        elif key in amounts:
            values[key] = str(amounts[key])
    return values


def _size(size: NamedSize, recipe: Recipe) -> dict[str, Value]:
    return {units.value: _row(size.values[units], units, recipe) for units in Units}


def _row(values: Mapping[str, Fraction], units: Units, recipe: Recipe) -> dict[str, Value]:
    return {name: typed(value, recipe.measure(name).power, units) for name, value in values.items()}


def _text(text: Text) -> str:
    return "".join(part if isinstance(part, str) else f"{{{part.formula}}}" for part in text)


def _when(when: When) -> dict[str, Value]:
    return {"when": _choices(when)} if when.options else {}


def _choices(when: When) -> Value:
    return {option: list(choices) for option, choices in when.options}
