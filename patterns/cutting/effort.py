"""How much a search may try: its work is counted, so that the same work always gives the same answer."""

from collections.abc import Callable
from dataclasses import dataclass

# Each unit is about a microsecond: half a second.
USUAL_EFFORT = 500_000


@dataclass(slots=True)
class Effort:
    """What may still be tried; all searches for one answer share it and count it down.

    work: in units of about a microsecond. watch: true when the search is to stop now, for callers with a
    clock; then what was tried depends on the machine. seed: of the searches that draw by lot.
    may_solve: the exact solver may be loaded, which takes a fifth of a second and 90 MiB for good: not in a
    process that answers pages.
    """

    work: int = USUAL_EFFORT
    watch: Callable[[], bool] | None = None
    seed: int = 0
    may_solve: bool = False

    @property
    def is_done(self) -> bool:
        return self.work <= 0 or (self.watch is not None and self.watch())
