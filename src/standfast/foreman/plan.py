"""Reads a job folder and works the job out: the rooms in their order."""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from standfast.design.choice.whole import USUAL
from standfast.design.installation import Installation
from standfast.design.whole import Design, design
from standfast.design.wiring.agreed import outputs
from standfast.equipment.prices import Prices, shipped
from standfast.equipment.read import DataSheet, find, misfit
from standfast.faults import Fault, FaultsFound, NotInEdition
from standfast.fieldwork.lifting import Lifting
from standfast.fieldwork.lifts import lifts
from standfast.foreman.begin import NotBegun, lacks
from standfast.foreman.begin import faults as faults_of
from standfast.foreman.folder import COMPARED, JobFolder, open_folder
from standfast.foreman.in_force import in_force
from standfast.foreman.remedies.change import Remedy
from standfast.sheet import Check, Ledger
from standfast.shelf import Adoption, Compared, adopted_on, adoptions, families
from standfast.survey.read import Survey, read

if TYPE_CHECKING:
    from standfast.survey.firm import FirmFile

ROLES = (
    "battery", "inverter", "breaker", "disconnect", "island_switch", "fastener", "anchor", "disconnect_fastener", "aid",
    "plug", "dc_disconnect", "dc_overcurrent", "inverter_fastener", "base_anchor",
)  # fmt: skip
"""Words of [equipment] that name a data sheet."""


class JobPlan(NamedTuple):
    """One job worked out.

    Attributes:
        folder: what was read.
        survey: the job file.
        sheets: data sheets by role.
        adoption: the codes in force.
        design: what was designed.
        lifting: how the units and an inverter of their own get up.
        ledger: every check.
        prices: what ordered choices that are all allowed.
        firm: the firm file; None where there is none.
        remedies: what would clear the open ones, where it was looked for.
    """

    folder: JobFolder
    survey: Survey
    sheets: Mapping[str, DataSheet]
    adoption: Adoption
    design: Design
    lifting: Lifting
    ledger: Ledger
    prices: Prices
    firm: "FirmFile | None" = None
    remedies: tuple[Remedy, ...] = ()

    @property
    def title(self) -> str:
        """Name and revision of the job."""
        return title_of(self.survey)


def title_of(survey: Survey) -> str:
    """Name, revision and date of a job."""
    head = survey.job.job
    return f"{head.name}, revision {head.revision} of {head.date.isoformat()}"


def make_plan(
    path: Path, firm: Path | None = None, codes: str | None = None, *, runner_up: bool = True
) -> JobPlan:  # fmt: skip
    """Work out the job of a folder.

    Args:
        path: the folder, or the job file in it.
        firm: folder of the firm with its data sheets; None where there is none.
        codes: name of the adoption to take instead of the job's own; None for its own.
        runner_up: whether the second best choice is asked for too.

    Raises:
        FaultsFound: with every fault of the job file and of the data sheets it names.
        Refusal: where the parts of the installation do not join, the adoption lacks a book, or `codes` is not there.
    """
    folder = open_folder(path, firm)
    survey, faults = read(folder.text, folder.name)
    if survey is None:
        raise FaultsFound([folder.placed(fault) for fault in faults])
    adopted, more = _adoption(survey) if codes is None else (adopted_on(codes, survey.job.job.date), [])
    sheets, worse = sheets_of(survey, folder)
    compared, worst = _compared(folder)
    firm_file, survey, wrong = _of_firm(folder, survey)
    if adopted is None or faults or more or worse or worst or wrong:
        raise FaultsFound([folder.placed(fault) for fault in (*faults, *more, *worse, *worst, *wrong)])
    lacking = list(lacks(survey, sheets))
    if lacking:
        raise NotBegun(survey, lacking, [folder.placed(fault) for fault in faults_of(survey, lacking)])
    adopted = adopted.read_in_print(compared)
    prices = _prices(firm_file)
    made = design(survey, sheets, adopted, prices, USUAL if runner_up else USUAL._replace(more=0))
    talking = _talking(made.installation, sheets, adopted)
    raised = lifts(survey, sheets, adopted, made.siting.places)
    own = (*_of_own(firm_file, survey, sheets, adopted), *_reach(firm_file, survey, sheets, made, raised, adopted))
    ledger = Ledger([*in_force(adopted, survey.job.job.date), *made.checks(), *raised.checks, *talking, *own])
    return JobPlan(folder, survey, sheets, adopted, made, raised, ledger, prices, firm_file)


