"""The house as zones and gates, from the installation graph and the data sheets: nothing is typed twice.

A breaker, disconnect or fuse of the graph is a gate; so is what a data sheet tells of the inside of a device. An
inverter always lets power through: it may start by itself; and so does an island switch, which changes over by itself.
Conductors join the terminals at both their ends into one zone, also those that are not landed yet: nobody knows which
of two people lands first.
"""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from standfast.design.installation.graph import Installation, Link, Part, PartKind
from standfast.equipment.contradicted import endangers
from standfast.equipment.inside import Side
from standfast.fieldwork.isolation import worked_panels
from standfast.fieldwork.order.acts import Gate, Sensor, Site
from standfast.fieldwork.plan import Device, Plan

GATES: frozenset[PartKind] = frozenset({"breaker", "disconnect", "transfer equipment", "fuse"})
LINE, LOAD, INSIDE = "line", "load", "inside"
PULLED = ("connector", "fuse")
"""Kinds of gate that isolate when they are out, without a lock."""


class House(NamedTuple):
    """The house on which the order of the work is decided.

    Attributes:
        site: zones, gates and sources; a terminal is a part, or one side of it as ``part:side``.
        names: of parts, gates and sources, as drawings and labels have them.
    """

    site: Site
    names: Mapping[str, str]

    def called(self, name: str) -> str:
        """What people call a gate, a source, or the part that a terminal belongs to."""
        return self.names.get(name) or self.names.get(name.partition(":")[0], name)


def house_of(plan: Plan) -> House:
    """The house of a job."""
    return _Builder(plan).house()


def as_built(plan: Plan) -> House:
    """The house years after the work: every switch closed, no lock on, every connector joined, every cover on.

    Nobody knows how it was left. What is closed lets power through, so nothing that is closed here makes an order safe
    that is not.
    """
    house = house_of(plan)
    gates = tuple(gate._replace(closed=True, locked=False) for gate in house.site.gates)
    built = house.site.sensors
    seated = frozenset(id for each in built for id in (each.secondary, each.around))
    fronts = frozenset(front_id(panel.id) for panel in worked_panels(plan))
    covers = (house.site.covers - house.site.temporary) | seated | fronts
    return house._replace(
        site=house.site._replace(gates=gates, covers=covers, temporary=frozenset(), joined=frozenset())
    )


def all_gone(house: House) -> House:
    """The house as built, every device of which leaves: its measuring transformers must not stay."""
    gone = frozenset(id for each in house.site.sensors for id in (each.secondary, each.around))
    return house._replace(site=house.site._replace(temporary=gone))


