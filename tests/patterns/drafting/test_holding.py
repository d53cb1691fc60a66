"""From contents to size, against a search that knows nothing but `size` and tries everything."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import product
from math import prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.drafting.errors import HoldingError
from patterns.drafting.holding import (
    MOST_THINGS,
    held,
    sizes_that_hold,
)
from patterns.drafting.recipe import BoxRoom, Check, Constant, Measure, Recipe, RoundRoom
from patterns.drafting.sizing import SizingError, size
from patterns.drafting.things import Arrangement, Solid, Things
from patterns.drafting.units import Units
from patterns.starters import read_starter
from tests.recipes import CM, IN, formula, length, make_recipe

BASKET, POUCH = read_starter("fold-flat-basket"), read_starter("zip-pouch")
BUCKET = read_starter("round-bucket")
TOTE, GIFT_BAG = read_starter("packable-tote"), read_starter("gift-bag")
TURNS = {
    "none": [(0, 1, 2)],
    "upright": [(0, 1, 2), (2, 1, 0)],
    "any": [(0, 1, 2), (2, 1, 0), (0, 2, 1), (1, 2, 0), (1, 0, 2), (2, 0, 1)],
}


def things(*sides: str, loose: str = "0", turning: str = "upright", units: Units = CM) -> Things:
    return Things(Solid(*(Fraction(side) * units.mm for side in sides)), Fraction(loose) * units.mm, turning)


def found(recipe, what, count, units=CM, **how):
    """Measures in the units, of each size."""
    sizes = sizes_that_hold(recipe, units, what, count, **how)
    return [tuple(value / units.mm for value in each.measures.values()) for each in sizes]


class TestTheContract:
    """The example of commands.md: twelve things of 14.8 × 21 × 0.4 cm in the basket."""

    @pytest.mark.parametrize("turning", ["upright", "none"])
    def test_comes_out(self, turning):
        first = sizes_that_hold(BASKET, CM, things("14.8", "21", "0.4", turning=turning), 12)[0]
        assert first.measures == {"width": 150, "height": 210, "depth": 50}
        assert first.area == 215_600
        assert first.arrangement == Arrangement(1, 1, 12, Solid(Fraction(148), Fraction(210), Fraction(4)))
        assert first.spare == (2, 0, 2)
        assert first.room == (150, 210, 50)

    def test_if_they_may_lie_on_their_long_side_less_cloth_is_enough(self):
        """28 × 37 cm twice is less than 22 × 49 cm twice."""
        first = sizes_that_hold(BASKET, CM, things("14.8", "21", "0.4", turning="any"), 12)[0]
        assert first.measures == {"width": 210, "height": 150, "depth": 50}
        assert first.area == 2 * 280 * 370
        assert first.arrangement.thing == (210, 148, 4)


def test_a_pouch_is_filled_to_half_its_depth_below_its_height():
    """constructions.md, zip pouch: it holds a box W × D × (H − D/2)."""
    first = sizes_that_hold(POUCH, CM, things("18", "8", "6", turning="none"), 1)[0]
    assert first.measures == {"width": 180, "height": 110, "depth": 60}
    assert first.room == (180, 80, 60)


def test_a_bag_is_filled_up_to_its_ribbon():
    """constructions.md, gift bag: tied, it holds at most 2H/3."""
    first = sizes_that_hold(GIFT_BAG, CM, things("18", "12", "6", turning="none"), 1)[0]
    assert first.measures == {"width": 180, "height": 180, "depth": 60}
    assert first.room == (180, 120, 60)


def test_a_bucket_holds_a_footprint_whose_diagonal_is_its_diameter():
    """constructions.md, round bucket: 21 × 4.8 cm of sheets want √(21² + 4.8²) = 21.54… cm."""
    (first, *_) = sizes_that_hold(BUCKET, CM, things("21", "14.8", "0.4", turning="none"), 12)
    assert first.measures == {"diameter": 220, "height": 150}
    assert first.arrangement == Arrangement(1, 1, 12, Solid(Fraction(210), Fraction(148), Fraction(4)))
    assert first.room == (220, 150)
    width, height, depth = first.spare
    assert ((width + 210) ** 2 + 48**2, height, (depth + 48) ** 2 + 210**2) == (
        pytest.approx(220**2),
        2,
        pytest.approx(220**2),
    )
    assert found(BUCKET, things("21", "14.8", "0.4", loose="2.5", turning="none"), 12)[0] == (
        25,
        Fraction("17.5"),
    )


def test_a_measure_that_holds_nothing_rises_only_for_a_check():
    """A tote's handles stay as long as they are; across 50 cm they hang (L − W/2)/2 = 8 cm from 41 cm on."""
    what = things("50", "20", "5", turning="none")
    assert found(TOTE, what, 1)[0] == (50, 20, 5, 60)
    short = replace(
        TOTE,
        measures=tuple(
            replace(each, scales={**each.scales, CM: replace(each.scales[CM], default=Fraction(300))})
            if each.name == "handle length"
            else each
            for each in TOTE.measures
        ),
    )
    assert found(short, what, 1)[0] == (50, 20, 5, 41)


