"""The amounts, pieces, outlines and marks of a recipe text."""

from collections.abc import Sequence
from typing import get_args

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.ordering import sorted_out
from patterns.drafting.outlines import LEAST_CORNERS, Turn
from patterns.drafting.recipe import (
    Amount,
    Corner,
    Mark,
    MarkKind,
    Measure,
    Piece,
    corner_names,
    edge_names,
)

from .names import name_mistake, tidied
from .reading import LENGTH, MEASURED, NUMBER, Reading
from .table import Names, Table

EDGES = ("width", "height")
# At the left or the top edge itself: 0 of anything, so it needs no unit.
_ON_THE_EDGE = "0"


def declare_edges(top: Table, measures: Sequence[Measure]) -> None:
    """Take the names of every piece's width and height into use, and those of its named corners."""
    measured = {measure.name for measure in measures}
    for piece, raw in top.table("pieces").names(Names.OF_FORMULAS):
        key = ("pieces", raw)
        edges = edge_names(piece, measured)
        if not name_mistake(piece) and (message := name_mistake(edges[1])):
            top.reading.wrong(key, message)
        for edge in edges:
            top.reading.declare(edge, key, 1)
        _declare_corners(top.reading, piece, Table(top.reading, key, _tables_in(top, raw)))


def _tables_in(top: Table, raw: str) -> dict[str, object]:
    """The keys of one piece; what is wrong with them is noted when the piece is read."""
    found = top.data.get("pieces")
    piece = found.get(raw) if isinstance(found, dict) else None
    return piece if isinstance(piece, dict) else {}


def _declare_corners(reading: Reading, piece: str, table: Table) -> None:
    corners = table.data.get("outline")
    for place, corner in enumerate(corners if isinstance(corners, list) else ()):
        word = corner.get("name") if isinstance(corner, dict) else None
        if isinstance(word, str) and word.strip():
            key = (*table.key, "outline", place)
            names = corner_names(piece, tidied(word))
            if not name_mistake(piece) and (message := name_mistake(names[0])):
                reading.wrong((*key, "name"), message)
            for name in names:
                reading.declare(name, key, 1)


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
    table.only(("from", "cut", *EDGES), ("outline", "marks", "says", "upright", "when"))
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
        outline=_outline(table),
    )


def _outline(table: Table) -> tuple[Corner, ...]:
    corners = tuple(_corner(corner) for corner in table.listed_tables("outline"))
    if isinstance(table.data.get("outline"), list) and len(corners) < LEAST_CORNERS:
        message = f"An outline has {LEAST_CORNERS} corners or more; this one has {len(corners)}."
        table.wrong(f"{message} Write the others, or leave the outline out for a rectangle.", "outline")
    return corners


def _corner(table: Table) -> Corner:
    table.only(("across", "down"), ("arc", "name"))
    return Corner(
        across=_place(table, "across"),
        down=_place(table, "down"),
        arc=table.maybe_one_of("arc", get_args(Turn)),
        name=tidied(table.line("name")),
    )


def _place(table: Table, name: str) -> Formula:
    """Read how far a corner lies from an edge: a length, or 0 for the edge itself."""
    words = table.data.get(name)
    on_the_edge = isinstance(words, str) and words.strip() == _ON_THE_EDGE
    return table.formula(name, NUMBER if on_the_edge else LENGTH)


def _mark(name: str, table: Table) -> Mark:
    table.only(("kind",), ("down", "across", "from", "to", "inside", "says", "when"))
    down, across, start, end, inside = (
        table.maybe_formula(key, LENGTH) for key in ("down", "across", "from", "to", "inside")
    )
    if not {"down", "across", "inside"} & table.data.keys():
        table.wrong(
            "The place is missing. Write down, for a line across the piece, across, for a line down it, or "
            "inside, for one all round it."
        )
    if "inside" in table.data and {"down", "across", "from", "to"} & table.data.keys():
        table.wrong("With inside this is a line all round the piece. Take the other places out.")
    if {"down", "across"} <= table.data.keys() and {"from", "to"} & table.data.keys():
        table.wrong("With down and across this is a point, which has no ends. Take out “from” and “to”.")
    kind = table.one_of("kind", get_args(MarkKind))
    return Mark(name, kind, down, across, start, end, table.string("says"), table.when(), inside)
