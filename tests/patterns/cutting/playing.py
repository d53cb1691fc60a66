"""What the tests of edge-to-edge layouts share: cutting cloth as the cuts say, and cloth cut at random."""

from collections import Counter
from collections.abc import Sequence
from random import Random

from hypothesis import strategies as st

from patterns.cutting.answers import Cut
from patterns.cutting.sheets import Layout, Length, Rectangle, Sheet

# Left, right, low, high.
Part = tuple[Length, Length, Length, Length]


def played(cuts: Sequence[Cut], parts: Sequence[Part], sheet: int | None = None) -> list[Part]:
    """Make the cuts one after the other; each goes through one of the parts, from edge to edge."""
    lying = list(parts)
    for cut in cuts:
        assert cut.sheet == sheet
        if cut.along == "x":
            through = [
                each for each in lying if each[:2] == (cut.start, cut.end) and each[2] < cut.at < each[3]
            ]
        else:
            through = [
                each for each in lying if each[2:] == (cut.start, cut.end) and each[0] < cut.at < each[1]
            ]
        assert len(through) == 1, cut
        left, right, low, high = through[0]
        lying.remove(through[0])
        if cut.along == "x":
            lying += [(left, right, low, cut.at), (left, right, cut.at, high)]
        else:
            lying += [(left, cut.at, low, high), (cut.at, right, low, high)]
    return lying


def assert_cuts_out(cuts: Sequence[Cut], layout: Layout, parts: Sequence[Part], sheet: int | None) -> None:
    """The cuts leave every piece of the layout as a part, and nothing lies across the others."""
    left = Counter(played(cuts, parts, sheet))
    pieces = Counter((each.x, each.x + each.width, each.y, each.y + each.height) for each in layout)
    assert pieces <= left


def assert_cuts_strip(cuts: Sequence[Cut], layout: Layout, width: Length) -> None:
    """They take the layout from cloth that goes on and on."""
    end = max(each.y + each.height for each in layout)
    assert_cuts_out(cuts, layout, [(0, width, 0, 2 * end)], None)


def assert_cuts_sheets(cuts: Sequence[Cut], layout: Layout, sheets: Sequence[Sheet]) -> None:
    for number, sheet in enumerate(sheets):
        on_it = tuple(each for each in layout if each.sheet == number)
        its_own = [cut for cut in cuts if cut.sheet == number]
        assert_cuts_out(its_own, on_it, [(0, sheet.width, 0, sheet.height)], number)


def cut_at_random(width: int, height: int, count: int, lot: Random, turns: bool = True) -> list[Rectangle]:
    """Cut a rectangle edge to edge into so many pieces; it may be turned, and so may they."""
    parts = [(width, height)]
    while len(parts) < count:
        parts.sort()
        wide, high = parts.pop(lot.choice([-1, lot.randrange(len(parts))]))
        if (wide > high or lot.random() < 0.2) and wide > 1:
            at = lot.randrange(1, wide)
            parts += [(at, high), (wide - at, high)]
        elif high > 1:
            at = lot.randrange(1, high)
            parts += [(wide, at), (wide, high - at)]
        else:
            parts.append((wide, high))
    lot.shuffle(parts)
    return [
        Rectangle(high, wide) if turns and lot.random() < 0.5 else Rectangle(wide, high, turns)
        for wide, high in parts
    ]


repeated = st.lists(
    st.tuples(st.builds(Rectangle, st.integers(1, 9), st.integers(1, 9), st.booleans()), st.integers(1, 4)),
    min_size=1,
    max_size=6,
).map(lambda kinds: [piece for piece, count in kinds for _ in range(count)])
