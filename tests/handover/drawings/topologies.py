"""Installations of every kind, made for the tests: only their graph, with ratings that are words."""

from itertools import pairwise

from standfast.design.installation import Installation, Link, Part
from standfast.design.installation.graph import PartKind
from standfast.handover.drawings.one_line_told import OneLine, RunWords
from standfast.handover.drawings.one_line_tree import Words

SAID: dict[str, tuple[str, ...]] = {
    "busbar": ("busbar 200 A, withstands 22 kA", "fault current 9.4 kA; label L11"),
    "breaker": ("60 A, 2-pole, interrupting 10 kA", "label L7"),
    "inverter": ("5.7 kW, 24 A continuous", "adds 45 A to a fault"),
}


class Made:
    """Parts and links, put together by chains of names."""

    def __init__(self) -> None:
        self.parts: dict[str, Part] = {}
        self.links: list[Link] = []

    def part(self, id: str, kind: PartKind, name: str = "") -> "Made":
        self.parts[id] = Part(id, kind, name or id.replace("-", " ").capitalize(), {}, existing=len(self.parts) % 3 > 0)
        return self

    def chain(self, *ids: str) -> "Made":
        """Links from each to the next; out of a busbar by its breaker."""
        for a, b in pairwise(ids):
            tap = self.parts[a].kind == "busbar" and self.parts[b].kind == "breaker"
            self.links.append(Link(f"{a} to {b}", a, b, "busbar" if tap else "conductor"))
        return self

    def told(self) -> OneLine:
        words = {id: Words(part.name, SAID.get(part.kind, ("60 A",))) for id, part in self.parts.items()}
        runs = [RunWords((link.id,), link.id, ("2 × 6 AWG Cu THHN/THWN-2",)) for link in self.links]
        return OneLine(Installation(self.parts.values(), self.links), words, runs, (), ())


def service() -> Made:
    made = Made().part("utility", "utility").part("meter", "meter").part("service-disconnect", "breaker")
    return made.part("main", "busbar", "Main panel").chain("utility", "meter", "service-disconnect", "main")


def two_inverters_on_one_backup_panel() -> Made:
    """Each inverter reaches the backup panel by a breaker in it."""
    made = service().part("backup", "busbar", "Backup panel")
    for n in "12":
        made.part(f"grid-{n}", "breaker").part(f"inverter-{n}", "inverter").part(f"output-{n}", "breaker")
        made.part(f"battery-{n}", "battery").chain("main", f"grid-{n}", f"inverter-{n}", f"battery-{n}")
        made.chain("backup", f"output-{n}")
        made.links.append(Link(f"run {n}", f"inverter-{n}", f"output-{n}", "conductor"))
    for n in "345":
        made.part(f"load-{n}-breaker", "breaker").part(f"load-{n}", "load").chain("backup", f"load-{n}-breaker")
        made.chain(f"load-{n}-breaker", f"load-{n}")
    return made


def generator_at_a_transfer_switch() -> Made:
    """A generator beside the grid, above the transfer switch that chooses between them."""
    made = service().part("feeder", "breaker").part("transfer", "transfer equipment", "Transfer switch")
    made.part("generator", "generator").part("generator-breaker", "breaker").part("backup", "busbar", "Backup panel")
    made.part("solar-breaker", "breaker").part("solar", "inverter").part("array", "array")
    made.chain("main", "feeder", "transfer", "backup").chain("generator", "generator-breaker", "transfer")
    return made.chain("main", "solar-breaker", "solar", "array")


def panels_in_four_levels() -> Made:
    """Each panel is fed from the one above; the last one has main lugs and a source."""
    made = service()
    above = "main"
    for n in range(1, 4):
        made.part(f"feeder-{n}", "breaker").part(f"panel-{n}", "busbar").chain(above, f"feeder-{n}", f"panel-{n}")
        made.part(f"heat-{n}-breaker", "breaker").part(f"heat-{n}", "load").chain(f"panel-{n}", f"heat-{n}-breaker")
        made.chain(f"heat-{n}-breaker", f"heat-{n}")
        above = f"panel-{n}"
    made.part("source-breaker", "breaker").part("inverter", "inverter").part("battery", "battery")
    return made.chain(above, "source-breaker", "inverter", "battery")


def feed_through() -> Made:
    """A second panel hangs on the feed-through lugs of the first."""
    made = service().part("second", "busbar", "Second panel").part("source-breaker", "breaker")
    made.part("inverter", "inverter").part("battery-1", "battery").part("battery-2", "battery").chain("main", "second")
    return made.chain("second", "source-breaker", "inverter", "battery-1").chain("inverter", "battery-2")


def grid_and_backup_port() -> Made:
    """A whole-house backup panel that an inverter and, past it, a bypass switch feed."""
    made = service().part("grid-breaker", "breaker").part("inverter", "inverter").part("backup", "busbar")
    made.part("bypass-breaker", "breaker").part("bypass", "transfer equipment", "Bypass switch")
    made.part("battery", "battery").chain("main", "grid-breaker", "inverter", "bypass", "backup")
    made.chain("main", "bypass-breaker", "bypass").chain("inverter", "battery")
    made.part("load-breaker", "breaker").part("load", "load").chain("backup", "load-breaker", "load")
    return made


def not_joined() -> Made:
    """A source that nobody has joined to anything that the utility reaches."""
    made = service().part("inverter", "inverter").part("battery", "battery").chain("inverter", "battery")
    return made.part("load-breaker", "breaker").part("load", "load").chain("main", "load-breaker", "load")


ALL = (
    two_inverters_on_one_backup_panel, generator_at_a_transfer_switch, panels_in_four_levels, feed_through,
    grid_and_backup_port, not_joined,
)  # fmt: skip
