from fractions import Fraction
from itertools import combinations

import pytest

from patterns.drafting.judging import Verdict
from patterns.drafting.ranges import RangeGrid, chart_sizes, range_grid
from patterns.drafting.units import Units
from patterns.drawings import tokens
from patterns.drawings.range_chart import GROUNDS, Marked, range_svg, sample_svg
from patterns.starters import read_starter, slugs
from tests.drawn import SVG, assert_reads_well, root_of, words_of

IN, CM = Units.INCHES, Units.CENTIMETRES
INCH = IN.mm
LETTERS = "ABCDEFGHIJ"


def narrow(cuts) -> bool:
    """A stand-in for a sheet: what is not wider than 15 in fits."""
    return max(cut.width for cut in cuts) <= 15 * INCH


def grid_of(
    slug: str = "fold-flat-basket", across: str = "width", up: str = "depth", units: Units = IN
) -> RangeGrid:
    return range_grid(read_starter(slug), units, across, up, {}, {}, narrow)


def drawn(grid: RangeGrid, marks: tuple[Marked, ...] = ()) -> str:
    letters = dict(zip(grid.failures, LETTERS, strict=False))
    return range_svg(grid, "A range", letters, "fits", marks)


def texts(svg: str) -> list[str]:
    return [words.text for words in words_of(svg)]


def paths(svg: str, **attributes: str) -> list[str]:
    wanted = {key.replace("_", "-"): value for key, value in attributes.items()}
    return [
        node.attrib["d"] for node in root_of(svg).iter(f"{SVG}path") if wanted.items() <= node.attrib.items()
    ]


def test_each_verdict_has_its_ground_and_pattern() -> None:
    svg = drawn(grid_of())
    for colour in GROUNDS.values():
        assert len(paths(svg, fill=colour)) == 1
    assert len(paths(svg, stroke=tokens.BRICK)) == 1
    assert len(paths(svg, stroke=tokens.OCHRE, stroke_linecap="round")) == 1


def test_what_there_is_none_of_is_not_drawn() -> None:
    svg = drawn(grid_of("zip-pouch", "width", "height"))
    assert paths(svg, fill=tokens.REFUSED) == paths(svg, stroke=tokens.BRICK) == []


def test_lines_carry_their_letters_and_the_word() -> None:
    assert {"A", "B", "fits"} <= set(texts(drawn(grid_of())))


def test_refusals_are_whole_lines_and_advice_dashed() -> None:
    svg = drawn(grid_of())
    assert len(paths(svg, stroke=tokens.INK, stroke_width="0.48")) == 1
    assert len(paths(svg, stroke=tokens.INK, stroke_dasharray="1.5 0.8")) == 1
    assert len(paths(svg, stroke=tokens.PETROL, stroke_width="0.62")) == 1


def test_line_lies_between_the_sizes_that_it_parts() -> None:
    """Refused from a depth of 11 1/4 in: the line lies half a step under it, from edge to edge."""
    grid = grid_of()
    svg = drawn(grid)
    (way,) = paths(svg, stroke=tokens.INK, stroke_width="0.48")
    ends = [tuple(map(float, spot.split())) for spot in way.removeprefix("M").split("L")]
    frame = [tuple(map(float, spot.split())) for spot in paths(svg, stroke_width="0.28")[0][1:-1].split("L")]
    left, right = min(x for x, _ in frame), max(x for x, _ in frame)
    top, bottom = min(y for _, y in frame), max(y for _, y in frame)
    assert {x for x, _ in ends} == {left, right}
    share = (bottom - ends[0][1]) / (bottom - top)
    assert share == pytest.approx(37 / 41, abs=0.001)