def test_whoever_watches_may_end_the_search():
    calls = iter(range(100))

    def watch():
        if next(calls) == 50:
            raise HoldingError("Time is up.")

    with pytest.raises(HoldingError, match="Time is up"):
        sizes_that_hold(POUCH, CM, things("3", "4", "2", turning="any"), 24, watch=watch)


def test_loose_things_need_that_much_more_in_each_direction():
    assert found(BASKET, things("14", "20", "1", loose="0.6", turning="none"), 10)[0] == (15, 21, 11)
    assert found(BASKET, things("14", "20", "1", turning="none"), 10)[0] == (14, 20, 10)


def test_measures_are_raised_to_what_passes():
    """A flat stack: height 5 is enough for it, but the triangle of a basket 21 deep stands 10.5 high."""
    (first, *_) = found(BASKET, things("15", "1", "21", turning="none"), 4)
    assert first == (15, Fraction(23, 2), 21)


def test_a_raise_keeps_the_things_inside():
    """The pouch's lining seam wants a deeper base, and a deeper base leaves less height to fill."""
    what = things("6", "3", "1", turning="none", units=IN)
    (first,) = found(POUCH, what, 1, units=IN, limit=1)
    assert first == (6, Fraction(15, 4), Fraction(3, 2))
    measures = {name: value * IN.mm for name, value in zip(("width", "height", "depth"), first, strict=True)}
    assert held(POUCH, IN, what, measures=measures).count == 1
    lower = {**measures, "height": measures["height"] - IN.mm / 4}
    assert held(POUCH, IN, what, measures=lower).count == 0


def test_a_measure_that_is_given_stays():
    sizes = found(BASKET, things("14.8", "21", "0.4"), 12, measures={"height": Fraction(250)})
    assert sizes[0] == (15, 25, 5)
    assert found(BASKET, things("14.8", "21", "0.4"), 12, measures={"height": Fraction(200)}) == []


def test_a_making_measure_counts_in_the_cloth():
    wide = sizes_that_hold(
        BASKET, CM, things("14.8", "21", "0.4"), 12, measures={"seam allowance": Fraction(20)}
    )
    assert wide[0].area == 2 * (150 + 50 + 40) * (420 + 50 + 40)


def test_options_count():
    """Two halves gain an allowance each at the middle of the base."""
    halves = sizes_that_hold(
        BASKET, CM, things("14.8", "21", "0.4"), 12, {"exterior print": "one way", "lining print": "one way"}
    )
    assert halves[0].area == 4 * 220 * (210 + 25 + 20)


def test_out_of_range_holds_nothing():
    assert found(BASKET, things("60", "10", "10", turning="any"), 1) == []
    assert found(BASKET, things("20", "20", "20"), 30) == []
    assert found(BASKET, things("10", "10", "10"), 1, measures={"seam allowance": Fraction(50)}) == []


