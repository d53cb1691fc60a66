"""Reads the steps of one size as someone who sews: is everything there when it is needed?

A small vocabulary does it: names of pieces, marks and materials are the recipe's own; only the verbs of the
sewing room, and things that a step may ask for without being a material's name, are listed here.
"""

import re
from collections.abc import Iterable, Iterator

from patterns.drafting.recipe import Recipe
from patterns.drafting.sized import SizedMaterial, SizedPattern, SizedPiece, SizedStep
from tests.starters import said

CUTS = re.compile(r"\bcut\b(?!-)", re.IGNORECASE)
MARKS = re.compile(r"\b(?:draw|mark|snip)\b", re.IGNORECASE)
# A line that only shows where to fold is pressed or folded in, or cut out along it.
FOLDS_IN = re.compile(r"\b(?:fold|press|cut|sew|sewn?)\b", re.IGNORECASE)
FUSES = re.compile(r"\bfuse\b|\bglue side\b", re.IGNORECASE)

# The words before the noun of a mark that tell one of its kind from the others.
_WHICH = {"left", "right", "front", "back", "upper", "lower", "first", "third", "level", "upright", "turning"}
# Marks that are for whoever wants them, or that stand on the drawing only.
_FREE_MARKS = {"label place"}
# Marks that need not be drawn: they are pressed in, or sewn as far from the edge as the step says.
_MADE_OTHERWISE = {"middle fold", "quarter line", "end seam line", "base seam line"}
# What a mark is called in a step, where that is not its name: a clip is snipped, a quarter line is folded.
_SAID_OF_MARKS = {
    "clip": r"\bsnips?\b",
    "middle fold": r"\bmiddle folds?\b|\bmiddle crease\b|\bin half along its length\b",
    "half line": r"\bquarters?\b",
    "quarter line": r"\bquarters?\b|\bmiddle crease\b|\bmiddle fold\b",
    "end seam line": r"\blong\b",
    "seam line": r"\bseam lines?\b|\ba line\b",
    "side seam line": r"\bside seam lines?\b",
    "base seam line": r"\bbase edges?\b|\bbase seam\b",
    "zip centre": r"\bcentres?\b",
    "channel line": r"\bchannel lines?\b",
    "pocket mouth line": r"\bmouth line\b",
    "pocket lower line": r"\blower line\b",
    "mouth seam line": r"\bseam lines?\b",
    "pocket opening": r"\bopening\b",
}

# What a piece is called once it is cut.
_SAID_OF_PIECES = {
    "handle": r"\bhandles?\b|\bstrips?\b",
    "side": r"\b(?:ring|sides?)\b",
    "binding": r"\bbindings?\b",
}

# Things that a step asks for: each must stand in the list, in a name or in what is said of it.
_THINGS = (
    *("point turner", "zip foot", "non-stick foot", "wax pencil", "bodkin", "hand needle", "90/14", "pins"),
    *(
        "fabric glue",
        "cord stop",
        "sleeve board",
        "rolled towel",
        "tissue paper",
        "compass",
        "string",
        "chalk",
    ),
    *("ruler", "webbing", "ribbon", "cord", "zip", "vinyl", "fleece", "non-woven", "interfacing", "board"),
)
# What a step does → the material it takes for that.
_TAKES = {
    r"\b(?:press|fuse|iron)\b": "iron and ironing board",
    r"\b(?:cut|trim|snip)\b(?!-)": "cutting tools",
    r"\b(?:draw|mark|write)\b": "marking tool",
    r"\b(?:sew|topstitch|baste|edge-stitch|stitch)\b": "sewing machine",
    r"\bclips?\b(?! at| it in)": "sewing clips",
    r"\bby hand\b(?!\.)": "hand needle",
}
# How a material that is named otherwise, or never, shows that it is needed.
_USED_BY = {
    "sewing thread": r"\b(?:sew|topstitch|baste)\b",
    "machine needle": r"\b(?:sew|topstitch|baste)\b",
    "sewing machine": r"\b(?:sew|topstitch|baste)\b",
    "iron and ironing board": r"\b(?:press|fuse|iron)\b",
    "cutting tools": r"\b(?:cut|trim|snip)\b",
    "marking tool": r"\b(?:draw|mark|write)\b",
    "sewing clips": r"\bclip\b|\bclips\b",
    "pins": r"\bpins?\b",
    "hand needle": r"\bby hand\b",
    "string and pencil": r"\bstring and pencil\b",
    "cord stops": r"\bcord stop\b",
    "lighter": r"\bseal(?:ed)?\b",
    "lighter or seam sealant": r"\bseal(?:ed)?\b",
    "handle webbing": r"\bwebbing\b",
}
# What a step does → the caution that stands with it, if the recipe has it.
_WARNS = {
    r"\b(?:press|fuse|iron)\b(?! is| was)": "iron",
    r"(?<!are )\b(?:cut|trim|snip)\b(?!-)": "blade",
    r"(?<!you )\b(?:sew|topstitch|edge-stitch)\b": "needle",
    r"\bdraw (?:a|two|along|the (?:middle|front|seam|pocket))\b|(?<!the )\bmark (?:a|the|two)\b": "marking",
    r"\bclear vinyl\b|\bedge of the window\b": "vinyl",
    r"\b(?:lead one cord|ends of each cord)\b": "cord",
    r"\bseal(?:ed)?\b": "sealing",
}


