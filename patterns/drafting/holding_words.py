"""How things lie in a bag, in words."""

from fractions import Fraction

from .lengths import typed, with_unit, written
from .things import Arrangement, RoundSpace, Solid, Space
from .units import INCH, Units

# What is written in inches is read off a tape or a calliper: in sixty-fourths, or thousandths as decimals.
_FINEST, _THOUSANDTH = INCH / 64, INCH / 1000
_TENTH = Fraction(1, 10)


def size_words(solid: Solid, units: Units) -> str:
    """Return width, height and depth in a row, exact: mm or decimals where inches would be odd.

    >>> from fractions import Fraction
    >>> size_words(Solid(Fraction(148), Fraction(210), Fraction(4)), Units.CENTIMETRES)
    '14.8 × 21 × 0.4 cm'
    >>> size_words(Solid(Fraction(148), Fraction(210), Fraction(4)), Units.INCHES)
    '148 × 210 × 4 mm'
    >>> size_words(Solid(Fraction("5.8") * INCH, 8 * INCH, INCH / 5), Units.INCHES)
    '5.8 × 8 × 0.2 in'
    """
    if units is Units.INCHES and any(side % _FINEST for side in solid):
        is_metric = not any(side % _TENTH for side in solid) or any(side % _THOUSANDTH for side in solid)
        unit, size = ("mm", Fraction(1)) if is_metric else ("in", INCH)
        return f"{' × '.join(_decimal(side / size) for side in solid)} {unit}"
    return with_unit(" × ".join(typed(side, 1, units) for side in solid), 1, units)


def _decimal(number: Fraction) -> str:
    return typed(10 * number, 1, Units.CENTIMETRES)


def arranged_words(arrangement: Arrangement) -> str:
    """Return how things lie.

    >>> from fractions import Fraction
    >>> arranged_words(Arrangement(1, 2, 12, Solid(Fraction(1), Fraction(1), Fraction(1))))
    '1 across, 12 deep, 2 high'
    """
    return f"{arrangement.across} across, {arrangement.deep} deep, {arrangement.high} high"


def spare_words(spare: Space, room: Space | RoundSpace, units: Units) -> str:
    """Return what is left over in each direction of a room, if it is as much as anybody cuts.

    On a round floor width and depth are not left over both at once.

    >>> from fractions import Fraction
    >>> box, drum = Space(*[Fraction(100)] * 3), RoundSpace(Fraction(100), Fraction(100))
    >>> spare = Space(Fraction(2), Fraction(0), Fraction(2))
    >>> spare_words(spare, box, Units.CENTIMETRES)
    'Left over: width 0.2 cm, depth 0.2 cm.'
    >>> spare_words(spare, drum, Units.CENTIMETRES)
    'Left over: width 0.2 cm or depth 0.2 cm.'
    """
    left = {
        name: f"{name} {written(side, 1, units).text}"
        for name, side in spare._asdict().items()
        if side >= units.cutting_step / 2
    }
    if isinstance(room, RoundSpace):
        floor = " or ".join(left[name] for name in ("width", "depth") if name in left)
        left = {"floor": floor, "height": left.get("height", "")}
    listed = ", ".join(filter(None, left.values()))
    return f"Left over: {listed}." if listed else "Nothing to speak of is left over."
