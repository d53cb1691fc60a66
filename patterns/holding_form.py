"""By what goes in: a thing's three measures, how many, how loose, and whether it may be turned."""

from fractions import Fraction
from typing import cast

from django import forms

from patterns.addresses import THING_KEYS, shortened
from patterns.drafting.holding import MOST_THINGS
from patterns.drafting.known_things import KNOWN_THINGS, KnownThing
from patterns.drafting.lengths import as_chosen, typed
from patterns.drafting.lists import listed
from patterns.drafting.recipe import Role
from patterns.drafting.things import Solid, Things, Turning
from patterns.drafting.units import Units
from patterns.fields import Choice, Preset
from patterns.forms import MeasureForm
from patterns.typed_numbers import is_empty, typed_count, typed_length

WIDTH, HEIGHT, DEPTH, COUNT, LOOSE, TURN = THING_KEYS
# Until all of these are written nothing has been asked, unless somebody pressed the button.
ASKED = (WIDTH, HEIGHT, DEPTH)
TURNINGS = (
    Choice("upright", "Stand upright", "It may be turned round, but not laid over."),
    Choice("any", "Stand or lie", "It may be turned on every side."),
    Choice("none", "Stay as measured", "Its width stays across the front."),
)


class ThingLengthField(forms.Field):
    """A box that takes a length as a person writes it, and gives mm, exact. may_be_nothing: 0, or empty."""

    def __init__(self, label: str, says: str, units: Units, may_be_nothing: bool = False) -> None:
        self.says, self.units, self.may_be_nothing = says, units, may_be_nothing
        super().__init__(label=label, required=False)

    def to_python(self, text: str | None) -> Fraction:
        if self.may_be_nothing and is_empty(text):
            return Fraction(0)
        length = typed_length(text, self.units)
        if not length and not self.may_be_nothing:
            raise forms.ValidationError("A thing of 0 takes no room. Write a length above 0.")
        return length


class CountField(forms.Field):
    """A box that takes a whole number of things."""

    units = ""
    says = f"Equal things, up to {MOST_THINGS:,}."

    def to_python(self, text: str | None) -> int:
        return typed_count(text, MOST_THINGS, "is not a number of things")


class TurnField(forms.Field):
    """Radio buttons: how things may be turned."""

    choices = TURNINGS

    def to_python(self, text: str | None) -> Turning:
        if text not in {choice.key for choice in TURNINGS}:
            names = listed([choice.name for choice in TURNINGS], "or")
            raise forms.ValidationError(
                f"“{shortened(text or '')}” is not one of the choices. Choose {names}."
            )
        return cast(Turning, text)


class HoldingForm(forms.Form):
    """What goes in, read from the address of a page, with the units and options that it counts with.

    settings: the measures and options of the same address.
    is_asked: whether a whole question was written, or looked for; until then nothing is a mistake.
    has_size: whether its size can be read, so that it can be said what that one holds.
    """

    def __init__(self, settings: MeasureForm) -> None:
        recipe, query = settings.recipe, settings.searched
        self.recipe, self.settings, self.units = recipe, settings, settings.units
        sizes = {measure.name for measure in recipe.measures if measure.role == "size"}
        self.has_size = sizes <= self.settings.measures.keys()
        self.repeated = {key: texts for key in THING_KEYS if len(texts := query.get(key, [])) > 1}
        given = {key: query[key][-1] for key in THING_KEYS if key in query}
        self.is_asked = settings.looks_for_size or all(given.get(key, "").strip() for key in ASKED)
        usual = {COUNT: "1", TURN: "upright"} | given
        super().__init__(usual if self.is_asked else None, initial=usual)
        self.fields.update(
            {
                WIDTH: ThingLengthField("Width of one", "Across the front.", self.units),
                HEIGHT: ThingLengthField("Height of one", "As it stands.", self.units),
                DEPTH: ThingLengthField(
                    "Depth of one", "How thick. Of thin ones measure ten together, and divide.", self.units
                ),
                COUNT: CountField(label="How many"),
                LOOSE: ThingLengthField(
                    "How loose", "Left over in each direction; empty for nothing.", self.units, True
                ),
                TURN: TurnField(label="Each one may", required=False),
            }
        )

    def clean(self) -> None:
        for key, texts in self.repeated.items():
            if key not in self.errors:
                shown = " and ".join(f"“{shortened(text)}”" for text in texts[:3])
                self.add_error(key, f"It is given {len(texts)} times: {shown}. Write one.")

    @property
    def measure_fields(self) -> list[forms.BoundField]:
        return [self[key] for key in (WIDTH, HEIGHT, DEPTH, COUNT, LOOSE)]

    @property
    def option_fields(self) -> list[forms.BoundField]:
        return [self[TURN]]

    @property
    def things(self) -> Things:
        cleaned = self.cleaned_data
        return Things(Solid(cleaned[WIDTH], cleaned[HEIGHT], cleaned[DEPTH]), cleaned[LOOSE], cleaned[TURN])

    @property
    def count(self) -> int:
        return int(self.cleaned_data[COUNT])

    @property
    def options(self) -> dict[str, str]:
        return self.settings.options

    @property
    def making(self) -> dict[str, Fraction]:
        """The sewer's own measures, which stay as they are."""
        return self._measures("making")

    @property
    def size(self) -> dict[str, Fraction]:
        """The size of the pattern that the address has, if it can be read."""
        return self._measures("size") if self.has_size else {}

    def _measures(self, role: Role) -> dict[str, Fraction]:
        wanted = {measure.name for measure in self.recipe.measures if measure.role == role}
        return {name: value for name, value in self.settings.measures.items() if name in wanted}

    @property
    def counted_with(self) -> str:
        """What stays as it is: `interfacing light, seam allowance 1 cm`."""
        options = [f"{name} {choice}" for name, choice in self.options.items()]
        making = [
            f"{name} {as_chosen(value, self.recipe.measure(name).power, self.units)}"
            for name, value in self.making.items()
        ]
        return ", ".join([*options, *making])

    @property
    def presets(self) -> list[Preset]:
        return [self._preset(thing) for thing in KNOWN_THINGS]

    def _preset(self, thing: KnownThing) -> Preset:
        """In mm, which both units read exactly. A thickness that nobody lays down is left to measure."""
        sides = {WIDTH: thing.width, HEIGHT: thing.height}
        sides |= {DEPTH: thing.depth} if thing.depth else {}
        boxes = {DEPTH: "", **{key: f"{_in_mm(side)} mm" for key, side in sides.items()}}
        words = f"{' × '.join(map(_in_mm, sides.values()))} mm, {thing.source}"
        return Preset(thing.name, words, self.settings.page_query(typed=boxes), boxes)

    @property
    def sources(self) -> str:
        return listed(list(dict.fromkeys(thing.source for thing in KNOWN_THINGS)), "and")


def _in_mm(length: Fraction) -> str:
    return typed(10 * length, 1, Units.CENTIMETRES)
