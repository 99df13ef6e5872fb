"""Sizes of sheets, the frame and title strip that every sheet carries, and what is written in them.

The template `templates/frame.typ` draws the frame from `Sheet.data()`: the sizes below stand in one place only.
"""

from typing import NamedTuple


class Size(NamedTuple):
    """A sheet in landscape or portrait, mm; the margins of its frame and the width of its title strip."""

    name: str
    width: float
    height: float
    left: float
    edge: float
    strip: float

    @property
    def field(self) -> tuple[float, float]:
        """Width and height inside the frame, left of the title strip."""
        return self.width - self.left - self.edge - self.strip, self.height - 2 * self.edge

    @property
    def drawing(self) -> tuple[float, float]:
        """Paper for a drawing that fills the sheet, with clear paper inside the frame."""
        wide, high = self.field
        return wide - 8, high - 8


ANSI_A = Size("ANSI A", 215.9, 279.4, 15, 12, 0)
"""Letter, upright: the work order."""
ANSI_B = Size("ANSI B", 431.8, 279.4, 15, 10, 60)
"""Tabloid, level (ASME Y14.1): the permit set."""


class Revision(NamedTuple):
    """One line of the revision block."""

    mark: str
    date: str
    what: str


class TitleStrip(NamedTuple):
    """What the title strip says on every sheet.

    Attributes:
        job: name of the job.
        address: of the site.
        parcel: number of the lot, or what is missing.
        owner: name of the owner.
        contractor: firm.
        licence: its number and expiry.
        scope: the work in a sentence.
        codes: codes in force, short, with editions.
        date: ISO date of the revision.
        revisions: newest last.
        state: what the set is, in capitals: ``NOT READY TO SUBMIT`` or ``FOR REVIEW``.
        warning: printed on every sheet where the job is invented; else empty.
    """

    job: str
    address: str
    parcel: str
    owner: str
    contractor: str
    licence: str
    scope: str
    codes: tuple[str, ...]
    date: str
    revisions: tuple[Revision, ...]
    state: str
    warning: str = ""

    def data(self) -> dict[str, object]:
        """Plain data for the template."""
        return {**self._asdict(), "codes": list(self.codes), "revisions": [each._asdict() for each in self.revisions]}
