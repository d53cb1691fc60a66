"""The shopping list that stands in a book: of the cloth that was wished for, the same for the same order."""

from dataclasses import replace

from patterns.drafting.sized import SizedMaterial, SizedPattern

from .choices import Making
from .errors import CuttingError
from .listing import Line, ShoppingList
from .shopping import line_for
from .wish import NO_WISH, Wish, choices_of

# For each material, in units of `Effort`: about a second. It is spent once for an order, whose book takes
# longer to draw, and often not all of it. No clock ends it, so that the same order has the same layouts.
BOOK_WORK = 1_000_000
TOO_SMALL = "The cloth that was chosen is too small for these pieces."


def book_list(sized: SizedPattern, wish: Wish = NO_WISH) -> ShoppingList:
    """Return what to buy for a size that is not refused, in the forms of cloth wished for.

    Where its pieces do not lie on those, a material has its usual ones. One whose pieces are too large for
    any cloth that is usually sold has no line: what is certainly enough of it is known without a layout.
    """
    lines = (_line(material, sized, wish) for material in sized.materials)
    return ShoppingList(sized.units, wish.count, tuple(line for line in lines if line is not None))


def _line(material: SizedMaterial, sized: SizedPattern, wish: Wish) -> Line | None:
    usual = replace(
        wish,
        form="",
        width=None,
        interfacing="",
        interfacing_width=None,
        price_minor=None,
        interfacing_price_minor=None,
    )
    try:
        return _found(material, sized, wish)
    except CuttingError:
        return None if usual == wish else _usual(material, sized, usual)


def _usual(material: SizedMaterial, sized: SizedPattern, wish: Wish) -> Line | None:
    try:
        line = _found(material, sized, wish)
    except CuttingError:
        return None
    return line if line is None or line.cloth is None else replace(line, reason=f"{TOO_SMALL} {line.reason}")


def _found(material: SizedMaterial, sized: SizedPattern, wish: Wish) -> Line | None:
    return line_for(material, Making(sized, wish.count), choices_of(wish, sized, work=BOOK_WORK))
