"""The guide to the recipe text names all that the reader takes, and its examples are read."""

from pathlib import Path

import pytest
from django.test import Client
from django.urls import reverse

from patterns.drafting.formulas.formula import Formula
from patterns.drafting.recipe_text import read_recipe, write_recipe
from patterns.drafting.recipe_text.table import Table
from patterns.drafting.work import VERBS
from patterns.guide import example_text
from patterns.guide.parts import FORMULAS, PARTS
from patterns.guide.work import SAYS, words
from patterns.publishing import sellable
from patterns.starters import slugs, text_of
from tests.orders.conftest import owner_client as owner_client
from tests.orders.conftest import words_of

BREAD_TRAY = (Path(__file__).parent / "starters" / "bread_tray.toml").read_text(encoding="utf-8")
# Tables whose keys are names.
NAMED = {
    *("measures", "constants", "options", "choices", "amounts", "pieces", "marks", "materials", "cautions"),
    "sizes",
}


def path_of(key: tuple[str | int, ...]) -> str:
    """`("pieces", "panel", "marks", "fold")` as the guide writes it: `pieces.*.marks.*`."""
    parts: list[str] = []
    for part in key:
        if isinstance(part, int):
            parts.append("[]")
        else:
            parts.append("*" if parts and parts[-1] in NAMED else part)
    return ".".join(parts)


@pytest.fixture
def taken(monkeypatch: pytest.MonkeyPatch) -> dict[str, set[str]]:
    """The keys that the reader takes in each table, found while all our texts are read."""
    found: dict[str, set[str]] = {}
    only = Table.only

    def noted(table: Table, needed: tuple[str, ...], optional: tuple[str, ...] = ()) -> Table:
        found.setdefault(path_of(table.key), set()).update(needed, optional)
        return only(table, needed, optional)

    monkeypatch.setattr(Table, "only", noted)
    for text in (BREAD_TRAY, example_text(), *map(text_of, slugs())):
        read_recipe(text)
    return found


def test_guide_names_every_key_and_no_other(taken: dict[str, set[str]]) -> None:
    told = {part.path: {key.name for key in part.keys} for part in PARTS if part.keys}
    of_work = taken.pop("steps.[].work.[]")
    # What a length or a range in two systems looks like is told with the key that holds it.
    ranges = {"measures.*.in", "measures.*.cm", "measures.*.number"}
    assert all(taken.pop(path) == {"least", "most", "default", "step"} for path in ranges)
    lengths = [path for path in taken if taken[path] == {"in", "cm"} and path != "sizes.*"]
    assert {path.split(".")[0] for path in lengths} == {"constants", "options"}
    assert told == {path: keys for path, keys in taken.items() if path not in lengths}
    assert of_work <= {key for grammar in VERBS.values() for key in grammar.kinds}


def test_every_word_of_the_steps_is_explained() -> None:
    assert list(SAYS) == list(VERBS)
    assert all(word.says for word in words())


@pytest.mark.parametrize("formula", [formula for formula, _ in FORMULAS])
def test_formulas_of_the_guide_are_read(formula: str) -> None:
    assert str(Formula.read(formula)) == formula


def test_example_can_be_published_and_is_in_the_one_spelling() -> None:
    assert write_recipe(sellable(example_text())) == example_text()


def test_page_shows_it_all(owner_client: Client, client: Client) -> None:
    page = reverse("patterns:recipe-guide")
    read = words_of(owner_client.get(page))
    for part in PARTS:
        assert part.title in read
    assert (
        "holds = &quot;height ≤ smaller of (width, depth) ÷ 2&quot;"
        in owner_client.get(page).content.decode()
    )
    assert Client().get(page).status_code == 302
