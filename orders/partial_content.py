"""A file as an answer that can be gone on with: whole, or one range of it (RFC 9110, section 14)."""

import hashlib
import re

from django.http import HttpRequest, HttpResponse

# One range: `bytes=0-99`, `bytes=100-`, `bytes=-50`. More digits than any file has are no range.
ONE_RANGE = re.compile(r"bytes=(\d{0,18})-(\d{0,18})", re.ASCII | re.IGNORECASE)


class OutsideError(ValueError):
    """A range of which the file has nothing."""


def file_response(request: HttpRequest, content: bytes, file_name: str) -> HttpResponse:
    """Return a PDF to be kept as a file; status 206 or 416 where a single range is asked for.

    Its tag is the checksum of its bytes: whoever goes on after a file has changed gets the new one whole.
    Several ranges at once are answered with the whole file, as they may be.
    """
    tag = f'"{hashlib.sha256(content).hexdigest()}"'
    headers = {"Accept-Ranges": "bytes", "ETag": tag}
    try:
        part = _part(request, len(content), tag)
    except OutsideError:
        return HttpResponse(status=416, headers={**headers, "Content-Range": f"bytes */{len(content)}"})
    headers["Content-Disposition"] = f'attachment; filename="{file_name}"'
    if part is not None:
        headers["Content-Range"] = f"bytes {part.start}-{part.stop - 1}/{len(content)}"
        content = content[part.start : part.stop]
    headers["Content-Length"] = str(len(content))
    status = 200 if part is None else 206
    return HttpResponse(content, status=status, content_type="application/pdf", headers=headers)


def _part(request: HttpRequest, size: int, tag: str) -> range | None:
    """Return which bytes are asked for; None for all of them. A range is only a matter of GET."""
    asked = request.headers.get("Range", "")
    # A date never fits: files have a tag and no date. Neither does a weak tag.
    if request.method != "GET" or request.headers.get("If-Range", tag) != tag:
        return None
    return part_of(asked, size)


def part_of(asked: str, size: int) -> range | None:
    """Return which of `size` bytes a Range header asks for; None for all, as where it cannot be read.

    Raises OutsideError.

    >>> part_of("bytes=2-4", 10), part_of("bytes=8-", 10), part_of("bytes=-3", 10)
    (range(2, 5), range(8, 10), range(7, 10))
    """
    read = ONE_RANGE.fullmatch(asked.strip())
    if read is None or read[1] == read[2] == "":
        return None
    if read[1] == "":
        start, stop = max(size - int(read[2]), 0), size
    else:
        start, stop = int(read[1]), min(int(read[2]) + 1, size) if read[2] else size
        if read[2] and int(read[2]) < start:
            return None
    if start >= stop:
        raise OutsideError
    return range(start, stop)
