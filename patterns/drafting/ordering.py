"""In what order formulas that read each other can be computed. A circle among them has no answer."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from graphlib import CycleError, TopologicalSorter

from .errors import DraftingError
from .formulas.formula import Formula
from .formulas.names import names


class CircleError(DraftingError):
    """Formulas that read each other in a circle. circle: their names, the first again at the end."""

    def __init__(self, circle: Sequence[str]) -> None:
        self.circle = tuple(circle)
        path = " → ".join(f"“{name}”" for name in circle)
        super().__init__(f"{path} go round in a circle. Work one of them out from measures alone.")


def in_order(formulas: Mapping[str, Formula]) -> tuple[tuple[str, Formula], ...]:
    """Return the formulas so that each comes after those it reads. Raises CircleError."""
    reads = {name: names(formula.tree) & formulas.keys() for name, formula in formulas.items()}
    sorter = TopologicalSorter({name: sorted(read) for name, read in reads.items()})
    try:
        return tuple((name, formulas[name]) for name in sorter.static_order())
    except CycleError as error:
        circle = list(reversed(error.args[1]))
        raise CircleError(circle) from None


def sorted_out(reads: Mapping[str, Iterable[str]]) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """Return the names, each after those it reads, and the circles that leave some of them without a place.

    reads: for each name, the names that it reads; what is not a key itself is there already.
    A circle is given once round, its first name not repeated. Its names stand in the order too, somewhere.
    No name stands in two circles, so one that hides behind another shows when that is mended.
    Linear in names and what they read, whatever the text.

    >>> sorted_out({"a": ["b"], "b": [], "c": ["c"]})
    (('b', 'a', 'c'), (('c',),))
    """
    done: dict[str, None] = {}
    circles: list[tuple[str, ...]] = []
    circular: set[str] = set()
    for start in reads:
        path: dict[str, Iterator[str]] = {} if start in done else {start: iter(reads[start])}
        while path:
            name = next(reversed(path))
            following = next(path[name], None)
            if following is None:
                del path[name]
                done[name] = None
            elif following in path:
                if name not in circular and following not in circular:
                    found = _from(following, path)
                    circles += [found] if circular.isdisjoint(found) else []
                    circular.update(found)
            elif following in reads and following not in done:
                path[following] = iter(reads[following])
    return tuple(done), tuple(circles)


def _from(name: str, path: Iterable[str]) -> tuple[str, ...]:
    names_on_path = list(path)
    return tuple(names_on_path[names_on_path.index(name) :])
