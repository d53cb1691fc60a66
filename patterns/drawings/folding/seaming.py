"""Acts that join: stack, seam, press, sew the sides, trim, topstitch."""

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from patterns.drafting.sized import SizedAct

from .errors import AmissError
from .layers import Layer, Side, faces_amiss, zones
from .openings import Opening
from .ribbons import look_for_pleats
from .state import DiffersError, Seam, SideSeams, State, amount, opening_of
from .strips import Strip


def stack(state: State, act: SizedAct) -> State:
    """Lay one cloth on another, right or wrong sides together, front edge on front edge."""
    below, above = state.strip(act.one("on")), state.strip(act.one("stack"))
    if state.layers:
        raise AmissError("something lies on the table already.")
    facing: Side = "right" if act.one("sides").startswith("right") else "wrong"
    away: Side = "wrong" if facing == "right" else "right"
    zero = Fraction(0)
    return state.laid(
        (
            Layer(below.name, zero, below.length, zero, 1, facing),
            Layer(above.name, zero, above.length, zero, 1, away),
        )
    )


def seam(state: State, act: SizedAct) -> State:
    """Sew two cloths together along marks that lie on each other, their edges equally long.

    leave: the mark of the opening, which lies on the seam and ends inside its side seam lines.
    """
    (one, one_mark), (other, other_mark) = (state.mark(name) for name in act.all("seam"))
    place = state.place(act.all("seam"))
    if one.width != other.width:
        raise DiffersError(
            f"the edge of the {other.name} beside that of the {one.name}", other.width, one.width
        )
    layers = {layer.strip: layer for layer in state.layers}
    if len({layers[one.name].up, layers[other.name].down}) != 1:
        raise AmissError(f"the {one.name} and the {other.name} do not lie with like sides together.")
    opening = _opening(state, act.one("leave"), one, other, place) if act.all("leave") else None
    ends = frozenset([(one.name, one.place(one_mark)), (other.name, other.place(other_mark))])
    sewn = dict(ends)
    trimmed = tuple(without_allowance(layer, state.strip(layer.strip), sewn) for layer in state.layers)
    return replace(state, seams=(*state.seams, Seam(ends, opening))).laid(trimmed)


def _opening(state: State, name: str, one: Strip, other: Strip, place: Fraction) -> Opening:
    strip, mark = state.mark(name)
    if strip not in (one, other) or state.places(name) != {place}:
        raise AmissError(f"the {name} does not lie on this seam.")
    return opening_of(strip, mark)


def without_allowance(layer: Layer, strip: Strip, sewn: dict[str, Fraction]) -> Layer:
    """A layer that ends at its seam: the allowance is pressed back, and counts for nothing."""
    along = sewn.get(strip.name)
    if along is None:
        return layer
    if along - layer.start < layer.end - along:
        return replace(layer, start=along)
    return replace(layer, end=along)


def press(state: State, act: SizedAct) -> State:
    """Press seams open."""
    for name in act.all("press"):
        strip, mark = state.mark(name)
        if not any((strip.name, strip.place(mark)) in seam.ends for seam in state.seams):
            raise AmissError(f"there is no seam at the {name}.")
    return state


def sew(state: State, act: SizedAct) -> State:
    """Sew both sides through all layers.

    The bottom folds are level, so many layers lie over the lowest stretch and so many above it; the faces
    that touch are such as may, read round the seam; the side seam lines of all cloths lie on each other.
    """
    left, right = (common(state, act, name) for name in act.all("sew"))
    found = zones(state.layers)
    counts = [len(zone.layers) for zone in found]
    told = [int(amount(act, "layers")), int(amount(act, "above"))]
    if counts != told:
        shown = ", then ".join(map(str, counts))
        raise AmissError(
            f"from the bottom folds up the side edge shows {shown} layers; "
            f"told are {told[0]}, then {told[1]}."
        )
    for zone in found:
        if wrong := faces_amiss(zone.layers):
            raise AmissError(f"at the side seams {wrong}.")
    look_for_pleats(state, found[0])
    sides = SideSeams(min(left, right), max(left, right), found[0].right - found[0].left)
    return replace(state, sides=sides)


def common(state: State, act: SizedAct, name: str) -> Fraction:
    """Return how far in a line lies, the same on every cloth. Raises AmissError where it is not."""
    strips = [state.strip(cloth) for cloth in act.all("of")]
    for strip in strips:
        state.mark(f"{strip.name} {name}")
    first, *others = [(strip, strip.across(name)) for strip in strips]
    for strip, across in others:
        if across != first[1]:
            raise DiffersError(f"the {name} of the {strip.name}, from the raw edge,", across, first[1])
    return first[1]


def trim(state: State, act: SizedAct) -> State:
    """Cut the corners and the inner allowances: outside the stitching, and something is left of them."""
    if state.sides is None:
        raise AmissError("the sides are not sewn so far.")
    left, allowance = amount(act, "leave"), state.sides.left
    if not 0 < left < allowance:
        raise AmissError("the trimming reaches the stitching, or takes nothing off.")
    return state


def topstitch(state: State, act: SizedAct) -> State:
    """Topstitch an edge; where this closes an opening, the row catches the allowance turned in there."""
    _on_the_edge(state, act.all("topstitch"))
    below = amount(act, "below")
    if below <= 0:
        raise AmissError("the row lies on the edge itself.")
    if act.all("closes"):
        seam = state.opened(act.one("closes"))
        for name, along in sorted(seam.ends):
            strip = state.strip(name)
            allowance = min(along, strip.length - along)
            if below >= allowance:
                raise AmissError(f"the row lies below what is turned in of the {name}, and does not hold it.")
    return state


def edge(state: State, act: SizedAct) -> State:
    """Look that seams lie on each other, at an end of what lies there."""
    _on_the_edge(state, act.all("edge"))
    return state


def _on_the_edge(state: State, names: Iterable[str]) -> None:
    place = state.place(names)
    if place not in (min(layer.left for layer in state.layers), max(layer.right for layer in state.layers)):
        raise AmissError("the seams do not lie on the edge.")
