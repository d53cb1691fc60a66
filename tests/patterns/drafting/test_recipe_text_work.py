"""What the steps of a recipe text do to the cloth: read, written back, and what is wrong with it."""

import re
from typing import get_args

import pytest

from patterns.drafting.errors import RecipeTextError
from patterns.drafting.recipe_text import read_recipe, write_recipe
from patterns.drafting.work import VERBS, Act, Verb, joined_lines, united_lines
from patterns.starters import text_of

BASKET = text_of("fold-flat-basket")


def mistakes(text: str) -> list[str]:
    with pytest.raises(RecipeTextError) as refused:
        read_recipe(text)
    return [str(mistake) for mistake in refused.value.mistakes]


def changed(before: str, after: str) -> str:
    assert BASKET.count(before) == 1
    return BASKET.replace(before, after)


def test_every_verb_has_its_grammar():
    assert set(VERBS) == set(get_args(Verb))
    assert all(next(iter(grammar.needed)) == verb for verb, grammar in VERBS.items())


def test_no_verb_is_a_key_of_another():
    others = {key for grammar in VERBS.values() for key in list(grammar.kinds)[1:]}
    assert not others & VERBS.keys()


def test_acts_are_read_as_they_are_written():
    step = next(step for step in read_recipe(BASKET).steps if step.title == "Sew the sides")
    (act,) = step.work
    assert act == Act(
        "sew",
        (
            ("sew", ("left side seam line", "right side seam line")),
            ("of", ("exterior", "lining")),
        ),
        act.amounts,
    )
    assert {key: str(formula) for key, formula in act.amounts} == {"layers": "8", "above": "4"}


def test_text_to_recipe_to_text_loses_nothing():
    recipe = read_recipe(BASKET)
    assert sum(len(step.work) for step in recipe.steps) > 30
    assert write_recipe(recipe) == BASKET
    assert read_recipe(write_recipe(recipe)) == recipe


def test_a_wrong_mark_is_named_with_its_place_and_mend():
    (mistake,) = mistakes(changed('push = "lining middle fold"', 'push = "lining midle fold"'))
    assert re.fullmatch(
        r"line \d+, steps\[\d+\]\.work\[1\]\.push: “lining midle fold” is no mark\. "
        r"Did you mean “lining middle fold”\?",
        mistake,
    )


def test_a_cloth_that_nothing_cuts_is_named():
    (mistake,) = mistakes(changed('stack = "lining"', 'stack = "linning"'))
    assert mistake.endswith("stack: “linning” is no cloth. Did you mean “lining”?")


def test_an_act_without_a_verb_is_named():
    (mistake,) = mistakes(changed('push = "lining middle fold"\n', ""))
    assert "Nothing is done here. Write one of: cut, fuse, join, mark, " in mistake


def test_a_missing_and_an_unknown_key_are_named():
    found = mistakes(changed('tuck = "exterior middle fold"\ninto', 'tuck = "exterior middle fold"\nintoo'))
    assert [mistake.partition(": ")[2] for mistake in found] == [
        "The key “intoo” is not known here. Did you mean “into”?"
    ]


def test_words_of_one_kind_only_are_taken():
    (mistake,) = mistakes(changed('sides = "right sides together"', 'sides = "right side together"'))
    assert "Did you mean “right sides together”?" in mistake


def test_an_empty_list_is_named():
    (mistake,) = mistakes(changed('clip = ["left clip", "right clip"]', "clip = []"))
    assert "The list is empty." in mistake


def test_work_must_be_tables_of_a_list():
    step = next(step for step in BASKET.split("[[steps]]\n") if 'title = "Push in the lining"' in step)
    first = step.partition("[[steps.work]]")[0]
    (mistake,) = mistakes(BASKET.replace(step, f'{first}work = "push"\n\n'))
    assert "before each of the things that it does." in mistake


def test_halves_give_their_marks_to_the_whole():
    lines = [
        ("pleat line", "fold", True),
        ("base seam line", "stitch", True),
        ("left side seam line", "stitch", False),
        ("turning opening", "opening", True),
    ]
    assert [(name, whose) for name, _, whose in joined_lines(lines, "base seam line", "middle fold")] == [
        ("front pleat line", "front"),
        ("back pleat line", "back"),
        ("middle fold", "seam"),
        ("left side seam line", "both"),
        ("turning opening", "front"),
    ]


def test_what_is_made_of_a_side_and_a_base_has_the_marks_of_the_side():
    bucket = text_of("round-bucket")
    (rim,) = [act for step in read_recipe(bucket).steps for act in step.work if act.verb == "rim"]
    assert rim.all("rim") == ("exterior", "lining")
    assert rim.one("leave") == "lining turning opening"
    wrong = bucket.replace('leave = "lining turning opening"', 'leave = "lining turning openings"')
    (mistake,) = mistakes(wrong)
    assert mistake.endswith("is no mark. Did you mean “lining turning opening”?")


def test_what_is_cut_by_length_is_a_cloth_without_marks():
    bag = text_of("drawstring-bag")
    (mistake,) = mistakes(bag.replace('thread = "cord"', 'thread = "cords"'))
    assert mistake.endswith("thread: “cords” is no cloth. Did you mean “cord”?")


def test_a_place_on_a_half_is_on_either_half_or_on_the_front_alone():
    """Both halves have a centre at the zip, the front alone a place for a label."""
    found = joined_lines([("zip centre", "place", True)], "base seam line", "middle fold")
    assert [(name, whose) for name, _, whose in found] == [
        ("zip centre", "front"),
        ("front zip centre", "front"),
        ("back zip centre", "back"),
    ]


def test_a_back_and_a_front_give_their_marks_to_the_whole():
    back = ["zip seam line", "pleat line", "base seam line", "left side seam line"]
    front = ["window fold line", "pleat line", "base seam line", "left side seam line"]
    assert list(united_lines(back, front, "base seam line", "middle fold")) == [
        ("zip seam line", "zip seam line", "back"),
        ("back pleat line", "pleat line", "back"),
        ("middle fold", "base seam line", "back"),
        ("left side seam line", "left side seam line", "back"),
        ("window fold line", "window fold line", "front"),
        ("front pleat line", "pleat line", "front"),
    ]


@pytest.mark.parametrize("slug", ["zip-pouch", "window-pouch"])
def test_a_zip_has_its_marks_and_loses_nothing(slug):
    text = text_of(slug)
    assert write_recipe(read_recipe(text)) == text
    with pytest.raises(RecipeTextError) as refused:
        read_recipe(text.replace('at = "zip front seam line"', 'at = "zip front edge"'))
    (mistake,) = refused.value.mistakes
    assert "“zip front edge” is no mark. Did you mean “zip front seam line”?" in str(mistake)
