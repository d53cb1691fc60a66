"""Numbers on a page: in the customer's units, fractions set as fractions, no number parted from its unit."""

import re

from django import template
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

from patterns.documents.typeset import NUMBER, sentence
from patterns.drafting.lengths import as_chosen, written
from patterns.drafting.sized import Quantity, SizedMeasure, SizedText
from patterns.drafting.units import Units

register = template.Library()
# A whole number with its fraction.
_MIXED = re.compile(r"[0-9]+ [0-9]+⁄[0-9]+")
register.filter("sentence", sentence)


@register.filter
def with_numbers(text: str) -> SafeString:
    """Set the numbers of a text that is written already: `8 1⁄2 + 2 × 1⁄2`, but not `size 90/14`."""
    held = NUMBER.sub(r'<span class="n">\g<0></span>', escape(text))
    held = _MIXED.sub(r'<span class="mixed">\g<0></span>', held)
    return mark_safe(held)  # noqa: S308 - escaped in the line before


@register.filter
def as_quantity(quantity: Quantity, units: Units) -> SafeString:
    """Write a number of any kind; a dash where it has no value."""
    return with_numbers(quantity_text(quantity, units))


@register.filter
def as_measure(measure: SizedMeasure, units: Units) -> SafeString:
    """Write a measure just as it was chosen, exact."""
    return with_numbers(as_chosen(measure.value, measure.power, units))


@register.filter
def as_words(text: SizedText, units: Units) -> SafeString:
    """Write words with numbers among them."""
    return with_numbers(plain_words(text, units))


def plain_words(text: SizedText, units: Units) -> str:
    """Return words with numbers among them as plain text, fractions by U+2044."""
    return "".join(part if isinstance(part, str) else quantity_text(part, units) for part in text)


def quantity_text(quantity: Quantity, units: Units) -> str:
    if quantity.value is None:
        return "–"
    return written(quantity.value, quantity.power, units).text
