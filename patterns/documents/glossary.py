"""Words of the sewing room, explained at the end of a book in which they occur."""

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Term:
    word: str
    says: str


# The pattern finds the word in the steps as they are worded, whatever its ending.
GLOSSARY: tuple[tuple[str, str, str], ...] = (
    (
        "backstitch",
        r"backstitch",
        "A few stitches back and forward again at the end of a seam, so that it cannot open.",
    ),
    (
        "baste",
        r"\bbast(?:e|ed|ing)\b",
        "Sew with long stitches that only hold, inside the seam allowance; they stay or come out.",
    ),
    (
        "binding",
        r"\bbinding",
        "A strip of cloth folded round a raw edge and sewn down, so that it cannot fray.",
    ),
    (
        "clip",
        r"\bclip(?:ped|s|ping)?\b",
        "As a mark: a short snip into the seam allowance. As a tool: a sewing clip, where a pin would go.",
    ),
    (
        "crease",
        r"\bcreas",
        "A sharp fold line, pressed or drawn with a finger, that stays when the cloth is opened.",
    ),
    (
        "edge stitching",
        r"edge[- ]stitch",
        "A row of stitches as close to an edge as the foot allows.",
    ),
    (
        "fuse",
        r"\bfus(?:e|ed|ible|ing)\b",
        "Press interfacing on to the wrong side until its glue holds, then let it cool flat.",
    ),
    ("hem", r"\bhem(?:s|med)?\b", "An edge that is folded over, mostly twice, and sewn down."),
    ("interfacing", r"interfacing", "A layer behind the cloth that makes it firmer."),
    ("pleat", r"\bpleat", "Cloth folded on itself and held in a seam."),
    (
        "press",
        r"\bpress(?:ed|es|ing)?\b",
        "Set the iron down, lift it and set it down again; do not push it along the cloth.",
    ),
    ("raw edge", r"raw edge", "The cut edge of the cloth, before anything is sewn."),
    (
        "right sides together",
        r"right sides? (?:together|facing)",
        "The two sides that will be seen lie against each other.",
    ),
    (
        "seam allowance",
        r"seam allowance|the allowance",
        "The cloth between the seam and the raw edge.",
    ),
    (
        "selvedge",
        r"selvedge|straight grain",
        "The firm edge at either side of the cloth, as it is woven; it is not cut into the pieces.",
    ),
    ("slider", r"\bslider", "The part of a zip that is drawn along its teeth, to open and to close it."),
    (
        "stay stitch",
        r"stay[- ]stitch",
        "Sew a row through one layer, inside the seam allowance, so that an edge does not stretch.",
    ),
    (
        "straight grain",
        r"straight grain",
        "The way the threads run, along the selvedge or square to it: a piece cut so keeps its shape.",
    ),
    ("tack", r"\btack(?:ed|ing)?\b", "Hold in place with a few stitches by hand."),
    (
        "topstitch",
        r"topstitch",
        "Sew a row that shows, on the right side, along a finished edge or seam.",
    ),
    ("webbing", r"\bwebbing", "A strong woven tape, bought ready, for handles."),
    ("wrong side", r"wrong sides?", "The side of the cloth that will not be seen."),
    (
        "wrong sides together",
        r"wrong sides? (?:together|facing)",
        "The two sides that will not be seen lie against each other.",
    ),
)


def terms_in(text: str) -> tuple[Term, ...]:
    """Return the terms that occur in the text, in the order of the alphabet."""
    return tuple(
        Term(word, says) for word, found_by, says in GLOSSARY if re.search(found_by, text, re.IGNORECASE)
    )
