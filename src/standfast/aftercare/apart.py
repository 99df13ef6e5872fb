"""How everything is parted from power before hands reach it: inverter first, battery next, panels of the house last.

The order is that of NFPA 70E 120.5: find the sources, open, see that it is open, let charges go, lock, prove dead.
Locks go on with each switch as it opens, which is earlier and no weaker. What no switch inside a unit holds off, the
leads of its modules, is parted before the proof: until the last of them is out the bars are live.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.aftercare.making import DEAD, DEAD_HOUSE, HOUSE, SEEN, SEEN_HOUSE, STOP, step
from standfast.design.installation.graph import Part
from standfast.fieldwork.isolation import BREAKS, CONDUCTORS, DIRECT, MOST, Isolation, pairs
from standfast.fieldwork.live_sides import told_live
from standfast.fieldwork.making_dead import opens
from standfast.fieldwork.order.acts import Turn
from standfast.fieldwork.order.house import cover_id, front_id, gate_id
from standfast.fieldwork.order.of_sheet import own_way, terminals
from standfast.fieldwork.plan import Device, Plan
from standfast.fieldwork.steps import Reading, WorkStep
from standfast.units import show

PULLED = ("connector", "fuse")
SECONDS = 60
"""In a minute."""


class Apart(NamedTuple):
    """The steps, and what they turned.

    Attributes:
        steps: in order.
        panels: how each panel that is opened is made dead.
        strings: the step that parts the strings of each array.
        leads: the step that parts the leads of each battery whose modules no switch holds off.
    """

    steps: tuple[WorkStep, ...]
    panels: tuple[Isolation, ...]
    strings: tuple[str, ...]
    leads: dict[str, str]

    @property
    def opened(self) -> list[str]:
        """Everything that was opened or pulled, in order, each once."""
        turned = [turn.gate for each in self.steps for turn in each.turns if turn.change == "open"]
        return list(dict.fromkeys(turned))


def apart(
    plan: Plan, devices: Sequence[Device], after: tuple[str, ...], hold: Sequence[WorkStep] | None = None,
    worked: Sequence[Device] | None = None,
) -> Apart:  # fmt: skip
    """Part devices from power; no panel of the house loses it.

    Args:
        plan: the job as built.
        devices: those that are worked on or hang on the same DC conductors.
        after: steps that are done before.
        hold: what nobody goes near the units before: the supply of the house without them, an assessment; None where
            nothing is waited for. Until then the units are parted from the house and no panel of it from the grid.
        worked: the devices whose covers come off; None for all of them.
    """
    found, opened = _Chain(plan, after), devices if worked is None else worked
    found.add(step(plan, STOP, "make dead", (), "stop" if hold is None else "stop_afar", names=_named(devices)))
    ordered = sorted(devices, key=lambda one: one.role != "inverter")
    if hold is not None:
        for each in ordered:
            found.add(_alternating(plan, each, found.turned, "afar"))
        for waited in hold:
            found.add(waited)
    for each in ordered:
        found.add(_alternating(plan, each, found.turned))
    inverters, batteries = ([each for each in devices if each.role == role] for role in ("inverter", "battery"))
    for each in inverters:
        found.add(_inside(plan, each))
    arrays = [part for part in plan.installation.of_kind("array") if inverters]
    for part in arrays:
        found.add(_strings(plan, part))
    for each in batteries:
        found.add(_inside(plan, each))
    for each in batteries:
        found.add(_direct(plan, each, inverters))
    found.add(_seen(plan, SEEN, found.turned))
    for each in opened:
        for cover in covers(each):
            found.add(_cover_off(plan, each, cover))
    bare = [each for each in opened if each.role == "battery" and not _switched(each) and _connectors(each)]
    for each in bare:
        found.add(_leads(plan, each))
    for each in inverters:
        found.add(_wait(plan, each))
    proved = [_prove_device(plan, each)._replace(after=(found.last,)) for each in opened]
    done = step(plan, DEAD, "make dead", tuple(each.id for each in proved), "all_dead")
    leads = {each.id: f"off.leads-{each.id}" for each in bare}
    return Apart((*found.steps, *proved, done), (), tuple(_strings_id(each) for each in arrays), leads)


def house_apart(
    plan: Plan, panels: Sequence[Isolation], switches: Sequence[Part], after: tuple[str, ...], turned: set[str]
) -> Apart:  # fmt: skip
    """Part the panels that are opened, once the units are: the house is without power for no longer than that takes.

    Args:
        plan: the job as built.
        panels: how each panel that hands reach into is made dead, where nothing that was parted before can feed it.
        switches: switches and fuses of the units that hands reach into.
        after: steps that are done before.
        turned: what was opened and locked before.
    """
    found = _Chain(plan, after)
    for one in panels:
        found.add(_panel(plan, one, turned | found.turned))
    if found.steps:
        found.add(_seen(plan, SEEN_HOUSE, found.turned))
    for one in panels:
        found.add(_front_off(plan, one))
    ready = (found.last,) if found.steps else after
    proofs = [*(_prove_panel(plan, each) for each in panels), *(_prove_switch(plan, each) for each in switches)]
    proved = [each._replace(after=ready) for each in proofs]
    done = step(plan, DEAD_HOUSE, HOUSE, tuple(each.id for each in proved) or ready, "house_dead")
    steps = [each._replace(stage=HOUSE) for each in (*found.steps, *proved)]
    return Apart((*steps, done), tuple(panels), (), {})


def _front_off(plan: Plan, each: Isolation) -> WorkStep:
    """The front of a panel comes off when everything is seen to be open and locked."""
    found = step(plan, f"off.front-{each.id}", HOUSE, (), "front_off", panel=each.panel)
    return found._replace(takes_off=front_id(each.id), cautions=(plan.say("order.front_caution"),))


class _Chain:
    """Steps that are done one after the other, so that each switch is turned once."""

    def __init__(self, plan: Plan, after: tuple[str, ...]) -> None:
        self.plan, self.after = plan, after
        self.steps = list[WorkStep]()

    def add(self, each: WorkStep | None) -> None:
        """Put a step behind the last one; None is no step."""
        if each is not None:
            self.steps.append(each._replace(after=(self.last,) if self.steps else self.after))

    @property
    def last(self) -> str:
        """The step that was put last."""
        return self.steps[-1].id

    @property
    def turned(self) -> set[str]:
        """What was turned already."""
        return {turn.gate for each in self.steps for turn in each.turns}


def covers(device: Device) -> list[str]:
    """The covers of a device that guard terminals, as its data sheet calls them."""
    return list(dict.fromkeys(zone.under for zone in device.sheet.zones if zone.under is not None))


def behind(device: Device) -> tuple[str, ...]:
    """The same by the names of the order."""
    return tuple(cover_id(device.id, each) for each in covers(device))


def _named(devices: Sequence[Device]) -> str:
    return ", ".join(each.name for each in devices)


def _off(ids: Sequence[Part]) -> tuple[Turn, ...]:
    """Each is opened and locked; a fuse is pulled and takes no lock."""
    found = []
    for part in ids:
        found.append(Turn(part.id, "open"))
        found += [] if part.kind == "fuse" else [Turn(part.id, "lock")]
    return tuple(found)


def _alternating(plan: Plan, device: Device, turned: set[str], where: str = "") -> WorkStep | None:
    """The switches of the AC circuit, from the device on; from afar only the breaker in the panel."""
    parts = [plan.installation.parts[id] for id in own_way(plan, device) if id not in turned]
    if where:
        parts = [part for part in parts if part.kind == "breaker"]
    if not parts:
        return None
    words = {"name": device.name, "switches": ", ".join(part.name for part in parts)}
    ordered = "ac_off" if len(parts) > 1 else "ac_off_one"
    id, key = (f"off.ac-{device.id}-{where}", "ac_afar") if where else (f"off.ac-{device.id}", ordered)
    return step(plan, id, "make dead", (), key, **words)._replace(turns=_off(parts))


def _switched(device: Device) -> bool:
    """True where a switch inside holds the cells off and keeps a lock."""
    return any(gate.kind not in PULLED and gate.locks is not False for gate in device.sheet.gates)


def _connectors(device: Device) -> list[str]:
    return [gate_id(device.id, gate.name) for gate in device.sheet.gates if gate.kind == "connector"]


def _inside(plan: Plan, device: Device) -> WorkStep | None:
    """The switches and fuses inside a device; and what its manual says is switched on, where no gate tells of it."""
    gates = [gate for gate in device.sheet.gates if gate.kind != "connector"]
    turns = list[Turn]()
    for gate in gates:
        id = gate_id(device.id, gate.name)
        turns.append(Turn(id, "open"))
        turns += [Turn(id, "lock")] if gate.kind != "fuse" and gate.locks is not False else []
    known = {gate.name for gate in device.sheet.gates}
    told = [plan.told(device.sheet, gate.name) for gate in gates] + [
        plan.told(device.sheet, each.does.to) for each in device.sheet.steps
        if each.does is not None and each.does.change == "close" and each.does.to is not None
        and each.does.to not in known and not each.does.to.endswith(" breaker")
    ]  # fmt: skip
    if not told:
        return None
    words = {"name": device.name, "switches": ", ".join(dict.fromkeys(told))}
    found = step(plan, f"off.{device.id}", "make dead", (), f"inside_{device.role}", **words)
    loose = tuple(
        plan.told(device.sheet, gate.name) for gate in gates if gate.kind != "fuse" and gate.locks is not True
    )
    cautions = (plan.say("aftercare.no_lock", switches=", ".join(loose)),) if loose else ()
    return found._replace(turns=tuple(turns), cautions=cautions)


def _strings_id(array: Part) -> str:
    return f"off.strings-{array.id}"


def _strings(plan: Plan, array: Part) -> WorkStep:
    """Strings are parted at their own connectors, without load: the switch of the inverter is open before."""
    found = step(plan, _strings_id(array), "make dead", (), "strings", name=array.name)
    return found._replace(
        turns=(Turn(f"{array.id}/connectors", "open"),), cautions=(plan.say("aftercare.strings_caution"),)
    )


def _direct(plan: Plan, battery: Device, inverters: Sequence[Device]) -> WorkStep | None:
    """Switches and fuses between a battery and its inverter, from the inverter on."""
    ways = [plan.installation.path(each.id, battery.id) for each in inverters]
    parts = [part for way in ways for part in way if part.kind in BREAKS]
    if not parts:
        return None
    words = {"name": battery.name, "switches": ", ".join(part.name for part in parts)}
    key = "dc_off" if len(parts) > 1 else "dc_off_one"
    found = step(plan, f"off.dc-{battery.id}", "make dead", (), key, **words)
    return found._replace(turns=_off(parts), cautions=(plan.say("aftercare.dc_caution"),))


def _panel(plan: Plan, each: Isolation, turned: set[str]) -> WorkStep | None:
    """What else holds off a source of a panel that is opened."""
    kinds = plan.installation.parts
    parts = [kinds[id] for id in each.opened if id not in turned]
    names = {part.name for part in parts}
    told = "; ".join(opens(plan, opening) for opening in each.openings if opening.switch in names)
    if not parts:
        return None
    found = step(plan, f"off.panel-{each.id}", "make dead", (), "panel_off", panel=each.panel, switches=told)
    stops = tuple(plan.say("order.no_switch", source=source) for source in each.live)
    still = (*told_live(plan, each), *(plan.say("order.still_live_source", switch=one) for one in each.guarded))
    return found._replace(turns=_off(parts), first=stops, cautions=still)


def _seen(plan: Plan, id: str, turned: set[str]) -> WorkStep:
    """Each is seen to be open and locked before a cover comes off, and tried."""
    found = step(plan, id, "make dead", (), "seen")
    names = [part.name for part in plan.installation.parts.values() if part.id in turned]
    for device in plan.devices:
        names += [plan.say("aftercare.gate_of", gate=plan.told(device.sheet, gate.name), name=device.name)
                  for gate in device.sheet.gates
                  if gate_id(device.id, gate.name) in turned]  # fmt: skip
    arrays = (part.name for part in plan.installation.of_kind("array") if f"{part.id}/connectors" in turned)
    strings = plan.say("aftercare.string_connectors")
    names += [plan.say("aftercare.gate_of", gate=strings, name=name) for name in arrays]
    readings = tuple(Reading(name, "", plan.say("aftercare.open_locked")) for name in names)
    return found._replace(readings=readings, cautions=(plan.say("aftercare.seen_caution"),))


def _cover_off(plan: Plan, device: Device, cover: str) -> WorkStep:
    words = {"name": device.name, "cover": plan.told(device.sheet, cover)}
    found = step(plan, f"off.{cover_id(device.id, cover)}", "make dead", (), "cover_off", **words)
    kept = (plan.say("aftercare.cells_caution"),) if device.role == "battery" else ()
    return found._replace(takes_off=cover_id(device.id, cover), cautions=kept)


def _leads(plan: Plan, device: Device) -> WorkStep:
    """The leads of modules that no switch holds off: live work until the last is out and capped."""
    found = step(plan, f"off.leads-{device.id}", "make dead", (), "leads", name=device.name)
    turns = tuple(Turn(id, "open") for id in _connectors(device))
    return found._replace(turns=turns, cautions=(plan.say("aftercare.leads_caution"),), people="2")


def _wait(plan: Plan, inverter: Device) -> WorkStep:
    """Charges go: the longest time that its data sheet states."""
    waits = [each.does.time for each in inverter.sheet.steps if each.does is not None and each.does.change == "wait"]
    waits.append(None if inverter.sheet.dc is None else inverter.sheet.dc.discharge_time)
    known = [float(each.number) for each in waits if each is not None]
    time = show(max(known) / SECONDS, "min") if known else plan.say("order.wait_manual")
    found = step(plan, f"off.wait-{inverter.id}", "make dead", (), "wait", name=inverter.name, time=time)
    return found._replace(waited=tuple(terminals(inverter)))


def tested(plan: Plan, told: Sequence[str]) -> tuple[Reading, ...]:
    """The tester proved, every pair, the tester proved again."""
    zero = plan.say("order.no_voltage")
    return (
        Reading(plan.say("order.tester_before"), "V"),
        *(Reading(pair, "V", zero) for pair in told),
        Reading(plan.say("order.tester_after"), "V"),
    )


def _alternating_pairs(plan: Plan) -> tuple[str, ...]:
    return pairs(CONDUCTORS[plan.survey.job.supply.system or MOST])


def _prove(plan: Plan, id: str, name: str, told: Sequence[str], zones: tuple[str, ...]) -> WorkStep:
    found = step(plan, f"off.dead-{id.replace('/', '-')}", "make dead", (), "prove", name=name)
    return found._replace(readings=tested(plan, told), proves=zones, cautions=(plan.say("order.dead_caution"),))


def _prove_panel(plan: Plan, each: Isolation) -> WorkStep:
    lugs = [plan.say("order.dead_lugs", pair=pair, switch=switch) for switch in each.lugs for pair in each.pairs]
    return _prove(plan, each.id, each.panel, [*each.pairs, *lugs], each.terminals)


def _prove_switch(plan: Plan, part: Part) -> WorkStep:
    """Both sides of a switch."""
    told = DIRECT_PAIRS if _is_direct(part) else _alternating_pairs(plan)
    both = [plan.say("aftercare.side", pair=pair, side=side) for side in ("line", "load") for pair in told]
    return _prove(plan, part.id, part.name, both, (f"{part.id}:line", f"{part.id}:load"))


DIRECT_PAIRS = pairs(DIRECT)


def _is_direct(part: Part) -> bool:
    return part.role.startswith("dc_")


def _prove_device(plan: Plan, device: Device) -> WorkStep:
    return _prove(plan, device.id, device.name, list(_pairs_of(plan, device)), tuple(terminals(device)))


def _pairs_of(plan: Plan, device: Device) -> Iterator[str]:
    """Every pair of each side of a device."""
    sides = dict.fromkeys(side for zone in device.sheet.zones for side in zone.sides if side != "cells")
    for side in sides:
        for pair in _alternating_pairs(plan) if side == "ac" else DIRECT_PAIRS:
            yield plan.say(f"aftercare.pair_{side}", pair=pair)
