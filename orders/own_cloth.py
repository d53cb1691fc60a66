"""The customer's own cloth with an order: kept for good as part of what was sold, and seen by nobody else."""

import hashlib
from collections.abc import Mapping
from fractions import Fraction
from typing import Any, Final

from django.db.models import Q

from orders.models import OrderLine
from patterns import kept
from patterns.documents.cloth_cover import ClothPicture, to_json
from patterns.drafting.recipe import Tint
from patterns.drawings.prints import Print, Prints
from patterns.own_cloth import ROLES, OwnCloths, content_of

FOLDER: Final = "cloths"
# The kinds of documents whose cover shows it; what is short or in black ink stays drawn.
COVERED: Final = ("book",)

Kept = dict[str, Any]


def keep(cloths: OwnCloths) -> Kept | None:
    """Keep the pictures and return what an order's line says of them; None where there are none."""
    said: Kept = {}
    for role, cloth in cloths.cloths.items():
        content = content_of(cloth.token)
        if content is None:  # it was deleted this moment
            continue
        picture = hashlib.sha256(content).hexdigest()
        kept.keep(FOLDER, picture, content, "jpg")
        said[role] = {
            "picture": picture,
            "width": str(cloth.width),
            "height": str(cloth.height),
            "one_way": cloth.is_one_way,
        }
    return {**said, "on_cover": cloths.is_on_cover} if said else None


def content(line: OrderLine, role: str) -> bytes | None:
    """Return the picture of one side; None if there is none."""
    said = (line.own_cloth or {}).get(role)
    return kept.kept(FOLDER, said["picture"], "jpg") if isinstance(said, dict) else None


def prints_of(line: OrderLine, addresses: Mapping[str, str]) -> Prints:
    """Return the cloths as the order's drawings show them. addresses: of the picture of each side."""
    said = line.own_cloth or {}
    return {
        role: Print(addresses[role], Fraction(said[role]["width"]), Fraction(said[role]["height"]))
        for role in ROLES
        if role in said
    }


def cover_of(line: OrderLine, kind: str) -> Kept | None:
    """Return what the cover of a document of that kind shows, as JSON; None where it is drawn plain."""
    said = line.own_cloth or {}
    if kind not in COVERED or not said.get("on_cover"):
        return None
    found: dict[Tint, ClothPicture] = {
        role: ClothPicture(Fraction(said[role]["width"]), Fraction(said[role]["height"]), picture)
        for role in ROLES
        if (picture := content(line, role)) is not None
    }
    return to_json(found) or None


def forget(line: OrderLine) -> None:
    """Let a line be drawn plain; a picture that no other line has is deleted."""
    said = line.own_cloth or {}
    OrderLine.objects.filter(pk=line.pk).update(own_cloth=None)
    for role in ROLES:
        picture = said.get(role, {}).get("picture")
        if picture and not OrderLine.objects.filter(_shows(picture)).exists():
            kept.forget(FOLDER, picture, "jpg")


def _shows(picture: str) -> Q:
    found = Q()
    for role in ROLES:
        found |= Q(**{f"own_cloth__{role}__picture": picture})
    return found
