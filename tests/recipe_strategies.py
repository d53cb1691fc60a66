"""Hypothesis strategies for whole recipes: whatever a recipe text can write, in every odd spelling."""

import unicodedata
from collections.abc import Sequence
from datetime import date
from fractions import Fraction
from typing import get_args

from hypothesis import strategies as st

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.formulas.tree import (
    Choice,
    Comparison,
    Difference,
    Name,
    Negative,
    Node,
    Number,
    Power,
    Product,
    Quotient,
    Root,
    Rounding,
    Sum,
)
from patterns.drafting.recipe import (
    ALWAYS,
    Amount,
    Blank,
    BoxRoom,
    Caution,
    Check,
    Constant,
    Corner,
    Form,
    Level,
    Mark,
    MarkKind,
    Material,
    MaterialKind,
    Measure,
    NamedSize,
    Option,
    OptionChoice,
    Piece,
    Recipe,
    Role,
    RoundRoom,
    Scale,
    Step,
    Tell,
    Tint,
    Truing,
    When,
    corner_names,
    edge_names,
)
from patterns.drafting.recipe_text.bounds import odd_character
from patterns.drafting.units import Units
from patterns.drafting.work import Act

Draw = st.DrawFn
Kinds = dict[str, int]

# Names that formulas read; no two are equal with “ width” or “ height” behind one of them.
FORMULA_NAMES = (
    "width",
    "height",
    "depth",
    "seam allowance",
    "sewer's mark",
    "rundung über eck",
    "ширина",
    "top of the bag",
    "round base",
    "fold",
    "zip tape",
    "e",
)
PIECE_NAMES = ("exterior panel", "half panel", "œillet", "strap")
OTHER_NAMES = (
    "one way",
    "no. 3 coil",
    "1/2 fold",
    'the "good" side',
    "back\\slash",
    "tab.le",
    "#",
    "überzug",
    "a-b",
)
CHOICE_NAMES = ("none", "No. 5 coil", "Light", "one way", "50 %")

numbers = st.builds(Fraction, st.integers(0, 4000), st.sampled_from([1, 2, 3, 7, 8, 10, 16, 1000]))
# Mostly plain words, which are quick to draw; now and then anything that may stand in a text.
_PLAIN = ("Sew it.", 'Say "no".', "C:\\new", "½ × 2 – ≈", "'''", " a  b ", "\t", '"""', "ends in \\")
_signs = st.characters(exclude_categories=["Cc", "Cs"], exclude_characters="{}")
_any_line = (
    st.text(_signs, min_size=1, max_size=20)
    .map(lambda text: unicodedata.normalize("NFC", text))
    .filter(lambda text: text.strip() and not odd_character(text))
)
_shown_lines = st.sampled_from([line for line in _PLAIN if line.strip()])
lines = st.one_of(_shown_lines, _shown_lines, _any_line)
_long_texts = st.builds(
    lambda line, gap, times: (line + gap) * times,
    lines,
    st.sampled_from(["", " ", "  ", "\n"]),
    st.integers(50, 200),
)
texts = st.one_of(
    lines, lines, lines, st.lists(lines, min_size=2, max_size=3).map("\n".join), _long_texts
).map(lambda text: unicodedata.normalize("NFC", text))


_up_to_nine, _yes_or_no = st.integers(0, 9), st.booleans()


def draw_tree(draw: Draw, kinds: Kinds, kind: int, storeys: int = 2) -> Node:
    """A tree that gives a number (kind 0) or a length (kind 1), made of the names that there are.

    Drawn by hand: strategies made anew for every node are slow.
    """
    if storeys == 0 or draw(_yes_or_no):
        return _draw_leaf(draw, kinds, kind)

    def part(wanted: int = kind) -> Node:
        return draw_tree(draw, kinds, wanted, storeys - 1)

    match draw(_up_to_nine):
        case 0:
            return Negative(part())
        case 1:
            return Product(part(0), part())
        case 2:
            return Quotient(part(), part(0))
        case 3 | 4:
            return Choice("smaller" if draw(_yes_or_no) else "larger", (part(), part()))
        case 5:
            return Rounding("up" if draw(_yes_or_no) else "down", part(), part())
        case 6:
            return Root(Product(part(1), part(1)) if kind else part(0))
        case 7:
            return Quotient(Power(part(1), 2) if kind else part(1), part(1))
        case _:
            return Sum(part(), part())