def faults_in_order(recipe: Recipe, sized: SizedPattern) -> list[str]:
    """Return what someone who works through the steps would stumble over, in words."""
    texts = [f"{step.title}. {said(sized, step.does)}" for step in sized.steps]
    return [
        *_pieces(sized, texts),
        *_marks(sized, texts),
        *_things(sized, texts),
        *_materials(sized, texts),
        *_cautions(sized, texts),
        *_strangers(recipe, sized, texts),
    ]


def _first(texts: Iterable[str], pattern: str | re.Pattern[str]) -> int | None:
    return next((at for at, text in enumerate(texts) if re.search(pattern, text, re.IGNORECASE)), None)


def _cut_at(piece: SizedPiece, steps: tuple[SizedStep, ...], texts: list[str]) -> int | None:
    """The first step that shows the piece and cuts."""
    return next(
        (at for at, step in enumerate(steps) if piece.name in step.shows and CUTS.search(texts[at])), None
    )


def _pieces(sized: SizedPattern, texts: list[str]) -> Iterator[str]:
    """Every piece is cut before it is used, and is used."""
    kinds = {material.name: material.kind for material in sized.materials}
    for piece in sized.pieces:
        cut = _cut_at(piece, sized.steps, texts)
        if cut is None:
            yield f"The {piece.name} is never cut."
            continue
        # Not where the word only tells which edge, line or place it is, or what a step is good for.
        named = re.compile(rf"\b{piece.name}s?\b(?! edge| fold| line| centre| place)")
        for at in range(cut):
            doing, _, _ = said(sized, sized.steps[at].does).partition(" It is right when ")
            if piece.name in sized.steps[at].shows or named.search(doing):
                yield f"Step {at + 1} uses the {piece.name}, which step {cut + 1} cuts."
        used = FUSES if kinds[piece.material] == "interfacing" else re.compile(_called(piece), re.IGNORECASE)
        begin = cut if kinds[piece.material] == "interfacing" else cut + 1
        if not any(used.search(text) for text in texts[begin:]):
            yield f"The {piece.name} is cut and never used."


def _called(piece: SizedPiece) -> str:
    first, *_, last = ("", *piece.name.split()) if " " not in piece.name else piece.name.split()
    if last in _SAID_OF_PIECES:
        return _SAID_OF_PIECES[last]
    return rf"\b{first or last}\b" if first in ("exterior", "lining") else rf"\b{last}s?\b"


def noun_of(mark: str) -> str:
    """What is said of a mark without which of its kind it is: `left side seam line` → `side seam line`."""
    words = mark.split()
    while len(words) > 1 and words[0] in _WHICH:
        words = words[1:]
    return " ".join(words)


def _spoken(noun: str) -> str:
    return _SAID_OF_MARKS.get(noun, rf"\b{noun}s?\b")


