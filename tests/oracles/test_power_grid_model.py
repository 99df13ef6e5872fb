"""Voltage drop and faults against power-grid-model: a second opinion beside pandapower, by another method and language.

Where the models coincide, to 1e-6:

* Voltage: as in `test_pandapower`, loads of constant current, resistance alone, no charging of cables.
* Three-phase faults by the chain, line to line by the point-to-point method, line to earth by the loop impedance of
  BS 7671, line to earth by IEC 60909-0. Its voltage factor is 1.1 here, and it does not put the factor into the
  impedance of the supply.

Where they do not: the point-to-point method and the loop impedance add impedances as plain numbers. So every piece has
one ratio of X to R where those are compared for equality; `test_point_to_point_is_never_above` takes other ratios. An
earth fault needs the impedance of the way back: a line with the zero-sequence impedance Z_0 = Z_1 + 3 Z_PE has it.
"""

import math
import random
from collections.abc import Sequence

import pytest
import radial
from power_grid_model import (
    ComponentType,
    DatasetType,
    FaultPhase,
    FaultType,
    LoadGenType,
    PowerGridModel,
    initialize_array,
)

from standfast import shelf
from standfast.rulebooks.bs7671 import earth_fault
from standfast.rulebooks.handbook import fault_current
from standfast.rulebooks.iec60909 import network as iec

VOLTAGE_V = 400.0
C_MAX = 1.1
IEC60909 = shelf.edition("iec60909", "2016")
BS7671 = shelf.edition("bs7671", "2018-a2")


def model(
    ways: Sequence[tuple[int, int, complex, complex]], supply: complex, drawn: Sequence[float], kind: FaultType
) -> PowerGridModel:
    """A net: its lines with Z_1 and Z_0 in ohm, the supply's impedance in ohm, current by node in A, one fault each."""
    count = len(drawn)
    node = initialize_array(DatasetType.input, ComponentType.node, count)
    node["id"], node["u_rated"] = range(count), VOLTAGE_V
    line = initialize_array(DatasetType.input, ComponentType.line, len(ways))
    line["id"] = range(1000, 1000 + len(ways))
    line["from_node"], line["to_node"] = [each[0] for each in ways], [each[1] for each in ways]
    line["from_status"] = line["to_status"] = 1
    line["r1"], line["x1"] = [each[2].real for each in ways], [each[2].imag for each in ways]
    line["r0"], line["x0"] = [each[3].real for each in ways], [each[3].imag for each in ways]
    line["c1"] = line["tan1"] = line["c0"] = line["tan0"] = 0
    line["i_n"] = 1000
    source = initialize_array(DatasetType.input, ComponentType.source, 1)
    source["id"], source["node"], source["status"], source["u_ref"] = 2000, 0, 1, 1
    source["sk"], source["rx_ratio"], source["z01_ratio"] = VOLTAGE_V**2 / abs(supply), supply.real / supply.imag, 1
    load = initialize_array(DatasetType.input, ComponentType.sym_load, count)
    load["id"], load["node"], load["status"] = range(3000, 3000 + count), range(count), 1
    load["type"], load["q_specified"] = LoadGenType.const_current, 0
    load["p_specified"] = [math.sqrt(3) * VOLTAGE_V * each for each in drawn]
    fault = initialize_array(DatasetType.input, ComponentType.fault, 1)
    fault["id"], fault["status"], fault["fault_object"], fault["fault_type"] = 4000, 1, count - 1, kind
    phases = {FaultType.three_phase: FaultPhase.abc, FaultType.two_phase: FaultPhase.bc}
    fault["fault_phase"] = phases.get(kind, FaultPhase.a)
    fault["r_f"] = fault["x_f"] = 0
    parts = {ComponentType.node: node, ComponentType.line: line, ComponentType.source: source,
             ComponentType.sym_load: load, ComponentType.fault: fault}  # fmt: skip
    return PowerGridModel(parts, system_frequency=60)


def fault_a(net: PowerGridModel) -> float:
    """Current of the fault in A."""
    return float(net.calculate_short_circuit()[ComponentType.fault]["i_f"].max())


def chain(lines: Sequence[complex], back: Sequence[complex], supply: complex, kind: FaultType) -> float:
    """Fault in A at the end of lines in a row, with the conductors of the way back."""
    ways = [(at, at + 1, z, z + 3 * pe) for at, (z, pe) in enumerate(zip(lines, back, strict=True))]
    return fault_a(model(ways, supply, [0.0] * (len(lines) + 1), kind))


@pytest.mark.oracle
def test_voltage_drop_of_three_phase_trees() -> None:
    for seed in radial.cases(20):
        net = radial.tree(7000 + seed, 8, VOLTAGE_V)
        ways = [(run.above, run.below, complex(run.ohm.real), complex(run.ohm.real)) for run in net.runs]
        solved = model(ways, 1e-9 + 1e-9j, net.drawn, FaultType.three_phase)
        flow = solved.calculate_power_flow(error_tolerance=1e-12, max_iterations=100)
        theirs = [VOLTAGE_V - float(each) for each in flow[ComponentType.node]["u"]]
        assert radial.drops(net, "three_phase") == pytest.approx(theirs, rel=1e-6, abs=1e-5)


