"""What somebody says of the cloth that they buy, and what to look for because of it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from patterns.drafting.recipe import MaterialKind
from patterns.drafting.sized import SizedPattern
from patterns.drafting.units import Units

from .choices import MOST_ITEMS, Choices, ClothChoice, Offered
from .effort import USUAL_EFFORT
from .errors import CuttingError
from .forms import ClothForm, off_the_roll, usual
from .on_length import Way
from .sheets import Length
from .shrinkage import Shrinkage


@dataclass(frozen=True, slots=True)
class Wish:
    """The cloth somebody buys.

    form, interfacing: the name of a usual form of `forms.usual`; empty for the usual ones. width,
    interfacing_width: measured, all of it usable, mm; they stand in the place of a form that is sold by
    length. shrinkage: of the fabric in its first wash, per cent, along and across. count: how many are made.
    """

    form: str = ""
    width: Length | None = None
    interfacing: str = ""
    interfacing_width: Length | None = None
    shrinkage: Fraction = Fraction(0)
    count: int = 1

    def __post_init__(self) -> None:
        Shrinkage(self.shrinkage, self.shrinkage)
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
    way = Way(shrinkage=Shrinkage(wish.shrinkage, wish.shrinkage))
    chosen: Mapping[MaterialKind, ClothChoice] = {
        "fabric": ClothChoice(_offers(units, "fabric", wish.form, wish.width), way),
        "interfacing": ClothChoice(_offers(units, "interfacing", wish.interfacing, wish.interfacing_width)),
    }
    return Choices(
        {each.name: chosen[each.kind] for each in sized.materials if each.kind in chosen},
        work=work,
        watch=watch,
        seed=seed,
        may_solve=may_solve,
    )


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
    """Return a wish as it is kept with an order line: lengths and shrinkage as exact text."""
    return {
        "form": wish.form,
        "width": None if wish.width is None else str(Fraction(wish.width)),
        "interfacing": wish.interfacing,
        "interfacing_width": None
        if wish.interfacing_width is None
        else str(Fraction(wish.interfacing_width)),
        "shrinkage": str(wish.shrinkage),
        "count": wish.count,
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
        )
    except (ValueError, ZeroDivisionError) as error:
        raise CuttingError("This is no wish for cloth: a number in it cannot be read.") from error


def _length(text: object) -> Fraction | None:
    return None if text is None else Fraction(str(text))
