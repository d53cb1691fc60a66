"""The owner's form of how one pattern is sold: all its offers at once, because they must fit together."""

from dataclasses import dataclass
from typing import Any

from django import forms
from django.db import transaction

from patterns.models import Offer, Pattern
from patterns.models.offers import LONGEST_LICENCE, validate_licence
from patterns.money import amount
from patterns.typed_numbers import typed_amount

Kind = Offer.Kind
NOT_BY_SIZE = "none"
PERSONAL = (
    "You may sew as many as you like from this pattern, for yourself and as gifts. "
    "You may not sell what you sew from it, nor pass the files on."
)
BATCH = (
    "You may sell up to 100 things a year that you have sewn from this pattern yourself. "
    "You may not pass the files on, nor have others sew from them."
)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the form. key: begins the names of its boxes. kinds: the offers that it keeps."""

    key: str
    title: str
    says: str
    kinds: tuple[str, ...]
    licence: str


SIZE = Part("size", "Size by size", "A customer gets the one size they chose.", Offer.BY_SIZE, PERSONAL)
BESIDE = (
    Part("chart", "The whole size chart", "Every named size of the pattern.", (Kind.CHART,), PERSONAL),
    Part("year", "Any size for a year", "As often as the customer wants.", (Kind.YEAR,), PERSONAL),
    Part("batch", "A small-batch licence", "Beside any of the others.", (Kind.BATCH,), BATCH),
)
PARTS = (SIZE, *BESIDE)


class Price(forms.CharField):
    """A price in the shop's currency, read to minor units."""

    def __init__(self, currency: str, **kwargs: Any) -> None:
        self.currency = currency
        super().__init__(max_length=20, required=False, **kwargs)

    def clean(self, value: Any) -> int | None:
        text = super().clean(value)
        if not text:
            return None
        minor = typed_amount(text, self.currency)
        if minor == 0:
            raise forms.ValidationError("A price of nothing is “Free in every size”: choose that instead.")
        return minor


