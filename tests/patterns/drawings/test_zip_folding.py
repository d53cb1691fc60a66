"""The folding model follows the zip pouch: its stacks, and what it finds when one thing is moved."""

from fractions import Fraction

import pytest

from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.folding import FoldingError, follow
from patterns.drawings.folding.state import State
from patterns.starters import text_of

TEXT = text_of("zip-pouch")
INCH = Fraction(127, 5)


def pouch(text: str = TEXT, **options: str) -> SizedPattern:
    chosen = {name.replace("_", " "): choice for name, choice in options.items()}
    return size(read_recipe(text), "zip-pouch", Units.INCHES, {}, chosen)


def after(title: str) -> State:
    sized = pouch()
    return next(
        told.after for step, told in zip(sized.steps, follow(sized), strict=True) if step.title == title
    )


def stack_of(state: State) -> list[str]:
    """The layers from the table up: cloth, front or back half, side up, inches from left to right."""
    found = []
    for layer in state.layers:
        half = "front" if layer.end <= state.strips[layer.strip].length / 2 else "back"
        left, right = layer.left / INCH, layer.right / INCH
        found.append(f"{layer.strip} {half} {layer.up} {left} {right}")
    return found


def amiss(before: str, after: str, **options: str) -> str:
    assert TEXT.count(before) >= 1
    with pytest.raises(FoldingError) as found:
        follow(pouch(TEXT.replace(before, after, 1), **options))
    return str(found.value).partition(", ")[2]


def test_laid_apart_the_zip_lies_folded_in_the_lining(no_floats):
    assert stack_of(after("Lay exterior and lining apart")) == [
        "exterior front right -25/4 0",
        "lining front right 0 25/4",
        "zip front right 0 1/4",
        "zip back wrong 0 1/4",
        "exterior back wrong -25/4 0",
        "lining back wrong 0 25/4",
    ]


def test_one_base_is_pushed_in_and_one_folded_up(no_floats):
    assert stack_of(after("Fold up the lining")) == [
        "exterior front right -19/4 0",
        "exterior front wrong -19/4 -13/4",
        "lining front right 0 19/4",
        "zip front right 0 1/4",
        "zip back wrong 0 1/4",
        "exterior back right -19/4 -13/4",
        "exterior back wrong -19/4 0",
        "lining back wrong 0 19/4",
        "lining back right 13/4 19/4",
        "lining front wrong 13/4 19/4",
    ]


def test_finished_the_lining_lies_in_the_exterior_and_the_zip_over_the_edge(no_floats):
    state = after("Push in the lining, press and measure")
    assert stack_of(state) == [
        "exterior front wrong -19/4 -13/4",
        "exterior back right -19/4 -13/4",
        "exterior back wrong -19/4 0",
        "lining back right -19/4 0",
        "lining front wrong -19/4 0",
        "lining front right -19/4 -13/4",
        "lining back wrong -19/4 -13/4",
        "zip back wrong 0 1/4",
        "zip front right 0 1/4",
        "exterior front right -19/4 0",
    ]
    assert state.outside == "exterior"


PANEL, HALF = '[pieces."exterior panel".marks."', '[pieces."lining half panel".marks."'
PLEAT = '"]\nkind = "fold"\ndown = "zip seam allowance + height − reveal ÷ 2'
SEAM = '"]\nkind = "stitch"\ndown = "zip seam allowance + height − reveal ÷ 2'
MOVED = [
    (  # a pleat line of the exterior
        f"{PANEL}front pleat line{PLEAT}",
        f"{PANEL}front pleat line{PLEAT} − seam allowance",
        "“Push in the exterior”: the exterior front pleat line and exterior back pleat line do not "
        "lie on each other: they lie 1⁄2 in apart.",
    ),
    (  # both pleat lines of the lining: they meet, yet not level with the exterior's
        f"{HALF}pleat line{PLEAT}",
        f"{HALF}pleat line{PLEAT} + zip seam allowance",
        "“Sew the sides”: the lining from the zip seams to its bottom fold, beside the exterior, "
        "comes to 5 in, where it should be 4 3⁄4 in.",
    ),
    (  # the base seam of the lining
        f'{HALF}base seam line{SEAM} + depth ÷ 2"',
        f'{HALF}base seam line{SEAM} + depth"',
        "“Join the lining with its opening”: the turning opening of the lining half does not lie on "
        "this seam.",
    ),
    (  # a zip seam line
        f'{PANEL}front zip seam line"]\nkind = "stitch"\ndown = "zip seam allowance"',
        f'{PANEL}front zip seam line"]\nkind = "stitch"\ndown = "seam allowance"',
        "“Lay the zip between the front edges”: the front zip seam line of the exterior, from its raw edge, "
        "comes to 1⁄2 in, where it should be 1⁄4 in.",
    ),
    (  # a centre
        'across = "seam allowance + (width + depth) ÷ 2"\nsays = "Meets the centre of the zip."',
        'across = "(width + depth) ÷ 2"\nsays = "Meets the centre of the zip."',
        "“Lay the zip between the front edges”: the front zip centre of the exterior, from its side "
        "edge, comes to 5 1⁄2 in, where it should be 6 in.",
    ),
    (  # the opening into a side seam
        'from = "seam allowance + (width + depth − opening) ÷ 2"',
        'from = "seam allowance − zip seam allowance"',
        "“Join the lining with its opening”: the lining turning opening runs into a side seam.",
    ),
    (  # a zip that is too short
        '"zip length" = "width + depth + 2 × seam allowance + zip spare"',
        '"zip length" = "width + depth + 2 × seam allowance"',
        "“Lay the zip between the front edges”: the zip does not stick out beyond both sides of the "
        "exterior.",
    ),
]


