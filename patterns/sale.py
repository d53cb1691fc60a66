"""How one size of a pattern can be had now, and what each way costs."""

from collections.abc import Iterable
from dataclasses import dataclass

from patterns.drafting.recipe import Recipe
from patterns.drafting.sized import SizedPattern
from patterns.models import Offer, Pattern
from patterns.money import money

Kind = Offer.Kind


@dataclass(frozen=True, slots=True)
class Way:
    """One offer at this size. price_minor: nothing where this size is the free one."""

    offer: Offer
    price_minor: int
    currency: str

    @property
    def price(self) -> str:
        return money(self.price_minor, self.currency)

    @property
    def name(self) -> str:
        return "This size" if self.offer.kind in Offer.BY_SIZE else str(self.offer.get_kind_display())


@dataclass(frozen=True, slots=True)
class Sale:
    """ways: those that can be had, this size by itself first. batch: the licence that goes beside any."""

    ways: tuple[Way, ...]
    batch: Offer | None

    @property
    def is_free(self) -> bool:
        """Whether this very size costs nothing."""
        return self.free is not None

    @property
    def free(self) -> Way | None:
        """The way in which it costs nothing."""
        return next((way for way in self.ways if way.price_minor == 0), None)

    @property
    def free_size(self) -> str:
        """The named size that costs nothing, where the others have a price; empty where there is none."""
        one_free = self.way(Kind.ONE_FREE)
        return one_free.offer.size_name if one_free else ""

    @property
    def is_on_sale(self) -> bool:
        return bool(self.ways)

    @property
    def least(self) -> Way | None:
        """The cheapest way to this very size; None where only the whole size chart is sold."""
        ways = [way for way in self.ways if way.offer.kind != Kind.CHART]
        return min(ways, key=lambda way: way.price_minor, default=None)

    def way(self, kind: str) -> Way | None:
        return next((way for way in self.ways if way.offer.kind == kind), None)


def sale_of(recipe: Recipe, sized: SizedPattern, offers: Iterable[Offer], currency: str) -> Sale:
    """Return how a size can be had. offers: the pattern's own that are on sale."""
    by_kind = {offer.kind: offer for offer in offers}
    kinds = [*Offer.BY_SIZE, *([Kind.CHART] if recipe.sizes else []), Kind.YEAR]
    ways = [Way(each, _price(each, recipe, sized), currency) for kind in kinds if (each := by_kind.get(kind))]
    return Sale(tuple(ways), by_kind.get(Kind.BATCH) if ways else None)


def sale_now(pattern: Pattern, recipe: Recipe, sized: SizedPattern, currency: str) -> Sale:
    """Return how a size can be had by what the shop's records say now."""
    return sale_of(recipe, sized, Offer.objects.on_sale(currency).filter(pattern=pattern), currency)


def offers_on_sale(pattern: Pattern) -> list[Offer]:
    """The offers that `Pattern.objects.with_offers` brought."""
    brought: list[Offer] = getattr(pattern, "offers_on_sale")  # noqa: B009 - an attribute of the queryset's
    return brought


def is_named_size(recipe: Recipe, name: str, sized: SizedPattern) -> bool:
    """Whether a size has the measures of the recipe's named size, in the units it was chosen in."""
    row = next((named.values.get(sized.units) for named in recipe.sizes if named.name == name), None)
    return bool(row) and all(sized.values.get(measure) == value for measure, value in (row or {}).items())


def catalogue_price(offers: Iterable[Offer]) -> str:
    """Return what the list says: `Free`, `£6.50`, `Size “Small” free, others £6.50`, `From £6.50`."""
    on_sale = [offer for offer in offers if offer.kind != Kind.BATCH]
    if not on_sale:
        return "Not for sale now"
    by_kind = {offer.kind: offer for offer in on_sale}
    if Kind.FREE in by_kind:
        return "Free"
    if one_free := by_kind.get(Kind.ONE_FREE):
        return f"Size “{one_free.size_name}” free, others {one_free.price}"
    least = min(on_sale, key=lambda offer: offer.price_minor)
    return f"From {least.price}" if len(on_sale) > 1 else least.price


def _price(offer: Offer, recipe: Recipe, sized: SizedPattern) -> int:
    if offer.kind == Kind.ONE_FREE and is_named_size(recipe, offer.size_name, sized):
        return 0
    return offer.price_minor
