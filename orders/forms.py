"""What a customer writes to order: a name and an address; and what the form itself carries."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from orders.errors import KeyUsedError, OrderError
from orders.keys import is_key, new_key
from patterns.documents.names import MOST_CHARACTERS, clean_name
from patterns.models import Pattern, Revision


def _email_field() -> forms.EmailField:
    return forms.EmailField(
        label="E-mail address",
        max_length=254,
        error_messages={
            "required": "There is no e-mail address. Write yours, like ada@example.org.",
            "invalid": "This is not an e-mail address. Write it like ada@example.org.",
            "max_length": "The address has %(show_value)d characters. Write at most %(limit_value)d.",
        },
    )


class LinksForm(forms.Form):
    """The address whose links are to be sent again."""

    email = _email_field()


class PersonForm(forms.Form):
    """Who an order is for: a name that can be printed, and an address that can be written to."""

    name = forms.CharField(
        label="Name on the book",
        max_length=MOST_CHARACTERS,
        error_messages={
            "required": "There is no name. Write the one that is to stand at the foot of each page.",
            "max_length": "The name has %(show_value)d characters. Write at most %(limit_value)d.",
        },
    )
    email = _email_field()

    def clean_name(self) -> str:
        name = clean_name(self.cleaned_data["name"])
        if not name:
            raise ValidationError("Nothing of this name can be printed. Write it in letters.")
        return name

    def clean_email(self) -> str:
        return str(self.cleaned_data["email"]).lower()


class OrderForm(PersonForm):
    """name and email are typed; the key and a revision's number travel with the form and are never seen.

    The revision is the one that the page showed, so that nobody orders what they have not seen.
    """

    key = forms.CharField(max_length=200, required=False)

    def __init__(self, pattern: Pattern, *args: Any, **kwargs: Any) -> None:
        self.pattern = pattern
        self.refusal: OrderError | None = None
        super().__init__(*args, **kwargs)

    def clean(self) -> None:
        """A key of someone's own making is refused: a customer's form must be the only one that has it."""
        if not is_key(self.cleaned_data.get("key", "")):
            raise ValidationError("This form was not complete. It is now: send it once more.", code="key")

    def refuse(self, error: OrderError) -> None:
        """Say why no order was placed. A form that has placed another one starts again."""
        self.add_error(None, str(error))
        self.refusal = error

    def key_to_send(self) -> str | None:
        """The key that a form which was sent is to carry now: its own, so long as that can place an order.

        None: it has not been sent yet.
        """
        if not self.is_bound:
            return None
        key = self.data.get("key", "")
        return key if is_key(key) and not isinstance(self.refusal, KeyUsedError) else new_key()

    def revision_seen(self) -> Revision:
        """The revision that the page showed; the one sold now if the form does not say."""
        number = self.data.get("revision", "")
        if number.isascii() and number.isdigit() and len(number) <= 9:
            seen = self.pattern.revisions.without_text().filter(number=int(number)).first()
            if seen is not None:
                return seen
        return self.revision_now()

    def revision_now(self) -> Revision:
        """The revision that is sold now."""
        latest = self.pattern.latest_revision
        assert latest is not None  # a pattern that can be seen has been published
        return latest
