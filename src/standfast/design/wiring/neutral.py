"""The neutral as a second layer of the installation: what is alive together, and how often neutral meets ground there.

A switch parts the line conductors of the two sides. Their neutrals stay joined through it unless it opens the neutral
too. So two parts of a house that are alive apart can share one neutral, with whatever joints to ground hang on it.

What is not known is carried as bounds: the fewest joints there can be and the most. Both bounds are attained, the first
with every unknown joint absent and every unknown switch opening its neutral, the second with the opposite.
"""

from collections import deque
from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple, Protocol

from standfast.design.installation import Installation
from standfast.design.installation.graph import SOURCES, PartKind
from standfast.sheet import Value

DIRECT: frozenset[PartKind] = frozenset({"battery", "array"})
"""Sources of direct current: they have no neutral, and reach a house only through an inverter."""


class Switching(Protocol):
    """A state of the installation: the switches that are open, the sources that give nothing.

    ``hangs_on`` are facts that nobody stated, and without which nobody knows whether the house can be in it.
    """

    @property
    def id(self) -> str: ...  # noqa: D102

    @property
    def name(self) -> str: ...  # noqa: D102

    @property
    def opened(self) -> frozenset[str]: ...  # noqa: D102

    @property
    def idle(self) -> frozenset[str]: ...  # noqa: D102

    @property
    def hangs_on(self) -> tuple[Value, ...]: ...  # noqa: D102


class Joint(NamedTuple):
    """A place where neutral and ground can be joined.

    Attributes:
        part: the part of the installation that it is in.
        name: the place in words.
        joined: yes, no or missing.
        when: always; or by a relay of its part, while that runs without the grid; or only while its part runs, because
            it is plugged in for that.
    """

    part: str
    name: str
    joined: Value
    when: Literal["always", "without the grid", "while it runs"] = "always"


class Island(NamedTuple):
    """What is alive together in one state: its sources, and every part that they reach. Ids."""

    sources: tuple[str, ...]
    parts: frozenset[str]


class Count(NamedTuple):
    """Joints of neutral and ground that an island has.

    Attributes:
        least, most: bounds of their number.
        sure: those that are certainly there.
        unsure: joints that may be there, because they, or a switch on the way to them, are not known.
        absent: places on the same neutral where they are known to be apart.
        open: values that have to be known before the number is.
        own: true where the neutral of the grid is certainly parted from this island's; missing knowledge is no parting.
    """

    least: int
    most: int
    sure: tuple[Joint, ...]
    unsure: tuple[Joint, ...]
    absent: tuple[Joint, ...]
    open: tuple[Value, ...]
    own: bool


class Layers:
    """An installation as lines and neutrals see it: its alternating-current side, inverters as ends."""

    def __init__(self, graph: Installation) -> None:
        self.graph = graph
        direct = {each.id for each in graph.of_kind(*DIRECT)}
        for source in graph.of_kind(*DIRECT):
            direct |= {id for id in graph.reached(source.id) if graph.parts[id].kind != "inverter"}
        self._ends = frozenset(each.id for each in graph.of_kind("inverter"))
        self._beside = {
            id: [part.id for part, _ in graph.beside(id) if part.id not in direct]
            for id in graph.parts
            if id not in direct
        }
        self._sources = [each.id for each in graph.of_kind(*(SOURCES - DIRECT)) if each.id not in direct]
        self._grids = [each.id for each in graph.of_kind("utility")]

    def alive(self, state: Switching) -> list[Island]:
        """What is alive in a state: each island with all sources that feed it, in the order of the parts."""
        found: list[Island] = []
        for source in self._sources:
            if source in state.idle or any(source in each.sources for each in found):
                continue
            parts = self._joined(source, state.opened)
            feeding = tuple(each for each in self._sources if each in parts and each not in state.idle)
            found.append(Island(feeding, frozenset(parts)))
        return found

    def count(
        self, state: Switching, island: Island, joints: Sequence[Joint], opens: Mapping[str, Value]
    ) -> Count:  # fmt: skip
        """The joints of neutral and ground of what is alive together.

        Args:
            state: which switches are open, which sources give nothing.
            island: what is alive together, from `alive`.
            joints: every place where neutral and ground can be joined.
            opens: of each switch that may open its neutral, whether it does: yes, no or missing. No other one does.
        """
        sides = {id: value for id, value in opens.items() if id in state.opened}
        surely = frozenset(id for id, value in sides.items() if not value.missing and value.yes)
        perhaps = frozenset(id for id, value in sides.items() if value.missing)
        near, far = (self._joined(island.sources[0], cut) for cut in (surely | perhaps, surely))
        reached = [each for each in joints if each.part in far]
        there = [each for each in reached if self._closed(state, each)]
        doubtful = [each for each in there if each.joined.missing]
        known = [each for each in there if not each.joined.missing and each.joined.yes]
        sure = tuple(each for each in known if each.part in near)
        unsure = (*doubtful, *(each for each in known if each not in sure))
        open_ = [each.joined for each in doubtful]
        if any(each.part not in near for each in unsure):
            open_ += [sides[id] for id in sorted(perhaps & far)]
        own = not any(each in far for each in self._grids)
        absent = tuple(each for each in reached if each not in sure and each not in unsure)
        return Count(len(sure), len(sure) + len(unsure), sure, unsure, absent, tuple(open_), own)

    def _closed(self, state: Switching, joint: Joint) -> bool:
        """Whether a joint can be closed in a state, as far as that hangs on what runs."""
        if joint.when == "always":
            return True
        if joint.part in state.idle:
            return False
        if joint.when == "while it runs":
            return True
        grids = [each for each in self._grids if each not in state.idle]
        return not any(joint.part in self._joined(grid, state.opened) for grid in grids)

    def _joined(self, start: str, cut: frozenset[str]) -> set[str]:
        """The parts that alternating current reaches from one, through no switch of `cut` and no inverter."""
        found, queue = {start}, deque([start])
        while queue:
            here = queue.popleft()
            if here != start and here in self._ends:
                continue
            for there in self._beside[here]:
                if there not in found and there not in cut:
                    found.add(there)
                    queue.append(there)
        return found
