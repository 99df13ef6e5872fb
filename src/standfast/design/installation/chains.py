"""From a panel to the cells: the circuit of every AC source, and behind an inverter of its own its DC side.

A unit with an inverter inside stands behind its own breaker. An inverter that stands by itself has one circuit; battery
units and PV arrays are joined to it by DC conductors.
"""

from itertools import pairwise

from standfast.design.installation.graph import PartKind
from standfast.design.installation.yard import JobFile, Yard
from standfast.faults import BadFormula
from standfast.sheet import Value
from standfast.survey.joined import INVERTER, SERVICE_TAP, Way, has_inverter, unit_ids, way


def sources(yard: Yard) -> None:
    """Every source that the job adds, with all that is joined to it."""
    job = yard.job
    if not has_inverter(job.content):
        for unit in unit_ids(job.content):
            _circuit(yard, unit, f"{unit}/inverter", f"Battery {_number(unit)}", "battery")
            _battery(yard, unit)
            yard.join(f"{unit}/inverter", unit, "internal")
        return
    _circuit(yard, INVERTER, INVERTER, "Inverter", "inverter")
    for unit in unit_ids(job.content):
        _battery(yard, unit)
    joined: set[str] = set()
    for unit in unit_ids(job.content):
        _dc_run(yard, unit, joined)
    _arrays(yard)


def panel_way(job: JobFile, source: str) -> Way | None:
    """The devices from a panel, or the service, to a source in order, and the routes between; None where none lead."""
    found = way(job.content, source, [*job.ids("panels"), SERVICE_TAP])
    return None if found is None else Way(found.devices[::-1], found.routes[::-1])


def _circuit(yard: Yard, source: str, inverter: str, name: str, role: str) -> None:
    """Breaker, disconnect and inverter of one source."""
    found = panel_way(yard.job, source)  # where it is joined is not known: the wiring says so, and nothing waits for it
    facts = yard.fact("breaker", "switch.interrupting", "interrupting", "I_cn_new")
    here = yard.put(f"{source}/breaker", "breaker", f"{name} breaker", facts, existing=False, role="breaker")
    titled = f"{name} inverter" if inverter != source else name
    if found is None:
        there = yard.put(inverter, "inverter", titled, _output(yard, role), existing=False, role=role)
        yard.join(here, there, "conductor", id=f"panel to {source}")
        return
    if found.devices[0] == SERVICE_TAP:
        _ahead_of_service(yard, source, found, here)
        here, found = _begin(source, found, here)
    else:
        yard.join(found.devices[0], here, "busbar")
    for end, route in zip(found.devices[1:], found.routes, strict=True):
        if end == source:
            there = yard.put(inverter, "inverter", titled, _output(yard, role), existing=False, role=role)
        elif end == f"{source}/disconnect":
            facts = yard.fact("disconnect", "switch.short_circuit_rating", "short_circuit", "I_scc_disconnect")
            switch = f"{name} {'isolator' if yard.metric else 'disconnect'}"
            there = yard.put(end, "disconnect", switch, facts, existing=False, role="disconnect")
        else:
            raise BadFormula(f"{yard.job.file}: the routes from a panel to {source} lead through {end}")
        yard.join(here, there, "conductor", id=route)
        here = there


def _ahead_of_service(yard: Yard, source: str, found: Way, breaker: str) -> None:
    """From the service conductors to the overcurrent device of the source, which stands in its own disconnect."""
    above = next(link.a for link in yard.links if link.id == "service entrance")
    if found.devices[1] != f"{source}/disconnect":
        yard.join(above, breaker, "conductor", id=f"service-tap to {source}")
        return
    facts = yard.fact("disconnect", "switch.short_circuit_rating", "short_circuit", "I_scc_disconnect")
    name = f"{'Inverter' if source == INVERTER else f'Battery {_number(source)}'} service disconnect"
    own = yard.put(found.devices[1], "disconnect", name, facts, existing=False, role="disconnect")
    yard.join(above, own, "conductor", id=found.routes[0])
    yard.join(own, breaker, "internal")


