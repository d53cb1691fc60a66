"""The fewest sheets found for some pieces."""

from collections.abc import Sequence

from .answers import OnSheets
from .bounds import excluded
from .effort import Effort
from .errors import CuttingError
from .laying import Work, lay
from .sheets import Rectangle, Sheet


def fewest(
    pieces: Sequence[Rectangle], sheets: Sequence[Sheet], effort: Effort, edge_to_edge: bool = False
) -> OnSheets:
    """Return a layout on the fewest of the sheets, in their order. Raises CuttingError: they do not serve."""
    bound = 0
    for number in range(1, len(sheets) + 1):
        on = sheets[:number]
        if excluded(pieces, on) is not None:
            bound = number if bound == number - 1 else bound
            continue
        found = lay(pieces, on, Work())
        if found is not None:
            return OnSheets(number, bound + 1, found)
    raise CuttingError(
        "The pieces do not lie on the sheets that there are. Take more of them, or larger ones."
    )
