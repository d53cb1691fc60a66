"""One book made and looked through."""

from collections.abc import Iterator
from dataclasses import dataclass

from patterns.documents.book import body
from patterns.documents.errors import DocumentError
from patterns.documents.words import Words
from patterns.drafting.recipe import Recipe

from .cases import Case, sized_for
from .faults import Fault, faults


@dataclass(frozen=True, slots=True)
class Proof:
    """What was seen. document: empty where none could be made."""

    case: Case
    size: str
    document: bytes
    faults: tuple[Fault, ...]


def proof(case: Case, recipe: Recipe) -> Proof:
    """Make a book as it is sold, without a customer's line, and tell what is wrong with it.

    What the renderer complains about fails the book, so that too is a fault.
    """
    sized = sized_for(case, recipe)
    size = Words(sized).size()
    try:
        made = body(sized, case.paper, kind=case.kind)
    except DocumentError as error:
        return Proof(case, size, b"", (Fault("not-made", 0, str(error)),))
    return Proof(case, size, made, tuple(_told_once(faults(made))))


def _told_once(found: tuple[Fault, ...]) -> Iterator[Fault]:
    """Each fault once on its page, however often it is met there."""
    yield from {(fault.name, fault.page, fault.says): fault for fault in found}.values()
