"""Where the unstamped bodies of documents are kept: one file under each content address."""

import contextlib
import hashlib
import json
import os
import tempfile
from pathlib import Path

from django.conf import settings

from patterns.documents.versions import renderer_key


def body_address(sized_data: dict[str, object], kind: str, paper: str) -> str:
    """Return the address of a body made now: it says all that the bytes depend on.

    sized_data: a sized pattern as JSON, which holds its language.
    """
    parts = {
        "sized": sized_data,
        "kind": kind,
        "paper": paper,
        "language": sized_data["language"],
        "renderer": renderer_key(),
    }
    text = json.dumps(parts, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return hashlib.sha256(text.encode()).hexdigest()


def kept(address: str) -> bytes | None:
    """Return the body kept under the address; None if there is none."""
    try:
        return _file(address).read_bytes()
    except FileNotFoundError:
        return None


def keep(address: str, body: bytes) -> None:
    """Keep a body. Whoever reads meanwhile finds the whole of it or none; twice at once is harmless."""
    file = _file(address)
    file.parent.mkdir(parents=True, exist_ok=True)
    descriptor, name = tempfile.mkstemp(dir=file.parent, prefix=".", suffix=".part")
    try:
        with os.fdopen(descriptor, "wb") as part:
            part.write(body)
            part.flush()
            os.fsync(part.fileno())
        os.replace(name, file)
    except BaseException:
        with contextlib.suppress(FileNotFoundError):
            os.unlink(name)
        raise


def _file(address: str) -> Path:
    return Path(settings.MEDIA_ROOT) / "bodies" / address[:2] / f"{address}.pdf"
