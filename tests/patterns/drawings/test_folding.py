"""The folding model: the steps of the basket followed, and what it finds when one thing is moved."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import product
from typing import get_args

import pytest

from patterns.drafting.recipe import Recipe
from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drafting.work import Verb
from patterns.drawings.folding import FoldingError, follow
from patterns.drawings.folding.follow import ACTS
from patterns.drawings.folding.layers import Layer, faces_amiss, look_for_crossings, zones
from patterns.drawings.folding.proving import sizes_to_follow
from patterns.drawings.folding.state import State
from patterns.starters import read_starter, text_of

FOLDED = ("fold-flat-basket", "gift-bag", "packable-tote", "window-pouch", "zip-pouch")
BASKET = text_of("fold-flat-basket")
INCH = Fraction(127, 5)
BACK_EDGE = "seam allowance + 2 × height + depth"


def basket(text: str = BASKET, **measures: str) -> SizedPattern:
    lengths = {name: Fraction(value) * INCH for name, value in measures.items()}
    return size(read_recipe(text), "fold-flat-basket", Units.INCHES, lengths)


def after(sized: SizedPattern, title: str) -> State:
    return next(
        told.after for step, told in zip(sized.steps, follow(sized), strict=True) if step.title == title
    )


def stack_of(state: State) -> list[str]:
    """The layers from the table up: cloth, front or back half, side up, inches from left to right."""
    found = []
    for layer in state.layers:
        middle = state.strips[layer.strip].length / 2
        half = "front" if layer.end <= middle else "back"
        left, right = layer.left / INCH, layer.right / INCH
        found.append(f"{layer.strip} {half} {layer.up} {left} {right}")
    return found


def amiss(text: str, **measures: str) -> str:
    with pytest.raises(FoldingError) as found:
        follow(basket(text, **measures))
    return str(found.value).partition(", ")[2]


def changed(before: str, after: str, count: int = 1) -> str:
    assert BASKET.count(before) >= count
    return BASKET.replace(before, after, count)


def test_every_verb_is_followed():
    assert set(ACTS) == set(get_args(Verb))


def test_the_stack_is_that_of_the_construction(no_floats):
    state = after(basket(), "Bring the lining over the exterior")
    assert stack_of(state) == [
        "exterior front right -6 0",
        "exterior back wrong -6 0",
        "lining back right -6 0",
        "lining back wrong -6 -7/2",
        "exterior back right -6 -7/2",
        "exterior front wrong -6 -7/2",
        "lining front right -6 -7/2",
        "lining front wrong -6 0",
    ]
    assert [len(zone.layers) for zone in zones(state.layers)] == [8, 4]
    assert not faces_amiss(state.layers)


def test_the_opening_is_underneath_and_the_flap_on_the_back():
    state = after(basket(), "Fold up the exterior")
    assert stack_of(state) == [
        "exterior front right -6 0",
        "lining front right 0 17/2",
        "exterior back wrong -6 0",
        "lining back wrong 0 17/2",
        "exterior back right -6 -7/2",
        "exterior front wrong -6 -7/2",
    ]


def test_turned_it_is_right_side_out_with_the_base_between():
    state = after(basket(), "Turn the basket")
    assert state.outside == "exterior"
    assert [(layer.strip, layer.down, layer.up) for layer in (state.layers[0], state.layers[-1])] == [
        ("exterior", "right", "wrong"),
        ("exterior", "wrong", "right"),
    ]
    assert [layer.strip for layer in state.layers] == [
        *("exterior", "lining", "lining", "exterior"),
        *("exterior", "lining", "lining", "exterior"),
    ]


def every_way(recipe: Recipe) -> Iterator[dict[str, str]]:
    names = [option.name for option in recipe.options]
    for chosen in product(*([choice.name for choice in option.choices] for option in recipe.options)):
        yield dict(zip(names, chosen, strict=True))


@pytest.mark.parametrize("slug", FOLDED)
@pytest.mark.parametrize("units", list(Units))
def test_the_steps_hold_with_every_choice(slug, units, no_floats):
    recipe = read_starter(slug)
    for options in every_way(recipe):
        follow(size(recipe, slug, units, {}, options))


@pytest.mark.parametrize("slug", FOLDED)
def test_the_steps_hold_at_extreme_sizes(slug):
    told = [follow(sized) for sized in sizes_to_follow(read_starter(slug))]
    assert len(told) > 30


def test_halves_fold_as_one_panel_does():
    recipe = read_starter("fold-flat-basket")
    whole, halves = (
        size(recipe, "x", Units.INCHES, {}, {"exterior print": way, "lining print": way})
        for way in ("no direction", "one way")
    )
    title = "Bring the lining over the exterior"
    assert stack_of(after(whole, title)) == stack_of(after(halves, title))


def line_of(piece: str, mark: str, kind: str, place: str) -> str:
    return f'[pieces."{piece}".marks."{mark}"]\nkind = "{kind}"\n{place}'


def down(piece: str, mark: str, place: str) -> str:
    return line_of(piece, mark, "fold", f'down = "{place}"')


OUTER, INNER = "exterior panel", "lining panel"
FRONT, MIDDLE = "seam allowance + height", "seam allowance + height + depth ÷ 2"
BACK = "seam allowance + height + depth"
MOVED = [
    (  # a pleat line of the exterior
        down(OUTER, "front pleat line", FRONT),
        down(OUTER, "front pleat line", "height"),
        "“Fold up the exterior”: the exterior front pleat line and exterior back pleat line do not lie on "
        "each other: they lie 1⁄2 in apart.",
    ),
    (  # the middle fold of the lining
        down(INNER, "middle fold", MIDDLE),
        down(INNER, "middle fold", "seam allowance + height + depth ÷ 4"),
        "“Lay out the loop”: the lining from the seam above to its fold comes to 9 3⁄4 in, where it should "
        "be 7 1⁄4 in.",
    ),
    (  # both pleat lines of the lining, alike: they meet, yet not level with the exterior's
        down(INNER, "front pleat line", FRONT) + "\n\n" + down(INNER, "back pleat line", BACK),
        down(INNER, "front pleat line", f"{FRONT} + seam allowance")
        + "\n\n"
        + down(INNER, "back pleat line", "height + depth"),
        "“Bring the lining over the exterior”: the lining would have to pass through the fold of the "
        "exterior.",
    ),
    (  # the opening, at the back's top edge
        'kind = "opening"\ndown = "seam allowance"',
        'kind = "opening"\ndown = "seam allowance + 2 × height + depth"',
        "“Sew the front top seam”: the exterior turning opening does not lie on this seam.",
    ),
    (  # an opening into the side seam
        'from = "seam allowance + (width + depth − opening) ÷ 2"',
        'from = "(width + depth − opening) ÷ 2 − 4 × seam allowance − opening ÷ 2"',
        "“Sew the front top seam”: the exterior turning opening runs into a side seam.",
    ),
    (  # a side seam line of the lining
        line_of(INNER, "right side seam line", "stitch", 'across = "seam allowance + width + depth"'),
        line_of(INNER, "right side seam line", "stitch", 'across = "width + depth"'),
        "“Sew the sides”: the right side seam line of the lining, from the raw edge, comes to 14 in, where "
        "it should be 14 1⁄2 in.",
    ),
    (  # a clip through the seam
        '"clip length" = "seam allowance − clip clearance"',
        '"clip length" = "seam allowance + clip clearance"',
        "“Clip the lining at its middle fold”: the left clip of the lining is cut through a side seam line.",
    ),
]


@pytest.mark.parametrize(("before", "mark", "told"), MOVED)
def test_a_moved_mark_is_found(before, mark, told):
    assert amiss(changed(before, mark)) == told


WRONG = [
    (  # the flap on the front, where the opening is
        'bring = "exterior middle fold"',
        'bring = "exterior middle fold"\nway = "under"',
        "“Bring the lining over the exterior”: the exterior cannot pass the exterior to get there.",
    ),
    (  # the loop laid with the opening on top, the flap on it
        'leave = "exterior turning opening"\n',
        "",
        "“Lay out the loop”: no seam has been left open at the exterior turning opening.",
    ),
    (  # the lining not pushed in
        '[[steps.work]]\npush = "lining middle fold"\n'
        'between = ["lining front pleat line", "lining back pleat line"]\n\n',
        "",
        "“Bring the lining over the exterior”: the lining would have to pass through the fold of the "
        "exterior.",
    ),
    (  # the flap left beside the lining's pleats
        '[[steps.work]]\ntuck = "exterior middle fold"\ninto = "lining middle fold"\n\n',
        "",
        "“Bring the lining over the exterior”: the exterior middle fold does not lie inside the fold of the "
        "lining middle fold.",
    ),
    (  # wrong sides together
        'sides = "right sides together"',
        'sides = "wrong sides together"',
        "“Sew the sides”: at the side seams the exterior lies right sides together on the lining.",
    ),
    (  # a mark that is used before it is drawn
        '[[steps.work]]\nmark = ["turning opening"]\non = ["exterior"]\n\n',
        "",
        "“Sew the front top seam”: the turning opening of the exterior has not been drawn so far.",
    ),
    (
        'layers = "8"',
        'layers = "6"',
        "“Sew the sides”: from the bottom folds up the side edge shows 8, then 4 layers; told are 6, then 4.",
    ),
    (
        'trim = "corners"\nleave = "seam allowance ÷ 2"',
        'trim = "corners"\nleave = "seam allowance"',
        "“Trim the side seams”: the trimming reaches the stitching, or takes nothing off.",
    ),
    (
        'below = "topstitch distance"',
        'below = "2 × seam allowance"',
        "“Topstitch the top edge”: the row lies below what is turned in of the exterior, and does not hold "
        "it.",
    ),
    (
        'through = "exterior turning opening"\n',
        "",
        "“Turn the basket”: nothing says through which opening.",
    ),
    (
        'finish = "exterior"\nwidth = "width + depth"',
        'finish = "exterior"\nwidth = "width"',
        "“Press the base and measure”: the width when folded flat comes to 14 in, where it should be 9 in.",
    ),
    (
        'finish = "exterior"\nwidth = "width + depth"\nheight = "height"',
        'finish = "exterior"\nwidth = "width + depth"\nheight = "height + depth"',
        "“Press the base and measure”: the height when folded flat comes to 6 in, where it should be 11 in.",
    ),
]


@pytest.mark.parametrize(("before", "act", "told"), WRONG)
def test_a_wrong_instruction_is_found(before, act, told):
    assert amiss(changed(before, act)) == told


def test_an_opening_on_the_face_of_the_flap_is_found():
    """Folded to the other side, all is the same but that nothing can come out through the opening."""
    text = changed('bring = "exterior middle fold"', 'bring = "exterior middle fold"\nway = "under"')
    text = text.replace('bring = "lining middle fold"', 'bring = "lining middle fold"\nway = "under"')
    assert amiss(text) == (
        "“Turn the basket”: the exterior turning opening lies inside the work: "
        "it must be in the face away from the flap."
    )


def test_either_seam_may_be_the_open_one():
    text = changed('kind = "opening"\ndown = "seam allowance"', f'kind = "opening"\ndown = "{BACK_EDGE}"')
    text = text.replace('leave = "exterior turning opening"\n', "")
    back = 'seam = ["exterior back top seam line", "lining back top seam line"]\n'
    follow(basket(text.replace(back, f'{back}leave = "exterior turning opening"\n')))


def test_cloth_does_not_pass_through_cloth():
    sheet = [
        Layer("a", Fraction(0), Fraction(2), Fraction(0), 1, "right"),
        Layer("b", Fraction(0), Fraction(4), Fraction(0), 1, "right"),
        Layer("a", Fraction(2), Fraction(4), Fraction(4), -1, "wrong"),
    ]
    with pytest.raises(ValueError, match="the b would have to pass through the fold of the a"):
        look_for_crossings(tuple(sheet), [])
    short = replace(sheet[1], end=Fraction(1))
    look_for_crossings((sheet[0], short, sheet[2]), [])


def test_reflection_keeps_lengths():
    layer = Layer("a", Fraction(1), Fraction(5), Fraction(0), 1, "right")
    over = layer.over(Fraction(3))
    assert (over.left, over.right, over.up) == (1, 5, "wrong")
    assert over.over(Fraction(3)) == layer
    assert layer.parted(Fraction(3)) == (replace(layer, end=Fraction(3)), replace(layer, start=Fraction(3)))
