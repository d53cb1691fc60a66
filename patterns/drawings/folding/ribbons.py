"""Acts on ribbons: caught in a side seam, and tied round what is finished."""

from dataclasses import replace
from fractions import Fraction

from patterns.drafting.sized import SizedAct

from .bag_parts import Caught, Tied
from .errors import AmissError
from .folds import height_of
from .layers import Zone, places_of
from .state import DiffersError, State, amount
from .strips import Line, Strip


def catch(state: State, act: SizedAct) -> State:
    """Baste a ribbon to a side edge, level with the raw edge, so that the side seam will hold it.

    tails: its fold lies there, and each tail is so long. loop: its two ends lie there, and so much of it is
    seen. below: how far from the top seam. Raises AmissError: no side seam will hold it there, or more than
    its end lies in the allowance.
    """
    ribbon, cloth = state.strip(act.one("catch")), state.strip(act.one("on"))
    if ribbon.lines:
        raise AmissError(f"the {ribbon.name} is no length of ribbon.")
    if any(each.ribbon == ribbon.name for each in state.sewn.caught):
        raise AmissError(f"the {ribbon.name} is basted on already.")
    state.mark(f"{cloth.name} {act.one('at')}")
    is_left, allowance = _edge_at(cloth, cloth.line(act.one("at")))
    below = _below_the_top_seam(state, cloth, act.one("at"))
    is_folded = "tails" in dict(act.amounts)
    shown = ribbon.width / 2 if is_folded else ribbon.width - 2 * allowance
    key, what = ("tails", "each tail") if is_folded else ("loop", "the loop")
    for name, found, told in (
        (f"from the top seam to the {act.one('at')}", below, amount(act, "below")),
        (f"{what} of the {ribbon.name}", shown, amount(act, key)),
    ):
        if found != told:
            raise DiffersError(name, found, told)
    if shown <= 0:
        raise AmissError(f"nothing of the {ribbon.name} is left to be seen.")
    caught = Caught(ribbon.name, cloth.name, act.one("at"), is_left, allowance, below, shown, is_folded)
    return replace(state, sewn=replace(state.sewn, caught=(*state.sewn.caught, caught)))


def _edge_at(cloth: Strip, line: Line) -> tuple[bool, Fraction]:
    """Return whether a place lies at the left edge, and how wide the allowance is that it fills.

    Raises AmissError: it does not run from a raw edge to the side seam line beside it.
    """
    sides = [
        each.across for each in cloth.lines.values() if each.kind == "stitch" and each.across is not None
    ]
    start, end = line.start or Fraction(0), cloth.width if line.end is None else line.end
    if line.place is None or not sides:
        raise AmissError(f"the {line.name} does not lie at a side edge of the {cloth.name}.")
    if start == 0 and end == min(sides):
        return True, end
    if end == cloth.width and start == max(sides):
        return False, end - start
    raise AmissError(f"the {line.name} does not run from the raw edge of the {cloth.name} to its side seam.")


def _below_the_top_seam(state: State, cloth: Strip, mark: str) -> Fraction:
    """Return how far a mark lies from the nearest seam across its cloth. Raises AmissError: there is none."""
    seams = [
        along for seam in state.seams if len(seam.ends) > 1 for name, along in seam.ends if name == cloth.name
    ]
    if not seams:
        raise AmissError(f"the top edges of the {cloth.name} are not sewn so far.")
    return min(abs(cloth.place(mark) - along) for along in seams)


def look_for_pleats(state: State, lowest: Zone) -> None:
    """Look that no ribbon lies in the lowest stretch of the side seams, where they hold the pleats."""
    for caught in state.sewn.caught:
        for place in places_of(state.layers, state.strip(caught.cloth), caught.mark):
            if lowest.left < place < lowest.right:
                raise AmissError(f"the {caught.ribbon} would be sewn into the pleats at the bottom.")


def tie(state: State, act: SizedAct) -> State:
    """Tie a ribbon round what is turned and lies flat: one tail round each way, the bow at the other side.

    below: how far under the top edge. holds: how high is what lies below it. bow: what is left of each tail.
    """
    caught = caught_at(state, act.one("tie"))
    if state.sides is None or state.outside != act.one("round"):
        raise AmissError(f"the {act.one('round')} does not lie outside.")
    if not caught.is_folded:
        raise AmissError(f"the {caught.ribbon} has no tails to tie.")
    left = caught.shown - (state.sides.right - state.sides.left)
    holds = height_of(state) - caught.below
    for what, found, key in (
        ("from the top edge to the tie", caught.below, "below"),
        ("what lies below the tie", holds, "holds"),
        ("what is left of each tail for the bow", left, "bow"),
    ):
        if found != amount(act, key):
            raise DiffersError(what, found, amount(act, key))
    if left <= 0:
        raise AmissError("no tail reaches the other side.")
    return replace(state, sewn=replace(state.sewn, tied=Tied(caught.ribbon, caught.below, holds, left)))


def caught_at(state: State, name: str) -> Caught:
    """Return how a ribbon is caught. Raises AmissError: no step has basted it on."""
    for caught in state.sewn.caught:
        if caught.ribbon == name:
            return caught
    raise AmissError(f"the {name} has not been basted on so far.")
