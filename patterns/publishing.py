"""Publishing a recipe: only what reads without a mistake and is proved to true is sold.

The sizes that the shop shows by itself must be such as can be sewn.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from django.db import transaction

from patterns.addresses import RESERVED_KEYS
from patterns.documents.words import UNIT_WORDS
from patterns.drafting.errors import Mistake, MistakesError, RecipeTextError
from patterns.drafting.lengths import as_chosen
from patterns.drafting.lists import listed
from patterns.drafting.recipe import Recipe
from patterns.drafting.recipe_text import read_recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.truing import Proof, prove
from patterns.drafting.units import Units
from patterns.drawings.folding import FoldingError, follow
from patterns.drawings.folding.proving import sizes_to_follow
from patterns.models import Pattern, Revision
from patterns.templatetags.measures import plain_words


class PublishingError(MistakesError):
    """A recipe text that cannot be published; every mistake in it is listed."""


def publish(pattern: Pattern, text: str, reason: str = "") -> Revision:
    """Publish a recipe text as the newest revision of a pattern, and take its title, summary and form over.

    reason: why it takes the place of the one before. The same text as the newest revision's gives that
    revision again.
    Raises PublishingError with all mistakes: those of the text, or each truing that is not proved.
    """
    text = text.replace("\r\n", "\n")
    recipe = sellable(text)
    with transaction.atomic():
        Pattern.objects.select_for_update().get(pk=pattern.pk)  # one at a time
        latest = pattern.revisions.latest_of_each().first()
        if latest is None or latest.text != text:
            number = latest.number + 1 if latest else 1
            latest = Revision.objects.create(pattern=pattern, number=number, text=text, reason=reason)
        pattern.title, pattern.summary, pattern.form = recipe.title, recipe.summary, recipe.form
        pattern.save(update_fields=("title", "summary", "form"))
    pattern.latest_revisions = [latest]
    return latest


def sellable(text: str) -> Recipe:
    """Return the recipe of a text that may be published. Raises PublishingError with all mistakes."""
    try:
        recipe = read_recipe(text.replace("\r\n", "\n"))
    except RecipeTextError as error:
        raise PublishingError(error.mistakes) from None
    mistakes = (*_reserved(recipe), *_unproved(recipe), *_refused(recipe), *_unfollowed(recipe))
    if mistakes:
        raise PublishingError(mistakes)
    return recipe


def _reserved(recipe: Recipe) -> list[Mistake]:
    """What an address holds beside the recipe's names cannot be one of them."""
    named = [("measures", each.name) for each in recipe.measures]
    named += [("options", each.name) for each in recipe.options]
    return [
        Mistake(
            f"“{name}” is a word of the shop's own addresses. Choose another name.", key=f"{table}.{name}"
        )
        for table, name in named
        if name in RESERVED_KEYS
    ]


def _unproved(recipe: Recipe) -> Iterator[Mistake]:
    """Each truing that is not proved: how its sides differ, and a size that shows it."""
    for proof in prove(recipe):
        if proof.result != "proved":
            told = [_result(proof), _difference(proof), _worked_size(recipe, proof)]
            yield Mistake(" ".join(filter(None, told)), key="truings")


def _refused(recipe: Recipe) -> Iterator[Mistake]:
    """Each size that the shop shows by itself and the recipe refuses: its page's first, the named ones."""
    for units in Units:
        first: Mapping[str, Fraction] = {}
        shown = [("measures", "The size that its page opens with", first)]
        shown += [
            (f"sizes.{each.name}", f"The size “{each.name}”", each.values[units]) for each in recipe.sizes
        ]
        for key, what, values in shown:
            sized = size(recipe, "", units, values)
            if sized.is_refused:
                why = plain_words(sized.failed[0].otherwise, units)
                yield Mistake(f"{what} is refused in {UNIT_WORDS[units]}. {why}", key=key)


def _unfollowed(recipe: Recipe) -> Iterator[Mistake]:
    """Each step that cannot be followed with cloth: at the first size where it cannot."""
    found: dict[str, Mistake] = {}
    for sized in sizes_to_follow(recipe):
        try:
            follow(sized)
        except FoldingError as error:
            place = next(n for n, step in enumerate(recipe.steps, 1) if step.title == error.title)
            key = f"steps[{place}].work"
            message = (
                f"At {_size_words(sized)}, step {error.number} cannot be done. {error.title}: {error.amiss}"
            )
            found.setdefault(key, Mistake(message, key=key))
    yield from found.values()


def _size_words(sized: SizedPattern) -> str:
    sizes = [f"{each.name} {as_chosen(each.value, each.power, sized.units)}" for each in sized.measures]
    return listed([*sizes, *(f"{option} {choice}" for option, choice in sized.options.items())], "and")


def _result(proof: Proof) -> str:
    chosen = " and ".join(f"{option} {choice}" for option, choice in proof.options.items())
    where = f" with {chosen}" if chosen else ""
    what = "is false" if proof.result == "false" else "could not be proved"
    return f"The truing “{proof.truing.says}” {what}{where}: {proof.truing.one} is not {proof.truing.other}."


def _difference(proof: Proof) -> str:
    return f"The difference is {proof.difference}." if proof.difference else ""


def _worked_size(recipe: Recipe, proof: Proof) -> str:
    """`At width 9 in and depth 5 in, one side is 16 1⁄2 in and the other 17 in.`"""
    example = proof.example
    if example is None:
        return ""
    units = example.units
    sizes = [
        f"{name} {as_chosen(value, recipe.measure(name).power, units)}"
        for name, value in example.measures.items()
    ]
    one, other = (as_chosen(side, example.power, units) for side in (example.one, example.other))
    return f"At {listed(sizes, 'and')}, one side is {one} and the other {other}."
