"""A line's pattern in the other unit system: sized again at round measures, and kept beside the first."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from django.db import IntegrityError, transaction

from orders.errors import NoOtherSystemError
from orders.models import Order, OrderLine
from orders.promising import promise
from patterns.cutting.forms import usual
from patterns.cutting.wish import NO_WISH, Wish, from_json
from patterns.cutting.wish import to_json as wish_json
from patterns.documents.words import UNIT_WORDS, Words
from patterns.drafting.nearest import nearest_size
from patterns.drafting.recipe import Measure, Recipe, Scale
from patterns.drafting.rounding import nearest
from patterns.drafting.sized import SizedMeasure, SizedPattern
from patterns.drafting.sized_json import to_json
from patterns.drafting.sizing import given_values, size
from patterns.drafting.units import Units

# How many measures may be moved on to find a size that is not refused.
MOST_MOVED = 2


@dataclass(frozen=True, slots=True)
class Turned:
    """One measure in both systems, in words. change: how much larger or smaller the other one is."""

    name: str
    before: str
    after: str
    change: str


def other_units(units: Units) -> Units:
    (other,) = set(Units) - {units}
    return other


def in_other_system(line: OrderLine) -> SizedPattern:
    """Return the line's revision sized in the other system, at the nearest round measures that work.

    A measure that is at its default, or at what an option sets, takes the other system's own; any other the
    nearest step of the range. Raises NoOtherSystemError: no size near it works.
    """
    recipe, sized = line.revision.recipe, line.sized_pattern
    units = other_units(sized.units)
    measures = _round_measures(recipe, sized, units)
    found = size(recipe, sized.recipe, units, measures, sized.options)
    if found.is_refused:
        mended = nearest_size(recipe, units, measures, sized.options, most_moved=MOST_MOVED)
        if mended is None:
            raise NoOtherSystemError(UNIT_WORDS[units])
        found = size(recipe, sized.recipe, units, mended, sized.options)
    return found


def _round_measures(recipe: Recipe, sized: SizedPattern, units: Units) -> Mapping[str, Fraction]:
    here, there = (given_values(recipe, each, {}, sized.options) for each in (sized.units, units))
    measures = {}
    for measure in recipe.measures:
        value = sized.values[measure.name]
        assert isinstance(value, Fraction)  # measures are given, not worked out
        own = there[measure.name]
        assert isinstance(own, Fraction)
        is_usual = value == here[measure.name]
        measures[measure.name] = own if is_usual else _nearest_step(value, measure, measure.scales[units])
    return measures


def _nearest_step(value: Fraction, measure: Measure, scale: Scale) -> Fraction:
    """The nearest place of the slider; a bare number stays what it is, if the range has it."""
    if measure.power:
        value = scale.least + nearest(value - scale.least, scale.step).value
    return min(max(value, scale.least), scale.most)


def turned(before: SizedPattern, after: SizedPattern) -> tuple[Turned, ...]:
    """Return each measure in both systems, in the recipe's order."""
    return tuple(
        Turned(old.name, Words(before).chosen(old), Words(after).chosen(new), _change(old, new, Words(after)))
        for old, new in zip(before.measures, after.measures, strict=True)
    )


def _change(old: SizedMeasure, new: SizedMeasure, words: Words) -> str:
    difference = new.value - old.value
    if not difference:
        return "the same"
    amount = words.length(abs(difference), old.power)
    if amount.removeprefix("≈ ") == words.length(Fraction(0), old.power):
        return "as good as the same"
    return f"{amount} {'larger' if difference > 0 else 'smaller'}"


def keep_in_other_system(line: OrderLine) -> OrderLine:
    """Keep the line in the other system beside it, at no price, and promise its files; once, whoever asks.

    Raises NoOtherSystemError.
    """
    if line.other is not None:
        return line.other
    sized = in_other_system(line)
    try:
        with transaction.atomic():
            # One at a time for an order: a corrected line may be kept in the same moment.
            Order.objects.select_for_update().get(pk=line.order_id)
            kept = OrderLine.objects.create(
                order=line.order,
                position=line.order.lines.count() + 1,
                revision=line.revision,
                title=sized.title,
                sized=to_json(sized),
                wish=_wish(line, sized.units),
                own_cloth=line.own_cloth,
                quantity=line.quantity,
                price_minor=0,
                currency=line.currency,
                beside=line,
            )
            promise(kept, sized)
    except IntegrityError:
        # The other of a double click has kept it meanwhile.
        return OrderLine.objects.get(beside=line)
    return kept


def _wish(line: OrderLine, units: Units) -> dict[str, object] | None:
    """What was said of the cloth. One that is not usual in the other units leaves the usual ones.

    A price is for a yard or for a metre, and does not come along.
    """
    if line.wish is None:
        return None
    said = from_json(line.wish)
    wish = Wish(
        form=said.form if said.form in usual(units, "fabric") else "",
        width=said.width,
        interfacing=said.interfacing if said.interfacing in usual(units, "interfacing") else "",
        interfacing_width=said.interfacing_width,
        shrinkage=said.shrinkage,
        count=said.count,
        repeat=said.repeat,
        repeat_on=said.repeat_on,
        folded=said.folded,
        edge_to_edge=said.edge_to_edge,
    )
    return None if wish == NO_WISH else wish_json(wish)
