"""The owner's side of patterns, in Django's admin."""

import pytest
from django.urls import reverse

from patterns.models import Pattern, Revision

from .conftest import SHELF_TEXT

pytestmark = pytest.mark.django_db
ADD = reverse("admin:patterns_revision_add")


@pytest.fixture
def workroom(client, owner):
    client.force_login(owner)
    return client


def test_text_is_published(workroom):
    pattern = Pattern.objects.create(slug="shelf-box")
    response = workroom.post(ADD, {"pattern": pattern.pk, "text": SHELF_TEXT})
    revision = Revision.objects.get()
    assert response.status_code == 302
    assert (revision.pattern, revision.number, revision.text) == (pattern, 1, SHELF_TEXT)
    assert Pattern.objects.get().title == "Shelf box"


def test_each_mistake_is_shown_and_the_text_kept(workroom):
    pattern = Pattern.objects.create(slug="shelf-box")
    spoiled = SHELF_TEXT.replace("skill =", "skil =").replace('default = "9"', 'default = "99"')
    html = workroom.post(ADD, {"pattern": pattern.pk, "text": spoiled}).content.decode()
    assert "line 4, skil: " in html
    assert "line 17, measures.width.in.default: " in html
    assert "skil = &quot;Beginner&quot;" in html
    assert not Revision.objects.exists()


def test_false_truing_is_shown(workroom):
    pattern = Pattern.objects.create(slug="shelf-box")
    spoiled = SHELF_TEXT.replace('other = "2 × height + depth"', 'other = "2 × height"')
    html = workroom.post(ADD, {"pattern": pattern.pk, "text": spoiled}).content.decode()
    assert "The difference is depth." in html
    assert not Revision.objects.exists()


def test_next_revision_has_a_page_of_its_own(workroom, make_pattern):
    """It says whom the change concerns, so none is published here past it."""
    pattern = make_pattern()
    own = reverse("orders:pattern-revise", args=[pattern.slug])
    html = workroom.get(reverse("admin:patterns_pattern_changelist")).content.decode()
    assert f'href="{own}"' in html
    changed = SHELF_TEXT.replace("Shelf box", "Tall box")
    html = workroom.post(ADD, {"pattern": pattern.pk, "text": changed}).content.decode()
    assert f'href="{own}"' in html
    assert Revision.objects.get().number == 1


def test_revision_is_only_read(workroom, make_pattern):
    revision = make_pattern().latest_revision
    page = reverse("admin:patterns_revision_change", args=[revision.pk])
    html = workroom.get(page).content.decode()
    assert "An open box for a shelf." in html
    assert 'name="text"' not in html
    assert workroom.post(page, {"text": "other"}).status_code == 403
    assert workroom.post(reverse("admin:patterns_revision_delete", args=[revision.pk])).status_code == 403


def test_pattern_that_was_published_is_listed_not_renamed(workroom, make_pattern):
    pattern = make_pattern(is_listed=False)
    page = reverse("admin:patterns_pattern_change", args=[pattern.pk])
    workroom.post(page, {"slug": "other", "title": "Other", "is_listed": "on"})
    pattern.refresh_from_db()
    assert (pattern.slug, pattern.title, pattern.is_listed) == ("shelf-box", "Shelf box", True)


def test_pattern_with_revisions_is_not_deleted(workroom, make_pattern):
    pattern = make_pattern()
    page = reverse("admin:patterns_pattern_delete", args=[pattern.pk])
    html = workroom.post(page, {"post": "yes"}).content.decode()
    assert "Cannot delete pattern" in html
    assert Pattern.objects.exists()


def test_new_pattern(workroom):
    response = workroom.post(reverse("admin:patterns_pattern_add"), {"slug": "new-bag"})
    assert response.status_code == 302
    assert "Publish a revision" in workroom.get(response.url).content.decode()


def test_stranger_is_sent_to_the_login(client):
    assert client.get(ADD).url.startswith(reverse("admin:login"))
