"""What the battery carries when the grid is away: every load it has to carry, and the motor that is hardest to start.

Article 702 asks what the source must be able to carry; Article 710 asks at least the largest single appliance. From the
2023 edition on a grid-connected system that runs as an island is under 702; authorities differ, so both are checked and
each verdict names its clause.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.design.installation.build import JobFile, SheetFile, feeders, is_of_battery, islanded
from standfast.design.wiring import legs
from standfast.design.wiring.house import Row
from standfast.design.wiring.load import sources, speaker
from standfast.design.wiring.starting import Start, starting_currents
from standfast.sheet import Check, Clause, Value, at_most, given, is_, missing, not_applicable, total, work, worst
from standfast.shelf import Edition
from standfast.survey.joined import has_inverter
from standfast.survey.power import Circuit

ONE_START = "no two motors start at one moment"
WAYS: dict[str, str] = {"automatic": "standby_automatic", "manual": "standby_manual"}


class Carried(NamedTuple):
    """One backed-up circuit: its panel, the circuit, and its load in VA."""

    panel: str
    circuit: Circuit
    load: Value


class BackupSheet(NamedTuple):
    """The backup calculation.

    Attributes:
        title: what is backed up.
        rows: lines of the sheet.
        load: current in A of all that is backed up; missing where nothing is.
        checks: verdicts.
    """

    title: str
    rows: tuple[Row, ...]
    load: Value
    checks: tuple[Check, ...]


def backup_load(book: Edition, job: JobFile, sheets: Mapping[str, SheetFile], house: Value) -> BackupSheet:
    """The backed-up load against the battery.

    Args:
        book: NFPA 70 in force.
        job: the job file.
        sheets: data sheets by role; ``battery`` must be there, and ``inverter`` where one is chosen.
        house: current in A of the whole house without the battery, from the load calculation; for ``whole house``.
    """
    mode = job.fact("backup.mode", "mode")
    if mode.number == "none":
        none = missing("I_backup", "A", "the job backs nothing up")
        clause, reason = book.clause("standby_capacity"), "the job backs nothing up"
        check = not_applicable("backup.capacity", "The battery carries all that is backed up", clause, reason)
        return BackupSheet("No backup", (), none, (check,))
    voltage, maker = job.fact("supply.voltage", "U", "V"), speaker(job, sheets)
    units = together(job, maker)
    output, carried = continuous_output(job, sheets, voltage), backed_up(job)
    lists = [job.count(f"panels.{panel}.circuits", "n_circuits") for panel in job.ids("panels")]
    unlisted = next((each.how for each in lists if each.missing), "")
    if mode.number == "whole house":
        load, rows = house, [Row("Whole house, by the load calculation", house)]
    elif mode.missing or not carried or unlisted:
        unmarked = "panels.circuits.backed_up: no circuit says backed_up = true: say which ones the battery carries"
        load, rows = missing("I_backup", "A", mode.how if mode.missing else unlisted or unmarked), []
    else:
        whole = total("S_backup", [each.load for each in carried], "VA")
        load = work("I_backup", "S / U", "A", None, S=whole, U=voltage)
        rows = [Row(each.circuit.name or each.circuit.id, each.load) for each in carried]
        rows.append(Row("Backed-up circuits, connected load", whole))
    starts = starting_currents(book, job, carried)
    rows += [
        Row("Backed-up load", load),
        Row("Continuous output without the grid", output),
        *(Row(f"Start of {each.name}", each.current) for each in starts),
    ]
    checks = [_forms_grid(book, maker), *_parallel(book, job, maker), _capacity(book, job, load, output)]
    checks += _largest(book, carried, voltage, output)
    checks += _lines(book, job, carried, output) if mode.number == "circuits" else []
    checks.append(_start(book, job, _Starter(maker, units), carried, starts, _not_listed(mode, carried)))
    titles = {"whole house": "Backup of the whole house", "circuits": "Backup of chosen circuits"}
    return BackupSheet(titles.get(str(mode.number), "Backup"), tuple(rows), load, tuple(checks))


def backed_up(job: JobFile) -> list[Carried]:
    """The circuits that the battery carries.

    Those that are marked, and with an automatic transfer every other one beyond the island switch: it is switched over
    whether it was meant or not. For the whole house every circuit with a load.
    """
    whole, automatic = job.content.backup.mode == "whole house", job.content.backup.transfer != "manual"
    beyond = islanded(job) if automatic and not whole else []
    fed = {(above, circuit.id) for above, circuit in feeders(job).values()}
    return [
        Carried(
            panel.id,
            circuit,
            job.fact(f"panels.{panel.id}.circuits.{circuit.id}.load", f"S_{circuit.id.replace('-', '_')}", "VA"),
        )
        for panel in job.content.panels
        for circuit in panel.circuits
        if circuit.backed_up
        or (whole and circuit.load is not None)
        or (panel.id in beyond and (panel.id, circuit.id) not in fed and _is_load(job, circuit))
    ]


def _is_load(job: JobFile, circuit: Circuit) -> bool:
    return circuit.source_output is None and not is_of_battery(job, circuit)


def continuous_output(job: JobFile, sheets: Mapping[str, SheetFile], voltage: Value) -> Value:
    """Continuous output in A of all sources: the lesser of rated current and of rated power at the service voltage.

    Behind an inverter of its own it is no more than what the batteries give.
    """
    maker = speaker(job, sheets)
    current = maker.fact("electrical.output_current", "I_out", "A")
    power = maker.fact("electrical.output_power", "P_out", "W")
    limits = [current, work("I_P", "P / U", "A", None, P=power, U=voltage)]
    if has_inverter(job.content):
        limits.append(_from_cells(job, sheets, voltage))
    return work("I_cont", "n_units * I_unit", "A", None, worst("I_unit", limits, "min"), n_units=together(job, maker))


def _from_cells(job: JobFile, sheets: Mapping[str, SheetFile], voltage: Value) -> Value:
    """AC current in A that the batteries can keep up through the inverter, at the lowest voltage that both work at."""
    battery, inverter = sheets["battery"], sheets["inverter"]
    count = job.fact("equipment.quantity", "n_batt", "1")
    given_a = work(
        "I_batt", "n_batt * I_dis", "A", None, count, I_dis=battery.fact("dc.discharge_current", "I_dis", "A")
    )
    drawn = inverter.fact("dc.discharge_current", "I_port", "A")
    low = worst(
        "U_low", [battery.fact("dc.voltage_min", "U_batt", "V"), inverter.fact("dc.voltage_min", "U_port", "V")], "max"
    )
    return work(
        "I_cells", "U_dc * I_dc * eta / 100 / U", "A", None, U_dc=low, I_dc=worst("I_dc", [given_a, drawn], "min"),
        eta=inverter.fact("dc.efficiency", "eta", "%"), U=voltage,
    )  # fmt: skip


def together(job: JobFile, maker: SheetFile) -> Value:
    """How many sources feed one island together: all of them, as far as the maker lets so many run in parallel."""
    count = sources(job)
    if count.missing or count.quantity <= 1:
        return count
    most = maker.fact("electrical.parallel_max", "n_most", "1")
    return worst("n_units", [count, most], "min")


def _parallel(book: Edition, job: JobFile, maker: SheetFile) -> list[Check]:
    """Several sources on one island: only as many as the maker lets run in parallel without the grid."""
    count = sources(job)
    if count.missing or count.quantity <= 1:
        return []
    id, title = "backup.parallel", "So many units may feed one house together without the grid"
    return [at_most(id, title, book.clause("listed_use"), count, maker.fact("electrical.parallel_max", "n_most", "1"))]


def _forms_grid(book: Edition, maker: SheetFile) -> Check:
    id, title = "backup.forms-grid", "The battery unit can supply a house while the grid is away"
    wanted = given("needed", True, "", "the job backs circuits up")
    return is_(id, title, book.clause("standby_capacity"), maker.fact("electrical.forms_grid", "forms_grid"), wanted)


def _capacity(book: Edition, job: JobFile, load: Value, output: Value) -> Check:
    """702.4: all that is switched over automatically, or all that is meant to run together."""
    id, transfer = "backup.capacity", job.fact("backup.transfer", "transfer")
    title = "The battery carries all that is backed up at the same time"
    clause = book.clause("standby_capacity")
    if transfer.missing:
        load = missing("I_backup", "A", transfer.how, transfer)
    else:
        clause = book.clause(WAYS[transfer.word])
    return at_most(id, title, clause, load, output)


def _largest(book: Edition, carried: Sequence[Carried], voltage: Value, output: Value) -> list[Check]:
    """710.15(A): the largest single load by itself."""
    if not carried:
        return []
    id, title = "backup.largest-load", "The battery carries the largest single load by itself"
    largest = worst("S_largest", [each.load for each in carried], "max")
    current = work("I_largest", "S / U", "A", None, S=largest, U=voltage)
    return [at_most(id, title, book.clause("stand_alone_capacity"), current, output)]


def _lines(book: Edition, job: JobFile, carried: Sequence[Carried], output: Value) -> list[Check]:
    """Each line conductor by itself, since loads from line to neutral sit on one of the two."""
    found = []
    for leg in legs.LEGS:
        load = total(f"I_leg_{leg}", _on_line(job, carried, leg), "A")
        id, title = f"backup.line/{leg}", f"Line {leg} of the battery carries its part of the backed-up load"
        found.append(at_most(id, title, book.clause("standby_capacity"), load, output))
    return found


def _on_line(job: JobFile, carried: Sequence[Carried], leg: int) -> list[Value]:
    found = [legs.current(job, each.panel, each.circuit, each.load, leg) for each in carried]
    return [current for current in found if current is not None]


class _Starter(NamedTuple):
    """What starts motors: a sheet, and how many of it feed together."""

    sheet: SheetFile
    units: Value

    def current(self, path: str, symbol: str) -> Value:
        """A current in A of all of them; of one, as its sheet says it."""
        one = self.sheet.fact(path, symbol, "A")
        if not self.units.missing and self.units.quantity == 1:
            return one
        return work(symbol, "n_units * I_one", "A", None, n_units=self.units, I_one=one)


def _start(
    book: Edition, job: JobFile, starter: _Starter, carried: Sequence[Carried], starts: Sequence[Start], unknown: str
) -> Check:
    """The hardest motor start against what the sources can start.

    Where the maker states no current for starting motors, the peak power has to carry the start and beside it all other
    backed-up load, on the line conductor that is loaded most.
    """
    id, title = "backup.motor-start", "The battery starts the largest backed-up motor"
    clause = book.clause("standby_capacity")
    if unknown:
        return at_most(id, title, clause, missing("I_LR", "A", unknown), missing("I_start", "A", unknown))
    if not starts:
        return _no_motor(job, carried, id, title, clause)
    rating = starter.current("electrical.motor_start_current", "I_start")
    if not starter.sheet.left_out("electrical.motor_start_current"):
        largest = worst("I_LR", [each.current for each in starts], "max")
        return at_most(id, title, clause, largest, rating, condition=ONE_START)
    peak, voltage = starter.sheet.fact("electrical.peak_power", "P_peak", "W"), job.fact("supply.voltage", "U", "V")
    text = "P / U" if starter.units.number == 1 else "n_units * P / U"
    more = {} if starter.units.number == 1 else {"n_units": starter.units}
    rating = work("I_peak", text, "A", None, P=peak, U=voltage, **more)
    beside = [_beside(job, carried, each, leg) for each in starts for leg in legs.LEGS]
    return at_most(id, title, clause, worst("I_start_all", beside, "max"), rating, condition=ONE_START)


def _no_motor(job: JobFile, carried: Sequence[Carried], id: str, title: str, clause: Clause) -> Check:
    """No circuit names a motor: that is an answer only where somebody looked."""
    silent = [each for each in carried if each.circuit.has_motor is not False]
    if not silent:
        return not_applicable(id, title, clause, "no backed-up circuit has a motor")
    names = ", ".join(each.circuit.id for each in silent)
    need = f"{job.file}: whether a motor is on {names}; write motor = {{ … }} or has_motor = false in each"
    return at_most(id, title, clause, missing("I_LR", "A", need), missing("I_start", "A", need))


def _beside(job: JobFile, carried: Sequence[Carried], start: Start, leg: int) -> Value:
    """Current in A on a line conductor while one motor starts and everything else runs."""
    others = [each for each in carried if (each.panel, each.circuit) != (start.panel, start.circuit)]
    running = total("I_run", _on_line(job, others, leg), "A")
    where = legs.line(job, start.panel, start.circuit)
    if where.missing:
        return missing("I_start_all", "A", where.how, where)
    if not legs.on(where, leg):
        return running
    return work("I_start_all", "I_LR + I_run", "A", None, running, I_LR=start.current)


def _not_listed(mode: Value, carried: Sequence[Carried]) -> str:
    if mode.missing:
        return mode.how
    return "" if carried else "no circuit is named that the battery carries"
