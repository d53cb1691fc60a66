"""Which figure a step has: chosen by what it does to the cloth."""

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import Final

from patterns.drafting.sized import SizedPattern, SizedStep
from patterns.drafting.work import Verb
from patterns.drawings.folding.follow import Followed
from patterns.drawings.folding.state import amount
from patterns.drawings.folding.strips import Strip

from . import (
    bag_figures,
    bound_edge,
    creases,
    drawn_out,
    flat,
    hung_sides,
    loops,
    moments,
    sides,
    stack,
    together,
    top_edge,
    under_each_other,
    whole,
    window_in_place,
    zip_ends,
    zip_in_place,
)
from .board import StepFigure
from .done import Done


def figure_of(sized: SizedPattern, step: SizedStep, told: Followed) -> StepFigure | None:
    """Return the figure of a step as it was followed; None for one that does nothing to the cloth.

    Of several acts the last that can be drawn counts; those that only look are part of what came before.
    """
    for number in range(len(told.acts) - 1, -1, -1):
        act, after = told.acts[number]
        before = told.acts[number - 1][1] if number else told.before
        draw = FIGURES[act.verb]
        if draw:
            acts = tuple(each for each, _ in told.acts)
            return draw(Done(sized, step.title, act, before, after, told.before, told.after, acts))
    return None


def _are_of_one_width(strips: Sequence[Strip]) -> bool:
    """Whether they are several rectangles that are best shown one under the other."""
    return (
        len(strips) > 1
        and not any(strip.corners for strip in strips)
        and len({strip.width for strip in strips}) == 1
    )


def _cut(done: Done) -> StepFigure:
    strips = [done.after_all.strip(act.one("as")) for act in done.alike("cut")]
    counts = {piece.name: piece.cut for piece in done.sized.pieces}
    if _are_of_one_width(strips):
        return under_each_other.cut_several(strips, [counts[strip.piece] for strip in strips], done.units)
    if several := bag_figures.cut(done):
        return several
    strip = done.after.strip(done.act.one("as"))
    return flat.cut_out(strip, counts[strip.piece], done.units)


def _fuse(done: Done) -> StepFigure:
    strips = [done.after_all.strip(act.one("to")) for act in done.alike("fuse")]
    if _are_of_one_width(strips):
        return under_each_other.fused_several(strips, done.units)
    if several := bag_figures.fused(done):
        return several
    return flat.fused(done.after.strip(done.act.one("to")), done.units)


def _join(done: Done) -> StepFigure:
    half, whole_cloth = done.before.strip(done.act.one("join")), done.after.strip(done.act.one("as"))
    allowance = half.length - whole_cloth.joins[0]
    left_open = done.after.seams[-1].opening if done.act.all("leave") else None
    return together.sewn_together(half, half, allowance, left_open, done.units, done.title)


def _mark(done: Done) -> StepFigure:
    if several := bag_figures.marked(done):
        return several
    acts = done.alike("mark")
    strips = [done.after_all.strip(act.all("on")[0]) for act in acts]
    if _are_of_one_width(strips):
        alike = [name for act in acts for name in act.all("on")[1:]]
        return under_each_other.marked_several(strips, [act.all("mark") for act in acts], alike, done.units)
    lines = done.act.all(done.act.verb)
    if clips := done.alike("clip"):  # what is clipped shows the lines of its step as well
        strips = [done.after_all.strip(clips[0].one("on"))]
        added = [name for act in (*acts, *clips) for name in act.all(act.verb) if name in strips[0].lines]
        return flat.marked(done.after_all, strips, added, done.before_all, done.units)
    return flat.marked(done.after, _alike(done, lines), lines, done.before_all, done.units)


def _crease(done: Done) -> StepFigure:
    lines = done.act.all("crease")
    return creases.creased(done.after, _alike(done, lines), lines, done.units)


