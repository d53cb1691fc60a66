"""Words and numbers into markup: how a template sets text in which lengths stand.

A fraction is written with U+2044, which the text face turns into a true fraction by itself; it gets a
span of its own, a little larger. A number is never parted from its fraction or its unit at the end of a line.
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

_NUMBER = re.compile(
    r"(?:≈ )?(?:\d[\d.]* )?\d+⁄\d+(?: (?:in|cm|mm)[²³]?(?!\w))?|(?:≈ )?\d[\d.]*(?: (?:in|cm|mm)[²³]?(?!\w))"
)
_FRACTION = re.compile(r"\d+⁄\d+")

register = Library()


@register.filter
def numbers(text: str) -> SafeString:
    """Escape the text and wrap the numbers in it."""
    return mark_safe(_NUMBER.sub(_wrapped, escape(text)))  # noqa: S308 - escaped in the same line


def _wrapped(number: re.Match[str]) -> str:
    inner = _FRACTION.sub(lambda fraction: f'<span class="q">{fraction[0]}</span>', number[0])
    return f'<span class="n">{inner}</span>'


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
    """Return markup with its numbers and spaces as WeasyPrint 70 needs them.

    It breaks a line after its first word where a text reaches the line's end, its last space stands over that
    and an element follows; so the space before an element belongs to the element, or has one of its own.
    """
    return _NUMBER_SET.sub(_number_for_print, html).replace(" <span", "<span> </span><span")


_NUMBER_SET = re.compile(r'( ?)<span class="n">((?:[^<]|<span class="q">[^<]*</span>)*)</span>')


def _number_for_print(number: re.Match[str]) -> str:
    """Set a number with no-break spaces, and with elements only where there is a fraction."""
    space, inner = number[1], number[2]
    parts = re.split(r'(<span class="q">)', inner)
    kept = "".join(part if part.startswith("<") else part.replace(" ", "\u00a0") for part in parts)
    if len(parts) == 1:
        return space + kept
    return f'<span class="n">{space}{kept}</span>'


@cache
def style(file: str) -> str:
    """Return one of the style sheets beside this module."""
    return (Path(__file__).parent / file).read_text(encoding="utf-8")
