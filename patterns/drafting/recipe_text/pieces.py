"""The amounts, pieces and marks of a recipe text."""

from collections.abc import Sequence
from typing import get_args

from patterns.drafting.ordering import sorted_out
from patterns.drafting.recipe import Amount, Mark, MarkKind, Measure, Piece, edge_names

from .names import name_mistake
from .reading import LENGTH, MEASURED, NUMBER, Reading
from .table import Names, Table

EDGES = ("width", "height")


def declare_edges(top: Table, measures: Sequence[Measure]) -> None:
    """Take the names of every piece's width and height into use."""
    measured = {measure.name for measure in measures}
    for piece, raw in top.table("pieces").names(Names.OF_FORMULAS):
        key = ("pieces", raw)
        edges = edge_names(piece, measured)
        if not name_mistake(piece) and (message := name_mistake(edges[1])):
            top.reading.wrong(key, message)
        for edge in edges:
            top.reading.declare(edge, key, 1)


def read_amounts(top: Table) -> tuple[Amount, ...]:
    """Read the amounts, which may read each other in any order, and take their names and kinds into use."""
    table = top.table("amounts")
    reading = table.reading
    found = {}
    for name, raw in table.names(Names.OF_FORMULAS):
        key = (*table.key, raw)
        is_new = reading.declare(name, key, None)
        words = table.string(raw)
        if words.strip() and is_new:
            found[name] = (key, reading.read(key, words))
    order, _ = sorted_out(
        {name: reading.names_in(formula) & found.keys() for name, (_, formula) in found.items()}
    )
    for name in order:
        reading.kinds[name] = reading.checked(*found[name], MEASURED)
    return tuple(Amount(name, _power(reading, name), formula) for name, (_, formula) in found.items())


def _power(reading: Reading, name: str) -> int:
    kind = reading.kinds[name]
    return kind if isinstance(kind, int) else 0


def read_pieces(top: Table) -> tuple[Piece, ...]:
    return tuple(_piece(name, table) for name, table in top.named_tables("pieces"))


def _piece(name: str, table: Table) -> Piece:
    table.only(("from", "cut", *EDGES), ("marks", "says", "upright", "when"))
    return Piece(
        name=name,
        material=table.known_name("from", "material", table.reading.materials),
        cut=table.formula("cut", NUMBER),
        width=table.formula("width", LENGTH),
        height=table.formula("height", LENGTH),
        marks=tuple(_mark(mark, inner) for mark, inner in table.named_tables("marks")),
        says=table.string("says"),
        upright=table.when("upright") if "upright" in table.data else None,
        when=table.when(),
    )


def _mark(name: str, table: Table) -> Mark:
    table.only(("kind",), ("down", "across", "from", "to", "says", "when"))
    down, across, start, end = (table.maybe_formula(key, LENGTH) for key in ("down", "across", "from", "to"))
    if not {"down", "across"} & table.data.keys():
        table.wrong(
            "The place is missing. Write down, for a line across the piece, or across, for a line down it."
        )
    if {"down", "across"} <= table.data.keys() and {"from", "to"} & table.data.keys():
        table.wrong("With down and across this is a point, which has no ends. Take out “from” and “to”.")
    kind = table.one_of("kind", get_args(MarkKind))
    return Mark(name, kind, down, across, start, end, table.string("says"), table.when())
