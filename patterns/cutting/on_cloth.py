"""The pieces of one material on cloth in one form: how much of it is bought, and where each piece lies."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil

from patterns.drafting.lengths import as_chosen, typed, typeset
from patterns.drafting.units import Units

from .answers import Cut
from .effort import Effort
from .errors import CuttingError
from .fewest import fewest
from .folding import laid
from .forms import ClothForm
from .on_length import Way
from .repeats import as_cut, in_whole_repeats, let_down
from .sheets import MOST_SHEETS, Layout, Length, Rectangle, Sheet


@dataclass(frozen=True, slots=True)
class ClothPiece:
    """A piece to cut, by its name. Its sides are as they are laid, in whole cutting steps.

    size: in the words of the cutting list; empty for as it is laid. What is kept of an order has its reasons
    in words already, and not this.
    """

    name: str
    rectangle: Rectangle
    size: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True)
class OnCloth:
    """What is bought of one material in one form.

    buy: mm along the cloth before it is washed, in the shop's step; of whole pieces, how many. least: less
    than that is never enough with this way of laying. width: usable and washed, mm; in the layout x runs from
    its left edge. length: of the washed cloth that is used; None of whole pieces. folded: how much of it lies
    double, None where none is. opened: the pieces that are cut from the cloth opened out beyond. spare: those
    that are cut double though one was wanted.
    """

    form: ClothForm
    way: Way
    pieces: tuple[ClothPiece, ...]
    buy: Fraction
    least: Fraction
    width: Fraction
    length: Fraction | None
    layout: Layout
    cuts: tuple[Cut, ...] = ()
    folded: Fraction | None = None
    opened: tuple[int, ...] = ()
    spare: tuple[int, ...] = ()

    @property
    def proved(self) -> bool:
        return self.buy == self.least

    @property
    def area(self) -> Fraction:
        """What is bought, edges and all, mm²."""
        return self.buy * Fraction(self.form.width) * (1 if self.form.height is None else self.form.height)


def on_cloth(
    pieces: Sequence[ClothPiece], form: ClothForm, way: Way, effort: Effort, units: Units
) -> OnCloth:
    """Return the least found of that form for the pieces.

    Whole pieces of cloth are laid open, never double.
    Raises CuttingError: nothing to cut, a piece that fits no way, more whole pieces than there are.
    """
    if not pieces:
        raise CuttingError("There is nothing to cut. Add a piece.")
    width = way.shrinkage.washed_width(form.usable_width)
    height = None if form.height is None else way.shrinkage.washed_length(form.height)
    lying = way.lying([piece.rectangle for piece in pieces])
    for piece, rectangle in zip(pieces, lying, strict=True):
        _fits(piece.name, rectangle, width, height, form, units)
    if height is None:
        return _by_length(pieces, form, way, width, effort)
    return _by_the_piece(pieces, form, way, Sheet(width, height), effort)


def _fits(
    name: str, piece: Rectangle, width: Fraction, height: Fraction | None, form: ClothForm, units: Units
) -> None:
    if any(across <= width and (height is None or along <= height) for across, along in piece.sides):
        return
    room = as_chosen(width, 1, units)
    room = f"the {room} of its width" if height is None else sides_in_words(width, height, units)
    turned = "" if piece.turns else ", and it may not be turned"
    raise CuttingError(
        f"{name}: {sides_in_words(piece.width, piece.height, units)} does not fit on {form.name} cloth, "
        f"of which {room} can be used{turned}. Choose a larger form of cloth."
    )


def sides_in_words(width: Length, height: Length, units: Units) -> str:
    """`13 × 16 in`"""
    return f"{typeset(typed(Fraction(width), 1, units))} × {as_chosen(Fraction(height), 1, units)}"


def _by_length(
    pieces: Sequence[ClothPiece], form: ClothForm, way: Way, width: Fraction, effort: Effort
) -> OnCloth:
    # A step of the shop, washed, is a step of the washed cloth: both round to the same number of them.
    step = None if form.step is None else way.shrinkage.washed_length(form.step)
    found = laid([piece.rectangle for piece in pieces], width, way, effort, step)
    return OnCloth(
        form,
        way,
        tuple(pieces),
        _bought(found.length, form, way),
        _bought(found.bound, form, way),
        width,
        found.length,
        found.layout,
        found.cuts,
        found.folded,
        found.opened,
        found.spare,
    )


def _bought(washed: Fraction, form: ClothForm, way: Way) -> Fraction:
    length = way.shrinkage.bought_length(washed)
    return length if form.step is None else in_steps(length, form.step)


def in_steps(length: Length, step: Length) -> Fraction:
    """Return a length rounded up to whole steps of the shop, exact.

    >>> in_steps(Fraction(32, 10), Fraction(1, 2))
    Fraction(7, 2)
    """
    if step <= 0:
        raise CuttingError("The step that the shop cuts in is nothing. Write a measure above 0.")
    return -(-Fraction(length) // Fraction(step)) * Fraction(step)


def _by_the_piece(
    pieces: Sequence[ClothPiece], form: ClothForm, way: Way, sheet: Sheet, effort: Effort
) -> OnCloth:
    number = min(form.at_most or len(pieces), MOST_SHEETS)
    lying = way.lying([piece.rectangle for piece in pieces])
    repeat = way.washed_repeat
    if repeat is None:
        found = fewest(lying, [sheet] * number, effort, way.edge_to_edge)
        layout, least, cuts = found.layout, found.bound, found.cuts
    else:
        whole = Sheet(sheet.width, Fraction(sheet.height) // repeat * repeat)
        if any(each.height > whole.height for each in in_whole_repeats(lying, repeat)):
            raise CuttingError(
                f"A piece is higher than the whole repeats on one {form.name}. Choose cloth sold by length."
            )
        found = fewest(in_whole_repeats(lying, repeat), [whole] * number, effort, way.edge_to_edge)
        # That a piece may end within a repeat is not counted here, so only the area proves anything.
        area = sum((Fraction(each.certain_area) for each in lying), Fraction(0))
        least, cuts = max(1, ceil(area / (Fraction(sheet.width) * sheet.height))), ()
        layout = as_cut(let_down(found.layout), lying)
    return OnCloth(
        form,
        way,
        tuple(pieces),
        Fraction(found.sheets_used),
        Fraction(least),
        Fraction(sheet.width),
        None,
        layout,
        cuts,
    )
