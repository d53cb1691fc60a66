"""An open bag with a boxed base, its two handles standing up."""

from dataclasses import replace
from fractions import Fraction

from .open_basket import VIEW, open_basket
from .packable_tote import Handles, handle
from .standing import Standing


def boxed_tote(width: Fraction, height: Fraction, depth: Fraction, handles: Handles) -> Standing:
    """Return the bag, standing width × depth on the table, its handles up. All in mm, above 0.

    Raises DrawingError: the handles hardly reach across.
    """
    bag = open_basket(width, height, depth, is_pleated=False)
    back, front = VIEW.point(width / 2, height, depth), VIEW.point(width / 2, height)
    shapes = (*handle(handles, back), *bag.shapes, *handle(handles, front))
    return replace(bag, shapes=shapes, seen_as=f"{bag.seen_as} and both handles up")