def _seam(done: Done) -> StepFigure:
    (below, mark), (above, _) = (done.after.mark(name) for name in done.act.all("seam"))
    opening = done.after.seams[-1].opening
    return together.sewn_together(below, above, _allowance(below, mark), opening, done.units, done.title)


def _press(done: Done) -> StepFigure:
    if done.after.sewn.bags:
        return bag_figures.pressed(done)
    one, mark = done.after.mark(done.act.all("press")[0])
    seam = next(each for each in done.after.seams if (one.name, one.place(mark)) in each.ends)
    other = next((done.after.strips[name] for name, _ in seam.ends if name != one.name), one)
    return together.pressed_open(one, other, _allowance(one, mark), done.units, done.title)


def _allowance(strip: Strip, mark: str) -> Fraction:
    along = strip.place(mark)
    return min(along, strip.length - along)


def _lay(done: Done) -> StepFigure:
    return moments.laid_out(done.after, done.units, done.title)


def _fold(done: Done) -> StepFigure:
    return moments.folded(done.before, done.after_all, done.act, done.units, done.title)


def _push(done: Done) -> StepFigure:
    return moments.pushed(done.before, done.after_all, done.act, done.units, done.title)


def _tuck(done: Done) -> StepFigure:
    return stack.stacked(done.after_all, done.units, done.title)


def _sew(done: Done) -> StepFigure:
    if done.after.zips:
        return hung_sides.sewn_across(done.after, done.units, done.title)
    return sides.sides_sewn(done.after, done.units, done.title)


def _trim(done: Done) -> StepFigure:
    if done.act.one("trim") == "sides":
        return bound_edge.trimmed_evenly(done.after, done.units, done.title)
    if done.after.zips:
        return hung_sides.ends_cut(done.after, done.units, amount(done.act, "leave"), done.title)
    return sides.trimmed(done.after, amount(done.act, "leave"), done.units, done.title)


def _turn(done: Done) -> StepFigure:
    if done.after.sewn.bags:
        return bag_figures.turned(done)
    if done.after.zips:
        left_open = next((seam.opening for seam in done.before.seams if seam.opening), None)
        return drawn_out.turned_through(done.before, done.after, left_open, done.units, done.title)
    opening = done.before.opened(done.act.one("through")).opening
    assert opening is not None
    return sides.turned_out(done.before, done.after, opening, done.units, done.title)


def _edge(done: Done) -> StepFigure:
    if done.after.sewn.bags:
        return bag_figures.top_edge(done)
    rows = [amount(act, "below") for act in done.alike("topstitch")]
    opening = next((seam.opening for seam in done.after.seams if seam.opening), None)
    return top_edge.edged(done.after, done.units, done.title, rows, opening)


def _finish(done: Done) -> StepFigure:
    return whole.open_and_flat(done.sized, done.after, done.title)


def _zip(done: Done) -> StepFigure:
    return zip_in_place.ready(done.after.strip(done.act.one("zip")), done.units, done.title)


def _set(done: Done) -> StepFigure:
    (outer, mark), (inner, _) = (done.after.mark(name) for name in done.act.all("between"))
    made = done.after.strip(done.act.one("set"))
    return zip_in_place.laid_between(outer, made, inner, _allowance(outer, mark), done.units, done.title)


def _fasten(done: Done) -> StepFigure:
    found = [done.after.mark(name) for name in done.act.all("fasten")]
    made = next(strip for strip, _ in found if strip.is_zip)
    (outer, mark), (inner, _) = (each for each in found if not each[0].is_zip)
    if len([layer for layer in done.after.layers if layer.strip == inner.name]) > 1:
        return loops.two_loops(done.after, made, done.units, done.title)
    return zip_in_place.sewn_in(outer, made, inner, _allowance(outer, mark), done.units, done.title)


def _edgestitch(done: Done) -> StepFigure:
    made = done.after.strip(done.act.one("beside"))
    return zip_ends.stitched_beside(done.after, done.after.rows[-1], made, done.units, done.title)


