"""Every number of the book is that of the sized pattern, whatever the size."""

import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest

from patterns.cutting.book_list import book_list
from patterns.cutting.listing import ShoppingList
from patterns.cutting.wish import Wish
from patterns.documents.book_content import book_content
from patterns.documents.book_steps import CAPTION_MM
from patterns.documents.errors import DocumentError
from patterns.documents.layouts import on_one_page
from patterns.documents.paper import PAPERS
from patterns.documents.words import Words, listed
from patterns.drafting.lengths import as_chosen, typeset, written
from patterns.drafting.sized import Quantity, SizedPattern

CASES = [
    ("fold-flat-basket", "in", {}),
    ("fold-flat-basket", "in", {"width": Fraction("8.5"), "height": 6, "depth": Fraction("4.75")}),
    ("fold-flat-basket", "cm", {"width": 50, "height": 50, "depth": 30, "interfacing": "heavy"}),
    ("fold-flat-basket", "in", {"width": 3, "height": 2, "depth": 2, "exterior_print": "one way"}),
    (
        "fold-flat-basket",
        "cm",
        {"width": Fraction("21.55"), "depth": Fraction("12.35"), "lining_print": "one way"},
    ),
    ("zip-pouch", "in", {}),
    (
        "zip-pouch",
        "in",
        {"width": 4, "height": Fraction("2.5"), "depth": 2, "seam_allowance": Fraction("0.25")},
    ),
    (
        "zip-pouch",
        "cm",
        {"width": 40, "height": 30, "depth": 20, "interfacing": "none", "exterior_print": "one way"},
    ),
    ("packable-tote", "in", {"width": Fraction("11.75"), "handle_length": 30, "packing_folds": 4}),
    ("packable-tote", "cm", {"height": 20, "interfacing": "none", "exterior_print": "one way"}),
    ("gift-bag", "cm", {}),
    ("gift-bag", "in", {"width": 16, "height": 20, "depth": 8, "lining_print": "one way"}),
    ("boxed-tote", "in", {"width": Fraction("11.5"), "interfacing": "heavy", "handle": "webbing"}),
    ("boxed-tote", "cm", {"exterior_print": "one way"}),
    ("round-bucket", "in", {}),
    ("round-bucket", "cm", {"diameter": 50, "height": 60, "side": "two pieces", "interfacing": "heavy"}),
    ("drawstring-bag", "in", {"exterior_print": "one way"}),
    ("drawstring-bag", "cm", {"width": 40, "height": 50, "depth": 25}),
    ("window-pouch", "cm", {"exterior_print": "one way", "interfacing": "heavy"}),
    ("window-pouch", "in", {"width": 14, "height": 14, "depth": 6, "zip_size": "No. 5 coil"}),
]
IDS = [f"{slug}-{units}-{'-'.join(map(str, given.values()))}" for slug, units, given in CASES]


@pytest.fixture(params=CASES, ids=IDS)
def sized(request, make_sized):
    slug, units, given = request.param
    return make_sized(slug, units, **given)


@pytest.fixture(params=["a4", "letter"])
def book(request, sized):
    return book_content(sized, PAPERS[request.param])


def length(quantity, sized):
    return written(quantity.value, quantity.power, sized.units).text


def test_the_cutting_chart_is_the_pieces(book, sized):
    assert [(row.name, row.material, row.count, row.width, row.height) for row in book.cuts] == [
        (
            piece.name,
            piece.material,
            str(piece.cut),
            length(piece.width, sized),
            length(piece.height, sized),
        )
        for piece in sized.pieces
    ]
    for row, piece in zip(book.cuts, sized.pieces, strict=True):
        assert row.says.startswith(piece.says)
        assert piece.outline or row.says == piece.says
    assert book.is_rounded == any("≈" in row.width + row.height for row in book.cuts)


def test_the_cutting_chart_says_what_is_cut_out_and_what_is_round(make_sized):
    """A depth of 5 in takes 2 1/2 in out of both lower corners; what the recipe says already stands once."""
    tote, bucket = (
        book_content(make_sized(slug, "in"), PAPERS["letter"]) for slug in ("boxed-tote", "round-bucket")
    )
    assert tote.cuts[0].says == "Front and back. Cut out at 2 corners, each 2 1⁄2 in × 2 1⁄2 in."
    assert [row.says for row in bucket.cuts if row.name.endswith("base")] == [
        "A circle.",
        "A circle.",
        "A circle for each base.",
    ]


