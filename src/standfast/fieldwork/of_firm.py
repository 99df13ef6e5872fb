"""Whether the firm's own people and instruments may do this job on its date: licences and calibration."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from standfast.equipment.read import DataSheet
from standfast.reading.quantities import amount
from standfast.sheet import Check, Clause, Value, at_least, cannot_tell, given, measured
from standfast.shelf import Adoption
from standfast.survey.firm import MEASURING, TORQUE, FirmFile, FirmTool
from standfast.survey.read import Survey

LICENSED = "licensed electrician"


def checks(firm: FirmFile, job: Survey, sheets: Mapping[str, DataSheet], adoption: Adoption) -> Iterator[Check]:
    """One check for every instrument that this job can use, and for the people that it names.

    A torque tool is used where it covers a torque of a chosen data sheet; instruments whose readings are put on record
    are used on every job. A tool that is out of calibration is calibrated, or taken off the list.

    Args:
        firm: the firm file.
        job: the job file; its date counts.
        sheets: data sheets by role.
        adoption: the codes in force.
    """
    day, practice = job.job.job.date, adoption.book("practice")
    torques = stated_torques(sheets.values())
    for tool in firm.firm.tools:
        if tool.kind in TORQUE and any(covers(tool, torque) for torque in torques):
            rules = adoption.book("nfpa70" if "nfpa70" in adoption.books else "practice")
            key = "terminal_torque" if "nfpa70" in adoption.books else "calibration"
            yield _calibrated(firm, tool, day, rules.clause(key))
        elif tool.kind in MEASURING:
            yield _calibrated(firm, tool, day, practice.clause("calibration"))
    yield from _people(firm, job, practice.clause("licences"))


def nameless(job: Survey, adoption: Adoption) -> Iterator[Check]:
    """A job that names people of the firm, worked out without the firm file that knows them."""
    named = job.job.contractor.people
    if named:
        need = f"contractor.people: {', '.join(named)}: name with --firm the folder whose firm.toml knows them"
        clause = adoption.book("practice").clause("licences")
        yield cannot_tell("fieldwork.licensed-person", "A licensed person does or supervises the work", clause, need)


def stated_torques(sheets: Iterable[DataSheet]) -> list[float]:
    """Every torque of joints and terminals that the sheets state, N·m."""
    every = [sheet.sheet for sheet in sheets]
    joints = [each.torque for sheet in every for each in sheet.joints]
    terminals = [each.torque for sheet in every for each in sheet.terminals]
    return [amount(torque, "N·m") for torque in (*joints, *terminals) if torque is not None]


def covers(tool: FirmTool, torque_nm: float) -> bool:
    """Whether a torque lies between the ends of a tool; a tool whose ends are not stated may cover any."""
    least = 0.0 if tool.torque_min is None else amount(tool.torque_min, "N·m")
    return least <= torque_nm and (tool.torque_max is None or torque_nm <= amount(tool.torque_max, "N·m"))


def in_calibration(tool: FirmTool, day: date) -> bool:
    """True where somebody wrote down a date until which its calibration counts, and the job is not later."""
    return tool.calibrated_until is not None and tool.calibrated_until >= day


def _calibrated(firm: FirmFile, tool: FirmTool, day: date, clause: Clause) -> Check:
    id, title = f"fieldwork.calibration/{tool.id}", f"{called(tool)} is in calibration on the day of the job"
    until = firm.fact(f"tools.{tool.id}.calibrated_until", "until")
    return _in_time(id, title, clause, until, tool.calibrated_until, day, "have it calibrated, or take it off the list")


def _people(firm: FirmFile, job: Survey, clause: Clause) -> Iterator[Check]:
    """The licences of the people that the job names; one of them must answer for the work."""
    named = set(job.job.contractor.people)
    here = [person for person in firm.firm.people if person.id in named]
    day = job.job.job.date
    for person in here:
        if person.role == LICENSED:
            id, title = f"fieldwork.licence/{person.id}", f"The licence of {person.name} counts on the day of the job"
            until = firm.fact(f"people.{person.id}.licence_expires", "until")
            todo = "have it renewed, or name somebody else under contractor.people"
            yield _in_time(id, title, clause, until, person.licence_expires, day, todo)
    if named and not any(person.role == LICENSED for person in here):
        need = "contractor.people: name somebody whom the firm file calls a licensed electrician"
        yield cannot_tell("fieldwork.licensed-person", "A licensed person does or supervises the work", clause, need)


def _in_time(
    id: str, title: str, clause: Clause, until: Value, end: date | None, day: date, todo: str
) -> Check:  # fmt: skip
    if end is None:
        return cannot_tell(id, title, clause, until.how)
    left = measured("t_left", float((end - day).days), "d", f"from {day.isoformat()} to {end.isoformat()}", until)
    last = given("t_least", 0.0, "d", "the job is on the last day at the latest")
    check = at_least(id, title, clause, left, last)
    if check.verdict != "fail":
        return check
    return check._replace(reason=f"it counted until {end.isoformat()}, the job is dated {day.isoformat()}: {todo}")


def called(tool: FirmTool) -> str:
    """A tool as the crew calls it."""
    return tool.name or f"{tool.kind} {tool.id}"
