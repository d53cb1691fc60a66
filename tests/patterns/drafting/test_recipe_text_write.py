"""Text → Recipe → text loses nothing, Recipe → text → Recipe neither; there is one spelling."""

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings

from patterns.drafting.recipe import Caution, Constant, Option, OptionChoice, Step
from patterns.drafting.recipe_text import MOST_LINE_BYTES, read_recipe, write_recipe
from patterns.drafting.units import Units
from patterns.starters import slugs, text_of
from tests.recipe_strategies import recipes
from tests.recipe_texts import TEXT, changed
from tests.recipes import make_recipe


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
@given(recipes())
def test_recipe_to_text_to_recipe(recipe):
    text = write_recipe(recipe)
    assert read_recipe(text) == recipe
    assert write_recipe(read_recipe(text)) == text
    assert all(len(line.encode()) <= MOST_LINE_BYTES for line in text.splitlines())


@pytest.mark.parametrize("slug", slugs())
def test_the_starters_are_in_the_one_spelling(slug):
    assert write_recipe(read_recipe(text_of(slug))) == text_of(slug)


def test_a_text_with_something_of_everything_is_kept_to_the_letter():
    assert write_recipe(read_recipe(TEXT)) == TEXT


def test_a_recipe_made_by_hand():
    assert read_recipe(write_recipe(make_recipe())) == make_recipe()


IN = 'in = { least = "3", most = "20", default = "9", step = "1/4" }'
CM = 'cm = { least = "8", most = "50", default = "23", step = "0.5" }'


@pytest.mark.parametrize(
    ("canonical", "typed"),
    [
        ('"fold height" = "height ÷ folds"', '"fold height" = "height/folds"'),
        ('"fold height" = "height ÷ folds"', '"Fold  HEIGHT" = "Height ÷ Folds"'),
        (IN, 'in = { step = "¼", least = "3.0", most = "20 in", default = " 9" }'),
        (CM, 'cm.least = "80 mm"\ncm.most = "50"\ncm.default = "23,0"\ncm.step = "0.50 cm"'),
        ('summary = "A mat that folds up."', "'summary' = '''A mat that folds up.'''"),
        ('summary = "A mat that folds up."', 'summary = """A mat \\\n   that folds up."""'),
        ('shows = ["mat", "filling"]', 'shows = [\n  "Mat", # the outside\n  "filling",\n]'),
        ('upright = { print = ["one way"] }', 'upright.print = ["ONE way"]'),
        ("[measures.height]", "[ measures . height ] # up"),
        ('does = "Press {layers} layers."', 'does = "Press { Layers }\\u0020layers."'),
    ],
)
def test_what_means_the_same_is_written_in_one_way(canonical, typed):
    assert write_recipe(read_recipe(changed((canonical, typed)))) == TEXT


def test_a_default_is_the_first_choice_unless_another_is_named():
    assert write_recipe(read_recipe(changed(('default = "no direction"\n', "")))) == TEXT


def test_choices_may_stand_in_one_table():
    apart = '[options.print.choices."no direction"]\n\n[options.print.choices."one way"]\n'
    together = '[options.print.choices]\n"no direction" = {}\n"one way" = {}\n'
    assert write_recipe(read_recipe(changed((apart, together)))) == TEXT


def test_a_long_paragraph_is_folded_and_comes_back():
    words = "Fold the mat “in half”, press it, and fold it again.  " * 60
    text = write_recipe(make_recipe(summary=words))
    assert 'summary = """\nFold the mat “in half”, press it, and' in text
    assert max(map(len, text.splitlines())) <= 110
    assert read_recipe(text).summary == words


def test_lines_of_a_text_are_kept_as_lines():
    text = changed(("A mat that folds up.", "A mat.\\n\\nIt folds up."))
    assert 'summary = """\nA mat.\n\nIt folds up."""\n' in write_recipe(read_recipe(text))


LONG_NAMES = tuple(f"rather long name {letter * 12}" for letter in "abcde")


def test_a_wide_list_is_broken_up():
    cautions = tuple(Caution(name, "Hot.") for name in LONG_NAMES)
    recipe = make_recipe(steps=(Step("Sew", ("Sew it.",), cautions=LONG_NAMES),), cautions=cautions)
    text = write_recipe(recipe)
    assert 'cautions = [\n    "rather long name aaaaaaaaaaaa",\n' in text
    assert read_recipe(text) == recipe


def test_a_wide_table_is_broken_up():
    values = dict.fromkeys(Units, Fraction(2))
    choice = OptionChoice("thick", sets=tuple(Constant(name, 0, values) for name in LONG_NAMES))
    recipe = make_recipe(options=(*make_recipe().options, Option("lining", "Its cloth.", (choice,), "thick")))
    text = write_recipe(recipe)
    assert '[options.lining.choices.thick]\nsets."rather long name aaaaaaaaaaaa" = "2"\n' in text
    assert read_recipe(text) == recipe
