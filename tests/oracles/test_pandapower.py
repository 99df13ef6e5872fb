"""Voltage drop and three-phase faults against pandapower.

Where the models coincide, to 1e-6 of the drop and of the current:

* Voltage: loads of constant current at unity power factor, resistance alone. pandapower keeps the size of a current and
  turns it with the voltage of its node; without reactance no voltage turns.
* Faults: IEC 60909 multiplies the voltage by c, and takes the impedance of the supply from c * U**2 / S_k; ours has the
  voltage factor 1 and gets that impedance as it is. So c times our current is compared. Both sum R and X apart.
* Faults behind a network transformer by our functions of IEC 60909-0: three phases and two, greatest and least, with
  the correction K_T of the greatest and both tolerances of voltage.

Where they do not: with reactance a voltage falls by R * I only nearly; `test_reactance_left_out` holds how much that
is. pandapower heats lines to their end temperature for the least fault; both have 20 °C here. Motors, loads and the
charging of cables are left out of a fault by both.
"""

import math
import random
import warnings
from typing import Any

import pandapower
import pandapower.shortcircuit
import pytest
import radial

from standfast import shelf
from standfast.rulebooks.handbook import fault_current, fault_path
from standfast.rulebooks.iec60909 import network as iec
from standfast.sheet import Value

VOLTAGE_V = 400.0
IEC60909 = shelf.edition("iec60909", "2016")


def network(net: radial.Tree, reactance: bool) -> Any:
    """The tree as pandapower has it, without its loads, and without charging current."""
    grid = pandapower.create_empty_network(f_hz=60)
    buses = pandapower.create_buses(grid, len(net.nodes), VOLTAGE_V / 1000)
    pandapower.create_ext_grid(grid, buses[0])
    for run in net.runs:
        pandapower.create_line_from_parameters(
            grid, buses[run.above], buses[run.below], run.feet / radial.FEET_PER_KM,
            r_ohm_per_km=run.r * radial.FEET_PER_KM / 1000, x_ohm_per_km=run.x * radial.FEET_PER_KM / 1000 * reactance,
            c_nf_per_km=0, max_i_ka=1,
        )  # fmt: skip
    return grid


def falls(net: radial.Tree, reactance: bool) -> list[float]:
    """Fall of voltage in V at each node, line to line, by pandapower's power flow."""
    grid = network(net, reactance)
    for node, current in enumerate(net.drawn):
        mw = math.sqrt(3) * VOLTAGE_V * current / 1e6
        pandapower.create_load(grid, node, p_mw=mw, const_i_p_percent=100, const_i_q_percent=100)
    pandapower.runpp(grid, numba=False, init="flat", tolerance_mva=1e-12)
    return [VOLTAGE_V * (1 - float(each)) for each in grid.res_bus.vm_pu]


@pytest.mark.oracle
def test_voltage_drop_of_three_phase_trees() -> None:
    feeding = 0
    for seed in radial.cases(10):
        net = radial.tree(seed, 8, VOLTAGE_V)
        ours, theirs = radial.drops(net, "three_phase"), falls(net, reactance=False)
        assert ours == pytest.approx(theirs, rel=1e-6, abs=1e-5)
        feeding += min(ours) < -0.1
    assert feeding > 1  # trees in which a source lifts the voltage are among them


@pytest.mark.oracle
def test_reactance_left_out() -> None:
    for seed in radial.cases(5):
        net = radial.tree(seed, 8, VOLTAGE_V)
        ours, theirs = radial.drops(net, "three_phase"), falls(net, reactance=True)
        assert ours == pytest.approx(theirs, abs=0.01 * VOLTAGE_V)  # of the voltage, not of the drop


