"""Files that were made once and are kept under their content address, each kind in a folder of its own."""

import contextlib
import os
import tempfile
from pathlib import Path

from django.conf import settings


def kept(folder: str, address: str) -> bytes | None:
    """Return the file kept under the address; None if there is none."""
    try:
        return _file(folder, address).read_bytes()
    except FileNotFoundError:
        return None


def keep(folder: str, address: str, content: bytes) -> None:
    """Keep a PDF. Whoever reads meanwhile finds the whole of it or none; twice at once is harmless."""
    file = _file(folder, address)
    file.parent.mkdir(parents=True, exist_ok=True)
    descriptor, name = tempfile.mkstemp(dir=file.parent, prefix=".", suffix=".part")
    try:
        with os.fdopen(descriptor, "wb") as part:
            part.write(content)
            part.flush()
            os.fsync(part.fileno())
        os.replace(name, file)
    except BaseException:
        with contextlib.suppress(FileNotFoundError):
            os.unlink(name)
        raise


def _file(folder: str, address: str) -> Path:
    return Path(settings.MEDIA_ROOT) / folder / address[:2] / f"{address}.pdf"
