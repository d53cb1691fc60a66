"""Acts on a zip: made ready, set between two cloths, sewn in, stitched beside, secured, opened, cut level.

Seen from the side edge a zip is a strip as long as both its tapes are wide, its teeth in the middle.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from patterns.drafting.sized import SizedAct

from .errors import AmissError
from .layers import End, Layer, Side
from .seaming import without_allowance
from .state import DiffersError, Row, Seam, State, amount
from .strips import Strip, zip_of


def make_ready(state: State, act: SizedAct) -> State:
    """Take a zip that is so long and so wide, its two tapes tacked together at the open end."""
    made = zip_of(act.one("zip"), *(amount(act, key) for key in ("tape", "reveal", "long")))
    drawn = state.drawn | {(made.name, line) for line in made.lines}
    return replace(state, strips={**state.strips, made.name: made}, drawn=drawn)


def zip_named(state: State, name: str) -> Strip:
    """Return a zip. Raises AmissError: it is none."""
    strip = state.strip(name)
    if not strip.is_zip:
        raise AmissError(f"the {name} is no zip.")
    return strip


def set_in(state: State, act: SizedAct) -> State:
    """Lay a tape between two cloths: right side on the right side of the first, the second on its back.

    The tape's edge lies on their raw edges, centre on centre; it sticks out beyond both sides. The other
    edges of cloths that hang from the zip already are brought round to its free tape: they make loops.
    """
    made, tape_mark = _tape(state, act)
    sewn = state.mark(act.one("at"))[0].place(tape_mark)
    cloths = [state.mark(name) for name in act.all("between")]
    if len(cloths) != 2:
        raise AmissError(f"the {made.name} is laid between two cloths.")
    for cloth, mark in cloths:
        _fits(made, sewn, cloth, mark)
    _look_at_centres(state, act.all("centres"))
    on_the_table = {layer.strip for layer in state.layers}
    if {cloth.name for cloth, _ in cloths} <= on_the_table:
        return state.laid(_loops(state, made, tape_mark, cloths))
    if not state.layers:
        state = replace(state, layers=(_from(made, sewn, sewn, 1, "wrong"),))
    elif made.name not in on_the_table:
        raise AmissError("something else lies on the table.")
    return state.laid(_between(state, made, sewn, cloths))


def _between(
    state: State, made: Strip, sewn: Fraction, cloths: Sequence[tuple[Strip, str]]
) -> tuple[Layer, ...]:
    """Return what lies there between two cloths more, which lie from the tape's edge over the zip."""
    lying = next(layer for layer in state.layers if layer.strip == made.name)
    place = lying.place(sewn)
    way: Literal[1, -1] = 1 if lying.place(made.place("teeth")) > place else -1
    below, above = cloths if lying.up == "wrong" else reversed(cloths)
    return (
        _from(below[0], below[0].place(below[1]), place, way, "right"),
        *state.layers,
        _from(above[0], above[0].place(above[1]), place, way, "wrong"),
    )


def _look_at_centres(state: State, names: Iterable[str]) -> None:
    """Raise AmissError unless marks lie in the middle of their cloths, as the zip's centre does of it."""
    for name in names:
        cloth, mark = state.mark(name)
        across = cloth.line(mark).across
        if across is None:
            raise AmissError(f"the {name} runs right across.")
        if 2 * across != cloth.width:
            raise DiffersError(
                f"the {mark} of the {cloth.name}, from its side edge,", across, cloth.width / 2
            )


def _tape(state: State, act: SizedAct) -> tuple[Strip, str]:
    made = zip_named(state, act.one("set"))
    strip, mark = state.mark(act.one("at"))
    if strip.name != made.name or mark == "teeth":
        raise AmissError(f"the {act.one('at')} is no seam line of the {made.name}.")
    if any((made.name, made.place(mark)) in seam.ends for seam in state.seams):
        raise AmissError(f"that tape of the {made.name} is sewn in already.")
    return made, mark


