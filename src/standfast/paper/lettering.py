"""How wide lettering is: read from the font that the drawings are set in.

Drawings letter by the height of their capitals, as ISO 3098 and ASME Y14.2 do: 2.5 mm lettering has capitals 2.5 mm
high. The advance of every character comes from the font file itself, so a drawing knows the box of each text before
anything is rendered. Kerning is left out: it only makes text narrower than told here.
"""

import struct
from functools import cache
from importlib.resources import files
from typing import NamedTuple

FAMILY = "Source Sans Pro"
LEAST_MM = 2.5
"""Least height of capitals on a drawing."""

CUTS = {
    "regular": "SourceSansPro-Regular.ttf",
    "bold": "SourceSansPro-Semibold.ttf",
    "italic": "SourceSansPro-It.ttf",
    "heavy": "SourceSansPro-Bold.ttf",
}
"""The cuts that drawings and pages use; no other file of the font is read."""

_LOOKALIKES = str.maketrans(
    {"\u2300": "Ø", "\u2205": "Ø", "\u2126": "\u03a9", "\u00b5": "\u03bc", "\u2011": "-", "\t": " "}
)


class Font(NamedTuple):
    """Advances of one cut, in parts of the em."""

    em: int
    capital: int
    advances: tuple[int, ...]
    glyphs: dict[int, int]

    def has(self, character: str) -> bool:
        """True where the font holds the character."""
        return ord(character) in self.glyphs

    def advance(self, character: str) -> int:
        """Advance of a character; a full em where the font does not hold it, so that the box is never too small."""
        glyph = self.glyphs.get(ord(character))
        if glyph is None:
            return self.em
        return self.advances[min(glyph, len(self.advances) - 1)]


def font_bytes(cut: str) -> bytes:
    """The font file of a cut."""
    return (files("font_source_sans_pro") / "files" / CUTS[cut]).read_bytes()


@cache
def font(cut: str = "regular") -> Font:
    """The metrics of a cut: tables head, hhea, hmtx, OS/2 and cmap of the font file (OpenType specification)."""
    data = font_bytes(cut)
    count = struct.unpack_from(">H", data, 4)[0]
    tables: dict[bytes, int] = {}
    for index in range(count):
        name, _, offset, _ = struct.unpack_from(">4sLLL", data, 12 + 16 * index)
        tables[name] = offset
    em: int = struct.unpack_from(">H", data, tables[b"head"] + 18)[0]
    capital: int = struct.unpack_from(">h", data, tables[b"OS/2"] + 88)[0]
    held: int = struct.unpack_from(">H", data, tables[b"hhea"] + 34)[0]
    metrics = struct.unpack_from(f">{2 * held}H", data, tables[b"hmtx"])
    return Font(em, capital, metrics[::2], _glyphs(data, tables[b"cmap"]))


def size_mm(height_mm: float) -> float:
    """Font size whose capitals are `height_mm` high."""
    regular = font()
    return height_mm * regular.em / regular.capital


@cache
def width_mm(text: str, height_mm: float, bold: bool = False) -> float:
    """Width of one line of lettering with capitals `height_mm` high."""
    face = font("bold" if bold else "regular")
    return sum(face.advance(character) for character in text) * size_mm(height_mm) / face.em


def spelled(text: str) -> str:
    """The text with characters that the font lacks replaced by the ones it holds for the same sign.

    A renderer would take the whole line from another font for one sign that is missing.
    """
    return text.translate(_LOOKALIKES)


def wrapped(text: str, width: float, height_mm: float, bold: bool = False) -> list[str]:
    """The text in lines not wider than `width` mm; a single word that is wider stands alone on its line."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_mm(longer, height_mm, bold) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _glyphs(data: bytes, cmap: int) -> dict[int, int]:
    """Character code to glyph: subtable of platform 3, encoding 1, format 4."""
    for index in range(struct.unpack_from(">H", data, cmap + 2)[0]):
        platform, encoding, offset = struct.unpack_from(">HHL", data, cmap + 4 + 8 * index)
        if (platform, encoding) == (3, 1):
            return _format_4(data, cmap + offset)
    raise ValueError("the font holds no character map of platform 3, encoding 1")


def _format_4(data: bytes, at: int) -> dict[int, int]:
    segments = struct.unpack_from(">H", data, at + 6)[0] // 2
    ends = struct.unpack_from(f">{segments}H", data, at + 14)
    starts = struct.unpack_from(f">{segments}H", data, at + 16 + 2 * segments)
    deltas = struct.unpack_from(f">{segments}H", data, at + 16 + 4 * segments)
    ranges_at = at + 16 + 6 * segments
    ranges = struct.unpack_from(f">{segments}H", data, ranges_at)
    found: dict[int, int] = {}
    for index, (start, end, delta, reach) in enumerate(zip(starts, ends, deltas, ranges, strict=True)):
        for code in range(start, min(end, 0xFFFE) + 1):
            if reach:
                place = ranges_at + 2 * index + reach + 2 * (code - start)
                glyph = struct.unpack_from(">H", data, place)[0]
                glyph = (glyph + delta) & 0xFFFF if glyph else 0
            else:
                glyph = (code + delta) & 0xFFFF
            if glyph:
                found[code] = glyph
    return found
