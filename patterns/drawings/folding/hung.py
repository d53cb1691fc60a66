"""Acts on what hangs from a zip: laid apart, sewn at both sides, turned, closed, one put in the other.

Either two loops hang from it, one on each side of its seams, or one loop of two cloths worked as one.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from patterns.drafting.lists import listed
from patterns.drafting.recipe import Tint
from patterns.drafting.sized import SizedAct

from .errors import AmissError
from .layers import Layer, Side, Zone, look_for_crossings, other_side, zones
from .seaming import common
from .state import DiffersError, SideSeams, State, amount
from .strips import Strip


def part(state: State, act: SizedAct) -> State:
    """Lay two loops apart, each folded right sides together at a mark, zip seam on zip seam.

    The first lies to the left of the seams, the second to the right; the zip is folded at its teeth,
    between the layers of the second. Raises AmissError: the seams do not lie on each other then.
    """
    made, teeth = state.mark(act.one("about"))
    seams = [seam.ends for seam in state.seams if made.name in dict(seam.ends)]
    if not made.is_zip or teeth != "teeth" or len(seams) != 2:
        raise AmissError("no loops hang from the teeth of a zip there.")
    seams.sort(key=lambda ends: dict(ends)[made.name])
    lower, upper = [], []
    folded = [(strip, strip.place(mark), way) for (strip, mark), way in _with_ways(state, act.all("part"))]
    for strip, fold, way in (*folded, (made, made.place(teeth), 1)):
        if any(strip.name not in dict(ends) for ends in seams):
            raise AmissError(f"the {strip.name} does not hang from the {made.name}.")
        start, end = (dict(ends)[strip.name] for ends in seams)
        if fold - start != end - fold:
            raise DiffersError(
                f"the {strip.name} from the back zip seam to its fold", end - fold, fold - start
            )
        lower.append(Layer(strip.name, start, fold, -way * start, 1 if way == 1 else -1, "right"))
        upper.append(Layer(strip.name, fold, end, way * end, -1 if way == 1 else 1, "wrong"))
    (one, other, tape), (one_up, other_up, tape_up) = lower, upper
    return state.laid((one, other, tape, tape_up, one_up, other_up))


def _with_ways(state: State, names: Sequence[str]) -> Iterable[tuple[tuple[Strip, str], Literal[1, -1]]]:
    if len(names) != 2:
        raise AmissError("two loops are laid apart.")
    return (state.mark(names[0]), -1), (state.mark(names[1]), 1)


def is_hung(state: State) -> bool:
    """Whether two loops lie on either side of the seams of a zip."""
    return len(_groups(state)) == 2


def _groups(state: State) -> list[list[Layer]]:
    """Return the layers of cloth left and right of the zip's seams: one group, if they lie on one side."""
    seam = _seam_place(state)
    cloth = [layer for layer in state.layers if not state.strips[layer.strip].is_zip]
    left = [layer for layer in cloth if layer.right <= seam]
    return [group for group in (left, [layer for layer in cloth if layer not in left]) if group]


def _seam_place(state: State) -> Fraction:
    zips = {strip.name for strip in state.zips}
    for seam in state.seams:
        if zips & {strip for strip, _ in seam.ends}:
            for layer in state.layers:
                along = dict(seam.ends).get(layer.strip)
                if along is not None and along in (layer.start, layer.end):
                    return layer.place(along)
    raise AmissError("nothing hangs from a zip.")


def sew_across(state: State, act: SizedAct) -> State:
    """Sew each side in one seam, over the zip: from bottom folds to bottom folds, or to the fold at the top.

    So many layers lie at the bottom folds, and not fewer than so many above the pleats; the faces that touch
    are such as may. Two loops end level, and nothing that was stitched before ties them together there.
    """
    left, right = (common(state, act, name) for name in act.all("sew"))
    groups, seam = _groups(state), _seam_place(state)
    heights = []
    for group in groups:
        found = zones(group)
        is_left = min(layer.left for layer in group) < seam
        lowest, *rest = found if is_left else reversed(found)
        names = listed(sorted({layer.strip for layer in group}), "and")
        _count(names, lowest, rest, int(amount(act, "layers")), int(amount(act, "above")))
        for zone in found:
            if wrong := faces_amiss(zone.layers, state.strips):
                raise AmissError(f"at the side seams {wrong}.")
        heights.append((names, abs((lowest.left if is_left else lowest.right) - seam)))
    if len(groups) == 2:
        _look_that_they_part(state, heights)
    for made in state.zips:
        if made.name not in state.secured:
            raise AmissError(f"the {made.name} is not sewn across its ends so far.")
    doubled = max(layer.right - layer.left for layer in pleats(state))
    return replace(state, sides=SideSeams(min(left, right), max(left, right), doubled))


