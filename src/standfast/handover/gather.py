"""Puts together what the permit set is made from: drawings, schedules and tables of a job that was worked out."""

from collections.abc import Callable, Mapping

from standfast.design.whole import Design
from standfast.equipment.read import DataSheet
from standfast.faults import Refusal
from standfast.handover import equipment_schedule, loads
from standfast.handover.contents import Contents
from standfast.handover.drawings.elevation import elevation
from standfast.handover.drawings.fixing import beside, fixing_detail
from standfast.handover.drawings.one_line import drawings as one_line_drawings
from standfast.handover.drawings.one_line_told import OneLine
from standfast.handover.drawings.one_line_words import one_line
from standfast.handover.drawings.plan import plan
from standfast.handover.drawings.site_plan import site_plan
from standfast.paper.drawing import Drawing
from standfast.sheet import Ledger
from standfast.shelf import Adoption
from standfast.survey.read import Survey


def gather(
    survey: Survey,
    text: str,
    adoption: Adoption,
    sheets: Mapping[str, DataSheet],
    design: Design,
    ledger: Ledger,
    files: Mapping[str, bytes],
) -> Contents:
    """Everything the permit set is made from.

    Args:
        survey: the job file.
        text: its text, which travels inside the PDF.
        adoption: the codes in force.
        sheets: data sheets by role.
        design: what was designed.
        ledger: every check.
        files: files of ``documents/`` by name.

    Returns:
        The contents; a part that cannot be drawn is told with its reason and is missing on the counter list.
    """
    told = one_line(survey, sheets, design.installation, design.wiring, design.labels, "sheet E2")
    anchorage = design.anchorage
    wall = next(each for each in survey.job.walls if each.id == design.siting.places[0].wall)
    drawings, undrawn = _drawings(survey, adoption, design, told)
    return Contents(
        job=survey.job,
        job_file=text.encode(),
        adoption=adoption,
        ledger=ledger,
        drawings=drawings,
        equipment=equipment_schedule.items(told, sheets, design.siting.places[0].wall),
        labels=design.labels,
        load=[check.id for check in design.load.checks],
        load_tables=loads.blocks(design.load, design.backup),
        undrawn=undrawn,
        beside={"fixing detail": beside(anchorage, wall)},
        files=files,
        drilled=() if anchorage is None or anchorage.base is None else (anchorage.base,),
        cautions=_cautions(sheets),
    )


def _drawings(
    survey: Survey, adoption: Adoption, design: Design, told: OneLine
) -> tuple[dict[str, Drawing], dict[str, str]]:
    """The drawings by part, and why a part could not be drawn."""
    siting = design.siting
    wall = next(each for each in survey.job.walls if each.id == siting.places[0].wall)
    name = design.installation.parts[siting.places[0].id].name
    makers: dict[str, Callable[[], Mapping[str, Drawing]]] = {
        "site plan": lambda: {"site plan": site_plan(survey.job, siting, name)},
        "elevation": lambda: {"elevation": elevation(survey, adoption, siting, name)},
        "plan details": lambda: {"plan details": plan(survey, adoption, siting, name)},
        "fixing detail": lambda: {"fixing detail": fixing_detail(design.anchorage, wall)},
        "one-line": lambda: one_line_drawings(told),
    }
    drawings: dict[str, Drawing] = {}
    undrawn: dict[str, str] = {}
    for part, make in makers.items():
        try:
            made = make()
            for drawing in made.values():
                drawing.finish()  # a drawing that cannot hold its texts stops itself here, and not the set
        except Refusal as refusal:
            undrawn[part] = str(refusal)
        else:
            drawings |= made
    return drawings, undrawn


def _cautions(sheets: Mapping[str, DataSheet]) -> list[str]:
    """The cautions of the unit's own steps, each once."""
    return list(dict.fromkeys(each for step in sheets["battery"].sheet.steps for each in step.cautions))
