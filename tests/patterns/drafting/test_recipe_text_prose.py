import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.drafting.errors import Mistake
from patterns.drafting.recipe_text.prose import Braced, braced


@pytest.mark.parametrize(
    ("words", "parts"),
    [
        ("", []),
        ("Sew.", ["Sew."]),
        ("{width}", [Braced("width", 1)]),
        ("Flat: {a + b} × {c}.", ["Flat: ", Braced("a + b", 7), " × ", Braced("c", 17), "."]),
        ("{a}{b}", [Braced("a", 1), Braced("b", 4)]),
    ],
)
def test_words_and_formulas_come_in_order(words, parts):
    assert list(braced(words)) == parts


@given(st.text("ab {}", max_size=12))
def test_what_is_not_wrong_is_the_whole_text(words):
    parts = list(braced(words))
    if not any(isinstance(part, Mistake) for part in parts):
        assert "".join(part if isinstance(part, str) else f"{{{part.words}}}" for part in parts) == words
