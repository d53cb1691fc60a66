"""Acts on side seams that are bound: trimmed evenly, a strip folded in four, bound."""

from dataclasses import replace
from fractions import Fraction

from patterns.drafting.sized import SizedAct

from .errors import AmissError
from .folds import height_of
from .state import DiffersError, State, amount
from .strips import Strip


def trim_evenly(state: State, act: SizedAct) -> State:
    """Trim all layers of the side seams, and the zip's ends, to one allowance: it may be the whole of it."""
    if state.sides is None:
        raise AmissError("the sides are not sewn so far.")
    left = amount(act, "leave")
    if not 0 < left <= state.sides.left:
        raise AmissError("the trimming reaches the stitching, or leaves more than there is.")
    for made in state.zips:
        if made.name not in state.secured:
            raise AmissError(f"the slider could run off: the {made.name} is not sewn across its ends so far.")
    strips = {
        name: replace(strip, width=state.sides.right - state.sides.left + 2 * left) if strip.is_zip else strip
        for name, strip in state.strips.items()
    }
    return replace(state, strips=strips, trimmed=left)


def fourfold(state: State, act: SizedAct) -> State:
    """Fold a strip in half along its length, open it, and fold its long edges to that middle."""
    strip = state.strip(act.one("fourfold"))
    place = strip.place(act.one("at"))
    if 2 * place != strip.length:
        raise DiffersError(
            f"the {act.one('at')} of the {strip.name}, from its edge,", place, strip.length / 2
        )
    return replace(state, creased=state.creased | {(strip.name, act.one("at"))})


def _bound_width(strip: Strip) -> Fraction:
    """Return how deep a strip folded in four lies over an edge."""
    return strip.length / 4


def bind(state: State, act: SizedAct) -> State:
    """Bind both trimmed side seams, each with a strip folded in four, its ends turned in.

    It is as long as the seam then, and covers all that was left of the allowance. It may be wider: the thick
    edge takes some of it up, and what would still reach past the stitching is cut off.
    """
    strip = state.strip(act.one("with"))
    if not any(name == strip.name for name, _ in state.creased):
        raise AmissError(f"the {strip.name} is not folded so far.")
    if state.trimmed is None:
        raise AmissError("the side seams are not trimmed so far.")
    long, seam = amount(act, "long"), height_of(state)
    if long != seam:
        raise DiffersError(f"the {strip.name} with its ends turned in", long, seam)
    if strip.width <= long:
        raise AmissError(f"the {strip.name} is too short to have its ends turned in.")
    if _bound_width(strip) < state.trimmed:
        raise AmissError(f"the {strip.name} does not cover what is left of the allowance.")
    return replace(state, bound=strip.name)
