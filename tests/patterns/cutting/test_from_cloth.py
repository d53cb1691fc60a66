from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.cutting.demand import Demand
from patterns.cutting.errors import CuttingError
from patterns.cutting.from_cloth import MOST_OPEN, from_cloth
from patterns.cutting.ladder import PROPORTIONS, VOLUME, growing
from patterns.cutting.settling import settled
from patterns.cutting.sharing import Cloth
from patterns.cutting.sheets import Placement, Rectangle, Sheet
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs

from .layouts import assert_is_layout

IN, CM = Units.INCHES, Units.CENTIMETRES
INCH = IN.mm
# What can be used of one. Source: common practice.
FAT_QUARTER = Cloth(18 * INCH, 21 * INCH)
ONE_WAY = {"exterior print": "one way", "lining print": "one way"}


def inches(found) -> dict[str, Fraction]:
    return {name: value / INCH for name, value in found.measures.items()}


def test_two_fat_quarters_make_at_least_the_basket_of_7_by_5_by_5():
    """Source: common practice: one fat quarter for its exterior and one for its lining."""
    recipe = read_starter("fold-flat-basket")
    wanted = {name: Fraction(number) * INCH for name, number in (("width", 7), ("height", 5), ("depth", 5))}
    found = from_cloth(recipe, IN, [FAT_QUARTER] * 2, PROPORTIONS, wanted)
    assert found.proved
    assert all(found.measures[name] >= value for name, value in wanted.items())


def test_without_cloth_enough_there_is_no_size():
    """The smallest basket takes 6 × 9 in of each fabric, or less; no piece of 4 × 4 holds that."""
    found = from_cloth(read_starter("fold-flat-basket"), IN, [Cloth(4 * INCH, 4 * INCH)] * 2, PROPORTIONS)
    assert found.measures is None
    assert found.placements == ()
    assert found.proved


@pytest.mark.parametrize("options", [{}, ONE_WAY], ids=["any way", "one way"])
@pytest.mark.parametrize("slug", slugs())
def test_what_is_found_can_be_sewn_and_is_laid_on_the_cloth(slug, options):
    """Its size passes the checks; every copy of every piece of fabric lies on a sheet of that fabric."""
    recipe = read_starter(slug)
    cloth = [Cloth(42 * INCH, 36 * INCH)] * 2
    found = from_cloth(recipe, IN, cloth, PROPORTIONS, options=options)
    sized = size(recipe, slug, IN, found.measures, options)
    assert not sized.is_refused
    fabrics = {material.name for material in sized.materials if material.kind == "fabric"}
    pieces = {piece.name: piece for piece in sized.pieces if piece.material in fabrics}
    assert {piece.name: (piece.cut, piece.width, piece.height) for piece in found.pieces} == {
        name: (piece.cut, piece.width.value, piece.height.value) for name, piece in pieces.items()
    }
    copies = [piece for piece in found.pieces for _ in range(piece.cut)]
    assert sorted(each.piece for each in found.placements) == sorted(piece.name for piece in copies)
    on_sheets: dict[int, set[str]] = {}
    for each in found.placements:
        on_sheets.setdefault(each.sheet, set()).add(each.material)
    assert all(len(materials) == 1 for materials in on_sheets.values())
    laid = tuple(
        Placement(number, each.sheet, each.x, each.y, each.width, each.height, each.turned)
        for number, each in enumerate(found.placements)
    )
    # An irrational side is laid a hair larger than it is.
    hair = Fraction(1, 10**6)
    rectangles = []
    for each in found.placements:
        piece = pieces[each.piece]
        sides = (each.height, each.width) if each.turned else (each.width, each.height)
        assert 0 <= sides[0] - Fraction(piece.width.value) <= hair
        assert 0 <= sides[1] - Fraction(piece.height.value) <= hair
        rectangles.append(Rectangle(*sides, piece.turns))
    assert_is_layout(laid, rectangles, [Sheet(each.width, each.height) for each in cloth])


inches_long = st.integers(8, 40)


