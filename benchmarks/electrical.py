"""The electrical design of a job in process, against pandapower's power flow and short circuit of the same net.

The design is the graph, the wiring with every check, the load calculation and the backup, each number with its working.
pandapower solves one power flow and one three-phase short circuit of a net with a bus for every panel and circuit, as
balanced phases, since it has no split phase; the time to write that net is left out. It answers less, and more exactly
where voltages turn: the ratio says what a design costs, not which is better.
"""

import sys
import time
import warnings
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "oracles"))

SIZES = (10, 100, 1000)
"""Circuits of the jobs that show growth."""
DEMO_S, CIRCUIT_S = 0.06, 0.001
"""What is aimed at: for the demo job, and for each circuit of a large one."""
OHM_PER_KM, METRES = 0.5, 20.0
"""Of the lines of pandapower's net; its time does not hang on them."""


class Pair(NamedTuple):
    """One row: its name, the seconds aimed at, the seconds of ours and of pandapower's, how often both are run."""

    name: str
    aim_s: float
    ours: Callable[[], float]
    theirs: Callable[[], float]
    rounds: int


def pairs() -> Iterator[Pair]:
    """The demo job, then houses with more and more circuits."""
    from houses import grown

    from standfast.foreman.demo import job_text
    from standfast.survey.read import read

    yield _pair("electrical, demo", DEMO_S, read(job_text("one_wall")).survey, 21)
    for n in SIZES:
        yield _pair(f"electrical, {n}", max(DEMO_S, n * CIRCUIT_S), grown(n), 7)


def _pair(name: str, aim_s: float, survey: Any, rounds: int) -> Pair:
    from houses import sheets

    ours, theirs = partial(_design, survey, sheets(survey)), partial(_solve, _net(survey))
    return Pair(name, aim_s, _timed(ours), _timed(theirs), rounds)


def _timed(run: Callable[[], object]) -> Callable[[], float]:
    def seconds() -> float:
        start = time.perf_counter()
        run()
        return time.perf_counter() - start

    return seconds


def _design(survey: Any, chosen: Any) -> None:
    from houses import HANDBOOK, NEC

    from standfast.design.installation.build import build
    from standfast.design.wiring.backup import backup_load
    from standfast.design.wiring.load import service_load
    from standfast.design.wiring.whole import wire

    build(survey, chosen)
    wired, load = wire(NEC, HANDBOOK, survey, chosen), service_load(NEC, survey, chosen)
    backup = backup_load(NEC, survey, chosen, load.house)
    assert all((wired.checks, load.checks, backup.checks))


def _net(survey: Any) -> Any:
    import pandapower

    net = pandapower.create_empty_network(f_hz=60)
    service = pandapower.create_bus(net, 0.24)
    pandapower.create_ext_grid(net, service, s_sc_max_mva=3, rx_max=0.5)
    panels = {each.id: pandapower.create_bus(net, 0.24) for each in survey.job.panels}
    ways = [(panels.get(each.fed_from, service), panels[each.id]) for each in survey.job.panels]
    for panel in survey.job.panels:
        for circuit in panel.circuits:
            if circuit.feeds in panels:
                continue
            bus = pandapower.create_bus(net, 0.24)
            ways.append((panels[panel.id], bus))
            pandapower.create_load(net, bus, p_mw=1e-5, const_i_p_percent=100, const_i_q_percent=100)
    for above, below in ways:
        pandapower.create_line_from_parameters(net, above, below, METRES / 1000, OHM_PER_KM, 0.1, 0, 1)
    return net


def _solve(net: Any) -> None:
    import pandapower
    import pandapower.shortcircuit

    pandapower.runpp(net, numba=False)
    with warnings.catch_warnings():  # of its own dependencies
        warnings.simplefilter("ignore")
        pandapower.shortcircuit.calc_sc(net, case="max")
