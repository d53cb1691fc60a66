"""The figures of the steps: drawn from what was followed, readable at every size."""

import re
from fractions import Fraction
from itertools import combinations, islice
from typing import get_args
from xml.etree import ElementTree

import pytest

from patterns.drafting.sized import SizedPattern, SizedStep
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drafting.work import Verb
from patterns.drawings.figures import StepFigure, figure_of
from patterns.drawings.figures.board import WIDTH, Board
from patterns.drawings.figures.choosing import FIGURES
from patterns.drawings.figures.edge_on import levels
from patterns.drawings.figures.round_rim import round_from_top
from patterns.drawings.folding import follow
from patterns.drawings.folding.proving import sizes_to_follow
from patterns.drawings.geometry import Box, Spot
from patterns.drawings.tokens import LEAST_LETTERS
from patterns.starters import read_starter
from tests.drawn import words_crossed

STANDING = ("boxed-tote", "drawstring-bag", "round-bucket")
FOLDED = ("fold-flat-basket", "gift-bag", "packable-tote", "window-pouch", "zip-pouch", *STANDING)
# The room beside a step on Letter, the lower of the two papers, and two lines of caption under it.
ROOM = 42_000
CAPTION = 80
SVG = "{http://www.w3.org/2000/svg}"
# A step that does nothing which the model follows: a figure would say nothing.
WITHOUT = {"Wash and press the fabric"}
# The pens of marks, seams, measures, leaders, edges and teeth.
THIN = ("0.18", "0.2", "0.16", "0.14", "0.28", "0.9")


def figures(sized: SizedPattern) -> list[tuple[SizedStep, StepFigure | None]]:
    told = follow(sized)
    return [(step, figure_of(sized, step, each)) for step, each in zip(sized.steps, told, strict=True)]


def figure(
    title: str, slug: str = "fold-flat-basket", units: Units = Units.INCHES, **measures: str
) -> StepFigure:
    lengths = {name: Fraction(value) * units.mm for name, value in measures.items()}
    sized = size(read_starter(slug), slug, units, lengths)
    return next(each for step, each in figures(sized) if each and step.title == title)


def root_of(figure: StepFigure) -> ElementTree.Element:
    return ElementTree.fromstring(figure.svg)  # noqa: S314 - our own drawing


def words(figure: StepFigure) -> list[str]:
    root = root_of(figure)
    return ["".join(text.itertext()) for text in root.iter(f"{SVG}text")]


def description(figure: StepFigure) -> str:
    return root_of(figure).findtext(f"{SVG}desc") or ""


def test_every_verb_is_drawn_or_known_to_need_no_figure():
    assert set(FIGURES) == set(get_args(Verb))
    without = {verb for verb, draw in FIGURES.items() if draw is None}
    assert without == {"stack", "meet", "spread", "open", "shorten", "slip", "reverse"}


@pytest.mark.parametrize("slug", FOLDED)
def test_every_step_has_its_figure(slug):
    recipe = read_starter(slug)
    ways = ({}, {"exterior print": "one way", "lining print": "one way"}, {"interfacing": "none"})
    more = {
        "boxed-tote": {"handle": "webbing", "interfacing": "heavy"},
        "round-bucket": {"side": "two pieces"},
    }
    for options in (*ways, more.get(slug, {})):
        found = figures(size(recipe, slug, Units.INCHES, {}, options))
        assert {step.title for step, each in found if each is None} <= WITHOUT


@pytest.mark.parametrize("slug", FOLDED)
def test_labels_never_overlap_and_stay_on_the_page(slug):
    """Of the sizes that are followed before a recipe is sold every third, to be quick."""
    for sized in islice(sizes_to_follow(read_starter(slug)), 0, None, 3):
        for step, found in figures(sized):
            if found is None:
                continue
            where = step.title, sized.measures, sized.options
            assert not any(one.overlaps(other) for one, other in combinations(found.labels, 2)), where
            assert not any(label.overlaps(each) for label in found.labels for each in found.lengths), where
            assert not any(label.overlaps(each) for label in found.labels for each in found.lines), where
            assert all(Box(0, 0, WIDTH, found.height).holds(box) for box in found.labels), where
            assert found.height <= ROOM, where
            assert not found.left_out, (where, found.left_out)


