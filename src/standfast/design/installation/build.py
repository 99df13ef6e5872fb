"""The graph of a job: from the utility through the panels and the battery's circuit to its cells."""

from collections.abc import Mapping
from itertools import pairwise

from standfast.design.installation.graph import Installation, Link, LinkKind, Part, PartKind
from standfast.equipment.model import Sheet
from standfast.faults import BadFormula
from standfast.reading import Document
from standfast.sheet import Value
from standfast.survey.model import Job
from standfast.survey.power import Circuit, Panel

JobFile = Document[Job]
SheetFile = Document[Sheet]

UTILITY, METER, SERVICE, EARTH = "utility", "meter", "service-disconnect", "grounding-electrode"
EMERGENCY, SHUTDOWN = "emergency-disconnect", "emergency-shutdown"
BATTERY, DISCONNECT = "battery", "disconnect"
"""Words for the ends of routes, as the job file has them."""


class _Yard:
    """Parts and links as they are put together."""

    def __init__(self) -> None:
        self.parts: list[Part] = []
        self.links: list[Link] = []

    def put(self, id: str, kind: PartKind, name: str, facts: Mapping[str, Value], *, existing: bool) -> str:
        self.parts.append(Part(id, kind, name, facts, existing))
        return id

    def join(self, a: str, b: str, kind: LinkKind, facts: Mapping[str, Value] | None = None, id: str = "") -> None:
        self.links.append(Link(id or f"{a}–{b}", a, b, kind, facts or {}))


def battery_ids(job: JobFile) -> list[str]:
    """The names that the battery units have everywhere: battery-1, battery-2, …"""
    return [f"battery-{number}" for number in range(1, (job.content.equipment.quantity or 1) + 1)]


def way_up(job: JobFile, panel: str) -> list[str]:
    """The panels from one to the service, both included, as far as the job says what feeds them."""
    fed, found = {each.id: each.fed_from for each in job.content.panels}, [panel]
    while True:
        above = fed.get(found[-1])
        if above is None or above not in fed or above in found:
            return found
        found.append(above)


def islanded(job: JobFile) -> list[str]:
    """The panels that an island switch parts from the grid: those it feeds, and those fed from them."""
    parted = {panel.id for panel in job.content.panels if panel.fed_through is not None}
    return [each for each in job.ids("panels") if parted & set(way_up(job, each))]


def is_of_battery(job: JobFile, circuit: Circuit) -> bool:
    """Whether a circuit of a panel is the battery's own: it says so, or has the name of the battery or of a unit."""
    return circuit.feeds == BATTERY or circuit.id in (BATTERY, *battery_ids(job))


def build(job: JobFile, sheets: Mapping[str, SheetFile]) -> Installation:
    """Put the installation of a job together.

    Args:
        job: the job file.
        sheets: data sheets by role: ``battery``, and where chosen ``breaker`` and ``disconnect``.

    Raises:
        BadFormula: where no route of the job leads from a panel to the battery.
    """
    yard = _Yard()
    _service(yard, job)
    for panel in job.content.panels:
        _panel(yard, job, sheets, panel)
    for unit in battery_ids(job):
        _unit(yard, job, sheets, unit)
    yard.put(SHUTDOWN, "shutdown switch", "Emergency shutdown switch", {}, existing=False)
    return Installation(yard.parts, yard.links)


def _service(yard: _Yard, job: JobFile) -> None:
    service = {
        "voltage": job.fact("supply.voltage", "V_LL", "V"),
        "fault_current": job.fact("supply.fault_current", "I_sc", "A"),
    }
    main = {
        "rating": job.fact("supply.main", "I_main", "A"),
        "interrupting": job.fact("supply.main_interrupting", "I_cn_main", "A"),
    }
    yard.put(UTILITY, "utility", "Utility", service, existing=True)
    yard.put(METER, "meter", "Utility meter", {}, existing=True)
    yard.put(SERVICE, "breaker", "Service disconnect", main, existing=True)
    yard.put(EARTH, "electrode", "Grounding electrode system", {}, existing=True)
    yard.join(UTILITY, METER, "conductor", id="service conductors")
    above = METER
    if job.content.supply.emergency_disconnect == "at the meter":
        above = yard.put(EMERGENCY, "disconnect", "Emergency disconnect", {}, existing=True)
        yard.join(METER, above, "internal")
    yard.join(above, SERVICE, "conductor", id="service entrance")
    yard.join(SERVICE, EARTH, "bond", id="grounding electrode conductor")


def feeder_of(job: JobFile, panel: Panel) -> tuple[str, Circuit] | None:
    """The circuit that feeds a panel, and the panel it is in; None where the job names none.

    It is the circuit that says so, else the one of the panel above that has the name of a route to this panel.
    """
    for above in job.content.panels:
        for circuit in above.circuits:
            if circuit.feeds == panel.id:
                return above.id, circuit
    routes = {route.id for route in job.content.routes if panel.id in (route.from_, route.to)}
    for above in job.content.panels:
        for circuit in above.circuits:
            if above.id == panel.fed_from and circuit.id in routes:
                return above.id, circuit
    return None


def _panel(yard: _Yard, job: JobFile, sheets: Mapping[str, SheetFile], panel: Panel) -> None:
    path = f"panels.{panel.id}"
    facts = {
        "busbar": job.fact(f"{path}.busbar", "I_bus", "A"),
        "main": job.fact(f"{path}.main", "I_main", "A"),
        "short_circuit": job.fact(f"{path}.short_circuit_rating", "I_scc", "A"),
    }
    yard.put(panel.id, "busbar", panel.name or panel.id, facts, existing=panel.state != "new")
    if feeder_of(job, panel) is None:
        if panel.fed_from in (None, UTILITY):
            yard.join(SERVICE, panel.id, "internal")
        else:
            yard.join(panel.fed_from, panel.id, "conductor", id=_route(job, panel.fed_from, panel.id))
    for circuit in panel.circuits:
        if not is_of_battery(job, circuit):
            _circuit(yard, job, sheets, panel, circuit)


