"""The owner writes a corrected text, sees whom it concerns, and publishes just what she saw."""

from collections.abc import Callable
from typing import Any

import pytest
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from orders.correcting import sweep_corrections
from orders.models import Correction, Letter, Order
from orders.placing import Placed
from orders.posting import send_due
from patterns.models import Draft, Pattern, Revision
from tests.orders.conftest import NOW, RECIPE, text_of, words_of
from tests.orders.test_correcting import REASON, WIDER

Maker = Callable[..., Placed]
Write = Callable[..., HttpResponse]
LIST = reverse("orders:owner-corrections")


@pytest.fixture(autouse=True)
def now(time_machine: Any) -> None:
    time_machine.move_to(NOW, tick=False)


@pytest.fixture
def write(owner_client: Client, pattern: Pattern) -> Write:
    """Send the page of the next revision."""

    def send(text: str = WIDER, reason: str = REASON) -> HttpResponse:
        return owner_client.post(address("pattern-revise"), {"text": text, "reason": reason})

    return send


def address(name: str) -> str:
    return reverse(f"orders:{name}", args=["plain-tray"])


def seen() -> dict[str, str]:
    return {"seen": Draft.objects.get().checksum, "tells": "on"}


def test_page_begins_with_the_text_that_is_sold(owner_client: Client, pattern: Pattern) -> None:
    assert "title = &quot;Plain tray&quot;" in text_of(owner_client.get(address("pattern-revise")))
    assert f'href="{address("pattern-revise")}"' in text_of(owner_client.get(LIST))


def test_the_whole_way(owner_client: Client, write: Write, make_order: Maker, pattern: Pattern) -> None:
    affected, same = (make_order(pattern, depth=depth).order for depth in ("7", "6"))
    assert write().headers["Location"] == address("revision-check")
    page = words_of(owner_client.get(address("revision-check")))
    assert "1 order comes out otherwise. Each gets one letter and a corrected book." in page
    assert "1 order stays the same and is not bothered." in page
    assert f"Order {affected.number} of Ada Example: 2 changes, in the letter below" in page
    assert f"order {same.number} of" not in page.lower()
    assert "- Panel: cut 17 × 19 in, was 16 × 19 in." in page
    assert f"Why: {REASON}" in page
    assert "(the link of the order)" in page
    assert "“revised” on 20 November 2026, the day of revision 1 too." in page
    assert not Revision.objects.filter(number=2).exists()
    sent = seen()
    for _ in range(2):
        assert owner_client.post(address("revision-check"), sent).headers["Location"] == LIST
    assert Revision.objects.get(number=2).reason == REASON
    assert not Draft.objects.exists()
    assert "Plain tray, revision 2 is published." in (page := words_of(owner_client.get(LIST)))
    assert "2 sizes still to be looked at." in page
    while sweep_corrections(NOW):
        pass
    page = words_of(owner_client.get(LIST))
    assert (
        "1 letter: none sent, 1 to be sent. 2 corrected files still to be made. 1 size stayed the same."
        in page
    )
    send_due(NOW)
    one = words_of(owner_client.get(reverse("orders:owner-correction", args=[Correction.objects.get().pk])))
    assert "Letter sent on 25 November 2026, 10:30; files still to be made." in one
    theirs = words_of(owner_client.get(reverse("orders:owner-order", args=[affected.number])))
    assert "Corrected by Plain tray, revision 2 : the customer was written to on 25 November 2026." in theirs
    records = reverse("admin:orders_correction_change", args=[Correction.objects.get().pk])
    assert "Comes out the same" in words_of(owner_client.get(records))
    assert "Plain tray, 9 in wide, 6 in high, 7 in deep: 2 changes" in one


def test_mistakes_are_shown_and_what_was_typed_is_kept(owner_client: Client, write: Write) -> None:
    response = write(WIDER.replace("skill =", "skil ="), "")
    words = words_of(response)
    assert "<title>Error: " in text_of(response)
    assert "line 5, skil: " in words
    assert "There is no reason. Write what was wrong" in words
    assert "skil = &quot;Beginner&quot;" in text_of(owner_client.get(address("pattern-revise")))
    assert owner_client.get(address("revision-check")).headers["Location"] == address("pattern-revise")


def test_the_same_text_is_no_correction(write: Write) -> None:
    assert "This is revision 1, word for word." in words_of(write(RECIPE.replace("\n", "\r\n")))


def test_only_what_was_seen_is_published(owner_client: Client, write: Write, make_order: Maker) -> None:
    write()
    before = seen()
    write(reason="Another reason.")
    assert "Not published: the draft was changed since you looked." in words_of(
        owner_client.post(address("revision-check"), before)
    )
    assert Revision.objects.count() == 1


def test_published_and_nobody_told(
    owner_client: Client, write: Write, make_order: Maker, pattern: Pattern
) -> None:
    make_order(pattern, depth="7")
    write()
    owner_client.post(address("revision-check"), {"seen": seen()["seen"]})
    assert Revision.objects.count() == 2
    assert not Correction.objects.exists()
    assert sweep_corrections(NOW) == 0
    assert not Letter.objects.filter(kind=Letter.Kind.CORRECTED).exists()


