import re

from patterns.documents import versions
from patterns.documents.versions import renderer_key, renderer_versions


def test_the_key_is_short_and_stays():
    assert re.fullmatch("[0-9a-f]{32}", renderer_key())
    renderer_key.cache_clear()
    first = renderer_key()
    renderer_key.cache_clear()
    assert renderer_key() == first


def test_every_part_of_the_renderer_has_a_version():
    named = dict(line.rsplit(" ", 1) for line in renderer_versions())
    assert named.keys() == {"Django", "fonttools", "pikepdf", "pydyf", "weasyprint", "pango-1.0", "harfbuzz"}
    assert all(re.match(r"\d+\.\d+", version) for version in named.values())


def test_another_version_or_font_is_another_key(monkeypatch):
    renderer_key.cache_clear()
    first = renderer_key()
    monkeypatch.setattr(versions, "version", lambda package: "0.1")
    renderer_key.cache_clear()
    second = renderer_key()
    monkeypatch.setattr(versions.fonts, "digest", lambda: "other fonts")
    renderer_key.cache_clear()
    third = renderer_key()
    renderer_key.cache_clear()
    assert len({first, second, third}) == 3


def test_a_library_that_is_not_there_is_unknown():
    assert versions._library_version("no-such-library", "version") == "unknown"
    assert versions._library_version("harfbuzz", "no_such_function") == "unknown"


def test_everything_that_draws_is_in_the_key():
    """All modules of the floors below the documents, in whatever folder."""
    seen = {file for folder, pattern in versions.SOURCES for file in folder.glob(pattern)}
    for room in ("drafting", "cutting", "drawings"):
        assert set((versions.PATTERNS / room).rglob("*.py")) <= seen
