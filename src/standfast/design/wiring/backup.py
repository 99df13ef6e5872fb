"""What the battery carries when the grid is away: every load it has to carry, and the motor that is hardest to start.

Article 702 asks what the source must be able to carry; Article 710 asks at least the largest single appliance. From the
2023 edition on a grid-connected system that runs as an island is under 702; authorities differ, so both are checked and
each verdict names its clause.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.design.installation.build import JobFile, SheetFile
from standfast.design.wiring import legs, motor_start
from standfast.design.wiring.carried import Carried, backed_up, on_line, shed, unlisted
from standfast.design.wiring.house import Row
from standfast.design.wiring.load import sources, speaker
from standfast.design.wiring.motor_start import Starter
from standfast.design.wiring.starting import starting_currents
from standfast.sheet import Check, Value, at_most, cannot_tell, given, is_, missing, not_applicable, total, work, worst
from standfast.shelf import Edition
from standfast.survey.joined import has_inverter

__all__ = ["BackupSheet", "Carried", "backed_up", "backup_load", "continuous_output", "together"]

WAYS: dict[str, str] = {"automatic": "standby_automatic", "manual": "standby_manual"}


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
    output, carried = continuous_output(job, sheets, voltage), backed_up(job)
    dropped = shed(job, carried)
    kept = [each for each in carried if each not in dropped]
    unknown = _not_listed(mode, carried)
    load, rows = _load(job, mode, house, carried, dropped)
    rows += [
        Row("Backed-up load", load),
        Row("Continuous output without the grid", output),
        *(Row(f"Start of {each.name}", each.current) for each in starting_currents(book, job, kept)),
    ]
    checks = [_forms_grid(book, maker), *_parallel(book, job, maker), *_shedding(book, job)]
    checks += [_capacity(book, job, load, output, dropped), *_largest(book, carried, voltage, output)]
    checks += _lines(book, job, kept, output) if mode.number == "circuits" else []
    checks += motor_start.checks(book, job, Starter(maker, together(job, maker)), kept, unknown)
    titles = {"whole house": "Backup of the whole house", "circuits": "Backup of chosen circuits"}
    return BackupSheet(titles.get(str(mode.number), "Backup"), tuple(rows), load, tuple(checks))


def _load(
    job: JobFile, mode: Value, house: Value, carried: Sequence[Carried], dropped: Sequence[Carried]
) -> tuple[Value, list[Row]]:
    """Current in A of all that has to be carried at one time, and the lines that lead to it.

    What a listed control drops does not count among chosen circuits. Of a whole house nothing is taken off: its load is
    one of demand factors, and a connected load is no part of that.
    """
    lists = [job.count(f"panels.{panel}.circuits", "n_circuits") for panel in job.ids("panels")]
    unread = next((each.how for each in lists if each.missing), "")
    if mode.number == "whole house":
        return house, [Row("Whole house, by the load calculation", house)]
    if mode.missing or not carried or unread:
        unmarked = "panels.circuits.backed_up: no circuit says backed_up = true: say which ones the battery carries"
        return missing("I_backup", "A", mode.how if mode.missing else unread or unmarked), []
    kept = [each for each in carried if each not in dropped]
    whole = total("S_backup", [each.load for each in kept], "VA")
    rows = [Row(each.circuit.name or each.circuit.id, each.load) for each in kept]
    rows += [Row(f"{each.circuit.name or each.circuit.id}, dropped: not counted", each.load) for each in dropped]
    rows.append(Row("Backed-up circuits, connected load", whole))
    return work("I_backup", "S / U", "A", None, S=whole, U=job.fact("supply.voltage", "U", "V")), rows


def _shedding(book: Edition, job: JobFile) -> list[Check]:
    """Circuits that are to be dropped by a control whose listing nobody states: they count as carried."""
    lacking = unlisted(job)
    if lacking is None:
        return []
    id, title = "backup.shedding", "The control that drops circuits is listed for that"
    return [cannot_tell(id, title, book.clause("standby_managed"), lacking.how, lacking)]


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


def _capacity(book: Edition, job: JobFile, load: Value, output: Value, dropped: Sequence[Carried]) -> Check:
    """702.4: all that is switched over automatically, or all that is meant to run together."""
    id, transfer = "backup.capacity", job.fact("backup.transfer", "transfer")
    title = "The battery carries all that is backed up at the same time"
    clause = book.clause("standby_capacity")
    if transfer.missing:
        load = missing("I_backup", "A", transfer.how, transfer)
    else:
        clause = book.clause("standby_managed" if dropped else WAYS[transfer.word])
    names = ", ".join(each.circuit.name or each.circuit.id for each in dropped)
    condition = f"the listed control drops: {names}" if dropped and job.content.backup.mode == "circuits" else ""
    return at_most(id, title, clause, load, output, condition=condition)


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
        load = total(f"I_leg_{leg}", on_line(job, carried, leg), "A")
        id, title = f"backup.line/{leg}", f"Line {leg} of the battery carries its part of the backed-up load"
        found.append(at_most(id, title, book.clause("standby_capacity"), load, output))
    return found


def _not_listed(mode: Value, carried: Sequence[Carried]) -> str:
    if mode.missing:
        return mode.how
    return "" if carried else "no circuit is named that the battery carries"