def _marks(sized: SizedPattern, texts: list[str]) -> Iterator[str]:
    """Every mark is made, and no step speaks of one before."""
    nouns = dict.fromkeys(
        noun_of(mark.name) for piece in sized.pieces for mark in piece.marks if mark.name not in _FREE_MARKS
    )
    for noun in nouns:
        spoken = re.compile(_spoken(noun), re.IGNORECASE)
        made = next((at for at, text in enumerate(texts) if _makes(text, spoken, noun)), None)
        if made is None:
            yield f"The {noun} is never marked."
            continue
        # To clip is also to hold with a sewing clip; the mark of that name is snipped.
        plain = spoken if noun == "clip" else re.compile(rf"\b{noun}s?\b", re.IGNORECASE)
        for at, text in enumerate(texts[:made]):
            if plain.search(text):
                yield f"Step {at + 1} speaks of the {noun}, which step {made + 1} marks."


def _makes(text: str, spoken: re.Pattern[str], noun: str) -> bool:
    """Whether one sentence of a step says to mark it."""
    verbs = [MARKS, FOLDS_IN] if noun in _MADE_OTHERWISE else [MARKS]
    return any(
        spoken.search(sentence) and any(verb.search(sentence) for verb in verbs)
        for sentence in re.split(r"(?<=[.;]) ", text)
    )


def _listed(sized: SizedPattern) -> str:
    return "\n".join(f"{material.name}. {said(sized, material.says)}" for material in sized.materials).lower()


def _things(sized: SizedPattern, texts: list[str]) -> Iterator[str]:
    """Whatever a step asks for is in the list."""
    listed = _listed(sized)
    names = {material.name for material in sized.materials}
    for at, text in enumerate(texts, 1):
        for thing in _THINGS:
            if re.search(rf"\b{thing}s?\b", text, re.IGNORECASE) and thing.removesuffix("s") not in listed:
                yield f"Step {at} needs {thing}, which is not listed."
        if re.search(r"\bseal(?:ed)?\b", text) and "lighter" not in listed:
            yield f"Step {at} needs a lighter, which is not listed."
        for does, material in _TAKES.items():
            if re.search(does, text, re.IGNORECASE) and material not in names:
                yield f"Step {at} needs {material}, which is not listed."


def _materials(sized: SizedPattern, texts: list[str]) -> Iterator[str]:
    """Whatever is listed is cut from or used."""
    cut_from = {piece.material for piece in sized.pieces}
    told = [said(sized, tell) for tell in sized.tells]
    for material in sized.materials:
        pattern = _USED_BY.get(material.name, rf"\b{material.name}s?\b")
        places = [*texts, *told] if _is_optional(sized, material) else texts
        if material.name not in cut_from and _first(places, pattern) is None:
            yield f"The {material.name} is listed and never used."


def _is_optional(sized: SizedPattern, material: SizedMaterial) -> bool:
    return said(sized, material.says).startswith("If ")


def _cautions(sized: SizedPattern, texts: list[str]) -> Iterator[str]:
    """Where a step does what a caution is for, the caution stands."""
    known = {caution.name for caution in sized.cautions}
    for at, (step, text) in enumerate(zip(sized.steps, texts, strict=True), 1):
        doing = text.split(" It is right when ")[0]
        for does, caution in _WARNS.items():
            if caution in known and caution not in step.cautions and re.search(does, doing, re.IGNORECASE):
                yield f"Step {at}, “{step.title}”, is without the caution “{caution}”."


def _strangers(recipe: Recipe, sized: SizedPattern, texts: list[str]) -> Iterator[str]:
    """No step names a piece, mark or material that these options do not have. One word says too little."""
    here = {piece.name for piece in sized.pieces} | {material.name for material in sized.materials}
    here |= {noun_of(mark.name) for piece in sized.pieces for mark in piece.marks}
    all_names = {piece.name for piece in recipe.pieces} | {each.name for each in recipe.materials}
    all_names |= {noun_of(mark.name) for piece in recipe.pieces for mark in piece.marks}
    for name in sorted(name for name in all_names - here if " " in name):
        longer = [each for each in here if name in each and each != name]
        for at, text in enumerate(texts, 1):
            left = text
            for each in longer:
                left = re.sub(rf"\b{each}s?\b", "", left, flags=re.IGNORECASE)
            if re.search(rf"\b{name}s?\b", left, re.IGNORECASE):
                yield f"Step {at} speaks of the {name}, which these options do not have."
