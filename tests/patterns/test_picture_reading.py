"""Uploads, kind and hostile, opened in a process of their own."""

import dataclasses
import io
import json
import subprocess
import sys
from collections.abc import Sequence

import pytest
from django.core.exceptions import ValidationError
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image, ImageCms, ImageFile

from patterns import picture_child, picture_reading
from patterns.picture_child import PictureError, made_of
from patterns.picture_reading import pictures_of
from patterns.picture_rules import PHOTOGRAPH, MadeFile, Wanted
from studio.env import PROJECT
from tests.pictures import BLUE, RED, SVG, WHITE, as_file, exif, halves, jpeg, png_of

DAMAGED = "The file is damaged or not all there"
SMALL = Wanted(most_megabytes=5, least_side=64, longest=4, widths=(400,), formats=("jpg",))


@pytest.fixture(autouse=True)
def settings_of_pillow(monkeypatch: pytest.MonkeyPatch) -> None:
    """Begin as the PDF writer leaves it, and put back what `made_of` sets for all tests."""
    monkeypatch.setattr(Image, "MAX_IMAGE_PIXELS", Image.MAX_IMAGE_PIXELS)
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)


def sent(content: bytes, name: str = "picture.jpg") -> list[MadeFile]:
    return pictures_of(SimpleUploadedFile(name, content), PHOTOGRAPH)


def image(made: Sequence[MadeFile] | bytes) -> Image.Image:
    content = made if isinstance(made, bytes) else made[-1].content
    return Image.open(io.BytesIO(content))


def is_like(colour: tuple[int, ...], wanted: tuple[int, ...], by: int = 12) -> bool:
    return all(abs(one - other) <= by for one, other in zip(colour, wanted, strict=True))


def corners(picture: Image.Image) -> tuple[tuple[int, ...], tuple[int, ...]]:
    picture = picture.convert("RGB")
    return picture.getpixel((5, 5)), picture.getpixel((picture.width - 6, picture.height - 6))


def mistake(content: bytes, wanted: Wanted = PHOTOGRAPH) -> str:
    with pytest.raises(PictureError) as refused:
        made_of(content, wanted)
    return str(refused.value)


def test_photograph_comes_in_three_widths_and_two_formats() -> None:
    made = sent(jpeg(2400, 1800))
    assert [(each.width, each.height, each.format) for each in made] == [
        (width, width * 3 // 4, format_) for width in (480, 960, 1600) for format_ in ("webp", "jpg")
    ]
    for each in made:
        picture = Image.open(io.BytesIO(each.content))
        picture.load()
        assert picture.format == {"webp": "WEBP", "jpg": "JPEG"}[each.format]
        assert picture.size == (each.width, each.height)
        assert is_like(corners(picture)[0], RED)
        assert is_like(corners(picture)[1], BLUE)


def test_nothing_is_enlarged() -> None:
    assert sorted({each.width for each in sent(jpeg(700, 600))}) == [480, 700]


def test_81_megapixels_in_9_kilobytes_are_not_decoded(monkeypatch: pytest.MonkeyPatch) -> None:
    bomb = png_of(9000, 9000)
    assert len(bomb) < 12_000
    monkeypatch.setattr(Image.Image, "load", lambda picture: pytest.fail("it was decoded"))
    assert mistake(bomb) == "The picture has more than 40 megapixels. Make it smaller and send that."
    assert "40 megapixels" in mistake(png_of(7000, 6000))  # Pillow itself only warns of this one


def test_long_side_is_named() -> None:
    assert mistake(png_of(13_000, 1000)).startswith("The picture is 13000 × 1000 pixels. Neither side")


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (SVG, "That is an SVG drawing. Send a JPEG, PNG or WebP file."),
        (b"", "That is an empty file."),
        (b"<html><script>alert(1)</script>", "That is no picture that we can open."),
        (b"GIF89a" + b"\0" * 40, "That is a GIF."),
        (b"%PDF-1.7 ...", "That is a PDF."),
        (b"\0\0\0\x18ftypheic" + b"\0" * 40, "That is a HEIC or AVIF picture"),
        (b"II*\0" + b"\0" * 60, "That is a TIFF or a camera's raw file."),
        (jpeg(300, 900), "The picture is 300 × 900 pixels. The shorter side needs 480 or more"),
        (jpeg(2000, 500), "one side is more than 3 times the other"),
    ],
)
def test_what_is_refused_is_said(content: bytes, says: str) -> None:
    assert says in mistake(content)


