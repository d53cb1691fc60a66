"""A sized pattern as JSON, in and out: what an order line keeps for good.

`format: 1`. Numbers are exact text in mm, mm² or mm³: `n/d`; one that π or a root has entered keeps its
60 digits behind ≈. Workings are kept as formula and values, texts as parts; documents spell them. Kept
JSON is never rewritten: a later format brings a pure `up_from_1` here.
"""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any

from .formulas.formula import Formula
from .formulas.values import Value
from .sized import (
    Quantity,
    SizedAct,
    SizedAmount,
    SizedCaution,
    SizedCheck,
    SizedCorner,
    SizedMark,
    SizedMaterial,
    SizedMeasure,
    SizedPattern,
    SizedPiece,
    SizedStep,
    SizedText,
)
from .units import Units

FORMAT = 1
Json = dict[str, Any]
_WORDS = ("recipe", "title", "language", "summary", "skill", "time", "revised", "form")


class FormatError(ValueError):
    """Kept JSON of a format that this version does not know."""


def to_json(sized: SizedPattern) -> Json:
    """Return the pattern as plain dicts, lists and strings; `from_json` gives an equal one."""
    return {
        "format": FORMAT,
        **{word: getattr(sized, word) for word in _WORDS},
        "units": sized.units.value,
        "finished": [_quantity(each) for each in sized.finished],
        "values": {name: _value(value) for name, value in sized.values.items()},
        "powers": dict(sized.powers),
        "measures": [
            {"name": each.name, "value": _value(each.value), "power": each.power, "role": each.role}
            for each in sized.measures
        ],
        "options": dict(sized.options),
        "amounts": [{"name": each.name, **_quantity(each.quantity)} for each in sized.amounts],
        "pieces": [_piece(piece) for piece in sized.pieces],
        "checks": [
            {
                "level": each.level,
                "says": each.says,
                "otherwise": _text(each.otherwise),
                "holds": each.holds,
                "measure": each.measure,
            }
            for each in sized.checks
        ],
        "materials": [
            {
                "name": each.name,
                "kind": each.kind,
                "tint": each.tint,
                "says": _text(each.says),
                "amount": _maybe(each.amount),
            }
            for each in sized.materials
        ],
        "tells": [_text(tell) for tell in sized.tells],
        "steps": [
            {
                "title": each.title,
                "does": _text(each.does),
                "shows": list(each.shows),
                "cautions": list(each.cautions),
                "work": [_act(act) for act in each.work],
            }
            for each in sized.steps
        ],
        "cautions": [{"name": each.name, "says": each.says} for each in sized.cautions],
    }


def from_json(data: Mapping[str, Any]) -> SizedPattern:
    """Return the pattern that `to_json` wrote. Raises FormatError for a format it does not know."""
    if data.get("format") != FORMAT:
        raise FormatError(
            f"A sized pattern of format {data.get('format')!r} is unknown; {FORMAT} is the newest."
        )
    width, height, depth = (_read_quantity(each) for each in data["finished"])
    return SizedPattern(
        **{word: data[word] for word in _WORDS},
        units=Units(data["units"]),
        finished=(width, height, depth),
        values={name: _read_value(value) for name, value in data["values"].items()},
        powers=data["powers"],
        measures=tuple(
            SizedMeasure(each["name"], Fraction(each["value"]), each["power"], each["role"])
            for each in data["measures"]
        ),
        options=data["options"],
        amounts=tuple(SizedAmount(each["name"], _read_quantity(each)) for each in data["amounts"]),
        pieces=tuple(_read_piece(each) for each in data["pieces"]),
        checks=tuple(
            SizedCheck(
                each["level"], each["says"], _read_text(each["otherwise"]), each["holds"], each["measure"]
            )
            for each in data["checks"]
        ),
        materials=tuple(
            SizedMaterial(
                each["name"],
                each["kind"],
                each["tint"],
                _read_text(each["says"]),
                _read_maybe(each["amount"]),
            )
            for each in data["materials"]
        ),
        tells=tuple(_read_text(tell) for tell in data["tells"]),
        steps=tuple(
            SizedStep(
                each["title"],
                _read_text(each["does"]),
                tuple(each["shows"]),
                tuple(each["cautions"]),
                # What was kept before steps said what they do to the cloth has none of it.
                tuple(_read_act(act) for act in each.get("work", ())),
            )
            for each in data["steps"]
        ),
        cautions=tuple(SizedCaution(each["name"], each["says"]) for each in data["cautions"]),
    )


