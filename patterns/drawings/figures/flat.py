"""A cloth lying flat, wrong side up, with the marks that a step adds, what is fused to it, or its size."""

from collections.abc import Sequence

from patterns.drafting.units import Units
from patterns.drawings import words
from patterns.drawings.folding.state import State
from patterns.drawings.folding.strips import Strip
from patterns.drawings.geometry import Spot
from patterns.drawings.lines import Line, line
from patterns.drawings.marks import upper_edge

from .board import SPACE, Board, StepFigure, block_height
from .flat_marks import all_marks, where_lies
from .laid_flat import AWAY, Laid, free_of, glued, ground, lay


def cut_out(strip: Strip, count: int, units: Units) -> StepFigure:
    """Return a piece as it is cut, with its size."""
    board = Board(f"Cut the {strip.piece}")
    laid = lay(strip, block_height() + 2 * AWAY)
    ground(board, laid, is_pale=False)
    _sides(board, laid, units)
    times = f"{count} pieces, right side up" if count > 1 else "Right side up"
    size = " by ".join(words.cutting(length, units) for length in (strip.width, strip.length))
    return board.figure(laid.box.bottom, f"{times}, {size}.", f"{times}, to scale.")


def fused(strip: Strip, units: Units) -> StepFigure:
    """Return what is fused to the wrong side of a cloth, and how much of the cloth stays free round it."""
    assert strip.fused is not None
    name, across, along, rest = strip.fused
    board = Board(f"The {name} on the {strip.name}")
    laid = lay(strip, block_height() + 2 * AWAY)
    ground(board, laid)
    glued(board, laid)
    _sides(board, laid, units)
    told = "Its edges are level with those of the cloth."
    over = Spot(laid.box.middle.x, laid.box.top - SPACE - block_height() // 2)
    if across and along == rest == across:
        free = words.cutting(across, units)
        told = f"{free} of the cloth stays free at each edge."
        board.say(words.label(f"{free} free"), over)
    elif across:
        told = free_of(strip, units)
        board.say(words.label(_free_in_short(strip, units)), over)
    caption = told if across != along or across != rest else f"Wrong side up. {told}"
    return board.figure(laid.box.bottom, f"The cloth lies wrong side up. {told}", caption)


def _free_in_short(strip: Strip, units: Units) -> str:
    assert strip.fused is not None
    sides, first, last = (words.cutting(length, units) for length in strip.fused[1:])
    return f"sides {sides}, ends {first}" + (f" and {last}" if first != last else "")


def marked(
    state: State, strips: Sequence[Strip], names: Sequence[str], before: State, units: Units
) -> StepFigure:
    """Return a cloth with the marks that a step adds, each with how far from the nearer edge it lies.

    strips: all that are marked alike; the first is drawn. before: the work before, whose marks stand thin.
    """
    strip = strips[0]
    board = Board(f"Marks on the {' and the '.join(each.name for each in strips)}")
    added = [strip.line(name) for name in names]
    is_under = any(mark.place is None for mark in added)
    # Below it an upright line has how far it lies from the edge, and its name in two lines.
    laid = lay(strip, 4 * block_height() + 2 * AWAY if is_under else 2 * SPACE)
    ground(board, laid)
    for name in sorted(name for cloth, name in before.drawn if cloth == strip.name and name in strip.lines):
        if name not in names:
            ends = laid.ends(strip.line(name))
            board.draw([line(Line.SEAM, *ends)])
            board.keep_clear(*ends)
    all_marks(board, added, laid, units)
    if edge := _upper_edge(strip):
        board.say(edge, Spot(laid.box.middle.x, laid.box.top - block_height() // 2 - 300), is_needed=False)
    told = "; ".join(where_lies(mark, strip, units) for mark in added)
    alike = " and ".join(each.name for each in strips)
    lying = "" if strip.tint == "clear" else ", wrong side up"
    both = f"{alike.capitalize()} alike{lying}" if len(strips) > 1 else f"{alike.capitalize()}{lying}"
    return board.figure(laid.box.bottom, f"{both}: {told}.", f"{both}.")


def _sides(board: Board, laid: Laid, units: Units) -> None:
    box, strip = laid.box, laid.strip
    width, length = (words.label(words.cutting(each, units)) for each in (strip.width, strip.length))
    board.measure(Spot(box.left, box.bottom), Spot(box.right, box.bottom), Spot(0, AWAY), width)
    board.measure(Spot(box.right, box.top), Spot(box.right, box.bottom), Spot(AWAY, 0), length)


def _upper_edge(strip: Strip) -> str:
    """What is written on a piece's upper edge: a clear one takes no such writing."""
    if strip.tint == "clear":
        return ""
    return upper_edge(strip.lines)
