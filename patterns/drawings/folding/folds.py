"""Acts that fold what is seamed: lay out the loop, fold, push in, tuck, meet, turn, finish."""

from dataclasses import replace
from fractions import Fraction

from patterns.drafting.sized import SizedAct

from .errors import AmissError
from .layers import Bond, End, Layer, bonds, folded_over, other_side, zones
from .state import DiffersError, Seam, State, amount
from .strips import Strip


def lay(state: State, act: SizedAct) -> State:
    """Lay a loop of two cloths flat, seam on seam, folded at one mark of each.

    The first cloth lies to the left, the second to the right; the seam with the opening lies underneath.
    Raises AmissError: it is no loop, or the seams do not lie on each other then.
    """
    folded = [state.mark(name) for name in act.all("lay")]
    under = state.opened(act.one("under"))
    others = [seam for seam in state.seams if seam != under]
    if len(folded) != 2 or len(others) != 1:
        raise AmissError("two cloths joined by two seams make a loop; this is none.")
    outside = {
        layer.strip: layer.down if number == 0 else layer.up for number, layer in enumerate(state.layers)
    }
    lower, upper = (
        [_half(strip, mark, seam, -1 if number == 0 else 1) for number, (strip, mark) in enumerate(folded)]
        for seam in (under, others[0])
    )
    for one, other in zip(lower, upper, strict=True):
        longest, shortest = one.right - one.left, other.right - other.left
        if longest != shortest:
            raise DiffersError(f"the {one.strip} from the seam above to its fold", shortest, longest)
    below = [replace(layer, up=other_side(outside[layer.strip])) for layer in lower]
    above = [replace(layer, up=outside[layer.strip]) for layer in upper]
    return state.laid((*below, *above))


def _half(strip: Strip, mark: str, seam: Seam, side: int) -> Layer:
    """Return a cloth from its seam, which lies at 0, to its fold, on that side of it."""
    sewn = dict(seam.ends)
    if strip.name not in sewn:
        raise AmissError(f"the {strip.name} is not part of the loop.")
    start, end = sorted((sewn[strip.name], strip.place(mark)))
    way = side if sewn[strip.name] == start else -side
    return Layer(strip.name, start, end, -way * sewn[strip.name], 1 if way == 1 else -1, "wrong")


def fold(state: State, act: SizedAct) -> State:
    """Fold everything beyond a line, over or under the rest. The marks of the fold lie on each other.

    bring: a mark that lies beyond the line, and so says which part moves.
    """
    line = state.place(act.all("fold"))
    beyond = state.place([act.one("bring")])
    if beyond == line:
        raise AmissError(f"the {act.one('bring')} lies on the fold itself.")
    return state.laid(folded_over(state.layers, line, beyond > line, act.one("way") == "under"))


def push(state: State, act: SizedAct) -> State:
    """Push a fold in between its two layers, until two marks lie on each other at the end."""
    bond = _fold_at(state, act.one("push"))
    line = state.place(act.all("between"))
    if line == bond.place:
        raise AmissError(f"the {act.one('push')} would not move.")
    strip, _ = state.mark(act.one("push"))
    as_one = next((names for names in state.pairs if strip.name in names), None)
    if as_one:
        return _pushed_as_one(state, bond.place, line, as_one)
    if bond.upper != bond.lower + 1 and any(
        layer.left < bond.place < layer.right for layer in state.layers[bond.lower + 1 : bond.upper]
    ):
        raise AmissError(f"something lies in the fold at the {act.one('push')}.")
    halves: list[tuple[Layer, Layer]] = []
    for layer in (state.layers[bond.lower], state.layers[bond.upper]):
        left, right = layer.parted(line)
        stays, goes = (left, right) if bond.place > line else (right, left)
        if stays is None or goes is None:
            raise AmissError(f"the marks do not lie in the layers that meet at the {act.one('push')}.")
        halves.append((stays, goes.over(line)))
    (lower, lower_in), (upper, upper_in) = halves
    layers = [*state.layers]
    layers[bond.lower : bond.lower + 1] = [lower, lower_in]
    layers[bond.upper + 1 : bond.upper + 2] = [upper_in, upper]
    return state.laid(layers)


