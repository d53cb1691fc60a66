"""The shopping list of one or several patterns made to size: how much of everything to buy, and why."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from patterns.drafting.formulas.values import Measured
from patterns.drafting.lengths import as_chosen, sides_words, written
from patterns.drafting.lists import listed
from patterns.drafting.recipe import MaterialKind
from patterns.drafting.sized import Quantity, SizedMaterial, SizedPattern, SizedPiece, SizedText

from .bias import bias_square
from .certain import certain_area
from .choices import Choices, ClothChoice, Making, Offered
from .enough import rounded_up
from .errors import CuttingError
from .forms import SHOP_STEPS, by_length
from .inside import inside
from .listing import Line, ShoppingList
from .notions import ZIP_LENGTHS, next_zip, stitched_length, thread
from .on_cloth import ClothPiece, OnCloth, in_steps, on_cloth
from .sheets import Rectangle
from .shopping_words import (
    cloth_amount,
    cloth_reason,
    shop_length,
    thread_amount,
    thread_reason,
)

# More pieces of one material than this are not laid together.
MOST_LAID = 1_000
CLOTH: tuple[MaterialKind, ...] = ("fabric", "vinyl", "interfacing")
_ORDER: tuple[MaterialKind, ...] = (*CLOTH, "zip", "notion", "tool")


def shopping_list(made: SizedPattern | Sequence[Making], choices: Choices | None = None) -> ShoppingList:
    """Return what to buy for one pattern, or for several laid together.

    Materials of one name and kind are one. Pieces are laid as large as they are cut: in whole cutting steps,
    rounded up. The same question has the same answer unless `choices.watch` ended a search.
    Raises CuttingError: nothing to make, two unit systems, a size that is refused, a name that no pattern
    has, a piece that fits on none of the forms.
    """
    makings = [Making(made)] if isinstance(made, SizedPattern) else list(made)
    choices = choices or Choices()
    _check(makings, choices)
    shop = _Shop(makings, choices)
    return ShoppingList(shop.units, sum(making.count for making in makings), tuple(shop.lines()))


def line_for(material: SizedMaterial, making: Making, choices: Choices) -> Line | None:
    """Return the line of one material; None of cloth that no piece is cut from. Raises as `shopping_list`."""
    _check([making], choices)
    return _Shop([making], choices).line(material)


def _check(makings: Sequence[Making], choices: Choices) -> None:
    if not makings:
        raise CuttingError("There is nothing to make. Choose a pattern.")
    if len({making.sized.units for making in makings}) > 1:
        raise CuttingError("These sizes are in inches and in centimetres. Choose one for all of them.")
    for making in makings:
        if making.sized.is_refused:
            raise CuttingError(
                f"{making.sized.title}: this size is refused. Choose one that passes its checks."
            )
    known = {material.name for making in makings for material in making.sized.materials}
    for name in (*choices.cloth, *choices.prices):
        if name not in known:
            raise CuttingError(f"No material is called “{name}”. There are {listed(sorted(known), 'and')}.")


class _Shop:
    """Goes through the materials of all that is made."""

    def __init__(self, makings: Sequence[Making], choices: Choices) -> None:
        self.makings = makings
        self.choices = choices
        self.units = makings[0].sized.units
        self.step = SHOP_STEPS[self.units][0]

    def lines(self) -> Iterator[Line]:
        found = {(each.name, each.kind): each for making in self.makings for each in making.sized.materials}
        for kind in _ORDER:
            for material in found.values():
                if material.kind == kind:
                    line = self.line(material)
                    if line is not None:
                        yield line

    def line(self, material: SizedMaterial) -> Line | None:
        """Nothing is bought of cloth that no piece is cut from."""
        if material.kind in CLOTH and material.amount is None:
            pieces = self._pieces(material)
            return self._cloth(material, pieces) if pieces else None
        if material.kind == "zip" and material.amount is not None:
            return self._zips(material)
        if material.amount is not None:
            return self._by_length(material)
        if material.kind == "notion" and material.name.split()[-1] == "thread":
            return self._thread(material)
        return Line(material.name, material.kind, self._says(material))

    def _of(self, material: SizedMaterial) -> Iterator[tuple[Making, SizedMaterial]]:
        for making in self.makings:
            own = making.sized.materials_by_name.get(material.name)
            if own is not None and own.kind == material.kind:
                yield making, own

    def _says(self, material: SizedMaterial) -> str:
        return " ".join(dict.fromkeys(self._text(own.says) for _, own in self._of(material)))

    def _text(self, parts: SizedText) -> str:
        return "".join(
            part if isinstance(part, str) else written(_value(part), part.power, self.units).text
            for part in parts
        )

    def _pieces(self, material: SizedMaterial) -> list[ClothPiece]:
        copies = [
            (making.count * piece.cut, piece)
            for making, _ in self._of(material)
            for piece in making.sized.pieces
            if piece.material == material.name and piece.cut
        ]
        choice = self.choices.cloth.get(material.name, ClothChoice())
        strangers = choice.bias - {piece.name for _, piece in copies}
        if strangers:
            raise CuttingError(f"{material.name}: no piece is called “{min(strangers)}”. Leave it out.")
        pieces = [
            (count, ClothPiece(piece.name, self._rectangle(piece), self._size(piece)))
            for count, piece in copies
            if piece.name not in choice.bias
        ]
        pieces += self._bias([(count, piece) for count, piece in copies if piece.name in choice.bias])
        number = sum(count for count, _ in pieces)
        if number > MOST_LAID:
            raise CuttingError(
                f"{material.name}: {number} pieces are more than the {MOST_LAID} that are laid together. "
                "Make fewer at once."
            )
        return [piece for count, piece in pieces for _ in range(count)]

    def _rectangle(self, piece: SizedPiece) -> Rectangle:
        width, height = (
            rounded_up(_value(side), self.units.cutting_step) for side in (piece.width, piece.height)
        )
        if width <= 0 or height <= 0:
            raise CuttingError(f"{piece.name}: a side is nothing at this size. Choose a larger one.")
        if not piece.outline:
            return Rectangle(width, height, piece.turns)
        area = certain_area(piece.corners, 1)
        parts = inside(piece.corners, self.units.cutting_step)
        return Rectangle(width, height, piece.turns, is_full=False, area=area, parts=parts)

    def _size(self, piece: SizedPiece) -> str:
        return sides_words(_value(piece.width), _value(piece.height), self.units)

    def _bias(self, copies: Sequence[tuple[int, SizedPiece]]) -> Iterator[tuple[int, ClothPiece]]:
        """Strips of one width come out of one square."""
        lengths: dict[Fraction, Fraction] = {}
        for count, piece in copies:
            rectangle = self._rectangle(piece)
            width, length = sorted((Fraction(rectangle.width), Fraction(rectangle.height)))
            lengths[width] = lengths.get(width, Fraction(0)) + count * length
        for width, length in lengths.items():
            side = bias_square(length, width, self.units.mm)
            name = f"square for {as_chosen(length, 1, self.units)} of bias strip"
            yield 1, ClothPiece(name, Rectangle(side, side))

    def _cloth(self, material: SizedMaterial, pieces: Sequence[ClothPiece]) -> Line:
        choice = self.choices.cloth.get(material.name, ClothChoice())
        usual = tuple(Offered(form) for form in by_length(self.units, material.kind))
        offered, cloth = self._best(pieces, choice, choice.offers or usual)
        price = offered.price or self.choices.prices.get(material.name)
        return Line(
            material.name,
            material.kind,
            self._says(material),
            cloth_amount(cloth, self.units),
            cloth_reason(cloth, self.units),
            cloth.buy,
            None if price is None else price.cost(cloth.buy),
            cloth,
        )

    def _best(
        self, pieces: Sequence[ClothPiece], choice: ClothChoice, offers: Sequence[Offered]
    ) -> tuple[Offered, OnCloth]:
        """Return the cheapest where all have prices, else the first that all pieces fit on."""
        has_prices = all(offered.price is not None for offered in offers)
        found: list[tuple[Offered, OnCloth]] = []
        errors: list[CuttingError] = []
        for offered in offers:
            try:
                cloth = on_cloth(pieces, offered.form, choice.way, self.choices.effort(), self.units)
            except CuttingError as error:
                errors.append(error)
                continue
            found.append((offered, cloth))
            if not has_prices:
                break
        if not found:
            raise errors[0]
        return min(found, key=lambda pair: pair[0].price.cost(pair[1].buy) if pair[0].price else 0)

    def _zips(self, material: SizedMaterial) -> Line:
        lengths = self.choices.zips or ZIP_LENGTHS[self.units]
        numbers: dict[Fraction, int] = {}
        wanted: dict[Fraction, Fraction] = {}
        for making, own in self._of(material):
            least = _amount(own)
            buy = Fraction(next_zip(least, lengths) or in_steps(least, self.step))
            numbers[buy] = numbers.get(buy, 0) + making.count
            wanted[buy] = max(least, wanted.get(buy, least))
        amounts = [f"{number} × {as_chosen(buy, 1, self.units)}" for buy, number in numbers.items()]
        reasons = [self._zip_reason(wanted[buy], buy in lengths) for buy in numbers]
        number = Fraction(sum(numbers.values()))
        price = self.choices.prices.get(material.name)
        length = sum((buy * count for buy, count in numbers.items()), Fraction(0))
        cost = None if price is None else price.cost(number if price.per is None else length)
        says = self._says(material)
        return Line(material.name, "zip", says, listed(amounts, "and"), " ".join(reasons), number, cost)

    def _zip_reason(self, least: Fraction, is_standard: bool) -> str:
        wanted = as_chosen(rounded_up(least, self.units.cutting_step), 1, self.units)
        if is_standard:
            return f"At least {wanted} is needed: the next length that zips are sold in."
        return f"At least {wanted} is needed, longer than zips are sold: cut it from a zip sold by length."

    def _by_length(self, material: SizedMaterial) -> Line:
        own = [(making.count, _amount(each)) for making, each in self._of(material)]
        needed = sum((count * length for count, length in own), Fraction(0))
        buy = in_steps(needed, self.step)
        parts = [
            f"{count} × {as_chosen(rounded_up(length, self.units.cutting_step), 1, self.units)}"
            for count, length in own
        ]
        price = self.choices.prices.get(material.name)
        return Line(
            material.name,
            material.kind,
            self._says(material),
            shop_length(buy, self.units),
            f"{listed(parts, 'and')}, bought in steps of {shop_length(self.step, self.units)}.",
            buy,
            None if price is None else price.cost(buy if price.per is not None else 1),
        )

    def _thread(self, material: SizedMaterial) -> Line:
        seams = sum(
            (making.count * stitched_length(making.sized) for making, _ in self._of(material)), Fraction(0)
        )
        found = thread(seams, self.choices.stitch, self.choices.spool)
        price = self.choices.prices.get(material.name)
        return Line(
            material.name,
            material.kind,
            self._says(material),
            thread_amount(found, self.units, self.choices.spool),
            thread_reason(found, self.choices.stitch, self.units),
            Fraction(found.spools),
            None if price is None else price.cost(found.spools if price.per is None else found.length),
        )


def _value(quantity: Quantity) -> Measured:
    if quantity.value is None:
        raise CuttingError(f"“{quantity.formula}” has no value at this size. Choose another size.")
    return quantity.value


def _amount(material: SizedMaterial) -> Fraction:
    """Return the length that a recipe asks for, exact; one without an end, to a millionth of a mm, up."""
    if material.amount is None or _value(material.amount) <= 0:
        raise CuttingError(f"{material.name}: its length is nothing at this size. Choose another size.")
    value = _value(material.amount)
    return value if isinstance(value, Fraction) else rounded_up(value, Fraction(1, 10**6))
