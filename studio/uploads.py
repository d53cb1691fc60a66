"""What of an upload is taken in at all: a file that is far too large is dropped as it comes."""

from typing import Any, Final

from django.core.files.uploadhandler import FileUploadHandler, SkipFile, StopUpload
from django.http import HttpRequest

# The largest file that a form of the shop takes has 20 MB; a little more, so that the form can say so.
MOST_BYTES: Final = 21 * 1024 * 1024
# So much is read to its end, so that the page can say what is wrong; more is not sent by mistake.
MOST_READ: Final = 200 * 1024 * 1024


class DroppedUploadHandler(FileUploadHandler):
    """Stands before the handlers that keep files. What it drops is named by `dropped_files`."""

    def handle_raw_input(
        self,
        input_data: Any,
        META: dict[str, str],  # noqa: N803 - the name that Django calls it by
        content_length: int,
        boundary: Any,
        encoding: str | None = None,
    ) -> None:
        self.is_too_long = content_length > MOST_READ

    def new_file(self, *args: Any, **kwargs: Any) -> None:
        super().new_file(*args, **kwargs)
        self.received = 0
        if self.is_too_long:
            raise StopUpload(connection_reset=True)

    def receive_data_chunk(self, raw_data: bytes, start: int) -> bytes:
        self.received += len(raw_data)
        if self.received > MOST_BYTES:
            dropped_files(self.request).add(self.field_name)
            raise SkipFile
        return raw_data

    def file_complete(self, file_size: int) -> None:
        """Leave the file to the handlers behind."""


def dropped_files(request: HttpRequest | None) -> set[str]:
    """Return the names of the boxes whose files were too large to be taken in."""
    if not hasattr(request, "_dropped_files"):
        request._dropped_files = set()  # type: ignore[union-attr]
    return request._dropped_files  # type: ignore[union-attr, no-any-return]