@pytest.mark.parametrize("format_", ["GIF", "BMP", "TIFF", "PPM", "ICO"])
def test_whole_picture_of_another_kind_is_not_opened(format_: str) -> None:
    """However well it would open: each opener more is one more to trust."""
    assert mistake(as_file(halves(), format_)).endswith("Send a JPEG, PNG or WebP file.")


@pytest.mark.parametrize("format_", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("share", [0.1, 0.6, 0.95])
def test_truncated_file(format_: str, share: float) -> None:
    noise = Image.effect_noise((600, 600), 90).convert("RGB")
    whole = as_file(noise, format_)
    assert mistake(whole[: int(len(whole) * share)]).startswith((DAMAGED, "That is no picture"))


def test_garbled_file() -> None:
    whole = bytearray(as_file(halves(), "PNG"))
    whole[60:90] = b"\xff" * 30
    assert mistake(bytes(whole)).startswith(DAMAGED)


@pytest.mark.parametrize("format_", ["PNG", "WEBP"])
def test_moving_picture(format_: str) -> None:
    more = [halves().rotate(180)]
    moving = as_file(halves(), format_, save_all=True, append_images=more, duration=100)
    assert mistake(moving) == "The picture moves. Send a still one."


def test_two_pictures_of_a_phone_are_one() -> None:
    """Phones write a JPEG with a second, smaller picture behind it: it does not move."""
    both = as_file(halves(), "MPO", save_all=True, append_images=[halves(160, 120)])
    assert is_like(corners(image(made_of(both, PHOTOGRAPH)))[0], RED)


@pytest.mark.parametrize(
    ("turned", "size"), [(1, (800, 600)), (3, (800, 600)), (6, (600, 800)), (8, (600, 800))]
)
def test_turned_upright(turned: int, size: tuple[int, int]) -> None:
    picture = image(made_of(jpeg(exif=exif(turned)), PHOTOGRAPH))
    assert picture.size == size
    first, last = {1: (RED, BLUE), 3: (BLUE, RED), 6: (RED, BLUE), 8: (BLUE, RED)}[turned]
    assert is_like(corners(picture)[0], first)
    assert is_like(corners(picture)[1], last)


def test_nothing_that_came_with_it_is_kept() -> None:
    """Neither place nor camera, comment, profile, nor what lies behind the picture's end."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    photograph = as_file(
        halves(),
        exif=exif(place=True),
        comment=b"secret comment",
        xmp=b"<x:xmpmeta>secret</x:xmpmeta>",
        icc_profile=profile,
    )
    made = made_of(photograph + b"<script>secret</script>PK\x03\x04", PHOTOGRAPH)
    for each in made:
        picture = Image.open(io.BytesIO(each.content))
        picture.load()
        assert dict(picture.getexif()) == {}
        assert set(picture.info) <= {
            "jfif",
            "jfif_version",
            "jfif_unit",
            "jfif_density",
            "progressive",
            "progression",
            "loop",
            "background",
            "timestamp",
            "duration",
        }
        for word in (b"secret", b"camera", b"GPS", b"ICC_PROFILE", b"ICCP", b"EXIF", b"<script"):
            assert word not in each.content


@pytest.mark.parametrize("mode", ["CMYK", "P", "L", "1", "RGBA", "LA", "YCbCr"])
def test_every_mode(mode: str) -> None:
    format_ = {"CMYK": "JPEG", "YCbCr": "JPEG"}.get(mode, "PNG")
    picture = image(made_of(as_file(halves(mode=mode), format_), PHOTOGRAPH))
    assert picture.mode == "RGB"
    wanted = corners(halves(mode=mode))
    for found, meant in zip(corners(picture), wanted, strict=True):
        assert mode == "1" or is_like(found, meant, by=40)


def test_sixteen_bits_stay_grey() -> None:
    """Pillow's own conversion makes all of it white."""
    picture = Image.new("I;16", (600, 600), 100 * 256)
    assert is_like(corners(image(made_of(as_file(picture, "PNG"), PHOTOGRAPH)))[0], (100, 100, 100), by=2)


def test_what_is_clear_shows_white_paper() -> None:
    picture = halves(mode="RGBA")
    picture.putalpha(0)
    assert is_like(corners(image(made_of(as_file(picture, "PNG"), PHOTOGRAPH)))[0], WHITE, by=1)
    with_key = halves().quantize(2)
    clear = as_file(with_key, "PNG", transparency=with_key.getpixel((1, 1)))
    assert is_like(corners(image(made_of(clear, PHOTOGRAPH)))[0], WHITE, by=3)


def test_profile_that_cannot_be_read_is_left_out() -> None:
    assert is_like(corners(image(made_of(jpeg(icc_profile=b"no profile"), PHOTOGRAPH)))[0], RED)


def test_middle_is_taken() -> None:
    wanted = Wanted(5, 64, 4, (400,), ("jpg",), hundredths=50)
    picture = halves(800, 600)
    picture.paste(WHITE, (0, 0, 150, 600))
    found = image(made_of(as_file(picture), wanted))
    assert found.size == (400, 300)
    assert is_like(corners(found)[0], RED)


@pytest.mark.parametrize("name", ["picture.png", "picture.exe", "picture", "../../picture.jpg"])
def test_name_says_nothing(name: str) -> None:
    assert sent(jpeg(), name)


def test_other_file_under_a_pictures_name() -> None:
    with pytest.raises(ValidationError, match="SVG drawing"):
        sent(SVG, "holiday.jpg")


def test_heavy_file_is_not_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(picture_reading, "answer_of", lambda *asked: pytest.fail("it was opened"))
    with pytest.raises(ValidationError, match="larger than 20 MB"):
        sent(bytes(PHOTOGRAPH.most_bytes + 1))


def test_process_that_takes_too_long_or_too_much_is_ended(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(picture_reading, "PATIENCE", 0.01)
    with pytest.raises(ValidationError, match="within the time and memory"):
        sent(jpeg())


def test_process_has_limits_on_memory_and_no_secrets() -> None:
    program = (
        "import sys, io, resource, patterns.picture_child as child;"
        "child.answer = lambda input_: bytearray(1 << 31);"
        "child.main()"
    )
    done = subprocess.run([sys.executable, "-c", program], cwd=PROJECT, capture_output=True, timeout=60)
    assert done.returncode == 1
    assert done.stderr.decode().strip() == "It needed more than 1024 MB of memory."
    assert "SECRET_KEY" not in picture_reading.SURROUNDINGS


def test_process_knows_no_django() -> None:
    program = "import patterns.picture_child, sys; raise SystemExit('django' in sys.modules)"
    subprocess.run([sys.executable, "-c", program], cwd=PROJECT, check=True, timeout=60)


def test_largest_picture_stays_within_the_memory() -> None:
    """40 megapixels with a clear colour, the mode that needs most."""
    assert len(sent(as_file(Image.new("RGBA", (7000, 5700), (9, 9, 9, 99)), "PNG", compress_level=1))) == 6


def test_mistakes_come_back_as_words() -> None:
    head = json.dumps(dataclasses.asdict(SMALL)).encode()
    said, files = picture_child.answer(io.BytesIO(head + b"\nno picture"))
    assert said == {"mistake": "That is no picture that we can open. Send a JPEG, PNG or WebP file."}
    assert files == []
    assert "64 to 12,000 pixels a side" in SMALL.limits_words
