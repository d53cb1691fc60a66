"""What a basket costs now: every price is worked out here from the shop's records, never from a form."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from django.http import QueryDict
from django.utils.safestring import SafeString

from orders.models import TaxRate
from orders.models.tax import percent
from orders.tax import tax_within
from patterns.cutting.wish import Wish
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.finished import NARROW
from patterns.forms import MeasureForm
from patterns.models import Offer, Pattern, Revision
from patterns.money import money, priced
from patterns.own_cloth import NO_CLOTHS, OwnCloths
from patterns.own_cloth_page import one_way_warnings, shown_prints
from patterns.sale import Way, sale_now
from patterns.size_page import drawing
from studio.models import Shop

Kind = Offer.Kind


@dataclass(frozen=True, slots=True)
class Item:
    """What was put in the basket. query: the size, as the pattern's page has it in its address.

    kind: of the offer. has_batch: with the small-batch licence beside it. name: of this item, in this basket.
    """

    name: str
    slug: str
    query: str
    kind: str
    has_batch: bool


@dataclass(frozen=True, slots=True)
class PricedItem:
    """An item as it would be sold now. sizes: each one that a book is made for.

    tax_minor: the tax within price and licence together. own: the customer's own cloth, once it is known.
    """

    item: Item
    revision: Revision
    way: Way
    batch: Offer | None
    sized: SizedPattern
    sizes: tuple[SizedPattern, ...]
    size_names: tuple[str, ...]
    cloth: Wish
    cloth_words: str
    tax_minor: int
    own: OwnCloths = NO_CLOTHS

    @property
    def batch_minor(self) -> int:
        return self.batch.price_minor if self.batch else 0

    @property
    def gross_minor(self) -> int:
        return self.way.price_minor + self.batch_minor

    @property
    def gross(self) -> str:
        return money(self.gross_minor, self.way.currency)

    @property
    def drawing(self) -> SafeString | None:
        return drawing(self.sized, shown_prints(self.own), NARROW)

    @property
    def print_warnings(self) -> tuple[str, ...]:
        return tuple(one_way_warnings(self.sized, self.own).values())


@dataclass(frozen=True, slots=True)
class PricedBasket:
    """gone: sentences about what can no longer be had. milli_percent: the rate of the tax."""

    items: tuple[PricedItem, ...]
    gone: tuple[str, ...]
    currency: str
    tax_name: str
    milli_percent: int

    @property
    def total_minor(self) -> int:
        return sum(each.gross_minor for each in self.items)

    @property
    def tax_minor(self) -> int:
        return sum(each.tax_minor for each in self.items)

    @property
    def total(self) -> str:
        return money(self.total_minor, self.currency)

    @property
    def tax(self) -> str:
        return priced(self.tax_minor, self.currency)

    @property
    def tax_rate(self) -> str:
        return percent(self.milli_percent)

    @property
    def shown(self) -> str:
        """The total as a form carries it, to be compared: `650 GBP`."""
        return f"{self.total_minor} {self.currency}"


def priced_basket(items: Sequence[Item], shop: Shop, country: str, on: date) -> PricedBasket:
    """Return what the items cost in a country on a day. Sizes are worked out anew, a millisecond each."""
    rate = TaxRate.objects.valid(country, on) if shop.charges_tax and country else None
    milli_percent = rate.milli_percent if rate else 0
    found = [(item, _priced(item, shop, milli_percent)) for item in items]
    return PricedBasket(
        items=tuple(each for _, each in found if isinstance(each, PricedItem)),
        gone=tuple(each for _, each in found if isinstance(each, str)),
        currency=shop.currency,
        tax_name=shop.tax_name if rate else "",
        milli_percent=milli_percent,
    )


def _priced(item: Item, shop: Shop, milli_percent: int) -> PricedItem | str:
    """The item as it is sold now, or why it is not."""
    pattern = Pattern.objects.listed().with_latest_revision().filter(slug=item.slug).first()
    if pattern is None or pattern.latest_revision is None:
        return "A pattern in your basket is not sold any more, and was taken out of it."
    revision = pattern.latest_revision
    form = MeasureForm(revision.recipe, QueryDict(item.query), Units(shop.units), shop.currency)
    sized = None if not form.is_all_read or form.notes else _sized(form, pattern.slug)
    if sized is None or sized.is_refused:
        return f"{pattern} was revised, and cannot be made at the size in your basket. Choose the size again."
    sale = sale_now(pattern, revision.recipe, sized, shop.currency)
    way = sale.way(item.kind)
    if way is None or (item.has_batch and sale.batch is None):
        return f"{pattern} is not sold in the way that you chose any more. Choose again on its page."
    batch = sale.batch if item.has_batch else None
    names, sizes = _sizes(form, pattern.slug, sized, item.kind)
    if not sizes:
        return f"None of the named sizes of {pattern} can be made with the choices in your basket."
    gross = way.price_minor + (batch.price_minor if batch else 0)
    return PricedItem(
        item=item,
        revision=revision,
        way=way,
        batch=batch,
        sized=sized,
        sizes=sizes,
        size_names=names,
        cloth=form.buying.wish,
        cloth_words=form.buying.words,
        tax_minor=tax_within(gross, milli_percent),
    )


def _sized(form: MeasureForm, slug: str) -> SizedPattern:
    return size(form.recipe, slug, form.units, form.measures, form.options)


def _sizes(
    form: MeasureForm, slug: str, sized: SizedPattern, kind: str
) -> tuple[tuple[str, ...], tuple[SizedPattern, ...]]:
    """The sizes that books are made for, and their names: the one chosen, or all that the recipe names."""
    if kind != Kind.CHART:
        return (), (sized,)
    named = list(_named(form, slug))
    return tuple(name for name, _ in named), tuple(each for _, each in named)


def _named(form: MeasureForm, slug: str) -> Iterator[tuple[str, SizedPattern]]:
    """Each named size in the chosen units, with the chosen options; a size that these refuse is left out."""
    for named in form.recipe.sizes:
        sized = size(form.recipe, slug, form.units, named.values[form.units], form.options)
        if not sized.is_refused:
            yield named.name, sized
