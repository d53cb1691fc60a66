"""What somebody looks for in the list of patterns, read from the address: `?words=zip&kind=pouch`."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Final, Literal

from django import forms
from django.utils.http import urlencode
from django.utils.text import slugify

from patterns.addresses import shortened
from patterns.drafting.known_things import KNOWN_THINGS, KnownThing

LONGEST_WORDS: Final = 80
FREE, PAID = "free", "paid"
Price = Literal["", "free", "paid"]

THINGS: Final = {slugify(thing.name): thing for thing in KNOWN_THINGS}


@dataclass(frozen=True, slots=True)
class Search:
    """What is looked for; what is empty leaves nothing out. holds: the key of a thing in `THINGS`."""

    words: str = ""
    kind: str = ""
    holds: str = ""
    price: str = ""

    @property
    def thing(self) -> KnownThing | None:
        return THINGS.get(self.holds)

    @property
    def asked(self) -> dict[str, str]:
        """The parts that leave something out, as the address has them."""
        parts = {"words": self.words, "kind": self.kind, "holds": self.holds, "price": self.price}
        return {key: value for key, value in parts.items() if value}

    @property
    def query(self) -> str:
        return urlencode(self.asked)

    def without(self, key: str) -> "Search":
        return replace(self, **{key: ""})

    def holding(self, thing: str) -> "Search":
        """The search for what holds a thing, in place of words. thing: its key in `THINGS`."""
        return replace(self, words="", holds=thing)

    def in_words(self, key: str) -> str:
        """Return one part as a person says it: `“zip”`, `pouch`, `A5 sheets`, `paid`."""
        value = self.asked[key]
        return {"words": f"“{value}”", "holds": THINGS[value].name if key == "holds" else ""}.get(key, value)


class ChosenField(forms.Field):
    """One of the keys of a list, or nothing."""

    def __init__(self, label: str, first: str, choices: Iterable[tuple[str, str]]) -> None:
        self.first, self.choices = first, tuple(choices)
        super().__init__(label=label, required=False)

    def to_python(self, text: str | None) -> str:
        if text and text not in dict(self.choices):
            raise forms.ValidationError(f"“{shortened(text)}” is not in the list, so it was not looked for.")
        return text or ""


class WordsField(forms.Field):
    """A box for words, in any order."""

    longest = LONGEST_WORDS

    def to_python(self, text: str | None) -> str:
        words = " ".join((text or "").split())
        if len(words) > LONGEST_WORDS or not words.isprintable():
            raise forms.ValidationError(
                f"“{shortened(words)}” is more than can be looked for. "
                f"Write words of {LONGEST_WORDS} letters at most together."
            )
        return words


class CatalogueForm(forms.Form):
    """The boxes above the list. What cannot be read is left out, and said.

    kinds: those that the shop has.
    """

    def __init__(self, query: Mapping[str, str], kinds: Iterable[str]) -> None:
        super().__init__(query)
        self.fields.update(
            {
                "words": WordsField(label="Words", required=False),
                "kind": ChosenField(
                    "What it is", "Anything", ((kind, kind.capitalize()) for kind in sorted(set(kinds)))
                ),
                "holds": ChosenField(
                    "What it holds", "Anything", ((key, each.name) for key, each in THINGS.items())
                ),
                "price": ChosenField(
                    "Price", "Free or paid", ((FREE, "Free, or free in one size"), (PAID, "Paid"))
                ),
            }
        )
        self.is_valid()

    @property
    def choice_fields(self) -> list[forms.BoundField]:
        return [self[key] for key in ("kind", "holds", "price")]

    @property
    def search(self) -> Search:
        return Search(**self.cleaned_data)

    @property
    def notes(self) -> list[str]:
        return [str(message) for messages in self.errors.values() for message in messages]
