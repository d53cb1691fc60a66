from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from orders.errors import NoOtherSystemError
from orders.keys import new_key
from orders.models import IssuedDocument, OrderLine, SizeSold
from orders.other_system import in_other_system, keep_in_other_system
from orders.placing import Placed, place_order
from patterns import starters
from patterns.cutting.wish import Wish, from_json
from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units
from tests.orders.conftest import NOW, sized_as, text_of, words_of

Maker = Callable[..., Placed]


def the_line(placed: Placed) -> OrderLine:
    return placed.order.lines.sold().get()


def address(placed: Placed, line: int = 1) -> str:
    return reverse("orders:other-system", args=[placed.token, line])


def in_cm(value: str) -> Fraction:
    return Fraction(value) * Units.CENTIMETRES.mm


def test_measures_go_to_the_nearest_step_and_defaults_to_defaults(make_order: Maker) -> None:
    """8.5 in is 21.59 cm, and the step half a centimetre; 6 in is the default, 15.24 cm, and so is 15 cm."""
    sized = in_other_system(the_line(make_order(width="17/2", layers="3")))
    assert sized.units == Units.CENTIMETRES
    assert {name: sized.values[name] for name in ("width", "height", "depth", "layers")} == {
        "width": in_cm("21.5"),
        "height": in_cm("15"),
        "depth": in_cm("13"),
        "layers": 3,
    }


def test_from_centimetres_to_inches(make_order: Maker) -> None:
    """21 cm is 8.268 in, so 8 1/4."""
    sized = in_other_system(the_line(make_order(units="cm", width="21")))
    assert sized.values["width"] == Fraction(33, 4) * Units.INCHES.mm


def test_end_of_a_range_stays_its_end(make_order: Maker) -> None:
    """20 in, the most, is 50.8 cm; there the most is 50."""
    assert in_other_system(the_line(make_order(width="20"))).values["width"] == in_cm("50")


def test_options_stay_what_they_were(make_order: Maker) -> None:
    line = the_line(make_order())
    assert in_other_system(line).options == line.sized_pattern.options


def test_refused_size_moves_to_the_nearest_that_works(make_order: Maker) -> None:
    """Width and depth 5 in: the depth, at its default, becomes 13 cm, and the width 12.5, which is less."""
    sized = in_other_system(the_line(make_order(width="5", depth="5")))
    assert not sized.is_refused
    assert (sized.values["width"], sized.values["depth"]) == (in_cm("13"), in_cm("13"))


def test_no_size_near_is_said(make_order: Maker, monkeypatch: pytest.MonkeyPatch, client: Client) -> None:
    monkeypatch.setattr(
        "orders.other_system._round_measures", lambda *_: {"width": in_cm("8"), "depth": in_cm("25")}
    )
    monkeypatch.setattr("orders.other_system.nearest_size", lambda *_, **__: None)
    placed = make_order()
    with pytest.raises(NoOtherSystemError, match="no near one in centimetres"):
        keep_in_other_system(the_line(placed))
    for response in (client.get(address(placed)), client.post(address(placed))):
        assert "This size has no near one in centimetres" in text_of(response)
    assert OrderLine.objects.count() == 1


def test_every_starter_has_its_default_in_both(make_order: Maker, make_pattern: Callable[..., Any]) -> None:
    for slug in starters.slugs():
        pattern = make_pattern(slug, starters.text_of(slug))
        line = the_line(make_order(pattern, email=f"{slug}@example.org"))
        recipe: Recipe = line.revision.recipe
        sized = in_other_system(line)
        assert not sized.is_refused
        for measure in recipe.measures:
            scale = measure.scales[Units.CENTIMETRES]
            assert scale.least <= sized.values[measure.name] <= scale.most


