"""A document as plain data: sheets that hold blocks. The templates set it, `pdf` prints it.

Rooms that write paper build these and know nothing of typesetting. A text is a string, or a list of strings and
styled pieces: `bold("…")`, `italic("…")`, `mono("…")`, `verdict("pass")`, `sheet_of("E1")` (the number of a sheet).
User text is content, never markup.
"""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from standfast.paper.sheets import Size, TitleStrip
from standfast.terms import Verdict
from standfast.words import ENGLISH, say

WORDS = ("done", "initials", "first", "revision", "sheet", "pass", "fail", "cannot tell", "not applicable")
"""What the templates themselves say, by its key in the catalogue."""
_LONG_WORD = 24
"""Words longer than this may break where breakable text is set."""
Piece = dict[str, str]
Text = str | Piece | Sequence["str | Piece"]


def breakable(text: str) -> str:
    """The text with places where its long words may break: after a dot, stroke, dash or low line."""
    return " ".join(_broken(word) if len(word) > _LONG_WORD else word for word in text.split(" "))


def _broken(word: str) -> str:
    for sign in "./-_":
        word = word.replace(sign, f"{sign}\u200b")
    return word


def bold(text: str) -> Piece:
    """A piece in bold."""
    return {"style": "bold", "text": text}


def italic(text: str) -> Piece:
    """A piece in italic."""
    return {"style": "italic", "text": text}


def mono(text: str) -> Piece:
    """A piece in fixed pitch, for what stands in a file or on a label."""
    return {"style": "mono", "text": text}


def verdict(word: Verdict) -> Piece:
    """The mark of a verdict: told by its word, its sign and its frame, never by colour."""
    return {"style": "verdict", "text": word}


def box() -> Piece:
    """An empty box to tick."""
    return {"style": "box", "text": ""}


def tick() -> Piece:
    """A large empty box, to be ticked in gloves."""
    return {"style": "tick", "text": ""}


def sheet_of(code: str) -> Piece:
    """The number of the sheet on which a code begins."""
    return {"style": "sheet", "text": code}


class Heading(NamedTuple):
    """A heading within a sheet."""

    text: str
    level: int = 2


class Words(NamedTuple):
    """A paragraph."""

    text: Text
    size: float = 9


class Bullets(NamedTuple):
    """A list. Numbered where the order matters; boxes where each is ticked by hand."""

    items: Sequence[Text]
    mark: str = "dot"


class Table(NamedTuple):
    """A table.

    Attributes:
        head: texts of the head row; empty for none.
        rows: cells of each row.
        widths: shares of the width; 0 for as wide as its texts.
        title: caption above it.
        right: columns set flush right.
        size: of the lettering in points.
        tall: least height of a row in mm, for writing in.
    """

    head: Sequence[Text]
    rows: Sequence[Sequence[Text]]
    widths: Sequence[float]
    title: str = ""
    right: Sequence[int] = ()
    size: float = 8.5
    tall: float = 0


class Facts(NamedTuple):
    """Names and what they are, one below the other, without rules."""

    rows: Sequence[tuple[str, Text]]
    name_mm: float = 32
    size: float = 9


class Picture(NamedTuple):
    """A drawing of the document's `pictures`, in mm; 0 for as wide as there is room."""

    name: str
    description: str
    width: float = 0


class Frame(NamedTuple):
    """Blocks in a frame: ``plain``, ``caution`` (heavy, with its sign) or ``state`` (white on black)."""

    title: str
    blocks: Sequence["Block"]
    look: str = "plain"
    height: float = 0


class Keep(NamedTuple):
    """Blocks that stay together in one column, where one column can hold them."""

    blocks: Sequence["Block"]


class Sides(NamedTuple):
    """Columns side by side.

    Attributes:
        widths: shares of the width.
        columns: the blocks of each.
        under: blocks that stand in the last column where it has room for them, else below over the whole width.
    """

    widths: Sequence[float]
    columns: Sequence[Sequence["Block"]]
    under: Sequence["Block"] = ()


class CheckCard(NamedTuple):
    """One check with its working.

    Attributes:
        verdict: its word.
        title: the question.
        id: by which `explain` finds it.
        clause: with edition.
        line: demand, relation, limit, margin.
        remark: condition or reason.
        working: number, working line and ground of each step.
        cited: results that stood before, with their numbers.
        remedies: changes that clear it.
    """

    verdict: Verdict
    title: str
    id: str
    clause: str
    line: str
    remark: str
    working: Sequence[tuple[str, str, str]]
    cited: str = ""
    remedies: Sequence[str] = ()


