"""The steps of a data sheet, undone: conductors out, covers on, connectors apart, joints loosened, parts down.

What an installation step did is undone after everything that came after it. Conductors are the exception: line, plus
and minus come out first, one pole at a time, links and signals then, and ground last, as everybody does. A brace is
parted from what it holds where that is lifted, and itself comes off the wall last of all.
"""

from collections.abc import Iterator, Sequence

from standfast.aftercare.apart import behind, covers
from standfast.aftercare.making import LIFT, step
from standfast.equipment.contradicted import endangers
from standfast.equipment.electrical import Terminal
from standfast.equipment.model import Part
from standfast.equipment.task import Step
from standfast.fieldwork.link import chain
from standfast.fieldwork.order.acts import Turn
from standfast.fieldwork.order.house import cover_id, gate_id, secondary_id
from standfast.fieldwork.order.of_sheet import terminals
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.rows import mass_both
from standfast.fieldwork.steps import WorkStep, fitted_at
from standfast.fieldwork.tools import drive

LAST = ("signal", "ground")
"""Uses of terminals whose conductors come out after all others, in this order."""
DIRECT = ("dc", "pv")
"""Uses of terminals with plus and minus."""


def cables_out(plan: Plan, device: Device, after: tuple[str, ...]) -> list[WorkStep]:
    """Every conductor of a device, each terminal a step; then the covers are fitted again over the capped terminals.

    The leads of measuring transformers lie on terminals too: links and transformers go first, under the open cover.
    """
    found = _sensors_out(plan, device, after)
    uses = ("", *LAST)
    order = sorted(device.sheet.terminals, key=lambda one: uses.index(one.use if one.use in LAST else ""))
    for each in order:
        last = (found[-1].id,) if found else after
        if each.use == "ground" and _loose_cables(plan, device):
            out = step(plan, f"out.{device.id}.cables", "take apart", last, "out_cables", name=device.name)
            found.append(_inside(device, out)._replace(evidence=(plan.say("order.keep_photo"),)))
            last = (found[-1].id,)
        found.append(_terminal(plan, device, each, last))
    for cover in covers(device):
        last = (found[-1].id,) if found else after
        id, words = f"on.{cover_id(device.id, cover)}", {"name": device.name, "cover": plan.told(device.sheet, cover)}
        found.append(
            step(plan, id, "take apart", last, "cover_on", **words)._replace(puts_on=cover_id(device.id, cover))
        )
    return found


def _loose_cables(plan: Plan, device: Device) -> bool:
    """True where a device has cables of a link or of the emergency shutdown and its data sheet no terminal for them."""
    known = any(one.use == "signal" for one in device.sheet.terminals)
    return not known and (
        device.id in {one.id for one in plan.shut_down}
        or device.id in {place.device.id for place in chain(plan.devices)}
    )


def _sensors_out(plan: Plan, device: Device, after: tuple[str, ...]) -> list[WorkStep]:
    """Shorting links in, transformers off their conductors, secondaries apart: the steps of the sheet in reverse."""
    found = list[WorkStep]()
    for each in reversed(device.sheet.steps):
        before, kind = (found[-1].id,) if found else after, _kind(device, each, "")
        if kind == "sensor":
            found.append(_sensor(plan, device, each, before))
        elif kind == "short":
            found.append(_short(plan, device, each, before))
    return found


def _terminal(plan: Plan, device: Device, terminal: Terminal, after: tuple[str, ...]) -> WorkStep:
    key = f"out_{terminal.use}" if terminal.use in LAST else "out_direct" if terminal.use in DIRECT else "out_poles"
    words = {"name": device.name, "terminal": plan.told(device.sheet, terminal.name or terminal.id)}
    found = step(plan, f"out.{device.id}.{terminal.id}", "take apart", after, key, **words)
    cautions = () if terminal.use in LAST else (plan.say("aftercare.out_caution"),)
    if terminal.use in DIRECT:
        cautions = (plan.say("aftercare.out_caution_dc"),)
    return found._replace(
        touches=tuple(terminals(device)), behind=behind(device), hands=True, cautions=cautions,
        evidence=(plan.say("order.keep_photo"),),
    )  # fmt: skip


def undo_id(device: Device, id: str) -> str:
    """Id of the step that undoes a step of a data sheet."""
    return f"undo.{device.id}.{id}"


