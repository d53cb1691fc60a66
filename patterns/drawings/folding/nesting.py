"""Acts on two bags, one put into the other: nest, rim, turn, shut, edge, topstitch, stand."""

from dataclasses import replace
from fractions import Fraction

from patterns.drafting.sized import SizedAct

from .bag_parts import Bag, Rim
from .bags import bag_of
from .errors import AmissError
from .openings import Opening
from .rounds import look_for_same
from .state import DiffersError, State, amount


def nest(state: State, act: SizedAct) -> State:
    """Put a bag into another, right sides together: they are as wide, as deep and as high."""
    inner, outer = bag_of(state, act.one("nest")), bag_of(state, act.one("in"))
    is_right = act.one("sides").startswith("right")
    for bag, is_out in ((inner, is_right), (outer, not is_right)):
        if bag.base is None:
            raise AmissError(f"the {bag.name} has no base so far.")
        if bag.is_out != is_out:
            way = "right" if bag.is_out else "wrong"
            raise AmissError(f"the {bag.name} is {way} side out: {act.one('sides')} they do not lie.")
    look_for_same(f"once round the {inner.name}", inner.round, outer.round)
    for what, found, told in (("height", inner.height, outer.height), *_bases(inner, outer)):
        if found != told:
            raise DiffersError(f"the {what} of the {inner.name}", found, told)
    return replace(state, sewn=replace(state.sewn, nested=(inner.name, outer.name)))


def _bases(one: Bag, other: Bag) -> list[tuple[str, Fraction, Fraction]]:
    assert one.base is not None
    assert other.base is not None
    names = ("width of the base", "depth of the base")
    return list(zip(names, one.base, other.base, strict=True))


def rim(state: State, act: SizedAct) -> State:
    """Sew two nested bags together all round the top; leave: the opening in this seam."""
    nested = state.sewn.nested
    if nested is None or set(act.all("rim")) != set(nested):
        raise AmissError("the two have not been put into each other so far.")
    inner, outer = (bag_of(state, name) for name in nested)
    lines = {state.strip(bag.strip).inside(act.one("by")) for bag in (inner, outer)}
    for bag in (inner, outer):
        state.mark(f"{bag.strip} {act.one('by')}")
    if lines != {inner.allowance}:
        raise DiffersError("the top seam’s allowance", max(lines), inner.allowance)
    look_for_same("the top seam, once round,", inner.round, act.amount("round").value)
    opening = _top_opening(state, act.one("leave"), inner, outer) if act.all("leave") else None
    return replace(state, sewn=replace(state.sewn, rim=Rim(inner.name, outer.name, inner.allowance, opening)))


def _top_opening(state: State, name: str, inner: Bag, outer: Bag) -> Opening:
    strip, mark = state.mark(name)
    line = strip.line(mark)
    if strip.name not in (inner.strip, outer.strip) or line.place != inner.allowance:
        raise AmissError(f"the {name} does not lie on this seam.")
    if line.start is None or line.end is None or not line.start < line.end:
        raise AmissError(f"the {name} has no length.")
    if not inner.allowance < line.start < line.end < strip.width - inner.allowance:
        raise AmissError(f"the {name} runs into a side seam.")
    return Opening(strip.name, mark, line.start, line.end)


def turn(state: State, act: SizedAct) -> State:
    """Turn a bag right side out by its top, or two that are joined through an opening that was left."""
    bag = bag_of(state, act.one("turn"))
    if not act.all("through"):
        if bag.base is None or bag.is_out or state.sewn.rim:
            raise AmissError(f"the {bag.name} cannot be turned now.")
        return _turned(state, bag)
    if state.sewn.rim is None:
        raise AmissError("nothing is joined so far that would have to be turned.")
    open_now(state, act.one("through"))
    return _turned(state, *(bag_of(state, name) for name in (state.sewn.rim.inner, state.sewn.rim.outer)))


def open_now(state: State, name: str) -> Opening:
    """Return the opening at a mark. Raises AmissError: none has been left there, or it is shut."""
    strip, mark = state.mark(name)
    for opening in _left_open(state):
        if (opening.strip, opening.mark) == (strip.name, mark):
            if (strip.name, mark) in state.sewn.shut:
                raise AmissError(f"the {name} is shut already.")
            return opening
    raise AmissError(f"no seam has been left open at the {name}.")


def _left_open(state: State) -> list[Opening]:
    """Return every opening that was left for turning, in base seams and in the top seam."""
    rim, base = state.sewn.rim, [bag.opening for bag in state.sewn.bags.values()]
    return [opening for opening in (*base, rim.opening if rim else None) if opening]


def _turned(state: State, *bags: Bag) -> State:
    turned = {bag.name: replace(bag, is_out=True) for bag in bags}
    return replace(state, sewn=replace(state.sewn, bags={**state.sewn.bags, **turned}))


def shut(state: State, act: SizedAct) -> State:
    """Sew an opening shut, after turning through it."""
    _look_whether_turned(state)
    opening = open_now(state, act.one("shut"))
    return closed(state, opening)


def closed(state: State, opening: Opening) -> State:
    shut_by_now = state.sewn.shut | {(opening.strip, opening.mark)}
    return replace(state, sewn=replace(state.sewn, shut=shut_by_now))


def _look_whether_turned(state: State) -> Rim:
    rim = state.sewn.rim
    if rim is None or not bag_of(state, rim.outer).is_out:
        raise AmissError("the work has not been turned so far.")
    return rim


def edge(state: State, act: SizedAct) -> State:
    """Roll the seam round the top on to the edge."""
    rim = _look_whether_turned(state)
    strips = {state.mark(name)[0].name for name in act.all(act.verb)}
    if strips != {bag_of(state, name).strip for name in (rim.inner, rim.outer)}:
        raise AmissError("the top seam joins other cloths.")
    return state


def topstitch(state: State, act: SizedAct) -> State:
    """Topstitch the top edge: what is turned in at an opening, and the ends of handles, are caught by it."""
    rim = _look_whether_turned(edge(state, act))
    below = amount(act, "below")
    if below <= 0:
        raise AmissError("the row lies on the edge itself.")
    if below >= rim.allowance and (act.all("closes") or state.sewn.handles):
        what = "what is turned in at the opening" if act.all("closes") else "the end of a handle"
        raise AmissError(f"the row lies below {what}, and does not catch it.")
    return closed(state, open_now(state, act.one("closes"))) if act.all("closes") else state


def stand(state: State, act: SizedAct) -> State:
    """Look that the finished thing stands as large as it is told to, with nothing left open."""
    _look_whether_turned(state)
    bag = bag_of(state, act.one("stand"))
    for opening in _left_open(state):
        if (opening.strip, opening.mark) not in state.sewn.shut:
            raise AmissError(f"the {opening.mark} of the {opening.strip} is still open.")
    assert bag.base is not None
    found = {"width": bag.base[0], "depth": bag.base[1], "height": bag.height}
    for what, length in found.items():
        told = amount(act, what)
        if length != told:
            raise DiffersError(f"the {what}", length, told)
    if "drop" in dict(act.amounts):
        _look_for_drop(state, amount(act, "drop"))
    return state


def _look_for_drop(state: State, told: Fraction) -> None:
    for handles in state.sewn.handles:
        found = drop_of(handles.long, handles.places)
        if found != told:
            raise DiffersError("the drop of the handles", found, told)


def drop_of(long: Fraction, places: tuple[Fraction, Fraction]) -> Fraction:
    """Return how far handles hang or stand: half of what is longer than their ends are apart."""
    return (long - (places[1] - places[0])) / 2
