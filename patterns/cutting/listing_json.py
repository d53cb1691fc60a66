"""A shopping list as JSON, in and out: what an order line keeps for good, layouts and all.

`format: 1`. Lengths and costs are exact text: `n/d`, of mm or of the least coin. What things cost in words
is only there where it is known. Kept JSON is never
rewritten: a later format brings a pure `up_from_1` here.
"""

from collections.abc import Mapping
from dataclasses import fields
from fractions import Fraction
from typing import Any

from patterns.drafting.sized_json import FormatError
from patterns.drafting.units import Units

from .answers import Cut
from .forms import ClothForm
from .listing import Line, ShoppingList
from .on_cloth import ClothPiece, OnCloth
from .on_length import Way
from .sheets import Length, Placement, Rectangle
from .shrinkage import Shrinkage

FORMAT = 1
Json = dict[str, Any]


def to_json(shopping: ShoppingList) -> Json:
    """Return the list as plain dicts, lists and strings; `from_json` gives an equal one."""
    return {
        "format": FORMAT,
        "units": shopping.units.value,
        "items": shopping.items,
        "lines": [_line(line) for line in shopping.lines],
        **({"cost_says": shopping.cost_says} if shopping.cost_says else {}),
    }


def from_json(data: Mapping[str, Any]) -> ShoppingList:
    """Return the list that `to_json` has kept. Raises FormatError: a format that is not known here."""
    if data.get("format") != FORMAT:
        raise FormatError(f"A kept shopping list has the format {data.get('format')!r}, which is not known.")
    return ShoppingList(
        Units(data["units"]),
        data["items"],
        tuple(_read_line(each) for each in data["lines"]),
        data.get("cost_says", ""),
    )


def _exact(value: Length | None) -> str | None:
    return None if value is None else str(Fraction(value))


def _read(text: str | None) -> Fraction | None:
    return None if text is None else Fraction(text)


def _line(line: Line) -> Json:
    return {
        "material": line.material,
        "kind": line.kind,
        "says": line.says,
        "amount": line.amount,
        "reason": line.reason,
        "bought": _exact(line.bought),
        "cost_minor": _exact(line.cost_minor),
        "cloth": None if line.cloth is None else _cloth(line.cloth),
        **({"cost": line.cost} if line.cost else {}),
    }


def _read_line(data: Json) -> Line:
    exact = {key: _read(data[key]) for key in ("bought", "cost_minor")}
    cloth = None if data["cloth"] is None else _read_cloth(data["cloth"])
    return Line(**{**data, **exact, "cloth": cloth})


def _cloth(cloth: OnCloth) -> Json:
    return {
        "form": _parts(cloth.form),
        "way": {**_parts(cloth.way), "shrinkage": _parts(cloth.way.shrinkage)},
        "pieces": [{"name": each.name, **_parts(each.rectangle)} for each in cloth.pieces],
        **{name: _exact(getattr(cloth, name)) for name in _CLOTH_LENGTHS},
        "layout": [_parts(place) for place in cloth.layout],
        "cuts": [_parts(cut) for cut in cloth.cuts],
        "opened": list(cloth.opened),
        "spare": list(cloth.spare),
    }


def _read_cloth(data: Json) -> OnCloth:
    way = _read_parts(Way, {**data["way"], "shrinkage": None})
    return OnCloth(
        form=ClothForm(**_read_parts(ClothForm, data["form"])),
        way=Way(**{**way, "shrinkage": Shrinkage(**_read_parts(Shrinkage, data["way"]["shrinkage"]))}),
        pieces=tuple(
            ClothPiece(each["name"], Rectangle(**_read_parts(Rectangle, each))) for each in data["pieces"]
        ),
        layout=tuple(Placement(**_read_parts(Placement, each)) for each in data["layout"]),
        cuts=tuple(Cut(**_read_parts(Cut, each)) for each in data["cuts"]),
        opened=tuple(data["opened"]),
        spare=tuple(data["spare"]),
        buy=Fraction(data["buy"]),
        least=Fraction(data["least"]),
        width=Fraction(data["width"]),
        length=_read(data["length"]),
        folded=_read(data["folded"]),
    )


_CLOTH_LENGTHS = ("buy", "least", "width", "length", "folded")
# The fields that hold lengths or per cent; all others are words, whole numbers, yes or no.
_LENGTHS = frozenset(
    {"width", "height", "edges", "step", "repeat", "along", "across", "x", "y", "at", "start", "end"}
)


def _parts(held: ClothForm | Way | Shrinkage | Rectangle | Placement | Cut) -> Json:
    """Return the fields of a small thing, lengths as exact text; not those that bounds were found by."""
    parts = {field.name: getattr(held, field.name) for field in fields(held) if field.compare}
    return {name: _exact(part) if _is_length(type(held), name) else part for name, part in parts.items()}


def _read_parts(kind: type, data: Json) -> Json:
    names = [field.name for field in fields(kind) if field.compare]
    return {name: _read(data[name]) if _is_length(kind, name) else data[name] for name in names}


def _is_length(kind: type, name: str) -> bool:
    """Whether a field holds one. What a cut runs `along` is a word."""
    return name in _LENGTHS and (kind, name) != (Cut, "along")