def test_what_is_round_is_told_across_and_what_stands_is_not_drawn_flat(make_sized):
    book = book_content(make_sized("round-bucket", "cm"), PAPERS["a4"])
    assert book.size == "20 cm across, 23 cm high"
    assert book.flat is None
    assert book_content(make_sized("gift-bag", "cm"), PAPERS["a4"]).flat is not None


def test_a_line_all_round_is_measured_from_the_raw_edge(make_sized):
    book = book_content(make_sized("boxed-tote", "in"), PAPERS["letter"])
    row = book.marked[0].marks[0]
    assert (row.name, row.kind) == ("seam line", "stitching line")
    assert [(each.edge, each.far) for each in row.distances] == [("raw edge, all round", "1⁄2 in")]


def test_a_step_is_as_high_as_the_rows_of_its_drawings(make_sized):
    """Two stand abreast: of three, the third begins a row of its own under the higher of the others."""
    sized = make_sized("window-pouch", "cm", exterior_print="one way", interfacing="heavy")
    undone = (
        replace(step, work=()) if step.title == "Cut the heavy interfacing" else step for step in sized.steps
    )
    book = book_content(replace(sized, steps=tuple(undone)), PAPERS["a4"])
    step = next(step for step in book.steps if len(step.shows) == 3)
    first, second, third = (piece.figure.height_mm for piece in step.shows)
    assert 0 <= step.room - (max(first, second) + third + 2 * CAPTION_MM[True]) < 2
    assert step.room in book.rooms
    assert next(step for step in book.steps if not step.shows).room == 0


def test_a_long_table_of_marks_goes_on_over_the_page(make_sized):
    """A basket’s panel has 12 rows, a pouch’s 13, a tote’s 22: with its drawing that is more than a page."""
    long = {
        slug: {
            piece.name for piece in book_content(make_sized(slug), PAPERS["letter"]).marked if piece.is_long
        }
        for slug in ("fold-flat-basket", "zip-pouch", "packable-tote")
    }
    panel = {"exterior panel"}
    assert long == {"fold-flat-basket": set(), "zip-pouch": panel, "packable-tote": panel}


def test_every_piece_has_the_working_of_its_sides(book, sized):
    unit = f" {sized.units}"
    for piece in sized.pieces:
        (found,) = [
            each for each in book.workings if piece.name in each.names.replace(" and ", ", ").split(", ")
        ]
        width, height = found.sides
        assert width.numbers == typeset(sized.working(piece.width)) + unit
        assert height.numbers == typeset(sized.working(piece.height)) + unit
        assert (width.formula, height.formula) == (str(piece.width.formula), str(piece.height.formula))
        assert width.numbers.endswith(length(piece.width, sized))


def test_the_marks_are_those_of_the_pieces(book, sized):
    marked = [piece for piece in sized.pieces if piece.marks]
    assert [piece.name for piece in book.marked] == [piece.name for piece in marked]
    for shown, piece in zip(book.marked, marked, strict=True):
        assert [mark.name for mark in shown.marks] == [mark.name for mark in piece.marks]
        for row, mark in zip(shown.marks, piece.marks, strict=True):
            ends = piece.width if mark.down_from_top else piece.height
            asked = [(mark.down_from_top, piece.height), (mark.in_from_left, piece.width)]
            asked += [(mark.inside, None), (mark.start, ends), (mark.end, ends)]
            far = [from_the_nearer_edge(each, extent, sized) for each, extent in asked if each]
            assert [distance.far for distance in row.distances] == far
            assert row.span == str(len(row.distances))


def from_the_nearer_edge(place: Quantity, extent: Quantity | None, sized: SizedPattern) -> str:
    if extent is None or 2 * Fraction(place.value) <= Fraction(extent.value):
        return length(place, sized)
    return written(Fraction(extent.value) - Fraction(place.value), 1, sized.units).text


def test_ends_are_measured_the_other_way_than_the_line(book):
    for piece in book.marked:
        for mark in piece.marks:
            edges = {distance.edge for distance in mark.distances if not distance.what}
            for distance in mark.distances:
                if distance.what:
                    assert len(edges) == 1
                    assert distance.edge not in edges


def test_steps_and_cautions_are_all_there_in_order(book, sized):
    assert [(step.number, step.title) for step in book.steps] == [
        (str(number), step.title) for number, step in enumerate(sized.steps, 1)
    ]
    words = Words(sized)
    assert [step.does for step in book.steps] == [words.text(step.does) for step in sized.steps]
    assert [caution.title for caution in book.cautions] == [caution.name for caution in sized.cautions]