class OffersForm(forms.Form):
    """by_size, free_size, and for each part its price and its licence; `is_…` says whether it is on sale."""

    def __init__(self, pattern: Pattern, currency: str, *args: Any, **kwargs: Any) -> None:
        self.pattern, self.currency = pattern, currency
        self.kept = {offer.kind: offer for offer in pattern.offers.all()}
        latest = pattern.latest_revision
        self.sizes = [named.name for named in latest.recipe.sizes] if latest else []
        super().__init__(*args, **kwargs)
        self.fields["by_size"] = forms.ChoiceField(
            label=SIZE.title,
            choices=self._by_size(),
            initial=self._now(),
            error_messages={"invalid_choice": "This is not a way to sell. Choose one of those below."},
        )
        self.fields["free_size"] = forms.ChoiceField(
            label="The size that is free",
            choices=[(name, name) for name in self.sizes],
            required=False,
            initial=self._kept(SIZE).size_name,
            error_messages={"invalid_choice": "The pattern has no size of this name. Choose one below."},
        )
        for part in PARTS:
            self._add(part)

    def _by_size(self) -> list[tuple[str, str]]:
        kinds = [kind for kind in Offer.BY_SIZE if kind != Kind.ONE_FREE or self.sizes]
        return [*((kind.value, kind.label) for kind in kinds), (NOT_BY_SIZE, "Not size by size")]

    def _now(self) -> str:
        kinds = [kind for kind in Offer.BY_SIZE if kind in self.kept and self.kept[kind].is_on_sale]
        return kinds[0] if kinds else NOT_BY_SIZE

    def _kept(self, part: Part) -> Offer:
        """The part's offer: the one on sale, else one that was, else a blank."""
        kept = [self.kept[kind] for kind in part.kinds if kind in self.kept]
        return min(kept, key=lambda each: (not each.is_on_sale, each.price_minor == 0), default=Offer())

    def _add(self, part: Part) -> None:
        offer = self._kept(part)
        if part is not SIZE:
            is_on_sale = bool(offer.pk) and offer.is_on_sale
            self.fields[f"is_{part.key}"] = forms.BooleanField(
                label="On sale", required=False, initial=is_on_sale
            )
        is_current = offer.currency == self.currency and offer.price_minor
        self.fields[f"{part.key}_price"] = Price(
            self.currency,
            label=f"Price in {self.currency}",
            initial=amount(offer.price_minor, self.currency) if is_current else "",
        )
        self.fields[f"{part.key}_licence"] = forms.CharField(
            label="Licence",
            max_length=LONGEST_LICENCE,
            validators=[validate_licence],
            required=False,
            initial=offer.licence or part.licence,
        )

    def clean(self) -> None:
        by_size = self.cleaned_data.get("by_size")
        if by_size == Kind.ONE_FREE and not self.cleaned_data.get("free_size"):
            self._say("free_size", "Choose the size that is free.")
        for part in PARTS:
            if self._is_wanted(part):
                self._want_whole(part, needs_price=part is not SIZE or by_size != Kind.FREE)
        if self._is_wanted(BESIDE[2]) and not any(self._is_wanted(part) for part in (SIZE, *BESIDE[:2])):
            self._say("is_batch", "The licence goes beside another offer. Put one of them on sale as well.")
        if self._is_wanted(BESIDE[0]) and not self.sizes:
            self._say("is_chart", "This pattern has no named sizes, so there is no size chart to sell.")

    def _is_wanted(self, part: Part) -> bool:
        if part is SIZE:
            return self.cleaned_data.get("by_size") not in (None, NOT_BY_SIZE)
        return bool(self.cleaned_data.get(f"is_{part.key}"))

    def _want_whole(self, part: Part, *, needs_price: bool) -> None:
        if needs_price and not self.cleaned_data.get(f"{part.key}_price"):
            self._say(f"{part.key}_price", f"There is no price for “{part.title}”. Write one.")
        if not self.cleaned_data.get(f"{part.key}_licence"):
            self._say(f"{part.key}_licence", f"There is no licence for “{part.title}”. Write two sentences.")

    def _say(self, field: str, message: str) -> None:
        if field not in self.errors:
            self.add_error(field, message)

    def save(self) -> None:
        """Keep the offers. One that is taken off sale keeps its price, and stays with what was sold."""
        by_size = self.cleaned_data["by_size"]
        with transaction.atomic():
            # First, because one at most of them may be on sale at any moment.
            self.pattern.offers.filter(kind__in=Offer.BY_SIZE).exclude(kind=by_size).update(is_on_sale=False)
            if by_size != NOT_BY_SIZE:
                self._keep(SIZE, by_size)
            for part in BESIDE:
                if self._is_wanted(part):
                    self._keep(part, part.kinds[0])
                else:
                    self.pattern.offers.filter(kind=part.kinds[0]).update(is_on_sale=False)

    def _keep(self, part: Part, kind: str) -> None:
        is_free = kind == Kind.FREE
        values = {
            "is_on_sale": True,
            "size_name": self.cleaned_data["free_size"] if kind == Kind.ONE_FREE else "",
            "price_minor": 0 if is_free else self.cleaned_data[f"{part.key}_price"],
            "currency": "" if is_free else self.currency,
            "licence": self.cleaned_data[f"{part.key}_licence"],
        }
        Offer.objects.update_or_create(pattern=self.pattern, kind=kind, defaults=values)

    @property
    def beside(self) -> list[dict[str, Any]]:
        """The parts that are ticked, each with its boxes."""
        return [
            {
                "part": part,
                "is_on": self[f"is_{part.key}"],
                "price": self[f"{part.key}_price"],
                "licence": self[f"{part.key}_licence"],
            }
            for part in BESIDE
            if part.key != "chart" or self.sizes
        ]
