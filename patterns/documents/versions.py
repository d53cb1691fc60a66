"""What the bytes of a document hang on besides its content; a body is kept under it."""

import ctypes
import ctypes.util
import hashlib
from functools import cache
from importlib.metadata import version
from pathlib import Path

from . import fonts
from .typeset import TEMPLATES

PACKAGES = ("Django", "fonttools", "pikepdf", "pydyf", "weasyprint")
# A library of the machine, and the function that tells its version as text.
LIBRARIES = (("pango-1.0", "pango_version_string"), ("harfbuzz", "hb_version_string"))
PATTERNS = Path(__file__).parents[1]
# Everything between a sized pattern and its pages: words, drawings, templates, style sheets.
SOURCES = (
    (PATTERNS / "documents", "*.py"),
    (PATTERNS / "documents", "*.css"),
    (PATTERNS / "drawings", "**/*.py"),
    (PATTERNS / "cutting", "*.py"),
    (PATTERNS / "drafting", "**/*.py"),
    (TEMPLATES / "documents", "*.html"),
)


@cache
def renderer_key() -> str:
    """Return a short name for the renderer as it is on this machine: another one may give other bytes."""
    hashed = hashlib.sha256()
    for part in (*renderer_versions(), f"fonts {fonts.digest()}", f"sources {_sources()}"):
        hashed.update(part.encode() + b"\n")
    return hashed.hexdigest()[:32]


def renderer_versions() -> tuple[str, ...]:
    """Return the packages and libraries that draw pages, each with its version."""
    return (
        *(f"{package} {version(package)}" for package in PACKAGES),
        *(f"{library} {_library_version(library, function)}" for library, function in LIBRARIES),
    )


def _library_version(library: str, function: str) -> str:
    """Ask a library of the machine; one that cannot be asked is `unknown`, and the key hangs on the rest."""
    file = ctypes.util.find_library(library)
    if file is None:
        return "unknown"
    try:
        ask = getattr(ctypes.CDLL(file), function)
    except (OSError, AttributeError):
        return "unknown"
    ask.restype = ctypes.c_char_p
    return str(ask().decode())


def _sources() -> str:
    hashed = hashlib.sha256()
    for folder, pattern in SOURCES:
        for file in sorted(folder.glob(pattern)):
            hashed.update(file.relative_to(folder).as_posix().encode() + b"\0" + file.read_bytes())
    return hashed.hexdigest()