@settings(deadline=None, max_examples=12)
@given(inches_long, inches_long, st.booleans(), st.sampled_from(["fold-flat-basket", "zip-pouch"]))
def test_every_larger_size_is_refused_or_settled(wide, high, one_way, slug):
    """By the proportions, climbed again step by step, each size sized whole and settled alone."""
    recipe, options = read_starter(slug), ONE_WAY if one_way else {}
    cloth = [Cloth(wide * INCH, high * INCH)] * 2
    found = from_cloth(recipe, IN, cloth, PROPORTIONS, options=options)
    defaults = {each.name: each.scales[IN].default for each in growing(recipe)}
    times = {
        (scale.least + step * scale.step) / defaults[each.name]
        for each in growing(recipe)
        for scale in [each.scales[IN]]
        for step in range((scale.most - scale.least) // scale.step + 1)
    }
    fits = [
        at
        for t in sorted(times)
        if (at := on_steps(recipe, {name: t * value for name, value in defaults.items()})) is not None
        and is_cut_from(recipe, slug, at, options, cloth)
    ]
    best = None if not fits else fits[-1]
    assert found.proved
    assert best == (None if found.measures is None else {name: found.measures[name] for name in defaults})


def on_steps(recipe, measures):
    """The measures rounded down to their steps; None where one leaves its range."""
    found = {}
    for name, value in measures.items():
        scale = recipe.measure(name).scales[IN]
        found[name] = scale.least + (value - scale.least) // scale.step * scale.step
        if not scale.least <= found[name] <= scale.most:
            return None
    return found


def is_cut_from(recipe, slug, measures, options, cloth) -> bool:
    """One sheet for each of two fabrics."""
    sized = size(recipe, slug, IN, measures, options)
    if sized.is_refused:
        return False
    for fabric in ("exterior fabric", "lining fabric"):
        pieces = [
            Rectangle(piece.width.value, piece.height.value, piece.turns)
            for piece in sized.pieces
            if piece.material == fabric
            for _ in range(piece.cut)
        ]
        if not isinstance(settled(pieces, [Sheet(cloth[0].width, cloth[0].height)]), tuple):
            return False
    return True


def test_two_measures_stay_and_the_third_grows():
    """Source: the cut sizes of the basket: 18 in across leave 2 × 6 + depth + 1 ≤ 21 for a width of 9."""
    found = from_cloth(read_starter("fold-flat-basket"), IN, [FAT_QUARTER] * 2, ("width", "height"))
    assert inches(found) == {"width": 9, "height": 6, "depth": 8, "seam allowance": Fraction(1, 2)}
    assert found.larger == {"width": 9 * INCH, "height": 6 * INCH, "depth": Fraction(33, 4) * INCH}


def test_most_volume_is_no_less_than_by_proportions():
    recipe, cloth = read_starter("zip-pouch"), [Cloth(300, 260)] * 2
    volumes = []
    for keep in (PROPORTIONS, VOLUME):
        at = from_cloth(recipe, CM, cloth, keep).measures
        volumes.append(at["width"] * at["height"] * at["depth"])
    assert volumes[0] <= volumes[1]


def test_cloth_for_one_fabric_serves_no_other():
    recipe = read_starter("fold-flat-basket")
    exterior = Cloth(18 * INCH, 21 * INCH, "exterior fabric")
    assert from_cloth(recipe, IN, [exterior] * 2, PROPORTIONS).measures is None
    lining = Cloth(18 * INCH, 21 * INCH, "lining fabric")
    assert from_cloth(recipe, IN, [exterior, lining], PROPORTIONS).measures is not None


def test_what_is_open_is_said_smallest_first_and_not_called_proved():
    found = from_cloth(read_starter("boxed-tote"), IN, [Cloth(42 * INCH, 36 * INCH)] * 2, PROPORTIONS)
    assert not found.proved
    assert 1 <= len(found.still_open) <= MOST_OPEN
    assert [at["width"] for at in found.still_open] == sorted(at["width"] for at in found.still_open)


@pytest.mark.parametrize("slug", ["boxed-tote", "round-bucket", "drawstring-bag"])
def test_the_area_of_outlines_proves_more(slug, monkeypatch):
    """Without it, only what is too large for a sheet and the rectangles among the pieces exclude a size."""
    recipe = read_starter(slug)
    questions = [
        [Cloth(wide * INCH, high * INCH)] * sheets
        for wide, high in ((18, 21), (44, 18), (30, 40))
        for sheets in (2, 4)
    ]
    found = [from_cloth(recipe, IN, cloth, PROPORTIONS) for cloth in questions]
    monkeypatch.setattr(Demand, "outlined_area", lambda self, place, part: 0)
    without = [from_cloth(recipe, IN, cloth, PROPORTIONS) for cloth in questions]
    assert [each.measures for each in found] == [each.measures for each in without]
    assert all(each.how_many_open <= other.how_many_open for each, other in zip(found, without, strict=True))
    assert sum(each.how_many_open for each in found) < sum(each.how_many_open for each in without)


@pytest.mark.parametrize(
    ("cloth", "keep", "message"),
    [
        ([], PROPORTIONS, "1 to 24 pieces of cloth, not on 0"),
        ([FAT_QUARTER] * 25, PROPORTIONS, "1 to 24 pieces of cloth, not on 25"),
        ([Cloth(500, 500, "felt")], PROPORTIONS, "“felt” is no fabric that is cut here"),
        ([FAT_QUARTER], ("width",), "leaves no single measure to grow"),
        ([FAT_QUARTER], ("width", "hight"), "leaves no single measure to grow"),
        ([FAT_QUARTER], ("width", "height", "depth"), "leaves no single measure to grow"),
    ],
)
def test_what_cannot_be_asked_is_named(cloth, keep, message):
    with pytest.raises(CuttingError, match=message):
        from_cloth(read_starter("fold-flat-basket"), IN, cloth, keep)
