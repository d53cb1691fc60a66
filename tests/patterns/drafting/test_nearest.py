from fractions import Fraction

from patterns.drafting.nearest import nearest_size
from patterns.drafting.recipe import Check
from patterns.drafting.sizing import size
from tests.recipes import CM, IN, formula, make_disc, make_recipe


def nearest(recipe, most_moved=1, units=IN, **measures):
    found = nearest_size(
        recipe,
        units,
        {name.replace("_", " "): Fraction(value) * units.mm for name, value in measures.items()},
        {},
        most_moved,
    )
    if found is None:
        return None
    return {name: value if name == "folds" else value / units.mm for name, value in found.items()}


def refusing(*formulas):
    """The mat with other refuse checks."""
    return make_recipe(checks=tuple(Check("refuse", text, formula(text), ("No.",)) for text in formulas))


def test_the_least_change_in_steps_wins():
    """3 in high in 3 folds is 1 in a fold, 2 in wanted: 2 folds need 4 in, so height alone moves 12 steps."""
    assert nearest(make_recipe(), height="3")["height"] == 6


def test_a_count_may_be_the_measure_that_moves():
    """4 in high: one step fewer in folds against eight steps of height."""
    found = nearest(make_recipe(), height="4")
    assert (found["height"], found["folds"]) == (4, 2)


def test_an_odd_value_moves_on_to_the_grid():
    found = nearest(refusing("width ≥ height + height"), width="11.9", height="6")
    assert found["width"] == 12


def test_a_rise_before_a_fall():
    found = nearest(refusing("width ≠ height + height"), width="12", height="6")
    assert (found["width"], found["height"]) == (Fraction(49, 4), 6)


def test_recipe_order_decides_between_equals():
    found = nearest(refusing("width ≠ height"), width="7", height="7")
    assert (found["width"], found["height"]) == (Fraction(29, 4), 7)


def test_one_measure_may_not_be_enough():
    recipe = refusing("width + height ≥ least fold × 19")
    assert nearest(recipe, 1, width="4", height="4") is None
    found = nearest(recipe, 2, width="4", height="4")
    assert found["width"] + found["height"] == 38


def test_a_measure_out_of_range_must_move():
    assert nearest(make_recipe(), width="25")["width"] == 20
    assert nearest(make_recipe(), 2, width="25", height="1")["height"] == 6


def test_a_making_measure_moves_only_when_out_of_range_and_to_the_end():
    found = nearest(make_recipe(), seam_allowance="3")
    assert found["seam allowance"] == 1
    assert found["width"] == 9


def test_what_is_found_is_never_refused():
    recipe = make_recipe()
    for height in ("2", "2.5", "3.75"):
        found = nearest_size(recipe, CM, {"height": Fraction(height) * CM.mm * 2}, {})
        assert found is not None
        assert not size(recipe, "m", CM, found).is_refused


def test_nothing_is_found_where_nothing_works():
    assert nearest(refusing("width > least fold × 100"), 2) is None


def test_a_size_whose_outline_cannot_be_cut_is_passed_over():
    recipe = make_recipe(pieces=(make_disc("0", "height ÷ 2"),), checks=())
    found = nearest(recipe, width="7", height="6")
    assert (found["width"], found["height"]) == (7, 7)
