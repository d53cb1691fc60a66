"""What a recipe text says with its names: truings, checks, materials, tells, steps, cautions, sizes."""

from fractions import Fraction
from typing import get_args

from patterns.drafting.formulas.dimensions import kind_words
from patterns.drafting.recipe import (
    Caution,
    Check,
    Level,
    Material,
    MaterialKind,
    Measure,
    NamedSize,
    Piece,
    Step,
    Tell,
    Tint,
    Truing,
)
from patterns.drafting.units import Units

from .measures import SYSTEMS
from .reading import CHECKED, LENGTH, MEASURED
from .table import Names, Table
from .work import WorkReader


def read_truings(top: Table) -> tuple[Truing, ...]:
    return tuple(_truing(table) for table in top.listed_tables("truings"))


def _truing(table: Table) -> Truing:
    table.only(("says", "one", "other"), ("when",))
    (one, one_kind), (other, other_kind) = (
        table.formula_and_kind(side, MEASURED) for side in ("one", "other")
    )
    if one_kind is not None and other_kind is not None and one_kind != other_kind:
        message = f"One side is {kind_words(one_kind)}, the other {kind_words(other_kind)}: they never agree."
        table.wrong(f"{message} Measure the same thing on both sides.", "other")
    return Truing(table.line("says"), one, other, table.when())


def read_checks(top: Table) -> tuple[Check, ...]:
    return tuple(_check(table) for table in top.listed_tables("checks"))


def _check(table: Table) -> Check:
    table.only(("level", "says", "holds", "otherwise"), ("when",))
    return Check(
        level=table.one_of("level", get_args(Level)),
        says=table.string("says"),
        holds=table.formula("holds", CHECKED),
        otherwise=table.text("otherwise"),
        when=table.when(),
    )


def read_materials(top: Table) -> tuple[Material, ...]:
    return tuple(_material(name, table) for name, table in top.named_tables("materials"))


def _material(name: str, table: Table) -> Material:
    table.only(("kind",), ("tint", "says", "amount", "when"))
    return Material(
        name=name,
        kind=table.one_of("kind", get_args(MaterialKind)),
        says=table.text("says"),
        amount=table.maybe_formula("amount", LENGTH),
        tint=table.maybe_one_of("tint", get_args(Tint)),
        when=table.when(),
    )


def read_tells(top: Table) -> tuple[Tell, ...]:
    return tuple(_tell(table) for table in top.listed_tables("tells"))


def _tell(table: Table) -> Tell:
    table.only(("says",), ("when",))
    return Tell(table.text("says"), table.when())


def read_steps(top: Table, pieces: tuple[Piece, ...]) -> tuple[Step, ...]:
    acts = WorkReader(pieces, top.data.get("steps"))
    return tuple(_step(table, acts) for table in top.listed_tables("steps"))


def _step(table: Table, acts: WorkReader) -> Step:
    table.only(("title", "does"), ("shows", "cautions", "when", "work"))
    return Step(
        title=table.line("title"),
        does=table.text("does"),
        shows=table.known_names("shows", "piece", table.reading.pieces),
        cautions=table.known_names("cautions", "caution", table.reading.cautions),
        when=table.when(),
        work=tuple(filter(None, map(acts.read, table.listed_tables("work")))),
    )


def read_cautions(top: Table) -> tuple[Caution, ...]:
    return tuple(_caution(name, table) for name, table in top.named_tables("cautions"))


def _caution(name: str, table: Table) -> Caution:
    table.only(("says",), ("when",))
    return Caution(name, table.string("says"), table.when())


def read_sizes(top: Table, measures: tuple[Measure, ...]) -> tuple[NamedSize, ...]:
    by_name = {measure.name: measure for measure in measures}
    return tuple(_size(name, table, by_name) for name, table in top.named_tables("sizes", Names.AS_WRITTEN))


def _size(name: str, table: Table, measures: dict[str, Measure]) -> NamedSize:
    table.only(SYSTEMS)
    values = {units: _row(table.table(units.value), units, measures) for units in Units}
    inches, centimetres = (values[units] for units in Units)
    for system, mine, others in (("in", inches, centimetres), ("cm", centimetres, inches)):
        missing = [measure for measure in others if measure not in mine]
        if missing and system in table.data:
            table.wrong(f"“{'”, “'.join(missing)}” stands in one unit system only. Write it in both.", system)
    return NamedSize(name, values)


def _row(table: Table, units: Units, measures: dict[str, Measure]) -> dict[str, Fraction]:
    """The measures of one size in one unit system; what cannot be read counts as 0."""
    row = {}
    for name, raw in table.names():
        if name not in measures:
            table.reading.unknown((*table.key, raw), "measure", name, measures)
            continue
        measure, scale = measures[name], measures[name].scales[units]
        value = table.numeral(raw, units if measure.power else None)
        row[name] = value or Fraction(0)
        if value is not None and scale.step and not scale.least <= value <= scale.most:
            message = f"{table.data[raw]} lies outside the range of the measure “{name}”. Move one of them."
            table.wrong(message, raw)
    return row
