"""Whether two formulas are the same for all values of their names: the proof behind a truing."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from graphlib import TopologicalSorter
from typing import Literal

from .atoms import Atoms, Bounds
from .names import names
from .normal import Assumed, Fork, Normal, NoValueError, Signs
from .polynomial import TooLongError
from .ratio import Ratio
from .tree import Difference, Node
from .tree_of import tree_of

# Each smaller-of can double the cases; a truing with three of them has 8. A case takes under 1 ms.
MOST_CASES = 256
"""How many orders of the things compared are gone through before a proof stays undecided."""
# Bringing one formula into normal form takes about as long as looking at this many inequalities.
EFFORT_OF_FORMULA = 5


@dataclass(frozen=True, slots=True)
class Identity:
    """What comes of comparing two formulas.

    result: `equal`: wherever both have a value, it is the same; `different`: they are different
    polynomials, or fractions of them, so that some values of the names tell them apart; else `undecided`.
    difference: one − other, shortened where that can be done; None if they are equal.
    """

    result: Literal["equal", "different", "undecided"]
    difference: Node | None = None


def identity(
    one: Node,
    other: Node,
    definitions: Mapping[str, Node],
    *,
    order: Iterable[str] = (),
    ranges: Mapping[str, Bounds] | None = None,
) -> Identity:
    """Compare two formulas.

    definitions: formulas of names that are to be expanded; any other name stands for every value it can have.
    order: names in the order in which the difference is to be written.
    ranges: least and most of names, in mm or bare: nothing is claimed outside.
    Raises FormulaError: a formula is yes or no. CycleError: a name is defined by itself.
    """
    reads = _reads(one, other, definitions)
    read = frozenset().union(names(one), names(other), *reads.values())
    needed = {name: definitions[name] for name in TopologicalSorter(reads).static_order() if name in reads}
    proof = _Proof(one, other, needed, Atoms([name for name in order if name in read], ranges))
    try:
        difference, is_proved = proof.in_one_go()
    except (TooLongError, NoValueError):
        return Identity("undecided", Difference(one, other))
    if is_proved or proof.in_all_cases():
        return Identity("equal")
    return Identity(proof.verdict(difference), proof.written(difference))


class _Proof:
    def __init__(self, one: Node, other: Node, definitions: Mapping[str, Node], atoms: Atoms) -> None:
        self.one = one
        self.other = other
        self.definitions = definitions
        self.atoms = atoms
        self.was_unsure = False
        self.unit = "mm"

    def in_one_go(self) -> tuple[Ratio, bool]:
        """Return the difference with every smaller-of left as it is, and whether that is shown to be 0."""
        signs = Signs(self.atoms)
        difference = self.difference(signs)
        is_zero = signs.is_zero(difference.numerator)
        self.was_unsure = signs.was_unsure
        return difference, is_zero

    def in_all_cases(self) -> bool:
        """Whether the difference is shown to be 0 however the things compared are ordered."""
        try:
            return self.was_unsure and self._is_zero_in_all_cases()
        except TooLongError:
            return False

    def _is_zero_in_all_cases(self) -> bool:
        cases: list[Assumed] = [()]
        has_value = False
        for _ in range(MOST_CASES):
            assumed = cases.pop()
            signs = Signs(self.atoms, assumed, may_fork=True)
            try:
                if not signs.is_zero(self.difference(signs).numerator):
                    return False
                has_value = True
            except Fork as fork:
                cases += [(*assumed, (fork.polynomial, False)), (*assumed, (fork.polynomial, True))]
            except NoValueError:
                pass  # nothing is claimed where there is no value
            if not cases:
                return has_value
        return False

    def difference(self, signs: Signs) -> Ratio:
        self.atoms.effort.spend(EFFORT_OF_FORMULA * len(self.definitions))
        normal = Normal(signs)
        for name, definition in self.definitions.items():
            normal.known[name] = normal.form(definition)
        difference = normal.form(self.one) - normal.form(self.other)
        self.unit = normal.unit or self.unit
        return Ratio(self.atoms.reduced(difference.numerator), difference.denominator)

    def written(self, difference: Ratio) -> Node:
        try:
            return tree_of(difference, self.atoms, self.unit)
        except TooLongError:
            return Difference(self.one, self.other)

    def verdict(self, difference: Ratio) -> Literal["different", "undecided"]:
        return "different" if self.atoms.is_plain(difference.numerator) else "undecided"


def _reads(one: Node, other: Node, definitions: Mapping[str, Node]) -> dict[str, list[str]]:
    """Return the names with a definition that two formulas come to read, each with what it reads itself."""
    reads: dict[str, list[str]] = {}
    waiting = sorted(names(one) | names(other))
    while waiting:
        name = waiting.pop()
        if name in definitions and name not in reads:
            reads[name] = sorted(names(definitions[name]))
            waiting += reads[name]
    return reads
