"""Pictures for the tests, made with Pillow: kind ones and hostile ones, in fixed colours."""

import io
import struct
import zlib
from typing import Any

from PIL import Image

RED, BLUE, WHITE = (200, 30, 30), (30, 60, 200), (255, 255, 255)
ORIENTATION, GPS = 0x0112, 0x8825


def halves(width: int = 800, height: int = 600, mode: str = "RGB") -> Image.Image:
    """A picture, red on its left and blue on its right."""
    picture = Image.new("RGB", (width, height), RED)
    picture.paste(BLUE, (width // 2, 0, width, height))
    return picture.convert(mode)


def as_file(picture: Image.Image, format_: str = "JPEG", **options: Any) -> bytes:
    into = io.BytesIO()
    picture.save(into, format_, **options)
    return into.getvalue()


def jpeg(width: int = 800, height: int = 600, **options: Any) -> bytes:
    return as_file(halves(width, height), "JPEG", **options)


def exif(turned: int = 1, place: bool = False) -> Image.Exif:
    data = Image.Exif()
    data[ORIENTATION] = turned
    data[0x010F] = "A camera of nobody"
    if place:
        data[GPS] = {1: "N", 2: (51.0, 28.0, 38.0), 3: "W", 4: (0.0, 0.0, 5.0)}
    return data


def png_of(width: int, height: int) -> bytes:
    """A PNG of one colour: few bytes, whatever its size."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    rows = zlib.compressobj(9)
    row = bytes(1 + (width + 7) // 8)
    body = b"".join(rows.compress(row) for _ in range(height)) + rows.flush()
    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


SVG = (
    b'<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" width="800" height="600">'
    b"<script>alert(1)</script></svg>"
)