def test_kept_beside_the_first_at_no_price_and_not_as_sold(make_order: Maker) -> None:
    placed = make_order(width="17/2")
    line, sold = the_line(placed), SizeSold.objects.count()
    kept = keep_in_other_system(line)
    assert (kept.beside, kept.position, kept.price_minor, kept.revision) == (line, 2, 0, line.revision)
    assert kept.sized_pattern.units == Units.CENTIMETRES
    assert SizeSold.objects.count() == sold
    assert list(placed.order.lines.sold()) == [line]
    wanted = IssuedDocument.objects.filter(line=kept)
    assert {(each.paper, each.licence_line) for each in wanted} == {
        (paper, f"Order {placed.order.number} · made for Ada Example") for paper in ("a4", "letter")
    }
    line.refresh_from_db()
    assert line.sized_pattern.units == Units.INCHES


def test_done_twice_is_once(make_order: Maker) -> None:
    line = the_line(make_order())
    same = OrderLine.objects.get(pk=line.pk)
    assert line.other is None  # asked before the other has pressed
    assert keep_in_other_system(same) == keep_in_other_system(line)
    assert OrderLine.objects.count() == 2


def test_form_sent_again_still_finds_its_order(make_order: Maker) -> None:
    key = new_key()
    placed = make_order(key=key)
    keep_in_other_system(the_line(placed))
    assert make_order(key=key).order == placed.order


def test_cloth_that_is_not_usual_in_the_other_units_gives_way_to_the_usual(pattern: Any) -> None:
    revision = pattern.revisions.get()
    wish = Wish(form="fat quarter", shrinkage=Fraction(3), count=2, price_minor=350, folded=True)
    placed = place_order(
        revision,
        sized_as(revision),
        name="Ada",
        email="ada@example.org",
        key="k",
        source="s",
        now=NOW,
        cloth=wish,
    )
    kept = keep_in_other_system(the_line(placed))
    assert kept.wish is not None
    other = from_json(kept.wish)
    assert (other.shrinkage, other.count, other.price_minor, other.folded) == (3, 2, None, True)


def test_page_shows_both_and_keeps_nothing(client: Client, make_order: Maker) -> None:
    placed = make_order(width="17/2")
    page = words_of(client.get(address(placed)))
    assert "Width 8 1⁄2 in 21.5 cm ≈ 0.1 cm smaller" in page
    assert "Layers 2 2 the same" in page
    assert "Make my files in centimetres" in page
    assert OrderLine.objects.count() == 1


def test_confirmed_it_stands_on_the_orders_page(client: Client, make_order: Maker) -> None:
    placed = make_order()
    detail = reverse("orders:order-detail", args=[placed.token])
    assert "Have it in centimetres as well" in text_of(client.get(detail))
    assert client.post(address(placed)).headers["Location"] == f"{detail}#line-2"
    page = text_of(client.get(detail))
    assert "Plain tray, in centimetres" in page
    assert "Your files in centimetres" in page
    assert "as well" not in page
    assert 'Instruction book on A4<span class="visually-hidden">, in centimetres</span>' in page
    names = [each.file_name for each in IssuedDocument.objects.filter(paper="a4").select_related("line")]
    number = placed.order.number
    assert names == [f"plain-tray-book-a4{units}-order-{number}.pdf" for units in ("", "-in-cm")]
    assert client.get(address(placed)).headers["Location"] == detail
    assert client.post(address(placed, 2)).headers["Location"] == detail


def test_stranger_and_unknown_line_get_404(client: Client, make_order: Maker) -> None:
    placed = make_order()
    for wrong in (address(placed, 2), address(Placed(placed.order, "A" * 43))):
        assert (client.get(wrong).status_code, client.post(wrong).status_code) == (404, 404)
    assert OrderLine.objects.count() == 1


def test_owner_sees_one_row_with_the_downloads_of_both(
    owner_client: Client, make_order: Maker, rows: Callable[[Any], list[str]]
) -> None:
    placed = make_order()
    kept = keep_in_other_system(the_line(placed))
    IssuedDocument.objects.filter(line=kept, paper="a4").update(downloads=2)
    page = words_of(owner_client.get(reverse("orders:owner-orders")))
    assert page.count("Plain tray") == 1
    assert "once more in the other units" in page
    (row,) = rows(owner_client.get(reverse("orders:owner-orders-csv")))[1:]
    assert row.split(",")[-6] == "2"  # what follows it tells of the payment
