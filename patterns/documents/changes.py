"""What is another in one sized pattern than in an earlier one at the same size: in words and numbers.

Compared is what a person reads. Two lengths that are written alike are cut alike, however they came about, so
a difference below the rounding of the book is none.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from difflib import SequenceMatcher
from typing import Protocol, TypeVar

from patterns.drafting.sized import (
    Quantity,
    SizedMark,
    SizedMaterial,
    SizedPattern,
    SizedPiece,
    SizedStep,
    SizedText,
)

from .mark_rows import MARK_KINDS, Distance, mark_row
from .words import Words


class _Named(Protocol):
    @property
    def name(self) -> str: ...


Thing = TypeVar("Thing", bound=_Named)


def changes(before: SizedPattern, after: SizedPattern) -> tuple[str, ...]:
    """Return what changed in cut pieces, materials, marks, steps and cautions, a sentence each; perhaps none.

    before, after: neither refused, in the same units.
    Raises DocumentError: a number that the book needs has no value.
    """
    was, now = Words(before), Words(after)
    return (
        *_pieces(before, after, was, now),
        *_materials(before, after, was, now),
        *_marks(before, after, was, now),
        *_steps(before.steps, after.steps, was, now),
        *_cautions(before, after),
    )


def _pieces(before: SizedPattern, after: SizedPattern, was: Words, now: Words) -> Iterator[str]:
    for name, old, new in _paired(before.pieces, after.pieces):
        called = _capital(name)
        if old is None and new is not None:
            yield f"{called}: new. Cut {new.cut} from {new.material}, {_sides(new, now)}."
        elif new is None:
            yield f"{called}: no longer cut."
        elif old is not None:
            yield from (f"{called}: {said}." for said in _piece(old, new, was, now))


def _piece(old: SizedPiece, new: SizedPiece, was: Words, now: Words) -> Iterator[str]:
    yield from _differs("cut {}", _sides(new, now), _sides(old, was))
    yield from _differs("cut {} of it", str(new.cut), str(old.cut))
    yield from _differs("cut from {}", new.material, old.material)
    yield from _outline(old, new, was, now)
    if new.says != old.says:
        yield f"it now says “{new.says.rstrip('.')}”" if new.says else "what was said of it is left out"


def _sides(piece: SizedPiece, words: Words) -> str:
    """`15 1⁄2 × 9 in`: wide by high, the unit once."""
    width, height = words.number(piece.width), words.number(piece.height)
    unit = f" {words.sized.units}"
    return f"{width.removesuffix(unit)} × {height}"


def _outline(old: SizedPiece, new: SizedPiece, was: Words, now: Words) -> Iterator[str]:
    """The first corner that lies elsewhere; a rectangle's are said by its sides."""
    here, there = _corners(new, now), _corners(old, was)
    if len(here) != len(there):
        yield f"its outline has {len(here) or 4} corners, was {len(there) or 4}"
        return
    for new_at, old_at in zip(here, there, strict=True):
        yield from _differs("a corner of its outline lies {}", new_at, old_at)


def _corners(piece: SizedPiece, words: Words) -> list[str]:
    return [
        f"{words.number(corner.across)} across and {words.number(corner.down)} down"
        + (", at the end of an arc" if corner.arc else "")
        for corner in piece.outline
    ]


def _marks(before: SizedPattern, after: SizedPattern, was: Words, now: Words) -> Iterator[str]:
    """The marks of each piece that is in both."""
    for piece, old_piece, new_piece in _paired(before.pieces, after.pieces):
        if old_piece is None or new_piece is None:
            continue
        for name, old, new in _paired(old_piece.marks, new_piece.marks):
            called = f"{_capital(piece)}: the mark “{name}”"
            if new is None:
                yield f"{called} is left out."
                continue
            places = mark_row(new, new_piece, now).distances
            if old is None:
                yield f"{called} is new{_places(places)}."
            else:
                there = mark_row(old, old_piece, was).distances
                yield from (f"{called} {said}." for said in _mark(old, new, there, places))


def _mark(
    old: SizedMark, new: SizedMark, before: Sequence[Distance], places: Sequence[Distance]
) -> Iterator[str]:
    if [(each.what, each.edge) for each in places] != [(each.what, each.edge) for each in before]:
        yield f"is measured in another way{_places(places)}"
    else:
        for here, there in zip(places, before, strict=True):
            if _read(here.far) != _read(there.far):
                yield f"{here.what or 'lies'} {here.far} from the {here.edge}, was {there.far}"
    if new.kind != old.kind:
        yield f"is now a {MARK_KINDS[new.kind]}, was a {MARK_KINDS[old.kind]}"
    if new.says != old.says:
        yield f"now says “{new.says.rstrip('.')}”" if new.says else "says nothing any more"