def _circuit(yard: _Yard, job: JobFile, sheets: Mapping[str, SheetFile], panel: Panel, circuit: Circuit) -> None:
    """A breaker and what it feeds: a load, a source that is there already, or another panel."""
    here = f"panels.{panel.id}.circuits.{circuit.id}"
    name, existing = circuit.name or circuit.id, circuit.state != "new"
    facts = {
        "rating": job.fact(f"{here}.breaker", "I_n", "A"),
        "interrupting": job.fact(f"panels.{panel.id}.breaker_interrupting", "I_cn", "A"),
    }
    fed = next((each for each in job.content.panels if feeder_of(job, each) == (panel.id, circuit)), None)
    if fed is not None and not existing:
        facts |= _facts(sheets, "breaker", "switch.interrupting", "interrupting", "I_cn_new")
    title = f"{name} breaker" if fed is None else f"{fed.name or fed.id} feeder breaker"
    breaker = yard.put(f"{panel.id}/{circuit.id}", "breaker", title, facts, existing=existing)
    yard.join(panel.id, breaker, "busbar")
    if fed is not None:
        _feeder(yard, job, breaker, panel, fed, existing=existing)
    elif circuit.source_output is not None:
        output = {"output_current": job.fact(f"{here}.source_output", "I_out", "A")}
        source = yard.put(f"{panel.id}/{circuit.id}/source", "inverter", name, output, existing=existing)
        yard.join(breaker, source, "conductor")
    else:
        load = {"load": job.fact(f"{here}.load", "S_load", "VA")}
        beyond = yard.put(f"{panel.id}/{circuit.id}/load", "load", name, load, existing=existing)
        yard.join(breaker, beyond, "conductor")


def _feeder(yard: _Yard, job: JobFile, breaker: str, panel: Panel, fed: Panel, *, existing: bool) -> None:
    """From a breaker to the panel that it feeds, through an island switch where there is one."""
    if fed.fed_through == "island switch":
        island = yard.put(f"{fed.id}/island-switch", "transfer equipment", "Island switch", {}, existing=existing)
        yard.join(breaker, island, "conductor", id=_route(job, panel.id, fed.id))
        breaker = island
    yard.join(breaker, fed.id, "conductor", id=f"{_route(job, panel.id, fed.id)}, load side")


def _unit(yard: _Yard, job: JobFile, sheets: Mapping[str, SheetFile], unit: str) -> None:
    number = unit.rpartition("-")[2]
    try:
        way = battery_way(job)
    except BadFormula:  # where it is joined is not known: the wiring says so, and nothing else waits for it
        way = ["", BATTERY]
    facts = _facts(sheets, "breaker", "switch.interrupting", "interrupting", "I_cn_new")
    here = yard.put(f"{unit}/breaker", "breaker", f"Battery {number} breaker", facts, existing=False)
    if way[0]:
        yard.join(way[0], here, "busbar")
    for start, end in pairwise(way):
        if end == DISCONNECT:
            facts = _facts(sheets, "disconnect", "switch.short_circuit_rating", "short_circuit", "I_scc_disconnect")
            name = f"Battery {number} disconnect"
            there = yard.put(f"{unit}/disconnect", "disconnect", name, facts, existing=False)
        else:
            there = yard.put(
                f"{unit}/inverter", "inverter", f"Battery {number} inverter", _output(sheets), existing=False
            )
        yard.join(here, there, "conductor", id=_route(job, start, end))
        here = there
    facts = _facts(sheets, "battery", "energy.rated", "energy", "E_rated", "kWh")
    facts |= _facts(sheets, "battery", "electrical.dc_voltage_max", "dc_voltage", "U_dc", "V")
    yard.put(unit, "battery", f"Battery {number}", facts, existing=False)
    yard.join(here, unit, "internal")


def _output(sheets: Mapping[str, SheetFile]) -> dict[str, Value]:
    current = _facts(sheets, "battery", "electrical.output_current", "output_current", "I_out")
    current |= _facts(sheets, "battery", "electrical.ac_voltage", "ac_voltage", "U_ac", "V")
    return current | _facts(sheets, "battery", "electrical.fault_contribution", "fault_contribution", "I_sc_batt")


def _facts(
    sheets: Mapping[str, SheetFile], role: str, path: str, name: str, symbol: str, unit: str = "A"
) -> dict[str, Value]:
    """One fact of a chosen sheet by its name in the graph; nothing where no sheet was chosen for the role."""
    return {name: sheets[role].fact(path, symbol, unit)} if role in sheets else {}


def battery_way(job: JobFile) -> list[str]:
    """The ends of the routes from the panel that the battery is on to the battery, in order: a route may be written
    from either end.

    Raises:
        BadFormula: where the routes of the job do not lead there.
    """
    way, left = [BATTERY], list(job.content.routes)
    panels = job.ids("panels")
    while way[-1] not in panels:
        found = next((route for route in left if way[-1] in (route.from_, route.to)), None)
        if found is None:
            trail = " – ".join(way)
            raise BadFormula(f"{job.file}: no [[routes]] lead from the battery to a panel; the way ends after {trail}")
        left.remove(found)
        way.append(found.to if found.from_ == way[-1] else found.from_)
    way.reverse()
    return way


def _route(job: JobFile, start: str, end: str) -> str:
    """The route between two ends, by its id; a name made of both where the job has none."""
    ends = {start, end}
    return next((route.id for route in job.content.routes if {route.from_, route.to} == ends), f"{start} to {end}")
