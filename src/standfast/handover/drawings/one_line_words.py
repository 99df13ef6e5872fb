"""What the one-line diagram says beside its symbols: ratings, fault currents, conductors, grounding, notes.

A rating that nobody surveyed is printed as not known; nothing is left out because it is missing.
"""

from collections.abc import Iterator, Mapping, Sequence

from standfast.design.installation import Installation, Part
from standfast.design.installation.build import JobFile, SheetFile
from standfast.design.installation.circuits import Named, of_breakers
from standfast.design.installation.circuits import named as protected
from standfast.design.labels.schedule import Label
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.sources import named
from standfast.design.wiring.whole import Wiring
from standfast.handover.drawings.one_line_bonds import grounding, joints
from standfast.handover.drawings.one_line_inside import detailed, is_inside, is_main
from standfast.handover.drawings.one_line_parts import Sayings, ka
from standfast.handover.drawings.one_line_told import OneLine, RunWords
from standfast.handover.drawings.one_line_tree import BONDS, Words, branch_circuits, group_id
from standfast.handover.legs import earth_of
from standfast.paper.symbols import ANSI, Family
from standfast.sheet import Value, total, work
from standfast.sheet.printed import amount

RACEWAYS = {"emt": "EMT", "fmc": "FMC", "imc": "IMC", "rmc": "RMC", "pvc-40": "PVC 40", "pvc-80": "PVC 80"}
METALS = {"cu": "Cu", "al": "Al"}
INSULATIONS = {"thhn": "THHN/THWN-2", "xhhw": "XHHW", "xhhw-2": "XHHW-2", "thw": "THW"}
SERVICE_RUNS = ("service conductors", "service entrance")
ELECTRODE_RUN = "grounding electrode conductor"


def one_line(
    job: JobFile,
    sheets: Mapping[str, SheetFile],
    installation: Installation,
    wiring: Wiring,
    labels: Sequence[Label] = (),
    schedule_sheet: str = "the panel schedule",
    family: Family = ANSI,
) -> OneLine:
    """Everything that the diagram says.

    Args:
        job: the job file.
        sheets: data sheets by role.
        installation: the graph.
        wiring: what was worked out.
        labels: the label schedule; its numbers stand beside the devices.
        schedule_sheet: how the set names the sheet that lists the branch circuits.
        family: the symbols of the standard that the adoption draws by.
    """
    circuits = {each.breaker: each for each in protected(job.content, installation, sheets).values()}
    installation = detailed(installation, job, sheets)
    said = Sayings(job, sheets, wiring, circuits)
    earth = earth_of(job.content.supply.system)
    bonds = joints(job, sheets, installation)
    joined = {each.part: each.there for each in bonds}
    words = {part.id: _words(said, part, labels) for part in installation.parts.values()}
    for each in (each for each in bonds if each.there and each.part != "service-disconnect" and each.part in words):
        when = [each.when] if each.when else []
        words[each.part] = words[each.part]._replace(lines=(*words[each.part].lines, BONDS[earth == "earth"], *when))
    for bus in installation.of_kind("busbar"):
        words |= _branches(said, installation, bus, schedule_sheet)
    order = [link.id for link in installation.links]
    runs = [*_service(job, installation), *_at_buildings(job, installation), *_built(job, installation, wiring)]
    runs += _unsurveyed(installation, runs)
    runs.sort(key=lambda run: min((order.index(id) for id in run.ids), default=len(order)))
    notes = [*_notes(job, wiring), *_shutdown(job, installation, words)]
    return OneLine(
        installation,
        words,
        runs,
        grounding(job, sheets, installation),
        notes,
        family,
        _symbols(installation, circuits, family),
        joined=joined,
        joined_when={each.part: each.when for each in bonds},
        circuits=of_breakers(job.content),
        earth=earth,
    )


RESIDUAL = "residual breaker"


def _symbols(installation: Installation, circuits: Mapping[str, Named], family: Family) -> dict[str, str]:
    """Symbols of breakers with a residual current device, where the standard has one; of a group where all have it."""
    if RESIDUAL not in family.drawn:
        return {}
    have = {id for id, each in circuits.items() if each.residual}
    found = dict.fromkeys(have, RESIDUAL)
    for bus in installation.of_kind("busbar"):
        for existing, breakers in branch_circuits(installation, bus).items():
            if breakers and have.issuperset(each.id for each in breakers):
                found[f"{group_id(bus, existing)}/breakers"] = RESIDUAL
    return found


def _words(said: Sayings, part: Part, labels: Sequence[Label]) -> Words:
    named = {"transfer equipment": said.island, "shutdown switch": said.shutdown}
    say = named[part.kind] if part.kind in named else getattr(said, part.kind)
    if is_main(part):
        say = said.main
    elif is_inside(part):
        say = said.inside
    lines = list(say(part))
    more = [f"fault current {amount(said.wiring.faults[part.id])}"] if part.id in said.wiring.faults else []
    found = [label.id for label in labels if label.at == part.name]
    if found:
        more.append(f"{'labels' if len(found) > 1 else 'label'} {', '.join(found)}")
    if more:
        lines.append("; ".join(more))
    return Words(part.name, tuple(lines))


