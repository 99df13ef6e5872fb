"""Every joint of the job that is tightened to a torque: bolts of units and inverter, terminals, anchors."""

from typing import NamedTuple

from standfast.design.installation.graph import Part, PartKind
from standfast.equipment.electrical import Terminal
from standfast.equipment.model import Sheet
from standfast.equipment.read import DataSheet
from standfast.equipment.task import Joint as Bolts
from standfast.fieldwork.arc_fault import protected
from standfast.fieldwork.isolation import worked_panels
from standfast.fieldwork.plan import Device, Held, Plan, Run, Use
from standfast.fieldwork.rows import torque_of
from standfast.sheet import Value, chosen, missing

SWITCHED: tuple[PartKind, ...] = ("breaker", "fuse", "disconnect", "transfer equipment")
"""Kinds of parts that conductors are joined to, beside panels, units and inverter."""


class Joint(NamedTuple):
    """Equal joints of one device.

    Attributes:
        id: device and joint: ``battery-1/ac-lines``.
        name: what is tightened, with the device's name.
        torque: N·m; missing where the data sheet does not state it.
        shown: in both units, or *as marked on the part*.
        number: how many.
        tool: what fits, as the data sheet says; empty where it does not.
        terminal: true for a terminal of a conductor, false for a bolt or anchor.
    """

    id: str
    name: str
    torque: Value
    shown: str
    number: Value
    tool: str
    terminal: bool


def joints(plan: Plan) -> list[Joint]:
    """All joints of the job, device by device."""
    found: list[Joint] = []
    for device in plan.devices:
        found += _bolts(plan, device)
        found += _terminals(plan, device.data, device.id, device.name)
    for part in plan.installation.of_kind(*SWITCHED):
        role = part.role or part.kind
        if is_fitted(plan, part) and role in plan.sheets:
            found += [_of_breaker(plan, part, each) for each in _terminals(plan, plan.sheets[role], part.id, part.name)]
    for panel in worked_panels(plan):
        found += [_bars(plan, panel)] if panel.existing else [_main(plan, panel), _bars(plan, panel)]
    for held in plan.held:
        if held.fastener.has("anchor.torque"):
            found.append(_anchor(plan, held))
    return found


def is_fitted(plan: Plan, part: Part) -> bool:
    """True where the part is put in by this job: a new one, and every breaker of a new panel."""
    new = {panel.id for panel in plan.installation.of_kind("busbar") if not panel.existing}
    return not part.existing or (part.kind == "breaker" and part.id.partition("/")[0] in new)


def _bars(plan: Plan, panel: Part) -> Joint:
    """The bars of a panel that conductors of the job land on; no data sheet states their torque."""
    need = plan.say("joints.bars_need", name=panel.name)
    torque = missing("T", "N·m", need)
    number = missing("n", "1", need)
    name = plan.say("joints.bars", name=panel.name)
    return Joint(
        f"{panel.id}/bars",
        name,
        torque,
        torque_of(torque, plan.language, metric=plan.metric),
        number,
        "",
        terminal=True,
    )


def _main(plan: Plan, panel: Part) -> Joint:
    """The terminals of a new panel's main, or its main lugs, that the lines of its feeder land on."""
    torque = missing("T", "N·m", plan.say("joints.main_need", name=panel.name))
    lines = sum(wire.number for run in plan.runs if run.parts[-1:] == (panel.id,) or run.parts[:1] == (panel.id,)
                for wire in run.wires if wire.use == "line" and _feeds(plan, panel, run))  # fmt: skip
    number = chosen("n", float(lines), "1", f"lines of the feeder of {panel.name}", None) if lines else torque
    name = plan.say("joints.main", name=panel.name)
    return Joint(
        f"{panel.id}/main",
        name,
        torque,
        torque_of(torque, plan.language, metric=plan.metric),
        number,
        "",
        terminal=True,
    )


def _feeds(plan: Plan, panel: Part, run: Run) -> bool:
    """True where a run joins a panel to the utility's side: its other end is a panel too."""
    ends = {run.parts[0], run.parts[-1]} - {panel.id}
    return bool(ends & set(plan.survey.ids("panels")))


