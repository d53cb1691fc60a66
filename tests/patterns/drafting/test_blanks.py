from fractions import Fraction

import pytest
from hypothesis import given

from patterns.drafting.formulas.blanks import Gap, blanks
from patterns.drafting.formulas.grammar import read
from patterns.drafting.formulas.names import names
from patterns.drafting.formulas.tree import Name, Node, Number
from tests.strategies import trees


def filled(text: str, known: dict[str, str] | None = None) -> str:
    """The formula with its gaps shown as boxes."""
    nodes = {name: Name(number) for name, number in (known or {}).items()}
    return "".join(f"[{part.name}]" if isinstance(part, Gap) else part for part in blanks(read(text), nodes))


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("width", "[width]"),
        ("2 × (width + depth)", "2 × ([width] + [depth])"),
        ("width + depth + 2 × seam allowance", "[width] + [depth] + 2 × [seam allowance]"),
        ("√(height² − (depth ÷ 2)²)", "√(([height])² − ([depth] ÷ 2)²)"),
        ("smaller of (opening at most, width ÷ 2)", "smaller of (5, [width] ÷ 2)"),
        ("round up (width ÷ 3, to opening at most)", "round up ([width] ÷ 3, to 5)"),
        ("height ≥ opening at most and width < 3", "[height] ≥ 5 and [width] < 3"),
        ("1/2 × width", "1/2 × [width]"),
    ],
)
def test_names_become_gaps_and_known_numbers_stand_there(text: str, shown: str) -> None:
    assert filled(text, {"opening at most": "5"}) == shown


def test_two_gaps_in_turn_leave_no_empty_text() -> None:
    assert blanks(read("width"), {}) == (Gap("width"),)
    assert all(blanks(Number(Fraction(3)), {}))


@given(trees)
def test_every_name_has_its_gaps_and_no_other(tree: Node) -> None:
    found = {part.name for part in blanks(tree, {}) if isinstance(part, Gap)}
    assert found == names(tree)
