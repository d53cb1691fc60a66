"""What somebody says of the cloth they buy, read from the address of the pattern's own page."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from django import forms
from django.utils.http import urlencode

from patterns.addresses import BUYING_KEYS, in_address, shortened
from patterns.buying_fields import (
    YES,
    FabricField,
    FormField,
    HowManyField,
    PerCentField,
    PriceField,
    RepeatField,
    TickField,
    WidthField,
    form_in_address,
)
from patterns.cutting.choices import MOST_ITEMS
from patterns.cutting.forms import SHOP_STEPS, usual
from patterns.cutting.sheets import Length
from patterns.cutting.shopping_words import per_cent, shop_length
from patterns.cutting.wish import Wish, form_named
from patterns.drafting.lengths import as_chosen, typed
from patterns.drafting.recipe import MaterialKind, Recipe
from patterns.drafting.units import Units
from patterns.money import amount, priced

CLOTH, WIDTH, ROLL, ROLL_WIDTH, SHRINKS, MAKE, PRICE, ROLL_PRICE, REPEAT, REPEAT_ON, FOLDED, EDGES = (
    BUYING_KEYS
)
# What everybody is asked; the rest stays folded away until it is wanted.
FIRST = (CLOTH, MAKE)
WORDS = {
    CLOTH: "cloth",
    WIDTH: "measured width",
    ROLL: "interfacing roll",
    ROLL_WIDTH: "measured roll",
    SHRINKS: "shrinkage",
    MAKE: "number to make",
    PRICE: "price of the cloth",
    ROLL_PRICE: "price of the interfacing",
    REPEAT: "print repeat",
    REPEAT_ON: "fabric with the repeat",
    FOLDED: "folded cloth",
    EDGES: "cuts from edge to edge",
}


class BuyingForm(forms.Form):
    """The cloth that is bought. Nothing said is the usual; what the recipe has no cloth for is not asked.

    given: the texts of an address by `BUYING_KEYS`. currency: of prices; empty where none are asked.
    """

    def __init__(
        self, recipe: Recipe, units: Units, given: Mapping[str, Sequence[str]], currency: str = ""
    ) -> None:
        self.units, self.currency = units, currency
        self.repeated = {key: texts for key, texts in given.items() if len(texts) > 1}
        fields = {**_fields(recipe, units), **_more_fields(recipe, units, currency)}
        super().__init__(
            {key: given[key][-1] if given.get(key) else field.initial for key, field in fields.items()}
        )
        self.fields.update(fields)
        self.full_clean()

    def clean(self) -> None:
        for key, texts in self.repeated.items():
            if key in self.fields and key not in self.errors:
                shown = " and ".join(f"“{shortened(text)}”" for text in texts[:3])
                self.add_error(key, f"It is given {len(texts)} times: {shown}. Write one.")
        name, width = self.cleaned_data.get(CLOTH), self.cleaned_data.get(WIDTH)
        if not name or form_named(self.units, "fabric", name).is_by_length:
            return
        if width:
            self.add_error(
                WIDTH, f"A {name} has a width of its own. Leave this empty, or choose cloth sold by length."
            )
        if self.cleaned_data.get(FOLDED):
            self.add_error(
                FOLDED, f"A {name} is laid open. Take the tick away, or choose cloth sold by length."
            )

    @property
    def boxes(self) -> list[forms.BoundField]:
        return list(self)

    @property
    def first_boxes(self) -> list[forms.BoundField]:
        return [box for box in self if box.name in FIRST]

    @property
    def more_boxes(self) -> list[forms.BoundField]:
        return [box for box in self if box.name not in FIRST]

    @property
    def is_more_open(self) -> bool:
        return any(box.errors or box.value() for box in self.more_boxes)

    @property
    def wanting(self) -> list[str]:
        """What must be mended, in words."""
        return [WORDS[key] for key in self.errors]

    @property
    def wish(self) -> Wish:
        """What was said and could be read. Raises CuttingError: that makes no sense together."""
        read = self.cleaned_data
        return Wish(
            form=read.get(CLOTH, ""),
            width=read.get(WIDTH),
            interfacing=read.get(ROLL, ""),
            interfacing_width=read.get(ROLL_WIDTH),
            shrinkage=read.get(SHRINKS, Fraction(0)),
            count=read.get(MAKE, 1),
            price_minor=read.get(PRICE),
            interfacing_price_minor=read.get(ROLL_PRICE),
            repeat=read.get(REPEAT),
            repeat_on=read.get(REPEAT_ON, "") if read.get(REPEAT) else "",
            folded=read.get(FOLDED, False),
            edge_to_edge=read.get(EDGES, False),
        )

    @property
    def query(self) -> str:
        """The part of an address that brings back what is said; empty where all is usual."""
        wish, pairs = self.wish, {}
        for key, name in ((CLOTH, wish.form), (ROLL, wish.interfacing)):
            if name:
                pairs[key] = form_in_address(name)
        for key, width in ((WIDTH, wish.width), (ROLL_WIDTH, wish.interfacing_width), (REPEAT, wish.repeat)):
            if width is not None:
                pairs[key] = typed(Fraction(width), 1, self.units)
        if wish.shrinkage:
            pairs[SHRINKS] = typed(wish.shrinkage, 0, self.units)
        if wish.count != 1:
            pairs[MAKE] = str(wish.count)
        for key, minor in ((PRICE, wish.price_minor), (ROLL_PRICE, wish.interfacing_price_minor)):
            if minor is not None:
                pairs[key] = amount(minor, self.currency)
        if wish.repeat_on:
            pairs[REPEAT_ON] = in_address(wish.repeat_on)
        return urlencode({**pairs, **self._ticked})

    @property
    def other_units_query(self) -> str:
        """What of it holds in the other unit system too."""
        kept = {SHRINKS: typed(self.wish.shrinkage, 0, self.units)} if self.wish.shrinkage else {}
        made = {MAKE: str(self.wish.count)} if self.wish.count != 1 else {}
        return urlencode({**kept, **made, **self._ticked})

    @property
    def _ticked(self) -> dict[str, str]:
        ticks = {FOLDED: self.wish.folded, EDGES: self.wish.edge_to_edge}
        return {key: YES for key, is_ticked in ticks.items() if is_ticked}

    @property
    def words(self) -> str:
        """What is not the usual: `fat quarter; interfacing 45 in wide; 3 to make`. Empty where all is."""
        wish = self.wish
        width, roll = self._wide(wish.width), self._wide(wish.interfacing_width)
        parts = [
            f"cloth {width}" if width else wish.form,
            f"interfacing {roll or wish.interfacing}" if roll or wish.interfacing else "",
            f"the cloth shrinks {per_cent(wish.shrinkage)}" if wish.shrinkage else "",
            *self._more_words(wish),
            f"{wish.count} to make" if wish.count > 1 else "",
        ]
        return "; ".join(part for part in parts if part)

    def _more_words(self, wish: Wish) -> Iterator[str]:
        is_by_length = not wish.form or form_named(self.units, "fabric", wish.form).is_by_length
        if wish.repeat is not None:
            repeat = as_chosen(Fraction(wish.repeat), 1, self.units)
            yield f"print repeat {repeat}{f' on the {wish.repeat_on}' if wish.repeat_on else ''}"
        if wish.folded:
            yield "folded along its length"
        if wish.edge_to_edge:
            yield "cut from edge to edge"
        if wish.price_minor is not None:
            each = _length_word(self.units) if is_by_length else "piece"
            yield f"cloth at {priced(wish.price_minor, self.currency)} a {each}"
        if wish.interfacing_price_minor is not None:
            price = priced(wish.interfacing_price_minor, self.currency)
            yield f"interfacing at {price} a {_length_word(self.units)}"

    def _wide(self, width: Length | None) -> str:
        return "" if width is None else f"{as_chosen(Fraction(width), 1, self.units)} wide"


def _fields(recipe: Recipe, units: Units) -> dict[str, forms.Field]:
    kinds = {material.kind for material in recipe.materials}
    step = shop_length(SHOP_STEPS[units][0], units)
    found: dict[str, forms.Field] = {}
    if "fabric" in kinds:
        found[CLOTH] = FormField(
            "fabric",
            units,
            "Cloth",
            f"Cloth sold by length is bought in steps of {step}.",
            _usual_words(units, "fabric"),
        )
        found[WIDTH] = WidthField(
            units, "Or the width you measured", "Between the selvedges; all of it is used."
        )
    if "interfacing" in kinds:
        says = "How wide the roll is that yours is cut from."
        found[ROLL] = FormField(
            "interfacing", units, "Interfacing roll", says, _usual_words(units, "interfacing")
        )
        found[ROLL_WIDTH] = WidthField(units, "Or the roll you measured", "From edge to edge.")
    if "fabric" in kinds:
        says = "In its first wash, both ways; empty for none."
        found[SHRINKS] = PerCentField("The cloth shrinks", says)
    says = f"All of this size, laid together. Up to {MOST_ITEMS}; empty\u00a0for\u00a01."
    found[MAKE] = HowManyField("How many to make", says)
    return found


def _usual_words(units: Units, kind: MaterialKind) -> str:
    first = next(iter(usual(units, kind).values()))
    return f"Usual: {first.name}, or wider"


def _more_fields(recipe: Recipe, units: Units, currency: str) -> dict[str, forms.Field]:
    fabrics = tuple(material.name for material in recipe.materials if material.kind == "fabric")
    has_roll = any(material.kind == "interfacing" for material in recipe.materials)
    found: dict[str, forms.Field] = {}
    if fabrics and currency:
        says = f"For one {_length_word(units)}, or for one piece where pieces are chosen."
        found[PRICE] = PriceField(currency, "Price of the cloth", says)
    if has_roll and currency:
        found[ROLL_PRICE] = PriceField(
            currency, "Price of the interfacing", f"For one {_length_word(units)} of the roll."
        )
    if fabrics:
        says = "Along the cloth, until the print comes again: all pieces then begin at the same place in it."
        found[REPEAT] = RepeatField(units, "Print repeat", says)
    if len(fabrics) > 1:
        found[REPEAT_ON] = FabricField(fabrics, "The repeat is on", "Only where there is one.")
    if fabrics:
        found[FOLDED] = TickField(
            "Lay the cloth folded", "Along its length, selvedge on selvedge: pairs are cut two at once."
        )
        found[EDGES] = TickField(
            "Cut from edge to edge",
            "With a rotary cutter: each cut goes right through. On open cloth the drawing numbers them.",
        )
    return found


def _length_word(units: Units) -> str:
    return "yard" if units is Units.INCHES else "metre"
