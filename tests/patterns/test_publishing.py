import re
from datetime import UTC, datetime

import pytest
import time_machine
from django.db.models import ProtectedError

from patterns.drafting.recipe import Recipe
from patterns.models import Pattern, Revision
from patterns.publishing import PublishingError, publish
from patterns.starters import slugs, text_of

from .conftest import SHELF_TEXT

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)


@pytest.fixture
def pattern():
    return Pattern.objects.create(slug="shelf-box")


@pytest.mark.parametrize("slug", slugs())
def test_starter_is_published(slug, pattern):
    assert publish(pattern, text_of(slug)).number == 1


def test_pattern_takes_title_and_summary_of_the_recipe(pattern):
    with time_machine.travel(NOW, tick=False):
        revision = publish(pattern, SHELF_TEXT)
    pattern.refresh_from_db()
    assert (pattern.title, pattern.summary) == ("Shelf box", "An open box for a shelf.")
    assert (revision.number, revision.published_at, pattern.latest_revision) == (1, NOW, revision)


def test_same_text_is_the_same_revision(pattern):
    first = publish(pattern, SHELF_TEXT)
    assert publish(pattern, SHELF_TEXT.replace("\n", "\r\n")) == first
    assert Revision.objects.count() == 1


def test_changed_text_is_the_next_revision(pattern):
    publish(pattern, SHELF_TEXT)
    second = publish(pattern, SHELF_TEXT.replace("Shelf box", "Tall box"))
    assert (second.number, pattern.latest_revision, pattern.title) == (2, second, "Tall box")


def test_earlier_text_again_is_a_new_revision(pattern):
    for text in (SHELF_TEXT, SHELF_TEXT.replace("Shelf box", "Tall box"), SHELF_TEXT):
        newest = publish(pattern, text)
    assert newest.number == 3


def test_a_step_that_cannot_be_followed_is_not_sold(pattern):
    text = text_of("fold-flat-basket").replace(
        'marks."front pleat line"]\nkind = "fold"\ndown = "seam allowance + height"',
        'marks."front pleat line"]\nkind = "fold"\ndown = "height"',
        1,
    )
    with pytest.raises(PublishingError) as refused:
        publish(pattern, text)
    (mistake,) = refused.value.mistakes
    assert re.fullmatch(r"steps\[[0-9]+\]\.work", mistake.key)
    assert mistake.message == (
        "At width 9 in, height 6 in, depth 5 in, seam allowance 1⁄2 in, interfacing light, exterior print "
        "no direction and lining print no direction, step 16 cannot be done. Fold up the exterior: the "
        "exterior front pleat line and exterior back pleat line do not lie on each other: they lie 1⁄2 in "
        "apart."
    )
    assert not Revision.objects.exists()


def test_every_mistake_of_a_text_is_named(pattern):
    spoiled = SHELF_TEXT.replace('default = "9"', 'default = "99"').replace("skill", "skil")
    with pytest.raises(PublishingError) as refused:
        publish(pattern, spoiled)
    assert {mistake.key for mistake in refused.value.mistakes} >= {"skil", "measures.width.in.default"}
    assert all(mistake.line for mistake in refused.value.mistakes if mistake.key == "skil")
    assert not Revision.objects.exists()


def test_false_truing_is_spelled_out(pattern):
    forgotten = SHELF_TEXT.replace('"2 × height + depth + 2 × seam allowance"', '"2 × height + depth"')
    with pytest.raises(PublishingError) as refused:
        publish(pattern, forgotten)
    (mistake,) = refused.value.mistakes
    assert mistake.message == (
        "The truing “front, base and back” is false: "
        "panel height − 2 × seam allowance is not 2 × height + depth. "
        "The difference is −2 × seam allowance. "
        "At width 9 in, height 6 in, depth 5 in, seam allowance 1⁄2 in, "
        "tape width 1 in and handles 2, one side is 16 in and the other 17 in."
    )
    assert not Revision.objects.exists()


@pytest.mark.parametrize("word", ["units", "look"])
def test_word_of_the_addresses_is_no_measure(pattern, word):
    with pytest.raises(
        PublishingError, match=f"measures.{word}: “{word}” is a word of the shop's own addresses"
    ):
        publish(pattern, SHELF_TEXT.replace("[measures.handles]", f"[measures.{word}]"))


def test_revision_is_never_changed(pattern):
    revision = publish(pattern, SHELF_TEXT)
    revision.text = "other"
    with pytest.raises(ProtectedError):
        revision.save()
    with pytest.raises(ProtectedError):
        Revision.objects.update(text="other")
    revision.refresh_from_db()
    assert revision.text == SHELF_TEXT


def test_revision_is_never_deleted(pattern):
    revision = publish(pattern, SHELF_TEXT)
    for delete in (
        revision.delete,
        Revision.objects.all().delete,
        pattern.delete,
        Pattern.objects.all().delete,
    ):
        with pytest.raises(ProtectedError):
            delete()
    assert Revision.objects.get() == revision


def test_recipe_is_read_once(pattern, django_assert_num_queries):
    revision = publish(pattern, SHELF_TEXT)
    assert isinstance(revision.recipe, Recipe)
    with django_assert_num_queries(0):
        assert revision.recipe is revision.recipe


def test_recipe_of_a_number_that_came_again_is_the_new_one(pattern):
    """A number may be given again, in another database or after a rolled back transaction."""
    first = Revision(pk=7, pattern=pattern, number=1, text=SHELF_TEXT)
    first.save()
    assert first.recipe.title == "Shelf box"
    Revision.objects.filter(pk=7)._raw_delete("default")
    second = Revision(pk=7, pattern=pattern, number=1, text=SHELF_TEXT.replace("Shelf box", "Tall box"))
    second.save()
    assert second.recipe.title == "Tall box"


def test_sizes_that_the_shop_shows_are_not_refused(pattern):
    low = SHELF_TEXT.replace(
        'least = "2", most = "20", default = "6"', 'least = "2", most = "20", default = "2"'
    )
    with pytest.raises(PublishingError) as refused:
        publish(pattern, low)
    (mistake,) = refused.value.mistakes
    assert mistake.key == "measures"
    assert str(mistake.message).startswith("The size that its page opens with is refused in inches. ")
    assert "2 in" in mistake.message
