"""`manage.py from-cloth`: the largest size of a recipe that can be cut from the cloth that somebody has."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Any

from django.core.management.base import CommandParser

from patterns.cutting.from_cloth import FromCloth, Laid, from_cloth
from patterns.cutting.ladder import PROPORTIONS, VOLUME
from patterns.cutting.sharing import Cloth
from patterns.cutting.sheets import MOST_SHEETS
from patterns.drafting.formulas.grammar import tidy_name
from patterns.drafting.lengths import as_chosen, written
from patterns.drafting.recipe import Recipe
from patterns.drafting.units import Units
from patterns.management.arguments import ArgumentError, read_measures, read_options, whole_number
from patterns.management.extents import read_extent
from patterns.management.printing import Json, printed_values
from patterns.management.script import Once, ScriptCommand, add_size_arguments, read_recipe_named

ONE_WAY = "one way"


class Command(ScriptCommand):
    help = "Finds the largest size of a recipe that can be cut from the cloth you have. Changes nothing."

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        add_size_arguments(parser)
        parser.add_argument(
            "--cloth",
            nargs="+",
            action="extend",
            required=True,
            metavar="[MATERIAL:]AxB[*N]",
            help="A piece of cloth, across and along, and how many of it, like 18x21*2.",
        )
        parser.add_argument(
            "--keep",
            action=Once,
            default=PROPORTIONS,
            help=f"{PROPORTIONS}; the names of all size measures but one; or {VOLUME}, for the most of it.",
        )
        parser.add_argument(
            "--one-way", action="store_true", help="The print of exterior and lining has an up and a down."
        )

    def answer(self, **options: Any) -> bool:
        slug, recipe = read_recipe_named(options["recipe"])
        units = Units(options["units"])
        # A size may follow the cloth: none of its words is a piece of it.
        pairs = [word for word in options["cloth"] if "=" in word]
        cloth = list(_cloth(recipe, (word for word in options["cloth"] if "=" not in word), units))
        measures = read_measures(recipe, [*options["measures"], *pairs], units)
        chosen = _chosen(recipe, options["option"], options["one_way"])
        keep = _kept(options["keep"])
        found = from_cloth(recipe, units, cloth, keep, measures, chosen)
        if options["json"]:
            self.write_json(_json(slug, recipe, units, keep, found))
        else:
            self.stdout.write("\n".join(_lines(recipe, units, cloth, found)))
        return found.measures is not None


def _cloth(recipe: Recipe, words: Iterable[str], units: Units) -> Iterator[Cloth]:
    """The cloth, sheet by sheet: `exterior-fabric:18x21*2` is two of them."""
    for word in words:
        material, is_for_one, extent = word.rpartition(":")
        sides, is_counted, times = extent.partition("*")
        copies = whole_number("--cloth", times, MOST_SHEETS) if is_counted else 1
        name = tidy_name(material.replace("-", " ")) if is_for_one else None
        if name is not None:
            _is_fabric(recipe, name)
        width, height = read_extent(sides, 2, units)
        yield from [Cloth(width, height, name)] * copies


def _is_fabric(recipe: Recipe, name: str) -> None:
    fabrics = [material.name for material in recipe.materials if material.kind == "fabric"]
    if name not in fabrics:
        raise ArgumentError(f"“{name}” is no fabric of this pattern. There are: {', '.join(fabrics)}.")


def _chosen(recipe: Recipe, words: Sequence[str], is_one_way: bool) -> Mapping[str, str]:
    chosen = read_options(recipe, words)
    if not is_one_way:
        return chosen
    prints = [each.name for each in recipe.options if any(choice.name == ONE_WAY for choice in each.choices)]
    for name in prints:
        if chosen.get(name, ONE_WAY) != ONE_WAY:
            raise ArgumentError(f"“{name}” is given twice: by --option and by --one-way. Give it once.")
    return {**chosen, **dict.fromkeys(prints, ONE_WAY)}


def _kept(text: str) -> str | tuple[str, ...]:
    names = tuple(tidy_name(name.replace("-", " ")) for name in text.split(","))
    return names[0] if names in ((PROPORTIONS,), (VOLUME,)) else names


def _json(slug: str, recipe: Recipe, units: Units, keep: str | tuple[str, ...], found: FromCloth) -> Json:
    return {
        "recipe": slug,
        "units": units.value,
        "keep": keep if isinstance(keep, str) else ",".join(keep),
        "measures": _measures(recipe, found.measures, units),
        "pieces": [
            {
                "name": piece.name,
                "from": piece.material,
                "cut": piece.cut,
                **printed_values({"width": (piece.width, 1), "height": (piece.height, 1)}, units),
            }
            for piece in found.pieces
        ],
        "placements": [_placement(each, units) for each in found.placements],
        "next": _measures(recipe, found.larger, units),
        "proved": found.proved,
        "open": [_measures(recipe, each, units) for each in found.still_open],
    }


def _measures(recipe: Recipe, measures: Mapping[str, Fraction] | None, units: Units) -> Json | None:
    if measures is None:
        return None
    return printed_values({name: (value, recipe.powers[name]) for name, value in measures.items()}, units)


def _placement(laid: Laid, units: Units) -> Json:
    sides = printed_values(
        {"x": (laid.x, 1), "y": (laid.y, 1), "width": (laid.width, 1), "height": (laid.height, 1)}, units
    )
    return {"piece": laid.piece, "sheet": laid.sheet, **sides, "turned": laid.turned}


def _lines(recipe: Recipe, units: Units, cloth: Sequence[Cloth], found: FromCloth) -> list[str]:
    if found.measures is None:
        return [
            recipe.title,
            "  No size of it can be laid on this cloth.",
            *_open_lines(recipe, units, found),
        ]
    lines = [f"{recipe.title}: {_written(recipe, found.measures, units)}"]
    for number, sheet in enumerate(cloth):
        size = " × ".join(written(side, 1, units).text for side in (sheet.width, sheet.height))
        lines.append(f"  Cloth {number + 1}, {size}:")
        laid = [each for each in found.placements if each.sheet == number]
        lines += [f"    {_laid_words(each, units)}" for each in laid] or ["    nothing"]
    return [*lines, *_open_lines(recipe, units, found)]


def _laid_words(laid: Laid, units: Units) -> str:
    width, height, x, y = (written(each, 1, units).text for each in (laid.width, laid.height, laid.x, laid.y))
    turned = ", turned" if laid.turned else ""
    return f"{laid.piece}: {width} × {height}{turned}; {x} across from the left edge, {y} along"


def _open_lines(recipe: Recipe, units: Units, found: FromCloth) -> list[str]:
    if found.proved:
        return ["  Every larger size is shown to be impossible."]
    shown = [f"    {_written(recipe, each, units)}" for each in found.still_open]
    return [f"  Larger sizes neither laid out nor shown to be impossible: {found.how_many_open:,}.", *shown]


def _written(recipe: Recipe, measures: Mapping[str, Fraction], units: Units) -> str:
    return ", ".join(
        f"{name} {as_chosen(value, recipe.powers[name], units)}" for name, value in measures.items()
    )
