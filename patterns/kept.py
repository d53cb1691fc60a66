"""Files that were made once and are kept under their content address, each kind in a folder of its own."""

import contextlib
import os
import tempfile
from pathlib import Path

from django.conf import settings


def kept(folder: str, address: str, ending: str = "pdf") -> bytes | None:
    """Return the file kept under the address; None if there is none."""
    try:
        return path_of(folder, address, ending).read_bytes()
    except FileNotFoundError:
        return None


def keep(folder: str, address: str, content: bytes, ending: str = "pdf") -> None:
    """Keep a file. Whoever reads meanwhile finds the whole of it or none; twice at once is harmless."""
    file = path_of(folder, address, ending)
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


def forget(folder: str, address: str, ending: str = "pdf") -> None:
    """Delete a file that was kept; twice is harmless."""
    with contextlib.suppress(FileNotFoundError):
        path_of(folder, address, ending).unlink()


def path_of(folder: str, address: str, ending: str = "pdf") -> Path:
    return Path(settings.MEDIA_ROOT) / folder / address[:2] / f"{address}.{ending}"
