"""What a customer writes and ticks to buy: who it is for, how they pay, and what they agree to."""

from typing import Any

from django import forms

from orders import consents
from orders.countries import country_choices
from orders.forms import PersonForm
from orders.keys import is_key
from orders.models import Payment
from orders.providers import card_provider
from studio.models import Shop

# No answer is as long; a session is no place for more.
LONGEST_TYPED = 300
TRANSFER_WORDS = "By bank transfer: your files are yours when the money has come"


def ways_to_pay(shop: Shop) -> list[tuple[str, str]]:
    """Return how this shop can be paid, each with its words; none where the owner has set up none."""
    card = card_provider(shop)
    ways = [(card.name, card.words)] if card else []
    return [*ways, (Payment.TRANSFER, TRANSFER_WORDS)] if shop.transfer_details.strip() else ways


class BuyerForm(PersonForm):
    """name, email, country; way: asked only where there is more than one."""

    country = forms.ChoiceField(
        label="Country",
        choices=country_choices,
        error_messages={
            "required": "There is no country. Choose the one where you live.",
            "invalid_choice": "This is not a country of the list. Choose the one where you live.",
        },
    )

    def __init__(self, shop: Shop, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.ways = ways_to_pay(shop)
        if len(self.ways) > 1:
            self.fields["way"] = forms.ChoiceField(
                label="How you pay",
                choices=self.ways,
                error_messages={
                    "required": "Choose how you want to pay.",
                    "invalid_choice": "This is not a way to pay here. Choose one of those below.",
                },
            )

    @property
    def typed(self) -> dict[str, str]:
        """What stands in the boxes that were sent, for the basket to keep; a mistake as it was typed."""
        self.is_valid()
        sent = [name for name in self.fields if name in self.data]
        return {name: str(self.cleaned_data.get(name, self.data[name]))[:LONGEST_TYPED] for name in sent}

    @property
    def who(self) -> dict[str, str]:
        """What was typed, as the basket keeps it."""
        only = self.ways[0][0] if self.ways else ""
        return {name: str(self.cleaned_data.get(name, only)) for name in ("name", "email", "country", "way")}


class CheckForm(forms.Form):
    """The last page: the consents that are asked for, the key, and the total that was shown."""

    key = forms.CharField(max_length=200, required=False)
    shown = forms.CharField(max_length=40, required=False)

    def __init__(self, asks_consents: bool, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.consents = consents.CONSENTS if asks_consents else ()
        for each in self.consents:
            self.fields[each.key] = forms.BooleanField(
                label=each.says, error_messages={"required": each.missing}
            )

    def clean_key(self) -> str:
        key = str(self.cleaned_data["key"])
        if not is_key(key):
            raise forms.ValidationError("This page was not complete. It is now: send it once more.")
        return key

    @property
    def consent_fields(self) -> list[forms.BoundField]:
        return [self[each.key] for each in self.consents]
