"""A formula with gaps to write numbers into: `__ + __ + 2 × __`, each gap knowing whose number it takes."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from .put_in import put_in
from .spell import spell
from .tree import Name, Node

# Around a name while the tree is spelled; no name and no number can hold them.
_OPEN, _CLOSE = "\ue001", "\ue002"
_GAP = re.compile(f"{_OPEN}([^{_CLOSE}]*){_CLOSE}")


@dataclass(frozen=True, slots=True)
class Gap:
    """A place for the number of a name."""

    name: str


def blanks(node: Node, known: Mapping[str, Node]) -> tuple[str | Gap, ...]:
    """Return the formula as it is filled in by hand: text and gaps in turn, no empty text.

    known: what stands in place of the names that everybody has the same number for.

    >>> from .grammar import read
    >>> blanks(read("width + 2 × hem"), {"hem": read("3")})
    (Gap(name='width'), ' + 2 × 3')
    """
    spelled = spell(put_in(node, lambda name: known.get(name) or Name(f"{_OPEN}{name}{_CLOSE}")))
    # Splitting at a pattern with one group gives text and name in turn.
    parts = [Gap(part) if at % 2 else part for at, part in enumerate(_GAP.split(spelled))]
    return tuple(part for part in parts if part)
