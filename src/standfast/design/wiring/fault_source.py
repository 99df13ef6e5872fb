"""What the grid can drive into a fault at the service: as the utility states it, or from its transformer.

The available fault current that a utility states is the largest of every kind of fault. The least is asked for what
must still trip. Where the ratio of reactance to resistance is not stated, nothing is taken off the greatest current on
the way, and the least is worked out with magnitudes added as plain numbers: both err on the safe side.
"""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from standfast.design.wiring.fault_pieces import Piece, greatest, least
from standfast.design.wiring.material import Material
from standfast.faults import Refusal
from standfast.rulebooks.handbook import fault_current, fault_path
from standfast.rulebooks.handbook.fault_path import Impedance
from standfast.sheet import Check, Value, at_least, at_most, attempt, chosen, given, missing, work, worst

SPLIT = "120/240 V single-phase"
RATIO = "supply.fault_x_over_r"
NOTHING = "supply.fault_current: a grid that drives nothing into a fault is none; ask the utility"
LEAST = "supply.least_fault_current"


class Loops(NamedTuple):
    """Impedances up to a place: of the loop between two lines, and of that from a line to neutral or ground."""

    lines: Impedance
    neutral: Impedance


class Grid(NamedTuple):
    """The grid at the service.

    Attributes:
        split: whether it is a centre-tapped single phase; missing where the system is not known.
        lines, neutral: voltages of both loops in V.
        strong: greatest current in kA at the service.
        greatest: impedances for the greatest current; None where they are not known in resistance and reactance.
        least: impedances for the least current.
        undiminished: what says why conductors take nothing off the greatest current, where greatest is None.
    """

    split: Value
    lines: Value
    neutral: Value
    strong: Value
    greatest: Loops | None
    least: Loops
    undiminished: Value


def grid(task: Material) -> Grid:
    """The grid of a job at its service."""
    fact = task.job.fact
    system, volts = fact("supply.system", "system"), fact("supply.voltage", "U", "V")
    split = chosen("split", False if system.missing else system.word == SPLIT, "", "the system", None, system)
    text = "U / 2" if split.missing or split.yes else "U / sqrt(3)"
    neutral = work("U_LN", text, "V", None, volts) if not split.missing else missing("U_LN", "V", split.how, split)
    plain = Grid(split, volts, neutral, at_service(task), None, _unknown(f"{LEAST}, or supply.transformer"),
                 _undiminished(task))  # fmt: skip
    return plain._replace(greatest=_strong(task, plain), least=_weak(task, plain))


def at_service(task: Material) -> Value:
    """Available fault current at the service in kA: as the utility states it, else from its transformer.

    From the transformer it is the current at the transformer's own terminals, of the greater of both loops.
    """
    if task.job.has("supply.fault_current") or not task.job.has("supply.transformer"):
        stated = task.job.fact("supply.fault_current", "I_sc", "kA")
        return stated if stated.missing or stated.quantity > 0 else missing("I_sc", "kA", NOTHING, stated)
    return of_transformer(task)


def of_transformer(task: Material) -> Value:
    """Greatest fault current in kA at the terminals of the utility's transformer, the grid ahead taken as strong."""
    fact, path, book = task.job.fact, "supply.transformer", task.handbook
    power, voltage = fact(f"{path}.rating", "S", "VA"), fact("supply.voltage", "U", "V")
    system, low = fact("supply.system", "system"), _tolerance(task, low=True)
    if system.missing:
        return missing("I_sc", "kA", system.how, system)

    def ask() -> Value:
        fault_path.possible(book, power, voltage, fact(f"{path}.impedance", "z_pct", "%"), low)
        z = work("z", "z_pct / 100", "1", None, fact(f"{path}.impedance", "z_pct", "%"))
        three_phase = system.word == "120/208 V three-phase"
        found = fault_current.at_transformer(book, three_phase, power, voltage, z, low).fault
        if system.word == SPLIT:
            why = f"{path}: what its half windings have is not known"
            found = fault_current.line_to_neutral(book, found, book.bounding("half_winding_bound", why))
        return work("I_sc", "I_A / 1000", "kA", None, I_A=found)

    return attempt("I_sc", "kA", ask)