@pytest.mark.parametrize(("before", "mark", "told"), MOVED)
def test_a_moved_mark_is_found(before, mark, told):
    assert amiss(before, mark) == told


WORK = "[[steps.work]]\n"
WRONG = [
    (  # a row that ties exterior and lining together at the sides
        'off = "topstitch distance"\nshort = "topstitch stop"',
        'off = "topstitch distance"',
        "“Sew the sides”: the row beside the zip runs on into the side seams, and ties exterior and lining "
        "together where they must part.",
    ),
    (  # a row that misses what is turned in
        'off = "topstitch distance"',
        'off = "seam allowance"',
        "“Topstitch the front of the zip”: the row beside the zip does not hold what is turned in there.",
    ),
    (  # topstitched before the cloths are turned away from the zip
        f'{WORK}spread = ["exterior", "lining"]\nfrom = "zip"\n\n',
        "",
        "“Topstitch the front of the zip”: the exterior and the lining do not lie wrong sides "
        "together there.",
    ),
    (  # the lining turned end for end
        'between = ["exterior back zip seam line", "lining back zip seam line"]',
        'between = ["exterior back zip seam line", "lining front zip seam line"]',
        "“Sew the back of the zip”: the lining would be twisted: its other edge belongs to that tape.",
    ),
    (  # the same tape twice
        'at = "zip back seam line"',
        'at = "zip front seam line"',
        "“Sew the back of the zip”: that tape of the zip is sewn in already.",
    ),
    (  # the ends of the zip left as they are
        f'{WORK}secure = "zip"\n\n',
        "",
        "“Sew the sides”: the zip is not sewn across its ends so far.",
    ),
    (  # the zip left shut
        f'\n{WORK}open = "zip"\nby = "2 ÷ 3"\n',
        "",
        "“Turn the pouch”: the zip is shut, and nothing can be drawn through it.",
    ),
    (  # the lining folded at its pleat line
        'part = ["exterior middle fold", "lining middle fold"]',
        'part = ["exterior middle fold", "lining front pleat line"]',
        "“Lay exterior and lining apart”: the lining from the back zip seam to its fold comes to 7 "
        "3⁄4 in, where it should be 4 3⁄4 in.",
    ),
    (  # the exterior not pushed in
        f'{WORK}push = "exterior middle fold"\n'
        'between = ["exterior front pleat line", "exterior back pleat line"]\n\n',
        "",
        "“Sew the sides”: at the bottom folds of the exterior the side edge shows 2 layers; told are 4.",
    ),
    (  # the exterior folded up too, so that its triangles would be hidden
        'push = "exterior middle fold"\nbetween = ["exterior front pleat line", "exterior back pleat line"]',
        'fold = ["exterior front pleat line", "exterior back pleat line"]\nbring = "exterior middle fold"',
        "“Push in the lining, press and measure”: the triangles of the exterior would not stand outside.",
    ),
    (  # the lining pushed in too, so that its triangles would stand in the pouch
        'fold = ["lining front pleat line", "lining back pleat line"]\nbring = "lining middle fold"',
        'push = "lining middle fold"\nbetween = ["lining front pleat line", "lining back pleat line"]',
        "“Push in the lining, press and measure”: the triangles of the lining would not stand hidden between "
        "the two.",
    ),
    (  # no way out
        'middle = "middle fold"\nleave = "turning opening"\n',
        'middle = "middle fold"\n',
        "“Turn the pouch”: the turning opening of the lining has not been drawn so far.",
    ),
    (  # out through the zip alone
        'through = "lining turning opening"',
        'through = "zip teeth"',
        "“Turn the pouch”: drawn through the zip alone, the seams would stay outside.",
    ),
    (  # the opening left open
        f'{WORK}close = "lining turning opening"\noff = "topstitch distance"\n\n',
        "",
        "“Push in the lining, press and measure”: the lining turning opening is not closed so far.",
    ),
    (  # the lining left hanging out
        f'{WORK}slip = "lining"\ninto = "exterior"\n\n',
        "",
        "“Push in the lining, press and measure”: the height when folded flat comes to 9 1⁄2 in, "
        "where it should be 5 in.",
    ),
    (  # the finished width
        'finish = "exterior"\nwidth = "width + depth"',
        'finish = "exterior"\nwidth = "width"',
        "“Push in the lining, press and measure”: the width when folded flat comes to 11 in, where it "
        "should be 8 in.",
    ),
]


@pytest.mark.parametrize(("before", "act", "told"), WRONG)
def test_a_wrong_instruction_is_found(before, act, told):
    assert amiss(before, act) == told


def test_heavy_interfacing_keeps_clear_of_unlike_seams_at_both_ends():
    """Of a half the zip edge has another allowance than the base edge."""
    told = follow(pouch(interfacing="heavy", exterior_print="one way"))
    fused = next(
        strip.fused
        for each in told
        for strip in each.after.strips.values()
        if strip.name == "exterior half" and strip.fused
    )
    assert fused == ("heavy interfacing half panel", INCH / 2, INCH / 4, INCH / 2)
    piece = '[pieces."heavy interfacing half panel"]\nfrom = "heavy interfacing"\ncut = "2"\n'
    heavy = f'{piece}width = "width + depth"\n'
    wrong = amiss(
        f'{heavy}height = "height + depth ÷ 2 − reveal ÷ 2"',
        f'{heavy}height = "height + depth ÷ 2 − reveal ÷ 2 + zip seam allowance"',
        interfacing="heavy",
        exterior_print="one way",
    )
    assert wrong == (
        "“Fuse the heavy interfacing to the exterior”: what is free of the heavy interfacing half "
        "panel at both ends comes to 1⁄2 in, where it should be 3⁄4 in."
    )
