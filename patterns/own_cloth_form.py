"""What a customer sends of their own cloth: a picture for each side, and how wide the strip on it is."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict
from django.utils.datastructures import MultiValueDict

from patterns.drafting.lengths import as_chosen, typed
from patterns.drafting.units import Units
from patterns.own_cloth import ROLES, OwnCloth, OwnCloths, Role, TooManyError, keep_picture
from patterns.picture_reading import pictures_of, too_heavy
from patterns.picture_rules import CLOTH, MadeFile
from patterns.typed_numbers import is_empty, typed_length

# In mm. Narrower is no cloth, wider no picture that shows a print.
LEAST_STRIP, MOST_STRIP = Fraction(5), Fraction(2000)
# How much of the picture is used, in hundredths of each side.
PARTS: Final = ((100, "All of it"), (75, "The middle three quarters"), (50, "The middle half"))
TOO_MANY: Final = "So many pictures came from your connection that no more are taken in this hour."


class StripField(forms.Field):
    """How wide the strip is that the picture shows; gives mm, exact, or None where nothing is written."""

    def __init__(self, units: Units) -> None:
        self.units = units
        super().__init__(label="How wide the strip in the picture is", required=False)

    def to_python(self, text: str | None) -> Fraction | None:
        if is_empty(text):
            return None
        strip = typed_length(text, self.units)
        if not LEAST_STRIP <= strip <= MOST_STRIP:
            least, most = ("1/4 in", "78 in") if self.units is Units.INCHES else ("0.5 cm", "200 cm")
            raise ValidationError(
                f"{as_chosen(strip, 1, self.units)} cannot be shown. Write {least} to {most}."
            )
        return strip


@dataclass(frozen=True, slots=True)
class RoleFields:
    """The boxes of one side. shown: the cloth that is there already."""

    role: Role
    shown: OwnCloth | None
    picture: forms.BoundField
    strip: forms.BoundField
    part: forms.BoundField
    one_way: forms.BoundField


class OwnClothForm(forms.Form):
    """shown: what is there already; its picture stays where none is sent.

    dropped: the boxes whose files were too large to be taken in.
    """

    def __init__(
        self,
        units: Units,
        shown: OwnCloths,
        data: QueryDict | None = None,
        files: MultiValueDict[str, Any] | None = None,
        dropped: set[str] | None = None,
    ) -> None:
        self.units, self.shown, self.dropped = units, shown, dropped or set()
        self.made: dict[Role, MadeFile] = {}
        super().__init__(data, files)
        for role in ROLES:
            self._add(role, shown.cloths.get(role))
        self.fields["on_cover"] = forms.BooleanField(
            label="Show it on the cover of my book", required=False, initial=shown.is_on_cover
        )

    def _add(self, role: Role, shown: OwnCloth | None) -> None:
        self.fields[f"{role}_picture"] = forms.FileField(
            label=f"Picture of the {role} cloth", required=False, allow_empty_file=True
        )
        self.fields[f"{role}_strip"] = StripField(self.units)
        self.fields[f"{role}_part"] = forms.TypedChoiceField(
            label="Which part of the picture",
            choices=PARTS,
            coerce=int,
            initial=100,
            empty_value=None,
            required=False,
            error_messages={"invalid_choice": "This is no part of the list. Choose one of those below."},
        )
        self.fields[f"{role}_one_way"] = forms.BooleanField(
            label="This print has a direction", required=False, initial=bool(shown and shown.is_one_way)
        )
        if shown:
            self.fields[f"{role}_strip"].initial = typed(shown.width, 1, self.units)

    @property
    def roles(self) -> list[RoleFields]:
        return [
            RoleFields(
                role,
                self.shown.cloths.get(role),
                *(self[f"{role}_{each}"] for each in ("picture", "strip", "part", "one_way")),
            )
            for role in ROLES
        ]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for role in ROLES:
            self._clean_role(role, cleaned)
        has_any = self.shown or any(cleaned.get(f"{role}_picture") for role in ROLES)
        if not has_any and not self.errors:
            self.add_error("exterior_picture", "There is no picture. Choose one of a cloth.")
        return cleaned

    def _clean_role(self, role: Role, cleaned: Mapping[str, Any]) -> None:
        sent, strip = cleaned.get(f"{role}_picture"), cleaned.get(f"{role}_strip")
        if f"{role}_picture" in self.dropped:
            self.add_error(f"{role}_picture", too_heavy(CLOTH))
            return
        if sent is not None:
            try:
                wanted = replace(CLOTH, hundredths=cleaned.get(f"{role}_part") or 100)
                (self.made[role],) = pictures_of(sent, wanted)
            except ValidationError as error:
                self.add_error(f"{role}_picture", error)
        elif strip is not None and role not in self.shown.cloths:
            self.add_error(
                f"{role}_picture", f"There is no picture to this width. Choose one of the {role} cloth."
            )
        if strip is None and f"{role}_strip" not in self.errors and (sent or role in self.shown.cloths):
            self.add_error(
                f"{role}_strip",
                f"Write how wide the strip is that the picture shows, measured on the {role} cloth.",
            )

    def cloths(self, source: str, now: datetime) -> OwnCloths | None:
        """Keep the pictures and return all cloths; None, with a mistake in the form, if that is refused."""
        try:
            found = {role: cloth for role in ROLES if (cloth := self._cloth(role, source, now))}
        except TooManyError:
            self.add_error(None, TOO_MANY)
            return None
        return OwnCloths(found, self.cleaned_data["on_cover"])

    def _cloth(self, role: Role, source: str, now: datetime) -> OwnCloth | None:
        before, made = self.shown.cloths.get(role), self.made.get(role)
        if made is None and before is None:
            return None
        said = {
            "strip": str(self.cleaned_data[f"{role}_strip"]),
            "is_one_way": self.cleaned_data[f"{role}_one_way"],
        }
        if made is None and before is not None:
            return replace(before, **said)
        assert made is not None
        return OwnCloth(
            token=keep_picture(made, source, now), width_px=made.width, height_px=made.height, **said
        )