def agreed(task: Material) -> Iterator[Check]:
    """Where both are stated, whether the transformer can give the stated current at the service, and would give less.

    The most is at the terminals of the transformer with a strong grid ahead of it, the least behind the service
    conductors with the weakest one that is stated.
    """
    if not (task.job.has("supply.fault_current") and task.job.has("supply.transformer")):
        return
    id, title, clause = "wiring.fault-current-stated", "Stated fault current and transformer", "fault_vector"
    said, stated = task.handbook.clause(clause), task.job.fact("supply.fault_current", "I_sc", "kA")
    most = at_most(f"{id}/most", f"{title}: the transformer can give it", said, stated, of_transformer(task))
    plain = grid(task)
    weak = _of_transformer(task, plain, low=False)
    loops = (plain.lines, weak.lines), (plain.neutral, weak.neutral)
    least = attempt("I_least", "kA", lambda: worst(
        "I_least", [fault_path.in_loop(task.handbook, *each) for each in loops], "min"
    ))  # fmt: skip
    low = at_least(f"{id}/least", f"{title}: it would not give more", said, stated, least)
    for each in (most, low):
        why = "fault current and transformer are of different services; ask the utility which holds"
        if each.verdict == "fail":
            yield each._replace(verdict="cannot tell", margin=None, reason=f"supply.fault_current: {why}")
        elif not (each is low and least.missing):
            yield each


def _strong(task: Material, seen: Grid) -> Loops | None:
    """For the greatest current, where resistance and reactance are known apart."""
    if seen.split.missing or seen.strong.missing:
        return None
    if task.job.has("supply.fault_current") and task.job.has(RATIO):
        return _of_current(task, seen, seen.strong, task.job.fact(RATIO, "q", "1"))
    stated = task.job.has("supply.fault_current") or not task.job.has("supply.transformer.x_over_r")
    return None if stated else _of_transformer(task, seen, low=True)


def _weak(task: Material, seen: Grid) -> Loops:
    """For the least current; in a row of magnitudes where the ratio is not known."""
    if task.job.has(LEAST):
        current, ratio = task.job.fact(LEAST, "I_least", "kA"), task.job.fact(RATIO, "q", "1")
        if task.job.has(RATIO):
            return _of_current(task, seen, current, ratio)
        flat = given("q", 0.0, "1", f"{RATIO} is not stated: magnitudes are added as plain numbers")
        return _of_current(task, seen, current, flat)
    if task.job.has("supply.transformer"):
        return _of_transformer(task, seen, low=False)
    return _unknown(f"{LEAST}, or supply.transformer with its primary_fault")


def aligned(task: Material) -> bool:
    """Whether the least current is worked out with magnitudes in a row, for want of a ratio."""
    word = RATIO if task.job.has(LEAST) else "supply.transformer.x_over_r"
    return not task.job.has(word)


def _of_current(task: Material, seen: Grid, current: Value, ratio: Value) -> Loops:
    book = task.handbook
    if seen.split.missing:
        return _unknown(seen.split.how)

    def loop(voltage: Value, through: Value) -> Impedance:
        return _asked(lambda: fault_path.of_current(book, voltage, through, ratio))

    if seen.split.yes:
        return Loops(loop(seen.lines, current), loop(seen.neutral, current))
    between = work("I_LL", "sqrt(3) / 2 * I_3", "kA", book.clause("fault_vector"), I_3=current)
    return Loops(loop(seen.lines, between), loop(seen.neutral, current))


