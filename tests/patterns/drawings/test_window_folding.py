"""The folding model follows the window pouch: its stack, and what it finds when one thing is moved."""

from fractions import Fraction

import pytest

from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.folding import FoldingError, follow
from patterns.drawings.folding.layers import zones
from patterns.drawings.folding.state import State
from patterns.starters import text_of

TEXT = text_of("window-pouch")
INCH = Fraction(127, 5)


def pouch(text: str = TEXT, options: dict[str, str] | None = None, **measures: str) -> SizedPattern:
    lengths = {name.replace("_", " "): Fraction(value) * INCH for name, value in measures.items()}
    return size(read_recipe(text), "window-pouch", Units.INCHES, lengths, options or {})


def after(title: str, sized: SizedPattern) -> State:
    return next(
        told.after for step, told in zip(sized.steps, follow(sized), strict=True) if step.title == title
    )


def lowest(state: State) -> list[str]:
    """The layers at the bottom folds, from the table up: cloth and the side that faces up."""
    return [f"{layer.strip.split()[0]} {layer.up}" for layer in zones(state.layers)[0].layers]


def amiss(before: str, after: str) -> str:
    assert TEXT.count(before) >= 1
    with pytest.raises(FoldingError) as found:
        follow(pouch(TEXT.replace(before, after, 1)))
    return str(found.value).partition(", ")[2]


def test_both_cloths_are_pushed_in_as_one(no_floats):
    assert lowest(after("Sew the sides", pouch())) == [
        *("lining wrong", "exterior right", "exterior wrong", "lining right"),
        *("lining wrong", "exterior right", "exterior wrong", "lining right"),
    ]


def test_turned_the_front_lies_on_top_with_the_base_behind_it(no_floats):
    state = after("Turn the pouch", pouch())
    assert lowest(state) == [
        *("exterior wrong", "lining right", "lining wrong", "exterior right"),
        *("exterior wrong", "lining right", "lining wrong", "exterior right"),
    ]
    tops = [zone.layers[-1].strip for zone in zones(state.layers)]
    assert list(dict.fromkeys(tops)) == ["exterior main", "window", "exterior band", "zip"]


def test_the_window_may_reach_down_beside_the_pleats(no_floats):
    """A low border and a deep base: the front is a single layer of vinyl there."""
    for border, counts in (("3/4", [8, 7, 3, 4, 2]), ("2", [8, 4, 3, 4, 2])):
        state = after("Sew the sides", pouch(lower_border=border))
        assert [len(zone.layers) for zone in zones(state.layers)] == counts


def test_front_and_back_join_to_what_one_panel_is():
    title = "Sew the sides"
    whole = after(title, pouch())
    halves = after(title, pouch(options={"exterior print": "one way", "lining print": "one way"}))
    assert whole.layers == halves.layers


MAIN, BAND = '[pieces."exterior main panel".marks."', '[pieces."lining band".marks."'
PLEAT = '"]\nkind = "fold"\ndown = "zip seam allowance + height − reveal ÷ 2'
MOVED = [
    (  # a pleat line of one of the two cloths
        f"{MAIN}front pleat line{PLEAT} + depth",
        f"{MAIN}front pleat line{PLEAT} + depth − seam allowance",
        "“Fold the pouch”: the exterior main front pleat line, exterior main back pleat line, lining "
        "main front "
        "pleat line and lining main back pleat line do not lie on each other: they lie 1⁄2 in apart.",
    ),
    (  # the middle of one of them
        f"{MAIN}middle fold{PLEAT} + depth ÷ 2",
        f"{MAIN}middle fold{PLEAT} + depth",
        "“Sew the window to the main”: the exterior main middle fold and lining main middle fold do "
        "not lie on each other: they lie 1 1⁄2 in apart.",
    ),
    (  # a fold at the window
        f'{BAND}window fold line"]\nkind = "fold"\ndown = "zip seam allowance + top band − reveal ÷ 2"',
        f'{BAND}window fold line"]\nkind = "fold"\ndown = "top band − reveal ÷ 2"',
        "“Press the window edges”: the exterior band window fold line and lining band window fold "
        "line do not lie on each other: they lie 1⁄4 in apart.",
    ),
    (  # a lap line: the loop does not close
        'down = "window seam allowance + clear height"',
        'down = "2 × window seam allowance + clear height − zip seam allowance"',
        "“Sew the window to the main”: the second row misses the window: it does not lie so deep between "
        "the folds.",
    ),
    (  # a zip seam line
        f'{MAIN}zip seam line"]\nkind = "stitch"\ndown = "zip seam allowance"',
        f'{MAIN}zip seam line"]\nkind = "stitch"\ndown = "seam allowance"',
        "“Sew the mains to the zip”: the zip seam line of the exterior main, from its raw edge, comes "
        "to 1⁄2 in, where it should be 1⁄4 in.",
    ),
    (  # a side seam line of the window
        '[pieces.window.marks."left side seam line"]\nkind = "stitch"\nacross = "seam allowance"',
        '[pieces.window.marks."left side seam line"]\nkind = "stitch"\nacross = "window seam allowance"',
        "“Sew the sides”: the left side seam line of the window, from the raw edge, comes to 3⁄8 in, "
        "where it should be 1⁄2 in.",
    ),
]


