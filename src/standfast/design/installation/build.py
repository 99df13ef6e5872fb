"""The graph of a job: from the utility through the panels and the battery's circuit to its cells."""

from collections.abc import Mapping

from standfast.design.installation.chains import panel_way, sources
from standfast.design.installation.graph import Installation
from standfast.design.installation.yard import JobFile, SheetFile, Sheets, Yard
from standfast.faults import BadFormula
from standfast.survey.joined import devices, owner
from standfast.survey.model import Job
from standfast.survey.power import Circuit, Panel

__all__ = [
    "JobFile", "SheetFile", "battery_way", "below", "build", "feeder_of", "feeders", "is_of_battery", "islanded",
    "way_up",
]  # fmt: skip

UTILITY, METER, SERVICE, EARTH = "utility", "meter", "service-disconnect", "grounding-electrode"
GROUND_RUN = "grounding electrode conductor"
SUPPLY_NAME = {False: "Utility", True: "Supply network"}
METER_NAME = {False: "Utility meter", True: "Supply meter"}
SERVICE_NAME = {False: "Service disconnect", True: "Main switch"}
EARTH_NAME = {False: "Grounding electrode system", True: "Earth electrode"}
"""Names by whether the supply is one of metric countries: what people there call it."""
EMERGENCY, SHUTDOWN = "emergency-disconnect", "emergency-shutdown"


def way_up(job: JobFile, panel: str) -> list[str]:
    """The panels from one to the service, both included, as far as the job says what feeds them.

    A panel on a tap of another's feeder has that other one beside it and not above.
    """
    return _climb(job.once(_fed_from), panel)


def below(job: JobFile, panel: str) -> list[str]:
    """A panel and every panel that is fed from it, directly or through others, in the order of the file."""
    fed = job.once(_fed_from)
    return [each.id for each in job.content.panels if panel in _climb(fed, each.id)]


def _fed_from(job: Job) -> dict[str, str | None]:
    """By panel, the panel above it, as it says or its breaker does; what is no panel stays as the job writes it."""
    said = {circuit.feeds: above.id for above in job.panels for circuit in above.circuits}
    fed = {each.id: said.get(each.id) if each.fed_from is None else each.fed_from for each in job.panels}
    taps = [each for each in job.panels if each.fed_by == "tap"]
    return fed | {each.id: fed[each.fed_from] for each in taps if each.fed_from in fed}  # a tap passes that busbar by


def _climb(fed: Mapping[str, str | None], panel: str) -> list[str]:
    found = [panel]
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
    """Whether a circuit of a panel is that of a source which this job adds: it says so, or has the name of one."""
    return owner(job.content, circuit) != ""


def build(job: JobFile, sheets: Sheets) -> Installation:
    """Put the installation of a job together.

    Args:
        job: the job file.
        sheets: data sheets by role: ``battery``, and where chosen ``inverter``, ``breaker``, ``disconnect``,
            ``dc_disconnect`` and ``dc_overcurrent``.

    Raises:
        BadFormula: where the routes of a source lead through what is no part of its circuit.
    """
    yard, fed = Yard(job, sheets), feeders(job)
    beyond = {(fed[each.id][0], fed[each.id][1].id): each for each in job.content.panels if each.id in fed}
    _service(yard)
    for panel in job.content.panels:
        _panel(yard, panel, joined=panel.id in fed)
        for circuit in panel.circuits:
            if not is_of_battery(job, circuit):
                _circuit(yard, panel, circuit, beyond.get((panel.id, circuit.id)))
    sources(yard)
    yard.put(SHUTDOWN, "shutdown switch", "Emergency shutdown switch", {}, existing=False)
    return yard.done()


