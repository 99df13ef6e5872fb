"""The work split over days: each as full as it goes, with a night only where nothing is left open, dark or hanging.

How long a day is, only the firm says. Without that nobody knows how many days there are, and none is supposed.
"""

from collections.abc import Callable, Container, Mapping, Sequence
from typing import NamedTuple

from standfast.fieldwork.crew.off import Load, fed
from standfast.fieldwork.order.acts import Acts
from standfast.fieldwork.order.from_steps import step_of
from standfast.fieldwork.order.house import House
from standfast.fieldwork.steps import WorkStep


class Overnight(NamedTuple):
    """How the house stands when the crew goes home.

    Attributes:
        locked: gates that are open with a lock on them.
        loose: gates that are open without one: a lock goes on for the night where they take one.
        bare: covers that are off and were on.
        dark: circuits that had power before the work and have none.
    """

    locked: tuple[str, ...]
    loose: tuple[str, ...]
    bare: tuple[str, ...]
    dark: tuple[str, ...]

    @property
    def safe(self) -> bool:
        """True where nothing is off and nothing dark."""
        return not self.bare and not self.dark


class Visits(NamedTuple):
    """Steps by day, and the first block that fits into no day; that is empty where all fit."""

    days: tuple[tuple[str, ...], ...]
    too_long: tuple[str, ...] = ()


def filled(
    blocks: Sequence[Sequence[str]], steps: Sequence[WorkStep], turn: Mapping[str, int],
    fits: Callable[[Sequence[str]], bool], outside: frozenset[str] = frozenset(),
) -> Visits:  # fmt: skip
    """Put blocks into days, as many into each as fit.

    Args:
        blocks: that the work can rest between.
        steps: of the work, in an order that respects what they wait for.
        turn: when each step would be done if the work took one day; what is earlier there goes first.
        fits: whether some steps fit into one day.
        outside: steps that wait for somebody of another house, nobody knows how long: each begins a day.
    """
    after = {step.id: step.after for step in steps}
    place = {step.id: number for number, step in enumerate(steps)}
    left, done, days = list(blocks), set[str](), list[tuple[str, ...]]()
    left.sort(key=lambda block: min((turn.get(id, 0), place[id]) for id in block))
    while left:
        day = list[str]()
        while True:
            ready = [block for block in left if _ready(block, after, done | set(day))]
            waited = [block for block in ready if outside & set(block)]
            here = waited if waited and not day else [block for block in ready if block not in waited]
            block = next((each for each in here if fits(sorted([*day, *each], key=place.__getitem__))), None)
            if block is None:
                if not day:
                    return Visits(tuple(days), tuple((here or left)[0]))
                break
            day += block
            left.remove(block)
        done |= set(day)
        days.append(tuple(sorted(day, key=place.__getitem__)))
    return Visits(tuple(days))


def _ready(block: Sequence[str], after: Mapping[str, Sequence[str]], done: set[str]) -> bool:
    return all(before in done or before in block for id in block for before in after[id])


def overnight(
    house: House, acts: Acts, loads: Sequence[Load], grid: Sequence[str], done: Container[str]
) -> Overnight:  # fmt: skip
    """How the house stands after some steps.

    Args:
        house: before the work.
        acts: of all steps.
        loads: its circuits.
        grid: zones of the utility.
        done: ids of the steps that are done.
    """
    site = house.site
    closed, locked = {gate.id for gate in site.gates if gate.closed}, {gate.id for gate in site.gates if gate.locked}
    before, turned, bare = fed(site, grid, frozenset(closed)), set[str](), list[str]()
    for gate, chain in acts.of_gate.items():
        for act in (acts.all[place] for place in chain if step_of(acts.all[place].id) in done):
            turned.add(gate)
            told = closed if act.change in ("open", "close") else locked
            (told.add if act.change in ("close", "lock") else told.discard)(gate)
    for cover, chain in acts.of_cover.items():
        last = [acts.all[place] for place in chain if step_of(acts.all[place].id) in done][-1:]
        bare += [cover for act in last if act.uncovers and cover not in site.temporary]
    here = fed(site, grid, frozenset(closed))
    dark = tuple(
        load.name for load in loads
        if load.home in before and (load.new if load.move in done else load.home) not in here
    )  # fmt: skip
    opened = [gate.id for gate in site.gates if gate.id in turned and gate.id not in closed]
    return Overnight(
        tuple(id for id in opened if id in locked), tuple(id for id in opened if id not in locked), tuple(bare), dark
    )  # fmt: skip