def _draw_leaf(draw: Draw, kinds: Kinds, kind: int) -> Node:
    known = [Name(name) for name, each in kinds.items() if each == kind]
    if kind == 0 and (not known or draw(_yes_or_no)):
        return Number(draw(numbers))
    return known[draw(_up_to_nine) % len(known)]


@st.composite
def formulas(draw: Draw, kinds: Kinds, kind: int = 1) -> Formula:
    return Formula(draw_tree(draw, kinds, kind))


@st.composite
def filled_texts(draw: Draw, kinds: Kinds) -> tuple[str | Blank, ...]:
    """Words with formulas among them, never two runs of words side by side."""
    parts: list[str | Blank] = []
    for _ in range(draw(st.integers(1, 3))):
        if draw(st.booleans()) and not (parts and isinstance(parts[-1], str)):
            parts.append(draw(texts))
        kind = draw(st.integers(0, 1))
        parts.append(Blank(draw(formulas(kinds, kind)), kind))
    return tuple(parts)


@st.composite
def scales(draw: Draw, units: Units | None) -> Scale:
    least, default, most = sorted(draw(st.tuples(numbers, numbers, numbers)))
    step = draw(numbers.filter(bool))
    unit = units.mm if units else Fraction(1)
    return Scale(least * unit, most * unit, default * unit, step * unit)


@st.composite
def measures(draw: Draw, name: str, power: int) -> Measure:
    by_units = {units: draw(scales(units)) for units in Units}
    if power == 0:
        by_units = dict.fromkeys(Units, draw(scales(None)))
    return Measure(name, power, draw(st.sampled_from(get_args(Role))), draw(texts), by_units)


@st.composite
def constants(draw: Draw, name: str, power: int) -> Constant:
    if power == 0:
        return Constant(name, 0, dict.fromkeys(Units, draw(numbers)))
    return Constant(name, 1, {units: draw(numbers) * units.mm for units in Units})


@st.composite
def options(draw: Draw, name: str, set_name: str | None, measure: Measure | None) -> Option:
    """An option whose choices set a name of their own, all of them, and a measure, some of them."""
    power = draw(st.integers(0, 1))
    choices = []
    for choice in draw(st.lists(st.sampled_from(CHOICE_NAMES), min_size=1, unique=True)):
        sets = [draw(constants(set_name, power))] if set_name else []
        if measure and draw(st.booleans()):
            sets.append(
                Constant(measure.name, measure.power, {each: measure.scales[each].most for each in Units})
            )
        choices.append(OptionChoice(choice, draw(st.just("") | texts), tuple(sets)))
    default = draw(st.sampled_from(choices)).name
    return Option(name, draw(texts), tuple(choices), default)


@st.composite
def whens(draw: Draw, among: Sequence[Option]) -> When:
    named = draw(st.lists(st.sampled_from(among), unique_by=lambda option: option.name)) if among else []
    return When(
        tuple(
            (option.name, tuple(draw(st.lists(st.sampled_from(_choices(option)), min_size=1, unique=True))))
            for option in named
        )
    )


def _choices(option: Option) -> list[str]:
    return [choice.name for choice in option.choices]


@st.composite
def marks(draw: Draw, name: str, kinds: Kinds, among: Sequence[Option]) -> Mark:
    maybe = st.none() | formulas(kinds)
    down, across = draw(st.tuples(maybe, maybe).filter(any))
    start, end = draw(st.tuples(maybe, maybe)) if not (down and across) else (None, None)
    kind = draw(st.sampled_from(get_args(MarkKind)))
    inside = None
    if draw(_up_to_nine) == 0:
        down = across = start = end = None
        inside = draw(formulas(kinds))
    return Mark(name, kind, down, across, start, end, draw(st.just("") | texts), draw(whens(among)), inside)


