from fractions import Fraction

import pytest
from django.http import QueryDict

from patterns.addresses import size_query
from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.forms import MeasureForm
from patterns.starters import read_starter, slugs

from .conftest import SHELF_TEXT

IN, CM = Units.INCHES, Units.CENTIMETRES
RECIPE = read_recipe(SHELF_TEXT)
RANGE = " It may be 3 to 20 in."


def form_of(query: str = "", units: Units = IN, recipe=RECIPE) -> MeasureForm:
    return MeasureForm(recipe, QueryDict(query), units)


def test_nothing_given_is_the_default_size():
    form = form_of()
    assert form.is_valid()
    assert form.measures == {
        "width": 9 * IN.mm,
        "height": 6 * IN.mm,
        "depth": 5 * IN.mm,
        "seam allowance": IN.mm / 2,
        "handles": Fraction(2),
    }
    assert form.options == {"tape": "narrow"}
    assert form["width"].value() == "9"


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("8 1/2", Fraction(17, 2) * IN.mm),
        ("8½", Fraction(17, 2) * IN.mm),
        ("8.5", Fraction(17, 2) * IN.mm),
        ("8,5", Fraction(17, 2) * IN.mm),
        ('8 1/2"', Fraction(17, 2) * IN.mm),
        ("21 cm", Fraction(210)),
        ("210 mm", Fraction(210)),
    ],
)
def test_length_as_people_write_it(typed, mm):
    form = form_of(f"width={typed}")
    assert form.measures["width"] == mm
    assert type(form.measures["width"]) is Fraction
    assert form["width"].value() == typed


@pytest.mark.usefixtures("no_floats")
def test_no_float_on_the_way():
    assert form_of("width=8 1/3&height=19,5 cm").measures["width"] == Fraction(25, 3) * IN.mm


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ("seven", "“seven” is not a length. Write it like 7, 7.5, 7½ or 7 1/2." + RANGE),
        ("", "There is no length here. Write one, like 7 1/2." + RANGE),
        ("1/0", "“1/0” divides by 0. Write another number under the stroke." + RANGE),
        ("9e9", "“9e9” is not a length. Write the number out." + RANGE),
        (
            "-3",
            "“-3” is not a length. A size is never less than nothing. Write it without the minus." + RANGE,
        ),
        (
            "7 " * 200,
            "399 characters are too long for a length. Write one, like 7 1/2. It may be 3 to 20 in.",
        ),
        ("0", "0 in is less than this pattern is made for." + RANGE),
        ("2 7/8", "2 7⁄8 in is less than this pattern is made for." + RANGE),
        ("20.01", "20 1⁄100 in is more than this pattern is made for." + RANGE),
    ],
)
def test_bad_length_is_answered_at_its_field(typed, message):
    form = form_of(f"width={typed}&height=7")
    assert form.errors == {"width": [message]}
    assert form["width"].value() == typed
    assert form.measures["height"] == 7 * IN.mm
    assert form.wanting_words == "Mend the width first."


def test_out_of_range_offers_the_end_of_the_range():
    form = form_of("width=25&height=7")
    mend = form.asked["width"].mend
    assert (mend.words, mend.typed) == ("20 in", {"width": "20"})
    assert form_of(mend.query).measures == form_of("width=20&height=7").measures


def test_bare_number_takes_no_unit():
    assert "has a unit" in form_of("handles=2 in").errors["handles"][0]


def test_bad_choice_is_answered_at_its_option():
    assert form_of("tape=wide").errors == {
        "tape": ["“wide” is not one of the choices. Choose narrow or extra wide."]
    }


@pytest.mark.parametrize("text", ["extra-wide", "extra wide", "Extra-Wide"])
def test_choice_in_an_address(text):
    assert form_of(f"tape={text}").options == {"tape": "extra wide"}


def test_empty_box_is_what_an_option_sets():
    form = form_of("tape=extra-wide&tape-width=")
    assert "tape width" not in form.measures
    assert form.asked["tape-width"].set_words == "Leave it empty for 1 1⁄2 in, which goes with the tape."
    sized = size(RECIPE, "shelf-box", IN, form.measures, form.options)
    assert sized.values["tape width"] == Fraction(3, 2) * IN.mm


def test_own_number_goes_before_what_an_option_sets():
    assert form_of("tape=extra-wide&tape-width=1 3/8").measures["tape width"] == Fraction(11, 8) * IN.mm


def test_repeated_key_is_answered_at_its_field():
    form = form_of("width=8&width=9")
    assert form.errors == {"width": ["It is given 2 times: “8” and “9”. Write one."]}
    assert form["width"].value() == "9"


def test_field_of_another_pattern_is_left_out_and_said():
    form = form_of("diameter=4&width=8")
    assert form.is_valid()
    assert form.notes == ["this pattern has no measure or option “diameter”."]


def test_many_strangers_are_answered_in_short():
    form = form_of("&".join(f"{'x' * 60}{number}=1" for number in range(50)))
    assert len(form.notes) == 5
    assert all(len(note) < 100 for note in form.notes)


def test_unknown_units_are_said_and_the_usual_ones_shown():
    form = form_of("units=ft", CM)
    assert (form.units, form.notes) == (CM, ["the units “ft” are not in or cm, so this is in centimetres."])


def test_units_of_the_address_have_their_own_defaults():
    form = form_of("units=cm")
    assert form.measures["width"] == 230
    assert form["seam-allowance"].value() == "1"


def test_other_units_start_from_their_own_size_and_keep_the_options():
    switch = form_of("width=8 1/2&tape=extra-wide").switch
    assert (switch.now, switch.other, switch.default) == ("inches", "centimetres", "23 × 15 × 12 cm")
    assert switch.query == "units=cm&tape=extra-wide"


def test_starting_sizes():
    (tins,) = form_of("seam-allowance=3/8").starting_sizes
    assert (tins.name, tins.words) == ("For tins", "8 × 5 × 4 in")
    assert tins.typed == {"width": "8", "height": "5", "depth": "4"}
    assert form_of(tins.query).measures["seam allowance"] == Fraction(3, 8) * IN.mm


def test_a_length_that_is_no_side_is_named_in_a_row():
    tote = form_of(recipe=read_starter("packable-tote"))
    assert tote.starting_sizes[0].words == "9 × 10 × 4 in, handle length 22 in"
    assert tote.switch.default == "33 × 35 × 12 cm, handle length 60 cm"


@pytest.mark.parametrize("slug", slugs())
@pytest.mark.parametrize("units", list(Units))
def test_address_brings_the_size_back(slug, units):
    recipe = read_starter(slug)
    for end in ("least", "most", "default", "step"):
        measures = {
            each.name: min(
                max(getattr(each.scales[units], end) * Fraction(9, 8), each.scales[units].least),
                each.scales[units].most,
            )
            for each in recipe.measures
        }
        options = {option.name: option.choices[-1].name for option in recipe.options}
        again = form_of(size_query(recipe, units, measures, options), recipe=recipe)
        assert (again.units, again.measures, again.options) == (units, measures, options)
