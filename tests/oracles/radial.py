"""Random radial networks, and what standfast's own functions say of them.

A tree of runs of conductor. Every node draws a current that keeps its size (negative: a source feeds it), in phase with
the source, as the functions of the job have it. The current of a run is what all nodes beyond it draw.
"""

import os
import random
from collections.abc import Iterator
from typing import NamedTuple

from standfast import shelf
from standfast.rulebooks.handbook import voltage_drop
from standfast.sheet import Value, given, total

ALL_OF_THEM = "STANDFAST_CASES" in os.environ
BOOK = shelf.edition("handbook", "2026")
FEET_PER_KM = 1000 / 0.3048


def cases(in_check: int, in_full: int = 200) -> range:
    """Seeds: a sample in `make check`, all of them by `make oracle`."""
    return range(in_full if ALL_OF_THEM else in_check)


class Run(NamedTuple):
    """A run from one node to the next: resistance and reactance of one conductor in ohm/kft, length in ft."""

    above: int
    below: int
    r: float
    x: float
    feet: float

    @property
    def ohm(self) -> complex:
        """Impedance of one conductor."""
        return complex(self.r, self.x) * self.feet / 1000


class Tree(NamedTuple):
    """Node 0 is the source; run i leads to node i + 1. Currents in A by node, 0 at the source."""

    runs: tuple[Run, ...]
    drawn: tuple[float, ...]

    @property
    def nodes(self) -> range:
        """Every node, the source first."""
        return range(len(self.drawn))

    def way(self, node: int) -> Iterator[Run]:
        """The runs from a node up to the source."""
        while node:
            yield self.runs[node - 1]
            node = self.runs[node - 1].above

    def through(self, run: Run, drawn: tuple[float, ...]) -> list[float]:
        """What the nodes beyond a run draw."""
        return [drawn[node] for node in self.nodes if run in self.way(node)]


def tree(seed: int, most: float, voltage: float) -> Tree:
    """A random tree of 2 to 12 runs.

    Args:
        seed: of chance.
        most: greatest current at one node in A.
        voltage: of the supply in V; runs are as long as a house that keeps its voltage within some per cent allows.
    """
    chance = random.Random(seed)
    count = chance.randint(2, 12)
    runs = [_run(chance, node, voltage) for node in range(1, count + 1)]
    drawn = [0.0, *(chance.uniform(-most, most) for _ in range(count))]
    return Tree(tuple(runs), tuple(drawn))


def drops(net: Tree, system: voltage_drop.System) -> list[float]:
    """Fall of voltage in V from the source to each node, line to line, by the function that the job uses."""
    found = [_drop(net, run, system) for run in net.runs]
    return [total("V", [found[run.below - 1] for run in net.way(node)], "V").quantity for node in net.nodes]


def of(number: float, unit: str) -> Value:
    """A value of the test."""
    return given("x", number, unit, "test")


def word(text: str) -> Value:
    """A word of the test."""
    return given("x", text, "", "test")


def _drop(net: Tree, run: Run, system: voltage_drop.System) -> Value:
    current = total("I", [of(each, "A") for each in net.through(run, net.drawn)], "A")
    return voltage_drop.by_resistance(BOOK, system, of(run.r, "ohm/kft"), current, of(run.feet, "ft"))


def _run(chance: random.Random, node: int, voltage: float) -> Run:
    r = chance.choice((0.05, 0.1, 0.2, 0.5, 0.8, 1.2, 2.0))
    return Run(chance.randrange(node), node, r, chance.uniform(0.04, 0.07), chance.uniform(5, 0.1 * voltage / r))