def down(
    plan: Plan, device: Device, of: Sequence[Step], after: tuple[str, ...], parted: str = "", brace: str = "brace_off"
) -> list[WorkStep]:
    """Joints and parts of a device, undone; its measuring transformers went with its conductors.

    Args:
        plan: the job as built.
        device: the device.
        of: the steps of its data sheet that are undone.
        after: steps that are done before: all conductors are out.
        parted: the step that parted its connectors already; empty where none did.
        brace: the text with which a brace comes off its wall; empty where it stays there.
    """
    later = _later(device)
    found, braces = list[WorkStep](), list[WorkStep]()
    ids = {each.id for each in of}
    kinds = {each.id: _kind(device, each, parted) for each in device.sheet.steps}
    kinds = {id: "" if kind in ("sensor", "short") else kind for id, kind in kinds.items()}
    waits = _Waits(device, {id for id in ids if kinds[id]}, later)
    for each in of:
        kind, before = kinds[each.id], waits.before(each.id) or after
        if kind == "unplug":
            found.append(_unplug(plan, device, each, before))
        elif kind == "loosen":
            found.append(_loosen(plan, device, each, before))
        elif kind == "brace":
            found.append(_loosen(plan, device, each, before, key="brace_free"))
            if brace:
                braces.append(_off(plan, device, each, (), key=brace, id=f"{undo_id(device, each.id)}.off"))
        elif kind == "off":
            found.append(_off(plan, device, each, before))
    return [*found, *(each._replace(after=tuple(one.id for one in found)) for each in braces)]


def _kind(device: Device, each: Step, parted: str) -> str:
    """What undoes a step; empty where nothing of it is left to undo."""
    change = None if each.does is None else each.does.change
    if each.does is not None and each.does.to in {one.name for one in device.sheet.sensors}:
        return "sensor" if change in ("plug in", "put in") else ""
    if change == "take out" and each.does is not None:
        return "short" if each.does.to in {one.shorting for one in device.sheet.sensors} else ""
    if change == "plug in":
        return "" if parted else "unplug"
    if change == "fit":
        return "brace" if braced(each) else "off"
    joints = {joint.id for joint in device.sheet.joints}
    return "loosen" if each.joint in joints and change is None else ""


def braced(each: Step) -> bool:
    """True for a step that fits a brace and bolts something to it."""
    to = "" if each.does is None or each.does.change != "fit" else each.does.to or ""
    return "brace" in to and each.joint is not None


class _Waits:
    """For each step that is undone the nearest ones after it that are undone before."""

    def __init__(self, device: Device, undone: set[str], later: dict[str, list[str]]) -> None:
        self.device, self.undone, self.later = device, undone, later

    def before(self, id: str) -> tuple[str, ...]:
        """Ids of the steps that undo what came after a step."""
        found, queue, seen = list[str](), list(self.later.get(id, ())), set[str]()
        while queue:
            here = queue.pop(0)
            if here in seen:
                continue
            seen.add(here)
            if here in self.undone:
                found.append(undo_id(self.device, here))
            else:
                queue += self.later.get(here, ())
        return tuple(found)


def _later(device: Device) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for each in device.sheet.steps:
        for before in each.after:
            found.setdefault(before, []).append(each.id)
    return found


def needing(device: Device, id: str) -> list[Step]:
    """A step of a data sheet and every step that comes after it, in the order of the sheet."""
    later, found, queue = _later(device), {id}, [id]
    while queue:
        for each in later.get(queue.pop(), ()):
            if each not in found:
                found.add(each)
                queue.append(each)
    return [each for each in device.sheet.steps if each.id in found]


def _unplug(plan: Plan, device: Device, each: Step, after: tuple[str, ...]) -> WorkStep:
    to = "" if each.does is None else each.does.to or ""
    words = {"name": device.name, "connectors": plan.told(device.sheet, to)}
    found = step(plan, undo_id(device, each.id), "take apart", after, "unplug", **words)
    gates = [gate for gate in device.sheet.gates if gate.name == to]
    return found._replace(
        turns=tuple(Turn(gate_id(device.id, gate.name), "open") for gate in gates),
        cautions=(plan.say("aftercare.unplug_caution"),),
    )


def _sensor(plan: Plan, device: Device, each: Step, after: tuple[str, ...]) -> WorkStep:
    """A measuring transformer comes off its conductor, or its secondary out; the sheet's order, in reverse."""
    to, seat = ("", False) if each.does is None else (each.does.to or "", each.does.change == "put in")
    key = "sensor_off" if seat else "secondary_out"
    words = {"name": device.name, "sensor": plan.told(device.sheet, to)}
    found = step(plan, undo_id(device, each.id), "take apart", after, key, **words)
    found = found._replace(cautions=(plan.say("aftercare.sensor_caution"),)) if seat else _inside(device, found)
    if not any(endangers(one) for one in device.sheet.sensors if one.name == to):
        return found
    return found._replace(takes_off=cover_id(device.id, to) if seat else secondary_id(device.id, to))


def _inside(device: Device, found: WorkStep) -> WorkStep:
    """A step for which hands reach to the terminals of a device, under its open covers."""
    return found._replace(touches=tuple(terminals(device)), behind=behind(device), hands=True)


