"""The shop's typefaces, made once from the packages that carry them: static, small, always the same bytes.

`build` cuts fixed weights out of the variable fonts, keeps the glyphs that pages and books use, and gives
them family names of our own, because the licence reserves the old ones for unmodified files. PDF files are
set with `print/*.ttf`, web pages with `web/*.woff2`: the same outlines.
"""

import hashlib
import importlib.metadata
import importlib.util
import os
import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

from studio.env import shop_data

from .errors import DocumentError

TEXT_FAMILY = "Workroom Text"
DISPLAY_FAMILY = "Workroom Display"
NAMES_FAMILY = "Workroom Names"


@dataclass(frozen=True, slots=True)
class Face:
    """One fixed weight of a family, and the package and file that it is cut from."""

    family: str
    weight: int
    is_italic: bool
    package: str
    source: str
    original: str

    @property
    def stem(self) -> str:
        name = f"{self.family.lower().replace(' ', '-')}-{self.weight}"
        return f"{name}-italic" if self.is_italic else name

    @property
    def style(self) -> str:
        weight = {400: "Regular", 600: "SemiBold", 700: "Bold"}[self.weight]
        return ("Italic" if weight == "Regular" else f"{weight} Italic") if self.is_italic else weight


SANS, SERIF = "fontpkg_source_sans_3", "fontpkg_bitter"
FACES = (
    Face(TEXT_FAMILY, 400, False, SANS, "SourceSans3[wght].ttf", "Source Sans 3"),
    Face(TEXT_FAMILY, 700, False, SANS, "SourceSans3[wght].ttf", "Source Sans 3"),
    Face(TEXT_FAMILY, 400, True, SANS, "SourceSans3-Italic[wght].ttf", "Source Sans 3"),
    Face(DISPLAY_FAMILY, 600, False, SERIF, "Bitter[wght].ttf", "Bitter"),
    Face(NAMES_FAMILY, 400, False, SANS, "SourceSans3[wght].ttf", "Source Sans 3"),
)

# Latin, punctuation, superscript and subscript figures, fractions, arrows, the signs of arithmetic.
GLYPHS = (
    (0x0020, 0x017F),
    (0x0218, 0x021B),
    (0x02C6, 0x02DD),
    (0x03C0, 0x03C0),
    (0x2000, 0x209F),
    (0x20AC, 0x20AC),
    (0x2116, 0x2122),
    (0x2150, 0x215F),
    (0x2190, 0x2193),
    (0x2212, 0x2212),
    (0x221A, 0x221A),
    (0x2248, 0x2248),
    (0x2260, 0x2260),
    (0x2264, 0x2265),
)
# `frac` with `numr` and `dnom` is what sets 7⁄8 as a fraction; `ccmp` and `locl` are habits of languages.
FEATURES = (
    "frac",
    "numr",
    "dnom",
    "tnum",
    "lnum",
    "sups",
    "subs",
    "kern",
    "ccmp",
    "locl",
)
# Figures of a fraction are read at arm's length, beside scissors; a design's own are small for that.
FRACTION_SIZE = 1.18
# Customers write their names in it: the rest of Latin (Vietnamese, African), Greek, Cyrillic. The PDF writer
# turns to this face for a letter that the text face lacks; it has no kerning, which takes long to build.
NAME_GLYPHS = (
    (0x0020, 0x024F),
    (0x0300, 0x036F),
    (0x0370, 0x052F),
    (0x1E00, 0x1EFF),
    (0x2010, 0x201D),
)
NAME_FEATURES = ("ccmp", "locl")
# Where a font has no glyph for the first, the second looks the same.
STAND_INS = ((0x202F, 0x2009), (0x2011, 0x2010))


def directory() -> Path:
    """Return the folder of this shop's fonts."""
    return shop_data() / "fonts"


def build(folder: Path) -> bool:
    """Make the fonts in the folder; return whether there was anything to do.

    They are made beside it and moved in whole, so that a reader finds the old fonts or the new ones.
    """
    key = build_key()
    stamp = folder / "built-from"
    if stamp.is_file() and stamp.read_text(encoding="ascii") == key:
        return False
    folder.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=folder.parent, prefix="fonts-") as beside:
        made = Path(beside) / "fonts"
        write_fonts(made)
        (made / "built-from").write_text(key, encoding="ascii")
        if folder.is_dir():
            folder.rename(Path(beside) / "old")
        made.rename(folder)
    return True