def _branches(said: Sayings, installation: Installation, bus: Part, schedule: str) -> dict[str, Words]:
    """Branch circuits drawn together: how many, their interrupting rating, their connected load."""
    found: dict[str, Words] = {}
    for existing, breakers in branch_circuits(installation, bus).items():
        if not breakers:
            continue
        kind = "moved" if existing and not bus.existing else "branch"
        many = f"{len(breakers)} {kind} circuits" if len(breakers) > 1 else breakers[0].name
        interrupting = breakers[0].facts.get("interrupting")
        lines = [f"interrupting {ka(interrupting)}"] if interrupting is not None else []
        loads = [installation.parts[f"{each.id}/load"].facts["load"] for each in breakers]
        id, whole = group_id(bus, existing), total("S", loads, "VA")
        found[f"{id}/breakers"] = Words(many, tuple(lines))
        found[id] = Words("Loads", (f"connected {amount(whole)}", f"see {schedule}"))
    return found


def _service(job: JobFile, installation: Installation) -> Iterator[RunWords]:
    links = {link.id for link in installation.links}
    if links.issuperset(SERVICE_RUNS):
        conductors = job.content.supply.conductors
        lines = ["not known"] if conductors is None else [_stated(job, "supply.conductors", "lines ")]
        yield RunWords(SERVICE_RUNS, f"(E) {_between(installation, SERVICE_RUNS)}", tuple(lines))
    if ELECTRODE_RUN in links:
        conductors = job.content.supply.electrode_conductor
        lines = ["not known"] if conductors is None else [_stated(job, "supply.electrode_conductor", "")]
        name = {"earth": "Earthing conductor", "ground": "Grounding electrode conductor"}
        yield RunWords((ELECTRODE_RUN,), f"(E) {name[earth_of(job.content.supply.system)]}", tuple(lines))


def _unsurveyed(installation: Installation, told: Sequence[RunWords]) -> Iterator[RunWords]:
    """Conductors to sources that no route of the job tells of."""
    known = {id for run in told for id in run.ids}
    for link in installation.links:
        far = installation.parts[link.b]
        if link.kind == "conductor" and link.id not in known and far.kind in ("inverter", "generator"):
            mark = "(E)" if far.existing else "(N)"
            yield RunWords((link.id,), f"{mark} {_between(installation, (link.id,))}", ("conductors not known",))


def _at_buildings(job: JobFile, installation: Installation) -> Iterator[RunWords]:
    """Conductors to the electrodes of other buildings."""
    links = {link.id for link in installation.links}
    for panel in job.content.panels:
        id = f"{ELECTRODE_RUN}, {panel.id}"
        if id in links:
            known = panel.electrode_conductor is not None
            text = _stated(job, f"panels.{panel.id}.electrode_conductor", "") if known else "not known"
            yield RunWords((id,), f"(E) Grounding electrode conductor of the {panel.name or panel.id}", (text,))


def _stated(job: JobFile, path: str, count: str) -> str:
    """Conductors as the job file states them."""
    size = _size(job.fact(f"{path}.size", "size"))
    material = job.fact(f"{path}.material", "material")
    text = f"{count}{size} {_word(material, METALS)}"
    if job.has(f"{path}.insulation"):
        text += f" {_word(job.fact(f'{path}.insulation', 'insulation'), INSULATIONS)}"
    if job.has(f"{path}.raceway"):
        text += f" in {_word(job.fact(f'{path}.raceway', 'raceway'), RACEWAYS)}"
    if job.has(f"{path}.length"):
        text += f", {amount(job.fact(f'{path}.length', 'L', 'ft'))}"
    return text


def _built(job: JobFile, installation: Installation, wiring: Wiring) -> Iterator[RunWords]:
    """The runs that were worked out, from the service outward; existing feeders as surveyed."""
    circuits = wiring.circuits
    yield from _metric(job, installation, wiring)
    known = {id for each in (wiring.metric.circuits if wiring.metric is not None else ()) for id in each.links}
    known |= {tube.run.id for circuit in circuits for tube in circuit.raceways}
    for route in job.content.routes:
        links = _links(installation, route.id)
        if route.id not in known and links:
            lines = ("conductors not known",) if route.conductors is None else _of_route(job, route.id)
            mark = "(N)" if route.state == "new" else "(E)"
            yield RunWords(links, f"{mark} {_between(installation, links)}", (*lines, _raceway(job, route.id)))
    for circuit in circuits:
        for tube in circuit.raceways:
            links = _links(installation, tube.run.id)
            mark = "(N)" if tube.run.new else "(E)"
            kinds = " and ".join(f"{amount(each.trade_size)} in {_word(each.kind, RACEWAYS)}" for each in tube.kinds)
            raceway = f"{kinds}, {_one_way(tube.run.length)}"
            lines = (_lines(circuit), f"{_ground(circuit)}; {raceway}")
            yield RunWords(links, f"{mark} {_between(installation, links)}", lines)


