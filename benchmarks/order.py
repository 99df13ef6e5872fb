"""The decision for every order of the work, against walking the orders one state at a time, and against plain sorting.

`python -m benchmarks.order` prints how many states a walk has to visit, its time and its memory, and stops a walk that
would not end. The walk is the oracle of the tests: it looks at every set of steps that some order has done.
"""

import random
import sys
import time
import tracemalloc
from collections.abc import Callable, Iterator
from functools import partial
from graphlib import TopologicalSorter
from pathlib import Path
from typing import NamedTuple

from standfast.fieldwork.order.acts import Act, Acts, Gate, Site
from standfast.fieldwork.order.sequence import proven

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "fieldwork" / "order"))

WALKS = ((20, 3), (40, 4), (60, 6))
"""Steps and width of the jobs that are walked too."""
LARGE = (320, 20)
DEMO_S, LARGE_S = 0.05, 0.5
"""What is aimed at: for all touches of a demo job, and for the large one."""
MOST = 50_000
"""States after which a walk is given up."""


class Pair(NamedTuple):
    """One row: its name, the seconds aimed at, the seconds of ours and of the other's, its name, how often."""

    name: str
    aim_s: float
    ours: Callable[[], float]
    other: str
    theirs: Callable[[], float]
    rounds: int


def job(steps: int, width: int) -> tuple[Site, Acts]:
    """A job of so many steps on so many threads of work, each of which locks, proves, touches and lets go."""
    draw = random.Random(steps * 100 + width)
    zones = [f"zone-{n}" for n in range(width)]
    gates = [Gate(f"gate-{n}", "grid", zone, closed=True) for n, zone in enumerate(zones)]
    acts: list[Act] = []
    last = [""] * width
    for number in range(steps):
        lane, turn = number % width, number // width
        id, ends = f"step-{number}", turn >= steps // width - 2
        other = draw.choice([each for n, each in enumerate(last) if each and n != lane] or [""])
        after = tuple(each for each in (last[lane], other if draw.random() < 0.2 and not ends else "") if each)
        act, gate, zone = Act(id, after), gates[lane].id, zones[lane]
        if turn == 0:
            act = act._replace(gate=gate, change="open")
        elif turn == 1:
            act = act._replace(gate=gate, change="lock")
        elif ends:
            act = act._replace(gate=gate, change="unlock" if turn == steps // width - 2 else "close")
        else:
            act = act._replace(proves=(zone,)) if turn == 2 else act._replace(touches=(zone,))
        acts.append(act)
        last[lane] = id
    return Site(tuple(gates), {"utility": "grid"}), Acts(acts)


def pairs(folder: Path) -> Iterator[Pair]:
    """The demo job, the large one, and those that can be walked."""
    from standfast.fieldwork.order.house import house_of
    from standfast.fieldwork.work_order import work_order
    from standfast.foreman.pack import sitework
    from standfast.foreman.plan import make_plan

    plan = sitework(make_plan(folder / "job"))
    of_demo = work_order(plan).decided.acts

    def decide() -> None:
        proven(house_of(plan).site, Acts(of_demo.all))

    yield Pair("order, demo", DEMO_S, timed(decide), "sorting", timed(partial(sort, of_demo)), 21)
    site, acts = job(*LARGE)
    name = f"order, {LARGE[0]} steps, width {LARGE[1]}"
    yield Pair(name, LARGE_S, timed(partial(fresh, site, acts)), "sorting", timed(partial(sort, acts)), 7)
    site, acts = job(*WALKS[0])
    name = f"order, {WALKS[0][0]} steps, width {WALKS[0][1]}"
    yield Pair(name, DEMO_S, timed(partial(fresh, site, acts)), "walking", timed(partial(walked, site, acts)), 3)


def fresh(site: Site, acts: Acts) -> None:
    """The decision with everything that it is derived from."""
    proven(site, Acts(acts.all))


def sort(acts: Acts) -> None:
    """One order of the same acts, by the standard library."""
    list(TopologicalSorter({act.id: act.after for act in acts.all}).static_order())


def walked(site: Site, acts: Acts) -> int:
    """Every state, walked; how many there were."""
    from walk import walk

    return walk(site, acts, MOST)[1]


def timed(run: Callable[[], object]) -> Callable[[], float]:
    """The seconds of one run."""

    def seconds() -> float:
        start = time.perf_counter()
        run()
        return time.perf_counter() - start

    return seconds


def main() -> None:
    """Print states, seconds and memory of walking, and the seconds of the decision."""
    print("steps  width  decision s   states walked   walk s   memory MB")
    for steps, width in WALKS:
        site, acts = job(steps, width)
        ours = timed(partial(fresh, site, acts))()
        tracemalloc.start()
        start = time.perf_counter()
        states = walked(site, acts)
        took, memory = time.perf_counter() - start, tracemalloc.get_traced_memory()[1] / 1e6
        tracemalloc.stop()
        more = "more than " if states >= MOST else ""
        print(f"{steps:>5}  {width:>5}  {ours:>10.4f}   {more}{states:>13}   {took:>6.1f}   {memory:>9.0f}")


if __name__ == "__main__":
    main()
