"""All schedules of a job as one workbook. Needs the extra ``xlsx``."""

import re
from collections.abc import Sequence
from datetime import UTC, date, datetime, time
from io import BytesIO
from typing import TYPE_CHECKING
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from standfast.paper.extras import NotInstalled
from standfast.paper.schedule import Cell, Schedule, written

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

WIDEST = 60
"""Widest column, in characters; longer texts are broken."""
_NO_TEXT = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f]")
"""Characters that a workbook cannot hold."""
_EARLIEST = (1980, 1, 1, 0, 0, 0)
"""The first time that the format knows."""


def workbook(schedules: Sequence[Schedule], title: str, day: date) -> bytes:
    """The schedules as an XLSX workbook, one sheet each; the same schedules give the same bytes.

    Args:
        schedules: at least one.
        title: of the workbook.
        day: of the job's revision, which stands as its date.

    Raises:
        NotInstalled: where the library of the extra is not there.
    """
    try:
        from openpyxl import Workbook
    except ImportError:
        raise NotInstalled("XLSX", "openpyxl", "xlsx") from None
    book = Workbook()
    book.remove(book.worksheets[0])
    book.properties.title, book.properties.creator = title, "standfast"
    made = datetime.combine(day, time(0), UTC).replace(tzinfo=None)
    book.properties.created = made
    for each in schedules:
        _fill(book.create_sheet(each.name), each)
    raw = BytesIO()
    book.save(raw)
    return _without_a_clock(raw.getvalue(), made)


def _fill(sheet: "Worksheet", schedule: Schedule) -> None:
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter
    from openpyxl.worksheet.properties import PageSetupProperties

    for row, cells in enumerate((schedule.head, *schedule.rows), 1):
        for column, cell in enumerate(cells, 1):
            _put(sheet, row, column, cell)
    for place in range(1, len(schedule.head) + 1):
        sheet.cell(1, place).font = Font(bold=True)
        texts = [written(row[place - 1]) for row in (schedule.head, *schedule.rows)]
        sheet.column_dimensions[get_column_letter(place)].width = min(max(map(len, texts)) + 2, WIDEST)
    for cells_of_row in sheet.iter_rows():
        for each in cells_of_row:
            each.alignment = Alignment(wrap_text=True, vertical="top")
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = sheet.dimensions
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.print_title_rows = "1:1"


def _put(sheet: "Worksheet", row: int, column: int, cell: Cell) -> None:
    """A text stays a text, whatever sign it begins with: nothing that a job file says is ever run as a formula."""
    place = sheet.cell(row, column)
    if isinstance(cell, str):
        place.value = _NO_TEXT.sub(" ", cell)
        place.data_type = "s"
    else:
        place.value = cell


def _without_a_clock(raw: bytes, made: datetime) -> bytes:
    """The library writes the time into the workbook and beside each of its parts: the day of the job stands there."""
    out = BytesIO()
    stamp = made.strftime("%Y-%m-%dT%H:%M:%SZ").encode()
    with ZipFile(BytesIO(raw)) as old, ZipFile(out, "w") as new:
        for name in old.namelist():
            part = old.read(name)
            if name == "docProps/core.xml":
                part = re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>" + stamp, part)
            new.writestr(ZipInfo(name, _EARLIEST), part, ZIP_DEFLATED)
    return out.getvalue()