def _short(plan: Plan, device: Device, each: Step, after: tuple[str, ...]) -> WorkStep:
    """The link that shorts the secondary of a measuring transformer goes in again, before anything of it is parted."""
    to = "" if each.does is None else each.does.to or ""
    words = {"name": device.name, "link": plan.told(device.sheet, to)}
    found = step(plan, undo_id(device, each.id), "take apart", after, "short_in", **words)
    return _inside(device, found)._replace(puts_on=cover_id(device.id, to))


def _loosen(plan: Plan, device: Device, each: Step, after: tuple[str, ...], key: str = "loosen") -> WorkStep:
    joint = next((one for one in device.sheet.joints if one.id == each.joint), None)
    name = plan.told(device.sheet, each.joint or each.id if joint is None else joint.name or joint.id)
    found = step(plan, undo_id(device, each.id), "take down", (*after, LIFT), key, name=device.name, joint=name)
    aided = plan.lift is not None and bool(plan.lift.aid)
    caution = plan.say(f"aftercare.{key}_caution", aid=plan.lift.aid if plan.lift else "") if key != "loosen" else (
        plan.say("aftercare.loosen_caution", aid=plan.lift.aid) if aided and plan.lift is not None
        else plan.say("aftercare.loosen_caution_hand")
    )  # fmt: skip
    return found._replace(tools=_tools(each), cautions=(caution,), people="2")


def _off(
    plan: Plan, device: Device, each: Step, after: tuple[str, ...], key: str = "part_off", id: str = ""
) -> WorkStep:
    parts = [part for part in device.sheet.parts if part.id in each.parts]
    told = "; ".join(_part(plan, device, part) for part in parts)
    what = told or ("" if each.does is None else each.does.to or "")
    if any((part.count or 1) > 1 for part in parts):
        key = "parts_off"
    joint = next((one for one in device.sheet.joints if one.id == each.joint), None)
    found = step(plan, id or undo_id(device, each.id), "take down", (*after, LIFT), key, name=device.name, parts=what)
    bolted = joint is not None and not key.startswith("brace")
    first = (
        (plan.say("aftercare.undo_joint", joint=plan.told(device.sheet, joint.name or joint.id)),)
        if joint and bolted
        else ()
    )
    held = next((one for one in plan.held if fitted_at(plan, device, one) == each.id), None)
    screwed = () if held is None else (plan.say("aftercare.undo_held", fastener=held.fastener.content.name),)
    drives = () if held is None else tuple(one for one in (plan.told(held.fastener.content, drive(held)),) if one)
    tools = _tools(each) if bolted or not drives else ()  # a joint that was undone before needs its tool no more
    return found._replace(
        first=(*first, *screwed), tools=tuple(dict.fromkeys((*tools, *drives))),
        people="" if each.people is None else str(each.people),
        cautions=tuple(_cautions(plan, device, parts)),
    )  # fmt: skip


def _part(plan: Plan, device: Device, part: Part) -> str:
    mass = mass_both(device.data.fact(f"parts.{part.id}.mass", "m", "kg"), plan.language)
    key = "pieces" if (part.count or 1) > 1 else "piece"
    return plan.say(f"aftercare.{key}", name=plan.told(device.sheet, part.name), count=part.count or 1, mass=mass)


def _cautions(plan: Plan, device: Device, parts: Sequence[Part]) -> Iterator[str]:
    aided = () if plan.lift is None or not plan.lift.aid else plan.lift.parts
    named = [plan.told(device.sheet, part.name) for part in parts if f"{device.id}/{part.id}" in aided]
    if plan.lift is not None and named:
        yield plan.say("order.lifted_by_aid", parts=", ".join(named), aid=plan.lift.aid)
    if device.role == "battery" and any(part.lifted != "not lifted" and "module" in part.name.lower()
                                        for part in parts):  # fmt: skip
        yield plan.say("aftercare.module_live")
    removal = device.sheet.removal
    if removal is not None and any(part.id == _heaviest(device) for part in parts):
        yield from (plan.say("aftercare.maker_says", text=each) for each in removal.lift_notes)


def _heaviest(device: Device) -> str:
    """The part of a device that weighs most, where its notes on lifting belong; empty where no mass is known."""
    masses = {part.id: float(part.mass.number) for part in device.sheet.parts if part.mass is not None}
    return max(masses, key=lambda id: masses[id], default="")


def _tools(each: Step) -> tuple[str, ...]:
    """Tools of an installation step that undo it too: what grips and lifts; nothing that measures or drills."""
    return tuple(
        tool for tool in each.tools
        if any(word in tool for word in ("socket", "screwdriver", "aid")) and "torque" not in tool
    )  # fmt: skip
