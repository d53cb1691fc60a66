"""What the owner writes about payments: a bank's reference, and what she gives back."""

import re
import secrets
from typing import Any

from django import forms

from orders.models import Payment
from orders.refunding import left_of
from patterns.money import amount, priced
from patterns.typed_numbers import typed_amount

KEY = re.compile(r"[A-Za-z0-9_-]{43}")


class ReferenceForm(forms.Form):
    """The bank's reference of a transfer that came, or that was sent back."""

    reference = forms.CharField(
        label="The bank’s reference",
        max_length=140,
        error_messages={
            "required": "There is no reference. Write what the bank shows for this transfer.",
            "max_length": "The reference has %(show_value)d characters. Write at most %(limit_value)d.",
        },
    )


class RefundForm(forms.Form):
    """How much goes back, and why. The key is the form's own: sent twice, it is one refund."""

    amount = forms.CharField(
        label="Amount", max_length=20, error_messages={"required": "There is no amount. Write how much."}
    )
    reason = forms.CharField(
        label="Why",
        max_length=300,
        error_messages={"required": "There is no reason. Write one, for your own records."},
    )
    key = forms.CharField(max_length=43, widget=forms.HiddenInput)

    def __init__(self, payment: Payment, *args: Any, **kwargs: Any) -> None:
        self.payment = payment
        self.left = left_of(payment)
        super().__init__(*args, **kwargs)
        self.fields["amount"].initial = amount(self.left, payment.currency)
        self.fields["key"].initial = secrets.token_urlsafe(32)

    @property
    def left_words(self) -> str:
        return priced(self.left, self.payment.currency)

    def clean_amount(self) -> int:
        return typed_amount(self.cleaned_data["amount"], self.payment.currency)

    def clean_key(self) -> str:
        key = str(self.cleaned_data["key"])
        if not KEY.fullmatch(key):
            raise forms.ValidationError("This form was not complete. Load the page again.")
        return key
