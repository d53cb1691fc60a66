"""The process that looks for a better layout: a question on its input, what it found on its output, as JSON.

Started by `buying_search`. It knows no Django, so that it is at work within a tenth of a second.
"""

import json
import os
import resource
import sys
from time import monotonic
from typing import Any

from patterns.cutting.better import to_json
from patterns.cutting.choices import Making
from patterns.cutting.errors import CuttingError
from patterns.cutting.shopping import shopping_list
from patterns.cutting.wish import choices_of, from_json
from patterns.drafting.sized_json import from_json as sized_from_json

# Of a processor; whatever a search is in the middle of, it ends then.
MOST_SECONDS = 2
# A quarter of a second short of what a page waits: the last step of a search is finished, and printed.
SEARCH_SECONDS = 0.7
# Far beyond what is tried in that time; the clock ends it.
WORK = 100_000_000
LESS_URGENT = 5


def found(question: dict[str, Any]) -> dict[str, Any]:
    """Return what `better.to_json` keeps; nothing where the question has no answer."""
    end = monotonic() + SEARCH_SECONDS
    sized, wish = sized_from_json(question["sized"]), from_json(question["wish"])
    choices = choices_of(wish, sized, work=WORK, watch=lambda: monotonic() > end, may_solve=True)
    try:
        return to_json(shopping_list([Making(sized, wish.count)], choices))
    except CuttingError:
        return {}


def main() -> None:
    resource.setrlimit(resource.RLIMIT_CPU, (MOST_SECONDS, MOST_SECONDS))
    os.nice(LESS_URGENT)
    json.dump(found(json.load(sys.stdin)), sys.stdout)


if __name__ == "__main__":
    main()
