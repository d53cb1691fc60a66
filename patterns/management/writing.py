"""What the commands have in common that write a PDF: where to, on which paper, whole or not at all."""

import hashlib
import os
import tempfile
from collections.abc import Callable
from pathlib import Path

from django.core.management.base import CommandParser

from patterns.documents.errors import DocumentError, NoDocumentError
from patterns.documents.paper import PAPERS
from patterns.drafting.errors import DraftingError
from patterns.management.printing import Json


class DocumentFileError(DraftingError):
    """A document could not be made, or not be written where it was wanted."""


def add_paper_arguments(parser: CommandParser) -> None:
    """Take what a document is printed on, and where it goes: `[--paper a4|letter] --to FILE.pdf`."""
    parser.add_argument("--paper", choices=list(PAPERS), default="a4")
    parser.add_argument("--to", required=True, metavar="FILE.pdf", help="Where the PDF is written.")


def write_document(what: str, make: Callable[[], bytes], paper: str, to: str) -> Json:
    """Make a document and write it; return what the commands print of the file.

    what: its name in a message, `book`.
    Raises DocumentFileError: it would not have been right, or the place cannot be written.
    NoDocumentError: there is nothing that it could show.
    """
    try:
        document = make()
        write_whole(Path(to), document)
    except NoDocumentError:
        raise
    except DocumentError as error:
        raise DocumentFileError(f"No {what} was written. {error}") from error
    except OSError as error:
        raise DocumentFileError(f"“{to}” cannot be written: {error.strerror}.") from error
    digest = hashlib.sha256(document).hexdigest()
    return {"paper": paper, "file": to, "bytes": len(document), "sha256": digest}


def write_whole(path: Path, content: bytes) -> None:
    """Write a file in one piece: whoever looks finds the old one or the new one. Raises OSError."""
    with tempfile.NamedTemporaryFile(dir=path.parent, prefix=f".{path.name}-", delete=False) as beside:
        try:
            beside.write(content)
            beside.flush()
            os.chmod(beside.name, 0o666 & ~_umask())
            os.replace(beside.name, path)
        except OSError:
            os.unlink(beside.name)
            raise


def _umask() -> int:
    """The permissions that new files do not get; they can only be read by setting them."""
    mask = os.umask(0o077)
    os.umask(mask)
    return mask
