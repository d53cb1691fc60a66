"""How things lie in a bag, in words."""

from .lengths import typed, with_unit, written
from .things import Arrangement, Solid, Space
from .units import INCH, Units

# What is written in inches is read off a tape or a calliper: no finer than a sixty-fourth.
_FINEST = INCH / 64


def size_words(solid: Solid, units: Units) -> str:
    """Return width, height and depth in a row, exact: in mm where inches would make odd fractions of them.

    >>> from fractions import Fraction
    >>> size_words(Solid(Fraction(148), Fraction(210), Fraction(4)), Units.CENTIMETRES)
    '14.8 × 21 × 0.4 cm'
    >>> size_words(Solid(Fraction(148), Fraction(210), Fraction(4)), Units.INCHES)
    '148 × 210 × 4 mm'
    """
    if units is Units.INCHES and any(side % _FINEST for side in solid):
        tenfold = (typed(10 * side, 1, Units.CENTIMETRES) for side in solid)
        return f"{' × '.join(tenfold)} mm"
    return with_unit(" × ".join(typed(side, 1, units) for side in solid), 1, units)


def arranged_words(arrangement: Arrangement) -> str:
    """Return how things lie.

    >>> from fractions import Fraction
    >>> arranged_words(Arrangement(1, 2, 12, Solid(Fraction(1), Fraction(1), Fraction(1))))
    '1 across, 12 deep, 2 high'
    """
    return f"{arrangement.across} across, {arrangement.deep} deep, {arrangement.high} high"


def spare_words(spare: Space, units: Units) -> str:
    """Return what is left over in each direction, if it is as much as anybody cuts.

    >>> from fractions import Fraction
    >>> spare_words(Space(Fraction(2), Fraction(0), Fraction(2)), Units.CENTIMETRES)
    'Left over: width 0.2 cm, depth 0.2 cm.'
    """
    left = [
        f"{name} {written(side, 1, units).text}"
        for name, side in spare._asdict().items()
        if side >= units.cutting_step / 2
    ]
    return f"Left over: {', '.join(left)}." if left else "Nothing to speak of is left over."