@pytest.mark.oracle
def test_three_phase_faults_along_chains() -> None:
    for seed in radial.cases(10):
        chance = random.Random(seed)
        level_mva, rx, c = chance.uniform(0.5, 40), chance.uniform(0.1, 3), chance.choice((1.05, 1.1))
        lines = [(chance.uniform(0.05, 8), chance.uniform(0.06, 0.12), chance.uniform(3, 80)) for _ in range(4)]
        grid = pandapower.create_empty_network(f_hz=50)
        buses = pandapower.create_buses(grid, len(lines) + 1, VOLTAGE_V / 1000)
        pandapower.create_ext_grid(grid, buses[0], s_sc_max_mva=level_mva, rx_max=rx)
        for at, (r, x, metres) in enumerate(lines):
            pandapower.create_line_from_parameters(grid, buses[at], buses[at + 1], metres / 1000, r, x, 0, 1)
        with warnings.catch_warnings():  # of its own dependencies
            warnings.simplefilter("ignore")
            pandapower.shortcircuit.calc_sc(grid, case="max", lv_tol_percent=6 if c == 1.05 else 10)
        z_mohm = c * VOLTAGE_V**2 / level_mva / 1000
        source = radial.of(z_mohm * rx / math.hypot(1, rx), "mohm"), radial.of(z_mohm / math.hypot(1, rx), "mohm")
        for at in buses:
            cables = [
                fault_current.Cable(
                    *(radial.of(each, "mohm/m") for each in (r, x)), radial.of(m, "m"), radial.of(1, "1")
                )
                for r, x, m in lines[:at]
            ]
            ours = fault_current.chain(radial.BOOK, radial.of(VOLTAGE_V, "V"), *source, cables).fault.quantity
            assert c * ours == pytest.approx(float(grid.res_bus_sc.ikss_ka[at]), rel=1e-6)


def behind_transformer(chance: random.Random, end: iec.End, two: bool) -> tuple[float, float]:
    """Fault in kA behind grid, transformer and cable: by standfast and by pandapower."""
    level_mva, rx, kva = chance.uniform(50, 500), chance.uniform(0.05, 0.5), chance.choice((100, 250, 400, 630))
    u_k, u_r = chance.uniform(3.5, 6), chance.uniform(0.8, 2)
    line = chance.uniform(0.05, 4), chance.uniform(0.06, 0.12), chance.uniform(3, 80)
    wide, least = end == "greatest, wide tolerance", end == "least"
    grid = pandapower.create_empty_network(f_hz=50)
    high, low, far = (pandapower.create_bus(grid, kv) for kv in (20, VOLTAGE_V / 1000, VOLTAGE_V / 1000))
    pandapower.create_ext_grid(
        grid, high, s_sc_max_mva=level_mva, rx_max=rx, s_sc_min_mva=level_mva, rx_min=rx
    )  # fmt: skip
    pandapower.create_transformer_from_parameters(
        grid, high, low, kva / 1000, 20, VOLTAGE_V / 1000, vkr_percent=u_r, vk_percent=u_k, pfe_kw=0, i0_percent=0
    )
    pandapower.create_line_from_parameters(grid, low, far, line[2] / 1000, *line[:2], 0, 1, endtemp_degree=20)
    with warnings.catch_warnings():  # of its own dependencies
        warnings.simplefilter("ignore")
        pandapower.shortcircuit.calc_sc(
            grid, fault="2ph" if two else "3ph", case="min" if least else "max", lv_tol_percent=10 if wide else 6
        )
    theirs = float(grid.res_bus_sc.ikss_ka[far])
    of, c, c_high = radial.of, iec.voltage_factor(IEC60909, end), 1.0 if least else 1.1
    z_grid = c_high * VOLTAGE_V**2 / level_mva / 1000 / math.hypot(1, rx)
    z_t, r_t = (
        iec.transformer(IEC60909, of(kva, "kVA"), of(VOLTAGE_V, "V"), of(each, "%")).quantity for each in (u_k, u_r)
    )
    k_t = 1.0 if least else iec.correction(IEC60909, c, of(math.sqrt(u_k**2 - u_r**2) / 100, "1")).quantity
    ends = of(line[0], "mohm/m"), of(line[1], "mohm/m"), of(line[2], "m"), of(1, "1")
    way = fault_path.in_series(radial.BOOK, [
        fault_path.Impedance(of(z_grid * rx, "mohm"), of(z_grid, "mohm")),
        fault_path.Impedance(of(k_t * r_t, "mohm"), of(k_t * math.sqrt(z_t**2 - r_t**2), "mohm")),
        fault_path.of_conductor(radial.BOOK, *ends),
    ])  # fmt: skip
    ask = iec.line_to_line if two else iec.three_phase
    found: Value = ask(IEC60909, c, of(VOLTAGE_V, "V"), way.r, way.x)
    return found.quantity, theirs


@pytest.mark.oracle
@pytest.mark.parametrize("two", [False, True])
@pytest.mark.parametrize("end", ["greatest", "greatest, wide tolerance", "least"])
def test_faults_behind_a_network_transformer(end: iec.End, two: bool) -> None:
    for seed in radial.cases(2, 40):
        ours, theirs = behind_transformer(random.Random(seed), end, two)
        assert ours == pytest.approx(theirs, rel=1e-4)
