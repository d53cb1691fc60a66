"""The size that an address asks for, where all of it was understood and it can be made."""

from dataclasses import dataclass

from django.http import HttpRequest

from patterns.cutting.wish import Wish
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.forms import MeasureForm
from patterns.models import Revision
from patterns.views import usual_currency, usual_units


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the address asks for. cloth: as the customer buys it. cloth_words: what of it is not the usual."""

    sized: SizedPattern
    cloth: Wish
    cloth_words: str


def chosen_size(request: HttpRequest, revision: Revision) -> Chosen | None:
    """Return what the address asks for; None unless all of it was understood and can be made."""
    form = MeasureForm(revision.recipe, request.GET, usual_units(request), usual_currency(request))
    if not form.is_all_read or form.notes:
        return None
    sized = size(form.recipe, revision.pattern.slug, form.units, form.measures, form.options)
    return None if sized.is_refused else Chosen(sized, form.buying.wish, form.buying.words)