def _value(value: Value) -> str | bool | None:
    if value is None or isinstance(value, bool):
        return value
    return str(value) if isinstance(value, Fraction) else f"≈{value}"


def _read_value(value: str | bool | None) -> Value:
    if value is None or isinstance(value, bool):
        return value
    return Decimal(value[1:]) if value.startswith("≈") else Fraction(value)


def _read_measured(value: str | bool | None) -> Fraction | Decimal:
    read = _read_value(value)
    assert isinstance(read, Fraction | Decimal)
    return read


def _quantity(quantity: Quantity) -> Json:
    return {"value": _value(quantity.value), "power": quantity.power, "formula": str(quantity.formula)}


def _read_quantity(data: Mapping[str, Any]) -> Quantity:
    value = None if data["value"] is None else _read_measured(data["value"])
    return Quantity(value, data["power"], Formula.read(data["formula"]))


def _maybe(quantity: Quantity | None) -> Json | None:
    return None if quantity is None else _quantity(quantity)


def _read_maybe(data: Mapping[str, Any] | None) -> Quantity | None:
    return None if data is None else _read_quantity(data)


def _text(text: SizedText) -> list[str | Json]:
    return [part if isinstance(part, str) else _quantity(part) for part in text]


def _read_text(parts: list[str | Json]) -> SizedText:
    return tuple(part if isinstance(part, str) else _read_quantity(part) for part in parts)


def _act(act: SizedAct) -> Json:
    names = {key: list(names) for key, names in act.names}
    return {"verb": act.verb, "names": names, "amounts": {key: _quantity(each) for key, each in act.amounts}}


def _read_act(data: Mapping[str, Any]) -> SizedAct:
    names = tuple((key, tuple(names)) for key, names in data["names"].items())
    amounts = tuple((key, _read_quantity(each)) for key, each in data["amounts"].items())
    return SizedAct(data["verb"], names, amounts)


def _piece(piece: SizedPiece) -> Json:
    return {
        "name": piece.name,
        "material": piece.material,
        "cut": piece.cut,
        "shape": piece.shape,
        "width": _quantity(piece.width),
        "height": _quantity(piece.height),
        "turns": piece.turns,
        "marks": [_mark(mark) for mark in piece.marks],
        "says": piece.says,
        "outline": [_corner(corner) for corner in piece.outline],
    }


def _read_piece(data: Mapping[str, Any]) -> SizedPiece:
    return SizedPiece(
        name=data["name"],
        material=data["material"],
        cut=data["cut"],
        width=_read_quantity(data["width"]),
        height=_read_quantity(data["height"]),
        turns=data["turns"],
        marks=tuple(_read_mark(mark) for mark in data["marks"]),
        says=data["says"],
        shape=data["shape"],
        # What was kept before there were outlines has none, and every piece was a rectangle.
        outline=tuple(_read_corner(corner) for corner in data.get("outline", ())),
    )


def _corner(corner: SizedCorner) -> Json:
    return {"across": _quantity(corner.across), "down": _quantity(corner.down), "arc": corner.arc}


def _read_corner(data: Mapping[str, Any]) -> SizedCorner:
    return SizedCorner(_read_quantity(data["across"]), _read_quantity(data["down"]), data["arc"])


_PLACES = ("down_from_top", "in_from_left", "start", "end", "inside")


def _mark(mark: SizedMark) -> Json:
    places = {place: _maybe(getattr(mark, place)) for place in _PLACES}
    return {"name": mark.name, "kind": mark.kind, **places, "says": mark.says}


def _read_mark(data: Mapping[str, Any]) -> SizedMark:
    # A mark that was kept before there were lines all round has no such place.
    places = {place: _read_maybe(data.get(place)) for place in _PLACES}
    return SizedMark(name=data["name"], kind=data["kind"], **places, says=data["says"])
