"""Three-wire nets of 120/240 V as OpenDSS has them: every conductor a line of its own, the neutral one of them."""

import math
from collections.abc import Iterable
from typing import NamedTuple

from dss import DSS

LINE_TO_NEUTRAL_V = 120.0
LEG_1, LEG_2, NEUTRAL = 1, 2, 3


class Transformer(NamedTuple):
    """A centre-tapped one behind a primary without impedance: kVA, and the branches of its star in per unit of that."""

    kva: float
    branches: tuple[complex, complex, complex]


def begin(transformer: Transformer | None = None) -> None:
    """A net with nothing but its supply at bus ``n0``, whose neutral is on earth."""
    command("clear")
    command(f"new circuit.house phases=1 bus1={'hv.1.0' if transformer else 'n0.1.3'} basekv="
            f"{7.2 if transformer else 0.12} pu=1 angle=0 isc1=1e15 isc3=1e15")  # fmt: skip
    if transformer is None:
        command("new vsource.second phases=1 bus1=n0.2.3 basekv=0.12 pu=1 angle=180 isc1=1e15 isc3=1e15")
    else:
        first, second, third = transformer.branches
        r = " ".join(f"{100 * each.real}" for each in transformer.branches)
        pairs = {"xhl": first + second, "xht": first + third, "xlt": second + third}
        x = " ".join(f"{name}={100 * each.imag}" for name, each in pairs.items())
        command(f"new transformer.t phases=1 windings=3 buses=[hv.1.0 n0.1.3 n0.3.2] kvs=[7.2 .12 .12] "
                f"kvas=[{transformer.kva} {transformer.kva} {transformer.kva}] {x} %rs=[{r}] %noloadloss=0 %imag=0 "
                "ppm_antifloat=0")  # fmt: skip
    command("new reactor.earth phases=1 bus1=n0.3 bus2=n0.0 r=1e-9 x=0")


def run(name: str, above: str, below: str, line_ohm: complex, neutral_ohm: complex) -> None:
    """A run of two lines and a neutral between two buses."""
    for wire, z in ((LEG_1, line_ohm), (LEG_2, line_ohm), (NEUTRAL, neutral_ohm)):
        command(f"new line.{name}_{wire} phases=1 bus1={above}.{wire} bus2={below}.{wire} length=1 "
                f"r1={z.real} x1={z.imag} r0={z.real} x0={z.imag} c1=0 c0=0")  # fmt: skip


def draw(name: str, bus: str, start: int, end: int, amps: float) -> None:
    """A current that is drawn from one wire to another, in phase with the supply; negative where it is fed."""
    angle = 180 if start == LEG_2 else 0  # of the wire that it is drawn from
    command(f"new isource.{name} phases=1 bus1={bus}.{end} bus2={bus}.{start} amps={amps} angle={angle}")


def bolt(bus: str, start: int, end: int) -> None:
    """A fault between two wires, bolted as far as numbers go."""
    command(f"new fault.bolt phases=1 bus1={bus}.{start} bus2={bus}.{end} r=1e-9")


def solve() -> None:
    """The net as it stands."""
    command("set voltagebases=[7.2 0.12]")
    command("set mode=snapshot tolerance=1e-12 maxiterations=200")
    command("solve")
    if not DSS.ActiveCircuit.Solution.Converged:
        raise AssertionError("OpenDSS found no solution")


def volts(bus: str, start: int, end: int) -> float:
    """Voltage between two wires of a bus."""
    DSS.ActiveCircuit.SetActiveBus(bus)
    found = DSS.ActiveCircuit.ActiveBus
    pairs = zip(found.Voltages[::2], found.Voltages[1::2], strict=True)
    by_wire = {wire: complex(*pair) for wire, pair in zip(found.Nodes, pairs, strict=True)}
    return abs(by_wire[start] - by_wire[end])


def fault_a() -> float:
    """Current of the fault in A."""
    DSS.ActiveCircuit.SetActiveElement("fault.bolt")
    return math.hypot(*DSS.ActiveCircuit.ActiveCktElement.Currents[:2])


def commands(found: Iterable[str]) -> None:
    """Several in their order."""
    for each in found:
        command(each)


def command(text: str) -> None:
    """One sentence to OpenDSS."""
    DSS.Text.Command = text
