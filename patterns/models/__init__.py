"""What is sold: patterns, their published recipes, and the offers that say how they are sold."""

from patterns.models.drafts import Draft
from patterns.models.offers import Offer, OfferQuerySet
from patterns.models.pattern import (
    LONGEST_REASON,
    RECIPES_KEPT,
    Pattern,
    PatternQuerySet,
    Revision,
    RevisionQuerySet,
    kept_recipe,
    may_see_unlisted,
)
from patterns.models.photographs import LONGEST_ALT, MOST_PHOTOGRAPHS, Photograph

__all__ = (
    "LONGEST_ALT",
    "LONGEST_REASON",
    "MOST_PHOTOGRAPHS",
    "RECIPES_KEPT",
    "Draft",
    "Offer",
    "OfferQuerySet",
    "Pattern",
    "PatternQuerySet",
    "Photograph",
    "Revision",
    "RevisionQuerySet",
    "kept_recipe",
    "may_see_unlisted",
)