def fontconfig_file(folder: Path | None = None) -> Path:
    """Return a configuration for the PDF writer that knows our fonts and no others.

    It holds the folder's own path, so it is written again where the folder has moved.
    Raises DocumentError: the fonts have not been built.
    """
    folder = folder or directory()
    if not (folder / "built-from").is_file():
        raise DocumentError(f"There are no fonts in {folder}. Run “sh studio/setup.sh”, which makes them.")
    text = (
        '<?xml version="1.0"?>\n<!DOCTYPE fontconfig SYSTEM "fonts.dtd">\n<fontconfig>\n'
        f"  <dir>{escape(str(folder / 'print'))}</dir>\n"
        f"  <cachedir>{escape(str(folder / 'cache'))}</cachedir>\n</fontconfig>\n"
    )
    file = folder / "fonts.conf"
    if not file.is_file() or file.read_text(encoding="utf-8") != text:
        with tempfile.NamedTemporaryFile("w", dir=folder, delete=False, encoding="utf-8") as beside:
            beside.write(text)
        os.replace(beside.name, file)
    return file


def digest(folder: Path | None = None) -> str:
    """Return a name for the bytes that documents are set with; it belongs in what they are kept under."""
    files = sorted(((folder or directory()) / "print").glob("*.ttf"))
    if len(files) != len(FACES):
        raise DocumentError(f"{len(files)} of {len(FACES)} fonts are built. Run “sh studio/setup.sh”.")
    hashed = hashlib.sha256()
    for file in files:
        hashed.update(file.name.encode() + b"\0" + hashlib.sha256(file.read_bytes()).digest())
    return hashed.hexdigest()


def build_key() -> str:
    """Return a name for all that decides the fonts' bytes: their sources, this file and the tools."""
    hashed = hashlib.sha256(Path(__file__).read_bytes())
    for tool in ("fonttools", "brotli"):
        hashed.update(f"{tool} {importlib.metadata.version(tool)}\n".encode())
    for source in sorted({package_folder(face.package) / "files" / face.source for face in FACES}):
        hashed.update(hashlib.sha256(source.read_bytes()).digest())
    return hashed.hexdigest()


def package_folder(package: str) -> Path:
    """Return where a font package lies, without running it."""
    spec = importlib.util.find_spec(package)
    if spec is None or spec.origin is None:
        raise DocumentError(f"The font package {package} is not installed. Run “sh studio/setup.sh”.")
    return Path(spec.origin).parent


def write_fonts(folder: Path) -> None:
    """Write every face for print and for the web, and the licences they are under."""
    for part in ("print", "web"):
        (folder / part).mkdir(parents=True)
        for package in (SANS, SERIF):
            name = f"{package.removeprefix('fontpkg_').replace('_', '-')}-licence.txt"
            shutil.copyfile(package_folder(package) / "LICENSE", folder / part / name)
    for face in FACES:
        static = static_font(face)
        static.save(folder / "print" / f"{face.stem}.ttf")
        if face.family != NAMES_FAMILY:
            static.flavor = "woff2"
            static.save(folder / "web" / f"{face.stem}.woff2")


def static_font(face: Face) -> Any:
    """Return the variable font of a face, cut to our glyphs, held at its weight and under our name."""
    from fontTools.ttLib import TTFont
    from fontTools.varLib.instancer import instantiateVariableFont

    # The time a font says it was changed stays that of its source: it would be the one byte that differs.
    font = TTFont(package_folder(face.package) / "files" / face.source, recalcTimestamp=False)
    rename(font, face)
    cut(font, face)
    instantiateVariableFont(font, {"wght": face.weight}, inplace=True)
    if face.family == TEXT_FAMILY:
        enlarge_fractions(font)
    for table in font["cmap"].tables:
        for missing, twin in STAND_INS:
            if missing not in table.cmap and twin in table.cmap:
                table.cmap[missing] = table.cmap[twin]
    return font


