"""What the owner writes of a pattern's next revision."""

from typing import Any

from django import forms
from django.utils import timezone

from patterns.drafting.recipe_text import MOST_BYTES
from patterns.models import LONGEST_REASON, Draft, Pattern
from patterns.publishing import PublishingError, sellable


class DraftForm(forms.Form):
    """A recipe text and why it is revised. It may be kept with its mistakes; it is published without any."""

    text = forms.CharField(
        label="Recipe text",
        strip=False,
        error_messages={"required": "There is no text. Write the whole recipe."},
    )
    reason = forms.CharField(
        label="Why it is revised",
        max_length=LONGEST_REASON,
        required=False,
        error_messages={
            "max_length": "The reason has %(show_value)d characters. Write at most %(limit_value)d."
        },
    )

    def __init__(self, pattern: Pattern, *args: Any, **kwargs: Any) -> None:
        self.pattern = pattern
        self.latest = pattern.latest_revision
        super().__init__(*args, **kwargs)

    def clean_text(self) -> str:
        text = str(self.cleaned_data["text"]).replace("\r\n", "\n")
        if self.latest is not None and text == self.latest.text:
            raise forms.ValidationError(
                f"This is revision {self.latest.number}, word for word. Change what is to be corrected."
            )
        try:
            sellable(text)
        except PublishingError as error:
            raise forms.ValidationError([str(mistake) for mistake in error.mistakes]) from None
        return text

    def clean_reason(self) -> str:
        reason = " ".join(str(self.cleaned_data["reason"]).split())
        if self.latest is not None and not reason:
            raise forms.ValidationError(
                "There is no reason. Write what was wrong, in words for the people who bought it."
            )
        return reason

    def keep(self) -> Draft:
        """Keep what was typed, mistakes and all, so that nothing of it is lost."""
        typed = {"text": self.data.get("text", ""), "reason": self.data.get("reason", "")} | self.cleaned_data
        text, reason = str(typed["text"]).replace("\r\n", "\n"), str(typed["reason"])[:LONGEST_REASON]
        kept = {"text": text[:MOST_BYTES], "reason": reason, "kept_at": timezone.now()}
        draft, _ = Draft.objects.update_or_create(pattern=self.pattern, defaults=kept)
        return draft
