import pytest

from patterns.drafting.lists import listed


@pytest.mark.parametrize(
    ("words", "expected"),
    [(["one"], "one"), (["one", "two"], "one and two"), (["one", "two", "three"], "one, two and three")],
)
def test_words_as_a_list(words: list[str], expected: str) -> None:
    assert listed(words, "and") == expected
