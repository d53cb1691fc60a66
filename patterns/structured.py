"""What a pattern is, in the words of schema.org, for machines that read its page."""

import json
from collections.abc import Sequence
from typing import Any, Final

from django.utils.safestring import SafeString, mark_safe

from patterns.catalogue import ranges_of
from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units
from patterns.models import Pattern
from patterns.money import amount
from patterns.sale import Sale, Way

# Written as JSON writes any sign, so that no text of a recipe can end the block or begin a comment in it.
_IN_A_BLOCK: Final = {ord(sign): f"\\u{ord(sign):04x}" for sign in "<>&"}


def product(
    pattern: Pattern,
    recipe: Recipe,
    sale: Sale,
    units: Units,
    address: str,
    shop_name: str,
    images: Sequence[str] = (),
) -> dict[str, Any]:
    """Return a pattern as a Product, with an Offer for each way to have the size that its page shows.

    address: of the pattern's own page, whole. images: addresses of its photographs, whole.
    Only what the page itself says; no reviews, no ratings.
    """
    facts = [("Skill", recipe.skill), ("Time to make", recipe.time), *ranges_of(recipe, units)]
    about = {
        "@context": "https://schema.org",
        "@type": "Product",
        "@id": address,
        "url": address,
        "name": pattern.title,
        "description": pattern.summary,
        "category": "Sewing pattern",
        "sku": pattern.slug,
        "additionalProperty": [
            {"@type": "PropertyValue", "name": name, "value": value} for name, value in facts
        ],
    }
    offers = [_offer(way, address, shop_name) for way in sale.ways]
    shown = {"image": list(images)} if images else {}
    return about | shown | ({"offers": offers} if offers else {})


def data_block(data: dict[str, Any]) -> SafeString:
    """Return data as a block of a page. A browser runs none of it, so the content policy lets it stand.

    >>> data_block({"name": "</script>"})
    '<script type="application/ld+json">{"name": "\\\\u003c/script\\\\u003e"}</script>'
    """
    text = json.dumps(data, ensure_ascii=False).translate(_IN_A_BLOCK)
    return mark_safe(f'<script type="application/ld+json">{text}</script>')  # noqa: S308 - escaped above


def _offer(way: Way, address: str, shop_name: str) -> dict[str, Any]:
    return {
        "@type": "Offer",
        "name": way.name,
        "price": amount(way.price_minor, way.currency),
        "priceCurrency": way.currency,
        "availability": "https://schema.org/InStock",
        "url": address,
        "seller": {"@type": "Organization", "name": shop_name},
    }
