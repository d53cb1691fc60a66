"""Acts on pockets: surround, evert, apply; pack and stow what a pocket is for."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from patterns.drafting.sized import SizedAct

from .bag_parts import Parcel, Pocket
from .errors import AmissError
from .folds import height_of
from .openings import Opening
from .state import DiffersError, State, amount
from .strips import Strip


def surround(state: State, act: SizedAct) -> State:
    """Sew two pieces right sides together all round on four lines; leave: the opening in one of them."""
    strip = state.strip(act.one("surround"))
    if strip.count != 2:
        raise AmissError(f"two of the {strip.name} are sewn together, but {strip.count} cut.")
    lines = [strip.line(name) for name in act.all("at")]
    across = sorted(line.across for line in lines if line.across is not None)
    down = sorted(line.place for line in lines if line.place is not None)
    if len(across) != 2 or len(down) != 2:
        raise AmissError(f"the {strip.name} has four sides to sew.")
    opening = _opening(state, strip, act.one("leave"), down, across)
    pocket = Pocket(strip.name, across[1] - across[0], down[1] - down[0], opening)
    _look_for_size(pocket, act)
    return _with_pocket(state, pocket)


def _opening(
    state: State, strip: Strip, name: str, down: Sequence[Fraction], across: Sequence[Fraction]
) -> Opening:
    owner, mark = state.mark(name)
    line = strip.line(mark)
    if owner.name != strip.name or line.place not in down or line.start is None or line.end is None:
        raise AmissError(f"the {name} does not lie on this seam.")
    if not across[0] < line.start < line.end < across[1]:
        raise AmissError(f"the {name} runs into a corner.")
    return Opening(strip.name, mark, line.start, line.end)


def _look_for_size(pocket: Pocket, act: SizedAct) -> None:
    for what, found in (("width", pocket.width), ("height", pocket.height)):
        if found != amount(act, what):
            raise DiffersError(f"the {what} of the {pocket.name}", found, amount(act, what))


def pocket_of(state: State, name: str) -> Pocket:
    """Raises AmissError for one that has not been sewn together."""
    if name not in state.sewn.pockets:
        raise AmissError(f"the {name} has not been sewn together so far.")
    return state.sewn.pockets[name]


def _with_pocket(state: State, pocket: Pocket) -> State:
    return replace(state, sewn=replace(state.sewn, pockets={**state.sewn.pockets, pocket.name: pocket}))


def evert(state: State, act: SizedAct) -> State:
    """Turn what was sewn together all round right side out through its opening."""
    pocket = pocket_of(state, act.one("evert"))
    strip, mark = state.mark(act.one("through"))
    if (strip.name, mark) != (pocket.opening.strip, pocket.opening.mark):
        raise AmissError(f"no seam has been left open at the {act.one('through')}.")
    _look_for_size(pocket, act)
    return _with_pocket(state, replace(pocket, is_out=True))


def apply(state: State, act: SizedAct) -> State:
    """Sew a pocket on a cloth between two lines: its upper edge on the first, its lower one on the second."""
    pocket, cloth = pocket_of(state, act.one("apply")), state.strip(act.one("on"))
    if not pocket.is_out:
        raise AmissError(f"the {pocket.name} has not been turned so far.")
    for name in act.all("at"):
        state.mark(f"{cloth.name} {name}")
    mouth, foot = (cloth.line(name) for name in act.all("at"))
    if mouth.place is None or foot.place is None or mouth.start is None or mouth.end is None:
        raise AmissError("a pocket lies between two level lines.")
    for what, found, told in (
        ("height", foot.place - mouth.place, pocket.height),
        ("width", mouth.end - mouth.start, pocket.width),
    ):
        if found != told:
            raise DiffersError(f"the {what} of the place of the {pocket.name}", found, told)
    if mouth.start + mouth.end != cloth.width:
        raise AmissError(f"the {pocket.name} does not lie in the middle of the {cloth.name}.")
    allowance = min(strip_line for strip_line in _allowances(state, pocket))
    if not 0 < amount(act, "below") < allowance:
        raise AmissError(f"the row does not hold what is turned in at the opening of the {pocket.name}.")
    return _with_pocket(state, replace(pocket, cloth=cloth.name, mouth=mouth.place))


def _allowances(state: State, pocket: Pocket) -> list[Fraction]:
    strip = state.strip(pocket.name)
    places = [line.place for line in strip.lines.values() if line.kind == "stitch" and line.place is not None]
    return [min(place, strip.length - place) for place in places]


def pack(state: State, act: SizedAct) -> State:
    """Fold the finished thing up away from its pocket: in thirds across, then in turns as high as the first.

    below: how far below the pocket's mouth the first fold lies, so that the mouth can be drawn over it.
    """
    pocket = pocket_of(state, act.one("pocket"))
    if state.sides is None or state.outside != act.one("pack") or pocket.cloth != act.one("pack"):
        raise AmissError(f"the {act.one('pack')} is not ready to be packed into its {pocket.name}.")
    across, up = amount(act, "across"), amount(act, "up")
    wide, high = state.sides.right - state.sides.left, height_of(state)
    if 3 * across != wide:
        raise DiffersError("a third of the width", across, wide / 3)
    if high % up:
        raise AmissError("the last turn is not as high as the others.")
    for what, parcel, inside in (("wide", across, pocket.width), ("high", up, pocket.height)):
        if parcel >= inside:
            raise AmissError(f"the parcel is too {what} for the {pocket.name}.")
    below = up - (pocket.mouth - top_allowance(state, pocket.cloth))
    if below <= 0:
        raise AmissError(f"the first fold does not lie below the mouth of the {pocket.name}.")
    if below != amount(act, "below"):
        raise DiffersError("from the mouth down to the first fold", below, amount(act, "below"))
    return replace(state, sewn=replace(state.sewn, parcel=Parcel(act.one("pack"), pocket.name, across, up)))


def top_allowance(state: State, name: str) -> Fraction:
    """Return how far below its raw edge the top seam of a cloth runs, mm."""
    found = [along for seam in state.seams for cloth, along in seam.ends if cloth == name]
    return min(found)


def stow(state: State, act: SizedAct) -> State:
    """Turn the pocket inside out over the parcel."""
    parcel, pocket = state.sewn.parcel, pocket_of(state, act.one("into"))
    if parcel is None or parcel.pocket != pocket.name:
        raise AmissError(f"nothing has been folded up for the {pocket.name} so far.")
    _look_for_size(pocket, act)
    return state