# At a corner of a piece, walked as a clock's hands run: straight on, rounded, scooped out, cut out.
# Each step: how far in along the edge that is left and along the one that is taken, in radii, and the turn.
_AT_A_CORNER = (
    ((0, 0, None),),
    ((1, 0, None), (0, 1, "right")),
    ((1, 0, None), (0, 1, "left")),
    ((1, 0, None), (1, 1, None), (0, 1, None)),
)
_CORNER_NAMES = ("tip", "left corner", "upper end of the curve")


@st.composite
def outlines(draw: Draw, width: str, height: str) -> tuple[Corner, ...]:
    """Corners round a box of that width and height, each straight, rounded, scooped out or cut out."""
    wide, high = Name(width), Name(height)
    radius = Quotient(Choice("smaller", (wide, high)), Number(Fraction(draw(st.integers(3, 9)))))
    spots = [
        (way, step) for way in range(4) for step in _AT_A_CORNER[draw(st.integers(0, len(_AT_A_CORNER) - 1))]
    ]
    names = dict(
        zip(
            draw(st.lists(st.integers(0, len(spots) - 1), unique=True, max_size=3)),
            _CORNER_NAMES,
            strict=False,
        )
    )
    corners = []
    for place, (way, (left, taken, arc)) in enumerate(spots):
        # Top left, top right, bottom right, bottom left: the edge that is left runs up, right, down, left.
        across, down = ((taken, left), (left, taken), (taken, left), (left, taken))[way]
        corners.append(
            Corner(
                Formula(_inside(wide, radius, across, is_far=way in (1, 2))),
                Formula(_inside(high, radius, down, is_far=way in (2, 3))),
                arc,
                names.get(place, ""),
            )
        )
    return tuple(corners)


def _inside(side: Node, radius: Node, times: int, *, is_far: bool) -> Node:
    if not times:
        return side if is_far else Number(Fraction(0))
    return Difference(side, radius) if is_far else radius


@st.composite
def pieces(
    draw: Draw, name: str, material: str, kinds: Kinds, among: Sequence[Option], edges: tuple[str, str]
) -> Piece:
    names = draw(st.lists(st.sampled_from(OTHER_NAMES), unique=True, max_size=3))
    return Piece(
        name,
        material,
        cut=Formula(Number(Fraction(draw(st.integers(1, 9))))),
        width=draw(formulas(kinds)),
        height=draw(formulas(kinds)),
        marks=tuple(draw(marks(each, kinds, among)) for each in names),
        says=draw(st.just("") | texts),
        upright=draw(st.none() | whens(among)),
        when=draw(whens(among)),
        outline=draw(st.just(()) | outlines(*edges)),
    )


@st.composite
def checks(draw: Draw, kinds: Kinds, among: Sequence[Option]) -> Check:
    left, right = (draw_tree(draw, kinds, 1) for _ in range(2))
    holds = Formula(Comparison(draw(st.sampled_from("<≤>≥=≠")), left, right))
    level = draw(st.sampled_from(get_args(Level)))
    return Check(level, draw(texts), holds, draw(filled_texts(kinds)), draw(whens(among)))


@st.composite
def materials(draw: Draw, name: str, kinds: Kinds, among: Sequence[Option]) -> Material:
    return Material(
        name,
        draw(st.sampled_from(get_args(MaterialKind))),
        draw(st.just(()) | filled_texts(kinds)),
        draw(st.none() | formulas(kinds)),
        draw(st.none() | st.sampled_from(get_args(Tint))),
        draw(whens(among)),
    )


@st.composite
def named_sizes(draw: Draw, name: str, among: Sequence[Measure]) -> NamedSize:
    chosen = draw(st.lists(st.sampled_from(among), unique_by=lambda measure: measure.name))
    end = draw(st.sampled_from(["least", "most", "default"]))
    return NamedSize(
        name, {units: {each.name: getattr(each.scales[units], end) for each in chosen} for units in Units}
    )


@st.composite
def holds(draw: Draw, among: Sequence[Measure]) -> BoxRoom | RoundRoom | None:
    """A room that has space at the default size, if any of the measures is a length and not 0."""
    lengths = [each for each in among if each.power and all(each.scales[units].default for units in Units)]
    if not lengths:
        return None
    room = draw(st.sampled_from([BoxRoom, RoundRoom]))
    return room(*(Formula(Name(draw(st.sampled_from(lengths)).name)) for _ in room._fields))


