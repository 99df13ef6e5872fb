"""Which label goes where, and why."""

from collections.abc import Mapping
from typing import NamedTuple

from standfast.design.installation import Installation, Part
from standfast.rulebooks.nfpa70.marking import Mark, mark
from standfast.sheet import Clause
from standfast.shelf import Edition


class Label(NamedTuple):
    """One label of the schedule.

    Attributes:
        id: number on the drawings: L1, L2, …
        wording: what it says.
        at: the device it is put on or beside.
        place: where the clause wants it.
        look: letters and background.
        letters_in: least height of the letters in inches.
        clause: the clause.
        ground: where clause and wording were read.
        why: what on this job calls for it.
    """

    id: str
    wording: str
    at: str
    place: str
    look: str
    letters_in: float
    clause: Clause
    ground: str
    why: str


BUSBAR_WARNINGS: dict[int, str] = {2: "do not relocate", 3: "multiple sources"}
"""Sign that an option of 705.12(B) asks for at the device that connects the source."""


def schedule(book: Edition, installation: Installation, options: Mapping[str, int], *, backup: bool) -> list[Label]:
    """The labels of the job.

    Args:
        book: NFPA 70 in force.
        installation: the graph.
        options: busbar to the option of 705.12(B) that it passes by; one that passes by none is left out.
        backup: true where the battery carries circuits without the grid.

    Raises:
        NotInEdition: where the edition holds one of the signs not.
    """
    rows: list[tuple[str, str, str, str]] = []
    switches = [part for part in installation.of_kind("breaker", "disconnect") if not part.existing]
    isolators = [part for part in switches if _of_storage(part)]
    service = installation.parts["service-disconnect"].name
    sources = _sources(installation)
    rows += [("source directory", service, sources, "the building has more than one power source")]
    for part in isolators:
        if part.kind == "disconnect":
            rows.append(("storage disconnect", part.name, "", "it disconnects the storage system"))
            rows.append(("emergency shutdown", part.name, "", "it shuts the storage system down"))
    for part in switches:
        rows.append(("purpose", part.name, _purpose(part), "it is a new disconnecting means"))
    for part in switches:
        if part.kind == "breaker":
            panel = next(each for each, _ in installation.beside(part.id) if each.kind == "busbar")
            rows.append(("circuit directory", panel.name, part.name, f"{part.name} is new in it"))
    for busbar, option in options.items():
        if option in BUSBAR_WARNINGS:
            why = f"the busbar of {installation.parts[busbar].name} passes by 705.12(B) option {option}"
            device = installation.path(busbar, installation.of_kind("inverter")[0].id)[1]
            rows.append((BUSBAR_WARNINGS[option], device.name, "", why))
    if backup:
        rows.append(("standby source", service, sources, "the battery carries circuits without the grid"))
    return [
        _label(f"L{number}", mark(book, name), at, text, why) for number, (name, at, text, why) in enumerate(rows, 1)
    ]


def _label(id: str, sign: Mark, at: str, text: str, why: str) -> Label:
    wording = sign.wording.format(device=at, text=text).upper()
    return Label(id, wording, at, sign.place, sign.look, sign.letters_in, sign.clause, sign.ground, why)


def _of_storage(part: Part) -> bool:
    return part.id.startswith("battery-")


def _purpose(part: Part) -> str:
    return "AC circuit of the energy storage system" if _of_storage(part) else "disconnecting means"


def _sources(installation: Installation) -> str:
    found = [f"utility, {installation.parts['service-disconnect'].name}"]
    for inverter in installation.of_kind("inverter"):
        unit = inverter.id.split("/")[0]
        switches = [part for part in installation.of_kind("disconnect", "breaker") if part.id.startswith(f"{unit}/")]
        at = next((part for part in switches if part.kind == "disconnect"), switches[0])
        found.append(f"{installation.parts[unit].name} (energy storage), {at.name}")
    return "; ".join(found)
