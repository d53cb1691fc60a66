"""A bar chart as SVG: printable, without script or style sheet, and told in words to a screen reader."""

from collections.abc import Sequence
from html import escape

INK = "#1f2a2e"
BAR = "#0f5c63"

# In units of the picture, which is about as many CSS pixels wide on a telephone.
WIDTH = 340
LABEL_WIDTH = 120
COUNT_WIDTH = 40
ROW = 24
BAR_HEIGHT = 16
TEXT_SIZE = 14


def bar_chart(name: str, title: str, bars: Sequence[tuple[str, int]]) -> str:
    """Return a whole `<svg>` of level bars, one under the other, each with its label and its count.

    name: begins the ids of title and description, so it is used once on a page. bars: one or more.
    """
    most = max(count for _, count in bars) or 1
    told = ", ".join(f"{label}: {count}" for label, count in bars)
    rows = "".join(_row(at, label, count, most) for at, (label, count) in enumerate(bars))
    height = ROW * len(bars) + 2
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" role="img" '
        f'aria-labelledby="{name}-title {name}-desc" font-size="{TEXT_SIZE}" fill="{INK}">'
        f'<title id="{name}-title">{escape(title)}</title><desc id="{name}-desc">{escape(told)}</desc>'
        f'{rows}<path d="M{LABEL_WIDTH} 0V{height}" stroke="{INK}" fill="none"/></svg>'
    )


def _row(at: int, label: str, count: int, most: int) -> str:
    top = at * ROW + (ROW - BAR_HEIGHT) // 2 + 1
    base = top + BAR_HEIGHT - 3
    longest = WIDTH - LABEL_WIDTH - COUNT_WIDTH
    # A single sale among thousands is still a line that can be seen.
    width = max(longest * count // most, 1) if count else 0
    return (
        f'<text x="{LABEL_WIDTH - 8}" y="{base}" text-anchor="end">{escape(label)}</text>'
        f'<rect x="{LABEL_WIDTH}" y="{top}" width="{width}" height="{BAR_HEIGHT}" fill="{BAR}"/>'
        f'<text x="{LABEL_WIDTH + width + 6}" y="{base}">{count}</text>'
    )
