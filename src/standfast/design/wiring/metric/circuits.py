"""The circuits that a metric job builds: those of its sources, and the feeders of panels, from the origin outwards."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.design.installation.build import feeder_of, way_up
from standfast.design.wiring.metric import cable, loops, voltage
from standfast.design.wiring.metric.built import MetricCircuit
from standfast.design.wiring.metric.cable import Carried
from standfast.design.wiring.metric.question import UTILITY, Question
from standfast.design.wiring.metric.runs import Runs, between, of_routes, to_panel, unsaid
from standfast.design.wiring.metric.voltage import Stretch
from standfast.sheet import Value, attempt, chosen, missing, total, worst
from standfast.survey.joined import source_ids
from standfast.survey.power import Circuit, Panel


class Source(NamedTuple):
    """A source that the job adds or finds.

    Attributes:
        id: its name; of one that is there already, panel and circuit.
        panel: the panel that it feeds; empty where nobody said.
        output: rated output in A.
        charge: greatest input in A; zero of what only gives.
        added: true where this job adds it.
    """

    id: str
    panel: str
    output: Value
    charge: Value
    added: bool


class Asked(NamedTuple):
    """A circuit before its cable is known.

    Attributes:
        id: of the circuit.
        title: what people call it.
        panel: the panel that it begins in.
        at: the circuit of the job that its device belongs to, as a path; empty where the job lists none.
        runs: its runs.
        system: ``single phase`` or ``three phase``.
        I_b: design current in A.
        I_n: rating of its device in A.
        down: current in A that it draws for the fall of voltage.
        up: current in A that sources drive through it towards the grid; None for no source.
        final: true where it ends in equipment and not in a panel.
    """

    id: str
    title: str
    panel: str
    at: str
    runs: Runs
    system: str
    I_b: Value
    I_n: Value
    down: Value
    up: Value | None
    final: bool


def sources(q: Question) -> list[Source]:
    """Every source: what the job adds, then power sources that are on the panels already."""
    found = [_added(q, each) for each in source_ids(q.job.content)]
    for panel in q.job.content.panels:
        for circuit in panel.circuits:
            added = any(each.panel == panel.id and _is(q, circuit, each.id) for each in found)
            if circuit.source_output is not None and not added and q.circuit_of_source(circuit) == "":
                path = f"panels.{panel.id}.circuits.{circuit.id}"
                output = q.job.fact(f"{path}.source_output", "I_out", "A")
                nothing = chosen("I_charge", 0.0, "A", "it only gives", None, output)
                found.append(Source(f"{panel.id}/{circuit.id}", panel.id, output, nothing, added=False))
    return found


def _is(q: Question, circuit: Circuit, source: str) -> bool:
    own = q.circuit_of(source)
    return own is not None and own[1] is circuit


def _added(q: Question, source: str) -> Source:
    return Source(source, panel_of(q, source), q.own("output_current", "I_out", "A"),
                  q.own("charge_current", "I_charge", "A"), added=True)  # fmt: skip


def panel_of(q: Question, source: str) -> str:
    """The panel that a source is joined to, by routes or by the circuit listed for it; empty where nobody said."""
    found = to_panel(q, source)
    if found is not None:
        return found.devices[-1]
    listed = q.circuit_of(source)
    return "" if listed is None else listed[0]


def system(q: Question) -> str:
    """The system of the circuits of sources: by their phases, and single phase in a house that has no other."""
    phases = q.own("phases", "n_phase", "1")
    if phases.missing:
        return "single phase"
    return "three phase" if phases.quantity == THREE else "single phase"


THREE = 3.0


def all_of(q: Question) -> list[MetricCircuit]:
    """Every circuit that sources feed through or end in, those nearest to the origin first."""
    every = sources(q)
    built: dict[str, MetricCircuit] = {}
    ways: dict[str, list[tuple[Stretch, Value, Value | None]]] = {}
    for panel in _outwards(q, every):
        asked = _feeder(q, panel, every)
        if asked is not None:
            built[asked.id], ways[panel.id] = _build(q, asked, ways.get(panel.fed_from or "", []))
        else:
            ways[panel.id] = []
    found: list[MetricCircuit] = []
    for each in every:
        if each.added and each.panel:
            asked = _of_source(q, each)
            found.append(_build(q, asked, ways.get(each.panel, []))[0])
    return [*found, *built.values()]


def _outwards(q: Question, every: Sequence[Source]) -> Iterator[Panel]:
    """The panels on the way of any source, from the origin outwards."""
    on_way = [each for source in every if source.panel for each in way_up(q.job, source.panel)]
    ordered = sorted(dict.fromkeys(on_way), key=lambda id: len(way_up(q.job, id)))
    return (q.panel(id) for id in ordered)


def beyond(q: Question, panel: str, every: Sequence[Source]) -> list[Source]:
    """The sources on a panel and on those fed from it."""
    return [each for each in every if each.panel and panel in way_up(q.job, each.panel)]


def _feeder(q: Question, panel: Panel, every: Sequence[Source]) -> Asked | None:
    """The circuit that feeds a panel; None for the one at the origin.

    Of a panel of which nobody said what feeds it, one of which nothing is known.
    """
    if panel.fed_from == UTILITY:
        return None
    if panel.fed_from is None:
        need = f"panels.{panel.id}.fed_from: what feeds it, another panel or utility"
        unknown = missing("I_n", "A", need)
        runs, title, of = unsaid(UTILITY, panel.id), f"Feeder of {panel.name or panel.id}", _system_of(q)
        return Asked(f"feed of {panel.id}", title, panel.id, "", runs, of, unknown, unknown, unknown, unknown, False)
    named = feeder_of(q.job, panel)
    at = "" if named is None else f"panels.{named[0]}.circuits.{named[1].id}"
    need = f"panels.{panel.fed_from}.circuits: the circuit that feeds {panel.id}, with its breaker"
    I_n = q.job.fact(f"{at}.breaker", "I_n", "A") if at else missing("I_n", "A", need)
    I_b = chosen("I_b", 0.0 if I_n.missing else I_n.quantity, "A", "as much as its device lets through", None, I_n)
    up = total("I_out_all", [each.output for each in beyond(q, panel.id, every)], "A")
    id = named[1].id if named is not None else f"{panel.fed_from} to {panel.id}"
    runs = between(q, panel.fed_from or "", panel.id)
    return Asked(id, f"Feeder of {panel.name or panel.id}", panel.fed_from or "", at, runs, _system_of(q), I_b, I_n,
                 I_b, up, final=False)  # fmt: skip


def _system_of(q: Question) -> str:
    return "three phase" if q.job.content.supply.system == "230/400 V three-phase" else "single phase"


def _of_source(q: Question, source: Source) -> Asked:
    """The circuit between a source and its panel."""
    found, listed = to_panel(q, source.id), q.circuit_of(source.id)
    runs = of_routes(q, found.routes) if found is not None and found.routes else unsaid(source.panel, source.id)
    at = "" if listed is None else f"panels.{listed[0]}.circuits.{listed[1].id}"
    I_b = worst("I_b", [source.output, source.charge], "max", q.clause("current"))
    name = "inverter" if q.role == "inverter" else source.id.replace("-", " ")
    return Asked(source.id, f"Circuit of {name}", source.panel, at, runs, system(q), I_b, _device(q, at, I_b),
                 source.charge, source.output, final=True)  # fmt: skip


def _device(q: Question, at: str, I_b: Value) -> Value:
    """The device that the job states, else the least of its family that carries the design current."""
    if at and q.job.has(f"{at}.breaker"):
        return q.job.fact(f"{at}.breaker", "I_n", "A")
    need = f"{at or 'panels'}: breaker of this circuit"
    sheet = q.sheets.get("breaker")
    if I_b.missing or sheet is None or sheet.content.switch is None:
        return missing("I_n", "A", need if not I_b.missing else I_b.how, I_b)
    steps = sorted(float(each.number) for each in sheet.content.switch.ratings)
    step = next((each for each in steps if each >= I_b.quantity), None)
    if step is None:
        return missing("I_n", "A", f"{sheet.file}: no rating reaches {I_b.quantity:g} A", I_b)
    return chosen("I_n", step, "A", "the least of its family that carries the design current", None, I_b)


def _build(
    q: Question, asked: Asked, above: Sequence[tuple[Stretch, Value, Value | None]]
) -> tuple[MetricCircuit, list[tuple[Stretch, Value, Value | None]]]:
    """A circuit with its cable, and the way from the origin to its far end."""

    def fits(area: Value) -> bool:
        trial = cable.carried(q, asked.runs, asked.system, area)
        if trial.I_z.missing or asked.I_n.missing or trial.I_z.quantity < asked.I_n.quantity:
            return asked.I_n.missing
        return all(_within(value, limit) for value, limit in _changes(q, _way(asked, area, trial, above)))

    area = cable.least_area(q, asked.runs, asked.system, fits)
    carried = cable.carried(q, asked.runs, asked.system, area)
    way = _way(asked, area, carried, above)
    (drop, _), *rest = _changes(q, way)
    made = _made(q, asked, area, carried, drop, rest[0][0] if rest else None)
    r_above = [loops.line_and_return(q, each[0].runs, each[0].area, _protective(q, each[0].runs, each[0].area))
               for each in above]  # fmt: skip
    return made._replace(loop=loops.of_circuit(q, made, r_above, final=asked.final)), way


def _way(
    asked: Asked, area: Value, carried: Carried, above: Sequence[tuple[Stretch, Value, Value | None]]
) -> list[tuple[Stretch, Value, Value | None]]:
    return [*above, (Stretch(asked.runs, asked.system, area, carried), asked.down, asked.up)]


def _changes(q: Question, way: Sequence[tuple[Stretch, Value, Value | None]]) -> list[tuple[Value, Value]]:
    """Drop, and rise where a source feeds through the last stretch, each with its limit."""
    limit = attempt("u_limit", "%", lambda: q.dialect.drop_limit(q))
    found = [(voltage.percent(q, "u_drop", [(stretch, down) for stretch, down, _ in way]), limit)]
    if way[-1][2] is not None:
        up = [(stretch, out) for stretch, _, out in way if out is not None]
        most = attempt("u_rise_limit", "%", lambda: q.dialect.rise_limit(q))
        found.append((voltage.percent(q, "u_rise", up), most))
    return found


def _within(value: Value, limit: Value) -> bool:
    return value.missing or limit.missing or value.quantity <= limit.quantity


def _protective(q: Question, runs: Runs, area: Value) -> Value:
    """The protective conductor that the job states, else the one that goes with the cable."""
    if runs.protective is not None:
        return runs.protective
    unknown = next((each for each in (runs.cable, area) if each.missing), None)
    if unknown is not None:
        return missing("S_p", "mm2", unknown.how, unknown)
    return attempt("S_p", "mm2", lambda: q.dialect.protective(q, runs.cable.word, area))


def _made(
    q: Question, asked: Asked, area: Value, carried: Carried, drop: Value, rise: Value | None
) -> MetricCircuit:  # fmt: skip
    protective = _protective(q, asked.runs, area)
    r_12 = loops.line_and_return(q, asked.runs, area, protective)
    said = loops.device(q, asked.at, new=asked.runs.new)
    links = asked.runs.routes
    return MetricCircuit(
        asked.id, asked.title, asked.panel, links, asked.runs.new, said["device"], said["curve"], said["poles"],
        asked.runs.cable, area, protective, carried.method, dict(carried.factors), asked.I_b, asked.I_n, carried.I_t,
        carried.I_z, asked.runs.longest, drop, rise, r_12, loops.UNKNOWN,
    )  # fmt: skip
