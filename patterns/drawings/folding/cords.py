"""Acts on cords and on the channel they run in: measure, frame, draw, pin, channel, thread, knot, gather."""

from dataclasses import replace
from fractions import Fraction

from patterns.drafting.sized import SizedAct, SizedPattern
from patterns.drawings.page import exact

from .bag_parts import Bag, Channel, Gathered
from .bags import bag_of
from .errors import AmissError
from .openings import Opening
from .rounds import look_for_same, pin_to_base
from .state import DiffersError, State, amount
from .strips import Strip


def measure(state: State, act: SizedAct) -> State:
    """Cut so many equal lengths of cord or webbing. width: of webbing, where it counts."""
    wide = amount(act, "width") if "width" in dict(act.amounts) else Fraction(0)
    name, count = act.one("as"), amount(act, "pieces")
    if amount(act, "long") <= 0 or count != int(count) or count < 1:
        raise AmissError(f"no {name} would be cut.")
    strip = Strip(name, act.one("measure"), None, amount(act, "long"), wide, {}, count=int(count))
    return replace(state, strips={**state.strips, name: strip})


def gap_at(state: State, name: str) -> tuple[Bag, Opening]:
    """Return the gap at a mark and its bag. Raises AmissError: no side seam has been left open there."""
    strip, mark = state.mark(name)
    for bag in state.sewn.bags.values():
        for gap in bag.gaps:
            if (gap.strip, gap.mark) == (strip.name, mark):
                return bag, gap
    raise AmissError(f"no side seam has been left open at the {name}.")


def frame(state: State, act: SizedAct) -> State:
    """Stitch round gaps, through the allowances that are folded back along them."""
    for name in act.all("frame"):
        bag, _ = gap_at(state, name)
        if not 0 < amount(act, "off") < bag.allowance:
            raise AmissError(f"the stitching round the {name} misses the allowance, and leaves it loose.")
    return replace(state, sewn=replace(state.sewn, framed=state.sewn.framed | {*act.all("frame")}))


def draw(state: State, act: SizedAct) -> State:
    """Draw two lines round the finished top, so far below it, level with the ends of the gaps."""
    (cloth, upper), (other, lower) = (state.mark_there(name) for name in act.all("draw"))
    rim = state.sewn.rim
    if rim is None or not bag_of(state, cloth.name).is_out:
        raise AmissError(f"the {cloth.name} has not been turned so far.")
    drop, foot = (strip.place(mark) - rim.allowance for strip, mark in ((cloth, upper), (other, lower)))
    for what, found, told in (
        ("from the top edge to the channel", drop, amount(act, "drop")),
        ("the channel", foot - drop, amount(act, "width")),
    ):
        if found != told:
            raise DiffersError(what, found, told)
    drawn = state.drawn | {(cloth.name, upper), (other.name, lower)}
    channel = Channel(cloth.name, drop, foot)
    return replace(state, drawn=drawn, sewn=replace(state.sewn, channel=channel))


def pin(state: State, act: SizedAct, sized: SizedPattern) -> State:
    """Pin a ring to its base, or two bags that are joined to each other, side seam on side seam."""
    if act.all("quarters"):
        return pin_to_base(state, act, sized)
    one, other = bag_of(state, act.one("pin")), bag_of(state, act.one("to"))
    if state.sewn.rim is None or not (one.is_out and other.is_out):
        raise AmissError(f"the {one.name} does not lie in the {other.name} so far.")
    look_for_same(f"once round the {one.name}", one.round, other.round)
    return replace(state, sewn=replace(state.sewn, pinned=state.sewn.pinned | {(one.name, other.name)}))


def channel(state: State, act: SizedAct) -> State:
    """Sew both rows of the channel, through both bags: one level with the upper ends of the gaps, one below.

    A row that crossed a gap would sew it up; one that kept off it would let the cord slip out beside it.
    """
    drawn = state.sewn.channel
    if drawn is None:
        raise AmissError("the channel has not been drawn so far.")
    if not any(drawn.cloth in pair for pair in state.sewn.pinned):
        raise AmissError(f"nothing has been pinned to the {drawn.cloth} so far.")
    rows = [state.mark(name)[0].place(state.mark(name)[1]) for name in act.all("channel")]
    for name in act.all("between"):
        _, gap = gap_at(state, name)
        if name not in state.sewn.framed:
            raise AmissError(f"the {name} has not been stitched round so far.")
        for what, found, told in (("upper", gap.start, rows[0]), ("lower", gap.end, rows[1])):
            if found != told:
                raise DiffersError(f"the {what} end of the {name}, from the raw edge,", found, told)
    return replace(state, sewn=replace(state.sewn, channel=replace(drawn, is_sewn=True)))


def thread(state: State, act: SizedAct) -> State:
    """Draw cords in, one from each gap, all round and out again: so much of each end hangs out."""
    cord = state.strip(act.one("thread"))
    if state.sewn.channel is None or not state.sewn.channel.is_sewn:
        raise AmissError("there is no channel so far.")
    gaps = [gap_at(state, name) for name in act.all("through")]
    if len(gaps) != cord.count:
        raise AmissError(f"{len(gaps)} gaps take as many lengths of {cord.name}, and {cord.count} are cut.")
    ends = (cord.width - exact(gaps[0][0].round)) / 2
    if ends != amount(act, "ends") or ends <= 0:
        raise DiffersError(f"each end of the {cord.name} that hangs out", ends, amount(act, "ends"))
    return replace(state, sewn=replace(state.sewn, ends=ends))


def knot(state: State, act: SizedAct) -> State:
    """Knot both ends of each cord: so far from their tips, and outside the gap with the bag open."""
    if state.sewn.ends is None:
        raise AmissError(f"the {act.one('knot')} has not been drawn in so far.")
    if not 0 < amount(act, "place") < state.sewn.ends:
        raise AmissError("the knots would lie inside the channel when the bag is open.")
    return replace(state, sewn=replace(state.sewn, knotted=amount(act, "place")))


def gather(state: State, act: SizedAct) -> State:
    """Pull cords until the bag is shut: what went round it hangs out now, half at each end.

    ends: how long each end hangs out then. holds: how high soft things may stand, as the walls lean in over
    them from all sides and meet over the middle.
    """
    cord, bag, drawn = state.strip(act.one("gather")), bag_of(state, act.one("round")), state.sewn.channel
    if state.sewn.ends is None or drawn is None:
        raise AmissError(f"the {cord.name} has not been drawn in so far.")
    if state.sewn.knotted is None:
        raise AmissError(f"the {cord.name} has no knots to pull, and would slip in.")
    assert bag.base is not None
    ends = cord.width / 2
    holds = max(bag.height - drawn.foot - bag.base[1] / 2, Fraction(0))
    for what, found, key in (
        (f"each end of the {cord.name}, drawn shut,", ends, "ends"),
        ("what lies below the channel, drawn shut,", holds, "holds"),
    ):
        if found != amount(act, key):
            raise DiffersError(what, found, amount(act, key))
    return replace(state, sewn=replace(state.sewn, gathered=Gathered(ends, holds)))