def test_each_step_gives_its_cautions_or_names_the_step_that_did(book, sized):
    given = {}
    for step, asked in zip(book.steps, sized.steps, strict=True):
        for caution in step.cautions:
            assert given.setdefault(caution.title, step.number) == step.number
        again = [name for name in asked.cautions if given[name] != step.number]
        assert step.again == listed(f"{name} (step\u00a0{given[name]})" for name in again)
        assert [caution.title for caution in step.cautions] == [
            name for name in asked.cautions if name not in again
        ]


def test_a_caution_in_front_names_its_steps(book, sized):
    for caution in book.cautions:
        asking = [caution.title in step.cautions for step in sized.steps]
        numbers = [str(number) for number, asks in enumerate(asking, 1) if asks]
        assert all(number in caution.steps for number in numbers)
        assert bool(numbers) == bool(caution.steps)


def test_what_was_chosen_is_shown_exactly(book, sized):
    facts = {fact.name: fact.value for fact in book.glance}
    for measure in sized.measures:
        shown = as_chosen(measure.value, measure.power, sized.units)
        assert facts.get(measure.name, shown) == shown
        assert measure.name in facts or shown in book.size
    assert {name: facts[name] for name in sized.options} == dict(sized.options)


def test_every_material_is_needed_once(book, sized):
    needed = [need.name for group in book.needs for need in group.needs]
    assert sorted(needed) == sorted(material.name for material in sized.materials)
    has_zip = any(material.kind == "zip" for material in sized.materials)
    assert ("Zip and notions" in [group.title for group in book.needs]) == has_zip
    by_name = {need.name: need for group in book.needs for need in group.needs}
    for material in {piece.material for piece in sized.pieces}:
        assert by_name[material].amount
        assert "Less is not enough" in by_name[material].reason or "at least" in by_name[material].reason


def test_what_to_buy_is_the_shopping_list(book, sized):
    lines = {line.material: line for line in book_list(sized).lines}
    for group in book.needs:
        for need in group.needs:
            assert (need.amount, need.reason) == (lines[need.name].amount, lines[need.name].reason)


def test_every_cloth_has_its_layout_with_every_piece(book, sized):
    """Each copy of each piece of a material is told in the texts of its drawings."""
    assert {layout.material for layout in book.layouts} == {
        piece.material for piece in sized.pieces if piece.cut
    }
    for layout in book.layouts:
        told = " ".join(drawn.figure.alt for row in layout.rows for drawn in row)
        is_upright = any(piece.material == layout.material and not piece.turns for piece in sized.pieces)
        assert ("Lay the print upright" in layout.says) == is_upright
        for piece in sized.pieces:
            if piece.material == layout.material:
                places = re.findall(rf"(?<!\w ){piece.name}, (?:≈ )?\d[^;]*? (?:from|at) the left and", told)
                assert len(places) == piece.cut, told


def test_a_layout_is_no_wider_than_its_page(book):
    for layout in book.layouts:
        for row in layout.rows:
            assert sum(drawn.figure.width_mm for drawn in row) <= 180
            assert all(drawn.figure.height_mm <= 170 for drawn in row)


def test_the_book_shows_the_cloth_that_was_wished_for(make_sized):
    sized = make_sized("zip-pouch", "in")
    wish = Wish(form="fat quarter", count=2)
    book = book_content(sized, PAPERS["a4"], book_list(sized, wish))
    assert book.made == "The cloth and all else to buy is for 2 of them, cut together."
    exterior = next(layout for layout in book.layouts if layout.material == "exterior fabric")
    assert exterior.amount.endswith("× fat quarter")
    assert exterior.says.startswith("Of each fat quarter 21 × 18 in can be used.")
    assert not book_content(sized, PAPERS["a4"]).made


def test_long_cloth_is_drawn_in_parts(make_sized):
    """A tote's interfacing is 94 1/2 in of a roll that is 20 in wide."""
    book = book_content(make_sized("packable-tote", "in"), PAPERS["letter"])
    long = next(layout for layout in book.layouts if layout.material == "light interfacing")
    assert long.setting == "abreast"
    captions = [drawn.caption for row in long.rows for drawn in row]
    assert captions[0].startswith("From the cut end to ")
    assert all(
        one.split(" to ")[1].split(" along")[0] == other.split("From ")[1].split(" to ")[0]
        for one, other in pairwise(captions)
    )


