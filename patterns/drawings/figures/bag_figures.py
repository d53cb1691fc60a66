"""Which figure a step has that sews a bag, a handle, a pocket or a cord, or works several cloths at once."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Final

from patterns.drafting.sized import SizedAct
from patterns.drafting.work import Verb
from patterns.drawings.folding.bag_parts import Bag
from patterns.drawings.folding.bags import bag_of
from patterns.drawings.folding.cords import gap_at
from patterns.drawings.folding.nesting import open_now
from patterns.drawings.folding.pockets import pocket_of
from patterns.drawings.folding.rounds import allowance_of
from patterns.drawings.folding.state import State, amount
from patterns.drawings.folding.strips import Strip, strip_of

from . import (
    abreast,
    bagged,
    cord_channel,
    cut_corners,
    drawn_together,
    marked_abreast,
    packing,
    pockets,
    ribbon_caught,
    round_base,
    round_rim,
    straps,
    together,
)
from .board import StepFigure
from .done import Done


def cut(done: Done) -> StepFigure | None:
    """Of several pieces, or of one that is no rectangle; what a later step cuts out is still there."""
    acts = done.alike("cut")
    strips = [done.after_all.strip(act.one("as")) for act in acts]
    later = {
        name
        for step in done.sized.steps
        for act in step.work
        for name in act.all("of")
        if act.verb == "remove"
    }
    if len(strips) == 1 and (not strips[0].corners or strips[0].name in later):
        return None
    return abreast.cut_abreast(strips, done.units, done.title)


def fused(done: Done) -> StepFigure | None:
    """Of cloths that are no rectangles, or of several backed in one step; those alike once."""
    strips = [done.after_all.strip(act.one("to")) for act in done.alike("fuse")]
    if len(strips) == 1 and not strips[0].corners:
        return None
    pieces = {piece.name: piece for piece in done.sized.pieces}
    shown: dict[str, list[Strip]] = {}
    for strip in strips:
        assert strip.fused is not None
        shown.setdefault(strip.fused[0], []).append(strip)
    backing = [strip_of(done.sized, pieces[name], name) for name in shown]
    return abreast.fused_abreast(list(shown.values()), backing, done.units, done.title)


def marked(done: Done) -> StepFigure | None:
    """Of cloths that are no rectangles, or sewn to something round; of several acts together."""
    acts = done.alike("mark")
    groups = [
        marked_abreast.Group(
            _alike([done.after_all.strip(name) for name in act.all("on")]),
            act.all("mark"),
            act.one("face") == "right side",
        )
        for act in acts
    ]
    is_plain = all(_is_plain(group) for group in groups)
    if done.act.verb != "mark" or is_plain:
        return None
    return marked_abreast.marked(groups, done.before_all.drawn, done.units, done.title)


def _is_plain(group: marked_abreast.Group) -> bool:
    """Whether a cloth is a panel that is marked with lines across it, as those are that are folded."""
    strip = group.strips[0]
    kinds = {strip.line(name).kind for name in group.names}
    has_line_round = any(line.inside is not None for line in strip.lines.values())
    return not strip.corners and not has_line_round and kinds != {"place"}


def _alike(strips: list[Strip]) -> list[Strip]:
    first = strips[0]
    return [strip for strip in strips if (strip.width, strip.length) == (first.width, first.length)]


def pressed(done: Done) -> StepFigure:
    strip, _ = done.after.mark(done.act.all("press")[0])
    bag = next(bag for bag in done.after.sewn.bags.values() if bag.strip == strip.name)
    gap = bag.gaps[0].length if bag.gaps else None
    return together.pressed_open(strip, strip, bag.allowance, done.units, done.title, gap)


def turned(done: Done) -> StepFigure:
    before, after = (bag_of(state, done.act.one("turn")) for state in (done.before, done.after))
    if done.act.all("through"):
        opening = open_now(done.before, done.act.one("through"))
        return bagged.drawn_out(done.after, opening, done.units, done.title)
    if done.alike("grade"):
        return _grade(done)
    return bagged.turned(before, after, done.after.strip(after.strip).tint, done.units, done.title)


def top_edge(done: Done) -> StepFigure:
    rows = [amount(act, "below") for act in done.alike("topstitch")]
    rim = done.before.sewn.rim
    assert rim is not None
    return bagged.top_edge(done.after, rows, done.units, done.title, rim.opening)


def _remove(done: Done) -> StepFigure:
    names = " and ".join(done.act.all("of"))
    strip = done.after.strip(done.act.all("of")[0])
    return cut_corners.corners_removed(strip, names, done.units, done.title)


def _pair(done: Done) -> StepFigure:
    bag = bag_of(done.after, done.act.one("pair"))
    edges = frozenset(done.act.one("edges").split(" and "))
    return cut_corners.sewn_up(done.after.strip(bag.strip), bag, edges, done.units, done.title)


def _pull(done: Done) -> StepFigure:
    bag = bag_of(done.after, done.act.one("pull"))
    return cut_corners.pulled_open(done.after.strip(bag.strip), bag, done.units, done.title)


def _ring(done: Done) -> StepFigure:
    bag = bag_of(done.after, done.act.one("ring"))
    return round_base.into_ring(done.after.strip(bag.strip), bag, done.units, done.title)


def _stay(done: Done) -> StepFigure:
    bag = bag_of(done.after, done.act.one("stay"))
    every = amount(done.act, "every")
    return round_base.stayed(done.after.strip(bag.strip), bag, every, done.units, done.title)


def _pin(done: Done) -> StepFigure:
    if done.act.all("quarters"):
        bag = bag_of(done.after, done.act.one("pin"))
        return _on_base(done, done.after, done.act.one("to"), bag, is_sewn=False)
    return _channel_of(done, "pins")


def _attach(done: Done) -> StepFigure:
    return _on_base(
        done, done.after, done.act.one("attach"), bag_of(done.after, done.act.one("as")), is_sewn=True
    )


def _on_base(done: Done, state: State, base: str, bag: Bag, is_sewn: bool) -> StepFigure:
    strip = state.strip(base)
    allowance = allowance_of(state, strip)
    return round_base.on_base(strip, state.strip(bag.strip), bag, allowance, is_sewn, done.units, done.title)


def _grade(done: Done) -> StepFigure:
    """Where the bag was sewn to its base in the same step, this is what there is to see."""
    bag = bag_of(done.after, done.alike("grade")[0].one("grade"))
    state = done.after
    base = next(state.strip(base) for side, base in state.sewn.pinned if side.startswith(bag.name))
    if done.alike("attach"):
        return _on_base(done, state, base.name, bag, is_sewn=True)
    return round_base.graded(state.strip(bag.strip), base, bag, done.units, done.title)


def _nest(done: Done) -> StepFigure:
    inner, _ = done.after_all.sewn.nested or ("", "")
    if bag_of(done.after_all, inner).is_round:
        return round_rim.rim_from_above(done.after_all, done.units, done.title)
    return bagged.nested(done.after_all, done.units, done.title)


def _shut(done: Done) -> StepFigure:
    opening = open_now(done.before, done.act.one("shut"))
    return bagged.shut(done.after, opening, done.units, done.title)


def _gather(done: Done) -> StepFigure:
    work = done.after.sewn
    assert work.channel is not None
    assert work.gathered is not None
    assert work.knotted is not None
    bag = bag_of(done.after, done.alike("gather")[0].one("round"))
    return drawn_together.gathered(done.sized, bag, work.channel, work.gathered, work.knotted, done.title)


def _stand(done: Done) -> StepFigure:
    """Where it was drawn shut in the same step, this is seen beside it."""
    if done.alike("gather"):
        return _gather(done)
    return bagged.stood(done.sized, done.after, bag_of(done.after, done.act.one("stand")), done.title)


def _narrow(done: Done) -> StepFigure:
    strip = done.before.strip(done.act.one("narrow"))
    first, last = sorted(strip.place(name) for name in done.act.all("at"))
    return straps.narrowed(done.before, strip, (first, last), done.units, done.title)


def _halve(done: Done) -> StepFigure:
    """The strip as it was cut, since folding takes its width away."""
    strip = done.before.strip(done.act.one("halve"))
    fold = strip.place(done.act.one("at"))
    half = strip.length / 2
    whole = strip_of(
        done.sized, next(each for each in done.sized.pieces if each.name == strip.piece), strip.name
    )
    below = _maybe(done.act, "below")
    folds = (fold - half, fold, fold + half)
    return straps.halved(done.before, whole, folds, below, done.units, done.title)


def _maybe(act: SizedAct, key: str) -> Fraction | None:
    return amount(act, key) if key in dict(act.amounts) else None


def _measure(done: Done) -> StepFigure:
    return straps.measured_off(done.after.strip(done.act.one("as")), done.units, done.title)


def _baste(done: Done) -> StepFigure:
    basted = done.after.sewn.handles[-1]
    strip = done.after.strip(basted.cloth)
    lines = [line.inside or line.place for line in strip.lines.values() if line.kind == "stitch"]
    allowance = min(place for place in lines if place is not None)
    return straps.basted_on(done.after, basted, allowance, done.units, done.title)


def _surround(done: Done) -> StepFigure:
    name = done.act.one("surround")
    return pockets.surrounded(done.after.strip(name), pocket_of(done.after, name), done.units, done.title)


def _evert(done: Done) -> StepFigure:
    name, below = done.act.one("evert"), _maybe(done.act, "below")
    return pockets.turned_pocket(
        done.after.strip(name), pocket_of(done.after, name), below, done.units, done.title
    )


def _apply(done: Done) -> StepFigure:
    name, cloth = done.act.one("apply"), done.after.strip(done.act.one("on"))
    mouth, foot = (cloth.line(line) for line in done.act.all("at"))
    pocket, strip = pocket_of(done.after, name), done.after.strip(name)
    below = amount(done.act, "below")
    return pockets.applied(cloth, strip, pocket, (mouth, foot), below, done.units, done.title)


def _pack(done: Done) -> StepFigure:
    parcel = done.after.sewn.parcel
    assert parcel is not None
    pocket = pocket_of(done.after, parcel.pocket)
    return packing.packed(done.after, parcel, pocket, amount(done.act, "below"), done.units, done.title)


def _stow(done: Done) -> StepFigure:
    parcel = done.after.sewn.parcel
    assert parcel is not None
    pocket = pocket_of(done.after, parcel.pocket)
    return packing.stowed(done.after, parcel, pocket, done.units, done.title)


def _frame(done: Done) -> StepFigure:
    bag, gap = gap_at(done.after, done.act.all("frame")[0])
    return cord_channel.framed(
        done.after.strip(bag.strip), gap, amount(done.act, "off"), done.units, done.title
    )


def _channel_of(done: Done, kind: str) -> StepFigure:
    channel = done.after.sewn.channel
    assert channel is not None
    bag = bag_of(done.after, channel.cloth)
    return cord_channel.channel_drawn(done.after.strip(bag.strip), bag, channel, kind, done.units, done.title)


def _draw(done: Done) -> StepFigure:
    return _channel_of(done, "lines")


def _channel(done: Done) -> StepFigure:
    return _channel_of(done, "rows")


def _thread(done: Done) -> StepFigure:
    bag, _ = gap_at(done.after, done.act.all("through")[0])
    cord = done.after.strip(done.act.one("thread"))
    return cord_channel.threaded(cord, bag.round, amount(done.act, "ends"), done.units, done.title)


def _knot(done: Done) -> StepFigure:
    ends = done.after.sewn.ends
    assert ends is not None
    return cord_channel.knotted(ends, amount(done.act, "place"), done.units, done.title)


def _catch(done: Done) -> StepFigure:
    """Of all ribbons that are basted on in one step."""
    names = [act.one("catch") for act in done.alike("catch")]
    caught = [each for each in done.after_all.sewn.caught if each.ribbon in names]
    return ribbon_caught.basted_at_the_sides(done.after_all, caught, done.units, done.title)


def _tie(done: Done) -> StepFigure:
    ribbon = done.after.sewn.tied
    assert ribbon is not None
    return drawn_together.tied(done.after, ribbon, done.units, done.title)


FIGURES: Final[Mapping[Verb, Callable[[Done], StepFigure]]] = {
    "remove": _remove,
    "pair": _pair,
    "pull": _pull,
    "ring": _ring,
    "stay": _stay,
    "attach": _attach,
    "grade": _grade,
    "nest": _nest,
    "rim": _nest,
    "shut": _shut,
    "stand": _stand,
    "narrow": _narrow,
    "halve": _halve,
    "baste": _baste,
    "surround": _surround,
    "evert": _evert,
    "apply": _apply,
    "pack": _pack,
    "stow": _stow,
    "measure": _measure,
    "frame": _frame,
    "draw": _draw,
    "pin": _pin,
    "channel": _channel,
    "thread": _thread,
    "knot": _knot,
    "gather": _gather,
    "catch": _catch,
    "tie": _tie,
}
