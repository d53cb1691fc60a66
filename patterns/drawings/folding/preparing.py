"""Acts on cloths that lie apart: cut, fuse, join, unite, mark, clip, crease, measure that they are even."""

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from patterns.drafting.outlines import seam_line
from patterns.drafting.sized import SizedAct, SizedPattern
from patterns.drawings.page import exact

from .errors import AmissError
from .state import DiffersError, Seam, State, opening_of
from .strips import Strip, joined, strip_of, united


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
    lines = [line for line in strip.lines.values() if line.kind in ("stitch", "fold")]
    round_it = [line.inside for line in lines if line.inside is not None]
    across = [each.across for each in lines] + [*round_it, *(strip.width - far for far in round_it)]
    along = [each.place for each in lines] + [*round_it, *(strip.length - far for far in round_it)]
    left, right = _free(strip, fused, (strip.width, fused.width), across)
    top, bottom = _free(strip, fused, (strip.length, fused.length), along)
    if left != right:
        raise AmissError(f"the {fused.name} does not lie in the middle of the {strip.name}.")
    _look_for_alike(strip, fused)
    return _with(state, replace(strip, fused=(fused.name, left, top, bottom)))


def _free(
    strip: Strip, fused: Strip, edges: tuple[Fraction, Fraction], lines: Iterable[Fraction | None]
) -> tuple[Fraction, Fraction]:
    """Return what stays free of the fused piece at either end: nothing, or as much as lies in the seams.

    edges: how long both are. lines: where the cloth's lines lie; the outermost bound what is seen.
    Raises AmissError: the piece ends inside an allowance.
    """
    free = edges[0] - edges[1]
    if free < 0:
        raise AmissError(f"the {fused.name} is larger than the {strip.name}.")
    if free == 0:
        return free, free
    places = [place for place in lines if place is not None]
    first = min((place for place in places if 2 * place < edges[0]), default=Fraction(0))
    last = min((edges[0] - place for place in places if 2 * place > edges[0]), default=Fraction(0))
    if free < first + last:
        raise DiffersError(f"what is free of the {fused.name} at both ends", free, first + last)
    spare = free - first - last
    return first + spare / 2, last + spare / 2


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
    together = _with(replace(state, strips=strips, drawn=drawn), whole)
    return _left_open(together, half, whole, act) if act.all("leave") else together


def _left_open(state: State, half: Strip, whole: Strip, act: SizedAct) -> State:
    """Leave the seam of two halves open at a mark that was drawn on the half."""
    mark, middle = act.one("leave"), act.one("middle")
    if (half.name, mark) not in state.drawn:
        raise AmissError(f"the {mark} of the {half.name} has not been drawn so far.")
    if whole.place(mark) != whole.place(middle):
        raise AmissError(f"the {mark} of the {half.name} does not lie on this seam.")
    opening = opening_of(whole, mark)
    seam = Seam(frozenset([(whole.name, whole.place(middle))]), opening)
    drawn = state.drawn | {(whole.name, mark)}
    return replace(state, drawn=drawn, seams=(*state.seams, seam))


def unite(state: State, act: SizedAct) -> State:
    """Sew a back and a front together that are cut differently; from then on they are one cloth."""
    back, front = state.strip(act.one("unite")), state.strip(act.one("with"))
    if back.width != front.width:
        raise DiffersError(f"the edge of the {front.name} beside the {back.name}", front.width, back.width)
    whole = united(back, front, act.one("at"), act.one("as"), act.one("middle"))
    gone = {back.name, front.name}
    strips = {name: strip for name, strip in state.strips.items() if name not in gone}
    drawn = state.drawn | {(whole.name, act.one("middle"))}
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


def even(state: State, act: SizedAct) -> State:
    """Look that cloths are equally wide, so that both sides of what they make are straight."""
    first, *others = [state.strip(name) for name in act.all("even")]
    for strip in others:
        if strip.width != first.width:
            raise DiffersError(f"the width of the {strip.name}", strip.width, first.width)
    return state


def _cloths(state: State, act: SizedAct) -> list[Strip]:
    return [state.strip(name) for name in act.all("on")]


def _with(state: State, strip: Strip) -> State:
    return replace(state, strips={**state.strips, strip.name: strip})