class _Builder:
    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.graph: Installation = plan.installation
        self.devices = {each.id: each for each in plan.devices}
        self.owner = {f"{id}/inverter": id for id, each in self.devices.items() if each.role == "battery"}
        self.join: dict[str, str] = {}
        self.gates: list[Gate] = []
        self.names = {part.id: part.name for part in self.graph.parts.values()}

    def house(self) -> House:
        for link in self.graph.links:
            if link.kind != "bond" and not self._within(link):
                self._one(self._end(link.a, link.b, LOAD), self._end(link.b, link.a, LINE))
        for part in self.graph.of_kind(*GATES):
            closed = part.existing or part.kind == "transfer equipment"
            self.gates.append(Gate(part.id, f"{part.id}:{LINE}", f"{part.id}:{LOAD}", closed, part.kind != "fuse"))
        charged = [name for device in self.devices.values() for name in self._device(device)]
        sources = dict(self._sources())
        zones = {name: self._root(name) for name in sorted(self._terminals())}
        gates = tuple(gate._replace(a=self._root(gate.a), b=self._root(gate.b)) for gate in self.gates)
        temporary, joined = frozenset(self._temporary()), frozenset(self._connectors())
        sensors = tuple(each._replace(zone=self._root(each.zone)) for each in self._sensors())
        site = Site(
            gates, {name: self._root(at) for name, at in sources.items()}, frozenset(map(self._root, charged)),
            frozenset(self._covers()), zones, temporary, joined, sensors,
        )  # fmt: skip
        return House(site, self.names)

    def _within(self, link: Link) -> bool:
        """A joint inside one device: what its data sheet tells takes its place."""
        return self.owner.get(link.a) == link.b and link.b in self.devices

    def _end(self, part: str, other: str, side: str) -> str:
        """The terminal of a part at one end of a link."""
        kind = self.graph.parts[part].kind
        if kind in GATES:
            return f"{part}:{side}"
        if part in self.owner:
            return f"{self.owner[part]}:ac"
        device = self.devices.get(part)
        if device is None:
            return part
        if device.role == "battery":
            return f"{part}:dc"
        if side == LINE:
            return f"{part}:ac"
        return f"{part}:pv" if self.graph.parts[other].kind == "array" else f"{part}:dc"

    def _device(self, device: Device) -> Iterator[str]:
        """The inside of a device with its sides; gives back the terminals that keep a charge."""
        made = device.sheet
        for side in _sides(device):
            here = f"{device.id}:{side}"
            for gate in (each for each in made.gates if each.side == side):
                id = gate_id(device.id, gate.name)
                there = f"{id}:{INSIDE}"
                closed, locks = gate.delivered == "closed", gate.kind not in PULLED
                self.gates.append(Gate(id, here, there, closed, locks))
                self.names[id] = self._of(device, gate.name)
                here = there
            self._one(here, f"{device.id}:{INSIDE}")
        port = made.dc
        if device.role == "inverter" and (port is None or port.capacitance_charged is not False):
            yield f"{device.id}:dc"

    def _of(self, device: Device, name: str) -> str:
        """A thing of a device, in the language of the paper."""
        told = self.plan.told(device.sheet, name)
        return self.plan.say("aftercare.gate_of", gate=told, name=device.name)

    def _sources(self) -> Iterator[tuple[str, str]]:
        for part in self.graph.of_kind("utility", "generator", "array", "inverter", "battery"):
            if part.id in self.owner or (part.kind == "inverter" and part.id in self.devices):
                continue
            if part.kind == "array":
                yield part.id, self._array(part)
            else:
                yield part.id, f"{part.id}:cells" if part.id in self.devices else part.id

    def _array(self, part: Part) -> str:
        """A string is parted at its own connectors, which are apart until they are joined."""
        id = f"{part.id}/connectors"
        self.gates.append(Gate(id, f"{part.id}:string", part.id, part.existing, locks=False))
        connectors = self.plan.say("aftercare.string_connectors")
        self.names[id] = self.plan.say("aftercare.gate_of", gate=connectors, name=part.name)
        return f"{part.id}:string"

    def _covers(self) -> Iterator[str]:
        for device in self.devices.values():
            for zone in device.sheet.zones:
                if zone.under is not None:
                    yield cover_id(device.id, zone.under)
            for part in device.sheet.temporary:
                if part.delivered == "in place":
                    yield cover_id(device.id, part.name)

        for panel in worked_panels(self.plan):
            front = self.plan.say("order.front")
            self.names[front_id(panel.id)] = self.plan.say("aftercare.gate_of", gate=front, name=panel.name)
            if panel.existing:
                yield front_id(panel.id)

    def _temporary(self) -> Iterator[str]:
        for device in self.devices.values():
            for part in device.sheet.temporary:
                id = cover_id(device.id, part.name)
                self.names[id] = self._of(device, part.name)
                yield id

    def _connectors(self) -> Iterator[str]:
        """Connectors inside devices, and those of new strings."""
        yield from (f"{part.id}/connectors" for part in self.graph.of_kind("array") if not part.existing)
        for device in self.devices.values():
            yield from (gate_id(device.id, gate.name) for gate in device.sheet.gates if gate.kind == "connector")

    def _sensors(self) -> Iterator[Sensor]:
        """Those whose open secondary endangers, each round every conductor of the utility's, or its device's own."""
        for device in self.devices.values():
            for each in filter(endangers, device.sheet.sensors):
                id = secondary_id(device.id, each.name)
                self.names[id] = self._of(device, each.name)
                service = [part.id for part in self.graph.of_kind("utility")]
                link = cover_id(device.id, each.shorting) if each.shorting else ""
                for zone in service if each.measures == "service" else [f"{device.id}:ac"]:
                    yield Sensor(id, cover_id(device.id, each.name), zone, link)

    def _terminals(self) -> set[str]:
        return {*self.join, *(self._root(each) for each in self.join), *self.graph.parts}

    def _root(self, name: str) -> str:
        while self.join.get(name, name) != name:
            name = self.join[name]
        return name

    def _one(self, a: str, b: str) -> None:
        """Both are one zone."""
        first, second = self._root(a), self._root(b)
        self.join.setdefault(first, first)
        self.join[second] = first


def _sides(device: Device) -> list[Side]:
    """The sides of a device: of a battery its cells and what it feeds; of an inverter all that it joins."""
    made = device.sheet
    sides: list[Side] = ["ac", "dc"]
    if device.role == "battery":
        sides = ["cells", "ac" if made.dc is None else "dc"]
    return [*sides, "pv"] if made.pv_inputs else sides


def gate_id(device: str, name: str) -> str:
    """Id of a switch or connector inside a device, from what its data sheet calls it."""
    return f"{device}/{name.strip().lower().replace(' ', '-')}"


def secondary_id(device: str, name: str) -> str:
    """Id of the secondary of a measuring transformer; the transformer itself has that of a cover of its name."""
    return f"{gate_id(device, name)}/secondary"


def front_id(panel: str) -> str:
    """Id of the front of a panel."""
    return f"{panel}/front"


def cover_id(device: str, name: str) -> str:
    """Id of a cover of a device, from what its data sheet calls it."""
    return gate_id(device, name)
