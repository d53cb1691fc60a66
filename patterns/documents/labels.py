"""The labels of drawings, each set in one go.

WeasyPrint gives every letter of a text in an SVG a layout of its own, so that it could stand anywhere and be
turned by itself. Our labels are plain lines of text from one place. Set in one go they save a twentieth of a
book’s time, a seventh of a template’s and a twelfth of the file, and are kerned as the words beside them are.
"""

from collections.abc import Iterator
from typing import Any, Final

# The renderer whose way with letters is known. With any other, labels are set letter by letter, as it does.
KNOWN: Final = "70."
# What a label may have besides its words, of its own or from the drawing round it. Anything else may be meant
# for single letters.
PLAIN: Final = frozenset(
    {"x", "y", "font-size", "font-family", "fill", "role", "stroke-linejoin", "text-anchor", "transform"}
)


class _Whole(str):
    """A label that is walked through in one step: to the renderer all of it is one letter."""

    __slots__ = ()

    def __iter__(self) -> Iterator[str]:
        yield str(self)


def set_in_one_go(weasyprint: Any) -> bool:
    """Have the renderer lay out each plain label of a drawing once; say whether it does so now.

    Its function for text walks `for letter in node.text`, and lays out what it gets: so it is handed the text
    of a plain label as `_Whole`. It is known by its tags, and asked for by its name when boxes are measured:
    both are replaced, once. Nothing is replaced in a version that is not known.
    """
    svg = weasyprint.svg
    if not weasyprint.__version__.startswith(KNOWN):
        return False
    letter_by_letter = svg.text
    if getattr(letter_by_letter, "sets_in_one_go", False):
        return True

    def text(drawing: Any, node: Any, font_size: float) -> None:
        if node.text and is_plain(node.attrib):
            node._etree_node.text = _Whole(node.text)
        letter_by_letter(drawing, node, font_size)

    text.sets_in_one_go = True  # type: ignore[attr-defined]
    svg.text = text
    svg.TAGS.update({tag: text for tag, draws in svg.TAGS.items() if draws is letter_by_letter})
    return True


def is_plain(attributes: Any) -> bool:
    """Whether a text is a line of words from one place: nothing is said of single letters."""
    return all(
        name in PLAIN and not (name in ("x", "y") and len(str(value).replace(",", " ").split()) != 1)
        for name, value in attributes.items()
    )
