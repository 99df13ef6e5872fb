"""What is read when the work is done: loops, tripping times, the link of neutral and earth, the electrode."""

from collections.abc import Iterator

from standfast.design.wiring.metric.built import MetricWiring, Reading
from standfast.design.wiring.metric.question import Question
from standfast.sheet import Value, attempt, chosen, work


def due(q: Question, found: MetricWiring) -> Iterator[Reading]:
    """The readings of a job, each with its limit where the rules state one."""
    for circuit in found.circuits:
        yield Reading("loop", circuit.title, _cold(q, circuit.loop.greatest))
    for final in found.finals:
        yield Reading("loop", final.title, _cold(q, final.loop.greatest))
    for final in found.finals:
        if final.residual:
            yield Reading("tripping", final.title, _time(q))
    if q.job.content.backup.mode not in (None, "none"):
        yield Reading("link", "", None)
    if q.job.content.backup.own_electrode:
        yield Reading("electrode", "", None)


def _cold(q: Question, greatest: Value) -> Value:
    """The limit for a circuit that may be cold when it is read."""
    return attempt("Z_s_test", "ohm", lambda: work(
        "Z_s_test", "k_cold * Z_s_max", "ohm", q.clause("earth_loop"), k_cold=q.rules.number("cold_reading"),
        Z_s_max=greatest))  # fmt: skip


def _time(q: Question) -> Value:
    """Longest tripping time at the rated residual current."""
    once = chosen("n_dn", 1.0, "1", "read at its rated residual current", None)
    return attempt("t_rcd", "s", lambda: q.dialect.residual_time(q, once, False))
