"""The switch states that a house can be in: which sources run together, and which switches stand open meanwhile.

What is reachable follows from three rules. An inverter that forms no grid runs only where something that forms one is
joined to it. An inverter that forms a grid runs alone only when an island switch parts it from the utility, and only
where backup is wired. A generator is joined to the grid only where nothing keeps both apart, and to the battery only as
the job says. A fact that is not known leaves both answers reachable: such a state names the facts that it hangs on.
"""

import itertools
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from standfast.design.installation.graph import Installation, Part
from standfast.design.installation.yard import JobFile, Sheets
from standfast.sheet import Value, missing
from standfast.survey.joined import has_inverter, source_ids


class State(NamedTuple):
    """One reachable state of the house.

    Attributes:
        id: short and unique: ``grid``, ``island``, ``generator-1``.
        name: the same in words.
        opened: parts of the installation that stand open.
        idle: sources that do not run in it.
        hangs_on: facts that nobody stated, and without which nobody knows whether it is reachable; empty where it is.
    """

    id: str
    name: str
    opened: frozenset[str]
    idle: frozenset[str]
    hangs_on: tuple[Value, ...] = ()


class _Running(NamedTuple):
    """A combination before it is known to be reachable: the grid, generators with whether they join it, the battery."""

    grid: bool
    generators: tuple[tuple[str, bool], ...]
    battery: bool
    apart: bool

    @property
    def id(self) -> str:
        """One word for it."""
        words = [f"{id}-joined" if joined else id for id, joined in self.generators]
        if self.apart and self.battery:
            words.append("island-beside-grid" if self.grid else "island")
        elif self.grid:
            words.append("grid" if self.battery else "grid-only")
        elif self.battery:
            words.append("battery")
        return "-".join(words)


def states(job: JobFile, sheets: Sheets, installation: Installation) -> list[State]:
    """Every state that the house can be in, the one that feeds it from the grid first.

    Args:
        job: the job file.
        sheets: data sheets by role; what the battery or its inverter does without the grid is read from them.
        installation: the graph of the job.

    Returns:
        States that hang on nothing are reachable; those that hang on facts may be. Of several generators each runs by
        itself: `unknown` says so.
    """
    found, seen = list[State](), set[tuple[frozenset[str], frozenset[str]]]()
    house = _House(job, sheets, installation)
    for running in _combinations(house):
        state = house.state(running)
        if state is not None and (state.opened, state.idle) not in seen:
            seen.add((state.opened, state.idle))
            found.append(state)
    return found


def unknown(job: JobFile, sheets: Sheets, installation: Installation) -> list[Value]:
    """What has to be found out before the list of states is certain; each is a missing value with the word to add.

    Args:
        job: the job file.
        sheets: data sheets by role.
        installation: the graph of the job.
    """
    return lacking(job, sheets, installation, states(job, sheets, installation))


def lacking(job: JobFile, sheets: Sheets, installation: Installation, found: Sequence[State]) -> list[Value]:
    """The same of states that are known already."""
    needs = {each.how: each for state in found for each in state.hangs_on}
    house = _House(job, sheets, installation)
    for each in job.content.generators:
        if each.id not in installation.parts:
            need = f'panels.circuits: the breaker that it feeds, with feeds = "{each.id}"'
            needs[need] = missing("generator_breaker", "", need)
    if len(house.generators) > 1:
        need = "generators: more than one; whether two of them can run at one time is planned by a licensed person"
        needs[need] = missing("generators_together", "", need)
    if house.wants_backup and not house.switches and house.inverters:
        need = "panels.fed_through: the island switch that parts the backed-up circuits from the grid"
        needs[need] = missing("island_switch", "", need)
    return list(needs.values())


def _combinations(house: "_House") -> Iterator[_Running]:
    """Every combination worth asking, the grid before its absence, fewer generators before more."""
    each_alone = [()] + [((id, joined),) for id in house.generators for joined in (False, True)]
    for generators, grid, apart, battery in itertools.product(each_alone, (True, False), (False, True), (True, False)):
        if (battery or not house.batteries) and apart and not house.switches:
            continue
        yield _Running(grid, generators, battery and bool(house.batteries), apart)