def _fits(made: Strip, sewn: Fraction, cloth: Strip, mark: str) -> None:
    """Raise AmissError unless a cloth's raw edge and the tape's lie on each other, the zip longer."""
    along, tape = cloth.place(mark), min(sewn, made.length - sewn)
    allowance = min(along, cloth.length - along)
    if allowance != tape:
        raise DiffersError(f"the {mark} of the {cloth.name}, from its raw edge,", allowance, tape)
    if made.width <= cloth.width:
        raise AmissError(f"the {made.name} does not stick out beyond both sides of the {cloth.name}.")


def _from(strip: Strip, along: Fraction, place: Fraction, way: Literal[1, -1], up: Side) -> Layer:
    """Return a whole strip, the mark nearest to one of its edges at a place, running that way from there."""
    runs: Literal[1, -1] = way if 2 * along < strip.length else (-1 if way == 1 else 1)
    return Layer(strip.name, Fraction(0), strip.length, place - runs * along, runs, up)


def _loops(state: State, made: Strip, tape_mark: str, cloths: Iterable[tuple[Strip, str]]) -> list[Layer]:
    """Return the zip lying flat, right side up, the second cloth's loop under it and the first's over it."""
    first_seam = next((seam for seam in state.seams if made.name in dict(seam.ends)), None)
    if first_seam is None:
        raise AmissError(f"the other tape of the {made.name} is not sewn in so far.")
    sewn = dict(first_seam.ends)
    start, end = sorted((sewn[made.name], made.place(tape_mark)))
    reveal = end - start
    placed: list[list[Layer]] = []
    lengths = []
    for number, (cloth, mark) in enumerate(cloths):
        low, high = sorted((sewn[cloth.name], cloth.place(mark)))
        if low == high or (sewn[cloth.name] == low) != (sewn[made.name] == start):
            raise AmissError(f"the {cloth.name} would be twisted: its other edge belongs to that tape.")
        lengths.append((cloth, high - low))
        wing = (high - low - reveal) / 4
        if wing <= 0:
            raise AmissError(f"the {cloth.name} is too short to make a loop.")
        up: Side = "right" if number == 0 else "wrong"
        whole: Side = "wrong" if number == 0 else "right"
        placed.append(
            [
                Layer(cloth.name, low, low + wing, low, -1, up),
                Layer(cloth.name, high - wing, high, reveal + high, -1, up),
                Layer(cloth.name, low + wing, high - wing, -2 * wing - low, 1, whole),
            ]
        )
    (one, length), (other, other_length) = lengths
    if length != other_length:
        raise DiffersError(
            f"the {other.name} from zip seam to zip seam, beside the {one.name},", other_length, length
        )
    over, (left, right, under) = placed
    flat = Layer(made.name, start, end, -start, 1, "right")
    return [under, left, right, flat, *over]


def fasten(state: State, act: SizedAct) -> State:
    """Sew a tape and the cloths on both its sides together: all three lines lie on each other."""
    found = [state.mark(name) for name in act.all("fasten")]
    state.place(act.all("fasten"))
    if [strip.is_zip for strip, _ in found].count(True) != 1 or len(found) != 3:
        raise AmissError("a zip is sewn between two cloths: name its line and theirs.")
    ends = frozenset((strip.name, strip.place(mark)) for strip, mark in found)
    sewn = dict(ends)
    trimmed = tuple(
        without_allowance(layer, state.strip(layer.strip), sewn)
        if layer.strip in sewn and layer.start < sewn[layer.strip] < layer.end
        else layer
        for layer in state.layers
    )
    return replace(state, seams=(*state.seams, Seam(ends))).laid(trimmed)


def seam_beside(state: State, made: Strip, names: Iterable[str]) -> frozenset[End]:
    """Return the seam that joins cloths to a zip. Raises AmissError: there is none."""
    wanted = {made.name, *names}
    for seam in reversed(state.seams):
        if {strip for strip, _ in seam.ends} == wanted:
            return seam.ends
    raise AmissError(
        f"the {' and the '.join(sorted(wanted - {made.name}))} do not hang from the {made.name}."
    )