def _places(distances: Sequence[Distance]) -> str:
    """`: 6 in from the top edge, begins 1 in from the left edge`"""
    told = [f"{each.what} {each.far} from the {each.edge}".strip() for each in distances]
    return f": {', '.join(told)}" if told else ""


def _materials(before: SizedPattern, after: SizedPattern, was: Words, now: Words) -> Iterator[str]:
    for name, old, new in _paired(before.materials, after.materials):
        called = _capital(name)
        if old is None and new is not None:
            amount = f": {now.number(new.amount)}" if new.amount else ""
            yield f"{called} is needed as well{amount}. {now.text(new.says)}".rstrip()
        elif new is None:
            yield f"{called} is no longer needed."
        elif old is not None:
            yield from (f"{called}: {said}." for said in _material(old, new, was, now))


def _material(old: SizedMaterial, new: SizedMaterial, was: Words, now: Words) -> Iterator[str]:
    yield from _differs("{}", _amount(new, now), _amount(old, was))
    yield from _text(old.says, new.says, was, now)


def _amount(material: SizedMaterial, words: Words) -> str:
    return words.number(material.amount) if material.amount else "no length said"


def _steps(
    before: tuple[SizedStep, ...], after: tuple[SizedStep, ...], was: Words, now: Words
) -> Iterator[str]:
    """Steps are known by their titles; one that only has another number because of others is the same."""
    old_titles, new_titles = [[step.title for step in steps] for steps in (before, after)]
    for what, i, i_end, j, j_end in SequenceMatcher(
        None, old_titles, new_titles, autojunk=False
    ).get_opcodes():
        if what == "equal":
            for at in range(j_end - j):
                yield from _step(before[i + at], after[j + at], j + at + 1, was, now)
            continue
        yield from (f"The step “{title}” is left out here." for title in old_titles[i:i_end])
        for place in range(j, j_end):
            yield f"Step {place + 1} is new: {new_titles[place]}. {now.text(after[place].does)}"


def _step(old: SizedStep, new: SizedStep, place: int, was: Words, now: Words) -> Iterator[str]:
    said = [*_text(old.does, new.does, was, now)]
    if not said and (_work(old, was), old.shows) != (_work(new, now), new.shows):
        said = ["its figure is another"]
    yield from (f"Step {place}, {new.title}: {each}." for each in said)


def _work(step: SizedStep, words: Words) -> list[tuple[object, ...]]:
    """What a step does to the cloth, as far as it can be read."""
    return [
        (act.verb, act.names, [(key, _written(quantity, words)) for key, quantity in act.amounts])
        for act in step.work
    ]


def _written(quantity: Quantity, words: Words) -> str:
    return "" if quantity.value is None else _read(words.number(quantity))


def _cautions(before: SizedPattern, after: SizedPattern) -> Iterator[str]:
    """A caution that is gone needs no letter; one that is new, or says more, does."""
    for _, old, new in _paired(before.cautions, after.cautions):
        if new is not None and (old is None or old.says != new.says):
            yield f"Take care: {new.says}"


def _text(old: SizedText, new: SizedText, was: Words, now: Words) -> Iterator[str]:
    """The numbers in which two texts differ; where their words do, the new text."""
    if _told(old) != _told(new):
        yield f"it now says “{now.text(new).rstrip('.')}”"
        return
    told: list[str] = []
    for old_part, new_part in zip(old, new, strict=True):
        if not isinstance(old_part, str) and not isinstance(new_part, str):
            told += _differs("{}", now.number(new_part), was.number(old_part))
    if told:
        yield "; ".join(dict.fromkeys(told))


def _told(text: SizedText) -> list[str | None]:
    return [part if isinstance(part, str) else None for part in text]


def _differs(says: str, new: str, old: str) -> Iterator[str]:
    if _read(new) != _read(old):
        yield f"{says.format(new)}, was {old}"


def _read(number: str) -> str:
    """A number as it is cut: whether it was rounded makes no difference to that."""
    return number.replace("≈ ", "")


def _paired(
    before: Iterable[Thing], after: Iterable[Thing]
) -> Iterator[tuple[str, Thing | None, Thing | None]]:
    """Each name with what bears it in both, in the order of what stands now, what is gone last."""
    old: Mapping[str, Thing] = {each.name: each for each in before}
    new: Mapping[str, Thing] = {each.name: each for each in after}
    for name in dict.fromkeys((*new, *old)):
        yield name, old.get(name), new.get(name)


def _capital(name: str) -> str:
    return name[:1].upper() + name[1:]
