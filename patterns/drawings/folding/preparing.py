"""Acts on cloths that lie apart: cut, fuse, join, mark, clip, crease."""

from dataclasses import replace
from fractions import Fraction

from patterns.drafting.outlines import seam_line
from patterns.drafting.sized import SizedAct, SizedPattern
from patterns.drawings.page import exact

from .errors import AmissError
from .state import DiffersError, State
from .strips import Strip, joined, strip_of


def cut(state: State, act: SizedAct, sized: SizedPattern) -> State:
    """Cut a piece, and give it the name by which the steps speak of it."""
    pieces = {piece.name: piece for piece in sized.pieces}
    if act.one("cut") not in pieces:
        raise AmissError(f"the {act.one('cut')} is not cut at this size.")
    return _with(state, strip_of(sized, pieces[act.one("cut")], act.one("as")))


def fuse(state: State, act: SizedAct, sized: SizedPattern) -> State:
    """Fuse a piece to the wrong side of a cloth, in its middle.

    It reaches the raw edges or keeps clear of the seams: what ends inside an allowance is amiss.
    """
    strip = state.strip(act.one("to"))
    there = [piece for piece in sized.pieces if piece.name in act.all("fuse")]
    if not there:
        raise AmissError(f"none of {', '.join(act.all('fuse'))} is cut at this size.")
    fused = strip_of(sized, there[0], there[0].name)
    across, along = (strip.width - fused.width) / 2, (strip.length - fused.length) / 2
    stitched = [line for line in strip.lines.values() if line.kind == "stitch"]
    for free, lines, way in (
        (across, [line.across or line.inside for line in stitched], "side"),
        (along, [line.place or line.inside for line in stitched], "end"),
    ):
        nearest = min((place for place in lines if place is not None), default=Fraction(0))
        if free < 0:
            raise AmissError(f"the {fused.name} is larger than the {strip.name}.")
        if 0 < free < nearest:
            raise DiffersError(f"what is free of the {fused.name} at each {way}", free, nearest)
    _look_for_alike(strip, fused)
    return _with(state, replace(strip, fused=(fused.name, across, along)))


def _look_for_alike(strip: Strip, fused: Strip) -> None:
    """Look that what is cut out of a cloth is cut out of what is fused to it, as far inside as all edges."""
    if not strip.corners:
        return
    free = (strip.width - fused.width) / 2
    inner = seam_line(strip.corners, free) if free else strip.corners
    places = {
        (round(exact(each.across) + free, 4), round(exact(each.down) + free, 4)) for each in fused.corners
    }
    if {(round(exact(each.across), 4), round(exact(each.down), 4)) for each in inner or ()} != places:
        raise AmissError(f"the {fused.name} does not follow the edges of the {strip.name}.")


def join(state: State, act: SizedAct, sized: SizedPattern) -> State:
    """Sew two halves together; from then on they are one cloth."""
    half = state.strip(act.one("join"))
    whole = joined(half, act.one("at"), act.one("as"), act.one("middle"))
    count = next(piece.cut for piece in sized.pieces if piece.name == half.piece)
    if count != 2:
        raise AmissError(f"two of the {half.piece} are joined, but {count} cut.")
    strips = {name: strip for name, strip in state.strips.items() if name != half.name}
    drawn = state.drawn | {(whole.name, act.one("middle"))}  # it is a seam, and needs no line
    return _with(replace(state, strips=strips, drawn=drawn), whole)


def mark(state: State, act: SizedAct) -> State:
    """Draw marks. They lie on their cloth, and an opening lies within its seam line."""
    drawn = {(strip.name, name) for strip in _cloths(state, act) for name in act.all("mark")}
    for strip in _cloths(state, act):
        for name in act.all("mark"):
            _look_for_room(strip, name)
    return replace(state, drawn=state.drawn | drawn)


def _look_for_room(strip: Strip, name: str) -> None:
    line = strip.line(name)
    for place, most in ((line.place, strip.length), (line.across, strip.width)):
        if place is not None and not 0 <= place <= most:
            raise AmissError(f"the {name} lies off the {strip.name}.")


def clip(state: State, act: SizedAct) -> State:
    """Snip into an edge at marks: outside the stitching at the sides, whether drawn by now or not."""
    for strip in _cloths(state, act):
        sides = [
            each.across for each in strip.lines.values() if each.kind == "stitch" and each.across is not None
        ]
        for name in act.all("clip"):
            line = strip.line(name)
            end = line.end if line.end is not None else strip.width
            if any((line.start or 0) <= side <= end for side in sides):
                raise AmissError(f"the {name} of the {strip.name} is cut through a side seam line.")
    return mark(state, replace(act, names=(("mark", act.all("clip")), ("on", act.all("on")))))


def crease(state: State, act: SizedAct) -> State:
    """Press folds in and open them again, along lines that are drawn."""
    found = set()
    for strip in _cloths(state, act):
        for name in act.all("crease"):
            strip.place(name)
            if (strip.name, name) not in state.drawn:
                raise AmissError(f"the {name} of the {strip.name} has not been drawn so far.")
            found.add((strip.name, name))
    return replace(state, creased=state.creased | found)


def _cloths(state: State, act: SizedAct) -> list[Strip]:
    return [state.strip(name) for name in act.all("on")]


def _with(state: State, strip: Strip) -> State:
    return replace(state, strips={**state.strips, strip.name: strip})
