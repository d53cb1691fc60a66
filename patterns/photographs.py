"""What the owner does with photographs of a pattern: adds, orders and removes them, files and all."""

import hashlib
from collections.abc import Sequence
from functools import partial
from typing import Final

from django.db import transaction

from patterns import kept
from patterns.models import Pattern, Photograph
from patterns.picture_reading import widths_of
from patterns.picture_rules import PHOTOGRAPH, MadeFile

FOLDER: Final = "photographs"


class ThereAlreadyError(Exception):
    """The pattern has this photograph."""


def add(pattern: Pattern, made: Sequence[MadeFile], alt: str) -> Photograph:
    """Keep a photograph as the pattern's last. Raises ThereAlreadyError."""
    address = address_of(pattern, made)
    with transaction.atomic():
        others = _locked(pattern)
        if any(other.address == address for other in others):
            raise ThereAlreadyError
        for each in made:
            kept.keep(FOLDER, file_name(address, each.width), each.content, each.format)
        return Photograph.objects.create(
            pattern=pattern,
            position=1 + max((other.position for other in others), default=0),
            address=address,
            width=made[-1].width,
            height=made[-1].height,
            widths=widths_of(made),
            alt=alt,
        )


def move(photograph: Photograph, by: int) -> None:
    """Let a photograph change places with the one before (−1) or behind it (1), if there is one."""
    with transaction.atomic():
        row = _locked(photograph.pattern)
        here = next(place for place, each in enumerate(row) if each.pk == photograph.pk)
        there = min(max(here + by, 0), len(row) - 1)
        row.insert(there, row.pop(here))
        for position, each in enumerate(row, 1):
            each.position = position
        Photograph.objects.bulk_update(row, ["position"])


def remove(photograph: Photograph) -> None:
    """Delete a photograph, and its files once that is certain."""
    names = [file_name(photograph.address, width) for width in photograph.widths]
    with transaction.atomic():
        _locked(photograph.pattern)
        photograph.delete()
        for name in names:
            for ending in PHOTOGRAPH.formats:
                transaction.on_commit(partial(kept.forget, FOLDER, name, ending))


def address_of(pattern: Pattern, made: Sequence[MadeFile]) -> str:
    """Return the content address of a photograph, which no two patterns share: each deletes its own files."""
    digest = hashlib.sha256(f"{pattern.pk}".encode())
    for each in made:
        digest.update(hashlib.sha256(each.content).digest())
    return digest.hexdigest()


def file_name(address: str, width: int) -> str:
    return f"{address}-{width}"


def size_of_largest(photograph: Photograph) -> int | None:
    """Return the bytes of the largest JPEG; None where its file is gone."""
    try:
        return kept.path_of(FOLDER, file_name(photograph.address, photograph.width), "jpg").stat().st_size
    except FileNotFoundError:
        return None


def _locked(pattern: Pattern) -> list[Photograph]:
    """Return the pattern's photographs, which nobody else changes until the transaction ends."""
    Pattern.objects.select_for_update().get(pk=pattern.pk)
    return list(pattern.photographs.all())