@pytest.mark.parametrize("slug", FOLDED)
def test_letters_are_read_and_every_figure_has_its_words(slug):
    for _, found in figures(size(read_starter(slug), slug, Units.CENTIMETRES)):
        if found is None:
            continue
        root = root_of(found)
        sizes = [Fraction(text.attrib["font-size"]) for text in root.iter(f"{SVG}text")]
        assert all(each * 1000 >= LEAST_LETTERS for each in sizes)
        assert len(found.labels) <= 13
        assert root.findtext(f"{SVG}title")
        assert description(found).endswith(".")
        assert found.caption
        assert len(found.caption) <= CAPTION
        assert not re.search(r"\d⁄\d", "".join(words(found)))  # the PDF writer sets letter by letter


def test_a_step_that_draws_and_clips_shows_both():
    shown = words(figure("Draw the middle folds and clip the lining", "packable-tote"))
    assert shown.count("⅜ in") == 2
    assert "17 in" in shown


def test_names_of_lines_stand_beside_and_below_a_cloth_that_has_no_room_for_them():
    drawn = figure("Draw the seam lines and the pleat lines", "packable-tote")
    assert {"front pleat line", "left side", "right side", "seam line"} <= set(words(drawn))
    opening = figure("Mark the opening", units=Units.CENTIMETRES, width="8", height="15/2", depth="5")
    assert {"6.5 cm", "≈ 3.3 cm"} <= set(words(opening))
    assert opening.lines


def crossed(figure: StepFigure) -> list[str]:
    """The words that a thin line of measures or to a name runs through."""
    return [each for look in THIN for each in words_crossed(figure.svg, stroke_width=look)]


def test_no_thin_line_runs_through_words():
    """Where a short opening lies in a wide cloth, quarters lie close, a band or a channel is narrow."""
    most = {"width": "50", "height": "50", "depth": "30"}
    band = {"width": "10", "height": "9", "depth": "4", "top band": "2", "lower border": "5/4"}
    shown = (
        figure("Mark the opening", units=Units.CENTIMETRES, **most),
        figure("Mark the opening", "round-bucket"),
        figure("Draw the zip seam lines", "window-pouch", **band),
        figure("Baste exterior and lining together", "window-pouch", **band),
        figure("Sew the sides", "window-pouch", **band),
        figure("Draw the channel", "drawstring-bag", width="16", height="20", depth="10"),
        figure("Sew the channel", "drawstring-bag", width="16", height="20", depth="10"),
    )
    assert [crossed(each) for each in shown] == [[]] * len(shown)


def test_what_is_turned_has_the_handles_and_the_pocket_that_are_sewn_on():
    turned = figure("Turn the tote", "packable-tote")
    assert "outside with its handles and its pocket" in description(turned)
    # The handle and the pocket each have two rows of stitches; the turned basket has none.
    assert turned.svg.count("stroke-dasharray") == figure("Turn the basket").svg.count("stroke-dasharray") + 4
    assert "the handles down" in description(figure("Fold the tote up", "packable-tote"))


def test_webbing_has_no_rows_of_stitches():
    recipe = read_starter("boxed-tote")
    shown = {
        handle: {
            step.title: each
            for step, each in figures(size(recipe, "x", Units.INCHES, {}, {"handle": handle}))
        }
        for handle in ("fabric", "webbing")
    }
    for title, rows in (("Baste the handles", 1), ("Press the top edge", 2)):
        fabric, webbing = (shown[handle][title].svg.count("0.85 0.6") for handle in ("fabric", "webbing"))
        assert fabric - webbing == rows, title


def test_a_handle_stands_on_the_top_edge_close_by():
    pressed = [figure("Press the top edge", slug) for slug in ("boxed-tote", "round-bucket")]
    assert [each.svg.count('stroke-dasharray="0.85 0.6"') for each in pressed] == [2, 0]


def test_labels_stand_clear_of_lines_drawn_in_any_direction():
    board = Board("A slanting line")
    start, end = Spot(10_000, 20_000), Spot(30_000, 0)
    board.shun(start, end)
    for _ in range(3):
        assert board.say("word", Spot(20_000, 10_000))
    assert not any(label.box.meets(start, end) for label in board.labels)


def test_rows_of_topstitching_are_all_drawn_and_rolled_handles_too():
    assert {"⅛ in", "⅜ in"} <= set(words(figure("Press and topstitch the top edge", "packable-tote")))
    assert "rolled handles" in words(figure("Roll up the handles and lay out the loop", "packable-tote"))
    assert "rolled" not in description(figure("Lay out the loop"))