def _secure(done: Done) -> StepFigure:
    made = done.after_all.strip(done.act.one("secure"))
    return zip_ends.secured(done.after_all, made, done.title)


def _part(done: Done) -> StepFigure:
    made, _ = done.after.mark(done.act.one("about"))
    return loops.laid_apart(done.after, made, done.units, done.title)


def _close(done: Done) -> StepFigure:
    strip, _ = done.after.mark(done.act.one("close"))
    opening = done.after.opened(done.act.one("close")).opening
    assert opening is not None
    off = amount(done.act, "off")
    return drawn_out.closed(done.after, strip, opening, off, done.units, done.title)


def _unite(done: Done) -> StepFigure:
    back, front = done.before.strip(done.act.one("unite")), done.before.strip(done.act.one("with"))
    allowance = _allowance(back, done.act.one("at"))
    return together.sewn_together(front, back, allowance, None, done.units, done.title)


def _hem(done: Done) -> StepFigure:
    return window_in_place.pressed_in(_edges(done, "hem"), done.units, done.title)


def _mount(done: Done) -> StepFigure:
    return window_in_place.basted(done.after_all, done.units, done.title)


def _lap(done: Done) -> StepFigure:
    window, _ = done.after.mark(done.act.one("lap"))
    if done.act.all("round"):
        return window_in_place.made_round(done.after, window, done.units, done.title)
    return window_in_place.lapped(
        _edges(done, "between"), window, done.after.laps[-1], done.units, done.title
    )


def _edges(done: Done, key: str) -> window_in_place.Edges:
    (outer, mark), (inner, _) = (done.after.mark(name) for name in done.act.all(key))
    return window_in_place.edges_of(outer, mark, inner)


def _even(done: Done) -> StepFigure:
    strips = tuple(done.after.strip(name) for name in done.act.all("even"))
    return window_in_place.made_even(strips, done.units, done.title)


def _fourfold(done: Done) -> StepFigure:
    strip = done.after.strip(done.act.one("fourfold"))
    count = next(piece.cut for piece in done.sized.pieces if piece.name == strip.piece)
    return bound_edge.in_four(strip, count, done.units, done.title)


def _bind(done: Done) -> StepFigure:
    strip = done.after.strip(done.act.one("with"))
    return bound_edge.bound(done.after, strip, amount(done.act, "long"), done.units, done.title)


FIGURES: Final[Mapping[Verb, Callable[[Done], StepFigure] | None]] = {
    "cut": _cut,
    "fuse": _fuse,
    "join": _join,
    "mark": _mark,
    "clip": _mark,
    "crease": _crease,
    "stack": None,
    "seam": _seam,
    "press": _press,
    "lay": _lay,
    "fold": _fold,
    "push": _push,
    "tuck": _tuck,
    "meet": None,
    "sew": _sew,
    "trim": _trim,
    "turn": _turn,
    "edge": _edge,
    "topstitch": _edge,
    "finish": _finish,
    "zip": _zip,
    "set": _set,
    "fasten": _fasten,
    "spread": None,
    "edgestitch": _edgestitch,
    "secure": _secure,
    "open": None,
    "shorten": None,
    "part": _part,
    "close": _close,
    "slip": None,
    "unite": _unite,
    "hem": _hem,
    "mount": _mount,
    "lap": _lap,
    "reverse": None,
    "even": _even,
    "fourfold": _fourfold,
    "bind": _bind,
    **bag_figures.FIGURES,
}
"""The figure of each verb; none of one that is seen in the next act or only looks."""


def _alike(done: Done, lines: Sequence[str]) -> list[Strip]:
    """Return the first cloth of an act, and those that have the same lines at the same places."""
    strips = [done.after.strip(name) for name in done.act.all("on")]
    first = strips[0]
    return [
        strip
        for strip in strips
        if (strip.width, strip.length) == (first.width, first.length)
        and all(strip.line(line) == first.line(line) for line in lines)
    ]