def test_at_most_so_many_are_given():
    what = things("3", "4", "2", turning="any")
    assert len(found(BASKET, what, 24, limit=3)) == 3
    assert found(BASKET, what, 24, limit=3) == found(BASKET, what, 24, limit=50)[:3]


@pytest.mark.parametrize("count", [0, -1, MOST_THINGS + 1])
def test_no_such_number_of_things(count):
    with pytest.raises(HoldingError, match="are not counted here"):
        sizes_that_hold(BASKET, CM, things("1", "1", "1"), count)


def test_a_recipe_that_does_not_say_what_it_holds():
    with pytest.raises(HoldingError, match="“Folding mat” does not say what it holds, so nobody can ask"):
        sizes_that_hold(make_recipe(), CM, things("1", "1", "1"), 1)
    with pytest.raises(HoldingError, match="does not say what it holds"):
        held(make_recipe(), CM, things("1", "1", "1"))


def test_unknown_names_are_told():
    with pytest.raises(SizingError, match="There is no measure “girth”"):
        sizes_that_hold(BASKET, CM, things("1", "1", "1"), 1, measures={"girth": Fraction(1)})
    with pytest.raises(SizingError, match="There is no choice of “interfacing” “steel”"):
        sizes_that_hold(BASKET, CM, things("1", "1", "1"), 1, {"interfacing": "steel"})


