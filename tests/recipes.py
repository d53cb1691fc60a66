"""Small recipes made by hand, for tests that need one and no text."""

from datetime import date
from fractions import Fraction
from typing import Any

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.recipe import (
    Amount,
    Blank,
    Check,
    Constant,
    Corner,
    Mark,
    Material,
    Measure,
    Option,
    OptionChoice,
    Piece,
    Recipe,
    Scale,
    Step,
    Tell,
    Truing,
    When,
)
from patterns.drafting.units import Units

IN, CM = Units.INCHES, Units.CENTIMETRES


def formula(text: str) -> Formula:
    return Formula.read(text)


def scale(units: Units, least: str, most: str, default: str, step: str) -> Scale:
    return Scale(*(Fraction(number) * units.mm for number in (least, most, default, step)))


def length(name: str, inches: tuple[str, ...], centimetres: tuple[str, ...], role: str = "size") -> Measure:
    return Measure(name, 1, role, f"The {name}.", {IN: scale(IN, *inches), CM: scale(CM, *centimetres)})


def count(name: str, least: int, most: int, default: int) -> Measure:
    numbers = Scale(Fraction(least), Fraction(most), Fraction(default), Fraction(1))
    return Measure(name, 0, "size", f"How many {name}.", {IN: numbers, CM: numbers})


def make_recipe(**changes: Any) -> Recipe:
    """A flat mat with a hem: width and height, folded `folds` times, with an option that stiffens it."""
    parts: dict[str, Any] = {
        "title": "Folding mat",
        "language": "en",
        "summary": "A mat that folds up.",
        "skill": "Beginner",
        "time": "1 hour",
        "revised": date(2026, 11, 20),
        "form": "open basket",
        "finished": (formula("width"), formula("height"), formula("seam allowance")),
        "measures": (
            length("width", ("3", "20", "9", "1/4"), ("8", "50", "23", "0.5")),
            length("height", ("2", "20", "6", "1/4"), ("5", "50", "15", "0.5")),
            count("folds", 2, 5, 3),
            length("seam allowance", ("1/4", "1", "1/2", "1/8"), ("0.5", "2.5", "1", "0.1"), role="making"),
        ),
        "constants": (Constant("least fold", 1, {IN: 2 * IN.mm, CM: 5 * CM.mm}),),
        "options": (
            Option(
                "stiffening",
                "What stiffens it.",
                (
                    OptionChoice("none", sets=(Constant("layers", 0, {IN: Fraction(2), CM: Fraction(2)}),)),
                    OptionChoice("fleece", sets=(Constant("layers", 0, {IN: Fraction(3), CM: Fraction(3)}),)),
                ),
                "none",
            ),
        ),
        "amounts": (
            Amount("packed height", 1, formula("fold height × layers")),
            Amount("fold height", 1, formula("height ÷ folds")),
            Amount("diagonal", 1, formula("√(width² + height²)")),
        ),
        "pieces": (
            Piece(
                "mat",
                "cloth",
                formula("2"),
                formula("width + 2 × seam allowance"),
                formula("height + 2 × seam allowance"),
                marks=(Mark("first fold", "fold", down_from_top=formula("seam allowance + fold height")),),
            ),
            Piece(
                "filling",
                "fleece",
                formula("1"),
                formula("width"),
                formula("height"),
                upright=When((("stiffening", ("fleece",)),)),
                when=When((("stiffening", ("fleece",)),)),
            ),
        ),
        "truings": (Truing("across", formula("mat width − 2 × seam allowance"), formula("width")),),
        "checks": (
            Check(
                "refuse",
                "A fold is worth making.",
                formula("fold height ≥ least fold"),
                ("A fold of ", Blank(formula("fold height"), 1), " is too small."),
            ),
            Check(
                "advise", "It is wider than high.", formula("width ≥ height"), ("It is higher than wide.",)
            ),
        ),
        "materials": (
            Material("cloth", "fabric", ("Cotton.",), tint="exterior"),
            Material("fleece", "interfacing", tint="interfacing", when=When((("stiffening", ("fleece",)),))),
        ),
        "tells": (Tell(("It packs to ", Blank(formula("packed height"), 1), ".")),),
        "steps": (Step("Hem", ("Fold at ", Blank(formula("fold height"), 1), "."), shows=("mat",)),),
    }
    return Recipe(**(parts | changes))


def corners(*places: tuple[str, ...]) -> tuple[Corner, ...]:
    """Corners of an outline: across and down as formulas, then perhaps the turn and the name."""
    return tuple(Corner(formula(across), formula(down), *more) for across, down, *more in places)


def make_disc(*last: str) -> Piece:
    """A circle as wide as the mat, or with its last corner somewhere else."""
    half = "disc width ÷ 2"
    return Piece(
        "disc",
        "cloth",
        formula("1"),
        formula("width"),
        formula("width"),
        outline=corners(
            (half, "0", "right"),
            ("disc width", half, "right"),
            (half, "disc width", "right"),
            (*(last or ("0", half)), "right"),
        ),
    )
