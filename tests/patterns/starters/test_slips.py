"""Every formula of what is cut is spoiled in turn, in every starter: something of the recipe must show it."""

from dataclasses import replace

import pytest

from patterns.drafting.formulas.grammar import read
from patterns.drafting.formulas.spell import spell
from patterns.starters import read_starter, slugs
from tests.slips import Spoiler, slips

# The slips that nothing in the recipe shows, by what is spoiled. A new one fails; so does one that is caught.
REASONS = {
    "number of ": "How often a piece is cut is read by no formula, so that no truing counts it anew; "
    "no size of it is wrong. The tests of each recipe count its pieces anew, with every option.",
    "length of ": "What is bought by length is an amount, which truings prove, and at most how many are "
    "needed; no formula reads the sum. The tests of each recipe reckon it anew.",
}
SURVIVORS: dict[str, dict[str, str]] = {
    "boxed-tote": {
        "number of exterior panel": "3; 1",
        "number of lining panel": "3; 1",
        "number of handle": "3; 1",
        "number of light interfacing panel": "5; 3",
        "number of light interfacing handle": "3; 1",
        "number of heavy interfacing panel": "3; 1",
        "length of handle webbing": (
            "handle cut length; handle cut length ÷ 2; 3 × handle cut length; 1 × handle cut length; "
            "2 × (handle cut length ÷ 2); 2 × (2 × handle cut length); "
            "2 × handle cut length + seam allowance"
        ),
    },
    "drawstring-bag": {
        "number of exterior panel": "3; 1",
        "number of lining panel": "3; 1",
        "number of light interfacing panel": "5; 3",
        "length of cord": (
            "cord length; cord length ÷ 2; 3 × cord length; 1 × cord length; 2 × (cord length ÷ 2); "
            "2 × (2 × cord length); 2 × cord length + seam allowance"
        ),
    },
    "fold-flat-basket": {
        "number of exterior panel": "2",
        "number of exterior half panel": "3; 1",
        "number of lining panel": "2",
        "number of lining half panel": "3; 1",
        "number of light interfacing panel": "1; lining panels; 2 + lining panels; 1 + 2 × lining panels",
        "number of light interfacing half panel": (
            "2; lining half panels; 3 + lining half panels; 1 + lining half panels; "
            "2 + lining half panels ÷ 2; 2 + 2 × lining half panels"
        ),
        "number of light lining interfacing panel": "2",
        "number of light lining interfacing half panel": "3; 1",
        "number of heavy interfacing panel": "2",
        "number of heavy interfacing half panel": "3; 1",
    },
    "gift-bag": {
        "number of exterior panel": "2",
        "number of exterior half panel": "3; 1",
        "number of lining panel": "2",
        "number of lining half panel": "3; 1",
        "number of light interfacing panel": "1; lining panels; 2 + lining panels; 1 + 2 × lining panels",
        "number of light interfacing half panel": (
            "2; lining half panels; 3 + lining half panels; 1 + lining half panels; "
            "2 + lining half panels ÷ 2; 2 + 2 × lining half panels"
        ),
        "number of light lining interfacing panel": "2",
        "number of light lining interfacing half panel": "3; 1",
        "length of ribbon": "ribbon length ÷ 2; 2 × ribbon length; ribbon length + seam allowance",
        "length of tag ribbon": "tag loop length ÷ 2; 2 × tag loop length; tag loop length + seam allowance",
    },
    "packable-tote": {
        "number of exterior panel": "2",
        "number of exterior half panel": "3; 1",
        "number of handle": "3; 1",
        "number of pocket": "3; 1",
        "number of lining panel": "2",
        "number of lining half panel": "3; 1",
        "number of light interfacing panel": "1; lining panels; 2 + lining panels; 1 + 2 × lining panels",
        "number of light interfacing half panel": (
            "2; lining half panels; 3 + lining half panels; 1 + lining half panels; "
            "2 + lining half panels ÷ 2; 2 + 2 × lining half panels"
        ),
        "number of light lining interfacing panel": "2",
        "number of light lining interfacing half panel": "3; 1",
        "number of light interfacing handle": "3; 1",
    },
    "round-bucket": {
        "number of exterior side": "side pieces ÷ 2; 2 × side pieces",
        "number of lining side": "side pieces ÷ 2; 2 × side pieces",
        "number of exterior base": "2",
        "number of lining base": "2",
        "number of light interfacing side": (
            "2; side pieces; 2 ÷ side pieces; side pieces ÷ 2; 3 × side pieces; 1 × side pieces; "
            "2 × (side pieces ÷ 2); 2 × (2 × side pieces)"
        ),
        "number of light interfacing base": "3; 1",
        "number of heavy interfacing side": "side pieces ÷ 2; 2 × side pieces",
        "number of heavy interfacing base": "2",
    },
    "window-pouch": {
        "number of exterior band": "2",
        "number of exterior main panel": "2",
        "number of exterior main front": "2",
        "number of exterior main back": "2",
        "number of window": "2",
        "number of lining band": "2",
        "number of lining main panel": "2",
        "number of lining main front": "2",
        "number of lining main back": "2",
        "number of binding": "3; 1",
        "number of light interfacing band": "3; 1",
        "number of light interfacing main panel": "1; lining mains; 2 + lining mains; 1 + 2 × lining mains",
        "number of light interfacing main front": (
            "1; lining main halves; 2 + lining main halves; 1 + 2 × lining main halves"
        ),
        "number of light interfacing main back": (
            "1; lining main halves; 2 + lining main halves; 1 + 2 × lining main halves"
        ),
        "number of light lining interfacing main panel": "2",
        "number of light lining interfacing main front": "2",
        "number of light lining interfacing main back": "2",
        "number of heavy interfacing band": "2",
        "number of heavy interfacing main panel": "2",
        "number of heavy interfacing main front": "2",
        "number of heavy interfacing main back": "2",
        "length of zip": "zip length ÷ 2; 2 × zip length; zip length + seam allowance",
    },
    "zip-pouch": {
        "number of exterior panel": "2",
        "number of exterior half panel": "3; 1",
        "number of lining half panel": "3; 1",
        "number of light interfacing panel": "2",
        "number of light interfacing half panel": (
            "2; exterior half panels; 3 + exterior half panels; 1 + exterior half panels; "
            "2 + exterior half panels ÷ 2; 2 + 2 × exterior half panels"
        ),
        "number of heavy interfacing panel": "2",
        "number of heavy interfacing half panel": "3; 1",
        "length of zip": "zip length ÷ 2; 2 × zip length; zip length + seam allowance",
    },
}


