"""Puts together what the permit set is made from: drawings, schedules and tables of a job that was worked out."""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import NamedTuple

from standfast.design.anchorage.held import Anchorage
from standfast.design.anchorage.task import SheetFile
from standfast.design.installation.circuits import Named, named
from standfast.design.labels import places as in_words
from standfast.design.labels.schedule import Label
from standfast.design.whole import Design
from standfast.equipment.read import DataSheet
from standfast.faults import NotInEdition, Refusal
from standfast.handover import chosen, equipment_schedule, faults, island, loads, who_feeds
from standfast.handover.contents import Contents
from standfast.handover.directory import directories
from standfast.handover.drawings.beside_fixing import beside_foot, beside_wall
from standfast.handover.drawings.directory import drawings as directory_drawings
from standfast.handover.drawings.directory import facts_of
from standfast.handover.drawings.elevation import elevation
from standfast.handover.drawings.face import listed, wall_named
from standfast.handover.drawings.fixing import fixing_detail, foot_detail
from standfast.handover.drawings.one_line import drawings as one_line_drawings
from standfast.handover.drawings.one_line_told import OneLine
from standfast.handover.drawings.one_line_words import one_line
from standfast.handover.drawings.plan import plan
from standfast.handover.drawings.site_plan import site_plan
from standfast.handover.drawings.three_line import drawings as three_line_drawings
from standfast.handover.drawings.three_line_told import three_line
from standfast.handover.panels import CODE, Known
from standfast.paper.document import Block
from standfast.paper.drawing import DoesNotFit, Drawing
from standfast.paper.symbols import ANSI, Family
from standfast.sheet import Ledger
from standfast.shelf import Adoption
from standfast.survey.house import Wall
from standfast.survey.joined import INVERTER
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
    told = one_line(
        survey, sheets, design.installation, design.wiring, design.labels, f"sheet {CODE}", family(adoption)
    )
    circuits = named(survey.job, design.installation, sheets)
    drawings, undrawn = _drawings(survey, adoption, sheets, design, told, circuits)
    return Contents(
        job=survey.job,
        job_file=text.encode(),
        adoption=adoption,
        ledger=ledger,
        drawings=drawings,
        equipment=equipment_schedule.items(told, sheets, places(survey, design)),
        labels=design.labels,
        load=[check.id for check in design.load.checks],
        load_tables=[
            *loads.blocks(design.load, design.backup),
            *island.blocks(design.wiring.alone),
        ],
        undrawn=undrawn,
        beside={part: beside(held, _wall(survey, held[0])) for part, held, _, beside in _fixings(survey, design)},
        files=files,
        departs=_departs(ledger),
        drilled=_drilled(design),
        cautions=[*_cautions(sheets), *faults.cautions(survey, sheets)],
        chosen=chosen.blocks(design.choice, ledger) if design.wiring.metric is None else (),  # only the place is chosen
        panels=Known(circuits, design.wiring.faults, _numbers(design.labels)),
        settings=design.settings,
        metric=design.wiring.metric,
        faults=faults.blocks(survey, adoption, sheets, design),
        feeds=who_feeds.blocks(design.wiring.feeds, design.installation),
    )


def family(adoption: Adoption) -> Family:
    """The symbols that an adoption draws by."""
    if adoption.symbols == "iec":
        from standfast.paper.symbols_iec import IEC

        return IEC
    return ANSI


def places(survey: Survey, design: Design) -> dict[str, str]:
    """Room and wall of every device in words, as far as the survey draws it."""
    units = {each.id: each.wall for each in design.siting.places}
    return in_words(survey.job, design.installation, units)


def _departs(ledger: Ledger) -> str:
    """Why the authority asks for the fire test report: what passes by it and not by the spacing of the code."""
    found = [check for check in ledger if check.id.startswith("siting.unit-spacing/") and check.condition]
    return "; ".join(dict.fromkeys(check.condition for check in found))


def _drilled(design: Design) -> list[str]:
    """What fasteners and anchors hold in, each once."""
    found = [each.base for each in design.anchorages if each.base is not None]
    feet = ["concrete" for each in design.anchorages if each.foot is not None and each.foot.holes]
    return list(dict.fromkeys([*found, *feet]))


