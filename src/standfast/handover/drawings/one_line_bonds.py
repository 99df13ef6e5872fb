"""Where neutral and ground are joined, as the one-line and the three-line diagram draw and tell it."""

from collections.abc import Mapping

from standfast.design.installation import Installation
from standfast.design.installation.build import JobFile, SheetFile
from standfast.handover.legs import earth_of
from standfast.survey.joined import has_inverter

ISLAND: dict[bool | None, str] = {
    False: "The island switch leaves the neutral closed: the bond at the service serves the battery too.",
    True: "The island switch opens the neutral: the side of the battery needs one bond of its own, and no more.",
    None: "Whether the island switch opens the neutral is not known: settle the bond of the battery first.",
}


class Joint:
    """A place where neutral and ground may be joined: its part in the graph, what people call it, what is known, and
    when, where it is not always."""

    __slots__ = ("name", "part", "there", "when")

    def __init__(self, part: str, name: str, there: bool | None, when: str = "") -> None:
        self.part, self.name, self.there, self.when = part, name, there, when


def joints(job: JobFile, sheets: Mapping[str, SheetFile], installation: Installation) -> list[Joint]:
    """Every place where neutral and ground are joined, kept apart, or nobody said.

    Args:
        job: the job file.
        sheets: data sheets by role.
        installation: the graph.
    """
    found: list[Joint] = []
    if job.content.supply.emergency_disconnect == "at the meter":
        mark = job.content.supply.emergency_disconnect_mark
        there = None if mark is None else mark == "service disconnect"
        found.append(Joint("emergency-disconnect", "emergency disconnect", there))
    for panel in job.content.panels:
        found.append(Joint(_device(installation, panel.id), panel.name or panel.id, panel.neutral_bonded))
    role, name = ("inverter", "inverter") if has_inverter(job.content) else ("battery", "battery unit")
    electrical = sheets[role].content.electrical if role in sheets else None
    bond = None if electrical is None else electrical.neutral_bond
    title = name if bond in (None, "none") else f"{name} ({bond})"
    there = None if bond is None else bond != "none"
    units = [part.id for part in installation.of_kind("inverter") if part.role == role]
    when = bond if bond == "while the grid is away" else ""
    found += [Joint(id, title, there, when) for id in units[:1] or [role]]
    found += [Joint(id, "", there, when) for id in units[1:]]
    for each in job.content.generators:
        found.append(Joint(each.id, each.name or each.id, each.neutral_bonded))
    return found


def _device(installation: Installation, panel: str) -> str:
    """Where the bond of a panel is drawn: at the service disconnect where that is in its enclosure."""
    service = any(
        link.a == "service-disconnect" and link.b == panel and link.kind == "internal" for link in installation.links
    )
    return "service-disconnect" if service else panel


def told(found: list[Joint], earth: str = "ground") -> str:
    """All places in one sentence; `earth` is what people call the ground."""
    places = {True: list[str](), False: list[str](), None: list[str]()}
    for each in found:
        if each.name:
            places[each.there].append(each.name)
    said = {True: f"Neutral and {earth} are joined in", False: "kept apart in", None: "not known in"}
    lines = [f"{said[known]}: {', '.join(names)}" for known, names in places.items() if names]
    if not places[True]:
        lines.insert(0, f"Neutral and {earth} are joined NOWHERE that is known")
    return f"{'; '.join(lines)}."


def grounding(job: JobFile, sheets: Mapping[str, SheetFile], installation: Installation) -> list[str]:
    """Lines about grounding and bonding."""
    supply, answers = job.content.supply, {True: "yes", False: "NO", None: "not known"}
    earth = earth_of(supply.system)
    lines = [told(joints(job, sheets, installation), earth)]
    if installation.of_kind("transfer equipment"):
        switch = sheets["island_switch"].content.switch if "island_switch" in sheets else None
        lines.append(ISLAND[None if switch is None else switch.neutral_switched])
    bonded = f"Bonded: water pipe {answers[supply.water_pipe_bonded]}, gas pipe {answers[supply.gas_pipe_bonded]}"
    if earth == "ground":
        bonded += f", intersystem terminal {answers[supply.intersystem_bonding]}"
    elif supply.earthing is not None:
        lines.append(f"The supply is earthed as {supply.earthing}.")
    lines.append(f"{bonded}.")
    return lines