class _House:
    """What a job says of its sources, gathered once."""

    def __init__(self, job: JobFile, sheets: Sheets, installation: Installation) -> None:
        self.job, self.sheets, self.installation = job, sheets, installation
        self.inverters = frozenset(part.id for part in installation.of_kind("inverter"))
        own = [each if has_inverter(job.content) else f"{each}/inverter" for each in source_ids(job.content)]
        self.batteries = frozenset(each for each in own if each in self.inverters)
        self.generators = [part.id for part in installation.of_kind("generator")]
        self.switches = frozenset(part.id for part in installation.of_kind("transfer equipment"))
        self.utilities = [part.id for part in installation.of_kind("utility")]

    @property
    def wants_backup(self) -> bool:
        """Whether the job asks the battery to carry circuits."""
        return self.job.content.backup.mode in ("circuits", "whole house")

    def state(self, running: _Running) -> State | None:
        """The state of a combination; None where it is not reachable, or is the same as one with fewer sources."""
        opened, hangs_on = set[str](), list[Value]()
        for id in self.generators:
            if not any(id == each for each, _ in running.generators):
                opened |= self._breaker(id)
        for id, joined in running.generators:
            if not joined:
                opened |= self._parting(id)
            elif not self._allows(f"generators.{id}.interlocked", False, hangs_on):
                return None
        if running.apart:
            opened |= self.switches
        ends = frozenset(opened)
        live = self._live(running, ends, hangs_on)
        if live is None:
            return None
        sources = self.inverters | {*self.generators, *self.utilities}
        return State(running.id, self._words(running, ends), ends, frozenset(sources - live), tuple(hangs_on))

    def _live(self, running: _Running, opened: frozenset[str], hangs_on: list[Value]) -> set[str] | None:
        """What runs in a combination; None where it is not reachable."""
        forming = set(self.utilities) if running.grid else set[str]()
        forming |= {id for id, _ in running.generators}
        if running.battery and running.apart:
            alone = {id for id in self.batteries if not self._meets(id, self.utilities, opened)}
            lone = {id for id in alone if not self._meets(id, forming, opened)}
            if lone and not self._islands(hangs_on):
                return None
            forming |= lone
        reached = set[str]().union(*(self.installation.reached(each, opened) for each in forming))
        run = self.inverters & reached if running.battery else (self.inverters - self.batteries) & reached
        if not forming or (running.battery and not run & self.batteries):
            return None
        if running.apart and not running.battery:
            return None  # a switch that no battery opened: nothing but the grid with less of the house on it
        for id, _ in running.generators:
            beside = run & self.batteries & self.installation.reached(id, opened)
            if beside and not self._allows(f"generators.{id}.with_battery", True, hangs_on):
                return None
        return forming | run

    def _meets(self, id: str, others: Sequence[str] | set[str], opened: frozenset[str]) -> bool:
        reached = self.installation.reached(id, opened)
        return any(each in reached for each in others)

    def _islands(self, hangs_on: list[Value]) -> bool:
        """Whether the battery can carry circuits by itself: it forms a grid, and backup is wired."""
        mode = self.job.fact("backup.mode", "mode")
        if not mode.missing and mode.word == "none":
            return False
        role = "inverter" if has_inverter(self.job.content) else "battery"
        sheet = self.sheets.get(role)
        need = f"equipment.{role}: choose one by the id of its data sheet"
        path = "electrical.forms_grid"
        forms = missing("forms_grid", "", need) if sheet is None else sheet.fact(path, "forms_grid")
        if not forms.missing and not forms.yes:
            return False
        hangs_on += [each for each in (mode, forms) if each.missing]
        return True

    def _allows(self, path: str, answer: bool, hangs_on: list[Value]) -> bool:
        """Whether a yes or no of the job is the one that makes a state reachable; one that nobody said may be."""
        fact = self.job.fact(path, path.rpartition(".")[2])
        if fact.missing:
            hangs_on.append(fact)
            return True
        return fact.yes is answer

    def _breaker(self, id: str) -> set[str]:
        """The breaker of a generator."""
        return {each.id for each, _ in self.installation.beside(id) if each.kind == "breaker"}

    def _parting(self, id: str) -> set[str]:
        """What an interlock opens: the switch on the way to the utility that is nearest beyond the breaker."""
        beyond = [self.installation.switch_to_utility(each) for each in self._breaker(id)]
        return {each.id for each in beyond if each is not None}

    def _words(self, running: _Running, opened: frozenset[str]) -> str:
        joined = [self._name(id) for id, together in running.generators if together]
        alone = [self._name(id) for id, together in running.generators if not together]
        rest = "the rest" if running.apart or alone else "the house"
        found = list[str]()
        if running.battery and running.apart:
            whole = self.job.content.backup.mode == "whole house"
            found.append(f"the battery carries {'the house' if whole else 'the backed-up circuits'}")
        found += [f"{each} feeds its panel" if running.grid or running.apart else f"{each} feeds the house"
                  for each in alone]  # fmt: skip
        if running.grid:
            found.append(f"the grid and {joined[0]} feed {rest} together" if joined else f"the grid feeds {rest}")
        else:
            found += [f"{each} feeds {rest}, joined to the utility's conductors" for each in joined]
        if not running.battery and self.batteries:
            found.append("the battery is off")
        elif running.battery and not running.grid and not running.apart:
            found.append("the battery runs beside it")
        return ", ".join(found if running.grid else [*found, "the grid is away"])

    def _name(self, id: str) -> str:
        part: Part = self.installation.parts[id]
        return f"the {part.name[0].lower()}{part.name[1:]}"