def _talking(installation: Installation, sheets: Mapping[str, DataSheet], adopted: Adoption) -> list[Check]:
    """Checks of the link between several units or to an inverter; its room is loaded where there is one."""
    if len([part for part in installation.of_kind("battery", "inverter") if part.role == part.kind]) <= 1:
        return []
    from standfast.fieldwork import link

    return link.checks(link.devices_of(installation, sheets), adopted.book("practice"))


def _adoption(survey: Survey) -> tuple[Adoption | None, list[Fault]]:
    name = survey.job.job.adoption
    try:
        return adopted_on(name, survey.job.job.date), []
    except NotInEdition as refusal:
        line, column = survey.index.value(("job", "adoption"))
        if name in adoptions():
            return None, [Fault(survey.file, line, column, str(refusal), "", "take another adoption")]
        what, there = f'no adoption "{name}" is on the shelf', ", ".join([*adoptions(), *families()])
        return None, [Fault(survey.file, line, column, what, "", f"use one of {there}")]


def _compared(folder: JobFolder) -> tuple[tuple[Compared, ...], list[Fault]]:
    """What the firm has compared with its own books; its reader is loaded where there is something to read."""
    if not folder.compared:
        return (), []
    from standfast.foreman.compared import read as read_compared

    return read_compared(folder.compared, COMPARED)


def _of_firm(folder: JobFolder, survey: Survey) -> tuple["FirmFile | None", Survey, list[Fault]]:
    """The firm file, the job with what it takes from it, and faults; its reader is loaded where there is one."""
    if not folder.firm:
        return None, survey, []
    from standfast.foreman.of_firm import at_odds, firm_of, with_contractor

    firm, wrong = firm_of(folder)
    if firm is None:
        return None, survey, wrong
    return firm, with_contractor(survey, firm), [*wrong, *at_odds(firm, survey)]


def _prices(firm: "FirmFile | None") -> Prices:
    """The price list, the firm's own prices over it."""
    if firm is None:
        return shipped()
    from standfast.foreman.of_firm import priced

    return priced(shipped(), firm)


def _of_own(
    firm: "FirmFile | None", survey: Survey, sheets: Mapping[str, DataSheet], adopted: Adoption
) -> tuple[Check, ...]:  # fmt: skip
    """Checks on the firm's own people and instruments."""
    if firm is None and not survey.job.contractor.people:
        return ()
    from standfast.fieldwork.of_firm import checks, nameless

    return tuple(nameless(survey, adopted) if firm is None else checks(firm, survey, sheets, adopted))


def _reach(
    firm: "FirmFile | None", survey: Survey, sheets: Mapping[str, DataSheet], made: Design, raised: Lifting,
    adopted: Adoption,
) -> tuple[Check, ...]:  # fmt: skip
    """Checks on whether the firm's own tools and instruments reach every torque and every test of the job."""
    if firm is None:
        return ()
    from standfast.fieldwork.covering import checks
    from standfast.fieldwork.derive import plan_of

    return tuple(checks(firm, plan_of(survey, sheets, made, raised, adopted)))


def sheets_of(survey: Survey, folder: JobFolder) -> tuple[dict[str, DataSheet], list[Fault]]:
    """The data sheets that the job names, and what is wrong with them or missing."""
    sheets: dict[str, DataSheet] = {}
    faults: list[Fault] = []
    for role in ROLES:
        id = getattr(survey.job.equipment, role, None)
        if id is None:
            continue
        sheet, wrong = find(id, folder.sheets, folder.firm_sheets)
        if sheet is not None:
            sheets[role] = sheet
            wrong = [*wrong, *_misfit(role, sheet)]
        line, column = survey.index.value(("equipment", role))
        faults += [
            fault if fault.line else fault._replace(file=survey.file, line=line, column=column) for fault in wrong
        ]
    return sheets, [*faults, *outputs(survey, sheets)]


def _misfit(role: str, sheet: DataSheet) -> list[Fault]:
    what = misfit(role, sheet.sheet)
    return [Fault("", 0, 0, what, "its numbers mean something else", "name the right sheet")] if what else []
