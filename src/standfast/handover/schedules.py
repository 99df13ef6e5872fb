"""Every schedule of a job as rows for spreadsheets, beside the bill of materials."""

from collections.abc import Iterator, Mapping

from standfast.commissioning.due_test import DueTest
from standfast.design.installation.circuits import Named, serves
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.whole import Wiring
from standfast.fieldwork.materials import HEAD, Materials, columns
from standfast.fieldwork.work_order import WorkOrder
from standfast.handover import directory, metric_circuits, notice, settings_sheet
from standfast.handover.contents import Contents, Item
from standfast.paper.schedule import NOT_KNOWN, Cell, Schedule, cell
from standfast.reading.quantities import amount
from standfast.survey.model import Job
from standfast.survey.spaces import Held, as_built, as_found
from standfast.units import Quantity

_PANELS = (
    "panel", "as", "spaces", "circuit", "breaker A", "poles", "load VA", "source A", "state", "moved from",
    "moved spaces",
)  # fmt: skip
_CIRCUITS = (
    "circuit", "title", "device A", "needed A", "carries A", "conductor AWG or kcmil", "metal", "insulation",
    "equipment ground", "neutral", "length ft", "runs", "raceways",
)  # fmt: skip
_HOLES = ("hole", "for", "x mm", "y mm", "across", "up", "drill", "into")
_JOINTS = ("joint", "what", "number", "torque N·m", "torque", "tool", "kind")
_TESTS = ("test", "when", "what", "how", "limit", "ground", "readings")
_LABELS = ("label", "number", "wording", "at", "place", "look", "letters in", "clause", "read", "why")


def schedules(contents: Contents, wiring: Wiring, order: WorkOrder, bill: Materials) -> list[Schedule]:
    """The schedules of a job, each with the name of its file.

    Args:
        contents: what the permit set is made from.
        wiring: the circuits that are built.
        order: the work order.
        bill: the bill of materials.
    """
    rows = [columns(each) for each in bill.rows]
    return [
        Schedule("equipment", Item._fields, tuple(tuple(each) for each in contents.equipment)),
        _labels(contents),
        Schedule("panels", _PANELS, tuple(_panels(contents.job, contents.panels.circuits))),
        directory.schedule(contents.job, contents.panels.circuits),
        _circuits_of(wiring),
        _holes(order),
        _joints(order),
        settings_sheet.schedule(contents.settings),
        *_told(wiring),
        Schedule("tests", _TESTS, tuple(_test(each) for each in order.tests)),
        Schedule("materials", HEAD, tuple(rows)),
    ]


def _told(wiring: Wiring) -> list[Schedule]:
    """What the grid operator is told, where the rules of the place have him told."""
    told = None if wiring.metric is None else wiring.metric.notification
    return [] if told is None else [notice.schedule(told)]


def _circuits_of(wiring: Wiring) -> Schedule:
    """The circuits, in the sizes of the rules that they are built under."""
    if wiring.metric is not None:
        return metric_circuits.schedule(wiring.metric)
    return Schedule("circuits", _CIRCUITS, tuple(_circuits(wiring)))


def _labels(contents: Contents) -> Schedule:
    rows = [
        (
            each.id, float(each.number), each.wording, each.at, each.place, each.look, each.letters_in,
            str(each.clause), each.ground, each.why,
        )
        for each in contents.labels
    ]  # fmt: skip
    return Schedule("labels", _LABELS, tuple(rows))


def _panels(job: Job, circuits: Mapping[tuple[str, str], Named]) -> Iterator[tuple[Cell, ...]]:
    """The circuits of every panel as found, where it is there, and as it will be."""
    for panel in job.panels:
        name = panel.name or panel.id
        if panel.state != "new":
            yield from (
                _held(name, "found", each, serves(circuits, panel.id, each.circuit)) for each in as_found(job, panel.id)
            )
        yield from (
            _held(name, "built", each, serves(circuits, panel.id, each.circuit)) for each in as_built(job, panel.id)
        )


def _held(panel: str, view: str, held: Held, serves: str) -> tuple[Cell, ...]:
    circuit = held.circuit
    return (
        panel, view, _spaces(held.spaces), serves, _amount(circuit.breaker, "A"),
        NOT_KNOWN if held.poles is None else float(held.poles), _amount(circuit.load, "VA", ""),
        _amount(circuit.source_output, "A", ""), circuit.state or NOT_KNOWN, circuit.moved_from or "",
        _spaces(circuit.moved_spaces),
    )  # fmt: skip


def _spaces(spaces: tuple[int, ...]) -> str:
    return ", ".join(str(each) for each in spaces)


def _amount(quantity: Quantity | None, unit: str, absent: str = NOT_KNOWN) -> Cell:
    return absent if quantity is None else amount(quantity, unit)


def _circuits(wiring: Wiring) -> Iterator[tuple[Cell, ...]]:
    """Every circuit; those of PV arrays have no overcurrent device, only one by which their ground is sized."""
    without = [each.circuit for each in wiring.arrays]
    for each in wiring.circuits:
        yield _circuit(each, "none" if each in without else cell(each.need.device))


def _circuit(circuit: Circuit, device: Cell) -> tuple[Cell, ...]:
    wire = circuit.conductor
    every = [each for tube in circuit.raceways for each in tube.kinds]
    tubes = "; ".join(f"{each.run.id}: {cell(each.trade_size)} {cell(each.kind)}" for each in every)
    return (
        circuit.id, circuit.title, device, cell(circuit.need.before), cell(wire.carried.usable),
        cell(wire.size), cell(wire.conditions.material), cell(wire.conditions.insulation), cell(circuit.ground),
        cell(circuit.neutral), cell(circuit.length), ", ".join(tube.run.id for tube in circuit.raceways), tubes,
    )  # fmt: skip


def _holes(order: WorkOrder) -> Schedule:
    rows = []
    for hole in order.holes.holes:
        drill = "; ".join(f"{bit}, {depth}" for bit, depth in zip(hole.bit, hole.depth, strict=True))
        rows.append((hole.id, hole.name, cell(hole.x), cell(hole.y), hole.across, hole.up, drill, hole.into))
    return Schedule("holes", _HOLES, tuple(rows))


def _joints(order: WorkOrder) -> Schedule:
    rows = [
        (each.id, each.name, cell(each.number), cell(each.torque), each.shown, each.tool,
         "terminal" if each.terminal else "bolt or anchor")
        for each in order.joints
    ]  # fmt: skip
    return Schedule("joints", _JOINTS, tuple(rows))


def _test(test: DueTest) -> tuple[Cell, ...]:
    blanks = "; ".join(f"{each.what} ({each.unit})" if each.unit else each.what for each in test.readings)
    return test.id, test.when, test.what, test.how, test.limit, test.ground, blanks
