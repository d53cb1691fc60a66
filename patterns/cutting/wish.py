"""What somebody says of the cloth that they buy, and what to look for because of it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.drafting.recipe import MaterialKind
from patterns.drafting.sized import SizedPattern
from patterns.drafting.units import Units

from .choices import MOST_ITEMS, Choices, ClothChoice, Offered, Price
from .effort import USUAL_EFFORT
from .errors import CuttingError
from .forms import LONGEST, METRE, YARD, ClothForm, off_the_roll, usual
from .on_length import Way
from .sheets import Length
from .shrinkage import Shrinkage

# What a price of cloth sold by length is for.
PRICED_LENGTHS: Mapping[Units, Fraction] = {Units.INCHES: YARD, Units.CENTIMETRES: METRE}


@dataclass(frozen=True, slots=True)
class Wish:
    """The cloth somebody buys.

    form, interfacing: the name of a usual form of `forms.usual`; empty for the usual ones. width,
    interfacing_width: measured, all of it usable, mm; they stand in the place of a form that is sold by
    length. shrinkage: of the fabric in its first wash, per cent, along and across. count: how many are made.
    price_minor, interfacing_price_minor: of a yard with inches, else of a metre, or of one whole piece.
    repeat: of the print, mm along the fabric as it is bought. repeat_on: the fabric that has it; empty for
    all.
    folded: fabric sold by length lies double. edge_to_edge: each cut goes right through the fabric.
    """

    form: str = ""
    width: Length | None = None
    interfacing: str = ""
    interfacing_width: Length | None = None
    shrinkage: Fraction = Fraction(0)
    count: int = 1
    price_minor: int | None = None
    interfacing_price_minor: int | None = None
    repeat: Length | None = None
    repeat_on: str = ""
    folded: bool = False
    edge_to_edge: bool = False

    def __post_init__(self) -> None:
        Shrinkage(self.shrinkage, self.shrinkage)
        if self.repeat is not None and not 0 < self.repeat <= LONGEST:
            raise CuttingError("The repeat of a print is above 0, and no longer than a roll of cloth.")
        if not 1 <= self.count <= MOST_ITEMS:
            raise CuttingError(f"{self.count} to make. Write 1 to {MOST_ITEMS}.")


NO_WISH = Wish()


def choices_of(
    wish: Wish,
    sized: SizedPattern,
    *,
    work: int = USUAL_EFFORT,
    watch: Callable[[], bool] | None = None,
    seed: int = 0,
    may_solve: bool = False,
) -> Choices:
    """Return the choices that a wish comes to for a pattern: one form for all its fabrics, one roll.

    work, watch, seed, may_solve: of `Effort`. Vinyl has its usual roll, and only fabric is washed.
    Raises CuttingError: a form that is not usual in these units, a width that no cloth has.
    """
    units = sized.units
    fabric = _offers(units, "fabric", wish.form, wish.width)
    interfacing = _offers(units, "interfacing", wish.interfacing, wish.interfacing_width)
    names: Mapping[MaterialKind, list[str]] = {
        kind: [each.name for each in sized.materials if each.kind == kind]
        for kind in ("fabric", "interfacing")
    }
    prices = {
        **_prices(names["fabric"], fabric, wish.price_minor, units),
        **_prices(names["interfacing"], interfacing, wish.interfacing_price_minor, units),
    }
    return Choices(
        {
            **{name: ClothChoice(fabric, _way(wish, name)) for name in names["fabric"]},
            **{name: ClothChoice(interfacing) for name in names["interfacing"]},
        },
        prices,
        work=work,
        watch=watch,
        seed=seed,
        may_solve=may_solve,
    )


def _way(wish: Wish, fabric: str) -> Way:
    return Way(
        repeat=wish.repeat if wish.repeat_on in ("", fabric) else None,
        folded=wish.folded,
        edge_to_edge=wish.edge_to_edge,
        shrinkage=Shrinkage(wish.shrinkage, wish.shrinkage),
    )


def _prices(
    names: Sequence[str], offers: Sequence[Offered], minor: int | None, units: Units
) -> dict[str, Price]:
    """Return one price for all materials of a kind: of a length, or of a piece where pieces are bought."""
    if minor is None:
        return {}
    is_by_length = all(offered.form.is_by_length for offered in offers)
    return dict.fromkeys(names, Price(minor, PRICED_LENGTHS[units] if is_by_length else None))


def _offers(units: Units, kind: MaterialKind, name: str, width: Length | None) -> tuple[Offered, ...]:
    """Return the form chosen; none for the usual ones."""
    form = form_named(units, kind, name) if name else None
    if width is None:
        return () if form is None else (Offered(form),)
    if form is not None and not form.is_by_length:
        raise CuttingError(f"A {form.name} has a width of its own. Leave out the width that was measured.")
    return (Offered(off_the_roll(width, units)),)


def form_named(units: Units, kind: MaterialKind, name: str) -> ClothForm:
    """Return a usual form. Raises CuttingError: there is none of that name."""
    forms = usual(units, kind)
    if name not in forms:
        raise CuttingError(f"“{name}” is no usual form of {kind}. There are {', '.join(forms)}.")
    return forms[name]


def to_json(wish: Wish) -> dict[str, object]:
    """Return a wish as it is kept with an order line: lengths and shrinkage as exact text.

    What was added to wishes later is only there where somebody said it.
    """
    later = {
        "price_minor": wish.price_minor,
        "interfacing_price_minor": wish.interfacing_price_minor,
        "repeat": None if wish.repeat is None else str(Fraction(wish.repeat)),
        "repeat_on": wish.repeat_on or None,
        "folded": wish.folded or None,
        "edge_to_edge": wish.edge_to_edge or None,
    }
    return {
        "form": wish.form,
        "width": None if wish.width is None else str(Fraction(wish.width)),
        "interfacing": wish.interfacing,
        "interfacing_width": None
        if wish.interfacing_width is None
        else str(Fraction(wish.interfacing_width)),
        "shrinkage": str(wish.shrinkage),
        "count": wish.count,
        **{name: value for name, value in later.items() if value is not None},
    }


def from_json(data: Mapping[str, object]) -> Wish:
    """Return a kept wish; what is not there is as nobody said it. Raises CuttingError: it is none."""
    try:
        return Wish(
            str(data.get("form", "")),
            _length(data.get("width")),
            str(data.get("interfacing", "")),
            _length(data.get("interfacing_width")),
            Fraction(str(data.get("shrinkage", "0"))),
            int(str(data.get("count", "1"))),
            _number(data.get("price_minor")),
            _number(data.get("interfacing_price_minor")),
            _length(data.get("repeat")),
            str(data.get("repeat_on", "")),
            bool(data.get("folded")),
            bool(data.get("edge_to_edge")),
        )
    except (ValueError, ZeroDivisionError) as error:
        raise CuttingError("This is no wish for cloth: a number in it cannot be read.") from error


def _length(text: object) -> Fraction | None:
    return None if text is None else Fraction(str(text))


def _number(text: object) -> int | None:
    return None if text is None else int(str(text))
