"""Acts on bags of two panels with a square cut out of both lower corners: remove, pair, pull, turn."""

from dataclasses import replace
from fractions import Fraction

from patterns.drafting.sized import SizedAct
from patterns.drawings.page import exact

from .bag_parts import Bag
from .errors import AmissError
from .openings import Opening
from .state import DiffersError, State, amount
from .strips import Strip

SIDES, BASE, CORNERS = "sides", "base", "corners"


def remove(state: State, act: SizedAct) -> State:
    """Cut a square out of both lower corners of cloths: as large as their outline says."""
    told = amount(act, "square")
    strips = dict(state.strips)
    for name in act.all("of"):
        strip = state.strip(name)
        for where, found in _cut_outs(strip):
            if found != told:
                raise DiffersError(f"the cut-out of the {name}, {where},", found, told)
        strips[name] = replace(strip, removed=told)
    return replace(state, strips=strips)


def _cut_outs(strip: Strip) -> list[tuple[str, Fraction]]:
    """Return how far the cut-outs of both lower corners reach, across and up; nothing of a rectangle."""
    places = [(exact(corner.across), exact(corner.down)) for corner in strip.corners]
    if not places:
        return [("across", Fraction(0))]
    foot = [across for across, down in places if down == strip.length]
    left, right = ([down for across, down in places if across == edge] for edge in (0, strip.width))
    if not (foot and left and right):
        raise AmissError(f"the {strip.name} has no lower edge to sew.")
    return [
        ("left, across", min(foot)),
        ("left, upwards", strip.length - max(left)),
        ("right, across", strip.width - max(foot)),
        ("right, upwards", strip.length - max(right)),
    ]


def line_round(state: State, strip: Strip, act: SizedAct) -> Fraction:
    """Return how far inside the raw edges the line runs that an act sews by. Raises AmissError: not drawn."""
    state.mark(f"{strip.name} {act.one('by')}")
    return strip.inside(act.one("by"))


def pair(state: State, act: SizedAct) -> State:
    """Lay the two panels of a bag right sides together, and sew their sides, their base, or both.

    leave: gaps of the sides and the opening of the base; each lies on its seam, and ends inside it.
    """
    strip = state.strip(act.one("pair"))
    if strip.count != 2:
        raise AmissError(f"a bag is sewn from two panels, and of the {strip.name} there are {strip.count}.")
    if strip.corners and not strip.removed:
        raise AmissError(f"the corners of the {strip.name} have not been cut out so far.")
    allowance = line_round(state, strip, act)
    bag = state.sewn.bags.get(strip.name) or _flat_bag(strip, allowance)
    edges = frozenset({SIDES, BASE} if act.one("edges") == "sides and base" else {act.one("edges")})
    if again := bag.edges & edges:
        raise AmissError(f"the {min(again)} of the {strip.name} would be sewn twice.")
    for name in act.all("leave"):
        bag = _left_open(state, bag, edges, name)
    return with_bag(state, replace(bag, edges=bag.edges | edges))


def _flat_bag(strip: Strip, allowance: Fraction) -> Bag:
    return Bag(
        name=strip.name,
        strip=strip.name,
        round=2 * (strip.width - 2 * allowance),
        allowance=allowance,
        height=strip.length - 2 * allowance,
    )


def _left_open(state: State, bag: Bag, edges: frozenset[str], name: str) -> Bag:
    strip, mark = state.mark(name)
    line = strip.line(mark)
    if strip.name != bag.strip:
        raise AmissError(f"the {name} does not lie on this seam.")
    if line.start is None or line.end is None or not line.start < line.end:
        raise AmissError(f"the {name} has no length.")
    opening = Opening(strip.name, mark, line.start, line.end)
    inside = strip.removed + bag.allowance
    if line.place is not None:
        if BASE not in edges or line.place != strip.length - bag.allowance:
            raise AmissError(f"the {name} does not lie on this seam.")
        if not inside < line.start < line.end < strip.width - inside:
            raise AmissError(f"the {name} runs into a corner seam.")
        return replace(bag, opening=opening)
    if SIDES not in edges or line.across not in (bag.allowance, strip.width - bag.allowance):
        raise AmissError(f"the {name} does not lie on this seam.")
    if not bag.allowance < line.start < line.end < strip.length - inside:
        raise AmissError(f"the {name} runs into the top seam or a corner seam.")
    return replace(bag, gaps=(*bag.gaps, opening))


def press(state: State, act: SizedAct) -> State:
    """Press the seams of a bag open."""
    for name in act.all("press"):
        strip, _ = state.mark(name)
        if not any(bag.strip == strip.name for bag in state.sewn.bags.values()):
            raise AmissError(f"there is no seam at the {name}.")
    return state


def bag_of(state: State, name: str) -> Bag:
    """Raises AmissError for what is no bag so far."""
    if name not in state.sewn.bags:
        raise AmissError(f"the {name} has not been sewn up so far.")
    return state.sewn.bags[name]


def with_bag(state: State, bag: Bag) -> State:
    return replace(state, sewn=replace(state.sewn, bags={**state.sewn.bags, bag.name: bag}))


def pull(state: State, act: SizedAct) -> State:
    """Pull the cut-outs open, side seam on base seam, and sew across them: the bag gets its base.

    Both edges of a cut-out were found equally long when it was cut, so the seams meet. Stitched so far inside
    its edges, the seam across is longer than they are: it ends where the lines beside them cross.
    """
    bag = bag_of(state, act.one("pull"))
    strip = state.strip(bag.strip)
    if bag.edges != {SIDES, BASE}:
        raise AmissError(f"sides and base of the {bag.name} must be sewn first, and its corners only once.")
    allowance = line_round(state, strip, act)
    inside = strip.removed + allowance
    base = strip.width - 2 * inside, 2 * (inside - bag.allowance)
    for what, found, told in zip(
        ("width", "depth"), base, (amount(act, "width"), amount(act, "depth")), strict=True
    ):
        if found != told:
            raise DiffersError(f"the {what} of the base of the {bag.name}", found, told)
    height = strip.length - bag.allowance - inside
    return with_bag(state, replace(bag, base=base, height=height, edges=bag.edges | {CORNERS}))