def _metric(job: JobFile, installation: Installation, wiring: Wiring) -> Iterator[RunWords]:
    """The runs of circuits in square millimetres: cable and protective conductor, each route with its own length."""
    for circuit in wiring.metric.circuits if wiring.metric is not None else ():
        for id in circuit.links:
            links = _links(installation, id)
            if links:
                mark = "(N)" if circuit.new else "(E)"
                length = _one_way(job.fact(f"routes.{id}.length", "L", "m"))
                yield RunWords(links, f"{mark} {_between(installation, links)}", (circuit.conductors, length))


def _of_route(job: JobFile, id: str) -> tuple[str, ...]:
    """Conductors of a run that is there, as surveyed: lines, neutral, and equipment ground."""
    path = f"routes.{id}.conductors"
    neutral, ground = job.fact(f"{path}.neutral", "neutral"), job.fact(f"{path}.ground", "ground")
    none = not neutral.missing and neutral.word == "none"
    told = "no neutral" if none else f"neutral {_size(neutral)}"
    return f"{_stated(job, path, 'lines ')}, {told}", f"equipment ground {_size(ground)}"


def _raceway(job: JobFile, id: str) -> str:
    """Raceway and length of a run that is there, as surveyed."""
    path = f"routes.{id}"
    kind = f"in {_word(job.fact(f'{path}.raceway', 'raceway'), RACEWAYS)}"
    if job.has(f"{path}.trade_size"):
        kind = f"{amount(job.fact(f'{path}.trade_size', 'trade_size'))} {kind}"
    return f"{kind}, {_one_way(job.fact(f'{path}.length', 'L', 'ft'))}"


def _links(installation: Installation, route: str) -> tuple[str, ...]:
    """The links that one route is drawn as: it may run through a switch."""
    return tuple(link.id for link in installation.links if link.id == route or link.id.startswith(f"{route}, "))


def _between(installation: Installation, links: Sequence[str]) -> str:
    found = [link for link in installation.links if link.id in links]
    if not found:
        return ", ".join(links) or "run that joins nothing drawn here"
    return f"{installation.parts[found[0].a].name} to {installation.parts[found[-1].b].name}"


def _lines(circuit: Circuit) -> str:
    chosen, where = circuit.conductor, circuit.conductor.conditions
    size, metal = _size(chosen.size), _word(where.material, METALS)
    count = "2" if circuit.sets is None else amount(work("n", "2 * n_set", "1", None, circuit.sets))
    text = f"{count} × {size} {metal} {_word(where.insulation, INSULATIONS)}"
    if circuit.neutral.number is not False:
        text += f", neutral {size if circuit.neutral.number is True else 'not known'}"
    return text


def _ground(circuit: Circuit) -> str:
    metal = _word(circuit.conductor.conditions.material, METALS)
    return f"equipment ground {_size(circuit.ground)} {metal}"


def _one_way(length: Value) -> str:
    return "length not known" if length.missing else f"{amount(length)} one way"


def _size(value: Value) -> str:
    """A conductor size with its unit."""
    if value.missing:
        return "size not known"
    return f"{value.word} kcmil" if value.word.isdecimal() and int(value.word) >= 250 else f"{value.word} AWG"


def _word(value: Value, words: Mapping[str, str]) -> str:
    return "not known" if value.missing else words.get(value.word, value.word)


def _shutdown(job: JobFile, installation: Installation, words: Mapping[str, Words]) -> Iterator[str]:
    """The emergency shutdown switch: no power flows through it, so it stands beside the diagram."""
    marked = any(mark.kind == "emergency shutdown" for mark in job.content.land.marks)
    place = "where the site plan shows it" if marked else "its place is not known"
    for part in installation.of_kind("shutdown switch"):
        yield f"(N) {part.name}: {place}; {'; '.join(words[part.id].lines)}."


def _notes(job: JobFile, wiring: Wiring) -> list[str]:
    lines = []
    if job.has("supply.fault_current_source"):
        lines.append(f"Fault current at the service: {job.content.supply.fault_current_source}.")
    if wiring.faults:
        lines.append(
            "Fault currents are the greatest at each place: through supply and runs, with what the sources add."
        )
    names = {panel.id: panel.name or panel.id for panel in job.content.panels}
    for bar in wiring.busbars:
        by = named(bar.option) if bar.option is not None else bar.check.verdict
        lines.append(f"Sources on the busbar of the {names[bar.panel]}: {bar.check.clause}, {by}.")
    backup = job.content.backup
    if backup.mode not in (None, "none"):
        lines.append(f"Backup: {backup.mode}, {backup.transfer or 'kind of transfer not known'} transfer.")
    return lines
