"""The settings sheet of a job: its rows and what is asked about them."""

from collections.abc import Iterator, Mapping, Sequence

from standfast.design.settings import limits
from standfast.design.settings.profile import KINDS, profile
from standfast.design.settings.profile import checks as of_profile
from standfast.design.settings.profile import rows as of_book
from standfast.design.settings.setting import Profile, Setting, SettingsSheet
from standfast.equipment.model import Sheet
from standfast.faults import NotInEdition
from standfast.reading import Document
from standfast.sheet import (
    Check,
    Clause,
    Value,
    at_least,
    at_most,
    cannot_tell,
    chosen,
    given,
    is_,
    missing,
    needs,
    one_of,
)
from standfast.shelf import Adoption
from standfast.survey.joined import has_inverter
from standfast.survey.model import Job

JobFile = Document[Job]
SheetFile = Document[Sheet]


def settings(job: JobFile, sheets: Mapping[str, SheetFile], adoption: Adoption) -> SettingsSheet:
    """The settings sheet of a job.

    Args:
        job: the job file.
        sheets: data sheets by role.
        adoption: the codes in force.
    """
    try:
        found = profile(job, adoption)
        if found is None:
            return _unstated(adoption, f"{adoption.name} names no book on units on the grid")
        return _sheet(job, sheets, found)
    except NotInEdition as refusal:
        return _unstated(adoption, str(refusal))


def _unstated(adoption: Adoption, why: str) -> SettingsSheet:
    title, clause = "The settings of the unit on the grid are known", Clause("Adoption", adoption.name, "")
    reason = f"job.adoption: {why}: ask the operator for his settings"
    return SettingsSheet(None, (), (cannot_tell("settings.unstated", title, clause, reason),))


def _sheet(job: JobFile, sheets: Mapping[str, SheetFile], found: Profile) -> SettingsSheet:
    rows = (*of_book(found), *limits.rows(job, found))
    asked = (
        *of_profile(job, found),
        _certified(job, sheets, found),
        _known(found, rows),
        *(each for row in rows for each in _in_range(row)),
        *limits.checks(job, sheets, found),
        *_agreed(job, found),
    )
    return SettingsSheet(found, rows, asked)


def _certified(job: JobFile, sheets: Mapping[str, SheetFile], found: Profile) -> Check:
    """Whether the unit is certified to the standard by which the settings are tested."""
    role, asked = "inverter" if has_inverter(job.content) else "battery", found.book.number("certified_by")
    title = "The inverter is certified to the standard of its settings"
    return one_of("settings.certified", title, found.book.clause("certification"), _listing(sheets, role, asked), asked)


def _listing(sheets: Mapping[str, SheetFile], role: str, asked: Value) -> Value:
    if role not in sheets:
        return missing("standard", "", f"equipment.{role}: choose one by the id of its data sheet")
    sheet, wanted = sheets[role], asked.number if isinstance(asked.number, tuple) else ()
    held = next((each.standard for each in sheet.content.listing if each.standard in wanted), None)
    if held is not None:
        return given("standard", held, "", sheet.place("listing"))
    if sheet.stated("listing") and not sheet.content.listing:
        return given("standard", "none", "", sheet.place("listing"))
    need = f"listing: {sheet.file} has no listing to {' or '.join(wanted)}. Look whether its certificate names one"
    return missing("standard", "", need)


def _known(found: Profile, rows: Sequence[Setting]) -> Check:
    """Whether every setting of the book has its value."""
    id, title = "settings.values", "Every setting that the standard asks for has its value"
    clause, book_rows = found.book.cited("all settings"), [row for row in rows if row.origin != "agreed"]
    gaps = [f"{row.function}, {row.parameter}" for row in book_rows if row.value.missing]
    if gaps:
        why = "; ".join(dict.fromkeys(need for row in book_rows for need in needs(row.value)))
        return cannot_tell(id, title, clause, f"{why} ({len(gaps)} of {len(book_rows)} settings: {'; '.join(gaps)})")
    return Check(id, title, clause, "pass", reason=f"{len(book_rows)} settings")


def _in_range(row: Setting) -> Iterator[Check]:
    """What an operator asks for lies within the range that the standard leaves him."""
    if row.origin != "operator" or row.least is None or row.greatest is None:
        return
    title = f"{row.function}, {row.parameter}: what the operator asks is within the range of the standard"
    clause = row.least.clause or Clause("", "", "")
    above = at_most(f"settings.range/{row.id}", title, clause, row.value, row.greatest)
    yield above if above.open else at_least(f"settings.range/{row.id}", title, clause, row.value, row.least)


def _agreed(job: JobFile, found: Profile) -> Iterator[Check]:
    """Whether the operator has agreed, and not after the date of this revision.

    Where nobody has to ask below a size, the wiring asks which procedure it is, with its form.
    """
    if KINDS[found.book.book].unasked is not None:
        return
    id, title = "settings.approval", "The grid operator has agreed to the sources of the house"
    edition = "" if found.operator is None else found.operator.edition
    clause = Clause("Grid operator", edition, "connection agreement")
    answer, on = job.fact("grid.approval", "approval"), job.fact("grid.approved_on", "approved_on")
    day = job.content.job.date.isoformat()
    if answer.missing:
        yield cannot_tell(id, title, clause, answer.how, answer)
        return
    in_time = missing("in_time", "", on.how, on) if on.missing else _not_after(answer, on, day)
    yes = chosen("needed", True, "", "an answer that is there before the work", clause)
    yield is_(id, title, clause, in_time, yes)


def _not_after(answer: Value, on: Value, day: str) -> Value:
    how = f"answer of {on.word}, revision of {day}"
    return chosen("in_time", on.word <= day, "", how, None, answer, on)