def _pushed_as_one(state: State, place: Fraction, line: Fraction, names: frozenset[str]) -> State:
    """Push a fold of several cloths that are worked as one in between its layers, up to a line."""
    ends: list[frozenset[End]] = [seam.ends for seam in state.seams]
    folds = [
        bond
        for bond in bonds(state.layers, ends)
        if bond.place == place and bond.is_fold and state.layers[bond.lower].strip in names
    ]
    lower, upper = sorted(bond.lower for bond in folds), sorted(bond.upper for bond in folds)
    stays: dict[int, Layer] = {}
    goes: dict[int, Layer] = {}
    for number in (*lower, *upper):
        left, right = state.layers[number].parted(line)
        rest, moved = (left, right) if place > line else (right, left)
        if rest is None or moved is None:
            raise AmissError("the marks do not lie in the layers that are pushed in.")
        stays[number], goes[number] = rest, moved.over(line)
    if any(
        number not in stays
        for number in range(lower[0], upper[-1] + 1)
        if _covers(state.layers[number], place)
    ):
        raise AmissError("something lies in the fold that is pushed in.")
    layers: list[Layer] = []
    for number, layer in enumerate(state.layers):
        if number == upper[0]:
            layers += [goes[each] for each in reversed(upper)]
        layers.append(stays.get(number, layer))
        if number == lower[-1]:
            layers += [goes[each] for each in reversed(lower)]
    return state.laid(layers)


def _covers(layer: Layer, place: Fraction) -> bool:
    return layer.left < place < layer.right


def tuck(state: State, act: SizedAct) -> State:
    """Slide the two layers that meet at one fold in between the two that meet at another.

    On the way it passes layers of the cloth that it goes into, and no other.
    """
    flap, into = (_fold_at(state, act.one(key)) for key in ("tuck", "into"))
    moved = [state.layers[flap.lower], state.layers[flap.upper]]
    around = state.layers[into.lower], state.layers[into.upper]
    rest = [layer for layer in state.layers if layer not in moved]
    at = rest.index(around[1])
    passed = rest[min(flap.lower, at) : max(flap.lower, at)]
    for layer in passed:
        if layer.strip != around[1].strip:
            raise AmissError(f"the {moved[0].strip} cannot pass the {layer.strip} to get there.")
    return state.laid((*rest[:at], *moved, *rest[at:]))


def _fold_at(state: State, name: str) -> Bond:
    """Return the fold at a mark. Raises AmissError: the cloth is not folded there."""
    strip, mark = state.mark(name)
    wanted = frozenset([(strip.name, strip.place(mark))])
    for bond in bonds(state.layers, [seam.ends for seam in state.seams]):
        if bond.ends == wanted and bond.is_fold:
            return bond
    raise AmissError(f"nothing is folded at the {name}.")


def meet(state: State, act: SizedAct) -> State:
    """Look that marks lie on each other; of two folds also that the first lies in the second."""
    state.place(act.all("meet"))
    found = [_fold_at(state, name) for name in act.all("meet")]
    inner, outer = found[0], found[1]
    if len(found) == 2 and not outer.lower < inner.lower < inner.upper < outer.upper:
        raise AmissError(
            f"the {act.all('meet')[0]} does not lie inside the fold of the {act.all('meet')[1]}."
        )
    return state


def turn(state: State, act: SizedAct) -> State:
    """Turn the work through an opening, so that right sides of one cloth come to lie outside.

    The layers are those that were sewn, in the same order round the side seam: another gap between two of
    them becomes the outside. Turning needs the opening in an outer face.
    """
    if state.sides is None:
        raise AmissError("the sides are not sewn so far.")
    if not act.all("through"):
        raise AmissError("nothing says through which opening.")
    _look_for_way_out(state, act.one("through"))
    count = len(state.layers)
    walls = zones(state.layers)[-1].layers
    for first in range(count):
        layers = (*state.layers[first:], *state.layers[:first])
        low, high = layers[0], layers[-1]
        outside = {low.strip, high.strip} == {act.one("turn")} and low.down == high.up == "right"
        if outside and low in walls and high in walls:
            return replace(state, outside=act.one("turn")).laid(layers)
    raise AmissError(f"no turning brings the right side of the {act.one('turn')} outside.")


def _look_for_way_out(state: State, name: str) -> None:
    seam = state.opened(name)
    for bond in bonds(state.layers, [each.ends for each in state.seams]):
        if bond.ends == seam.ends and (bond.lower, bond.upper) != (0, len(state.layers) - 1):
            raise AmissError(f"the {name} lies inside the work: it must be in the face away from the flap.")


def finish(state: State, act: SizedAct) -> State:
    """Look that the finished thing, folded flat, is as large as it is told to be."""
    if state.sides is None:
        raise AmissError("the sides are not sewn so far.")
    if state.outside != act.one("finish"):
        raise AmissError(f"the {act.one('finish')} does not lie outside.")
    width = state.sides.right - state.sides.left
    height = height_of(state)
    for what, found in (("width", width), ("height", height)):
        told = amount(act, what)
        if found != told:
            raise DiffersError(f"the {what} when folded flat", found, told)
    return state


def height_of(state: State) -> Fraction:
    """Return how far what lies there reaches, mm."""
    return max(layer.right for layer in state.layers) - min(layer.left for layer in state.layers)