def _beside(state: State, made: Strip, ends: frozenset[End]) -> tuple[Fraction, int]:
    """Return where a seam of the zip lies, and to which side of it the zip: 1 right, −1 left."""
    along = dict(ends)[made.name]
    for layer in state.layers:
        if layer.strip == made.name and along in (layer.start, layer.end):
            return layer.place(along), 1 if layer.left == layer.place(along) else -1
    raise AmissError(f"the {made.name} does not lie on the table.")


def spread(state: State, act: SizedAct) -> State:
    """Turn the cloths of a zip's seam away from it, until their wrong sides meet."""
    made = zip_named(state, act.one("from"))
    names = act.all("spread")
    ends = seam_beside(state, made, names)
    place, side = _beside(state, made, ends)
    moved = [
        layer.over(place)
        if layer.strip in names and (layer.left == place if side == 1 else layer.right == place)
        else layer
        for layer in state.layers
    ]
    return state.laid(moved)


def edgestitch(state: State, act: SizedAct) -> State:
    """Stitch two cloths beside their zip, wrong sides together: the row holds what is turned in."""
    made = zip_named(state, act.one("beside"))
    marks = [state.mark(name) for name in act.all("edgestitch")]
    names = frozenset(strip.name for strip, _ in marks)
    ends = seam_beside(state, made, names)
    if not {(strip.name, strip.place(mark)) for strip, mark in marks} <= ends:
        raise AmissError(f"there is no seam of the {made.name} at these marks.")
    place, side = _beside(state, made, ends)
    lying = [
        layer
        for layer in state.layers
        if layer.strip in names and (layer.right == place if side == 1 else layer.left == place)
    ]
    if {layer.strip for layer in lying} != names or (lying[0].up, lying[-1].down) != ("wrong", "wrong"):
        raise AmissError(f"the {' and the '.join(sorted(names))} do not lie wrong sides together there.")
    off = amount(act, "off")
    short = amount(act, "short") if "short" in dict(act.amounts) else Fraction(0)
    turned_in = dict(ends)[made.name]
    allowance = min(turned_in, made.length - turned_in)
    if not 0 < off < allowance:
        raise AmissError(f"the row beside the {made.name} does not hold what is turned in there.")
    if short < 0:
        raise AmissError("the row ends outside the cloth.")
    return replace(state, rows=(*state.rows, Row(names, ends, off, short)))


def secure(state: State, act: SizedAct) -> State:
    """Sew across both tapes at either end, outside the side seam lines, the zip shut, its slider inside."""
    made = zip_named(state, act.one("secure"))
    if len([seam for seam in state.seams if made.name in dict(seam.ends)]) != 2:
        raise AmissError(f"both tapes of the {made.name} are not sewn in so far.")
    unzipped = {name: by for name, by in state.unzipped.items() if name != made.name}
    return replace(state, secured=state.secured | {made.name}, unzipped=unzipped)


def open_up(state: State, act: SizedAct) -> State:
    """Open a zip by a part of its length."""
    made, by = zip_named(state, act.one("open")), amount(act, "by")
    if not 0 < by <= 1:
        raise AmissError(f"the {made.name} cannot be opened so far.")
    if by == 1 and made.name in state.secured:
        raise AmissError(f"the {made.name} is sewn across its ends: its slider stays between them.")
    return replace(state, unzipped={**state.unzipped, made.name: by})


def shorten(state: State, act: SizedAct) -> State:
    """Cut the ends of a zip level with the side edges: outside what holds it."""
    made = zip_named(state, act.one("shorten"))
    if made.name not in state.secured:
        raise AmissError(f"the slider could run off: the {made.name} is not sewn across its ends so far.")
    if state.sides is None:
        raise AmissError("the sides are not sewn so far.")
    wide = max(strip.width for strip in state.strips.values() if not strip.is_zip)
    if made.width < wide:
        raise AmissError(f"the {made.name} is shorter than what it hangs between.")
    return replace(state, strips={**state.strips, made.name: replace(made, width=wide)})
