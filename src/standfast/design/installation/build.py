"""The graph of a job: from the utility through the panels and the battery's circuit to its cells."""

from collections.abc import Mapping

from standfast.design.installation.graph import Installation, Link, LinkKind, Part, PartKind
from standfast.equipment.model import Sheet
from standfast.faults import BadFormula
from standfast.reading import Document
from standfast.sheet import Value
from standfast.survey.model import Job

JobFile = Document[Job]
SheetFile = Document[Sheet]

UTILITY, METER, SERVICE, EARTH = "utility", "meter", "service-disconnect", "grounding-electrode"


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
    for panel in job.ids("panels"):
        _panel(yard, job, panel)
    for unit in battery_ids(job):
        _unit(yard, job, sheets, unit)
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
    yard.join(METER, SERVICE, "conductor", id="service entrance")
    yard.join(SERVICE, EARTH, "bond", id="grounding electrode conductor")


def _panel(yard: _Yard, job: JobFile, id: str) -> None:
    path = f"panels.{id}"
    panel = next(each for each in job.content.panels if each.id == id)
    facts = {
        "busbar": job.fact(f"{path}.busbar", "I_bus", "A"),
        "main": job.fact(f"{path}.main", "I_main", "A"),
        "short_circuit": job.fact(f"{path}.short_circuit_rating", "I_scc", "A"),
        "interrupting": job.fact(f"{path}.breaker_interrupting", "I_cn", "A"),
    }
    existing = panel.state != "new"
    yard.put(id, "busbar", panel.name or id, facts, existing=existing)
    if panel.fed_from in (None, UTILITY):
        yard.join(SERVICE, id, "internal")
    else:
        upstream = job.fact(f"panels.{panel.fed_from}.breaker_interrupting", "I_cn", "A")
        ratings = {"rating": facts["main"], "interrupting": upstream}
        name = f"Feeder breaker of {panel.name or id}"
        feeder = yard.put(f"{id}/feeder-breaker", "breaker", name, ratings, existing=existing)
        yard.join(str(panel.fed_from), feeder, "busbar")
        yard.join(feeder, id, "conductor", id=f"feeder to {id}")
    for circuit in panel.circuits:
        here = f"{path}.circuits.{circuit.id}"
        facts = {
            "rating": job.fact(f"{here}.breaker", "I_n", "A"),
            "interrupting": job.fact(f"{path}.breaker_interrupting", "I_cn", "A"),
        }
        new = circuit.state == "new"
        breaker = yard.put(
            f"{id}/{circuit.id}", "breaker", f"Breaker, {circuit.name or circuit.id}", facts, existing=not new
        )
        load = {"load": job.fact(f"{here}.load", "S_load", "VA")}
        yard.put(f"{id}/{circuit.id}/load", "load", circuit.name or circuit.id, load, existing=not new)
        yard.join(id, breaker, "busbar")
        yard.join(breaker, f"{id}/{circuit.id}/load", "conductor")


def _unit(yard: _Yard, job: JobFile, sheets: Mapping[str, SheetFile], unit: str) -> None:
    number = unit.rpartition("-")[2]
    way = battery_way(job)
    breaker, disconnect = f"{unit}/breaker", f"{unit}/disconnect"
    switch = sheets.get("breaker")
    facts = {} if switch is None else {"interrupting": switch.fact("switch.interrupting", "I_cn_new", "A")}
    yard.put(breaker, "breaker", f"Battery {number} breaker", facts, existing=False)
    yard.join(way[0], breaker, "busbar")
    here = breaker
    if "disconnect" in way:
        isolator = sheets.get("disconnect")
        facts = (
            {} if isolator is None else {"short_circuit": isolator.fact("switch.short_circuit_rating", "I_scc", "A")}
        )
        yard.put(disconnect, "disconnect", f"Battery {number} disconnect", facts, existing=False)
        yard.join(here, disconnect, "conductor", id=_route(job, way[0], "disconnect"))
        here = disconnect
    battery = sheets["battery"]
    output = {
        "output_current": battery.fact("electrical.output_current", "I_out", "A"),
        "fault_contribution": battery.fact("electrical.fault_contribution", "I_sc_batt", "A"),
    }
    energy = {"energy": battery.fact("energy.rated", "E_rated", "kWh")}
    yard.put(f"{unit}/inverter", "inverter", f"Battery {number} inverter", output, existing=False)
    yard.put(unit, "battery", f"Battery {number}", energy, existing=False)
    yard.join(here, f"{unit}/inverter", "conductor", id=_route(job, way[-2], "battery"))
    yard.join(f"{unit}/inverter", unit, "internal")


def battery_way(job: JobFile) -> list[str]:
    """The ends of the routes from the panel that the battery is on to the battery, in order.

    Raises:
        BadFormula: where the routes of the job do not lead there.
    """
    came = {route.to: route.from_ for route in job.content.routes}
    way = ["battery"]
    while way[-1] in came and len(way) <= len(came):
        way.append(came[way[-1]])
    way.reverse()
    if way[0] not in job.ids("panels"):
        raise BadFormula(
            f"{job.file}: no [[routes]] lead from a panel to the battery: the way found is {' – '.join(way)}"
        )
    return way


def _route(job: JobFile, start: str, end: str) -> str:
    return next(route.id for route in job.content.routes if (route.from_, route.to) == (start, end))
