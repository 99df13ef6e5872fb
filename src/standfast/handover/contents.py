"""What the permit set is made from."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.design.labels.schedule import Label
from standfast.design.settings import SettingsSheet
from standfast.design.wiring.metric.built import MetricWiring
from standfast.handover.panels import Known
from standfast.paper.document import Block
from standfast.paper.drawing import Drawing
from standfast.sheet import Ledger
from standfast.shelf import Adoption
from standfast.survey.model import Job


class Item(NamedTuple):
    """One line of the equipment schedule.

    Attributes:
        tag: as on the drawings.
        what: kind of equipment.
        model: maker and name.
        number: how many.
        ratings: what decides: energy, currents, voltages, short-circuit ratings.
        listing: standards, with certificate.
        place: where it is put, or existing.
    """

    tag: str
    what: str
    model: str
    number: str
    ratings: str
    listing: str
    place: str


class Contents(NamedTuple):
    """Everything the permit set is made from.

    Attributes:
        job: the job file's model.
        job_file: its text, which travels inside the PDF.
        adoption: the codes in force.
        ledger: every check.
        drawings: finished drawings by part, as in DRAWINGS; a part that could not be drawn is absent.
        equipment: the equipment schedule.
        labels: the label schedule.
        load: ids of the checks that are the load calculation.
        files: files of ``documents/`` by name.
        departs: why a fire test report is asked; empty where it is not.
        drilled: what fasteners hold in.
        cautions: cautions of the equipment, beside those of every job.
        load_tables: the load calculation line by line.
        undrawn: why a part could not be drawn.
        beside: blocks that stand beside the drawing of a part.
        chosen: what was chosen and why; empty where it is not told.
        panels: what the installation says of the panels: names of circuits, fault currents, labels.
        settings: what the inverter is set to on the grid.
        metric: the circuits of a job under rules that count in square millimetres, and the notice to the operator.
        feeds: who can feed each busbar and conductor.
        faults: fault currents by place, and arcs of batteries.
    """

    job: Job
    job_file: bytes
    adoption: Adoption
    ledger: Ledger
    drawings: Mapping[str, Drawing]
    equipment: Sequence[Item]
    labels: Sequence[Label]
    load: Sequence[str] = ()
    files: Mapping[str, bytes] = {}
    departs: str = ""
    drilled: Sequence[str] = ()
    cautions: Sequence[str] = ()
    load_tables: Sequence[Block] = ()
    undrawn: Mapping[str, str] = {}
    beside: Mapping[str, Sequence[Block]] = {}
    chosen: Sequence[Block] = ()
    panels: Known = Known()
    settings: SettingsSheet = SettingsSheet(None, (), ())
    metric: MetricWiring | None = None
    faults: Sequence[Block] = ()
    feeds: Sequence[Block] = ()
