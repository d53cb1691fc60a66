"""Acts on handles: narrow, halve, baste."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from patterns.drafting.sized import SizedAct

from .bag_parts import Basted
from .errors import AmissError
from .state import DiffersError, State, amount
from .strips import Line, Strip


def narrow(state: State, act: SizedAct) -> State:
    """Fold both long edges of a strip in to its middle: they meet there, without a gap."""
    strip = state.strip(act.one("narrow"))
    middle = strip.place(act.one("to"))
    folds = sorted(strip.place(name) for name in act.all("at"))
    if strip.layers != 1 or len(folds) != 2:
        raise AmissError(f"the {strip.name} is folded along two lines, and only once.")
    edges = [2 * fold - edge for fold, edge in zip(folds, (Fraction(0), strip.length), strict=True)]
    for edge in edges:
        if edge != middle:
            raise DiffersError(f"a long edge of the {strip.name}, once it is folded in,", edge, middle)
    return _folded(state, strip, folds[1] - folds[0], 2, act)


def halve(state: State, act: SizedAct) -> State:
    """Fold the narrowed strip in half, fold on fold, and topstitch it. below: how far from its edges."""
    strip = state.strip(act.one("halve"))
    if strip.layers != 2:
        raise AmissError(f"the long edges of the {strip.name} have not been folded in so far.")
    if "below" in dict(act.amounts) and not 0 < amount(act, "below") < strip.length / 4:
        raise AmissError(f"two rows have no room on the {strip.name}.")
    return _folded(state, strip, strip.length / 2, 4, act)


def _folded(state: State, strip: Strip, wide: Fraction, layers: int, act: SizedAct) -> State:
    told = amount(act, "width")
    if wide != told:
        raise DiffersError(f"the width of the {strip.name}", wide, told)
    changed = replace(strip, length=wide, layers=layers)
    return replace(state, strips={**state.strips, strip.name: changed})


def baste(state: State, act: SizedAct) -> State:
    """Baste a handle's ends to a cloth, level with its upper raw edge: evenly to both sides of its middle.

    at: two points, or one line that runs from the one to the other.
    """
    handle, cloth = state.strip(act.one("baste")), state.strip(act.one("on"))
    if handle.lines and handle.layers != 4:
        raise AmissError(f"the {handle.name} has not been folded so far.")
    for name in act.all("at"):
        state.mark(f"{cloth.name} {name}")
    places = _places([cloth.line(name) for name in act.all("at")])
    apart = places[1] - places[0]
    if apart != amount(act, "apart"):
        raise DiffersError(f"from one end of the {handle.name} to the other", apart, amount(act, "apart"))
    if sum(places) != cloth.width:
        raise AmissError(f"the ends of the {handle.name} are not in the middle of the {cloth.name}.")
    if apart <= handle.length:
        raise AmissError(f"the ends of the {handle.name} lie on each other.")
    basted = Basted(handle.name, cloth.name, places, _long(handle, cloth), handle.length)
    return replace(state, sewn=replace(state.sewn, handles=(*state.sewn.handles, basted)))


def _places(lines: Sequence[Line]) -> tuple[Fraction, Fraction]:
    match lines:
        case [Line(across=None, start=Fraction() as start, end=Fraction() as end)]:
            return start, end
        case [Line(across=Fraction() as left), Line(across=Fraction() as right)]:
            return min(left, right), max(left, right)
        case _:
            raise AmissError("a handle has two ends: name two points, or the line between them.")


def _long(handle: Strip, cloth: Strip) -> Fraction:
    """Return how much of a handle is seen, once both its ends are in the seam."""
    ends = [
        line.across for line in handle.lines.values() if line.kind == "stitch" and line.across is not None
    ]
    if ends:
        return max(ends) - min(ends)
    allowance = next((line.inside for line in cloth.lines.values() if line.inside is not None), Fraction(0))
    return handle.width - 2 * allowance
