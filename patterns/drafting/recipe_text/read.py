"""Recipe text → Recipe, with every mistake in it named."""

import re
from typing import Final, get_args

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.recipe import BoxRoom, Form, Recipe, RoundRoom
from patterns.drafting.spelling import nearest_spelling

from .bounds import bounded
from .instructions import (
    read_cautions,
    read_checks,
    read_materials,
    read_sizes,
    read_steps,
    read_tells,
    read_truings,
)
from .keys import shown
from .meaning import (
    look_for_circles,
    look_for_outlines,
    look_for_values,
    look_for_what_never_exists,
)
from .measures import read_constants, read_measures
from .options import read_options
from .pieces import declare_edges, read_amounts, read_pieces
from .reading import LENGTH, Reading
from .scan import parsed
from .table import Table

NEEDED: Final = ("title", "language", "summary", "skill", "time", "revised", "finished", "measures")
OPTIONAL: Final = (
    "note",
    "holds",
    "constants",
    "options",
    "amounts",
    "pieces",
    "truings",
    "checks",
    "materials",
    "tells",
    "steps",
    "cautions",
    "sizes",
)
_DIMENSIONS = ("width", "height", "depth")
# Language, then script, then region. Source: RFC 5646, the short forms of 2.1.
_LANGUAGE = re.compile(r"[a-z]{2,3}(?:-[A-Z][a-z]{3})?(?:-(?:[A-Z]{2}|[0-9]{3}))?")


def read_recipe(text: str | bytes) -> Recipe:
    """Return the recipe that a text writes.

    text: TOML within the bounds of `recipe_text`; bytes are UTF-8.
    Raises RecipeTextError with every mistake found, each with its key, its line and what to write. What is
    wrong as TOML is mended first: the rest is looked at only then.
    """
    found = parsed(bounded(text))
    reading = Reading(found)
    top = Table(reading, (), found.data).only(NEEDED, OPTIONAL)
    recipe = _recipe(top)
    look_for_circles(reading, recipe)
    look_for_what_never_exists(reading, recipe)
    look_for_values(reading, recipe)
    look_for_outlines(reading, recipe)
    if reading.mistakes:
        reading.refuse()
    return recipe


def _recipe(top: Table) -> Recipe:
    """Read all tables: first those that give names, then those that only use them."""
    _declare_things(top)
    measures = read_measures(top)
    constants = read_constants(top)
    options = read_options(top, measures)
    declare_edges(top, measures)
    amounts = read_amounts(top)
    pieces = read_pieces(top)
    return Recipe(
        title=top.line("title"),
        language=_language(top),
        summary=top.string("summary"),
        skill=top.line("skill"),
        time=top.line("time"),
        revised=top.day("revised"),
        form=top.table("finished").one_of("form", get_args(Form)),
        finished=_finished(top),
        measures=measures,
        constants=constants,
        options=options,
        amounts=amounts,
        pieces=pieces,
        truings=read_truings(top),
        checks=read_checks(top),
        materials=read_materials(top),
        tells=read_tells(top),
        steps=read_steps(top, pieces),
        cautions=read_cautions(top),
        sizes=read_sizes(top, measures),
        note=top.string("note"),
        holds=_holds(top),
    )


def _declare_things(top: Table) -> None:
    """Take into use the names that no formula reads."""
    reading = top.reading
    reading.materials, reading.pieces, reading.cautions = (
        {name: name for name, _ in top.table(things).names()}
        for things in ("materials", "pieces", "cautions")
    )


def _language(top: Table) -> str:
    words = top.line("language")
    if words.strip() and not _LANGUAGE.fullmatch(words):
        top.wrong(f"“{shown(words)}” is not a language code. Write one like en, en-GB or de.", "language")
    return words


def _finished(top: Table) -> tuple[Formula, Formula, Formula]:
    table = top.table("finished")
    if "finished" in top.data:
        table.only(("form", *_DIMENSIONS))
    return _dimensions(table)


def _holds(top: Table) -> BoxRoom | RoundRoom | None:
    """Read the room that can be filled; None if nothing is said of it."""
    if "holds" not in top.data:
        return None
    table = top.table("holds")
    if not any(nearest_spelling(name, (*_DIMENSIONS, "diameter")) == "diameter" for name in table.data):
        return BoxRoom(*_dimensions(table.only(_DIMENSIONS)))
    for name in ("width", "depth"):
        if name in table.data:
            message = f"What is round has no {name}. Take it out, or write width, height and depth alone."
            table.wrong(message, name)
    table.only(RoundRoom._fields, ("width", "depth"))
    return RoundRoom(table.formula("diameter", LENGTH), table.formula("height", LENGTH))


def _dimensions(table: Table) -> tuple[Formula, Formula, Formula]:
    width, height, depth = (table.formula(name, LENGTH) for name in _DIMENSIONS)
    return width, height, depth
