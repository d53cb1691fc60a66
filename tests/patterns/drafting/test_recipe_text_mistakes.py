"""Recipe texts with mistakes: all of them are reported, in order, and nothing else."""

import pytest

from patterns.drafting.errors import RecipeTextError
from patterns.drafting.recipe_text import read_recipe
from tests.recipe_texts import TEXT, changed, mistakes


def test_the_text_without_them_has_none():
    assert mistakes(TEXT) == []


def test_a_mistake_carries_its_parts():
    text = changed(('"fold height" = "height ÷ folds"', '"fold height" = "hieght ÷ folds"'))
    with pytest.raises(RecipeTextError) as error:
        read_recipe(text)
    (mistake,) = error.value.mistakes
    assert (mistake.key, mistake.line, mistake.column) == ('amounts."fold height"', 63, 1)
    assert text.splitlines()[mistake.line - 1].startswith('"fold height"')


def test_all_mistakes_are_reported_at_once_in_the_order_of_the_text():
    found = mistakes(
        changed(
            ('says = "Hot."', 'says = ""'),
            ('skill = "Beginner"', "skill = 3"),
            ('default = "9"', 'default = "21"'),
            ('cut = "2"', 'cut = "width"'),
            ("A fold of {fold height} is", "A fold of {fold hieght} is"),
            ('"fold height" = "height ÷ folds"', '"fold height" = "packed height ÷ layers"'),
        )
    )
    assert [line.partition(":")[0] for line in found] == [
        "line 4, skill",
        "line 18, measures.width.in.default",
        'line 62, amounts."packed height"',
        "line 67, pieces.mat.cut",
        "line 107, checks[1].otherwise, column 12",
        "line 143, cautions.iron.says",
    ]


def test_lines_are_right_after_a_text_over_many_lines():
    summary = 'summary = """\nA mat\n\n[not a header]\nthat = folds up.\n"""'
    found = mistakes(changed(('summary = "A mat that folds up."', summary), ('"Beginner"', '""')))
    assert found == ["line 9, skill: The text is empty. Write something, or delete the line."]


def test_columns_count_from_the_beginning_of_the_value():
    found = mistakes(changed(("Press {layers} layers.", "Press {layers}, {layers + width} high.")))
    assert found == [
        "line 133, steps[1].does, column 25: “+” needs two of a kind: “layers” is a bare number, "
        "“width” is a length. Look for a missing × or unit."
    ]


def test_what_reads_a_wrong_name_is_not_blamed():
    """The amount is wrong once; its eight readers are not wrong for that."""
    found = mistakes(changed(('"fold height" = "height ÷ folds"', '"fold height" = "height ÷"')))
    assert len(found) == 1


def test_an_amount_may_stand_before_what_it_reads():
    recipe = read_recipe(TEXT)
    assert [amount.name for amount in recipe.amounts] == ["packed height", "fold height"]
    assert [amount.power for amount in recipe.amounts] == [1, 1]


def test_of_very_many_mistakes_the_first_are_reported():
    listed = ", ".join(["3"] * 250)
    found = mistakes(changed(('shows = ["mat", "filling"]', f"shows = [{listed}]")))
    assert len(found) == 201
    assert found[-1] == "There are more mistakes; these are the first 200."
