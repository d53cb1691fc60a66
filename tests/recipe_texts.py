"""One recipe text in its canonical spelling that has something of everything, and a way to spoil it."""

from patterns.drafting.errors import RecipeTextError
from patterns.drafting.recipe_text import read_recipe

TEXT = """\
title = "Folding mat"
language = "en"
summary = "A mat that folds up."
skill = "Beginner"
time = "1 hour"
revised = "2026-11-20"
note = "Only for the tests."

[finished]
form = "open basket"
width = "width"
height = "height"
depth = "seam allowance"

[measures.width]
role = "size"
says = "Across."
in = { least = "3", most = "20", default = "9", step = "1/4" }
cm = { least = "8", most = "50", default = "23", step = "0.5" }

[measures.height]
role = "size"
says = "Up and down."
in = { least = "2", most = "20", default = "6", step = "1/4" }
cm = { least = "5", most = "50", default = "15", step = "0.5" }

[measures.folds]
role = "size"
says = "How often it is folded."
number = { least = "2", most = "5", default = "3", step = "1" }

[measures."seam allowance"]
role = "making"
says = "Beside every seam."
in = { least = "1/4", most = "1", default = "1/2", step = "1/8" }
cm = { least = "0.5", most = "2.5", default = "1", step = "0.1" }

[constants]
"least fold" = { in = "2", cm = "5" }
layers = "2"

[options.stiffening]
says = "What stiffens it."
default = "fleece"

[options.stiffening.choices.none]
sets = { thickness = { in = "0", cm = "0" } }

[options.stiffening.choices.fleece]
says = "Up to 3 mm thick."
sets = { thickness = { in = "1/8", cm = "0.3" }, "seam allowance" = { in = "5/8", cm = "1.5" } }

[options.print]
says = "Whether it has an upright way."
default = "no direction"

[options.print.choices."no direction"]

[options.print.choices."one way"]

[amounts]
"packed height" = "fold height × layers + thickness"
"fold height" = "height ÷ folds"

[pieces.mat]
from = "cloth"
cut = "2"
width = "width + 2 × seam allowance"
height = "height + 2 × seam allowance"
says = "One for each face."
upright = { print = ["one way"] }

[pieces.mat.marks."first fold"]
kind = "fold"
down = "seam allowance + fold height"
from = "seam allowance"
to = "mat width − seam allowance"
says = "On the wrong side."

[pieces.mat.marks.tie]
kind = "place"
down = "seam allowance"
across = "mat width ÷ 2"

[pieces.filling]
from = "fleece"
cut = "1"
width = "width"
height = "height"
when = { stiffening = ["fleece"], print = ["no direction", "one way"] }

[[truings]]
says = "across"
one = "mat width − 2 × seam allowance"
other = "width"

[[truings]]
says = "the filling fits"
one = "filling width"
other = "mat width − 2 × seam allowance"
when = { stiffening = ["fleece"] }

[[checks]]
level = "refuse"
says = "A fold is worth making."
holds = "fold height ≥ least fold"
otherwise = "A fold of {fold height} is too small."

[[checks]]
level = "advise"
says = "It is wider than high."
holds = "width ≥ height"
otherwise = "It is higher than wide."

[materials.cloth]
kind = "fabric"
tint = "exterior"
says = "Cotton, {layers} layers of it."

[materials.fleece]
kind = "interfacing"
when = { stiffening = ["fleece"] }

[materials.tape]
kind = "notion"
amount = "2 × (width + height)"

[[tells]]
says = "It packs to {packed height}."

[[steps]]
title = "Press"
does = "Press {layers} layers."

[[steps]]
title = "Sew"
does = "Sew along {fold height − seam allowance}."
shows = ["mat", "filling"]
cautions = ["iron"]
when = { stiffening = ["fleece"] }

[cautions.iron]
says = "Hot."

[sizes."For a tray"]
in = { width = "12", height = "8" }
cm = { width = "30", height = "20" }
"""


def changed(*swaps: tuple[str, str]) -> str:
    """Return the text with the first place of each first part, which must be there, written otherwise."""
    text = TEXT
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def mistakes(text: str | bytes) -> list[str]:
    """Return each mistake of a text as it is shown; none, if it can be read."""
    try:
        read_recipe(text)
    except RecipeTextError as error:
        return [str(mistake) for mistake in error.mistakes]
    return []
