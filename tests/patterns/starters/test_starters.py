"""What holds for every starter: one spelling, proofs that see every slip, instructions to sew by."""

import re

import pytest

from patterns.drafting.recipe import Recipe
from patterns.drafting.recipe_text import write_recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.truing import prove
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs, text_of
from tests import starters
from tests.starters import Options, combination_id, combinations_of, sized_at, unit_of

IN = Units.INCHES
CLIPS = re.compile(r"\b(?:clip|pin)s?\b", re.IGNORECASE)
# Seams that hold the thing together: they begin and end with a backstitch.
HELD = {"seam", "join", "unite", "sew", "pair"}
EVERY_BOOK = [(slug, options) for slug in slugs() for options in combinations_of(read_starter(slug))]


@pytest.fixture(params=slugs())
def slug(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def recipe(slug: str) -> Recipe:
    return read_starter(slug)


def test_slugs_are_those_of_the_files() -> None:
    assert slugs() == (
        "boxed-tote",
        "drawstring-bag",
        "fold-flat-basket",
        "gift-bag",
        "packable-tote",
        "round-bucket",
        "window-pouch",
        "zip-pouch",
    )


@pytest.mark.parametrize("slug", ["fold_flat_basket", "../starters/zip_pouch", ""])
def test_unknown_starter_has_no_text(slug: str) -> None:
    with pytest.raises(KeyError):
        text_of(slug)


def test_text_is_in_the_one_spelling(slug: str, recipe: Recipe) -> None:
    assert write_recipe(recipe) == text_of(slug)


def test_starter_is_read_once(slug: str) -> None:
    assert read_starter(slug) is read_starter(slug)


def test_every_truing_is_proved(recipe: Recipe) -> None:
    assert [(proof.truing.says, proof.result) for proof in prove(recipe) if proof.result != "proved"] == []


@pytest.mark.parametrize("units", Units)
def test_sizes_of_the_chart_pass_every_check(recipe: Recipe, units: Units) -> None:
    assert len(recipe.sizes) == 4
    for named in recipe.sizes:
        measures = {
            name: value / unit_of(recipe.measure(name), units) for name, value in named.values[units].items()
        }
        for options in combinations_of(recipe):
            assert sized_at(recipe, units, measures, options).failed == (), named.name


@pytest.mark.parametrize("units", Units)
def test_every_number_that_is_read_has_a_value(recipe: Recipe, units: Units) -> None:
    """At every size that is not refused, among some corners of the range."""
    for measures in starters.some_corners(recipe, units, about=60):
        for options in combinations_of(recipe)[::3]:
            sized = sized_at(recipe, units, measures, options)
            if not sized.is_refused:
                assert starters.all_words(sized)


def test_marks_are_tried_under_the_iron_first(recipe: Recipe) -> None:
    (marking,) = (caution.says for caution in recipe.cautions if caution.name == "marking")
    assert "under the iron too" in "".join(map(str, marking))


def book_id(value: str | Options) -> str:
    return value if isinstance(value, str) else combination_id(value)


@pytest.mark.parametrize(("slug", "options"), EVERY_BOOK, ids=book_id)
class TestInstructions:
    @pytest.fixture
    def sized(self, recipe: Recipe, options: Options) -> SizedPattern:
        return sized_at(recipe, IN, {}, options)

    def test_have_fifteen_to_thirty_steps(self, sized: SizedPattern) -> None:
        assert 15 <= len(sized.steps) <= 30

    def test_read_well_in_both_units(self, recipe: Recipe, options: Options) -> None:
        for units in Units:
            starters.assert_read_well(sized_at(recipe, units, {}, options))

    def test_have_a_check_in_every_step(self, sized: SizedPattern) -> None:
        texts = [starters.said(sized, step.does) for step in sized.steps]
        assert [text for text in texts if " It is right when " not in text] == []

    def test_speak_of_the_interfacing_that_was_chosen(self, sized: SizedPattern, options: Options) -> None:
        words = "\n".join(starters.step_words(sized)).lower()
        assert ("interfacing" in words) == (options["interfacing"] != "none")
        assert ("fleece" in words) == (options["interfacing"] == "heavy")
        assert ("light interfacing" in words) == (options["interfacing"] == "light")

    def test_name_the_interfacing_that_was_chosen(self, sized: SizedPattern, options: Options) -> None:
        names = {material.name for material in sized.materials if material.kind == "interfacing"}
        assert names == {f"{options['interfacing']} interfacing"} - {"none interfacing"}

    def test_show_every_piece(self, sized: SizedPattern) -> None:
        assert {piece.name for piece in sized.pieces} <= {name for step in sized.steps for name in step.shows}

    def test_show_only_pieces_of_the_recipe(self, recipe: Recipe, sized: SizedPattern) -> None:
        assert {name for step in sized.steps for name in step.shows} <= {
            piece.name for piece in recipe.pieces
        }

    def test_speak_of_the_clips_that_are_counted(self, sized: SizedPattern) -> None:
        """Where clips are cautioned of, the step names them, or the one before it has set them."""
        texts = ["", *(starters.said(sized, step.does) for step in sized.steps)]
        for step, before, text in zip(sized.steps, texts, texts[1:], strict=False):
            if {"clips", "clips and pins"} & set(step.cautions):
                assert CLIPS.search(f"{before} {text}"), step.title

    def test_clip_and_backstitch_the_seams_that_hold(self, sized: SizedPattern) -> None:
        for step in sized.steps:
            if HELD & {act.verb for act in step.work}:
                assert "backstitch" in starters.said(sized, step.does), step.title
                assert {"clips", "clips and pins"} & set(step.cautions), step.title

    def test_draw_what_is_cut(self, sized: SizedPattern) -> None:
        cutting = [step for step in sized.steps if step.title.startswith("Cut ")]
        assert [step.title for step in cutting if not step.work] == []

    def test_cut_cloth_along_its_grain(self, sized: SizedPattern) -> None:
        for step in sized.steps:
            if re.match(r"Cut the (?:sides? of the )?(?:exterior|lining)$", step.title):
                assert "along the straight grain" in starters.said(sized, step.does).lower(), step.title

    def test_warn_of_the_iron_on_marks(self, sized: SizedPattern) -> None:
        for step in sized.steps:
            if "crease" in {act.verb for act in step.work}:
                assert {"iron", "marking"} <= set(step.cautions), step.title

    def test_have_a_step_for_each_caution(self, sized: SizedPattern) -> None:
        assert {name for step in sized.steps for name in step.cautions} == {
            each.name for each in sized.cautions
        }
