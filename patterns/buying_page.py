"""What the section “Cloth and everything else to buy” shows: amounts, reasons and the layouts behind them."""

from collections.abc import Callable
from dataclasses import dataclass
from time import thread_time

from django.utils.safestring import SafeString, mark_safe

from patterns import buying_search
from patterns.cutting.better import can_be_better, with_better
from patterns.cutting.choices import Making
from patterns.cutting.costs import with_costs
from patterns.cutting.errors import CuttingError
from patterns.cutting.listing import Line, ShoppingList
from patterns.cutting.shopping import shopping_list
from patterns.cutting.wish import Wish, choices_of
from patterns.drafting.lists import listed
from patterns.drafting.sized import SizedPattern
from patterns.drawings.bought import BoughtCloth, bought_cloth
from patterns.drawings.layout import layout_svg
from patterns.money import priced

# For the first answer: a page waits for it.
FIRST_WORK = 30_000
FIRST_SECONDS = 0.04
# Of each cloth; more pieces that all differ are on the list, and not drawn.
MOST_DRAWN = 6
# µm: so that its words can be read on a telephone.
DRAWING_WIDTH, DRAWING_HEIGHT = 78_000, 96_000


@dataclass(frozen=True, slots=True)
class LayoutDrawn:
    """says: how many pieces of cloth are cut so; empty for one."""

    drawing: SafeString
    says: str


@dataclass(frozen=True, slots=True)
class ToBuy:
    """One line of the list. proof: in words, whether it is the least; empty where nothing is laid out."""

    line: Line
    proof: str = ""
    layouts: tuple[LayoutDrawn, ...] = ()
    undrawn: int = 0

    @property
    def is_proved(self) -> bool:
        return self.line.cloth is not None and self.line.cloth.proved


@dataclass(frozen=True, slots=True)
class BuyingPage:
    """The list for one size.

    problem: why there is none. may_look: whether a longer search could still find something, and has not been
    made. was_searched: whether it was made. is_better: whether it found less to buy, or a proof. tools: what
    is only to be at hand.
    """

    size: str
    count: int
    cloth: tuple[ToBuy, ...] = ()
    others: tuple[ToBuy, ...] = ()
    tools: tuple[ToBuy, ...] = ()
    cost_says: str = ""
    problem: str = ""
    may_look: bool = False
    was_searched: bool = False
    is_better: bool = False

    @property
    def news(self) -> str:
        """What somebody hears who does not see the page."""
        if self.problem:
            return self.problem
        amounts = [f"{each.line.material}: {each.line.amount}." for each in self.cloth]
        return " ".join([*amounts, *([self.cost_says] if self.cost_says else [])])

    @property
    def searched_words(self) -> str:
        """What a longer search came to: `Looked further: nothing better was found.`"""
        if not self.was_searched:
            return ""
        unproved = [each.line.material for each in self.cloth if not each.is_proved]
        if not unproved:
            return "Looked further: a layout was found that is proved the least."
        found = "a better layout was found" if self.is_better else "nothing better was found"
        return f"Looked further: {found}. Whether less {listed(unproved, 'and')} could do is not known."


def buying_page(
    sized: SizedPattern, wish: Wish, size_words: str, currency: str, look: bool = False
) -> BuyingPage:
    """Return the list: found at once, and with what a longer search has found before.

    currency: of the prices in the wish. look: make that search now if something is left to find. sized: not
    refused.
    """
    try:
        first = first_list(sized, wish)
    except CuttingError as error:
        return BuyingPage(size_words, wish.count, problem=str(error))
    if not can_be_better(first):
        return _page(first, sized, size_words, currency)
    question = buying_search.question_of(sized, wish)
    kept = buying_search.searched(question) if look else buying_search.known(question)
    best = first if kept is None else with_better(first, kept)
    return _page(best, sized, size_words, currency, kept is None, kept is not None, best != first)


def first_list(sized: SizedPattern, wish: Wish) -> ShoppingList:
    """Return what is found at once. Raises CuttingError."""
    choices = choices_of(wish, sized, work=FIRST_WORK, watch=_watch())
    return shopping_list([Making(sized, wish.count)], choices)


def _watch() -> Callable[[], bool]:
    """Return what ends the first search once this thread has had its time."""
    end = thread_time() + FIRST_SECONDS
    return lambda: thread_time() > end


def _page(
    found: ShoppingList,
    sized: SizedPattern,
    size_words: str,
    currency: str,
    may_look: bool = False,
    was_searched: bool = False,
    is_better: bool = False,
) -> BuyingPage:
    found = with_costs(found, lambda minor: priced(minor, currency))
    lines = [_to_buy(line, sized) for line in found.lines]
    return BuyingPage(
        size=size_words,
        count=found.items,
        cloth=tuple(each for each in lines if each.line.cloth is not None),
        others=tuple(each for each in lines if each.line.cloth is None and each.line.kind != "tool"),
        tools=tuple(each for each in lines if each.line.kind == "tool"),
        cost_says=found.cost_says,
        may_look=may_look,
        was_searched=was_searched,
        is_better=is_better,
    )


def _to_buy(line: Line, sized: SizedPattern) -> ToBuy:
    if line.cloth is None:
        return ToBuy(line)
    pieces = bought_cloth(line.material, line.cloth, sized)
    drawn = tuple(_drawn(piece, sized) for piece in pieces[:MOST_DRAWN])
    proof = "Proved: the least there is to buy" if line.cloth.proved else "Best found"
    return ToBuy(line, proof, drawn, len(pieces) - len(drawn))


def _drawn(piece: BoughtCloth, sized: SizedPattern) -> LayoutDrawn:
    drawing = layout_svg(
        piece.cloth, sized.units, width=DRAWING_WIDTH, height=DRAWING_HEIGHT, is_headed=False
    )
    says = f"{piece.count} are cut so." if piece.count > 1 else ""
    return LayoutDrawn(mark_safe(drawing), says)  # noqa: S308 - our own drawing, its words escaped there
