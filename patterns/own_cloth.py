"""A customer's own cloth: pictures that only their session can see, and for a day at most.

What is known of them stands in the session, each pattern's by itself. The files lie in a folder for each
hour, so that the worker finds what is over without looking at any of the others.
"""

import re
import secrets
import shutil
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from typing import Any, Final, Literal

from django.conf import settings
from django.http import HttpRequest

from patterns import kept
from patterns.picture_rules import MadeFile

Role = Literal["exterior", "lining"]
ROLES: Final[tuple[Role, ...]] = ("exterior", "lining")
SESSION_KEY: Final = "own cloth"
FOLDER: Final = "own-cloth"
# From the full hour in which it came: never kept longer than that.
KEPT: Final = timedelta(hours=24)
HOUR: Final = "%Y%m%d%H"
_TOKEN: Final = re.compile(r"[0-9]{10}-[0-9a-f]{8}-[0-9a-f]{32}")
# A household that tries all its cloth; more is somebody filling the disk.
MOST_AN_HOUR: Final = 40
_SOURCE_DIGITS: Final = 8


class TooManyError(Exception):
    """So many pictures came from one network in this hour that no more are taken."""


@dataclass(frozen=True, slots=True)
class OwnCloth:
    """A picture of a strip of cloth. token: its name. strip: how wide the strip is, mm, exact, as text."""

    token: str
    strip: str
    is_one_way: bool
    width_px: int
    height_px: int

    @property
    def width(self) -> Fraction:
        return Fraction(self.strip)

    @property
    def height(self) -> Fraction:
        return self.width * self.height_px / self.width_px

    @property
    def until(self) -> datetime:
        """When it is gone, at the latest."""
        return _hour_of(self.token) + KEPT


@dataclass(frozen=True, slots=True)
class OwnCloths:
    """The cloths of one pattern. is_on_cover: the customer wants them on the cover of the book."""

    cloths: dict[Role, OwnCloth]
    is_on_cover: bool = False

    def __bool__(self) -> bool:
        return bool(self.cloths)


NO_CLOTHS: Final = OwnCloths({})


def cloths_of(request: HttpRequest, slug: str, now: datetime) -> OwnCloths:
    """Return the session's cloths of a pattern that are still kept."""
    of_pattern: Any = _all(request).get(slug)
    try:
        cloths = {role: OwnCloth(**of_pattern[role]) for role in ROLES if role in of_pattern}
        return OwnCloths(
            {role: cloth for role, cloth in cloths.items() if is_kept(cloth.token, now)},
            bool(of_pattern.get("on_cover")),
        )
    except (TypeError, KeyError, AttributeError):
        return OwnCloths({})


def show(request: HttpRequest, slug: str, cloths: OwnCloths) -> None:
    """Let these be the pattern's cloths; pictures that are no longer shown are deleted."""
    before, after = set(_tokens(request)), _all(request)
    if cloths:
        after[slug] = {role: asdict(cloth) for role, cloth in cloths.cloths.items()}
        after[slug]["on_cover"] = cloths.is_on_cover
    else:
        after.pop(slug, None)
    request.session[SESSION_KEY] = after
    for token in before - set(_tokens(request)):
        _delete(token)


def keep_picture(made: MadeFile, source: str, now: datetime) -> str:
    """Keep a picture and return its token. source: as `sources.source` made it. Raises TooManyError."""
    hour, whose = now.astimezone(UTC).strftime(HOUR), source[:_SOURCE_DIGITS]
    if sum(1 for _ in _folder(hour).glob(f"*/{hour}-{whose}-*")) >= MOST_AN_HOUR:
        raise TooManyError
    token = f"{hour}-{whose}-{secrets.token_hex(16)}"
    kept.keep(f"{FOLDER}/{hour}", token, made.content, made.format)
    return token


def picture(request: HttpRequest, token: str, now: datetime) -> bytes | None:
    """Return a picture of this very session; None if it is another's, or gone."""
    return content_of(token) if token in _tokens(request) and is_kept(token, now) else None


def content_of(token: str) -> bytes | None:
    return kept.kept(f"{FOLDER}/{token[:10]}", token, "jpg")


def is_kept(token: str, now: datetime) -> bool:
    return bool(_TOKEN.fullmatch(token)) and now < _hour_of(token) + KEPT


def sweep_own_cloths(now: datetime) -> int:
    """Delete the pictures that are a day old; return how many hours of them went."""
    over = (now - KEPT).astimezone(UTC).strftime(HOUR)
    gone = [folder for folder in _hours() if folder.name <= over]
    for folder in gone:
        shutil.rmtree(folder, ignore_errors=True)
    return len(gone)


def _hours() -> list[Path]:
    try:
        return list((Path(settings.MEDIA_ROOT) / FOLDER).iterdir())
    except FileNotFoundError:
        return []


def _all(request: HttpRequest) -> dict[str, Any]:
    found = request.session.get(SESSION_KEY)
    return dict(found) if isinstance(found, dict) else {}


def _tokens(request: HttpRequest) -> Iterator[str]:
    for of_pattern in _all(request).values():
        yield from (of_pattern[role]["token"] for role in ROLES if role in of_pattern)


def _delete(token: str) -> None:
    if _TOKEN.fullmatch(token):
        kept.forget(f"{FOLDER}/{token[:10]}", token, "jpg")


def _hour_of(token: str) -> datetime:
    return datetime.strptime(token[:10], HOUR).replace(tzinfo=UTC)


def _folder(hour: str) -> Path:
    return Path(settings.MEDIA_ROOT) / FOLDER / hour
