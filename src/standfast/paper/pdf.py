"""Prints documents: the only place that knows the typesetter. Used by the foreman alone.

One `Press` serves a whole run: fonts are laid out once in a folder of its own, which disappears when the press closes.
It prints several documents at a time, where several ask.
PDFs are PDF/A-3a and PDF/UA-1, dated by the document and never by a clock, so the same document gives the same bytes.
A warning of the typesetter is a defect and is raised.
"""

import hashlib
import json
import re
import tempfile
from collections.abc import Sequence
from datetime import UTC, datetime
from importlib.resources import files
from itertools import count
from pathlib import Path
from types import TracebackType
from typing import Any, NamedTuple, Self

import typst

from standfast.faults import Fault, FaultsFound
from standfast.paper.document import Attachment, Bound, Document, data
from standfast.paper.drawing import DoesNotFit
from standfast.paper.lettering import CUTS, font_bytes

_TEMPLATES = ("document.typ", "frame.typ", "blocks.typ")
_LEAF = """#set page(width: auto, height: auto, margin: 0pt)
#image(sys.inputs.file, page: int(sys.inputs.page))
"""
_MIME = {
    ".pdf": "application/pdf",
    ".png": "image/png",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".svg": "image/svg+xml",
}
_LARGEST_BOUND = 500
"""Pages of a bound document; a document without end is a fault of the file."""


class Printed(NamedTuple):
    """A printed document: its bytes, and the sheet number on which each code begins."""

    pdf: bytes
    numbers: dict[str, int]

    @property
    def sha256(self) -> str:
        """Digest of the file."""
        return hashlib.sha256(self.pdf).hexdigest()


class Press:
    """The typesetter with its fonts. Use it in a ``with`` statement."""

    def __init__(self) -> None:
        self._folder = tempfile.TemporaryDirectory(prefix="standfast-")
        self._desk = Path(self._folder.name)
        fonts = self._desk / "fonts"
        fonts.mkdir()
        for cut, name in CUTS.items():
            (fonts / name).write_bytes(font_bytes(cut))
        self._fonts = typst.Fonts(include_system_fonts=False, font_paths=[str(fonts)])
        self._places = count(1)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._folder.cleanup()

    def pdf(self, document: Document) -> Printed:
        """The document as PDF.

        Raises:
            FaultsFound: a bound document that cannot be read.
            DoesNotFit: what the typesetter refuses or warns of.
        """
        root, compiler = self._lay(document)
        stamp = datetime.fromisoformat(document.date).replace(tzinfo=UTC)
        try:
            result, warnings = compiler.compile_with_warnings(
                format="pdf", pdf_standards=["a-3a", "ua-1"], timestamp=int(stamp.timestamp())
            )
            marks = json.loads(compiler.query("<sheet>"))
        except typst.TypstError as error:
            raise DoesNotFit(f"{document.title}: {_told(error, root)}") from None
        if warnings:
            raise DoesNotFit(f"{document.title}: {'; '.join(str(each.message) for each in warnings)}")
        return Printed(_whole(result), {mark["value"]["code"]: mark["value"]["number"] for mark in marks})

    def pictures(self, document: Document, ppi: float = 90) -> list[bytes]:
        """The pages as PNG, for looking at them."""
        _, compiler = self._lay(document)
        result = compiler.compile(format="png", ppi=ppi)
        return [result] if isinstance(result, bytes) else list(result or [])

    def _lay(self, document: Document) -> tuple[Path, typst.Compiler]:
        """Lay the templates, the data and the files of a document on the desk."""
        root = self._desk / str(next(self._places))
        (root / "files").mkdir(parents=True)
        for name in _TEMPLATES:
            (root / name).write_bytes((files("standfast.paper") / "templates" / name).read_bytes())
        for name, svg in document.pictures.items():
            (root / "files" / name).write_text(svg, "utf-8")
        content = data(document)
        content["bound"] = self._bind(document.bound, root)
        content["attachments"] = []
        for number, each in enumerate(document.attachments):
            (root / "files" / f"attached-{number}").write_bytes(each.data)
            content["attachments"].append(_told_of(each, f"attached-{number}"))
        (root / "data.json").write_text(json.dumps(content, ensure_ascii=False), "utf-8")
        return root, typst.Compiler(str(root / "document.typ"), root=str(root), font_paths=self._fonts)

    def _bind(self, bound: Sequence[Bound], root: Path) -> list[dict[str, Any]]:
        """Every page of the bound documents as a picture, at its own size."""
        faults: list[Fault] = []
        found: list[dict[str, Any]] = []
        if bound:
            (root / "leaf.typ").write_text(_LEAF, "utf-8")
        for number, each in enumerate(bound):
            name = f"bound-{number}{Path(each.file).suffix.lower()}"
            if Path(name).suffix not in _MIME:
                what = f"{each.title} is neither PDF nor picture"
                faults.append(Fault(each.file, 0, 0, what, "", "save it as PDF, PNG, JPEG or SVG"))
                continue
            (root / "files" / name).write_bytes(each.data)
            try:
                pages = list(self._leaves(root, name))
            except typst.TypstError as error:
                what = f"{each.title} cannot be bound in: {error.message}"
                faults.append(Fault(each.file, 0, 0, what, "", "save it again as PDF, PNG, JPEG or SVG"))
                continue
            attachment = Attachment(each.file, b"", _MIME[Path(name).suffix], "supplement", each.title)
            found.append(
                {
                    "code": each.code,
                    "title": each.title,
                    "file": each.file,
                    "sha256": hashlib.sha256(each.data).hexdigest(),
                    "pages": pages,
                    "attachment": _told_of(attachment, name),
                }
            )
        if faults:
            raise FaultsFound(faults)
        return found

    def _leaves(self, root: Path, name: str) -> list[dict[str, Any]]:
        """The pages of one file as SVG files with their sizes in points."""
        compiler = typst.Compiler(str(root / "leaf.typ"), root=str(root), font_paths=self._fonts)
        leaves: list[dict[str, Any]] = []
        for page in range(1, _LARGEST_BOUND + 1):
            try:
                result = compiler.compile(format="svg", sys_inputs={"file": f"files/{name}", "page": str(page)})
            except typst.TypstError as error:
                if leaves and "does not exist" in error.message:
                    return leaves
                raise
            svg = _whole(result)
            size = re.match(rb'<svg[^>]* viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)
            if size is None:
                raise DoesNotFit(f"{name}: page {page} has no size")
            leaf = f"{name}-{page}.svg"
            (root / "files" / leaf).write_bytes(svg)
            leaves.append({"file": leaf, "width": float(size[1]), "height": float(size[2])})
            if not name.endswith(".pdf"):
                return leaves
        raise DoesNotFit(f"{name} has more than {_LARGEST_BOUND} pages")


def _told_of(attachment: Attachment, file: str) -> dict[str, str]:
    """What the template must know of an attachment that lies in `file`."""
    return {
        "name": attachment.name,
        "file": file,
        "mime": attachment.mime,
        "relation": attachment.relation,
        "description": attachment.description,
    }


def _whole(result: bytes | list[bytes] | None) -> bytes:
    return result if isinstance(result, bytes) else b"".join(result or [])


def _told(error: typst.TypstError, root: Path) -> str:
    """The typesetter's message without the place of the desk."""
    return " ".join([error.message, *error.hints]).replace(str(root), "")