@pytest.mark.parametrize(("before", "mark", "told"), MOVED)
def test_a_moved_mark_is_found(before, mark, told):
    assert amiss(before, mark) == told


WORK = "[[steps.work]]\n"
BINDING = (
    'height = "{} × bound width"\nsays = "One for each side seam."\n\n'
    '[pieces.binding.marks."middle fold"]\nkind = "fold"\ndown = "{} × bound width"'
)
WRONG = [
    (  # the second row beyond the vinyl
        'second = "second row"',
        'second = "window seam allowance"',
        "“Sew the window to the band”: the second row misses the window: it does not lie so deep "
        "between the folds.",
    ),
    (  # basted up to the fold, where the vinyl goes in
        'free = "2 × window seam allowance"',
        'free = "window seam allowance"',
        "“Baste exterior and lining together”: basted so near to the fold, the exterior band leaves no "
        "room for the window.",
    ),
    (  # the edges not pressed in
        f'{WORK}hem = ["exterior band window fold line", "lining band window fold line"]\n\n',
        "",
        "“Sew the window to the band”: the window fold line of the exterior band is not pressed in so far.",
    ),
    (  # exterior and lining not basted
        f'{WORK}mount = ["exterior band", "lining band"]\nfree = "2 × window seam allowance"\n\n',
        "",
        "“Sew the window to the band”: the exterior band and lining band are not one cloth so far.",
    ),
    (  # the other lap line first
        'lap = "window upper lap line"',
        'lap = "window lower lap line"',
        "“Sew the window to the main”: the window lower lap line, exterior main window fold line and "
        "lining main window fold line do not lie on each other: they lie 4 3⁄4 in apart.",
    ),
    (  # folded with the exterior out
        f'{WORK}reverse = "lining main"\n\n',
        "",
        "“Fold the pouch”: the lining main would have to pass through the seam of lining main and window.",
    ),
    (  # the base left where it is
        'push = "exterior main middle fold"',
        'push = "zip teeth"',
        "“Fold the pouch”: the marks do not lie in the layers that meet at the zip teeth.",
    ),
    (  # a binding that is too narrow
        BINDING.format(4, 2),
        BINDING.format(2, 1),
        "“Bind the side seams”: the binding does not cover what is left of the allowance.",
    ),
    (  # a binding of another length
        'with = "binding"\nlong = "height"',
        'with = "binding"\nlong = "height + depth"',
        "“Bind the side seams”: the binding with its ends turned in comes to 10 in, where it should be 7 in.",
    ),
    (  # trimmed to the stitching
        'trim = "sides"\nleave = "bound allowance"',
        'trim = "sides"\nleave = "bound allowance − bound allowance"',
        "“Trim the side seams”: the trimming reaches the stitching, or leaves more than there is.",
    ),
    (  # the ends of the zip cut before they are sewn across
        f'{WORK}secure = "zip"\n\n',
        "",
        "“Sew the sides”: the zip is not sewn across its ends so far.",
    ),
    (  # shut
        f'\n{WORK}open = "zip"\nby = "2 ÷ 3"\n',
        "",
        "“Turn the pouch”: the zip is shut, and nothing can be drawn through it.",
    ),
    (
        'layers = "8"',
        'layers = "6"',
        "“Sew the sides”: at the bottom folds of the exterior band, exterior main, lining band, lining "
        "main and window the side edge shows 8 layers; told are 6.",
    ),
    (
        'finish = "exterior main"\nwidth = "width + depth"\nheight = "height"',
        'finish = "exterior main"\nwidth = "width + depth"\nheight = "height − reveal ÷ 2"',
        "“Crease the base and measure”: the height when folded flat comes to 7 in, where it should be 6 "
        "3⁄4 in.",
    ),
]


@pytest.mark.parametrize(("before", "act", "told"), WRONG)
def test_a_wrong_instruction_is_found(before, act, told):
    assert amiss(before, act) == told
