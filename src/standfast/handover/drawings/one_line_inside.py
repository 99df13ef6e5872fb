"""Devices inside a panel, a battery unit or an inverter, which the graph counts as one part and the diagram shows.

The main of a panel that a feeder reaches; the switch and the overcurrent device in the head of a battery; the switch
of an inverter for its PV arrays. Each stands there because job or data sheet says so.
"""

from collections.abc import Mapping

from standfast.design.installation import Installation, Link, Part
from standfast.design.installation.build import JobFile, SheetFile
from standfast.design.installation.graph import PartKind
from standfast.sheet import Value

MAIN, INSIDE = "/main", "/inside/"


def is_main(part: Part) -> bool:
    """True for the main of a panel."""
    return part.kind == "breaker" and part.id.endswith(MAIN)


def is_inside(part: Part) -> bool:
    """True for a device that is a piece of a battery unit or of an inverter."""
    return INSIDE in part.id


def detailed(installation: Installation, job: JobFile, sheets: Mapping[str, SheetFile]) -> Installation:
    """The installation with every device inside another one that job and sheets tell of.

    Args:
        installation: the graph of the design.
        job: the job file.
        sheets: data sheets by role.
    """
    made = _Shown(installation)
    for bus in installation.of_kind("busbar"):
        _main(made, job, bus)
    for battery in installation.of_kind("battery"):
        _head(made, sheets, battery)
    for inverter in installation.of_kind("inverter"):
        if inverter.role == "inverter":
            _pv_switch(made, sheets, inverter)
    return made.done()


class _Shown:
    """Parts and links, each in its order, while devices are put between them."""

    def __init__(self, installation: Installation) -> None:
        self.before = installation
        self.parts, self.links = list(installation.parts.values()), list(installation.links)

    def way_in(self, id: str) -> Link | None:
        """The link by which a part hangs from what lies towards the utility."""
        return next((link for link in self.links if link.b == id and link.kind != "bond"), None)

    def put(self, part: Part, before: str) -> None:
        """A part, in the list before another one."""
        self.parts.insert(next(at for at, each in enumerate(self.parts) if each.id == before), part)

    def lead(self, link: Link, *, start: str | None = None, end: str | None = None) -> None:
        """Let a link begin or end at another part."""
        at = self.links.index(link)
        self.links[at] = link._replace(a=start or link.a, b=end or link.b)

    def join(self, a: str, b: str, first: bool = False) -> None:
        """Two parts in one enclosure; `first` where it is drawn before all else that hangs from `a`."""
        self.links.insert(0 if first else len(self.links), Link(f"{a}–{b}", a, b, "internal"))

    def done(self) -> Installation:
        return Installation(self.parts, self.links)


def _main(made: _Shown, job: JobFile, bus: Part) -> None:
    """The main of a panel; that of the panel at the service is the service disconnect."""
    feed, rating = made.way_in(bus.id), bus.facts["main"]
    if feed is None or feed.kind != "conductor" or rating.missing:
        return
    facts = {"rating": rating, "interrupting": job.fact(f"panels.{bus.id}.breaker_interrupting", "I_cn", "A")}
    main = Part(f"{bus.id}{MAIN}", "breaker", f"{bus.name} main", facts, bus.existing)
    made.put(main, bus.id)
    made.lead(feed, end=main.id)
    made.join(main.id, bus.id)


def _head(made: _Shown, sheets: Mapping[str, SheetFile], battery: Part) -> None:
    """Switch and overcurrent device between the DC terminals of a battery and its cells."""
    sheet, way = sheets.get(battery.role), made.way_in(battery.id)
    if sheet is None or sheet.content.dc is None or way is None or way.kind != "conductor":
        return
    row: list[Part] = []
    electrical = sheet.content.electrical
    if electrical is not None and electrical.disconnect_inside:
        row.append(_inside(battery, "switch", "disconnect", f"{battery.name} switch", {}))
    if sheet.has("dc.overcurrent_device"):
        facts = {"rating": sheet.fact("dc.overcurrent_device", "I_n", "A"),
                 "interrupting": sheet.fact("dc.interrupting", "I_cn", "A")}  # fmt: skip
        kind: PartKind = "breaker" if sheet.content.dc.overcurrent_kind == "breaker" else "fuse"
        row.append(_inside(battery, "overcurrent", kind, f"{battery.name} overcurrent device", facts))
    if not row:
        return
    made.lead(way, end=row[0].id)
    for part, after in zip(row, [*row[1:], battery], strict=True):
        made.put(part, battery.id)
        made.join(part.id, after.id)


def _pv_switch(made: _Shown, sheets: Mapping[str, SheetFile], inverter: Part) -> None:
    """The switch of an inverter between its PV terminals and its inputs: one for all arrays."""
    sheet = sheets.get(inverter.role)
    electrical = None if sheet is None else sheet.content.electrical
    arrays = {part.id for part in made.before.of_kind("array")}
    ways = [link for link in made.links if link.a == inverter.id and link.b in arrays]
    if electrical is None or not electrical.pv_switch_inside or not ways:
        return
    switch = _inside(inverter, "pv-switch", "disconnect", f"{inverter.name} PV switch", {})
    made.put(switch, ways[0].b)
    for way in ways:
        made.lead(way, start=switch.id)
    made.join(inverter.id, switch.id, first=True)


def _inside(owner: Part, id: str, kind: PartKind, name: str, facts: Mapping[str, Value]) -> Part:
    return Part(f"{owner.id}{INSIDE}{id}", kind, name, facts, owner.existing, owner.role)
