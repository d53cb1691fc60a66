"""The longer search for a layout: in a process of its own, and once for each question."""

import hashlib
import json
import subprocess
import sys
from dataclasses import replace
from typing import Any

from django.core.cache import caches

from patterns.cutting.wish import Wish
from patterns.cutting.wish import to_json as wish_json
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sized_json import to_json
from studio.env import PROJECT

CACHE = "layouts"
# A search ends by itself after less than one; a process that was slow to start is ended.
MOST_SECONDS = 1.2
# A search that was ended may have met a busy machine: after so long it may be made again.
SECONDS_OF_NOTHING = 10 * 60
FORMAT = 1


def question_of(sized: SizedPattern, wish: Wish) -> str:
    """Return all that an answer hangs on: not on prices, which choose among none here."""
    layout = wish_json(replace(wish, price_minor=None, interfacing_price_minor=None))
    return json.dumps({"format": FORMAT, "sized": to_json(sized), "wish": layout}, sort_keys=True)


def known(question: str) -> dict[str, Any] | None:
    """Return what a search for it has found; None if there was none yet."""
    kept = caches[CACHE].get(_address(question))
    return None if kept is None else json.loads(kept)


def searched(question: str) -> dict[str, Any]:
    """Return what a search finds, and keep it. Empty if it found nothing in its time."""
    found = known(question)
    if found is None:
        found = _run(question)
        kept_for = {} if found else {"timeout": SECONDS_OF_NOTHING}
        caches[CACHE].set(_address(question), json.dumps(found), **kept_for)
    return found


def _run(question: str) -> dict[str, Any]:
    command = [sys.executable, "-m", "patterns.buying_child"]
    try:
        done = subprocess.run(  # noqa: S603 - our own module; the question is only its input
            command,
            input=question,
            capture_output=True,
            text=True,
            encoding="utf-8",
            timeout=MOST_SECONDS,
            cwd=PROJECT,
            check=True,
        )
    except (subprocess.TimeoutExpired, subprocess.CalledProcessError):
        return {}
    return dict(json.loads(done.stdout))


def _address(question: str) -> str:
    return hashlib.sha256(question.encode()).hexdigest()