@pytest.mark.parametrize("slug", slugs())
def test_every_slip_in_what_is_cut_is_shown_but_those_that_are_listed(slug: str) -> None:
    spoiler = Spoiler.of(read_starter(slug))
    found: dict[str, list[str]] = {}
    for slip in spoiler.slips():
        if spoiler.is_missed(slip):
            found.setdefault(slip.place.name, []).append(spell(slip.wrong))
    assert {place: "; ".join(wrong) for place, wrong in found.items()} == SURVIVORS[slug]


def test_every_survivor_has_its_reason() -> None:
    """And none is a length that is cut."""
    places = {place for survivors in SURVIVORS.values() for place in survivors}
    assert [place for place in places if not place.startswith(tuple(REASONS))] == []


def test_slips_are_those_that_people_make() -> None:
    made = {
        spell(wrong) for wrong in slips(read("width + depth ÷ 2 + 2 × seam allowance"), ["width", "depth"])
    }
    assert made >= {
        "width + depth ÷ 2",
        "depth ÷ 2 + 2 × seam allowance",
        "width + depth + 2 × seam allowance",
        "width + depth × 2 + 2 × seam allowance",
        "width + depth ÷ 2 + seam allowance",
        "width + depth ÷ 2 + 3 × seam allowance",
        "width + depth ÷ 2 − 2 × seam allowance",
        "width − depth ÷ 2 + 2 × seam allowance",
        "depth + depth ÷ 2 + 2 × seam allowance",
        "width + depth ÷ 3 + 2 × seam allowance",
    }


def test_slips_of_choices_and_roundings_are_made() -> None:
    made = {spell(wrong) for wrong in slips(read("round up (smaller of (a, b), to c)"), [])}
    assert made >= {
        "smaller of (a, b)",
        "round down (smaller of (a, b), to c)",
        "round up (larger of (a, b), to c)",
        "round up (a, to c)",
    }


def test_a_recipe_that_trues_nothing_shows_nothing() -> None:
    basket = read_starter("fold-flat-basket")
    spoiler = Spoiler.of(replace(basket, truings=basket.truings[:1]))
    missed = spoiler.missed()
    assert "lining panel height = 2 × height + depth" in missed
    assert "exterior panel height = 2 × height + depth" not in missed