def _numbers(labels: Sequence[Label]) -> dict[str, list[str]]:
    """Numbers of the labels by the device that they are on."""
    found: dict[str, list[str]] = {}
    for label in labels:
        found.setdefault(label.at, []).append(label.id)
    return found


def _directory_clause(adoption: Adoption) -> str:
    """The clause that asks for a directory in each panel; empty where the adoption holds none."""
    try:
        return str(adoption.book("nfpa70").clause("circuit_directory"))
    except NotInEdition:
        return ""


def _drawings(
    survey: Survey,
    adoption: Adoption,
    sheets: Mapping[str, DataSheet],
    design: Design,
    told: OneLine,
    circuits: Mapping[tuple[str, str], Named],
) -> tuple[dict[str, Drawing], dict[str, str]]:
    """The drawings by part, and why a part could not be drawn."""
    siting = design.siting
    makers: dict[str, Callable[[], Mapping[str, Drawing]]] = {
        "site plan": lambda: {"site plan": site_plan(survey.job, siting)},
        "one-line": lambda: one_line_drawings(told),
        "three-line": lambda: three_line_drawings(three_line(survey, sheets, design.wiring, told)),
        "panel directory": lambda: directory_drawings(
            directories(survey.job, circuits), facts_of(survey.job, _directory_clause(adoption))
        ),
    }
    for number, judged in enumerate(siting.judged):
        for part, draw in (("elevation", elevation), ("plan details", plan)):
            name = f"{part}, {judged.wall}" if number else part
            drawn = partial(draw, survey, adoption, siting, judged.wall, design.anchorages)
            makers[name] = partial(_one, name, drawn)
    for name, held, detail, _ in _fixings(survey, design):
        makers[name] = partial(_one, name, partial(detail, held[0], _wall(survey, held[0])))
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


def _one(name: str, make: Callable[[], Drawing]) -> dict[str, Drawing]:
    return {name: make()}


class Fixing(NamedTuple):
    """A fixing detail: its part of the set, what is held alike by it, how it is drawn, and what stands beside it."""

    part: str
    held: list[Anchorage]
    detail: Callable[[Anchorage, Wall], Drawing]
    beside: Callable[[list[Anchorage], Wall], list[Block]]


def _fixings(survey: Survey, design: Design) -> list[Fixing]:
    """The distinct fixings: of each wall, and of the feet on its floor."""
    alike: dict[tuple[str, str, str], list[Anchorage]] = {}
    for each in design.anchorages:
        if each.due:
            alike.setdefault(("wall", each.wall, _id(each.fixing)), []).append(each)
    for each in design.anchorages:
        if each.foot is not None and each.foot.holes:
            alike.setdefault(("foot", each.wall, _id(each.foot.anchor)), []).append(each)
    found: list[Fixing] = []
    for place, wall, sheet in alike:
        held = alike[place, wall, sheet]
        units = listed([_spoken(each.unit) for each in held])
        under = wall_named(survey, wall).footing
        name = f"{units} on {wall}"
        if place == "foot":
            name = f"foot of {units} on the {(under.kind if under is not None else None) or 'floor'}"
        part = f"fixing detail, {name}" if found else "fixing detail"
        found.append(
            Fixing(part, held, fixing_detail, beside_wall)
            if place == "wall"
            else Fixing(part, held, _of_foot, beside_foot)
        )
    return found


def _spoken(unit: str) -> str:
    """A unit in words: ``battery 1``; the inverter, of which a job has one, without its number."""
    return "inverter" if unit == INVERTER else unit.replace("-", " ")


def _of_foot(held: Anchorage, wall: Wall) -> Drawing:
    if held.foot is None:
        raise DoesNotFit(f"{held.unit} has no foot")
    return foot_detail(held.foot, wall)


def _id(sheet: SheetFile | None) -> str:
    return "none" if sheet is None else sheet.content.id


def _wall(survey: Survey, held: Anchorage) -> Wall:
    return wall_named(survey, held.wall)


def _cautions(sheets: Mapping[str, DataSheet]) -> list[str]:
    """The cautions of the steps of units and inverter, each once."""
    made = [sheets[role].sheet for role in ("battery", "inverter") if role in sheets]
    return list(dict.fromkeys(each for sheet in made for step in sheet.steps for each in step.cautions))
