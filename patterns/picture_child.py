"""The process that opens an uploaded picture: what is wanted and the upload go in, what it made comes out.

Nothing of the upload goes on but the pixels that were seen: not its name, its metadata, nor what lies behind
its end. It knows no Django and no secrets.
"""

import io
import json
import struct
import sys
import warnings
from typing import Any, BinaryIO

from PIL import Image, ImageCms, ImageFile, ImageOps, UnidentifiedImageError

from patterns.picture_rules import KINDS, MOST_MEGAPIXELS, MOST_SIDE, PICTURE, MadeFile, Wanted

# The opener of JPEG also gives MPO, which many phones write: a JPEG with a second picture behind it.
OPENERS = ("JPEG", "PNG", "WEBP")
STILLS = ("JPEG", "MPO")
PAPER = (255, 255, 255)
SIXTEEN_BITS = ("I", "I;16", "I;16B", "I;16L", "I;16N")
ENCODERS: dict[str, dict[str, Any]] = {
    "webp": {"format": "WEBP", "quality": 80, "method": 4},
    "jpg": {"format": "JPEG", "quality": 84, "optimize": True, "progressive": True},
}
# How files begin that people send in the belief that they are photographs.
STRANGERS = (
    (b"GIF8", "a GIF"),
    (b"%PDF", "a PDF"),
    (b"II*\0", "a TIFF or a camera's raw file"),
    (b"MM\0*", "a TIFF or a camera's raw file"),
    (b"BM", "a BMP"),
)
TOO_MANY = f"The picture has more than {MOST_MEGAPIXELS} megapixels. Make it smaller and send that."


class PictureError(Exception):
    """The upload is refused; the text says why and what to send."""


def made_of(content: bytes, wanted: Wanted) -> list[MadeFile]:
    """Return the pictures made of an upload, the smallest first. Raises PictureError."""
    picture = used_part(opened(content, wanted), wanted)
    sizes = sorted({min(width, picture.width) for width in wanted.widths})
    return [
        MadeFile(small.width, small.height, each, encoded(small, each))
        for small in (narrowed(picture, width) for width in sizes)
        for each in wanted.formats
    ]


def opened(content: bytes, wanted: Wanted) -> Image.Image:
    """Return the upload as RGB, upright, on white paper, without anything that came with it."""
    Image.MAX_IMAGE_PIXELS = MOST_MEGAPIXELS * 1_000_000
    # The PDF writer sets this to True for the whole of its process, and half a file would pass for a picture.
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    warnings.simplefilter("error", Image.DecompressionBombWarning)
    try:
        picture = Image.open(io.BytesIO(content), formats=OPENERS)
        refuse_by_head(picture, wanted)
        if picture.format in STILLS:
            picture.draft("RGB", (2 * max(wanted.widths), 2 * max(wanted.widths)))
        picture.load()
    except (Image.DecompressionBombWarning, Image.DecompressionBombError):
        raise PictureError(TOO_MANY) from None
    except UnidentifiedImageError:
        raise PictureError(f"That is {named(content)}. Send a {KINDS} file.") from None
    except (OSError, SyntaxError, ValueError, EOFError, IndexError, struct.error):
        raise PictureError("The file is damaged or not all there. Send it once more, or another.") from None
    upright = ImageOps.exif_transpose(picture)
    return in_colours_of_the_web(upright)


def refuse_by_head(picture: Image.Image, wanted: Wanted) -> None:
    """Refuse what the first bytes say already: nothing is decoded yet."""
    width, height = picture.size
    size = f"The picture is {width} × {height} pixels"
    if max(width, height) > MOST_SIDE:
        raise PictureError(f"{size}. Neither side may be longer than {MOST_SIDE}: make it smaller.")
    if min(width, height) * wanted.hundredths < wanted.least_side * 100:
        part = "" if wanted.hundredths == 100 else ", of which only a part is used"
        raise PictureError(
            f"{size}{part}. The shorter side needs {wanted.least_side} or more, or it would look blurred."
        )
    if max(width, height) > wanted.longest * min(width, height):
        raise PictureError(
            f"{size}: one side is more than {wanted.longest} times the other. Cut it to its main part."
        )
    if picture.format not in STILLS and getattr(picture, "is_animated", False):
        raise PictureError("The picture moves. Send a still one.")


def in_colours_of_the_web(picture: Image.Image) -> Image.Image:
    """Return the picture as RGB in sRGB; what is clear shows white paper."""
    profile = picture.info.get("icc_profile")
    if picture.mode in SIXTEEN_BITS:
        # Pillow's own conversion would clip all that is lighter than 255 of 65535 to white.
        picture = picture.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    elif picture.mode in ("P", "PA", "LA", "La", "RGBa") or "transparency" in picture.info:
        picture = picture.convert("RGBA")
    clear = picture.getchannel("A") if picture.mode == "RGBA" else None
    if profile:
        picture = converted(picture, profile)
    colours = picture.convert("RGB")
    paper = Image.new("RGB", colours.size, PAPER)
    # Pasted on a sheet of its own: a copy would keep comments and profiles, which the encoders write again.
    paper.paste(colours, mask=clear)
    return paper


def converted(picture: Image.Image, profile: bytes) -> Image.Image:
    """Return the picture in sRGB; as it is where its profile cannot be used."""
    solid = picture.convert("RGB") if picture.mode == "RGBA" else picture
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        target = ImageCms.createProfile("sRGB")
        return ImageCms.profileToProfile(solid, source, target, outputMode="RGB") or picture
    except (ImageCms.PyCMSError, OSError, ValueError):
        return picture


def used_part(picture: Image.Image, wanted: Wanted) -> Image.Image:
    """Return the part about the middle that is wanted."""
    if wanted.hundredths == 100:
        return picture
    width, height = (side * wanted.hundredths // 100 for side in picture.size)
    left, top = (picture.width - width) // 2, (picture.height - height) // 2
    return picture.crop((left, top, left + width, top + height))


def narrowed(picture: Image.Image, width: int) -> Image.Image:
    if width == picture.width:
        return picture
    height = max(1, round(picture.height * width / picture.width))
    return picture.resize((width, height), Image.Resampling.LANCZOS, reducing_gap=3.0)


def encoded(picture: Image.Image, format_: str) -> bytes:
    into = io.BytesIO()
    picture.save(into, **ENCODERS[format_])
    return into.getvalue()


def named(content: bytes) -> str:
    """Say what a file is that is no picture we take."""
    if not content:
        return "an empty file"
    if content[4:8] == b"ftyp":
        return "a HEIC or AVIF picture or a film, as phones make them"
    if b"<svg" in content[:4096].lower():
        return "an SVG drawing"
    known = (what for start, what in STRANGERS if content.startswith(start))
    return next(known, "no picture that we can open")


def answer(input_: BinaryIO) -> tuple[dict[str, Any], list[bytes]]:
    """Return what is said of the upload, and the files."""
    wanted = Wanted(**json.loads(input_.readline()))
    try:
        made = made_of(input_.read(), wanted)
    except PictureError as error:
        return {"mistake": str(error)}, []
    files = [
        {"width": each.width, "height": each.height, "format": each.format, "bytes": len(each.content)}
        for each in made
    ]
    return {"files": files}, [each.content for each in made]


def main() -> None:
    PICTURE.hold()
    try:
        said, contents = answer(sys.stdin.buffer)
    except Exception as error:  # noqa: BLE001 - at the end of a process, whatever it is goes to whoever asked
        sys.exit(PICTURE.sentence(error))
    sys.stdout.buffer.write(json.dumps(said).encode() + b"\n" + b"".join(contents))


if __name__ == "__main__":
    main()