def rename(font: Any, face: Face) -> None:
    """Give the font its own names, and the flags by which a weight is chosen."""
    version, copyright_notice = (
        font["name"].getDebugName(5),
        font["name"].getDebugName(0),
    )
    licence, licence_url = font["name"].getDebugName(13), font["name"].getDebugName(14)
    postscript = f"{face.family.replace(' ', '')}-{face.style.replace(' ', '')}"
    names = {
        0: copyright_notice,
        1: face.family if face.weight in (400, 700) else f"{face.family} {face.style}",
        2: face.style if face.weight in (400, 700) else "Regular",
        3: f"{postscript};made from {face.original}, {version}",
        4: f"{face.family} {face.style}",
        5: version,
        6: postscript,
        10: f"A fixed weight with part of the glyphs, made from {face.original}.",
        13: licence,
        14: licence_url,
        16: face.family,
        17: face.style,
    }
    font["name"].names = []
    for number, text in names.items():
        font["name"].setName(text, number, 3, 1, 0x409)
    is_bold = face.weight == 700
    font["OS/2"].usWeightClass = face.weight
    font["head"].macStyle = is_bold | face.is_italic << 1
    kept = font["OS/2"].fsSelection & ~0b1100001
    is_regular = not is_bold and not face.is_italic
    font["OS/2"].fsSelection = kept | face.is_italic | is_bold << 5 | is_regular << 6


def cut(font: Any, face: Face) -> None:
    """Keep the glyphs that this face is for and what our features make of them."""
    from fontTools.subset import Options, Subsetter

    ranges, features = (GLYPHS, FEATURES) if face.family != NAMES_FAMILY else (NAME_GLYPHS, NAME_FEATURES)
    options = Options(
        layout_features=list(features),
        name_IDs=["*"],
        notdef_outline=True,
        hinting=False,
    )
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[code for first, last in ranges for code in range(first, last + 1)])
    subsetter.subset(font)


def enlarge_fractions(font: Any) -> None:
    """Draw what `frac` makes of 7⁄8 at FRACTION_SIZE; single signs (½, ⁷) stay as they are."""
    from fontTools.pens.recordingPen import DecomposingRecordingPen
    from fontTools.pens.transformPen import TransformPen
    from fontTools.pens.ttGlyphPen import TTGlyphPen

    bar = font.getBestCmap()[ord("⁄")]
    strokes = {made for maps in maps_of(font, "frac") for plain, made in maps.items() if plain == "slash"}
    for maps in maps_of(font, "frac"):
        if "slash" in maps:
            maps[bar] = maps["slash"]
    parts = strokes.union(*(maps.values() for tag in ("numr", "dnom") for maps in maps_of(font, tag)))
    # Other glyphs are put together from these, and keep their size: all are drawn out before any grows.
    glyphs, sizes = font.getGlyphSet(), {}
    for name in font.getGlyphOrder():
        if name in parts or parts & components_of(font, name):
            sizes[name] = FRACTION_SIZE if name in parts else 1
    outlines = {name: DecomposingRecordingPen(glyphs) for name in sizes}
    for name, outline in outlines.items():
        glyphs[name].draw(outline)
    for name, size in sizes.items():
        pen = TTGlyphPen(None)
        outlines[name].replay(TransformPen(pen, (size, 0, 0, size, 0, 0)))
        font["glyf"][name] = pen.glyph()
        width, left = font["hmtx"][name]
        font["hmtx"][name] = (round(width * size), round(left * size))


def maps_of(font: Any, feature: str) -> list[dict[str, str]]:
    """Return the one-for-one substitutions of a feature, glyph by glyph; writing to them changes the font."""
    table = font["GSUB"].table
    numbers = {
        number
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == feature
        for number in record.Feature.LookupListIndex
    }
    lookups = [table.LookupList.Lookup[number] for number in sorted(numbers)]
    return [part.mapping for lookup in lookups for part in lookup.SubTable if hasattr(part, "mapping")]


def components_of(font: Any, name: str) -> set[str]:
    """Return the glyphs that a glyph is put together from, however deep."""
    glyph = font["glyf"][name]
    if not glyph.isComposite():
        return set()
    direct = {component.glyphName for component in glyph.components}
    return direct.union(*(components_of(font, part) for part in direct))


def main() -> None:
    """Build the fonts of this shop: `python -m patterns.documents.fonts`."""
    was_built = build(directory())
    print(f"Fonts in {directory()}: {'built' if was_built else 'current'}.")


if __name__ == "__main__":
    main()
