"""The load of a metric house, and what the battery carries of it."""

from collections.abc import Iterator

from standfast.design.installation.build import is_of_battery, islanded
from standfast.design.wiring.backup import BackupSheet
from standfast.design.wiring.house import Row
from standfast.design.wiring.load import LoadSheet
from standfast.design.wiring.metric import voltage
from standfast.design.wiring.metric.question import Question
from standfast.design.wiring.standard_named import standard_named
from standfast.sheet import Check, Value, at_least, chosen, missing, not_applicable, settle, total, work
from standfast.survey.power import Circuit

MEASURED, DIVERSITY = "Highest recorded demand", "Demand with diversity"


def load(q: Question) -> LoadSheet:
    """The load of the supply: the house as recorded or with diversity, and the battery while it charges."""
    title, rows = _house(q)
    clause = q.clause("maximum_demand")
    house = total("I_house", [row.value for row in rows], "A", clause)
    charge = q.own("charge_current", "I_charge", "A")
    units = chosen("n_units", float(q.job.content.equipment.quantity or 1) if q.role == "battery" else 1.0, "1",
                   "units, or the one inverter that they share", None)  # fmt: skip
    charging = work("I_charging", "n_units * I_charge", "A", None, units, charge)
    together = work("I_max", "I_house + I_charging", "A", clause, house, charging)
    needed, more = _limited(q, house, together)
    rows = [*rows, Row("Battery while it charges", charging), *more]
    return LoadSheet(title, tuple(rows), house, needed, tuple(_checks(q, needed)))


def _house(q: Question) -> tuple[str, list[Row]]:
    if q.job.has("loads.measured_max"):
        S = q.job.fact("loads.measured_max", "S_max", "VA")
        amps = work("I_recorded", "S_max / U_0", "A", q.clause("maximum_demand"), S, U_0=voltage.to_earth(q))
        return MEASURED, [Row(MEASURED, amps)]
    if not q.job.stated("loads.appliances"):
        need = "loads.appliances: every load of the house, or loads.measured_max: its highest recorded demand"
        return DIVERSITY, [Row("Loads of the house", missing("I_loads", "A", need))]
    return DIVERSITY, list(q.dialect.demand(q))


def _limited(q: Question, house: Value, together: Value) -> tuple[Value, list[Row]]:
    """With a listed control that stops charging at a current of the supply no more than that flows, or than the house
    takes."""
    if not (q.job.has("loads.charging_limit") and q.job.has("loads.charging_control")):
        return together, []
    limit = q.job.fact("loads.charging_limit", "I_limit", "A")
    listing = q.job.fact("loads.charging_control", "listing")
    if together.missing or house.missing:
        return together, []
    least = min(together.quantity, max(house.quantity, limit.quantity))
    how = "a listed control stops charging at its limit"
    held = chosen("I_max", least, "A", how, q.clause("maximum_demand"), together, house, limit, listing)
    return held, [Row("Charging stops at", limit)]


def _checks(q: Question, needed: Value) -> Iterator[Check]:
    id, title, clause = "load.supply", "The supply carries the house and the battery", q.clause("maximum_demand")
    service = q.job.fact("supply.service", "I_supply", "A")
    yield settle(id, title, clause, lambda: at_least(id, title, clause, service, needed))


def backup(q: Question) -> BackupSheet:
    """What is carried while the grid is away, against the output of the sources that the job adds."""
    mode, clause = q.job.fact("backup.mode", "mode"), q.clause("island_protection")
    title = "Loads carried while the grid is away"
    if mode.missing or mode.word == "none":
        reason = mode.how if mode.missing else "the job backs nothing up"
        nothing = missing("I_backup", "A", reason)
        return BackupSheet(title, (), nothing, (not_applicable("backup.output", title, clause, reason),))
    rows = [_row(q, panel, circuit) for panel, circuit in _carried(q)]
    carried = total("I_backup", [row.value for row in rows], "A", clause)
    output = q.own("output_current", "I_out", "A")
    asked = "The battery carries what stays on while the grid is away"
    check = settle("backup.output", asked, clause, lambda: at_least("backup.output", asked, clause, output, carried))
    return BackupSheet(title, tuple(rows), carried, (check,))


def _carried(q: Question) -> Iterator[tuple[str, Circuit]]:
    """Every circuit on the island side that no listed control drops."""
    job, parted = q.job.content, islanded(q.job)
    dropped = set() if standard_named(q.job, "backup.shedding").missing else set(job.backup.sheds)
    for panel in job.panels:
        for circuit in panel.circuits:
            source = is_of_battery(q.job, circuit) or circuit.source_output is not None
            if panel.id in parted and circuit.feeds is None and not source and circuit.id not in dropped:
                yield panel.id, circuit


def _row(q: Question, panel: str, circuit: Circuit) -> Row:
    S = q.job.fact(f"panels.{panel}.circuits.{circuit.id}.load", "S_load", "VA")
    amps = work("I_load", "S_load / U_0", "A", None, S, U_0=voltage.to_earth(q))
    return Row(circuit.name or circuit.id, amps)
