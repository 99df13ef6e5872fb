"""Which of the two line conductors a circuit loads, and by how much. Rows of a panel alternate between them."""

from standfast.design.installation.build import JobFile
from standfast.sheet import Value, chosen, missing, work
from standfast.survey.power import Circuit

LEGS = (1, 2)
BOTH = "both lines"


def line(job: JobFile, panel: str, circuit: Circuit) -> Value:
    """Where a circuit is joined: ``line 1``, ``line 2`` or ``both lines``."""
    path = f"panels.{panel}.circuits.{circuit.id}"
    phases = job.fact(f"{path}.phases", "phases")
    if phases.missing:
        return missing("line", "", phases.how, phases)
    if phases.word != "line to neutral":
        return chosen("line", BOTH, "", phases.word, None, phases)
    if not circuit.spaces:
        return missing("line", "", f"{path}.spaces: which spaces its breaker takes decides its line conductor")
    row = (circuit.spaces[0] + 1) // 2
    return chosen("line", f"line {2 - row % 2}", "", f"space {circuit.spaces[0]} is in row {row}", None, phases)


def on(where: Value, leg: int) -> bool:
    """Whether a known line is, or holds, line conductor 1 or 2."""
    return where.word in (BOTH, f"line {leg}")


def current(job: JobFile, panel: str, circuit: Circuit, load: Value, leg: int) -> Value | None:
    """Current in A of a circuit on one line conductor; None where it is on the other one.

    Args:
        job: the job file.
        panel: the panel that the circuit is in.
        circuit: the circuit.
        load: its load in VA.
        leg: 1 or 2.
    """
    symbol, where = f"I_{circuit.id.replace('-', '_')}", line(job, panel, circuit)
    if where.missing:
        return missing(symbol, "A", where.how, where)
    if not on(where, leg):
        return None
    word = "supply.voltage" if where.word == BOTH else "supply.voltage_to_ground"
    return work(symbol, "S / U", "A", None, S=load, U=job.fact(word, "U", "V"))