def _service(yard: Yard) -> None:
    job = yard.job
    service = {
        "voltage": job.fact("supply.voltage", "V_LL", "V"),
        "fault_current": job.fact("supply.fault_current", "I_sc", "A"),
    }
    main = {
        "rating": job.fact("supply.main", "I_main", "A"),
        "interrupting": job.fact("supply.main_interrupting", "I_cn_main", "A"),
    }
    yard.put(UTILITY, "utility", SUPPLY_NAME[yard.metric], service, existing=True)
    yard.put(METER, "meter", METER_NAME[yard.metric], {}, existing=True)
    yard.put(SERVICE, "breaker", SERVICE_NAME[yard.metric], main, existing=True)
    yard.put(EARTH, "electrode", EARTH_NAME[yard.metric], {}, existing=True)
    yard.join(UTILITY, METER, "conductor", id="service conductors")
    above = METER
    if job.content.supply.emergency_disconnect == "at the meter":
        above = yard.put(EMERGENCY, "disconnect", "Emergency disconnect", {}, existing=True)
        yard.join(METER, above, "internal")
    yard.join(above, SERVICE, "conductor", id="service entrance")
    yard.join(SERVICE, EARTH, "bond", id=GROUND_RUN)


def feeder_of(job: JobFile, panel: Panel) -> tuple[str, Circuit] | None:
    """The circuit that feeds a panel, and the panel it is in; None where the job names none. Of many: `feeders`."""
    return feeders(job).get(panel.id)


def feeders(job: JobFile) -> dict[str, tuple[str, Circuit]]:
    """By panel, the circuit that feeds it and the panel that circuit is in; a panel without one is left out.

    It is the circuit that says so, else the one of the panel above that has the name of a route to this panel.
    """
    return job.once(_feeders)


def _feeders(job: Job) -> dict[str, tuple[str, Circuit]]:
    fed_from = {panel.id: panel.fed_from for panel in job.panels}
    ends = {route.id: (route.from_, route.to) for route in job.routes}
    said, named = dict[str, tuple[str, Circuit]](), dict[str, tuple[str, Circuit]]()
    for above in job.panels:
        for circuit in above.circuits:
            if circuit.feeds in fed_from:
                said.setdefault(circuit.feeds, (above.id, circuit))
            for end in ends.get(circuit.id, ()):
                if end in fed_from and fed_from[end] == above.id:
                    named.setdefault(end, (above.id, circuit))
    return named | said


def _panel(yard: Yard, panel: Panel, *, joined: bool) -> None:
    """A busbar and what earths it; `joined` where a circuit feeds it, which then joins it to the panel above."""
    job = yard.job
    path = f"panels.{panel.id}"
    facts = {
        "busbar": job.fact(f"{path}.busbar", "I_bus", "A"),
        "main": job.fact(f"{path}.main", "I_main", "A"),
        "short_circuit": job.fact(f"{path}.short_circuit_rating", "I_scc", "A"),
    }
    if panel.main_lugs is not None:
        facts["main_lugs"] = job.fact(f"{path}.main_lugs", "main_lugs")
    yard.put(panel.id, "busbar", panel.name or panel.id, facts, existing=panel.state != "new")
    if panel.fed_by == "tap" and panel.fed_from is not None:
        yard.join(_tapped(job, panel.fed_from), panel.id, "conductor", id=_route(job, panel.fed_from, panel.id))
    elif not joined:
        if panel.fed_from in (None, UTILITY):
            yard.join(SERVICE, panel.id, "internal")
        else:
            yard.join(panel.fed_from, panel.id, "conductor", id=_route(job, panel.fed_from, panel.id))
    if panel.building is not None:
        name = f"Grounding electrodes at the {panel.name or panel.id}"
        earth = yard.put(f"{panel.id}/{EARTH}", "electrode", name, {}, existing=bool(panel.electrodes))
        yard.join(panel.id, earth, "bond", id=f"{GROUND_RUN}, {panel.id}")


def _tapped(job: JobFile, panel: str) -> str:
    """Where the feeder of a panel begins: its breaker, or the service disconnect; a tap hangs on its load side."""
    found = next((feeder_of(job, each) for each in job.content.panels if each.id == panel), None)
    return SERVICE if found is None else f"{found[0]}/{found[1].id}"


