"""Words and numbers into markup: how a template sets text in which lengths stand.

A fraction is written with U+2044, which the text face turns into a true fraction by itself. A number is never
parted from its fraction or its unit at the end of a line: no-break spaces hold it together.
"""

import re
from functools import cache
from pathlib import Path

from django.template import Context, Engine, Library
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

TEMPLATES = Path(__file__).parents[2] / "templates"

# What a template shows where a name in it means nothing: no font has it, so such a document fails.
UNKNOWN = "\ue000"

# A number as it is written: `≈ 8 1⁄2 in`.
NUMBER = re.compile(
    r"(?:≈ )?(?:\d[\d.]* )?\d+⁄\d+(?: (?:in|cm|mm)[²³]?(?!\w))?|(?:≈ )?\d[\d.]*(?: (?:in|cm|mm|l)[²³]?(?!\w))"
)
# Between the sides of what is measured: `7 in × 6 in`.
TIMES = re.compile(r"(?<=\w) × (?=≈?\u00a0?\d)")

# Where steps are named by their numbers: `step 7`, `Steps 3, 5 and 7`.
STEPS = re.compile(r"\bsteps? \d+(?:(?:, | and )\d+)*", re.IGNORECASE)

register = Library()


@register.filter
def numbers(text: str) -> SafeString:
    """Escape the text and hold each number in it together, and one with the next that it is multiplied by."""
    held = NUMBER.sub(lambda number: number[0].replace(" ", "\u00a0"), escape(text))
    held = held_steps(TIMES.sub("\u00a0×\u00a0", held))
    return mark_safe(held)  # noqa: S308 - escaped in the line before


def held_steps(text: str) -> str:
    """Hold the number of a step to its word, and the last of several to `and`."""
    return STEPS.sub(lambda named: re.sub(r" (?=\d)(?<!, )", "\u00a0", named[0]), text)


@register.filter
def sentence(text: str) -> str:
    """Return the text with a capital first letter, the rest as it is."""
    return text[:1].upper() + text[1:]


@cache
def _engine() -> Engine:
    """Our own engine: what a document looks like hangs on no setting."""
    return Engine(
        dirs=[str(TEMPLATES)],
        loaders=[
            (
                "django.template.loaders.cached.Loader",
                ["django.template.loaders.filesystem.Loader"],
            )
        ],
        builtins=[__name__],
        string_if_invalid=UNKNOWN,
    )


def markup(template: str, content: dict[str, object]) -> str:
    """Return the template set with the content, whose values are words already (never bare numbers)."""
    html = str(_engine().get_template(template).render(Context(content, use_l10n=False, use_tz=False)))
    return for_print(html)


def for_print(html: str) -> str:
    """Return markup with the space before a span in a span of its own, as WeasyPrint 70 needs it.

    It breaks a line after its first word where a text reaches the line's end, its last space stands over that
    and an element follows.
    """
    return html.replace(" <span", "<span> </span><span")


@cache
def style(file: str) -> str:
    """Return one of the style sheets beside this module."""
    return (Path(__file__).parent / file).read_text(encoding="utf-8")
