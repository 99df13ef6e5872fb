"""PDFs: same bytes for the same document, everything attached, every font found, nothing small."""

import hashlib
import re
import zlib
from collections.abc import Iterator
from pathlib import Path

import pytest

from standfast.faults import FaultsFound
from standfast.paper.document import (
    Attachment,
    Bound,
    CheckCard,
    Document,
    Facts,
    Frame,
    Index,
    Picture,
    Sheet,
    Sides,
    Table,
    Words,
    bold,
    mono,
    sheet_of,
    verdict,
)
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.paper.pdf import Press
from standfast.paper.sheets import ANSI_A, ANSI_B, Revision, Size, TitleStrip

JOB = b"schema = 1\n# \xc2\xb0 the job file, byte for byte\n"
TEMPLATES = Path(__file__).parents[2] / "src/standfast/paper/templates"


def strip(job: str = "A job") -> TitleStrip:
    revisions = (Revision("A", "2026-05-04", "first issue"),)
    codes = ("NEC 2023", "IRC 2021")
    return TitleStrip(
        job, "1 Any Street", "12", "An Owner", "A Firm", "no. 7", "One unit", codes, "2026-05-04", revisions,
        "FOR REVIEW",
    )  # fmt: skip


def document(size: Size = ANSI_B, job: str = "A job", bound: tuple[Bound, ...] = ()) -> Document:
    drawing = Drawing("A drawing", "A line", 100, 50)
    drawing.line((10, 10), (90, 40))
    drawing.text((10, 20), "Ω ° ² ≤ Δ φ · − × Ø")
    words: list[str | dict[str, str]] = [
        bold("bold "), mono("mono Ω"), verdict("pass"), verdict("fail"), verdict("cannot tell"),
        verdict("not applicable"), " Ω ° ² ≤ ≥ Δ φ · − × ± Ø, on sheet ", sheet_of("A1"),
    ]  # fmt: skip
    cover = [
        Sides((1, 1), ([Index(), Words(words)], [Facts([("Owner", job)]), Frame("Mind", [Words("!")], "caution")]))
    ]
    card = CheckCard("pass", "Is it?", "a/b", "NEC 2023 110.9", "I = 10 kA ≤ 22 kA", "", [("1", "I = 10 kA", "given")])
    sheets = [
        Sheet("G1", "Cover", cover),
        Sheet("A1", "Drawing", [Picture("a.svg", "A line")], scale="1:1"),
        Sheet("C1", "Sums", [card] * 90, columns=2),
        Sheet("T1", "Table", [Table(["a", "b"], [["1", "2"]] * 80, [1, 0], right=[1])]),
    ]
    attached = (Attachment("job.toml", JOB, "application/toml", "source", "The job file"),)
    return Document("Set", "A Firm", "2026-05-04", size, strip(job), sheets, {"a.svg": drawing.svg()}, attached, bound)


def streams(pdf: bytes) -> list[bytes]:
    """Every stream of a PDF, inflated."""
    found = []
    for match in re.finditer(rb"stream\r?\n", pdf):
        try:
            found.append(zlib.decompressobj().decompress(pdf[match.end() :]))
        except zlib.error:
            end = pdf.find(b"\nendstream", match.end())
            found.append(pdf[match.end() : end])
    return found


@pytest.fixture(scope="module")
def press() -> Iterator[Press]:
    with Press() as open_press:
        yield open_press


@pytest.mark.parametrize("size", [ANSI_A, ANSI_B])
def test_the_same_document_gives_the_same_bytes_on_another_press(size: Size) -> None:
    with Press() as one, Press() as other:
        first, second = one.pdf(document(size)), other.pdf(document(size))
    assert first.pdf == second.pdf
    assert first.sha256 == hashlib.sha256(second.pdf).hexdigest()


def test_the_date_is_the_documents_and_the_claims_are_made(press: Press) -> None:
    pdf = press.pdf(document()).pdf
    whole = b"".join([pdf, *streams(pdf)])
    assert b"2026-05-04" in whole
    assert b"<pdfaid:part>3</pdfaid:part>" in whole and b"<pdfaid:conformance>A</pdfaid:conformance>" in whole
    assert b"<pdfuaid:part>1</pdfuaid:part>" in whole


def test_the_job_file_travels_inside_byte_for_byte(press: Press) -> None:
    pdf = press.pdf(document()).pdf
    assert JOB in streams(pdf)
    assert b"(job.toml)" in b"".join([pdf, *streams(pdf)])


def test_sheets_are_numbered_in_their_order(press: Press) -> None:
    numbers = press.pdf(document()).numbers
    assert list(numbers) == ["G1", "A1", "C1", "T1"]
    assert numbers["G1"] == 1 and numbers["A1"] == 2 and numbers["C1"] == 3 and numbers["T1"] > 4


def test_a_document_is_bound_in_at_its_own_size_with_its_file(press: Press) -> None:
    inner = press.pdf(document(ANSI_A)).pdf
    outer = press.pdf(document(bound=(Bound("D1", "Cut sheet", "documents/cut.pdf", inner),)))
    assert inner in streams(outer.pdf) or inner in outer.pdf
    whole = b"".join([outer.pdf, *streams(outer.pdf)])
    assert b"(documents/cut.pdf)" in whole
    heights = {float(match) for match in re.findall(rb"/MediaBox ?\[0 0 [\d.]+ ([\d.]+)\]", outer.pdf)}
    assert sorted(heights) == pytest.approx([792, 792 + 12 / 25.4 * 72], abs=0.01)  # a foot line of 12 mm
    assert outer.numbers["D1"] > outer.numbers["T1"]


def test_what_cannot_be_bound_in_is_a_fault_of_the_file(press: Press) -> None:
    bad = (
        Bound("D1", "Broken", "documents/broken.pdf", b"%PDF-1.7 nothing"),
        Bound("D2", "Letter", "documents/letter.docx", b"PK"),
    )
    with pytest.raises(FaultsFound) as caught:
        press.pdf(document(bound=bad))
    assert [fault.file for fault in caught.value.faults] == ["documents/broken.pdf", "documents/letter.docx"]
    assert "cannot be bound in" in caught.value.faults[0].what


def test_user_text_is_content_and_never_code(press: Press) -> None:
    printed = press.pdf(document(job='#panic("x") *a* $ \\ #image("/etc/passwd") <sheet>'))
    assert len(printed.numbers) == 4


def test_a_picture_without_its_file_is_refused(press: Press) -> None:
    lame = document()._replace(pictures={})
    with pytest.raises(DoesNotFit, match=r"Set: file not found"):
        press.pdf(lame)


def test_pages_can_be_looked_at(press: Press) -> None:
    pages = press.pictures(document(), 30)
    assert len(pages) >= 5 and all(page.startswith(b"\x89PNG") for page in pages)


def test_no_lettering_in_the_templates_is_under_seven_points() -> None:
    sizes = [
        float(size)
        for path in TEMPLATES.glob("*.typ")
        for size in re.findall(r"(?:text\(|size: )(\d+(?:\.\d+)?)pt", path.read_text("utf-8"))
    ]
    assert len(sizes) > 10
    assert min(sizes) * 25.4 / 72 >= 2.5
