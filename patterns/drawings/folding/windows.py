"""Acts on a clear window and the cloths that it hangs between: edges turned in, cloths paired, window lapped.

Exterior and lining are worked as one cloth there, because the window is outside and lining at once.
"""

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from patterns.drafting.lists import listed
from patterns.drafting.sized import SizedAct

from .errors import AmissError
from .layers import Layer, Side, folded_over
from .seaming import without_allowance
from .state import DiffersError, Lap, Seam, State, amount
from .strips import Strip


def hem(state: State, act: SizedAct) -> State:
    """Fold edges to their own wrong sides along lines that lie on each other, and press them."""
    state.place(act.all("hem"))
    found = [state.mark(name) for name in act.all("hem")]
    first, *others = [(strip, _turned_in(strip, strip.place(mark))) for strip, mark in found]
    for strip, deep in others:
        if deep != first[1]:
            raise DiffersError(f"what is turned in of the {strip.name}", deep, first[1])
    ends = {strip.name: strip.place(mark) for strip, mark in found}
    layers = tuple(without_allowance(layer, state.strip(layer.strip), ends) for layer in state.layers)
    return replace(state, hems=state.hems | set(ends.items())).laid(layers)


def _turned_in(strip: Strip, along: Fraction) -> Fraction:
    return min(along, strip.length - along)


def mount(state: State, act: SizedAct) -> State:
    """Baste two cloths together at their sides, wrong sides together: from then on they are one.

    free: what stays unsewn at the edges that are turned in, which must be more than a window takes there.
    """
    names = act.all("mount")
    lying = [layer for layer in state.layers if layer.strip in names]
    if len(names) != 2 or {layer.strip for layer in lying} != set(names):
        raise AmissError("two cloths that lie on each other are basted together.")
    below, above = lying[0], lying[-1]
    if (below.up, above.down) != ("wrong", "wrong"):
        raise AmissError(f"the {listed(names, 'and')} do not lie wrong sides together.")
    for side in ("left", "right"):
        one, other = getattr(below, side), getattr(above, side)
        if one != other:
            raise DiffersError(
                f"the {above.strip} from edge to edge", above.right - above.left, below.right - below.left
            )
    free = amount(act, "free")
    for strip, along in sorted(state.hems):
        deep = _turned_in(state.strips[strip], along)
        if strip in names and free <= deep:
            raise AmissError(f"basted so near to the fold, the {strip} leaves no room for the window.")
    return replace(state, pairs={**state.pairs, frozenset(names): free})


def lap(state: State, act: SizedAct) -> State:
    """Slide an edge of a window between two folds, up to its lap line, and sew two rows through all three.

    The rows hold the window and what is turned in. round: where the work is folded, so that the window's
    other edge comes between its two folds and the work is a loop, its exterior outside.
    """
    window, line = state.mark(act.one("lap"))
    folds = [state.mark(name) for name in act.all("between")]
    rows = amount(act, "first"), amount(act, "second")
    _look_at_rows(state, window, line, folds, rows)
    if act.all("round"):
        state = _made_round(state, window, act.all("round"))
    elif window.name in {layer.strip for layer in state.layers}:
        raise AmissError(f"nothing says where the work is folded, so that the {window.name} comes round.")
    else:
        state = _laid_between(state, window, line, folds)
    state.place([act.one("lap"), *act.all("between")])
    along = window.place(line)
    ends = frozenset([(window.name, along), *((strip.name, strip.place(mark)) for strip, mark in folds)])
    layers = tuple(
        without_allowance(layer, window, {window.name: along}) if layer.strip == window.name else layer
        for layer in state.layers
    )
    seams = (*state.seams, Seam(ends))
    return replace(state, seams=seams, laps=(*state.laps, Lap(ends, rows))).laid(layers)


def _look_at_rows(
    state: State,
    window: Strip,
    line: str,
    folds: Iterable[tuple[Strip, str]],
    rows: tuple[Fraction, Fraction],
) -> None:
    lapped = _turned_in(window, window.place(line))
    first, second = rows
    if not 0 < first < second:
        raise AmissError("the second row does not lie beyond the first.")
    if second >= lapped:
        raise AmissError(
            f"the second row misses the {window.name}: it does not lie so deep between the folds."
        )
    names = frozenset(strip.name for strip, _ in folds)
    if names not in state.pairs:
        raise AmissError(f"the {listed(sorted(names), 'and')} are not one cloth so far.")
    if state.pairs[names] <= lapped:
        raise AmissError(f"the {listed(sorted(names), 'and')} are basted where the {window.name} goes in.")
    for strip, mark in folds:
        end = (strip.name, strip.place(mark))
        if end not in state.hems:
            raise AmissError(f"the {mark} of the {strip.name} is not pressed in so far.")
        if _turned_in(strip, end[1]) <= second:
            raise AmissError(f"the second row misses what is turned in of the {strip.name}.")


def _laid_between(state: State, window: Strip, line: str, folds: Iterable[tuple[Strip, str]]) -> State:
    """Lay a window between two folds, its other edge pointing away from them."""
    ends = {strip.name: strip.place(mark) for strip, mark in folds}
    at = [number for number, layer in enumerate(state.layers) if layer.strip in ends]
    if len(at) != 2:
        raise AmissError(f"the {listed(sorted(ends), 'and')} do not lie on the table.")
    lower = state.layers[at[0]]
    place = lower.place(ends[lower.strip])
    way: Literal[1, -1] = -1 if lower.left == place else 1
    along = window.place(line)
    runs: Literal[1, -1] = way if 2 * along < window.length else (-1 if way == 1 else 1)
    outside = state.strips[lower.strip].tint == "exterior"
    up: Side = "wrong" if outside else "right"
    put = Layer(window.name, Fraction(0), window.length, place - runs * along, runs, up)
    return state.laid((*state.layers[: at[-1]], put, *state.layers[at[-1] :]))


def _made_round(state: State, window: Strip, marks: Iterable[str]) -> State:
    """Fold a flat strip at two places, so that its ends meet: first the far part over, then its end under.

    Lining lies inside then: the strip lies with its exterior underneath.
    """
    first, *others = marks
    hinge = state.place([first])
    hangs = next(layer for layer in state.layers if layer.strip == window.name)
    state = replace(state, layers=folded_over(state.layers, hinge, hangs.right <= hinge, is_under=False))
    line = state.place(others)
    return state.laid(folded_over(state.layers, line, line > hinge, is_under=True))


def reverse(state: State, act: SizedAct) -> State:
    """Turn a loop that lies flat, open at its sides, so that another cloth lies outside.

    Read round, the layers keep their order: the gap inside and the one outside change places. What lay
    underneath is the front, and lies on top then.
    """
    if state.sides is not None or not state.layers:
        raise AmissError("nothing lies there open at its sides.")
    name = act.one("reverse")
    tint = state.strip(name).tint
    front = [layer for layer in state.layers if _faces_out_below(state, layer)]
    back = [layer for layer in state.layers if layer not in front]
    turned = [*back, *front]
    for layer, face in ((turned[0], turned[0].down), (turned[-1], turned[-1].up)):
        strip = state.strips[layer.strip]
        if strip.tint == tint and face != "right":
            raise AmissError(f"the {name} lies outside already.")
    return state.laid(turned)


def _faces_out_below(state: State, layer: Layer) -> bool:
    """Whether the side that is outside once the work is finished faces down."""
    strip = state.strips[layer.strip]
    out: Side = "wrong" if strip.tint == "lining" else "right"
    return layer.down == out
