"""The measures and constants of a recipe text."""

from fractions import Fraction
from typing import Literal, get_args

from patterns.drafting.recipe import Constant, Measure, Role, Scale
from patterns.drafting.units import Units

from .table import Names, Table

SYSTEMS = tuple(units.value for units in Units)
_SCALE = ("least", "most", "default", "step")
# Of a measure whose range cannot be read; nothing lies outside it.
_UNKNOWN = Scale(Fraction(0), Fraction(0), Fraction(0), Fraction(0))


def read_measures(top: Table) -> tuple[Measure, ...]:
    """Read the measures, and take their names and defaults into use."""
    if top.data.get("measures") == {}:
        top.wrong("There is no measure here. A pattern needs one at least.", "measures")
    return tuple(_measure(name, table) for name, table in top.named_tables("measures", Names.OF_FORMULAS))


def _measure(name: str, table: Table) -> Measure:
    power = _power(table)
    table.reading.declare(name, table.key, power)
    scales = dict.fromkeys(Units, _UNKNOWN)
    for units in Units if power is not None else ():
        key = units.value if power else "number"
        scale = _scale(table.table(key), units if power else None) if key in table.data else None
        if scale:
            scales[units] = scale
            table.reading.values[units][name] = scale.default
    return Measure(name, power or 0, table.one_of("role", get_args(Role)), table.string("says"), scales)


def _power(table: Table) -> Literal[0, 1] | None:
    """Whether the measure is a number or a length: its range says so; None if it does not."""
    given = [system for system in SYSTEMS if system in table.data]
    is_number = "number" in table.data
    if is_number and given:
        listed = "” and “".join(given)
        table.wrong(f"A measure is a bare number or a length. Take out “number”, or “{listed}”.")
    if not is_number and not given:
        table.wrong(
            "The range is missing. Write in = { … } and cm = { … }, or number = { … } for a bare number."
        )
    needs_both = SYSTEMS if given and not is_number else ()
    table.only(("role", "says", *needs_both), (*SYSTEMS, "number"))
    if is_number == bool(given):
        return None
    return 0 if is_number else 1


def _scale(table: Table, units: Units | None) -> Scale | None:
    """A range of lengths in `units`, or of bare numbers; None if it cannot be read."""
    table.only(_SCALE)
    least, most, default, step = (table.numeral(key, units) for key in _SCALE)
    typed = {key: str(table.data.get(key, "")).strip() for key in _SCALE}
    if step is not None and step <= 0:
        table.wrong(f"The step is {typed['step']}. Write one above 0.", "step")
    if least is not None and most is not None and least > most:
        table.wrong(
            f"The least, {typed['least']}, is more than the most, {typed['most']}. Exchange them.", "least"
        )
    elif default is not None and not (least or default) <= default <= (default if most is None else most):
        message = (
            f"The default, {typed['default']}, lies outside the range, {typed['least']} to {typed['most']}."
        )
        table.wrong(f"{message} Move one of them.", "default")
    if least is None or most is None or default is None or step is None or least > most:
        return None
    return Scale(least, most, default, step)


def read_constants(top: Table) -> tuple[Constant, ...]:
    """Read the constants, and take their names and values into use."""
    table = top.table("constants")
    found = []
    for name, raw in table.names(Names.OF_FORMULAS):
        value = constant(name, table, raw)
        table.reading.declare(name, (*table.key, raw), value.power if value else None)
        if value:
            found.append(value)
            for units in Units:
                table.reading.values[units].setdefault(name, value.values[units])
    return tuple(found)


def constant(name: str, table: Table, raw: str) -> Constant | None:
    """Read a bare number in quotes, or a length for each unit system; None if it is neither."""
    if not isinstance(table.data[raw], dict):
        number = table.numeral(raw, None)
        return None if number is None else Constant(name, 0, dict.fromkeys(Units, number))
    inner = table.table(raw).only(SYSTEMS)
    lengths = {units: inner.numeral(units.value, units) for units in Units}
    known = {units: length for units, length in lengths.items() if length is not None}
    return Constant(name, 1, known) if len(known) == len(Units) else None
