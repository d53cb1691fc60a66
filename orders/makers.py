"""What makes the body of each kind of document."""

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from patterns.cutting.listing import ShoppingList
from patterns.cutting.listing_json import from_json
from patterns.documents import book, cloth_cover, templates
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sized_json import from_json as sized_from_json

Maker = Callable[..., bytes]
"""Takes a sized pattern, a paper and the cloth to buy; a book also the customer's own cloth as `cover`."""


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


def made_by(
    maker: Maker,
    sized: dict[str, Any],
    layouts: dict[str, Any],
    paper: str,
    cover: dict[str, Any] | None,
) -> bytes:
    """Return what a maker makes of what is kept with an order, all of it as JSON."""
    asked = sized_from_json(sized), paper, from_json(layouts)
    return maker(*asked, cover=cloth_cover.from_json(cover)) if cover else maker(*asked)