def test_told_later_once_and_only_whom_it_still_concerns(
    owner_client: Client, write: Write, make_order: Maker, pattern: Pattern, time_machine: Any
) -> None:
    affected, given_back = (make_order(pattern, depth="7", email=f"{at}@example.org").order for at in (1, 2))
    write()
    owner_client.post(address("revision-check"), {"seen": seen()["seen"]})
    page = owner_client.get(LIST)
    later = reverse("orders:revision-tell", args=[Revision.objects.get(number=2).pk])
    assert "Nobody is told; you can do that later, below." in words_of(page)
    assert f'href="{later}"' in text_of(page)
    make_order(pattern, depth="7", email="after@example.org")  # of the revision itself
    Order.objects.filter(pk=given_back.pk).update(total_minor=650)
    page = words_of(owner_client.get(later))
    assert "1 order comes out otherwise. Each gets one letter and a corrected book." in page
    assert "- Panel: cut 17 × 19 in, was 16 × 19 in." in page
    assert not Correction.objects.exists()
    time_machine.shift(24 * 60 * 60)
    for _ in range(2):
        assert owner_client.post(later).headers["Location"] == LIST
        while sweep_corrections(timezone.now()):
            pass
    (letter,) = Letter.objects.filter(kind=Letter.Kind.CORRECTED)
    assert (list(letter.orders.all()), Correction.objects.count()) == ([affected], 1)
    page = words_of(owner_client.get(LIST))
    assert "nobody was told" not in page
    assert "Published on 25 November 2026, 10:30, and told from 26 November 2026, 10:30 by owner." in page
    assert owner_client.get(later).headers["Location"] == LIST


def test_a_later_revision_takes_over_what_was_not_told(
    owner_client: Client, write: Write, make_order: Maker, pattern: Pattern
) -> None:
    make_order(pattern, depth="7")
    for text in (WIDER, WIDER.replace('cut = "1"', 'cut = "2"')):
        write(text)
        owner_client.post(address("revision-check"), {"seen": seen()["seen"]})
    first = reverse("orders:revision-tell", args=[Revision.objects.get(number=2).pk])
    assert owner_client.get(first).status_code == owner_client.post(first).status_code == 303
    assert not Correction.objects.exists()
    assert words_of(owner_client.get(LIST)).count("See whom it concerns") == 1


def test_refused_sizes_are_shown_before(
    owner_client: Client, write: Write, make_order: Maker, pattern: Pattern
) -> None:
    make_order(pattern, width="8", depth="8")
    write(RECIPE.replace('holds = "width ≥ depth"', 'holds = "width > depth"'))
    page = words_of(owner_client.get(address("revision-check")))
    assert "8 in deep. Refused: A width of 8 in is less than the depth." in page
    assert "Nobody’s size comes out otherwise" in page


def test_draft_is_thrown_away(owner_client: Client, write: Write) -> None:
    write()
    assert f'href="{address("draft-drop")}"' in text_of(owner_client.get(address("pattern-revise")))
    assert "Throw the draft of Plain tray away?" in words_of(owner_client.get(address("draft-drop")))
    assert Draft.objects.exists()
    for _ in range(2):
        assert owner_client.post(address("draft-drop")).headers["Location"] == LIST
    assert not Draft.objects.exists()
    assert owner_client.get(address("draft-drop")).headers["Location"] == LIST
    assert owner_client.get(address("revision-check")).headers["Location"] == LIST


def test_first_revision(owner_client: Client) -> None:
    Pattern.objects.create(slug="plain-tray")
    owner_client.post(address("pattern-revise"), {"text": RECIPE})
    page = words_of(owner_client.get(address("revision-check")))
    assert "can be published" in page
    assert "Write to those" not in page
    owner_client.post(address("revision-check"), seen())
    assert Pattern.objects.get().title == "Plain tray"
    shelf = words_of(owner_client.get(reverse("patterns:owner-patterns")))
    assert "revision 1 is published. Customers see it once you show it in the shop." in shelf
    assert not Correction.objects.exists()


def test_queries_do_not_grow(owner_client: Client, write: Write, make_order: Maker, pattern: Pattern) -> None:
    def count() -> int:
        with CaptureQueriesContext(
            connection,
        ) as queries:
            owner_client.get(address("revision-check"))
        return len(queries)

    make_order(pattern, depth="7")
    write()
    one = count()
    for at in range(4):
        make_order(pattern, depth="7", email=f"{at}@example.org")
    assert count() == one


@pytest.mark.parametrize("name", ["pattern-revise", "revision-check", "draft-drop"])
def test_strangers_are_sent_to_the_login(client: Client, pattern: Pattern, name: str) -> None:
    assert client.post(address(name)).url.startswith(reverse("admin:login"))
    assert client.get(LIST).status_code == 302


def test_telling_later_is_the_owners_alone(client: Client, pattern: Pattern) -> None:
    later = reverse("orders:revision-tell", args=[Revision.objects.get().pk])
    assert client.post(later).url.startswith(reverse("admin:login"))
    assert client.get(later).status_code == 302


def test_unknown_pattern(owner_client: Client) -> None:
    assert owner_client.get(address("pattern-revise")).status_code == 404
