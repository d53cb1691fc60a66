"""How to care for what was made: what asks for most care decides."""

import pytest

from patterns.documents.book_content import book_content
from patterns.documents.care import care, made_of
from patterns.documents.paper import PAPERS
from patterns.starters import slugs


def rows(sized):
    return {row.name: row.says for row in care(sized)}


@pytest.mark.parametrize("slug", slugs())
def test_every_pattern_is_washed_dried_ironed_and_kept(make_sized, slug):
    found = rows(make_sized(slug, "cm"))
    assert list(found) == ["Before washing", "Washing", "Drying", "Ironing", "Keeping"]
    assert all(said.endswith(".") for said in found.values())


def test_vinyl_is_never_ironed_nor_tumbled_whatever_lies_beside_it(make_sized):
    for interfacing in ("none", "light", "heavy"):
        found = rows(make_sized("window-pouch", "in", interfacing=interfacing))
        assert found["Ironing"].startswith("Never iron it again")
        assert found["Washing"].startswith("Wash it by hand")
        assert "Never in a tumble dryer" in found["Drying"]
        assert "never folded across it" in found["Keeping"]


def test_what_is_fused_asks_for_more_care(make_sized):
    plain, light, heavy = (
        rows(make_sized("zip-pouch", "in", interfacing=each)) for each in ("none", "light", "heavy")
    )
    assert "maker of the interfacing" not in plain["Ironing"]
    assert "In a tumble dryer only if" in plain["Drying"]
    for found in (light, heavy):
        assert "at the heat that the maker of the interfacing names" in found["Ironing"]
        assert "Not in a tumble dryer" in found["Drying"]
    assert "Fleece is crushed" in heavy["Ironing"]
    assert all("Keep the iron off the zip" in found["Ironing"] for found in (plain, light, heavy))


def test_cords_ribbons_and_webbing_are_seen_to(make_sized):
    cords, ribbon = (rows(make_sized(slug, "in")) for slug in ("drawstring-bag", "gift-bag"))
    assert "tie the two cords together" in cords["Before washing"]
    assert "Keep it off cord" in cords["Ironing"]
    assert "Untie the ribbon" in ribbon["Before washing"]
    webbing = make_sized("boxed-tote", "in", handle="webbing")
    assert "Keep it off webbing" in rows(webbing)["Ironing"]
    assert made_of(webbing) == "exterior fabric, lining fabric, light interfacing and handle webbing"


def test_the_book_explains_the_lines_it_draws_and_no_others(make_sized):
    looks = {
        slug: [row.looks for row in book_content(make_sized(slug, "in"), PAPERS["a4"]).lines]
        for slug in ("fold-flat-basket", "zip-pouch")
    }
    assert {"thick line", "long dashes and dots", "short dashes"} <= {*looks["fold-flat-basket"]}
    assert "row of teeth" not in looks["fold-flat-basket"]
    assert "row of teeth" in looks["zip-pouch"]
