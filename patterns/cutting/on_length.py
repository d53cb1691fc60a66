"""Pieces on cloth sold by length, as the cloth asks it: one way, in whole repeats."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from .answers import Cut, OnLength
from .effort import Effort
from .repeats import as_cut, in_whole_repeats, let_down, most_added
from .sheets import Layout, Length, Rectangle
from .shortest import shortest
from .shrinkage import NO_SHRINKAGE, Shrinkage


@dataclass(frozen=True, slots=True)
class Way:
    """How pieces are to be laid.

    one_way: none may be turned, all tops lie the same way. repeat: mm along the cloth as it is bought; all
    pieces begin at the same place in it. folded: the cloth lies double, its selvedges together.
    """

    one_way: bool = False
    repeat: Length | None = None
    folded: bool = False
    edge_to_edge: bool = False
    shrinkage: Shrinkage = NO_SHRINKAGE

    def lying(self, pieces: Sequence[Rectangle]) -> tuple[Rectangle, ...]:
        """Return the pieces with none that may be turned where this way forbids it."""
        upright = self.one_way or self.repeat is not None
        return tuple(replace(each, turns=each.turns and not upright) for each in pieces)

    @property
    def washed_repeat(self) -> Fraction | None:
        return None if self.repeat is None else self.shrinkage.washed_length(self.repeat)


@dataclass(frozen=True, slots=True)
class Laid:
    """Pieces on cloth as it is cut: washed, opened out flat.

    bound: with this way of laying, less is never enough. folded: how far from the cut end the cloth lies
    double. opened: the pieces that are cut beyond, from the cloth opened out. spare: those that are cut
    double though one of them was wanted, so that one is left over.
    """

    length: Fraction
    bound: Fraction
    layout: Layout
    cuts: tuple[Cut, ...] = ()
    folded: Fraction | None = None
    opened: tuple[int, ...] = ()
    spare: tuple[int, ...] = ()


def unfolded(
    pieces: Sequence[Rectangle], width: Length, way: Way, effort: Effort, step: Length | None = None
) -> Laid:
    """Return the pieces on cloth of that width, usable and washed, as short as was found.

    step: of the shop, washed. Raises CuttingError: a piece that fits no way, and what `shortest` refuses.
    """
    pieces = way.lying(pieces)
    repeat = way.washed_repeat
    if repeat is None:
        answer = _shorter(pieces, width, way, effort, step)
        return Laid(Fraction(answer.length), Fraction(answer.bound), answer.layout, answer.cuts)
    whole = shortest(in_whole_repeats(pieces, repeat), width, effort, None, way.edge_to_edge)
    down = let_down(whole.layout)
    layout = as_cut(down, pieces)
    # Any layout in the repeat, its pieces in whole repeats, is a number of whole repeats long; as it is cut,
    # it is shorter by no more than its last piece was rounded up.
    repeats = -(-Fraction(whole.bound) // repeat)
    bound = max(repeats * repeat - most_added(pieces, repeat), _area(pieces) / Fraction(width))
    return Laid(_length(layout), Fraction(bound), layout, whole.cuts if down == whole.layout else ())


def _shorter(
    pieces: Sequence[Rectangle], width: Length, way: Way, effort: Effort, step: Length | None
) -> OnLength:
    """Where turning is allowed and nothing is proved, not turning may still be shorter."""
    answer = shortest(pieces, width, effort, step, way.edge_to_edge)
    fixed = tuple(replace(each, turns=False) for each in pieces)
    if answer.proved(step) or fixed == tuple(pieces) or any(each.width > width for each in fixed):
        return answer
    other = shortest(fixed, width, effort, step, way.edge_to_edge)
    if other.length >= answer.length:
        return answer
    return replace(other, bound=answer.bound)


def _area(pieces: Sequence[Rectangle]) -> Fraction:
    return sum((Fraction(each.certain_area) for each in pieces), Fraction(0))


def _length(layout: Layout) -> Fraction:
    return max(Fraction(each.y + each.height) for each in layout)