def _count(names: str, lowest: Zone, rest: Sequence[Zone], told: int, above: int) -> None:
    if len(lowest.layers) != told:
        raise AmissError(
            f"at the bottom folds of the {names} the side edge shows {len(lowest.layers)} layers; "
            f"told are {told}."
        )
    least = min((len(zone.layers) for zone in rest), default=0)
    if least < above:
        raise AmissError(
            f"above the bottom folds of the {names} the side edge shows {least} layers; told are {above}."
        )


def _look_that_they_part(state: State, heights: Sequence[tuple[str, Fraction]]) -> None:
    (one, height), (other, other_height) = heights
    if height != other_height:
        raise DiffersError(
            f"the {other} from the zip seams to its bottom fold, beside the {one},", other_height, height
        )
    for row in state.rows:
        if row.short <= 0:
            raise AmissError(
                f"the row beside the zip runs on into the side seams, and ties "
                f"{listed(sorted(row.strips), 'and')} together where they must part."
            )


def pleats(state: State) -> list[Layer]:
    """Return the layers that lie between two folds of their cloth. Raises AmissError: there are none."""
    sewn = {end for seam in state.seams if len(seam.ends) > 1 for end in seam.ends} | state.hems
    found = [
        layer
        for layer in state.layers
        if not sewn & {(layer.strip, layer.start), (layer.strip, layer.end)}
        and not state.strips[layer.strip].is_zip
    ]
    if not found:
        raise AmissError("nothing is folded in or up at the bottom.")
    return found


def faces_amiss(layers: Sequence[Layer], strips: Mapping[str, Strip]) -> str:
    """Return what is wrong with the faces that touch, read round a side seam; "" if nothing is.

    As in `layers.faces_amiss`, but cloths of one fabric count as one, and a zip and a clear window have
    both sides outside.
    """
    for number, layer in enumerate(layers):
        above = layers[(number + 1) % len(layers)]
        one, other = strips[layer.strip], strips[above.strip]
        if any(strip.is_zip or strip.tint == "clear" for strip in (one, other)):
            continue
        if layer.up != above.down:
            return (
                f"the {layer.up} side of the {layer.strip} lies on the {above.down} side of the {above.strip}"
            )
        if one.tint != other.tint and layer.up != "wrong":
            return f"the {layer.strip} lies right sides together on the {above.strip}"
    return ""


def _begun(
    layers: Sequence[Layer], strips: Mapping[str, Strip], tint: Tint | None, out: Side
) -> list[list[Layer]]:
    """Return layers that a side seam holds, begun elsewhere, so that that side of a fabric lies outside.

    They keep their order round the seam; there may be several beginnings. Raises AmissError: no beginning
    brings it outside everywhere.
    """
    found = []
    for first in range(len(layers)):
        turned = [*layers[first:], *layers[:first]]
        if all(
            _shows(zone.layers[0], zone.layers[0].down, strips, tint, out)
            and _shows(zone.layers[-1], zone.layers[-1].up, strips, tint, out)
            for zone in zones(turned)
        ) and _holds_together(turned):
            found.append(turned)
    if not found:
        names = listed(sorted({layer.strip for layer in layers}), "and")
        raise AmissError(f"no turning brings the {out} side of the {names} outside.")
    return found


def _front_up(state: State, ways: Sequence[list[Layer]]) -> list[Layer]:
    """Return that way of lying, or of being turned over, in which the front lies on top and no pleat over it.

    The front hangs from the front tape. A thing that has none so lies as it came.
    """
    made = state.zips[0]
    front = {
        strip
        for seam in state.seams
        if (made.name, made.place("front seam line")) in seam.ends
        for strip, _ in seam.ends
        if strip != made.name
    }
    folded = pleats(state)
    for way in ways:
        over = [replace(layer, up=other_side(layer.up)) for layer in reversed(way)]
        for lying in (way, over):
            tops = [zone.layers[-1] for zone in zones(lying)]
            if not any(_same(top, pleat) for top in tops for pleat in folded) and any(
                top.strip in front for top in tops
            ):
                return lying
    return ways[0]


def _same(one: Layer, other: Layer) -> bool:
    return (one.strip, one.start, one.end) == (other.strip, other.start, other.end)


def _shows(layer: Layer, face: Side, strips: Mapping[str, Strip], tint: Tint | None, out: Side) -> bool:
    strip = strips[layer.strip]
    return strip.tint == "clear" or (strip.is_zip and face == "right") or (strip.tint == tint and face == out)


def _holds_together(layers: Sequence[Layer]) -> bool:
    try:
        look_for_crossings(tuple(layers), [])
    except AmissError:
        return False
    return True