def _bolts(plan: Plan, unit: Device) -> list[Joint]:
    sheet = unit.data
    rows = []
    for joint in sheet.sheet.joints:
        torque = sheet.fact(f"joints.{joint.id}.torque", "T", "N·m")
        count = sheet.fact(f"joints.{joint.id}.count", "n", "1")
        name = f"{unit.name}: {plan.told(sheet.sheet, joint.name or joint.id)}"
        shown = torque_of(torque, plan.language, metric=plan.metric)
        rows.append(
            Joint(f"{unit.id}/{joint.id}", name, torque, shown, count, _tool(plan, unit.sheet, joint), terminal=False)
        )
    return rows


def _tool(plan: Plan, sheet: Sheet, joint: Bolts) -> str:
    """What fits, as the sheet says: each of several tools by itself."""
    tools = (joint.tool or "").split(" and ")
    return plan.say("tools.and").join(plan.told(sheet, each) for each in tools)


def _terminals(plan: Plan, sheet: DataSheet, device: str, name: str) -> list[Joint]:
    rows = []
    for terminal in sheet.sheet.terminals:
        torque = sheet.fact(f"terminals.{terminal.id}.torque", "T", "N·m")
        count = _used(plan, device, terminal, sheet.fact(f"terminals.{terminal.id}.count", "n", "1"))
        shown = torque_of(torque, plan.language, metric=plan.metric)
        label = f"{name}: {plan.told(sheet.sheet, terminal.name or terminal.id)}"
        rows.append(Joint(f"{device}/{terminal.id}", label, torque, shown, count, "", terminal=True))
    return rows


USES: dict[str, tuple[Use, ...]] = {
    "ac line": ("line",), "ac neutral": ("neutral",), "ground": ("ground",),
    "dc": ("positive", "negative"), "pv": ("positive", "negative"),
}  # fmt: skip
"""Conductors of a run, by their use, that land on a terminal of each use."""


def _used(plan: Plan, device: str, terminal: Terminal, count: Value) -> Value:
    """How many of equal terminals take a conductor of this job; all of them where no run tells."""
    arrays = {part.id for part in plan.installation.of_kind("array")}
    uses = USES.get(terminal.use or "", ())
    landed = 0
    for run in plan.runs:
        sunny = bool(arrays & set(run.parts))
        if terminal.use in ("dc", "pv") and sunny != (terminal.use == "pv"):
            continue
        times = (run.parts[:1] == (device,)) + (run.parts[-1:] == (device,)) + 2 * (device in run.parts[1:-1])
        landed += times * sum(wire.number for wire in run.wires if wire.use in uses)
    if not landed or count.missing or landed >= count.quantity:
        return count
    return chosen("n", float(landed), "1", f"conductors of the job that land at {device}", None)


def _of_breaker(plan: Plan, part: Part, joint: Joint) -> Joint:
    """A breaker of a circuit has a terminal for each of its poles; its torque is that of the sheet only where the sheet
    is of a breaker with as many poles, and without arc-fault protection."""
    panel, _, circuit = part.id.partition("/")
    if part.kind != "breaker":
        return joint
    poles, made = missing("n", "1", ""), plan.sheets["breaker"].sheet.switch
    if panel in plan.survey.ids("panels"):
        poles = plan.survey.fact(f"panels.{panel}.circuits.{circuit}.poles", "n", "1")
        joint = joint._replace(number=poles)
    other = not poles.missing and made is not None and made.poles is not None and poles.quantity != float(made.poles)
    if not other and circuit not in {each.id for each in protected(plan)}:
        return joint
    torque = missing("T", "N·m", plan.say("joints.breaker_need", name=part.name))
    return joint._replace(torque=torque, shown=torque_of(torque, plan.language, metric=plan.metric))


def _anchor(plan: Plan, held: Held) -> Joint:
    torque = held.fastener.fact("anchor.torque", "T", "N·m")
    count = chosen("n", float(len(held.spots)), "1", f"holes of {held.name}", None)
    name = f"{held.name}: {held.fastener.content.name}"
    drive = held.fastener.content.anchor.drive if held.fastener.content.anchor is not None else None
    tool = plan.told(held.fastener.content, drive or "")
    return Joint(
        f"{held.id}/anchors",
        name,
        torque,
        torque_of(torque, plan.language, metric=plan.metric),
        count,
        tool,
        terminal=False,
    )
