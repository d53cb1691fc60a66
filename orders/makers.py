"""What makes the body of each kind of document."""

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from patterns.cutting.listing import ShoppingList
from patterns.documents import book, templates
from patterns.drafting.sized import SizedPattern

Maker = Callable[[SizedPattern, Any, ShoppingList], bytes]


def _templates(sized: SizedPattern, paper: templates.SheetName, _cloth: ShoppingList) -> bytes:
    """Return the full-size templates, on which no cloth is laid."""
    return templates.body(sized, paper)


# By `IssuedDocument.Kind`, spelled out: a process that makes a body knows no models.
MAKERS: Mapping[str, Maker] = {
    "book": book.body,
    "templates": _templates,
    "short": partial(book.body, kind="short"),
    "plain": partial(book.body, kind="plain"),
}
