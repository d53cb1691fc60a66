"""A corrected revision: whom it concerns is told once, in numbers; nobody else hears of it."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from orders.correcting import PAUSE, publish_revision, sweep_corrections
from orders.models import (
    CorrectedLine,
    Correction,
    IssuedDocument,
    Letter,
    LocalCharge,
    Order,
    OrderLine,
    SizeSold,
)
from orders.other_system import keep_in_other_system
from orders.paying import begin_card, take
from orders.placing import Placed
from orders.providers.local import message_of
from patterns.models import Pattern, Revision
from tests.orders.conftest import NOW, RECIPE, SIZES, text_of, words_of

Maker = Callable[..., Placed]
# Trays that are deeper than high were cut too small; the others were right.
WIDER = RECIPE.replace(
    'width = "width + depth"\nheight', 'width = "width + depth + larger of (depth, height) − height"\nheight'
).replace(
    'other = "2 × (width + depth)"', 'other = "2 × (width + depth + larger of (depth, height) − height)"'
)
REASON = "Trays that are deeper than high came out too narrow."


def correct(pattern: Pattern, text: str = WIDER, reason: str = REASON, *, tells: bool = True) -> Revision:
    return publish_revision(pattern, text, reason, tells=tells, owner="owner", now=NOW)


def sweep() -> int:
    """Let the worker look at everything that is due."""
    done = 0
    while at_once := sweep_corrections(NOW):
        done += at_once
    return done


def told() -> list[Letter]:
    return list(Letter.objects.filter(kind=Letter.Kind.CORRECTED).order_by("pk"))


def test_only_who_is_affected_is_written_to(pattern: Pattern, make_order: Maker) -> None:
    affected, same = make_order(pattern, depth="7").order, make_order(pattern, depth="6").order
    correct(pattern)
    assert sweep() == 2
    (letter,) = told()
    assert list(letter.orders.all()) == [affected]
    assert letter.subject.startswith(f"A correction to your order {affected.number} at ")
    for words in (letter.text, letter.html):
        assert "Plain tray, 9 in wide, 6 in high, 7 in deep" in words
        assert f"Why: {REASON}" in words
        assert "Panel: cut 17 × 19 in, was 16 × 19 in." in words
        assert "None" not in words
    assert "\n\n\n" not in letter.text
    assert "  " not in letter.text
    assert [line.revision.number for line in affected.lines.all()] == [1, 2]
    assert [line.revision.number for line in same.lines.all()] == [1]


def test_in_the_customers_own_units(pattern: Pattern, make_order: Maker) -> None:
    make_order(pattern, units="cm", depth="20")
    correct(pattern)
    sweep()
    assert "Panel: cut 48 × 50 cm, was 43 × 50 cm." in told()[0].text


def test_corrected_line_is_no_sale_and_its_files_are_promised(pattern: Pattern, make_order: Maker) -> None:
    order = make_order(pattern, depth="7").order
    first = order.lines.get()
    correct(pattern)
    sweep()
    made = first.corrected
    assert (made.price_minor, made.sized_pattern.values["depth"]) == (0, first.sized_pattern.values["depth"])
    assert list(order.lines.sold()) == [first]
    assert not SizeSold.objects.filter(line=made).exists()
    names = {document.file_name for document in IssuedDocument.objects.all()}
    assert names == {
        f"plain-tray-book-{paper}{revision}-order-{order.number}.pdf"
        for paper in ("a4", "letter")
        for revision in ("", "-revision-2")
    }


def test_twice_is_once(pattern: Pattern, make_order: Maker) -> None:
    """Published twice, swept at any time, begun again after it was broken off."""
    make_order(pattern, depth="7")
    for _ in range(2):
        correct(pattern)
        sweep()
        Correction.objects.update(due_at=NOW)
    sweep()
    assert (Revision.objects.count(), Correction.objects.count(), len(told())) == (2, 1, 1)
    assert OrderLine.objects.count() == 2


def test_what_breaks_off_leaves_nothing_half_done(
    pattern: Pattern, make_order: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    make_order(pattern, depth="7")
    correct(pattern)
    with monkeypatch.context() as broken:
        broken.setattr("orders.letters.corrected", lambda *_: 1 / 0)
        with pytest.raises(ZeroDivisionError):
            sweep_corrections(NOW)
    assert (OrderLine.objects.count(), CorrectedLine.objects.count()) == (1, 0)
    sweep()
    assert (OrderLine.objects.count(), len(told())) == (2, 1)


def test_one_letter_for_an_order_with_several_lines(pattern: Pattern, make_order: Maker) -> None:
    """The other unit system is a line of its own, and is corrected too."""
    order = make_order(pattern, depth="8").order
    keep_in_other_system(order.lines.get())
    correct(pattern)
    assert sweep() == 2
    (letter,) = told()
    assert "was 17 × 20 in" in letter.text
    assert "cm, was" in letter.text
    assert order.lines.count() == 4
    assert [line.is_in_other_system for line in order.lines.all()] == [False, True, False, True]


def test_a_refused_size_waits_for_the_owner(
    pattern: Pattern, make_order: Maker, owner_client: Client
) -> None:
    order = make_order(pattern, width="8", depth="8").order
    correct(pattern, RECIPE.replace('holds = "width ≥ depth"', 'holds = "width > depth"'))
    sweep()
    assert told() == []
    (waiting,) = CorrectedLine.objects.waiting_for_owner()
    assert waiting.why == "A width of 8 in is less than the depth."
    page = words_of(owner_client.get(reverse("orders:owner-corrections")))
    assert f"Order {order.number} of Ada Example, ada@example.org : Plain tray, 8 in wide" in page
    assert "Refused by revision 2: A width of 8 in is less than the depth." in page
    seen = reverse("orders:correction-seen", args=[waiting.pk])
    assert owner_client.get(seen).status_code == 405
    for _ in range(2):
        assert owner_client.post(seen).status_code == 303
    assert not CorrectedLine.objects.waiting_for_owner().exists()


def test_a_later_text_that_takes_the_size_ends_the_waiting(pattern: Pattern, make_order: Maker) -> None:
    make_order(pattern, width="8", depth="8")
    correct(pattern, RECIPE.replace('holds = "width ≥ depth"', 'holds = "width > depth"'))
    sweep()
    correct(pattern, WIDER)
    sweep()
    assert not CorrectedLine.objects.waiting_for_owner().exists()
    assert len(told()) == 1


def test_a_measure_that_is_gone_is_said(pattern: Pattern, make_order: Maker) -> None:
    make_order(pattern)
    gone = RECIPE[: RECIPE.index("[measures.layers]")] + RECIPE[RECIPE.index("[options.lining]") :]
    correct(pattern, gone)
    sweep()
    (waiting,) = CorrectedLine.objects.waiting_for_owner()
    assert waiting.why == "There is no measure “layers”. There are: depth, height, width."


def test_the_next_correction_goes_on_from_the_last(pattern: Pattern, make_order: Maker) -> None:
    order = make_order(pattern, depth="7").order
    correct(pattern)
    sweep()
    correct(pattern, WIDER.replace('cut = "1"', 'cut = "2"'), "One panel was too few.")
    sweep()
    second = told()[1].text
    assert "Panel: cut 2 of it, was 1." in second
    assert "was 16" not in second
    assert "Why: One panel was too few." in second
    assert [line.corrects_id for line in order.lines.all()] == [
        None,
        *order.lines.values_list("pk", flat=True)[:2],
    ]


def test_two_corrections_at_once_are_one_letter(pattern: Pattern, make_order: Maker) -> None:
    make_order(pattern, depth="7")
    correct(pattern)
    correct(pattern, WIDER.replace('cut = "1"', 'cut = "2"'), "One panel was too few.")
    sweep()
    (letter,) = told()
    assert f"Why: {REASON} One panel was too few." in letter.text
    assert "was 16 × 19 in" in letter.text


def test_earlier_text_again_calls_back_only_who_had_the_other(pattern: Pattern, make_order: Maker) -> None:
    before = make_order(pattern, depth="7").order
    correct(pattern, WIDER, tells=False)
    after = make_order(pattern, depth="7").order
    correct(pattern, RECIPE, "The first was right.")
    sweep()
    (letter,) = told()
    assert list(letter.orders.all()) == [after]
    assert before.lines.count() == 1


def test_nobody_is_told_where_the_owner_says_so(pattern: Pattern, make_order: Maker) -> None:
    make_order(pattern, depth="7")
    correct(pattern, tells=False)
    assert sweep() == 0
    assert told() == []


def test_first_revision_corrects_nothing(db: None) -> None:
    publish_revision(Pattern.objects.create(slug="new"), RECIPE, "", tells=True, owner="", now=NOW)
    assert not Correction.objects.exists()


def test_who_pays_later_is_told_then(buy: Maker) -> None:
    """And whose money is given back is not."""
    order = buy(query="units=in&width=9&depth=7").order
    pattern = Pattern.objects.get(slug="sized-tray")
    correct(pattern, WIDER + SIZES)
    assert sweep() == 0
    begin_card(order, "local", NOW)
    LocalCharge.objects.update(state=LocalCharge.State.PAID)
    take("local", message_of(LocalCharge.objects.get()), NOW)
    assert sweep_corrections(NOW + PAUSE - timedelta(seconds=1)) == 0
    assert sweep_corrections(NOW + PAUSE) == 1
    assert len(told()) == 1


def test_a_few_orders_at_a_time(pattern: Pattern, make_order: Maker, monkeypatch: Any) -> None:
    monkeypatch.setattr("orders.correcting.MOST_AT_ONCE", 2)
    for at in range(3):
        make_order(pattern, depth="7", key="", email=f"{at}@example.org")
    correct(pattern)
    assert [sweep_corrections(NOW) for _ in range(3)] == [2, 1, 0]


def test_order_page_shows_the_corrected_beside_the_first(
    pattern: Pattern, make_order: Maker, client: Client
) -> None:
    placed = make_order(pattern, depth="7")
    keep_in_other_system(placed.order.lines.get())
    correct(pattern)
    sweep()
    response = client.get(reverse("orders:order-detail", args=[placed.token]))
    page, words = text_of(response), words_of(response)
    titles = ["Plain tray, 1 of 4", "Plain tray, corrected, 2 of 4", "Plain tray, in centimetres, 3 of 4"]
    places = [page.index(f">{title}</h2>") for title in titles]
    assert places == sorted(places)
    assert "a mistake in this was found since. Use the corrected one" in words
    assert "Panel: cut 17 × 19 in, was 16 × 19 in." in words
    assert REASON in words
    assert page.count("/1/files/") == page.count("/3/files/")
    assert "other-units" not in page


def test_lost_order_is_not_corrected(pattern: Pattern, make_order: Maker) -> None:
    """What is not the customer's any more is nobody's to correct."""
    order = make_order(pattern, depth="7").order
    Order.objects.filter(pk=order.pk).update(total_minor=650)
    correct(pattern)
    assert sweep() == 0
