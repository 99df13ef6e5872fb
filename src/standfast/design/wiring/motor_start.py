"""Motors on the battery alone: the hardest one by itself, and all that start together when it takes over.

A thermostat or a float switch that called while the power was away starts its motor the moment that it is back.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from standfast.design.installation.build import JobFile, SheetFile
from standfast.design.wiring import legs
from standfast.design.wiring.carried import Carried, on_line
from standfast.design.wiring.starting import Start, starting_currents
from standfast.sheet import Check, Clause, Value, at_most, cannot_tell, missing, not_applicable, total, work, worst
from standfast.shelf import Edition

BY_HAND = "nobody starts a motor while another one starts"


class Starter(NamedTuple):
    """What starts motors: a sheet, and how many of it feed together."""

    sheet: SheetFile
    units: Value

    def current(self, path: str, symbol: str) -> Value:
        """A current in A of all of them; of one, as its sheet says it."""
        one = self.sheet.fact(path, symbol, "A")
        if not self.units.missing and self.units.quantity == 1:
            return one
        return work(symbol, "n_units * I_one", "A", None, n_units=self.units, I_one=one)

    @property
    def states(self) -> bool:
        """Whether its maker states a current for starting motors."""
        return not self.sheet.left_out("electrical.motor_start_current")

    def limit(self, job: JobFile) -> Value:
        """Current in A for motors that start; else of the peak power, for all that it carries then."""
        if self.states:
            return self.current("electrical.motor_start_current", "I_start")
        peak, voltage = self.sheet.fact("electrical.peak_power", "P_peak", "W"), job.fact("supply.voltage", "U", "V")
        text = "P / U" if self.units.number == 1 else "n_units * P / U"
        more: Mapping[str, Value] = {} if self.units.number == 1 else {"n_units": self.units}
        return work("I_peak", text, "A", None, P=peak, U=voltage, **more)


def checks(
    book: Edition, job: JobFile, starter: Starter, carried: Sequence[Carried], unknown: str
) -> Iterator[Check]:  # fmt: skip
    """The hardest motor, and all that start by themselves.

    Args:
        book: NFPA 70 in force.
        job: the job file.
        starter: what starts them.
        carried: the circuits that count.
        unknown: what has to be known before anything can be said; empty where it is.
    """
    starts = starting_currents(book, job, carried)
    yield _hardest(book, job, starter, carried, starts, unknown)
    if not unknown:
        yield _together(book, job, starter, carried, starts)


def _hardest(
    book: Edition, job: JobFile, starter: Starter, carried: Sequence[Carried], starts: Sequence[Start], unknown: str
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
    condition = BY_HAND if any(each.circuit.motor and not each.circuit.motor.by_itself for each in starts) else ""
    if starter.states:
        largest = worst("I_LR", [each.current for each in starts], "max")
        return at_most(id, title, clause, largest, starter.limit(job), condition=condition)
    beside = [_on_leg(job, starter, carried, [each], leg) for each in starts for leg in legs.LEGS]
    return at_most(id, title, clause, worst("I_start_all", beside, "max"), starter.limit(job), condition=condition)


def _no_motor(job: JobFile, carried: Sequence[Carried], id: str, title: str, clause: Clause) -> Check:
    """No circuit names a motor: that is an answer only where somebody looked."""
    silent = [each for each in carried if each.circuit.has_motor is not False]
    if not silent:
        return not_applicable(id, title, clause, "no backed-up circuit has a motor")
    names = ", ".join(each.circuit.id for each in silent)
    need = f"{job.file}: whether a motor is on {names}; write motor = {{ … }} or has_motor = false in each"
    return at_most(id, title, clause, missing("I_LR", "A", need), missing("I_start", "A", need))


def _together(
    book: Edition, job: JobFile, starter: Starter, carried: Sequence[Carried], starts: Sequence[Start]
) -> Check:
    """All motors that start without a person, at one moment; those of which nobody said may be among them.

    They pass where all of them together can be started; they fail where those that certainly start so cannot.
    """
    surely = [each for each in starts if each.circuit.motor and each.circuit.motor.by_itself]
    perhaps = [each for each in starts if each.circuit.motor and each.circuit.motor.by_itself is not False]
    id, title = "backup.motors-together", "The battery starts all motors that start by themselves when it takes over"
    clause, limit = book.clause("standby_capacity"), starter.limit(job)
    if len(perhaps) < 2:
        return not_applicable(id, title, clause, "no two motors that are carried start by themselves")
    found = at_most(id, title, clause, _most(job, starter, carried, perhaps), limit)
    if found.verdict == "fail" and len(surely) < len(perhaps):
        sure = at_most(id, title, clause, _most(job, starter, carried, surely), limit)
        asked = [f"panels.{each.panel}.circuits.{each.circuit.id}" for each in perhaps if each not in surely]
        needs = "; ".join(f"{path}.motor.by_itself: whether it starts without a person" for path in asked)
        found = sure if sure.verdict == "fail" else cannot_tell(id, title, clause, needs)
    return found


def _most(job: JobFile, starter: Starter, carried: Sequence[Carried], starts: Sequence[Start]) -> Value:
    return worst("I_together", [_on_leg(job, starter, carried, starts, leg) for leg in legs.LEGS], "max")


def _on_leg(job: JobFile, starter: Starter, carried: Sequence[Carried], starts: Sequence[Start], leg: int) -> Value:
    """Current in A on a line conductor while some motors start.

    Beside them runs everything else, where no current for starting motors is stated: the peak has to carry both.
    """
    starting: list[Value] = []
    for each in starts:
        where = legs.line(job, each.panel, each.circuit)
        if where.missing:
            return missing("I_start_all", "A", where.how, where)
        if legs.on(where, leg):
            starting.append(each.current)
    if starter.states:
        return total(f"I_LR_{leg}", starting, "A")
    own = {(each.panel, each.circuit.id) for each in starts}
    others = [each for each in carried if (each.panel, each.circuit.id) not in own]
    running = total("I_run", on_line(job, others, leg), "A")
    return work("I_start_all", "I_LR_all + I_run", "A", None, running, I_LR_all=total("I_LR_all", starting, "A"))
