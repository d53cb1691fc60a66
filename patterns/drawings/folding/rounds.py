"""Acts on a side that is sewn to a round base: ring, stay, pin in quarters, attach, grade.

Lengths with π in them are compared to 60 digits, as the recipe's formulas give them, not as they are drawn.
"""

from dataclasses import replace
from fractions import Fraction

from patterns.drafting.formulas.values import PI, Measured, compare, minus, times
from patterns.drafting.outlines import shape_of
from patterns.drafting.sized import SizedAct, SizedPattern
from patterns.drawings.page import exact

from .bag_parts import Bag
from .bags import bag_of, line_round, with_bag
from .errors import AmissError
from .state import DiffersError, State, amount
from .strips import Strip

# Marks are drawn from lengths taken to a nanometre; so near they are one place.
DECIMALS = 4


def ring(state: State, act: SizedAct, sized: SizedPattern) -> State:
    """Sew the short edges of a side together, or of its pieces: once round is what lies between the seams."""
    strip = state.strip(act.one("ring"))
    allowance = line_round(state, strip, act)
    cut = next(piece.width.value for piece in sized.pieces if piece.name == strip.piece)
    found = _product(minus(cut, 2 * allowance), Fraction(strip.count))
    look_for_same(f"once round the {strip.name}", found, act.amount("round").value)
    return with_bag(state, Bag(strip.name, strip.name, found, allowance, Fraction(0)))


def look_for_same(what: str, found: Measured | None, told: Measured | None) -> None:
    """Raise DiffersError where two lengths are not one, to 60 digits."""
    if found is None or told is None:
        raise AmissError(f"{what} has no value at this size.")
    if compare(found, told) != 0:
        raise DiffersError(what, exact(found), exact(told))


def _product(one: Measured | None, other: Measured) -> Measured:
    found = None if one is None else times(one, other)
    if not isinstance(found, Fraction) and found is None:
        raise AmissError("a length has no value at this size.")
    return found


def stay(state: State, act: SizedAct) -> State:
    """Sew a row round the lower edge inside its allowance, and snip as far as that."""
    bag = bag_of(state, act.one("stay"))
    below = amount(act, "below")
    if not 0 < below < bag.allowance:
        raise AmissError(
            f"the row does not run inside the allowance of the {bag.name}: snips would cut the seam."
        )
    if amount(act, "every") <= 0:
        raise AmissError("the snips have no distance.")
    return with_bag(state, replace(bag, stay=below))


def pin_to_base(state: State, act: SizedAct, sized: SizedPattern) -> State:
    """Pin a ring to a round base, quarter on quarter: both seam lines are equally long."""
    bag, base = bag_of(state, act.one("pin")), state.strip(act.one("to"))
    if not bag.stay:
        raise AmissError(f"the lower edge of the {bag.name} has not been stay stitched so far.")
    if not base.corners or shape_of(base.corners) != "circle":
        raise AmissError(f"the {base.name} is not round.")
    inside = allowance_of(state, base)
    cut = next(piece.width.value for piece in sized.pieces if piece.name == base.piece)
    walked = _product(minus(cut, 2 * inside), PI)
    look_for_same(f"once round the seam line of the {base.name}", walked, bag.round)
    for name in act.all("quarters"):
        _, mark = state.mark(f"{base.name} {name}")
        line = base.line(mark)
        middle = {base.width / 2} if line.place is None else {base.length / 2}
        if {line.across if line.place is None else line.place} != middle:
            raise AmissError(f"the {name} of the {base.name} does not run through its middle.")
    if {base.line(name).place is None for name in act.all("quarters")} != {True, False}:
        raise AmissError(f"the quarter lines of the {base.name} do not cross.")
    _look_for_quarters(state, bag)
    return replace(state, sewn=replace(state.sewn, pinned=state.sewn.pinned | {(bag.name, base.name)}))


def allowance_of(state: State, strip: Strip) -> Fraction:
    """Return how far inside its edges the line all round a cloth runs. Raises AmissError: none is drawn."""
    for line in strip.lines.values():
        if line.inside is not None and (strip.name, line.name) in state.drawn:
            return line.inside
    raise AmissError(f"no seam line has been drawn round the {strip.name} so far.")


def quarters_of(state: State, bag: Bag) -> list[Fraction]:
    """Return where round a ring its quarters lie, from a seam: the marks that are drawn, and the seams."""
    strip = state.strip(bag.strip)
    each = exact(bag.round) / strip.count
    drawn = [
        line.across - bag.allowance
        for line in strip.lines.values()
        if line.kind == "place"
        and line.place is None
        and line.across is not None
        and (strip.name, line.name) in state.drawn
    ]
    starts = [each * number for number in range(strip.count)]
    return sorted(start + place for start in starts for place in (Fraction(0), *drawn))


def _look_for_quarters(state: State, bag: Bag) -> None:
    found = quarters_of(state, bag)
    wanted = [exact(bag.round) * share / 4 for share in range(4)]
    if len(found) != 4:
        raise AmissError(f"the {bag.name} has {len(found)} quarters, its seams among them; the base has 4.")
    for place, where in zip(found, wanted, strict=True):
        if round(place, DECIMALS) != round(where, DECIMALS):
            raise DiffersError(f"a quarter of the {bag.name}, from its seam,", place, where)


def attach(state: State, act: SizedAct) -> State:
    """Sew a round base into the ring that is pinned to it; from then on they are one bag."""
    base, side = state.strip(act.one("attach")), bag_of(state, act.one("to"))
    if (side.name, base.name) not in state.sewn.pinned:
        raise AmissError(f"the {side.name} has not been pinned to the {base.name} so far.")
    strip, name = state.strip(side.strip), act.one("as")
    allowance = line_round(state, strip, act)
    across = base.width - 2 * allowance_of(state, base)
    bag = replace(
        side,
        name=name,
        strip=name,
        base=(across, across),
        is_round=True,
        height=strip.length - 2 * allowance,
    )
    drawn = {(name, mark) for cloth, mark in state.drawn if cloth == strip.name}
    whole = replace(
        state, strips={**state.strips, name: replace(strip, name=name)}, drawn=state.drawn | drawn
    )
    return with_bag(whole, bag)


def grade(state: State, act: SizedAct) -> State:
    """Trim the allowances of a base seam in steps."""
    if not bag_of(state, act.one("grade")).base:
        raise AmissError(f"the {act.one('grade')} has no base seam so far.")
    return state
