"""Makers of patterns for the shop's own pages: keywords, fixed values, no randomness."""

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User

from patterns.models import Pattern
from patterns.publishing import publish
from patterns.starters import text_of

# A small recipe with all that a form can hold: lengths, a bare number, an option that sets a measure,
# a check that refuses, one that advises, a size chart.
SHELF_TEXT = """\
title = "Shelf box"
language = "en"
summary = "An open box for a shelf."
skill = "Beginner"
time = "1 hour"
revised = "2026-11-20"

[finished]
form = "open basket"
width = "width"
height = "height"
depth = "depth"

[measures.width]
role = "size"
says = "Along the front."
in = { least = "3", most = "20", default = "9", step = "1/4" }
cm = { least = "8", most = "50", default = "23", step = "0.5" }

[measures.height]
role = "size"
says = "From the shelf up."
in = { least = "2", most = "20", default = "6", step = "1/4" }
cm = { least = "5", most = "50", default = "15", step = "0.5" }

[measures.depth]
role = "size"
says = "From front to back."
in = { least = "2", most = "12", default = "5", step = "1/4" }
cm = { least = "5", most = "30", default = "12", step = "1" }

[measures."seam allowance"]
role = "making"
says = "At every seam."
in = { least = "1/4", most = "1", default = "1/2", step = "1/8" }
cm = { least = "0.5", most = "2.5", default = "1", step = "0.1" }

[measures."tape width"]
role = "making"
says = "Across the tape."
in = { least = "1/2", most = "2", default = "1", step = "1/8" }
cm = { least = "1", most = "5", default = "2.5", step = "0.1" }

[measures.handles]
role = "making"
says = "How many handles."
number = { least = "1", most = "4", default = "2", step = "1" }

[options.tape]
says = "What binds the edge."
default = "narrow"

[options.tape.choices.narrow]
says = "Thin and flat."
sets = { "tape width" = { in = "1", cm = "2.5" } }

[options.tape.choices."extra wide"]
sets = { "tape width" = { in = "1 1/2", cm = "4" } }

[amounts]
"triangle point" = "depth ÷ 2"

[pieces.panel]
from = "cloth"
cut = "2"
width = "width + depth + 2 × seam allowance"
height = "2 × height + depth + 2 × seam allowance"

[[truings]]
says = "front, base and back"
one = "panel height − 2 × seam allowance"
other = "2 × height + depth"

[[checks]]
level = "refuse"
says = "The triangle leaves room under the top edge."
holds = "height ≥ triangle point + seam allowance"
otherwise = "A height of {height} leaves no room above the triangle, which stands {triangle point}."

[[checks]]
level = "advise"
says = "The box is at least as high as it is deep."
holds = "height ≥ depth"
otherwise = "With a height of {height} the box looks squat."

[materials.cloth]
kind = "fabric"
tint = "exterior"
says = "Canvas."

[materials.tape]
kind = "notion"
says = "To bind the edge."
amount = "2 × (width + depth)"

[[tells]]
says = "Folds flat to {width + depth} × {height}."

[[steps]]
title = "Sew the sides"
does = "Sew both sides, {seam allowance} from the edge."
cautions = ["needle"]

[cautions.needle]
says = "Keep your fingers clear of the needle."

[sizes."For tins"]
in = { width = "8", height = "5", depth = "4" }
cm = { width = "20", height = "13", depth = "10" }
"""

MakePattern = Callable[..., Pattern]


@pytest.fixture
def make_pattern(db: None) -> MakePattern:
    def make(slug: str = "shelf-box", text: str | None = SHELF_TEXT, is_listed: bool = True) -> Pattern:
        pattern = Pattern.objects.create(slug=slug, is_listed=is_listed)
        if text is not None:
            publish(pattern, text)
        return pattern

    return make


@pytest.fixture
def basket(make_pattern: MakePattern) -> Pattern:
    return make_pattern("fold-flat-basket", text_of("fold-flat-basket"))


@pytest.fixture
def owner(db: None) -> User:
    return User.objects.create_superuser("owner", password="one long password for the owner")
