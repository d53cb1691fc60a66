"""What the page of a pattern shows of a customer's own cloth."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from django.http import HttpRequest
from django.urls import reverse
from django.utils import timezone
from django.utils.safestring import SafeString, mark_safe

from patterns.addresses import size_query
from patterns.drafting.lengths import as_chosen
from patterns.drafting.sized import SizedPattern
from patterns.drawings.covering import ONE_WAY, tints_round_the_base
from patterns.drawings.errors import DrawingError
from patterns.drawings.prints import Print, Prints
from patterns.drawings.unrolled import unrolled_svg
from patterns.forms import MeasureForm, joined
from patterns.own_cloth import OwnCloth, OwnCloths, Role, cloths_of
from patterns.own_cloth_form import OwnClothForm
from patterns.picture_rules import CLOTH


@dataclass(frozen=True, slots=True)
class Warned:
    """What does not go with a print that has a direction. query: the size that does, if there is one."""

    text: str
    query: str


@dataclass(frozen=True, slots=True)
class Unrolled:
    role: Role
    strip: str
    drawing: SafeString


@dataclass(frozen=True, slots=True)
class OwnClothPage:
    """query: of the size. until: when the first of the pictures is gone. rules: what is taken, in words."""

    form: OwnClothForm
    cloths: OwnCloths
    unrolled: tuple[Unrolled, ...]
    warnings: tuple[Warned, ...]
    until: datetime | None
    query: str
    rules: str


def own_cloth_page(
    request: HttpRequest,
    slug: str,
    measures: MeasureForm,
    sized: SizedPattern,
    form: OwnClothForm | None = None,
) -> OwnClothPage:
    """Return what is shown at one size. form: with what was typed and its mistakes, if there are any."""
    cloths = cloths_of(request, slug, timezone.now())
    return OwnClothPage(
        form=form or OwnClothForm(measures.units, cloths),
        cloths=cloths,
        unrolled=tuple(_unrolled(sized, cloths)),
        warnings=tuple(_warnings(measures, sized, cloths)),
        until=min((cloth.until for cloth in cloths.cloths.values()), default=None),
        query=measures.page_query(),
        rules=CLOTH.limits_words,
    )


def prints_of(request: HttpRequest, slug: str) -> Prints:
    """Return the session's cloths of a pattern, as its drawings show them."""
    return shown_prints(cloths_of(request, slug, timezone.now()))


def shown_prints(cloths: OwnCloths) -> Prints:
    return {role: shown_print(cloth) for role, cloth in cloths.cloths.items()}


def shown_print(cloth: OwnCloth) -> Print:
    address = reverse("patterns:own-cloth-picture", args=[cloth.token])
    return Print(address, cloth.width, cloth.height)


def _unrolled(sized: SizedPattern, cloths: OwnCloths) -> Iterator[Unrolled]:
    for role, cloth in cloths.cloths.items():
        try:
            svg = unrolled_svg(sized, role, shown_print(cloth))
        except DrawingError:
            continue
        strip = as_chosen(cloth.width, 1, sized.units)
        yield Unrolled(role, strip, mark_safe(svg))  # noqa: S308 - our own drawing


def _warnings(measures: MeasureForm, sized: SizedPattern, cloths: OwnCloths) -> Iterator[Warned]:
    for role, text in one_way_warnings(sized, cloths).items():
        option = _option_of(role)
        yield Warned(text, _one_way_query(measures, option) if option in sized.options else "")


def one_way_warnings(sized: SizedPattern, cloths: OwnCloths) -> dict[Role, str]:
    """Return what a print with a direction asks for and this size does not do, for each side that has one."""
    return {
        role: _turned_words(sized, role)
        for role, cloth in cloths.cloths.items()
        if cloth.is_one_way and sized.options.get(_option_of(role)) != ONE_WAY
    }


def _option_of(role: Role) -> str:
    return f"{role} print"


def _turned_words(sized: SizedPattern, role: Role) -> str:
    if role in tints_round_the_base(sized):
        return (
            f"Your {role} print has a direction. One panel runs round under the base here, "
            "so the print stands upside down on one face."
        )
    return f"Your {role} print has a direction, but its pieces may be turned here to save cloth."


def _one_way_query(measures: MeasureForm, option: str) -> str:
    options = {**measures.options, option: ONE_WAY}
    size = size_query(measures.recipe, measures.units, measures.measures, options)
    return joined(size, measures.buying.query)
