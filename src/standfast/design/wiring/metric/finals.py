"""Final circuits that are carried while the grid is away: what protects them has to work on the inverter too."""

from collections.abc import Iterator, Mapping, Sequence

from standfast.design.installation.build import is_of_battery, islanded, way_up
from standfast.design.wiring.clearing import BREAKER, STOP, UNKNOWN, Clearing
from standfast.design.wiring.metric import loops
from standfast.design.wiring.metric.built import Final, Loop, MetricCircuit
from standfast.design.wiring.metric.question import Question
from standfast.design.wiring.metric.voltage import to_earth
from standfast.sheet import Check, Value, at_least, at_most, cannot_tell, missing, settle, total, work
from standfast.sheet.printed import amount
from standfast.survey.joined import source_ids
from standfast.survey.power import Circuit, Panel


def carried(q: Question, built: Sequence[MetricCircuit]) -> Iterator[Final]:
    """The final circuits that the job backs up, with their loops on the grid and on the inverter."""
    mode = q.job.content.backup.mode
    if mode in (None, "none"):
        return
    parted = islanded(q.job)
    for panel in q.job.content.panels:
        if panel.id not in parted:
            continue
        for circuit in panel.circuits:
            if circuit.feeds is None and not is_of_battery(q.job, circuit) and circuit.source_output is None:
                yield _final(q, panel, circuit, built)


def _final(q: Question, panel: Panel, circuit: Circuit, built: Sequence[MetricCircuit]) -> Final:
    path = f"panels.{panel.id}.circuits.{circuit.id}"
    said = loops.device(q, path, new=False)
    I_n = q.job.fact(f"{path}.breaker", "I_n", "A")
    residual = True if circuit.residual is not None else None
    if circuit.residual is None and circuit.device in ("breaker", "fuse"):
        residual = False
    need = f"{path}.residual: the residual current device that protects it, or device where there is none"
    I_dn = q.job.fact(f"{path}.residual.rated", "I_dn", "A") if residual else missing("I_dn", "A", need)
    return Final(f"{panel.id}/{circuit.id}", circuit.name or circuit.id, path, I_n, I_dn, residual,
                 _loop(q, panel, path, said, I_n, built))  # fmt: skip


def _loop(
    q: Question, panel: Panel, path: str, said: Mapping[str, Value], I_n: Value, built: Sequence[MetricCircuit]
) -> Loop:
    """On the grid as measured at its far end, else from the supply on; on the inverter from its panel on."""
    own = _own(q, path)
    if q.job.has(f"{path}.measured.loop"):
        grid = q.job.fact(f"{path}.measured.loop", "Z_meas", "ohm")
    else:
        feeders = [each.r_12 for each in built if each.id in _feeding(q, panel.id)]
        external = q.job.fact("supply.loop_impedance", "Z_e", "ohm")
        grid = total("Z_s", [external, *feeders, own], "ohm", q.clause("earth_loop"))
    conductors = total("R_loop", [*_from_source(q, panel.id, built), own], "ohm", q.clause("earth_loop"))
    inverter = loops.source_impedance(q)
    island = work("Z_s_isl", "Z_inv + R_loop", "ohm", q.clause("island_protection"), inverter, conductors)
    most = loops.greatest(q, said["device"], said["curve"], I_n)
    return Loop(grid, island, most, loops.fault_current(q, "I_f", grid),
                loops.island_current(q, "I_f_isl", conductors), _longest(q, path))  # fmt: skip


def _from_source(q: Question, panel: str, built: Sequence[MetricCircuit]) -> list[Value]:
    """The conductors between the inverter and a panel, ohm; where it is on another panel those of every feeder too."""
    own = [each for each in built if each.id in source_ids(q.job.content)]
    here = [each for each in own if each.panel == panel] or own
    feeders = [each for each in built if each not in own] if here and here[0].panel != panel else []
    return [each.r_12 for each in (*here[:1], *feeders)]


def _longest(q: Question, path: str) -> Value:
    """Disconnection time in s: as the job states it of this circuit, else by the table of the rules."""
    stated = f"{path}.measured.longest_disconnection"
    return q.job.fact(stated, "t_max", "s") if q.job.has(stated) else loops.longest(q, final=True)


def _own(q: Question, path: str) -> Value:
    """Line and protective conductor of a final circuit, measured cold and taken warm."""
    cold = q.job.fact(f"{path}.measured.r1_r2", "R_12_cold", "ohm")
    return work("R_12", "R_12_cold * k_warm", "ohm", q.clause("earth_loop"), cold,
                k_warm=q.dialect.warm(q, "70 °C thermoplastic, flat with protective conductor"))  # fmt: skip