def turn_out(state: State, act: SizedAct) -> State:
    """Turn what hangs from a zip right side out: through an opening and the zip, or through the zip alone.

    Of two loops both are drawn out; the second hangs out of the open zip, whose tapes lie apart then.
    """
    if state.sides is None:
        raise AmissError("the sides are not sewn so far.")
    through, _ = state.mark(act.one("through"))
    for made in state.zips:
        if made.name not in state.unzipped:
            raise AmissError(f"the {made.name} is shut, and nothing can be drawn through it.")
    wanted = act.one("turn")
    if not is_hung(state):
        if not through.is_zip:
            raise AmissError(f"the way out is the zip, not the {act.one('through')}.")
        turned = _begun(state.layers, state.strips, state.strip(wanted).tint, "right")
        return replace(state, outside=wanted).laid(_front_up(state, turned))
    if through.is_zip:
        raise AmissError(f"drawn through the {through.name} alone, the seams would stay outside.")
    state.opened(act.one("through"))
    first, second = (
        _begun(group, state.strips, state.strips[group[0].strip].tint, "right")[0] for group in _groups(state)
    )
    if first[0].strip != wanted:
        raise AmissError(f"the {wanted} is not the loop that is drawn out first.")
    return replace(state, outside=wanted).laid((*first, *second))


def close(state: State, act: SizedAct) -> State:
    """Close an opening by stitching its two turned-in edges together, so far from the edge."""
    seam = state.opened(act.one("close"))
    strip, _ = state.mark(act.one("close"))
    if not state.outside:
        raise AmissError("nothing could be turned through it any more.")
    off = amount(act, "off")
    (_, along), *_ = seam.ends
    allowance = min(
        (
            abs(along - each)
            for each in (line.place for line in strip.lines.values() if line.kind == "fold")
            if each is not None and each != along
        ),
        default=along,
    )
    if not 0 < off < allowance:
        raise AmissError("the row does not lie on both edges.")
    return replace(state, shut=state.shut | {act.one("close")})


def slip(state: State, act: SizedAct) -> State:
    """Push a loop into the other, wrong side on wrong side, and shut the zip over them, folded at its teeth.

    Its bottom folds come to lie on the other's; its openings must be closed.
    """
    inner, outer = act.one("slip"), act.one("into")
    if state.outside != outer:
        raise AmissError(f"the {outer} is not turned right side out so far.")
    groups = _groups(state)
    if len(groups) != 2 or {groups[0][0].strip, groups[1][0].strip} != {inner, outer}:
        raise AmissError(f"the {inner} does not hang out of the {outer}.")
    for seam in state.seams:
        if seam.opening and f"{seam.opening.strip} {seam.opening.mark}" not in state.shut:
            raise AmissError(f"the {seam.opening.strip} {seam.opening.mark} is not closed so far.")
    around = next(group for group in groups if group[0].strip == outer)
    hanging = next(group for group in groups if group[0].strip == inner)
    _look_at_triangles(around, "right", outer)
    _look_at_triangles(hanging, "wrong", inner)
    place = _seam_place(state)
    hidden = _begun(hanging, state.strips, state.strips[inner].tint, "wrong")[0]
    put = [layer.over(place) for layer in reversed(hidden)]
    walls = [number for number, layer in enumerate(around) if place in (layer.left, layer.right)]
    made = state.zips[0]
    tapes = _tapes(state, made, around[walls[-1]], place, 1 if around[0].right <= place else -1)
    low, high = around[: walls[-1]], around[walls[-1] :]
    return state.laid((*low, *put, tapes[0], tapes[1], *high))


def _look_at_triangles(layers: Sequence[Layer], on: Side, name: str) -> None:
    """A wall meets its own pleat right on right where the triangle shows, wrong on wrong where it hides."""
    for number, layer in enumerate(layers):
        above = layers[(number + 1) % len(layers)]
        is_wall_and_pleat = (layer.right - layer.left) != (above.right - above.left)
        if is_wall_and_pleat and layer.up != on:
            where = "hidden between the two" if on == "wrong" else "outside"
            raise AmissError(f"the triangles of the {name} would not stand {where}.")


def _tapes(state: State, made: Strip, front: Layer, place: Fraction, way: Literal[1, -1]) -> list[Layer]:
    """Return both halves of a zip over the edge, folded at the teeth, the front's above the back's."""
    seams = [dict(seam.ends) for seam in state.seams if made.name in dict(seam.ends)]
    along = next(ends[made.name] for ends in seams if ends.get(front.strip) in (front.start, front.end))
    other = next(ends[made.name] for ends in seams if ends[made.name] != along)
    teeth = made.place("teeth")
    found = []
    for sewn, up in ((other, other_side("right")), (along, "right")):
        start, end = sorted((sewn, teeth))
        runs: Literal[1, -1] = way if sewn == start else (-1 if way == 1 else 1)
        found.append(Layer(made.name, start, end, place - runs * sewn, runs, up))
    return found
