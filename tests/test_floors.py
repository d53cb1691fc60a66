"""Which room may import which: an import never points up, and the pure rooms know no Django."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parent.parent
# From the ground up. What lies in studio/ below the patterns is named; the rest of it is above all.
FLOORS = (
    ("studio.env", "patterns.drafting"),
    ("patterns.cutting", "patterns.starters"),
    ("patterns.drawings",),
    ("patterns.documents",),
    ("studio.models", "studio.htmx", "studio.middleware", "studio.context", "studio.uploads"),
    ("patterns",),
    ("orders",),
    ("studio",),
)
PURE = ("patterns/drafting", "patterns/cutting", "patterns/drawings", "patterns/starters")
FILES = sorted(
    file.relative_to(PROJECT)
    for room in ("studio", "patterns", "orders")
    for file in (PROJECT / room).rglob("*.py")
    if "migrations" not in file.parts
)


def module(file: Path) -> str:
    return ".".join(file.with_suffix("").parts).removesuffix(".__init__")


def imports(file: Path) -> Iterator[str]:
    """Every module that the file imports, wherever in it, by its whole name."""
    package = module(file).split(".") if file.name == "__init__.py" else module(file).split(".")[:-1]
    for node in ast.walk(ast.parse((PROJECT / file).read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = package[: len(package) - node.level + 1] if node.level else []
            start = ".".join([*above, *([node.module] if node.module else [])])
            yield from (f"{start}.{alias.name}" for alias in node.names)


def floor(name: str) -> int | None:
    """The floor of a module: the one that names the longest part of it; None outside the house."""
    rooms = [(len(room), level) for level, rooms in enumerate(FLOORS) for room in rooms if within(name, room)]
    return max(rooms)[1] if rooms else None


def within(name: str, room: str) -> bool:
    return name == room or name.startswith(f"{room}.")


@pytest.mark.parametrize("file", FILES, ids=str)
def test_no_import_points_up(file):
    own = floor(module(file))
    assert own is not None
    higher = {name for name in imports(file) if (level := floor(name)) is not None and level > own}
    assert higher == set()


@pytest.mark.parametrize("file", [file for file in FILES if str(file).startswith(PURE)], ids=str)
def test_pure_rooms_know_no_django(file):
    assert [name for name in imports(file) if within(name, "django")] == []


def test_names_are_put_on_their_floors():
    assert floor("patterns.drafting.lengths.read_length") == floor("patterns.drafting") == 0
    assert floor("patterns.models") == floor("patterns.views.pattern_list")
    assert floor("studio.settings") > floor("orders.models") > floor("studio.models.Shop")
    assert floor("fractions.Fraction") is None
