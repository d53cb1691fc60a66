"""`manage.py prove`: whether a recipe's truings hold for every size, for people or for scripts."""

from typing import Any

from patterns.drafting.lengths import as_chosen
from patterns.drafting.recipe import Recipe
from patterns.drafting.truing import Example, Proof, prove
from patterns.management.printing import Json, printed_values
from patterns.management.script import ScriptCommand, read_recipe_named

_WORDS = {"proved": "proved", "false": "NOT TRUE", "undecided": "not proved"}


class Command(ScriptCommand):
    help = "Proves the truings of a recipe for every size. Changes nothing."

    def answer(self, **options: Any) -> bool:
        slug, recipe = read_recipe_named(options["recipe"])
        proofs = prove(recipe)
        if options["json"]:
            self.write_json(as_json(slug, recipe, proofs))
        else:
            self.stdout.write("\n".join(_lines(recipe, proofs)))
        return _all_hold(proofs)


def as_json(slug: str, recipe: Recipe, proofs: tuple[Proof, ...]) -> Json:
    """Return what the command prints, as commands.md lays it down."""
    return {
        "recipe": slug,
        "holds": _all_hold(proofs),
        "truings": [_truing(recipe, proof) for proof in proofs],
    }


def _all_hold(proofs: tuple[Proof, ...]) -> bool:
    return all(proof.result == "proved" for proof in proofs)


def _truing(recipe: Recipe, proof: Proof) -> Json:
    return {
        "says": proof.truing.says,
        "options": dict(proof.options),
        "one": str(proof.truing.one),
        "other": str(proof.truing.other),
        "result": proof.result,
        "difference": None if proof.difference is None else str(proof.difference),
        "example": None if proof.example is None else _example(recipe, proof.example),
    }


def _example(recipe: Recipe, example: Example) -> Json:
    measures = {name: (value, recipe.powers[name]) for name, value in example.measures.items()}
    sides = {"one": (example.one, example.power), "other": (example.other, example.power)}
    return {
        "units": example.units.value,
        "measures": printed_values({**measures}, example.units),
        **printed_values({**sides}, example.units),
    }


def _lines(recipe: Recipe, proofs: tuple[Proof, ...]) -> list[str]:
    lines = [recipe.title]
    for proof in proofs:
        lines += _answer(recipe, proof)
    if not proofs:
        return [*lines, "It has no truings: nothing to prove."]
    wrong = sum(proof.result != "proved" for proof in proofs)
    return [
        *lines,
        "All are proved, for every size." if not wrong else f"{wrong} of {len(proofs)} are not proved.",
    ]


def _answer(recipe: Recipe, proof: Proof) -> list[str]:
    options = ", ".join(f"{option}: {choice}" for option, choice in proof.options.items())
    lines = [f"  {_WORDS[proof.result]:10}  {proof.truing.says}{f' ({options})' if options else ''}"]
    if proof.result != "proved":
        lines.append(f"              {proof.truing.one} is to be {proof.truing.other}")
    if proof.difference is not None:
        lines.append(f"              the first less the second is {proof.difference}")
    if proof.example is not None:
        lines.append(f"              {_shown(recipe, proof.example)}")
    return lines


def _shown(recipe: Recipe, example: Example) -> str:
    measures = ", ".join(
        f"{name} {as_chosen(value, recipe.powers[name], example.units)}"
        for name, value in example.measures.items()
    )
    one, other = (as_chosen(side, example.power, example.units) for side in (example.one, example.other))
    return f"at {measures}: {one} and {other}"