def some(names: Sequence[str], most: int) -> st.SearchStrategy[list[str]]:
    return st.lists(st.sampled_from(names), unique=True, max_size=most)


@st.composite
def recipes(draw: Draw) -> Recipe:
    """A whole recipe, every part of which may be missing that may be."""
    names = iter(draw(st.permutations(FORMULA_NAMES)))
    measured = [
        draw(measures(next(names), 1)),
        *(draw(measures(next(names), draw(st.integers(0, 1)))) for _ in range(2)),
    ]
    fixed = [draw(constants(next(names), draw(st.integers(0, 1)))) for _ in range(draw(st.integers(0, 2)))]
    choosable = [
        draw(options(name, draw(st.none() | st.just(next(names))), measure))
        for name, measure in zip(draw(some(OTHER_NAMES, 2)), measured[1:], strict=False)
    ]
    kinds = {each.name: each.power for each in (*measured, *fixed)}
    kinds |= {each.name: each.power for option in choosable for each in option.choices[0].sets}
    stuff = [draw(materials(name, kinds, choosable)) for name in draw(some(OTHER_NAMES, 3))]
    measures_named = {each.name for each in measured}
    cut = [
        draw(
            pieces(
                name, draw(st.sampled_from(stuff)).name, kinds, choosable, edge_names(name, measures_named)
            )
        )
        for name in (draw(some(PIECE_NAMES, 3)) if stuff else [])
    ]
    kinds |= {edge: 1 for piece in cut for edge in edge_names(piece.name, measures_named)}
    kinds |= {
        side: 1
        for piece in cut
        for corner in piece.outline
        if corner.name
        for side in corner_names(piece.name, corner.name)
    }
    worked_out = []
    for _ in range(draw(st.integers(0, 3))):
        kind = draw(st.integers(0, 1))
        worked_out.append(Amount(next(names), kind, draw(formulas(kinds, kind))))
        kinds[worked_out[-1].name] = kind
    warned = [Caution(name, draw(texts), draw(whens(choosable))) for name in draw(some(OTHER_NAMES, 2))]
    base = {each.name: each.power for each in (*measured, *fixed)}
    length = formulas(kinds)
    return Recipe(
        title=draw(lines),
        language=draw(st.sampled_from(["en", "de", "pt-BR", "zh-Hans-CN", "es-419"])),
        summary=draw(texts),
        skill=draw(lines),
        time=draw(lines),
        revised=draw(st.dates(date(1, 1, 1))),
        form=draw(st.sampled_from(get_args(Form))),
        finished=draw(st.tuples(length, length, length)),
        measures=tuple(measured),
        constants=tuple(fixed),
        options=tuple(choosable),
        amounts=tuple(draw(st.permutations(worked_out))),
        pieces=tuple(cut),
        truings=tuple(
            Truing(
                draw(lines),
                draw(formulas(base)),
                draw(formulas(base)),
                draw(whens(choosable) | st.just(ALWAYS)),
            )
            for _ in range(draw(st.integers(0, 2)))
        ),
        checks=tuple(draw(st.lists(checks(kinds, choosable), max_size=2))),
        materials=tuple(stuff),
        tells=tuple(
            Tell(draw(filled_texts(kinds)), draw(whens(choosable))) for _ in range(draw(st.integers(0, 2)))
        ),
        steps=tuple(
            Step(
                draw(lines),
                draw(filled_texts(kinds)),
                tuple(draw(some([piece.name for piece in cut], 3)) if cut else ()),
                tuple(draw(some([caution.name for caution in warned], 2)) if warned else ()),
                draw(whens(choosable)),
                tuple(
                    Act("cut", (("cut", (piece,)), ("as", (f"cloth {number}",))))
                    for number, piece in enumerate(
                        draw(some([piece.name for piece in cut], 2)) if cut else ()
                    )
                ),
            )
            for _ in range(draw(st.integers(0, 2)))
        ),
        cautions=tuple(warned),
        sizes=tuple(draw(named_sizes(name, measured)) for name in draw(some(("For bread", "A4", "Ø 9"), 2))),
        note=draw(st.just("") | texts),
        holds=draw(st.none() | holds(measured)),
    )