def test_rules_that_bite_alike_share_a_line() -> None:
    grid = grid_of("fold-flat-basket")
    first = next(iter(grid.failures))
    twice = {first: "A", len(grid.rules): "Z"}
    cells = tuple(
        tuple(
            type(cell)(
                cell.verdict,
                (*cell.failed, len(grid.rules)) if first in cell.failed else cell.failed,
                cell.fits,
            )
            for cell in row
        )
        for row in grid.cells
    )
    more = RangeGrid(
        grid.recipe,
        grid.units,
        grid.across,
        grid.up,
        grid.others,
        grid.options,
        (*grid.rules, grid.rules[first]),
        cells,
    )
    assert "A Z" in texts(range_svg(more, "A range", twice, "fits", ()))


def test_default_and_named_sizes_are_marked() -> None:
    marks = (Marked("default", 9 * INCH, 5 * INCH, is_default=True), Marked("1", 5 * INCH, 3 * INCH))
    svg = drawn(grid_of(), marks)
    assert {"default", "1"} <= set(texts(svg))
    assert len(list(root_of(svg).iter(f"{SVG}circle"))) == 1
    assert len(paths(svg, stroke=tokens.SHEET)) == 1


def test_marks_at_one_spot_share_it() -> None:
    here = 5 * INCH, 3 * INCH
    svg = drawn(grid_of(), (Marked("1", *here), Marked("2", *here)))
    assert "1, 2" in texts(svg)
    assert len(list(root_of(svg).iter(f"{SVG}circle"))) == 1


def test_mark_outside_of_the_picture_is_left_out() -> None:
    assert "1" not in texts(drawn(grid_of(), (Marked("1", 30 * INCH, 3 * INCH),)))


def test_letter_that_would_hide_a_short_line_is_led_to_it() -> None:
    """Three sizes of the gift bag are refused, in a corner smaller than the letter's box."""
    svg = drawn(grid_of("gift-bag"))
    (leader,) = paths(svg, stroke_width="0.14")
    end = leader.removeprefix("M").split("L")[1]
    x, y = map(float, end.split())
    (word,) = [words for words in words_of(svg) if words.text == "A"]
    assert word.left < x < word.right
    assert word.top < y < word.bottom


def test_description_tells_it_in_words() -> None:
    root = root_of(drawn(grid_of(units=CM)))
    assert root[0].text == "A range"
    assert root[1].text == (
        "From left to right: width, cm 8 to 50. From bottom to top: depth, cm 5 to 30. "
        "Of 2,210 sizes 170 refused, 1,105 advised against, 935 good. Not refused and “fits”: 576."
    )


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("slug", slugs())
def test_charts_of_all_starters_read_well(slug: str, units: Units) -> None:
    recipe = read_starter(slug)
    cases = chart_sizes(recipe, units, {}, {}, narrow)
    sides = [measure.name for measure in recipe.measures if measure.role == "size"]
    for across, up in [*combinations(sides, 2), (sides[0], "seam allowance")]:
        marks = [
            Marked(str(rank), *({**_defaults(recipe, units), **case.measures}[name] for name in (across, up)))
            for rank, case in enumerate(cases)
        ]
        assert_reads_well(drawn(grid_of(slug, across, up, units), tuple(marks)))


def _defaults(recipe, units: Units) -> dict[str, Fraction]:
    return {measure.name: measure.scales[units].default for measure in recipe.measures}


def test_markup_in_a_word_is_text() -> None:
    svg = range_svg(grid_of(), "</title><b>", {}, "<b>", ())
    assert root_of(svg)[0].text == "</title><b>"
    assert "<b>" in texts(svg)


@pytest.mark.parametrize("verdict", GROUNDS)
def test_sample_shows_ground_and_pattern_and_says_nothing(verdict: Verdict) -> None:
    root = root_of(f'<svg xmlns="http://www.w3.org/2000/svg">{sample_svg(verdict)}</svg>')[0]
    assert root.attrib["aria-hidden"] == "true"
    assert root[0].attrib["fill"] == GROUNDS[verdict]
    assert len(root) == (2 if verdict == "good" else 3)


@pytest.mark.usefixtures("no_floats")
def test_no_float_is_made() -> None:
    drawn(grid_of())
