"""The invented Australian demo with words changed, and which checks of its wiring answer then."""

from collections.abc import Mapping
from datetime import date
from functools import cache

from standfast import shelf
from standfast.design.settings import SettingsSheet, settings
from standfast.design.wiring.by_book import Electrical, electrical
from standfast.design.wiring.material import SheetFile
from standfast.equipment.read import read as read_sheet
from standfast.equipment.read import shipped
from standfast.foreman.demo import job_text
from standfast.sheet import Check
from standfast.survey.read import Survey, read

ROLES = {
    "battery": "demo-wall-8", "breaker": "demo-rcbo-c", "disconnect": "demo-isolator-63",
    "island_switch": "demo-gateway-63-line",
}  # fmt: skip
Changes = tuple[tuple[str, str], ...]
TEXT = job_text("verandah")


def swapped(text: str, changes: Changes) -> str:
    """The text with every old part replaced; a part that is not there is a mistake of the test."""
    for old, new in changes:
        if old not in text:
            raise LookupError(old)
        text = text.replace(old, new)
    return text


@cache
def survey(changes: Changes = ()) -> Survey:
    """The job after changes, without faults."""
    found, faults = read(swapped(TEXT, changes))
    assert not list(map(str, faults))
    assert found is not None
    return found


def sheets(changes: Mapping[str, Changes]) -> dict[str, SheetFile]:
    """The data sheets of the demo after changes, by role."""
    made: dict[str, SheetFile] = {}
    for role, id in ROLES.items():
        sheet, faults = read_sheet(swapped(shipped()[id], changes.get(role, ())), f"{id}.toml")
        assert not faults
        assert sheet is not None
        made[role] = sheet
    return made


def trades(changes: Changes = (), **of_sheets: Changes) -> tuple[Survey, Electrical]:
    """The job and its electrical trades, under the adoption that its date gives."""
    job = survey(changes)
    adopted = shelf.adopted_on("au", date.fromisoformat(str(job.job.job.date)))
    return job, electrical(adopted, sheets(of_sheets))


def wired(changes: Changes = (), **of_sheets: Changes) -> dict[str, Check]:
    """Every check of the wiring, of the load and of the backup by its id."""
    job, trade = trades(changes, **of_sheets)
    load = trade.load(job)
    found = (*trade.wire(job, {}).checks, *load.checks, *trade.backup(job, load).checks)
    return {each.id: each for each in found}


def on_grid(changes: Changes = (), **of_sheets: Changes) -> SettingsSheet:
    """The settings sheet of the job."""
    job = survey(changes)
    return settings(job, sheets(of_sheets), shelf.adopted_on("au", job.job.job.date))
