"""The invented demo job with things broken in it, and which electrical checks answer differently then."""

from importlib.resources import files

from standfast import shelf
from standfast.design.installation.build import build
from standfast.design.labels import schedule
from standfast.design.wiring.backup import backup_load
from standfast.design.wiring.load import service_load
from standfast.design.wiring.material import SheetFile
from standfast.design.wiring.whole import wire
from standfast.equipment.read import read as read_sheet
from standfast.equipment.read import shipped
from standfast.sheet import Check
from standfast.survey.read import read

NEC, HANDBOOK = shelf.edition("nfpa70", "2023"), shelf.edition("handbook", "2026")
DEMO = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")
ROLES = {
    "battery": "demo-wall-10",
    "breaker": "demo-breaker",
    "disconnect": "demo-disconnect-60",
    "island_switch": "demo-island-switch",
}
Changes = tuple[tuple[str, str], ...]


def swapped(text: str, changes: Changes) -> str:
    """The text with every old part replaced once; a part that is not there is a mistake of the test."""
    for old, new in changes:
        if old not in text:
            raise LookupError(old)
        text = text.replace(old, new, 1)
    return text


def electrical(job: Changes = (), **sheets: Changes | None) -> dict[str, Check]:
    """Every electrical check of the demo by its id, after changes in the job file and in sheets; None leaves one out.

    The graph and the labels are made too, so that a damage which breaks them is seen.
    """
    survey = read(swapped(DEMO, job)).survey
    if survey is None:
        raise LookupError("the job cannot be read")
    found: dict[str, SheetFile] = {}
    for role, id in ROLES.items():
        changes = sheets.get(role, ())
        if changes is None:
            continue
        sheet = read_sheet(swapped(shipped()[id], changes), f"{id}.toml").sheet
        if sheet is None:
            raise LookupError(role)
        found[role] = sheet
    installation = build(survey, found)
    wiring = wire(NEC, HANDBOOK, survey, found)
    load = service_load(NEC, survey, found)
    backup = backup_load(NEC, survey, found, load.house)
    schedule(NEC, installation, {bar.panel: bar.option for bar in wiring.busbars if bar.option}, backup=True)
    return {check.id: check for check in (*load.checks, *wiring.checks, *backup.checks)}


SOUND = electrical()


def turned(job: Changes = (), **sheets: Changes | None) -> dict[str, str]:
    """The checks whose verdict differs from that of the sound demo; ``gone`` where a check is not asked any more."""
    after = electrical(job, **sheets)
    before, now = ({id: check.verdict for id, check in checks.items()} for checks in (SOUND, after))
    return {id: now.get(id, "gone") for id in before | now if before.get(id) != now.get(id)}
