"""What somebody who shops has chosen: what is made, the cloth forms to look at, how it is laid, prices."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from patterns.drafting.sized import SizedPattern

from .effort import USUAL_EFFORT, Effort
from .errors import CuttingError
from .forms import ClothForm
from .notions import SPOOL, THREAD_RATIOS
from .on_length import Way
from .sheets import Length

# A market stall's worth, and small enough to be laid together.
MOST_ITEMS = 100


@dataclass(frozen=True, slots=True)
class Making:
    """A pattern at one size, and how many are made."""

    sized: SizedPattern
    count: int = 1

    def __post_init__(self) -> None:
        if not 1 <= self.count <= MOST_ITEMS:
            raise CuttingError(f"{self.sized.title}: {self.count} to make. Write 1 to {MOST_ITEMS}.")


@dataclass(frozen=True, slots=True)
class Price:
    """minor: in the least coin of the currency. per: for that length, mm; None for each."""

    minor: int
    per: Length | None = None

    def __post_init__(self) -> None:
        if self.minor < 0 or (self.per is not None and self.per <= 0):
            raise CuttingError("A price is less than nothing, or for nothing. Write what the shop asks.")

    def cost(self, amount: Length) -> Fraction:
        """Return what an amount costs, exact: mm, or how many."""
        return Fraction(self.minor) * amount / (1 if self.per is None else Fraction(self.per))


@dataclass(frozen=True, slots=True)
class Offered:
    """A form of cloth that can be had, and its price where it is known."""

    form: ClothForm
    price: Price | None = None

    def __post_init__(self) -> None:
        if self.price is not None and (self.price.per is None) is self.form.is_by_length:
            raise CuttingError(
                f"{self.form.name}: cloth sold by length has a price for a length, "
                "a whole piece one for each. Write the other."
            )


@dataclass(frozen=True, slots=True)
class ClothChoice:
    """How one material is bought and laid.

    offers: the cheapest is taken when all have prices, else the first that all pieces fit on; none are the
    usual ones. bias: pieces that are cut as strips on the bias, by name.
    """

    offers: tuple[Offered, ...] = ()
    way: Way = field(default_factory=Way)
    bias: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Choices:
    """cloth, prices: by the name of a material; a price of cloth is for whichever form is taken.

    zips: lengths that can be had; none are the usual ones. stitch: type of ISO 4915. spool: mm of thread on
    one. work, watch, seed, may_solve: of `Effort`, for each search.
    """

    cloth: Mapping[str, ClothChoice] = field(default_factory=dict)
    prices: Mapping[str, Price] = field(default_factory=dict)
    zips: tuple[Length, ...] = ()
    stitch: str = "301"
    spool: Length = SPOOL
    work: int = USUAL_EFFORT
    watch: Callable[[], bool] | None = None
    seed: int = 0
    may_solve: bool = False

    def __post_init__(self) -> None:
        if self.stitch not in THREAD_RATIOS:
            raise CuttingError(
                f"“{self.stitch}” is no stitch type with a known thread ratio. "
                f"Write {' or '.join(THREAD_RATIOS)}."
            )
        if self.spool <= 0:
            raise CuttingError("A spool holds no thread. Write a length above 0.")

    def effort(self) -> Effort:
        return Effort(self.work, self.watch, self.seed, self.may_solve)
