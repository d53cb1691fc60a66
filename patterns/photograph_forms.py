"""What the owner sends and writes of a photograph."""

from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict

from patterns.models import LONGEST_ALT, MOST_PHOTOGRAPHS, Pattern, Photograph
from patterns.photographs import ThereAlreadyError, add
from patterns.picture_reading import pictures_of, too_heavy
from patterns.picture_rules import PHOTOGRAPH

NO_ALT: Final = "There is no description. Write in a few words what the photograph shows."


class AltField(forms.CharField):
    """What a photograph shows, in one line."""

    def __init__(self, label: str) -> None:
        errors = {"required": NO_ALT, "max_length": f"Write at most {LONGEST_ALT} characters."}
        super().__init__(label=label, max_length=LONGEST_ALT, error_messages=errors)

    def to_python(self, value: Any) -> Any:
        return " ".join(str(value or "").split())


class AddForm(forms.Form):
    """A photograph to add. dropped: the boxes whose files were too large to be taken in."""

    picture = forms.FileField(
        label="Photograph",
        error_messages={
            "required": "There is no photograph. Choose a file.",
            "empty": "The file is empty. Choose another.",
        },
    )
    alt = AltField("What it shows")

    def __init__(self, pattern: Pattern, *args: Any, dropped: set[str] | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.pattern, self.dropped = pattern, dropped or set()
        if "picture" in self.dropped:
            self.fields["picture"].error_messages["required"] = too_heavy(PHOTOGRAPH)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if self.pattern.photographs.count() >= MOST_PHOTOGRAPHS:
            raise ValidationError(
                f"There are {MOST_PHOTOGRAPHS} photographs, and more are not shown. Remove one first."
            )
        if "picture" in cleaned:
            try:
                self.made = pictures_of(cleaned["picture"], PHOTOGRAPH)
            except ValidationError as error:
                self.add_error("picture", error)
        return cleaned

    def save(self) -> Photograph | None:
        """Keep the photograph; None, with a mistake in the form, if it is there already."""
        try:
            return add(self.pattern, self.made, self.cleaned_data["alt"])
        except ThereAlreadyError:
            self.add_error("picture", "This photograph is there already. Choose another.")
            return None


class DescribeForm(forms.Form):
    """Other words for a photograph that is there. Its box is named by the photograph's number."""

    def __init__(self, photograph: Photograph, data: QueryDict | None = None) -> None:
        super().__init__(data, initial={"alt": photograph.alt}, prefix=f"photograph-{photograph.pk}")
        self.photograph = photograph
        self.fields["alt"] = AltField("What it shows")

    def save(self) -> None:
        self.photograph.alt = self.cleaned_data["alt"]
        self.photograph.save(update_fields=["alt"])