def _begin(source: str, found: Way, breaker: str) -> tuple[str, Way]:
    """Where the rest of such a circuit begins: at its overcurrent device, and what is left of its way."""
    passed = 1 if found.devices[1] == f"{source}/disconnect" else 0
    return breaker, Way(found.devices[passed:], found.routes[passed:])


def _output(yard: Yard, role: str) -> dict[str, Value]:
    current = yard.fact(role, "electrical.output_current", "output_current", "I_out")
    current |= yard.fact(role, "electrical.ac_voltage", "ac_voltage", "U_ac", "V")
    return current | yard.fact(role, "electrical.fault_contribution", "fault_contribution", "I_sc_batt")


def _battery(yard: Yard, unit: str) -> None:
    """The cells, and the fuse or breaker of their DC conductors where one was chosen."""
    facts = yard.fact("battery", "energy.rated", "energy", "E_rated", "kWh")
    port = "battery" in yard.sheets and yard.sheets["battery"].content.dc is not None
    highest = "dc.voltage_max" if port else "electrical.dc_voltage_max"
    facts |= yard.fact("battery", highest, "dc_voltage", "U_dc", "V")
    yard.put(unit, "battery", f"Battery {_number(unit)}", facts, existing=False, role="battery")
    if has_inverter(yard.job.content) and yard.job.content.equipment.dc_overcurrent is not None:
        sheet = yard.sheets.get("dc_overcurrent")
        fuse = sheet is None or sheet.content.kind == "fuse"
        name = f"Battery {_number(unit)} DC {'fuse' if fuse else 'breaker'}"
        facts = yard.fact("dc_overcurrent", "switch.dc_interrupting", "interrupting", "I_cn_dc")
        kind: PartKind = "fuse" if fuse else "breaker"
        yard.put(f"{unit}/dc-overcurrent", kind, name, facts, existing=False, role="dc_overcurrent")
        if not _placed_fuse(yard, unit):
            yard.join(f"{unit}/dc-overcurrent", unit, "internal")


def _dc_run(yard: Yard, unit: str, joined: set[str]) -> None:
    """From a battery to the inverter: each route once, however many batteries share it."""
    found = way(yard.job.content, unit, [INVERTER])
    if found is None:
        yard.join(INVERTER, _door(yard, unit), "conductor", id=f"inverter to {unit}")
        return
    ways = list(zip(pairwise(found.devices), found.routes, strict=True))
    for (far, near), route in reversed(ways):
        if route in joined:
            continue
        joined.add(route)
        for device in (far, near):
            if device.endswith("/dc-disconnect"):
                _dc_disconnect(yard, device)
        yard.join(_door(yard, near), _door(yard, far), "conductor", id=route)


def _dc_disconnect(yard: Yard, id: str) -> None:
    if any(part.id == id for part in yard.parts):
        return
    owner = id.partition("/")[0]
    name = "DC disconnect" if owner == INVERTER else f"Battery {_number(owner)} DC disconnect"
    yard.put(id, "disconnect", name, {}, existing=False, role="dc_disconnect")


def _placed_fuse(yard: Yard, unit: str) -> bool:
    """Whether routes lead through the fuse of a battery, so that it stands by itself."""
    found = way(yard.job.content, unit, [INVERTER])
    return found is not None and f"{unit}/dc-overcurrent" in found.devices


def _door(yard: Yard, device: str) -> str:
    """Where conductors reach a device: the fuse of a battery that has one, as long as no route says where it is."""
    fuse = f"{device}/dc-overcurrent"
    there = any(part.id == fuse for part in yard.parts)
    return fuse if there and not _placed_fuse(yard, device) else device


def _arrays(yard: Yard) -> None:
    for array in yard.job.content.arrays:
        shut = yard.job.fact(f"arrays.{array.id}.rapid_shutdown", "rapid_shutdown")
        facts = {"rapid_shutdown": shut}
        yard.put(array.id, "array", array.name or array.id, facts, existing=array.state != "new")
        found = way(yard.job.content, array.id, [INVERTER])
        direct = found is not None and len(found.routes) == 1
        yard.join(
            INVERTER, array.id, "conductor", id=found.routes[0] if found and direct else f"{array.id} to inverter"
        )


def _number(unit: str) -> str:
    return unit.rpartition("-")[2]