@pytest.mark.oracle
def test_three_phase_faults_along_chains() -> None:
    for seed in radial.cases(20):
        chance = random.Random(seed)
        supply = complex(chance.uniform(0.002, 0.1), chance.uniform(0.002, 0.1))
        r, x = [[chance.uniform(*band) for _ in range(3)] for band in ((0.05, 8), (0.06, 0.12))]
        metres = [chance.uniform(3, 80) for _ in range(3)]
        lines = [complex(*each) * m / 1000 for *each, m in zip(r, x, metres, strict=True)]
        theirs = chain(lines, [0j] * 3, supply, FaultType.three_phase)
        cables = [
            fault_current.Cable(radial.of(r[at], "mohm/m"), radial.of(x[at], "mohm/m"), radial.of(metres[at], "m"), ONE)
            for at in range(3)
        ]
        at_source = radial.of(supply.real * 1000, "mohm"), radial.of(supply.imag * 1000, "mohm")
        ours = fault_current.chain(radial.BOOK, radial.of(VOLTAGE_V, "V"), *at_source, cables)
        assert C_MAX * 1000 * ours.fault.quantity == pytest.approx(theirs, rel=1e-6)


ONE = radial.of(1, "1")


def line_to_line(chance: random.Random, ratios: Sequence[float]) -> tuple[float, float]:
    """Fault in A between two lines behind a supply and two runs, each with its own R/X: point to point, and theirs."""
    supply, runs = chance.uniform(0.003, 0.05), [chance.uniform(0.005, 0.2) for _ in range(2)]
    turned = [z * complex(rx, 1) / math.hypot(rx, 1) for z, rx in zip((supply, *runs), ratios, strict=True)]
    found = radial.of(C_MAX * VOLTAGE_V / (2 * supply), "A")
    for z in runs:  # C is the inverse of the impedance of one conductor over one foot
        c, length = radial.of(100 / z, "ft/ohm"), radial.of(100, "ft")
        voltage = radial.of(C_MAX * VOLTAGE_V, "V")
        found = fault_current.along_run(
            radial.BOOK, "single_phase_line_line", found, voltage, c, ONE, length
        ).fault  # fmt: skip
    return found.quantity, chain(turned[1:], [0j, 0j], turned[0], FaultType.two_phase)


@pytest.mark.oracle
def test_point_to_point_between_two_lines() -> None:
    for seed in radial.cases(20):
        chance = random.Random(seed)
        rx = chance.uniform(0.1, 5)
        ours, theirs = line_to_line(chance, (rx, rx, rx))
        assert ours == pytest.approx(theirs, rel=1e-6)


@pytest.mark.oracle
def test_point_to_point_is_never_above() -> None:
    below = 0
    for seed in radial.cases(20):
        chance = random.Random(seed)
        ours, theirs = line_to_line(chance, [chance.uniform(0.1, 5) for _ in range(3)])
        assert ours <= theirs * (1 + 1e-9)
        below += ours < 0.99 * theirs
    assert below  # the difference is one that counts


@pytest.mark.oracle
def test_earth_faults_by_the_loop_impedance() -> None:
    for seed in radial.cases(20):
        chance = random.Random(seed)
        turn = complex(chance.uniform(0.3, 4), 1)
        turn /= abs(turn)
        external, phase, earth = (chance.uniform(*band) for band in ((0.05, 0.8), (0.05, 1.5), (0.05, 2.5)))
        theirs = chain([phase * turn], [earth * turn], external * turn, FaultType.single_phase_to_ground)
        z_s = earth_fault.loop_impedance(BS7671, radial.of(external, "ohm"), radial.of(phase + earth, "ohm"))
        ours = earth_fault.earth_fault_current(BS7671, radial.of(C_MAX * VOLTAGE_V / math.sqrt(3), "V"), z_s)
        assert ours.quantity == pytest.approx(theirs, rel=1e-6)


@pytest.mark.oracle
def test_earth_faults_with_resistance_and_reactance_apart() -> None:
    c = iec.voltage_factor(IEC60909, "greatest, wide tolerance")
    for seed in radial.cases(20):
        chance = random.Random(seed)
        supply = complex(chance.uniform(0.002, 0.1), chance.uniform(0.002, 0.1))
        lines, back = [
            [complex(chance.uniform(0.01, 1), chance.uniform(0.001, 0.1)) for _ in range(3)] for _ in range(2)
        ]
        theirs = chain(lines, back, supply, FaultType.single_phase_to_ground)
        first = supply + sum(lines)
        parts = first, first + 3 * sum(back)
        milliohm = [radial.of(1000 * each, "mohm") for z in parts for each in (z.real, z.imag)]
        ours = iec.line_to_earth(IEC60909, c, radial.of(VOLTAGE_V, "V"), *milliohm)
        assert 1000 * ours.quantity == pytest.approx(theirs, rel=1e-6)
