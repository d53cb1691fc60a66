"""What kind of thing a formula gives: a number, a length, an area, a volume, or yes or no.

Everything that is wrong is found in one walk; where a part is wrong, what stands round it is not blamed.
"""

from collections.abc import Mapping
from typing import Literal, assert_never

from patterns.drafting.errors import FormulaError, Mistake
from patterns.drafting.spelling import nearest_spelling

from .spell import spell, spell_number
from .tree import (
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

YES_NO: Literal["yes or no"] = "yes or no"
Kind = int | Literal["yes or no"]
MOST_POWER = 3
_WORDS = {0: "a bare number", 1: "a length", 2: "an area", 3: "a volume", YES_NO: "yes or no"}


def kind_words(kind: Kind) -> str:
    """Return a kind in words: `a length`."""
    return _WORDS[kind]


def kind_of(node: Node, kinds: Mapping[str, Kind | None]) -> Kind:
    """Return what the formula gives: 0 to 3 for a number, length, area or volume, or YES_NO.

    kinds: of every name that may be read; None for one that is wrong itself: who reads it is not
    blamed.
    Raises FormulaError with every mistake: unknown names (the nearest by spelling offered), mixed kinds.
    """
    walk = _Walk(kinds)
    kind = walk.kind(node)
    if walk.mistakes or kind is None:
        raise FormulaError(tuple(sorted(walk.mistakes, key=lambda mistake: mistake.column)))
    return kind


class _Walk:
    """One walk over a tree; None is the kind of what is already known to be wrong."""

    def __init__(self, kinds: Mapping[str, Kind | None]) -> None:
        self.kinds = kinds
        self.mistakes: list[Mistake] = []

    def wrong(self, node: Node, message: str) -> None:
        self.mistakes.append(Mistake(message, node.at))

    def kind(self, node: Node) -> Kind | None:
        match node:
            case Number(_, unit):
                return 1 if unit else 0
            case Pi():
                return 0
            case Name(text):
                return self.named(node, text)
            case Negative(of):
                return self.measured(of, "taken from nothing")
            case Sum() | Difference():
                return self.like(node, (node.left, node.right), _sign(node))
            case Product(left, right):
                return self.multiplied(
                    node, self.measured(left, "multiplied"), self.measured(right, "multiplied"), 1
                )
            case Quotient(left, right):
                return self.multiplied(
                    node, self.measured(left, "divided"), self.measured(right, "divided"), -1
                )
            case Power(base, exponent):
                return self.raised(node, self.measured(base, "squared or cubed"), exponent)
            case Root(of):
                return self.rooted(node, self.measured(of, "under a root"))
            case Choice(which, among):
                return self.like(node, among, f"{which} of")
            case Rounding(way, of, step):
                return self.like(node, (of, step), f"round {way}")
            case Comparison(sign, left, right):
                return YES_NO if self.like(node, (left, right), sign) is not None else None
            case Both(left, right):
                return self.yes_no(left, right, "and")
            case Either(left, right):
                return self.yes_no(left, right, "or")
            case _:
                assert_never(node)

    def named(self, node: Node, text: str) -> Kind | None:
        if text in self.kinds:
            return self.kinds[text]
        near = nearest_spelling(text, self.kinds)
        mend = f"Did you mean “{near}”?" if near else "Give it a formula or a value of its own first."
        self.wrong(node, f"There is no “{text}” here. {mend}")
        return None

    def measured(self, node: Node, doing: str) -> int | None:
        kind = self.kind(node)
        if kind == YES_NO:
            self.wrong(node, f"“{spell(node)}” is yes or no and cannot be {doing}. Compare last.")
            return None
        return kind

    def like(self, node: Node, parts: tuple[Node, ...], doing: str) -> int | None:
        """All parts must be of one kind; the first one sets it."""
        kinds = [self.measured(part, "added or compared") for part in parts]
        if None in kinds:
            return None
        first = kinds[0]
        for part, kind in zip(parts[1:], kinds[1:], strict=True):
            if kind != first:
                self.unlike(node, doing, (parts[0], first), (part, kind))
                return None
        return first

    def unlike(
        self, node: Node, doing: str, one: tuple[Node, Kind | None], other: tuple[Node, Kind | None]
    ) -> None:
        (left, left_kind), (right, right_kind) = one, other
        assert left_kind is not None
        assert right_kind is not None
        message = (
            f"“{doing}” needs two of a kind: “{spell(left)}” is {_WORDS[left_kind]}, "
            f"“{spell(right)}” is {_WORDS[right_kind]}."
        )
        bare = next((part for part, kind in (one, other) if isinstance(part, Number) and kind == 0), None)
        mend = (
            f"Give {spell_number(bare.value)} a unit, as a constant."
            if bare
            else "Look for a missing × or unit."
        )
        self.wrong(node, f"{message} {mend}")

    def multiplied(self, node: Node, left: int | None, right: int | None, way: int) -> int | None:
        if left is None or right is None:
            return None
        power = left + way * right
        if 0 <= power <= MOST_POWER:
            return power
        if power > MOST_POWER:
            self.wrong(node, f"“{spell(node)}” has more than three dimensions. Look for a × too many.")
            return None
        self.wrong(node, self.upside_down(node))
        return None

    def upside_down(self, node: Node) -> str:
        assert isinstance(node, Quotient)
        left, right = node.left, node.right
        if isinstance(left, Number) and isinstance(right, Number) and not left.unit and right.unit:
            return (
                f"“{spell(node)}” divides a number by a length. "
                f"Write {spell_number(left.value)}/{spell_number(right.value)} {right.unit}, without spaces."
            )
        return (
            f"“{spell(node)}” divides by {_WORDS[self.kind(right) or 0]}, which gives no size. Turn it round."
        )

    def raised(self, node: Node, base: int | None, exponent: int) -> int | None:
        if base is not None and base * exponent > MOST_POWER:
            self.wrong(node, f"“{spell(node)}” has more than three dimensions. Look for a ² or ³ too many.")
            return None
        return None if base is None else base * exponent

    def rooted(self, node: Node, of: int | None) -> int | None:
        if of in (1, 3):
            self.wrong(
                node, f"“{spell(node)}” is the root of {_WORDS[of]}. Only a number or an area has one here."
            )
            return None
        return None if of is None else of // 2

    def yes_no(self, left: Node, right: Node, word: str) -> Kind | None:
        kinds = [self.kind(left), self.kind(right)]
        for part, kind in zip((left, right), kinds, strict=True):
            if kind not in (None, YES_NO):
                self.wrong(part, f"“{word}” stands between comparisons; “{spell(part)}” is none. Compare it.")
        return YES_NO if kinds == [YES_NO, YES_NO] else None


def _sign(node: Sum | Difference) -> str:
    return "+" if isinstance(node, Sum) else "−"
