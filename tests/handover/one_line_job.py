"""A demo job, with words of it changed, and what its one-line diagram says."""

from importlib.resources import files

from standfast import shelf
from standfast.design.installation.build import build
from standfast.design.labels import schedule
from standfast.design.wiring.whole import wire
from standfast.equipment.read import KINDS, DataSheet, find
from standfast.faults import Fault
from standfast.handover.drawings.one_line_told import OneLine
from standfast.handover.drawings.one_line_words import one_line
from standfast.paper.drawing import Drawing
from standfast.survey.read import Survey, read

NEC, HANDBOOK = shelf.edition("nfpa70", "2023"), shelf.edition("handbook", "2026")


def job_and_sheets(name: str, *changes: tuple[str, str]) -> tuple[Survey, dict[str, DataSheet]]:
    """A demo job with its data sheets, some of its words changed, and still without a fault."""
    job, sheets, faults = damaged(name, *changes)
    assert faults == []
    return job, sheets


def damaged(name: str, *changes: tuple[str, str]) -> tuple[Survey, dict[str, DataSheet], list[Fault]]:
    """The same, with whatever faults it then has."""
    text = (files("standfast.foreman") / "demos" / name / "job.toml").read_text("utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    job, faults = read(text)
    assert job is not None
    chosen = {role: getattr(job.job.equipment, role) for role in KINDS}
    sheets = {role: sheet for role, id in chosen.items() if id is not None and (sheet := find(id).sheet) is not None}
    return job, sheets, faults


def told(name: str, *changes: tuple[str, str]) -> OneLine:
    return told_of(*job_and_sheets(name, *changes))


def told_of(job: Survey, sheets: dict[str, DataSheet]) -> OneLine:
    installation, wiring = build(job, sheets), wire(NEC, HANDBOOK, job, sheets)
    options = {bar.panel: bar.option for bar in wiring.busbars if bar.option is not None}
    labels = schedule(NEC, installation, options, backup=job.job.backup.mode != "none")
    return one_line(job, sheets, installation, wiring, labels, "sheet E2")


def texts(made: dict[str, Drawing]) -> str:
    return " ".join(mark.text for each in made.values() for _, mark in each.texts)