def test_lengths_are_those_of_the_size():
    assert {"15 in", "18 in"} <= set(words(figure("Cut the exterior")))
    assert {"20 in", "18 in"} <= set(words(figure("Cut the exterior", width="14")))
    assert "6½ in" in words(figure("Draw the pleat lines"))
    assert "leave 5 in open" in words(figure("Sew the front top seam"))
    assert {"2½ in flap", "6 in"} <= set(words(figure("Fold up the exterior")))
    assert {"2½ in", "6 in"} <= set(words(figure("Bring the lining over the exterior")))
    assert "1.2 cm" not in words(figure("Cut the exterior", units=Units.CENTIMETRES))


def test_the_stack_is_told_in_words():
    assert description(figure("Bring the lining over the exterior")) == (
        "From the bottom folds up: 8 layers, then 4 layers. From the table up: exterior, right side up; "
        "exterior, wrong side up; lining, right side up; lining, wrong side up; exterior, right side up; "
        "exterior, wrong side up; lining, right side up; lining, wrong side up."
    )
    assert "It is left open over 5 in." in description(figure("Sew the front top seam"))
    assert description(figure("Press the base and measure")).startswith(
        "Left it stands open, 9 in wide, 5 in deep and 6 in high; right it lies folded flat, 14 in by 6 in."
    )


def test_layers_lie_on_the_lowest_free_level():
    sized = size(read_starter("fold-flat-basket"), "x", Units.INCHES)
    told = dict(zip([step.title for step in sized.steps], follow(sized), strict=True))
    assert levels(told["Lay out the loop"].after.layers) == (0, 0, 1, 1)
    assert levels(told["Bring the lining over the exterior"].after.layers) == tuple(range(8))


def test_what_is_sewn_to_stand_has_the_lengths_of_its_size():
    assert {"2½ in", "15 in", "14 in"} <= set(words(figure("Cut out the corners", "boxed-tote")))
    assert {"5 in", "base 14 in × 5 in"} <= set(
        words(figure("Sew the corners of the exterior", "boxed-tote"))
    )
    assert {"4 in", "2 in", "25 in"} <= set(words(figure("Cut and press the handles", "boxed-tote")))
    assert {"6½ in", "7 in", "½ in"} <= set(words(figure("Baste the handles", "boxed-tote")))
    assert {"2 in", "¾ in"} <= set(words(figure("Sew the channel", "drawstring-bag")))
    assert {"≈ 6¼ in each", "quarter"} <= set(words(figure("Pin the ring to the base", "round-bucket")))
    rim = figure("Sew the top seam", "round-bucket")
    assert {"leave 6 in open", "quarter", "round: ≈ 25⅛ in"} <= set(words(rim))
    assert description(rim).startswith("From above: the exterior lies in the lining, right sides together")
    assert {"6 in", "≈ 4⅝ in"} <= set(words(figure("Fold the tote up", "packable-tote")))


def test_a_neck_drawn_together_has_the_lengths_of_its_size():
    basted = figure("Baste the ribbon", "gift-bag")
    assert {"3 in", "½ in", "ribbon", "tag loop"} <= set(words(basted))
    assert "both tails, 18 in each, point inwards" in description(basted)
    tied = figure("Tie the bag and measure", "gift-bag", height="12")
    assert {"4 in", "8 in", "bow"} <= set(words(tied))
    assert "9 in of each are left for the bow" in description(tied)
    shut = figure("Draw the bag shut and measure", "drawstring-bag")
    assert {"drawn shut", "open", "7 in", "9 in", "4 in"} <= set(words(shut))
    assert "each end hangs out up to 16 in" in description(shut)


def test_places_round_a_rim_lie_on_the_circle(no_floats):
    tenths = [round_from_top(Fraction(tenth, 10)) for tenth in range(11)]
    assert all(place.x**2 + place.y**2 == 1 for place in tenths)
    assert (tenths[5], tenths[10]) == ((0, -1), (0, 1))
    golden = tenths[1].y * 4 - 1  # the cosine of a tenth of a turn is (1 + √5) ÷ 4
    assert abs(golden**2 - 5) < Fraction(1, 10_000)


def test_what_is_sewn_to_stand_is_told_in_words():
    assert description(figure("Sew the sides of the exterior", "drawstring-bag")) == (
        "The two panels of the exterior lie right sides together. Sew 1⁄2 in from the raw edges: both sides "
        "from the top edge to the cut-outs, with a gap of 3⁄4 in, 2 1⁄2 in below the top edge; "
        "the cut-outs stay open."
    )
    assert description(figure("Press the base and measure", "boxed-tote")) == (
        "It stands 14 in wide, 5 in deep and 13 in high. The handles drop 8 1⁄2 in."
    )
    assert "Each quarter of both seam lines is ≈ 6 1⁄4 in long." in description(
        figure("Sew the base of the exterior", "round-bucket")
    )