def _of_transformer(task: Material, seen: Grid, *, low: bool) -> Loops:
    """Transformer, grid ahead of it and service conductors; `low`: at the end that gives the greatest current."""
    book, fact, path = task.handbook, task.job.fact, "supply.transformer"
    power, ratio = fact(f"{path}.rating", "S", "kVA"), _ratio(task, low=low)
    ahead = fact(f"{path}.primary_fault", "S_k", "kVA")
    if seen.split.missing:
        return _unknown(seen.split.how)

    def ask() -> Impedance:
        impedance, factor = fact(f"{path}.impedance", "z_pct", "%"), _tolerance(task, low=low)
        return fault_path.of_transformer(book, power, seen.lines, impedance, factor, ratio)

    winding = _asked(ask)
    if ahead.missing:
        strong = fault_path.none("the grid ahead of the transformer is taken as infinitely strong")
        grid_ahead = strong if low else fault_path.unknown(ahead.how)
    else:
        grid_ahead = _asked(lambda: fault_path.of_level(book, seen.lines, ahead, ratio))
        grid_ahead = _across(grid_ahead) if low else grid_ahead
    one = _asked(lambda: fault_path.in_series(book, [grid_ahead, winding]))
    out, back = _service_conductors(task, low=low)
    if seen.split.yes:
        half = fault_path.half_winding(book, winding)
        quarter = Impedance(*(work("Z_4", "Z / 4", "mohm", None, Z=each) for each in grid_ahead))
        neutral = [quarter, half, out, back]
        return Loops(fault_path.in_series(book, [one, out, out]), fault_path.in_series(book, neutral))
    return Loops(fault_path.in_series(book, [one, one, out, out]), fault_path.in_series(book, [one, out, back]))


def _service_conductors(task: Material, *, low: bool) -> tuple[Impedance, Impedance]:
    """From the transformer to the service: line and neutral; nothing is taken off where they are not known."""
    fact, path = task.job.fact, "supply.conductors"
    length = fact(f"{path}.length", "L", "ft")
    sets = fact(f"{path}.sets", "n_set", "1")
    size, material, raceway = (fact(f"{path}.{word}", word) for word in ("size", "material", "raceway"))
    neutral = fact(f"{path}.neutral", "neutral") if task.job.has(f"{path}.neutral") else size
    piece = Piece(("utility", "service-disconnect"), material, size, neutral, sets, raceway, length, length)
    if not low:
        return least(task, piece)
    lacking = any(each.missing for each in (length, sets, size, material, raceway))
    found = fault_path.none("service conductors are not known") if lacking else greatest(task, piece)
    return found, found


def _across(ahead: Impedance) -> Impedance:
    """A grid whose ratio nobody states, for the greatest current: all reactance, which adds least to what follows."""
    x = work("X_Q", "hypot(R, X)", "mohm", None, R=ahead.r, X=ahead.x)
    return Impedance(given("R_Q", 0.0, "mohm", "the grid ahead is taken as all reactance"), x)


def _ratio(task: Material, *, low: bool) -> Value:
    path = "supply.transformer.x_over_r"
    if task.job.has(path) or low:
        return task.job.fact(path, "q", "1")
    return given("q", 0.0, "1", f"{path} is not stated: magnitudes are added as plain numbers")


def _tolerance(task: Material, *, low: bool) -> Value:
    if task.job.has("supply.transformer.tolerance"):
        stated = task.job.fact("supply.transformer.tolerance", "tol", "%")
        return work("k_z", "1 - tol / 100" if low else "1 + tol / 100", "1", None, stated)
    return task.handbook.number("impedance_tolerance" if low else "impedance_tolerance_high")


def _undiminished(task: Material) -> Value:
    """A factor of one on the current at the service, safe for every way that conductors can take."""
    word = RATIO if task.job.has("supply.fault_current") else "supply.transformer.x_over_r"
    why = f"{word} is not stated: taken undiminished along the conductors, which is never less than the true current"
    return task.handbook.bounding("undiminished", why)


def _asked(ask: Callable[[], Impedance]) -> Impedance:
    """An impedance; what is refused is unknown, with the refusal as its reason."""
    try:
        return ask()
    except Refusal as refusal:
        return fault_path.unknown(str(refusal))


def _unknown(need: str) -> Loops:
    return Loops(fault_path.unknown(need), fault_path.unknown(need))