def _feeding(q: Question, panel: str) -> set[str]:
    """Names of the circuits that feed a panel and those above it."""
    fed = set(way_up(q.job, panel))
    return {circuit.id for each in q.job.content.panels for circuit in each.circuits if circuit.feeds in fed}


def checks(q: Question, finals: Sequence[Final]) -> Iterator[Check]:
    """Each disconnects in time on the grid, and on the inverter."""
    for each in finals:
        yield _on_grid(q, each)
        yield _in_island(q, each)


def _on_grid(q: Question, each: Final) -> Check:
    """By its breaker; a reading is of cold conductors and is put to the limit for cold ones, once."""
    id, title = f"wiring.disconnection/{each.id}", f"{each.title}: disconnects in time on the grid"
    clause = q.clause("earth_loop")

    def ask() -> Check:
        limit = each.loop.greatest
        if each.loop.grid.symbol == "Z_meas":
            limit = work("Z_s_test", "k_cold * Z_s_max", "ohm", clause, k_cold=q.rules.number("cold_reading"),
                         Z_s_max=limit)  # fmt: skip
        found = at_most(id, title, clause, each.loop.grid, limit)
        return found if found.verdict == "pass" else _by_residual(q, each, found, each.loop.current)

    return settle(id, title, clause, ask)


def _in_island(q: Question, each: Final) -> Check:
    """By its breaker where the inverter drives enough through it for long enough, else by its residual device."""
    id, title = f"wiring.disconnection-island/{each.id}", f"{each.title}: disconnects in time while the grid is away"
    clause = q.clause("island_protection")

    def ask() -> Check:
        current = each.loop.island_current
        if current is None or current.missing:
            need = "" if current is None else current.how
            return cannot_tell(id, title, clause, need)
        found = at_least(id, title, clause, current, _trip(q, each))
        if found.verdict == "pass":
            return _holds_long_enough(q, each, found, current)
        return _by_residual(q, each, found, current)

    return settle(id, title, clause, ask)


def _holds_long_enough(q: Question, each: Final, found: Check, current: Value) -> Check:
    """A breaker trips at once only where the inverter drives that current as long as it takes."""
    time, least = q.own("island_fault_time", "t_inv", "s"), q.rules.number("instantaneous_time")
    held = at_least(found.id, found.title, found.clause, time, least)
    return found if held.verdict == "pass" else _by_residual(q, each, held, current)


def _by_residual(q: Question, each: Final, without: Check, current: Value) -> Check:
    """The residual device disconnects instead; where there is none, what was found without it stands."""
    if each.residual is False:
        return without
    if each.residual is None or current.missing or each.I_dn.missing:
        need = "; ".join(value.how for value in (each.I_dn, current) if value.missing)
        return cannot_tell(without.id, without.title, without.clause, need or without.reason)
    multiple = work("n_dn", "I_f / I_dn", "1", without.clause, I_f=current, I_dn=each.I_dn)
    path = f"{each.path}.residual"
    delayed = q.job.has(f"{path}.delayed") and q.job.fact(f"{path}.delayed", "delayed").yes
    time = q.dialect.residual_time(q, multiple, delayed)
    how = "its residual device disconnects: its breaker alone would not"
    return at_most(without.id, without.title, without.clause, time, each.loop.longest, condition=how)


def clearing(q: Question, each: Final) -> Clearing:
    """What ends a fault on a circuit while the grid is away, for the table of the permit set."""
    panel, _, _ = each.id.partition("/")
    current = each.loop.island_current
    fault = missing("I_f", "A", f"{each.path}: its loop without the grid") if current is None else current
    trips = _trip(q, each)
    ends = UNKNOWN
    if not (fault.missing or trips.missing):
        ends = BREAKER if fault.quantity >= trips.quantity else STOP
    if each.residual and not each.I_dn.missing:
        ends += f"; to earth its residual device, {amount(each.I_dn)}"
    return Clearing(panel, each.title, each.I_n, trips, fault, ends)


def _trip(q: Question, each: Final) -> Value:
    """Current in A from which its breaker trips at once."""
    return work("I_trip", "U_0 * C_min / Z_s_max", "A", q.clause("island_protection"), U_0=to_earth(q),
                C_min=q.dialect.voltage_factor(q), Z_s_max=each.loop.greatest)  # fmt: skip