def test_layouts_two_abreast_share_a_page_where_they_fit(make_sized):
    sized = make_sized("boxed-tote", "in", width=24, height=24, depth=10)
    layouts = book_content(sized, PAPERS["a4"]).layouts
    assert [layout.setting for layout in layouts] == ["paired", "paired", "abreast"]
    paper = on_one_page(layouts, PAPERS["a4"])
    layouts = book_content(sized, paper).layouts
    assert on_one_page(layouts, paper) is None
    exterior, lining, interfacing = (layout.rows for layout in layouts)
    high = [max(drawn.figure.height_mm for drawn in row) for row in (exterior[0] + lining[0], *interfacing)]
    headings = 29 + 2 * 20
    assert sum(high) + headings <= paper.text_height


def test_cloth_that_no_usual_width_holds_has_a_piece_that_is_enough(make_sized):
    """A piece wider than any roll has no layout; its book tells what is certainly enough."""
    sized = make_sized("fold-flat-basket", "cm")
    book = book_content(sized, PAPERS["a4"], ShoppingList(sized.units, 1, ()))
    assert book.layouts == ()
    told = {need.name: need for group in book.needs for need in group.needs}
    assert told["exterior fabric"].reason == "One piece 37 cm wide and 44 cm long is enough."


def test_advice_that_a_size_ignores_is_in_the_book(make_sized):
    sized = make_sized(height=4, depth=5)
    assert not sized.is_refused
    book = book_content(sized, PAPERS["a4"])
    assert len(book.advice) == len(sized.failed) > 0


def test_a_refused_size_has_none(make_sized):
    with pytest.raises(DocumentError, match="refused"):
        book_content(make_sized(height=2, depth=6), PAPERS["a4"])


def test_drawings_fit_the_room_on_their_paper(book):
    for piece in book.marked:
        assert piece.figure.width_mm <= 120
        assert piece.figure.alt
    assert {figure.address for figure in (book.cover, book.flat) if figure} <= book.figures.keys()


def test_cloth_says_that_nothing_is_added_to_it(book):
    says = {group.title: group.says for group in book.needs}
    assert says.pop("Cloth").startswith("Nothing is added for crooked ends")
    assert not any(says.values())


def test_the_selvedge_that_layouts_name_is_explained(book):
    assert "selvedge" in [term.word for term in book.terms]


def test_terms_come_in_the_order_of_the_alphabet(book):
    assert all(one.word < other.word for one, other in pairwise(book.terms))


def test_what_is_cut_from_a_material_is_told_with_how_often(make_sized):
    """A basket with light interfacing has two panels of it, and one of each fabric."""
    book = book_content(make_sized("fold-flat-basket", "in"), PAPERS["a4"])
    told = {need.name: need.pieces for group in book.needs for need in group.needs if need.pieces}
    assert told == {
        "exterior fabric": "exterior panel",
        "lining fabric": "lining panel",
        "light interfacing": "light interfacing panel × 2",
    }


def test_a_step_that_does_something_to_the_cloth_has_its_own_figure(make_sized):
    book = book_content(make_sized("fold-flat-basket", "in"), PAPERS["letter"])
    bare = [step.title for step in book.steps if not step.shows]
    assert bare == ["Wash and press the fabric"]
    folded = next(step for step in book.steps if step.title == "Fold up the exterior")
    (shown,) = folded.shows
    assert (shown.name, shown.size) == ("From the side edge: as it lies, on the way, and folded.", "")
    assert shown.figure.alt.startswith("Fold up the exterior. The layers from the table up: exterior, right")
    # Printed as large as it is drawn, so that its letters are as large as they are meant to be.
    assert 'viewBox="0 0 56 ' in book.figures[shown.figure.address]
    assert shown.figure.width_mm == 56


def test_a_recipe_that_says_nothing_of_the_cloth_shows_its_pieces_as_ever(make_sized):
    sized = make_sized("boxed-tote", "in")
    sized = replace(sized, steps=tuple(replace(step, work=()) for step in sized.steps))
    names = {shown.name for step in book_content(sized, PAPERS["a4"]).steps for shown in step.shows}
    assert names <= {piece.name for piece in sized.pieces}


def test_steps_that_cannot_be_followed_make_no_book(make_sized):
    sized = make_sized("fold-flat-basket", "in")
    steps = tuple(
        replace(step, work=()) if step.title == "Mark the opening" else step for step in sized.steps
    )
    with pytest.raises(DocumentError, match=r"Step 12, “Sew the front top seam”: the turning opening of"):
        book_content(replace(sized, steps=steps), PAPERS["a4"])
