"""The cutting layouts of a book: a drawing of the cloth of each material, or several where it is long."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from patterns.cutting.enough import rounded_up
from patterns.cutting.left_over import Taken, left_over
from patterns.cutting.listing import Line, ShoppingList
from patterns.cutting.on_cloth import OnCloth
from patterns.drafting.lengths import as_chosen, sides_words
from patterns.drafting.sized import SizedPattern
from patterns.drafting.units import Units
from patterns.drawings.bought import bought_cloth
from patterns.drawings.laid_cloth import LaidCloth
from patterns.drawings.layout import LEAST_LEFT, layout_svg
from patterns.drawings.stretches import in_stretches

from .figures import Box, Figure, Figures
from .paper import Paper

# Cloth that is longer than this, measured by its width, stands beside its words; longer than that, in parts.
BESIDE = Fraction(3, 4)
IN_PARTS = Fraction(9, 4)
# Each part is about so long.
PART = Fraction(5, 2)
ABREAST = 2
# Paper, mm: the section's heading; of a pair, words, labels and space; words over parts; labels round a part.
HEADING, ROUND_PAIRED, WORDS, ROUND_PART = 24, 43, 17, 27
# A cloth is not drawn lower than this for the sake of the page.
LEAST_PART = 60
UPRIGHT = "Lay the print upright: the tops of the pieces point up on the drawing."


@dataclass(frozen=True, slots=True)
class LayoutDrawing:
    figure: Figure
    caption: str


@dataclass(frozen=True, slots=True)
class CutLayout:
    """The cloth of one material.

    setting: `across` the page, `aside`, beside the words, `paired`, under its words beside the next cloth, or
    several drawings `abreast`, row under row.
    """

    material: str
    amount: str
    says: str
    setting: str
    rows: tuple[tuple[LayoutDrawing, ...], ...]

    @property
    def least_height(self) -> str:
        """The height that a drawing beside the words takes."""
        return f"{self.rows[0][0].figure.height_mm:.2f}mm" if self.setting == "aside" else ""


def cut_layouts(
    shopping: ShoppingList, sized: SizedPattern, figures: Figures, paper: Paper
) -> tuple[CutLayout, ...]:
    """Return the layouts of all cloth on a shopping list, in its order."""
    lines = [(line, line.cloth) for line in shopping.lines if line.cloth is not None]
    drawn = [_drawn(line, cloth, sized) for line, cloth in lines]
    settings = _settings([[each for each, _ in cloths] for cloths in drawn])
    part = paper.part_layout
    rooms = {"across": paper.layout, "aside": paper.half_layout, "paired": part, "abreast": part}
    return tuple(
        _layout(line, cloth, sized, cloths, (setting, rooms[setting]), figures)
        for (line, cloth), cloths, setting in zip(lines, drawn, settings, strict=True)
    )


def on_one_page(layouts: Sequence[CutLayout], paper: Paper) -> Paper | None:
    """Return the paper with less high layouts, if all of these fit on one page by that and only by that.

    Whether they then do hangs on where on its page the first one begins.
    """
    pairs = sum(layout.setting == "paired" for layout in layouts) // 2
    rows = [len(layout.rows) for layout in layouts if layout.setting == "abreast"]
    if not layouts or 2 * pairs + len(rows) != len(layouts):
        return None
    left = paper.text_height - HEADING - pairs * ROUND_PAIRED - len(rows) * WORDS - sum(rows) * ROUND_PART
    high = left / (pairs + sum(rows))
    if not LEAST_PART <= high < paper.part_layout.height:
        return None
    return replace(paper, part_layout=Box(paper.part_layout.width, high))


def _drawn(line: Line, cloth: OnCloth, sized: SizedPattern) -> list[tuple[LaidCloth, str]]:
    """Return what is drawn of a cloth, each with what stands over it."""
    bought = bought_cloth(line.material, cloth, sized)
    drawn: list[tuple[LaidCloth, str]] = []
    for each in bought:
        parts = _parts(each.cloth, sized.units)
        drawn += zip(parts, _captions(parts, each.count, len(bought), sized.units), strict=True)
    return drawn


def _layout(
    line: Line,
    cloth: OnCloth,
    sized: SizedPattern,
    drawn: Sequence[tuple[LaidCloth, str]],
    setting_in_room: tuple[str, Box],
    figures: Figures,
) -> CutLayout:
    units = sized.units
    setting, room = setting_in_room
    bought = bought_cloth(line.material, cloth, sized)
    drawings = [LayoutDrawing(_figure(each, units, figures, room), caption) for each, caption in drawn]
    says = [_folded_words(cloth, units), _drawn_words(cloth, bought[0].cloth, units)]
    if len(bought) == 1:
        says.append(_left_words(bought[0].cloth, units))
    if any(piece.material == line.material and not piece.turns for piece in sized.pieces):
        says.append(UPRIGHT)
    rows = tuple(tuple(drawings[at : at + ABREAST]) for at in range(0, len(drawings), ABREAST))
    return CutLayout(line.material, line.amount, " ".join(filter(None, says)), setting, rows)


def _settings(drawn: Sequence[Sequence[LaidCloth]]) -> list[str]:
    """Return how each cloth is set; two in succession that would each stand beside words are a pair."""
    found: list[str] = []
    for cloths in drawn:
        is_long = cloths[0].length > BESIDE * cloths[0].width
        found.append("abreast" if len(cloths) > 1 else "aside" if is_long else "across")
        if found[-2:] == ["aside", "aside"]:
            found[-2:] = ["paired", "paired"]
    return found


def _parts(cloth: LaidCloth, units: Units) -> tuple[LaidCloth, ...]:
    if cloth.length <= IN_PARTS * cloth.width:
        return (cloth,)
    return in_stretches(cloth, PART * cloth.width, units)


def _captions(parts: Sequence[LaidCloth], count: int, layouts: int, units: Units) -> list[str]:
    """What stands over each drawing; nothing over the only one of a material."""
    if len(parts) > 1:
        starts = [sum((each.length for each in parts[:at]), Fraction(0)) for at in range(len(parts) + 1)]
        reaches = [as_chosen(at, 1, units) if at else "the cut end" for at in starts]
        return [f"From {first} to {last} along the cloth" for first, last in pairwise(reaches)]
    if count > 1:
        return [f"{count} pieces of cloth, each like this"]
    return ["One piece of cloth"] if layouts > 1 else [""]


def _figure(cloth: LaidCloth, units: Units, figures: Figures, room: Box) -> Figure:
    width, height = round(room.width * 1000), round(room.height * 1000)
    # What stands round the cloth takes height of its own: the room on the page has it beside this.
    svg = layout_svg(cloth, units, width=width, height=height, is_headed=False)
    return figures.add(svg, Box(room.width, 1000))


def _folded_words(cloth: OnCloth, units: Units) -> str:
    if not cloth.folded:
        return ""
    reach = as_chosen(rounded_up(cloth.folded, units.cutting_step), 1, units)
    lay = f"Fold it along its length, selvedge on selvedge, and cut the first {reach} double"
    return f"{lay}; open it out for what lies beyond." if cloth.opened else f"{lay}."


def _drawn_words(cloth: OnCloth, drawn: LaidCloth, units: Units) -> str:
    size = sides_words(drawn.width, drawn.length, units)
    washed = "" if cloth.way.shrinkage.is_none else ", washed"
    if not cloth.form.is_by_length:
        return f"Of each {cloth.form.name} {size} can be used{washed}."
    if drawn.left == "selvedge":
        return f"Drawn is what lies between the selvedges, {size}{washed}."
    return f"Drawn is all that is bought, {size}{washed}."


def _left_words(cloth: LaidCloth, units: Units) -> str:
    taken = [Taken(piece.x, piece.y, *piece.sides) for piece in cloth.pieces]
    found = left_over(cloth.width, cloth.length, taken)
    if found is None or min(found.width, found.height) < LEAST_LEFT:
        return "No large piece is left over."
    return f"Largest piece left over: {sides_words(found.width, found.height, units)}."
