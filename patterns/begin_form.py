"""How the owner begins a pattern: from one that comes with the shop, from one of hers, or from nothing."""

from typing import Any, Final

from django import forms
from django.db import IntegrityError, transaction
from django.utils import timezone

from patterns import starters
from patterns.guide import example_text
from patterns.models import Draft, Pattern

_STARTER, _OWN, _EXAMPLE = "starter/", "own/", "example"
TAKEN: Final = "There is a pattern at this address already. Write another address, or correct that one."
NO_ADDRESS: Final = "There is no address. Write one of small letters, digits and hyphens: shelf-box."


class BeginForm(forms.Form):
    """What a new pattern begins with, and its address; empty takes that of the starter it begins with."""

    source = forms.ChoiceField(label="Begin with", required=False)
    slug = forms.SlugField(
        label="Its address",
        max_length=60,
        required=False,
        error_messages={
            "invalid": "“%(value)s” is not an address. Write small letters, digits and hyphens: shelf-box.",
            "max_length": "The address has %(show_value)d characters. Write at most %(limit_value)d.",
        },
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        own = Pattern.objects.published()
        self.fields["source"].choices = [  # type: ignore[attr-defined]
            ("", "an empty page"),
            (_EXAMPLE, "the short example of the guide"),
            *((_STARTER + slug, _titled(slug)) for slug in starters.slugs()),
            *((_OWN + each.slug, f"the text of your {each}") for each in own),
        ]
        self.fields["source"].error_messages["invalid_choice"] = "This cannot be begun with. Choose another."

    def clean_slug(self) -> str:
        source = str(self.cleaned_data.get("source", ""))
        of_starter = source.removeprefix(_STARTER) if source.startswith(_STARTER) else ""
        slug = str(self.cleaned_data["slug"]).lower() or of_starter
        if not slug:
            raise forms.ValidationError(NO_ADDRESS)
        if Pattern.objects.filter(slug=slug).exists():
            raise forms.ValidationError(TAKEN)
        return slug

    def begin(self) -> Pattern | None:
        """Keep the pattern and its first draft; None where another click has just taken the address."""
        text = self._text()
        try:
            with transaction.atomic():
                pattern = Pattern.objects.create(slug=self.cleaned_data["slug"])
                if text:
                    Draft.objects.create(pattern=pattern, text=text, kept_at=timezone.now())
        except IntegrityError:
            self.add_error("slug", TAKEN)
            return None
        return pattern

    def _text(self) -> str:
        source = str(self.cleaned_data["source"])
        if source == _EXAMPLE:
            return example_text()
        kind, _, slug = source.partition("/")
        if f"{kind}/" == _STARTER:
            return starters.text_of(slug)
        return Pattern.objects.get(slug=slug).revisions.latest_of_each().get().text if slug else ""


def _titled(slug: str) -> str:
    return f"{starters.read_starter(slug).title}, which comes with the shop"
