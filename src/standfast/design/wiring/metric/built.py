"""Circuits of a metric job as they are to be built; drawings, schedules, signs and forms read them."""

from collections.abc import Mapping
from typing import Literal, NamedTuple

from standfast.sheet import Check, Value
from standfast.sheet.printed import amount


class Loop(NamedTuple):
    """The earth fault loop of a circuit and whether what protects it disconnects in time.

    Attributes:
        grid: impedance at its far end on the grid, conductors warm, in ohm.
        island: the same with the inverter as source, in ohm; None where the circuit is not carried without the grid.
        greatest: with which its breaker trips at once, in ohm.
        current: earth fault current on the grid in A.
        island_current: earth fault current without the grid in A; None as above.
        longest: disconnection time that the rules allow, in s.
    """

    grid: Value
    island: Value | None
    greatest: Value
    current: Value
    island_current: Value | None
    longest: Value


class MetricCircuit(NamedTuple):
    """One circuit.

    Attributes:
        id: ``battery-1``, or the name of the circuit that feeds a panel.
        title: what people call it.
        panel: the panel that it begins in.
        links: ids of the links of the installation that it runs along.
        new: true where this job builds it.
        device: ``breaker``, ``breaker with residual current device`` or ``fuse``.
        curve: tripping curve of the breaker, a letter.
        poles: of the device.
        cable: kind of cable.
        area: of the live conductors in mm2.
        protective_area: of the protective conductor in mm2.
        method: reference method of its worst place.
        factors: factors of its worst place by name: ambient, grouping, insulation.
        I_b: design current in A.
        I_n: rating of its device in A.
        I_t: tabulated current in A at its worst place.
        I_z: what the cable carries in A there.
        length: one way in m, at the bad end of the survey.
        drop: fall of voltage along it while it draws its design current, in per cent.
        rise: rise of voltage from the origin to its far end while the sources feed, in per cent; None for no source.
        r_12: line and protective conductor together, warm, in ohm.
        loop: its earth fault loop.
    """

    id: str
    title: str
    panel: str
    links: tuple[str, ...]
    new: bool
    device: Value
    curve: Value
    poles: Value
    cable: Value
    area: Value
    protective_area: Value
    method: Value
    factors: Mapping[str, Value]
    I_b: Value
    I_n: Value
    I_t: Value
    I_z: Value
    length: Value
    drop: Value
    rise: Value | None
    r_12: Value
    loop: Loop

    @property
    def conductors(self) -> str:
        """Cable and areas in words: ``6 mm² + 6 mm², 90 °C thermosetting, armoured``."""
        return f"{amount(self.area)} + {amount(self.protective_area)}, {amount(self.cable)}"

    @property
    def line(self) -> str:
        """The circuit in one line, for drawings: cable, protective conductor, device."""
        device = f"{amount(self.curve)}{self.I_n.quantity:g}" if not self.I_n.missing else "rating not known"
        return f"{self.conductors}; {amount(self.device)} {device}; {amount(self.length)} one way"

    @property
    def zs_grid(self) -> Value:
        """Loop impedance on the grid in ohm."""
        return self.loop.grid

    @property
    def zs_island(self) -> Value | None:
        """Loop impedance without the grid in ohm; None where it is not carried then."""
        return self.loop.island


class Final(NamedTuple):
    """A final circuit that the inverter carries while the grid is away.

    Attributes:
        id: panel and circuit.
        title: what people call it.
        path: where the job writes it.
        I_n: rating of its device in A.
        I_dn: rated residual current of its residual device in A; missing where nobody said whether it has one.
        residual: true, false, or None where nobody said: whether a residual device protects it.
        loop: its earth fault loop.
    """

    id: str
    title: str
    path: str
    I_n: Value
    I_dn: Value
    residual: bool | None
    loop: Loop


class Field(NamedTuple):
    """One answer of a form: what is asked, and the answer."""

    asked: str
    answer: Value


class Notification(NamedTuple):
    """What the grid operator is told or asked.

    Attributes:
        route: which procedure.
        current: of all sources together, in A per phase.
        fields: the answers of its form, in order.
    """

    route: Value
    current: Value
    fields: tuple[Field, ...]


class Reading(NamedTuple):
    """A reading that is taken when the work is done.

    Attributes:
        kind: ``loop``, earth fault loop impedance of a circuit that may be cold, in ohm; ``tripping``, time of a
            residual device at its rated current, in s; ``link``, neutral to earth in both positions; ``electrode``.
        name: of the circuit; empty where it is one of the house.
        limit: the greatest that it may be; None where no rule states one.
    """

    kind: Literal["loop", "tripping", "link", "electrode"]
    name: str
    limit: Value | None


class MetricWiring(NamedTuple):
    """The wiring of a metric job.

    Attributes:
        circuits: every circuit that the job builds: of the sources, then the feeders of panels.
        finals: the final circuits that are carried while the grid is away.
        assemblies: least rated current in A of every panel that sources feed, by its id.
        notification: what the grid operator is told; None where the adoption names no network rules.
        checks: every check, in order.
        readings: what is read when the work is done.
    """

    circuits: tuple[MetricCircuit, ...]
    finals: tuple[Final, ...]
    assemblies: Mapping[str, Value]
    notification: Notification | None
    checks: tuple[Check, ...]
    readings: tuple[Reading, ...] = ()
