"""Which figure a step has: chosen by what it does to the cloth."""

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import Final

from patterns.drafting.sized import SizedPattern, SizedStep
from patterns.drafting.work import Verb
from patterns.drawings.folding.follow import Followed
from patterns.drawings.folding.state import amount
from patterns.drawings.folding.strips import Strip

from . import bag_figures, creases, flat, moments, sides, stack, together, top_edge, whole
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


def _cut(done: Done) -> StepFigure:
    if several := bag_figures.cut(done):
        return several
    strip = done.after.strip(done.act.one("as"))
    count = next(piece.cut for piece in done.sized.pieces if piece.name == strip.piece)
    return flat.cut_out(strip, count, done.units)


def _fuse(done: Done) -> StepFigure:
    if several := bag_figures.fused(done):
        return several
    return flat.fused(done.after.strip(done.act.one("to")), done.units)


def _join(done: Done) -> StepFigure:
    half, whole_cloth = done.before.strip(done.act.one("join")), done.after.strip(done.act.one("as"))
    allowance = half.length - whole_cloth.joins[0]
    return together.sewn_together(half, half, allowance, None, done.units, done.title)


def _mark(done: Done) -> StepFigure:
    if several := bag_figures.marked(done):
        return several
    lines = done.act.all(done.act.verb)
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
    return sides.sides_sewn(done.after, done.units, done.title)


def _trim(done: Done) -> StepFigure:
    return sides.trimmed(done.after, amount(done.act, "leave"), done.units, done.title)


def _turn(done: Done) -> StepFigure:
    if done.after.sewn.bags:
        return bag_figures.turned(done)
    opening = done.before.opened(done.act.one("through")).opening
    assert opening is not None
    return sides.turned_out(done.before, done.after, opening, done.units, done.title)


def _edge(done: Done) -> StepFigure:
    if done.after.sewn.bags:
        return bag_figures.top_edge(done)
    below = amount(done.act, "below") if done.act.verb == "topstitch" else None
    opening = next((seam.opening for seam in done.after.seams if seam.opening), None)
    return top_edge.edged(done.after, done.units, done.title, below, opening)


def _finish(done: Done) -> StepFigure:
    return whole.open_and_flat(done.sized, done.after, done.title)


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
