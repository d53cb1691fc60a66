"""Where the unstamped bodies of documents are kept: one file under each content address."""

import hashlib
import json

from patterns import kept as files
from patterns.documents.versions import renderer_key

FOLDER = "bodies"


def body_address(
    sized_data: dict[str, object],
    layouts_data: dict[str, object],
    kind: str,
    paper: str,
    cover: dict[str, object] | None = None,
) -> str:
    """Return the address of a body made now: it says all that the bytes depend on.

    sized_data: a sized pattern as JSON, which holds its language. layouts_data: its shopping list as JSON.
    cover: the customer's own cloth on it, pictures and all; what has none keeps the address it always had.
    """
    parts: dict[str, object] = {
        "sized": sized_data,
        "layouts": layouts_data,
        "kind": kind,
        "paper": paper,
        "language": sized_data["language"],
        "renderer": renderer_key(),
    }
    if cover:
        parts["cover"] = cover
    text = json.dumps(parts, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return hashlib.sha256(text.encode()).hexdigest()


def kept(address: str) -> bytes | None:
    """Return the body kept under the address; None if there is none."""
    return files.kept(FOLDER, address)


def keep(address: str, body: bytes) -> None:
    """Keep a body. Whoever reads meanwhile finds the whole of it or none; twice at once is harmless."""
    files.keep(FOLDER, address, body)