def _circuit(yard: Yard, panel: Panel, circuit: Circuit, fed: Panel | None) -> None:
    """A breaker and what it feeds: a load, a source that is there already, or the panel `fed`."""
    job = yard.job
    here = f"panels.{panel.id}.circuits.{circuit.id}"
    name, existing = circuit.name or circuit.id, circuit.state != "new"
    facts = {
        "rating": job.fact(f"{here}.breaker", "I_n", "A"),
        "interrupting": job.fact(f"panels.{panel.id}.breaker_interrupting", "I_cn", "A"),
    }
    if fed is not None and not existing:
        facts |= yard.fact("breaker", "switch.interrupting", "interrupting", "I_cn_new")
    title = f"{name} breaker" if fed is None else f"{fed.name or fed.id} feeder breaker"
    role = "" if existing else "breaker"
    breaker = yard.put(f"{panel.id}/{circuit.id}", "breaker", title, facts, existing=existing, role=role)
    yard.join(panel.id, breaker, "busbar")
    if fed is not None:
        _feeder(yard, breaker, panel, fed, existing=existing)
    elif circuit.feeds in job.ids("generators"):
        _generator(yard, breaker, circuit.feeds)
    elif circuit.source_output is not None:
        output = {"output_current": job.fact(f"{here}.source_output", "I_out", "A")}
        source = yard.put(f"{panel.id}/{circuit.id}/source", "inverter", name, output, existing=existing)
        yard.join(breaker, source, "conductor")
    else:
        load = {"load": job.fact(f"{here}.load", "S_load", "VA")}
        beyond = yard.put(f"{panel.id}/{circuit.id}/load", "load", name, load, existing=existing)
        yard.join(breaker, beyond, "conductor")


def _generator(yard: Yard, breaker: str, id: str | None) -> None:
    """A generator behind its breaker; what joins it to the graph is that breaker alone."""
    job = yard.job
    each = next(generator for generator in job.content.generators if generator.id == id)
    path = f"generators.{each.id}"
    facts = {
        "output_current": job.fact(f"{path}.output", "I_gen", "A"),
        "fault_contribution": job.fact(f"{path}.fault_contribution", "I_sc_gen", "A"),
    }
    if any(part.id == each.id for part in yard.parts):  # a second circuit that feeds it: told by the reader
        return
    yard.put(each.id, "generator", each.name or each.id, facts, existing=each.state != "new")
    yard.join(breaker, each.id, "conductor", id=_route(job, breaker.partition("/")[0], each.id))


def _feeder(yard: Yard, breaker: str, panel: Panel, fed: Panel, *, existing: bool) -> None:
    """From a breaker to the panel that it feeds, through an island switch where there is one."""
    job = yard.job
    if fed.fed_through == "island switch":
        island = yard.put(
            f"{fed.id}/island-switch",
            "transfer equipment",
            "Island switch",
            {},
            existing=existing,
            role="island_switch",
        )
        yard.join(breaker, island, "conductor", id=_route(job, panel.id, fed.id))
        breaker = island
    yard.join(breaker, fed.id, "conductor", id=f"{_route(job, panel.id, fed.id)}, load side")


def battery_way(job: JobFile, unit: str = "battery-1") -> list[str]:
    """The ends of the routes from a panel to a battery unit, in order, as the job file words them.

    Raises:
        BadFormula: where the routes of the job do not lead there.
    """
    found = panel_way(job, unit)
    if found is None:
        raise BadFormula(f"{job.file}: no [[routes]] lead from {unit} to a panel")
    words = {device: word for word, device in devices(job.content).items()}
    return [words.get(each, each) for each in found.devices]


def _route(job: JobFile, start: str, end: str) -> str:
    """The route between two ends, by its id; a name made of both where the job has none."""
    ends = {start, end}
    return next((route.id for route in job.content.routes if {route.from_, route.to} == ends), f"{start} to {end}")
