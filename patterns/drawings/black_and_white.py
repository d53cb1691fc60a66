"""A drawing in black ink alone, and little of it: for a printer without colours, or to save them.

Nothing is told apart by colour in our drawings, so only the grounds must stay apart: the right side of an
exterior keeps a light grey, its wrong side and every other ground are left white, hatch and dots stay.
"""

import re

from . import tokens

WHITE, BLACK = "#ffffff", "#000000"
# What reads as a line or as letters becomes black or a dark grey; what is a ground, white or a light grey.
GREYS = {
    tokens.PAPER: WHITE,
    tokens.SHEET: WHITE,
    tokens.INK: BLACK,
    tokens.QUIET_INK: "#3c3c3c",
    tokens.RULE: "#b4b4b4",
    tokens.PETROL: BLACK,
    tokens.BRICK: BLACK,
    tokens.OCHRE: BLACK,
    tokens.MOSS: BLACK,
    tokens.EXTERIOR: "#e8e8e8",
    tokens.EXTERIOR_SIDE: "#dadada",
    tokens.EXTERIOR_PALE: WHITE,
    tokens.LINING: WHITE,
    tokens.LINING_DEEP: WHITE,
    tokens.LINING_PALE: WHITE,
    tokens.INTERFACING: WHITE,
    tokens.INTERFACING_PALE: WHITE,
    tokens.REFUSED: WHITE,
    tokens.ADVISED: WHITE,
    tokens.WELL: WHITE,
    tokens.LINING_HATCH: "#8c8c8c",
    tokens.LINING_HATCH_PALE: "#c4c4c4",
    tokens.INTERFACING_DOTS: "#787878",
    tokens.INTERFACING_DOTS_PALE: "#b4b4b4",
}
COLOUR = re.compile(r'(?<==")#[0-9a-f]{6}(?=")')


def in_black_and_white(svg: str) -> str:
    """Return the same drawing without colours.

    Raises KeyError: it has a colour that `GREYS` does not name.

    >>> in_black_and_white('<path fill="#0f5c63"/>')
    '<path fill="#000000"/>'
    """
    return COLOUR.sub(lambda colour: GREYS[colour[0]], svg)
