"""Several cloths lying flat, one under the other at one scale: as they are cut, backed and marked."""

from collections.abc import Sequence

from patterns.drafting.lists import listed
from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Spot

from .board import SPACE, Board, StepFigure, block_height
from .flat_marks import all_marks, where_lies
from .laid_flat import AWAY, Laid, free_of, glued, ground, lay_under_each_other


def cut_several(strips: Sequence[Strip], counts: Sequence[int], units: Units) -> StepFigure:
    """Return pieces that are cut in one step, each with its size."""
    board = Board("Cut " + listed([f"the {strip.piece}" for strip in strips], "and"))
    placed = lay_under_each_other(strips, block_height() + 2 * AWAY)
    for laid in placed:
        ground(board, laid, is_pale=False)
    _heights_and_width(board, placed, units)
    _names_of(board, placed)
    told = "; ".join(
        f"{strip.piece}, {count} of "
        + " by ".join(words.cutting(length, units) for length in (strip.width, strip.length))
        for strip, count in zip(strips, counts, strict=True)
    )
    return board.figure(placed[-1].box.bottom, f"Right side up: {told}.", "Right side up, to one scale.")


def fused_several(strips: Sequence[Strip], units: Units) -> StepFigure:
    """Return cloths with what is fused to each of them in one step."""
    board = Board("Interfacing on " + listed([f"the {strip.name}" for strip in strips], "and"))
    placed = lay_under_each_other(strips, block_height() + 2 * AWAY)
    for laid in placed:
        ground(board, laid)
        glued(board, laid)
    _heights_and_width(board, placed, units)
    is_level = all(strip.fused is not None and not any(strip.fused[1:]) for strip in strips)
    told = [
        f"{strip.name}, {'edges level' if is_level else free_of(strip, units).rstrip('.')}"
        for strip in strips
    ]
    caption = "edges level" if is_level else "seam allowances free"
    return board.figure(
        placed[-1].box.bottom, f"Wrong sides up: {'; '.join(told)}.", f"Wrong sides up, {caption}."
    )


def marked_several(
    strips: Sequence[Strip], names: Sequence[Sequence[str]], alike: Sequence[str], units: Units
) -> StepFigure:
    """Return cloths that are marked in one step, each with its own marks. alike: what else is marked so."""
    board = Board("Marks on " + listed([f"the {strip.name}" for strip in strips], "and"))
    placed = lay_under_each_other(strips, 2 * SPACE)
    told = []
    for laid, own in zip(placed, names, strict=True):
        ground(board, laid)
        added = [laid.strip.line(name) for name in own]
        all_marks(board, added, laid, units)
        told.append(
            f"{laid.strip.name} with " + ", ".join(where_lies(mark, laid.strip, units) for mark in added)
        )
    _names_of(board, placed)
    also = f" {listed(list(alike), 'and').capitalize()} alike." if alike else ""
    caption = f"Wrong sides up.{also}"
    return board.figure(placed[-1].box.bottom, f"Wrong sides up: {'; '.join(told)}.{also}", caption)


def _heights_and_width(board: Board, placed: Sequence[Laid], units: Units) -> None:
    for laid in placed:
        box, strip = laid.box, laid.strip
        text = words.label(words.cutting(strip.length, units))
        board.measure(Spot(box.right, box.top), Spot(box.right, box.bottom), Spot(AWAY, 0), text)
    last = placed[-1]
    text = words.label(words.cutting(last.strip.width, units))
    ends = Spot(last.box.left, last.box.bottom), Spot(last.box.right, last.box.bottom)
    board.measure(*ends, Spot(0, AWAY), text)


def _names_of(board: Board, placed: Sequence[Laid]) -> None:
    for laid in placed:
        for text in (laid.strip.name, laid.strip.name.split()[-1]):
            if board.say(text, laid.box.middle, is_needed=False, within=laid.box):
                break