class TestHeld:
    def test_counts_and_arranges(self):
        size = {"width": Fraction(150), "height": Fraction(210), "depth": Fraction(50)}
        answer = held(BASKET, CM, things("14.8", "21", "0.4"), measures=size)
        assert answer.count == 12
        assert answer.arrangement == Arrangement(1, 1, 12, Solid(Fraction(148), Fraction(210), Fraction(4)))
        assert answer.spare == (2, 0, 2)

    def test_turns_where_more_go_in(self):
        size = {"width": Fraction(210), "height": Fraction(150), "depth": Fraction(50)}
        assert held(BASKET, CM, things("14.8", "21", "0.4"), measures=size).count == 0
        answer = held(BASKET, CM, things("14.8", "21", "0.4", turning="any"), measures=size)
        assert (answer.count, answer.arrangement.thing) == (12, (210, 148, 4))

    def test_leaves_what_is_to_be_left_over(self):
        assert held(BASKET, CM, things("4", "3", "3", turning="none")).count == 5 * 5 * 4
        assert held(BASKET, CM, things("4", "3", "3", turning="none", loose="0.1")).count == 5 * 4 * 3

    def test_nothing_goes_into_a_room_that_is_none(self):
        flat = {"height": Fraction(65), "depth": Fraction(200)}
        assert held(POUCH, CM, things("1", "1", "1"), measures=flat).count == 0
        none = replace(BASKET, holds=BASKET.holds._replace(width=formula("width ÷ (depth − depth)")))
        answer = held(none, CM, things("1", "1", "1"))
        assert (answer.count, answer.room, answer.arrangement) == (0, None, None)

    def test_a_rounded_room_is_filled_to_its_edge(self):
        """√2 × √2 carried to 60 digits is not quite 2, but a thing of 2 goes in."""
        recipe = replace(BASKET, holds=BASKET.holds._replace(width=formula("√(2) × √(2) × width ÷ 2")))
        assert held(recipe, CM, things("23", "15", "12")).count == 1
        assert found(recipe, things("23", "15", "12"), 1)[0] == (23, 15, 12)

    def test_a_round_floor_takes_the_grid_of_most_things(self):
        """In a circle of 5, 4 × 3 squares touch it, 3² + 4² = 5². Of equals the shortest diagonal."""
        size = {"diameter": 5 * CM.mm, "height": 2 * CM.mm}
        answer = held(BUCKET, CM, things("1", "1", "1"), measures=size)
        assert answer.arrangement == Arrangement(4, 2, 3, Solid(*[CM.mm] * 3))
        assert (answer.count, answer.spare, answer.room) == (24, (0, 0, 0), (50, 20))
        assert held(BUCKET, CM, things("1", "1", "1", loose="0.1"), measures=size).count == 3 * 3 * 1
        assert held(BUCKET, CM, things("5", "1", "1", turning="none"), measures=size).count == 0

    @pytest.mark.parametrize("turning", TURNS)
    @settings(max_examples=60, deadline=None)
    @given(data=st.data())
    def test_a_round_floor_as_by_trying_every_grid(self, turning, data):
        edges = data.draw(st.tuples(*[st.integers(2, 30)] * 3))
        diameter, height = data.draw(st.integers(20, 80)), data.draw(st.integers(1, 80))
        loose = data.draw(st.sampled_from([0, Fraction(1, 3), 2]))
        what = Things(Solid(*map(Fraction, edges)), Fraction(loose), turning)
        size = {"diameter": Fraction(diameter), "height": Fraction(height)}
        answer = held(BUCKET, CM, what, measures=size)
        assert answer.count == max(
            n * m * max(0, (height - loose) // up)
            for across, up, deep in ([edges[edge] for edge in turn] for turn in TURNS[turning])
            for n, m in product(range(41), repeat=2)
            if n * m == 0 or (n * across + loose) ** 2 + (m * deep + loose) ** 2 <= diameter**2
        )

    def test_what_is_too_small_to_be_counted_on_a_round_floor(self):
        with pytest.raises(HoldingError, match="Things so small are not counted on a round floor"):
            held(BUCKET, CM, things("0.001", "1", "0.001"))

    def test_no_float(self, no_floats):
        assert held(BUCKET, IN, things("1", "1", "1", units=IN)).count == 6 * 9 * 5
        assert held(POUCH, IN, things("1", "1", "1", units=IN)).count == 8 * 3 * 3


# A second road: every size of a small recipe, every arrangement, every raise, by nothing but `size`.


def small(holds: tuple[str, ...], *refuse: str, cloth: tuple[str, str] = ("width", "height")) -> Recipe:
    """A recipe of 6 × 6 × 4 sizes: what it holds, a box or what is round, and what it refuses are given."""
    plain = make_recipe()
    return make_recipe(
        finished=tuple(map(formula, ("width", "height", "depth"))),
        measures=(
            length("width", ("1", "6", "3", "1"), ("2", "12", "4", "2")),
            length("height", ("1", "6", "2", "1"), ("2", "12", "6", "2")),
            length("depth", ("1", "4", "2", "1"), ("2", "8", "4", "2")),
            length("seam allowance", ("1/4", "1", "1/2", "1/8"), ("0.5", "2.5", "1", "0.1"), role="making"),
        ),
        constants=(*plain.constants, length_constant("one", 1), length_constant("most", 8)),
        amounts=(),
        tells=(),
        steps=(),
        truings=(),
        options=(),
        materials=plain.materials[:1],
        pieces=(
            replace(
                plain.pieces[0],
                width=formula(f"{cloth[0]} + depth + 2 × seam allowance"),
                height=formula(f"{cloth[1]} + depth + 2 × seam allowance"),
                marks=(),
            ),
        ),
        checks=tuple(Check("refuse", each, formula(each), ("No.",)) for each in refuse),
        holds=(BoxRoom if len(holds) == 3 else RoundRoom)(*map(formula, holds)),
    )


def length_constant(name: str, inches: int) -> Constant:
    return Constant(name, 1, {IN: inches * IN.mm, CM: 2 * inches * CM.mm})


def all_places(recipe: Recipe, units: Units) -> Iterator[tuple[Fraction, ...]]:
    return product(*(steps_of(recipe, measure, units) for measure in recipe.measures[:3]))


def steps_of(recipe: Recipe, measure: Measure, units: Units) -> list[Fraction]:
    """A measure that what can be filled does not depend on begins at its default."""
    scale = measure.scales[units]
    is_read = any(measure.name in str(side) for side in recipe.holds)
    start = scale.least if is_read else scale.default
    return [start + step * scale.step for step in range((scale.most - start) // scale.step + 1)]


def by_trying(recipe: Recipe, units: Units, what: Things, count: int):
    """The sizes, best first: area in mm² and measures."""
    sized = {
        place: size(recipe, "small", units, dict(zip(("width", "height", "depth"), place, strict=True)))
        for place in all_places(recipe, units)
    }
    rooms = {place: [each.value(pattern.values) for each in recipe.holds] for place, pattern in sized.items()}
    answers = set()
    for edges in {tuple(what.solid[edge] for edge in turn) for turn in TURNS[what.turning]}:
        for grid in product(range(1, count + 1), repeat=3):
            tight = all(prod(grid) // n * (n - 1) < count for n in grid)
            if prod(grid) < count or not tight:
                continue
            roomy = [
                place
                for place in sized
                if has_room(
                    rooms[place], [n * edge + what.loose for n, edge in zip(grid, edges, strict=True)]
                )
            ]
            least = [
                place
                for place in roomy
                if not any(other != place and no_larger(other, place) for other in roomy)
            ]
            for place in least:
                larger = [other for other in roomy if no_larger(place, other) and not sized[other].is_refused]
                if larger:
                    answers.add(min(larger, key=lambda other: way_up(recipe, units, place, other)))
    ranked = sorted((*worth(sized[place]), place) for place in answers)
    return [
        (area, place)
        for rank, (area, _, place) in enumerate(ranked)
        if not any(no_larger(better, place) for _, _, better in ranked[:rank])
    ]


def has_room(room, block):
    """The room's measures, two of a round one, and a block's; what is rounded is the larger by a hair."""
    if None in room:
        return False
    known = [Fraction(side) + (0 if isinstance(side, Fraction) else Fraction(1, 10**20)) for side in room]
    if len(known) == 3:
        return no_larger(block, known)
    across, high, deep = block
    return across**2 + deep**2 <= max(known[0], 0) ** 2 and high <= known[1]


def no_larger(one, other):
    return all(a <= b for a, b in zip(one, other, strict=True))


def way_up(recipe, units, start, end):
    """As formulas.md ranks the nearest: fewest measures, fewest steps, the order of the recipe."""
    steps = [
        (there - here) / measure.scales[units].step
        for measure, here, there in zip(recipe.measures, start, end, strict=False)
    ]
    moved = [rank for rank, each in enumerate(steps) if each]
    return len(moved), sum(steps), moved, steps


def worth(sized):
    area = sum(piece.cut * piece.width.value * piece.height.value for piece in sized.pieces)
    return area, prod(each.value for each in sized.finished)


PLAIN = ("width", "height", "depth")
RECIPES = {
    "a box": small(PLAIN),
    "a box that is refused flat": small(PLAIN, "height ≥ depth ÷ 2 + one"),
    "a pouch": small(("width", "height − depth ÷ 2", "depth"), "height ≥ depth ÷ 2 + one", "depth ≥ 2 × one"),
    "no higher than wide": small(PLAIN, "height ≤ width"),
    "odd sizes refused": small(PLAIN, "width ≠ 3 × one", "height ≠ 2 × one and height ≠ 4 × one"),
    "room that falls again": small(("smaller of (width, most − width)", "height", "depth")),
    "room for which two measures can stand in for each other": small(
        ("width", "(height + depth) ÷ 2", "smaller of (depth, height)")
    ),
    "a drawn bag": small(("width", "height − √(width² + depth²) ÷ 4", "depth"), "height ≥ depth"),
    "two that fall, one that rises": small(("width − height ÷ 4", "height", "depth + height ÷ 4")),
    "all hang together": small(
        ("width − depth ÷ 4", "height − width ÷ 8", "larger of (depth, height ÷ 3)"), "depth ≤ height"
    ),
    "a side that no measure moves": small(("width", "most", "depth")),
    "a root": small(("√(width² + depth²)", "height", "depth")),
    "no value": small(("width", "√(height² − depth²)", "depth")),
    "a drum": small(("width", "height")),
    "a drum that is refused low, and ends in a cone": small(
        ("width − depth ÷ 4", "height"), "height ≥ width"
    ),
    "a drum whose diameter is rounded": small(("π × width ÷ 3", "height − depth ÷ 3"), "depth ≤ height"),
    "a drum with no floor at some sizes": small(("width − height", "√(height² − depth²)")),
    "a drum that swells and falls": small(("smaller of (width, most − width)", "height + depth ÷ 2")),
    "cloth that falls": small(PLAIN, "width + height ≥ 5 × one", cloth=("most − width", "height")),
}


@pytest.mark.parametrize("name", RECIPES)
@pytest.mark.parametrize("turning", TURNS)
@settings(max_examples=12, deadline=None)
@given(data=st.data())
def test_as_by_trying_everything(name, turning, data):
    recipe = RECIPES[name]
    units = data.draw(st.sampled_from(Units))
    edges = data.draw(st.tuples(*[st.integers(1, 24)] * 3))
    loose = data.draw(st.sampled_from([Fraction(0), Fraction(1, 4)]))
    what = Things(Solid(*(Fraction(edge, 4) * units.mm for edge in edges)), loose * units.mm, turning)
    count = data.draw(st.integers(1, 7))
    answers = sizes_that_hold(recipe, units, what, count, limit=1000)
    assert [(each.area, tuple(each.measures.values())) for each in answers] == by_trying(
        recipe, units, what, count
    )


def is_left(room, block, spare):
    """Whether each edge of a block, with what is spare beside it, just reaches the walls."""
    across, high, deep = (Fraction(side) + edge for side, edge in zip(spare, block, strict=True))
    if len(room) == 3:
        return (across, high, deep) == tuple(map(Fraction, room))
    reached = across**2 + block[2] ** 2, block[0] ** 2 + deep**2
    return high == room.height and all(abs(each - room.diameter**2) < Fraction(1, 10**20) for each in reached)


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_what_is_found_holds_and_passes(data):
    """The starters, in both units: never refused, on the steps, room enough, spare what is left."""
    recipe = data.draw(st.sampled_from([BASKET, POUCH, TOTE, GIFT_BAG, BUCKET]))
    units = data.draw(st.sampled_from(Units))
    edges = data.draw(st.tuples(*[st.integers(1, 160)] * 3))
    turning, count = data.draw(st.sampled_from(sorted(TURNS))), data.draw(st.integers(1, 200))
    what = Things(Solid(*(Fraction(edge) for edge in edges)), Fraction(data.draw(st.integers(0, 9))), turning)
    for each in sizes_that_hold(recipe, units, what, count):
        sized = size(recipe, "starter", units, each.measures)
        assert not sized.is_refused
        area = sum(
            piece.cut * Fraction(piece.width.value) * Fraction(piece.height.value)
            for piece in sized.pieces
            if sized.materials_by_name[piece.material].kind == "fabric"
        )
        assert abs(Fraction(each.area) - area) < Fraction(1, 10**20)
        for measure in [each for each in recipe.measures if each.role == "size"]:
            scale = measure.scales[units]
            assert (each.measures[measure.name] - scale.least) % scale.step == 0
        arrangement = each.arrangement
        grid = (arrangement.across, arrangement.high, arrangement.deep)
        assert prod(grid) >= count
        block = [n * edge for n, edge in zip(grid, arrangement.thing, strict=True)]
        assert has_room(each.room, [edge + what.loose for edge in block])
        assert is_left(each.room, block, each.spare)
        assert all(Fraction(spare) >= what.loose - Fraction(1, 10**20) for spare in each.spare)
        assert held(recipe, units, what, measures=each.measures).count >= count