class StepCard(NamedTuple):
    """One step of the work, kept on one sheet: cautions first, then what is done, then spaces to write in.

    Attributes:
        number: of the step.
        cautions: what can hurt, printed before the text.
        first: what must hold before the step begins.
        text: what is done.
        facts: settings and what is then seen, by name.
        readings: what is read, its limit, its unit.
        keep: evidence, each with a box.
        pictures: where position matters.
        ticks: what is done several times alike, what it is done to, and how many boxes it has.
    """

    number: str
    cautions: Sequence[str]
    first: Sequence[str]
    text: str
    facts: Sequence[tuple[str, str]]
    readings: Sequence[tuple[str, str, str]]
    keep: Sequence[str]
    pictures: Sequence[Picture] = ()
    ticks: Sequence[tuple[str, str, int]] = ()


class HoldBar(NamedTuple):
    """A bar across the sheet: the work stands still until a second person has looked and signed.

    Attributes:
        mark: ``HOLD 1``.
        text: what the person sees.
        who: who releases the work.
        name, time: labels of the lines to write on.
    """

    mark: str
    text: str
    who: str
    name: str
    time: str


class Fields(NamedTuple):
    """Lines to write on: label and share of the width, several in a row."""

    labels: Sequence[tuple[str, float]]
    tall: float = 9


class Index(NamedTuple):
    """The index of all sheets of the document."""


class Gap(NamedTuple):
    """Clear paper, mm."""

    mm: float = 4


class Break(NamedTuple):
    """What follows stands in the next column or on the next sheet."""


Block = (
    Heading | Words | Bullets | Table | Facts | Picture | Frame | Keep | Sides | CheckCard | StepCard | HoldBar | Fields
    | Index | Gap | Break
)  # fmt: skip


class Sheet(NamedTuple):
    """One sheet, or as many as its blocks need.

    Attributes:
        code: short name in the index: ``E1``.
        title: name.
        blocks: what stands on it.
        columns: columns in which the blocks flow.
        scale: of its drawing, for the title strip.
        notes: notes that belong to it, for the title strip.
    """

    code: str
    title: str
    blocks: Sequence[Block]
    columns: int = 1
    scale: str = ""
    notes: Sequence[str] = ()


class Attachment(NamedTuple):
    """A file that travels inside the PDF, byte for byte."""

    name: str
    data: bytes
    mime: str
    relation: str
    description: str


class Bound(NamedTuple):
    """A document of the job, bound in unchanged: each page at its own size, with a foot line; the file attached."""

    code: str
    title: str
    file: str
    data: bytes


class Document(NamedTuple):
    """Everything that one PDF is made of."""

    title: str
    author: str
    date: str
    size: Size
    strip: TitleStrip
    sheets: Sequence[Sheet]
    pictures: Mapping[str, str] = {}
    attachments: Sequence[Attachment] = ()
    bound: Sequence[Bound] = ()
    language: str = ENGLISH


def data(document: Document) -> dict[str, Any]:
    """The document as plain data for the templates, without its files."""
    return {
        "title": document.title,
        "author": document.author,
        "date": document.date,
        "size": {**document.size._asdict(), "field": document.size.field},
        "strip": document.strip.data(),
        "language": document.language,
        "words": {word: say(f"sheet.{word.replace(' ', '_')}", document.language) for word in WORDS},
        "sheets": [{**sheet._asdict(), "blocks": _blocks(sheet.blocks)} for sheet in document.sheets],
    }


def _blocks(blocks: Sequence[Block]) -> list[dict[str, Any]]:
    return [_block(block) for block in blocks]


def _block(block: Block) -> dict[str, Any]:
    plain: dict[str, Any] = {"kind": type(block).__name__.lower(), **block._asdict()}
    if isinstance(block, Frame | Keep):
        plain["blocks"] = _blocks(block.blocks)
    elif isinstance(block, StepCard):
        plain["pictures"] = [each._asdict() for each in block.pictures]
    elif isinstance(block, Sides):
        plain["columns"] = [_blocks(column) for column in block.columns]
        plain["under"] = _blocks(block.under)
    return plain
