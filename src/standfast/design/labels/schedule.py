"""Which label goes where, and why."""

from collections.abc import Iterator, Mapping, Sequence
from math import ceil
from typing import NamedTuple

from standfast.design.installation import Installation, Part
from standfast.design.labels.spots import SWITCHES, Spots, is_of_source
from standfast.rulebooks.nfpa70.marking import Mark, mark
from standfast.sheet import Clause, Value, work
from standfast.sheet.printed import amount
from standfast.shelf import Edition
from standfast.units import show


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
        number: how many of it there are at least.
        metric: true where the height of its letters is told in mm.
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
    number: int = 1
    metric: bool = False


RELOCATE, SUM = 2, 3
"""Options of 705.12(B) that ask for a sign: where the source sits decides, or the sum of all devices."""
BLANK = "________"
"""Stands for a text that nobody knows: it is asked for, and such a sign is not to be engraved."""
Row = tuple[str, str, str, str]
"""Sign, device, text that fills it in, and what on this job calls for it."""


def schedule(
    book: Edition, installation: Installation, options: Mapping[str, int], *, backup: bool, telephone: str = "",
    voltages: Mapping[str, Value] | None = None, lengths: Mapping[str, Value] | None = None,
    places: Mapping[str, str] | None = None,
) -> list[Label]:  # fmt: skip
    """The labels of the job.

    Args:
        book: NFPA 70 in force.
        installation: the graph.
        options: busbar to the option of 705.12(B) that it passes by; one that passes by none is left out.
        backup: true where the battery carries circuits without the grid.
        telephone: of the firm that serves the battery; empty where it is not known.
        voltages: greatest DC voltage of every PV array, in V.
        lengths: of the conductors of every PV array, in ft.
        places: part of the installation → where it is, in words; one that is not there has no known place.

    Raises:
        NotInEdition: where the edition holds one of the signs not.
    """
    service = installation.parts["service-disconnect"]
    outside = installation.parts.get("emergency-disconnect", service)
    spots = Spots(installation, places or {})
    sources = "; ".join(spots.sources())
    served = f"{sources}; emergency telephone {telephone or BLANK}"
    rows: list[Row] = [("source directory", service.name, served, "the building has more than one power source")]
    if outside is not service:
        why = "first responders look here for what else feeds the house"
        rows.append(("isolation directory", outside.name, "; ".join(spots.others()), why))
    rows += _in_other_buildings(installation, served)
    rows += _of_the_storage(installation, backup)
    rows += _of_arrays(installation, outside, voltages or {})
    rows += _of_switches(installation)
    rows += _of_busbars(installation, options)
    if backup:
        standby = "; ".join(spots.others(storage_only=True))
        rows.append(("standby source", outside.name, standby, "the battery carries circuits without the grid"))
    rows += _at_array_runs(installation)
    found = [
        _label(f"L{number}", mark(book, name), at, text, why) for number, (name, at, text, why) in enumerate(rows, 1)
    ]
    return _counted(book, installation, found, lengths or {})


def _counted(
    book: Edition, installation: Installation, labels: Sequence[Label], lengths: Mapping[str, Value]
) -> list[Label]:
    """The labels of the raceways of arrays, with as many as their length asks."""
    asked = {row[1] for row in _at_array_runs(installation)}
    arrays = {each.name: lengths.get(each.id) for each in installation.of_kind("array")}
    clause = mark(book, RACEWAY).clause if asked else None
    return [_along(book, each, arrays.get(each.at)) if each.clause == clause else each for each in labels]


def _along(book: Edition, label: Label, length: Value | None) -> Label:
    if length is None or length.missing:
        return label._replace(place=f"{label.place}; how many is not known: the length of the run is missing")
    apart = book.number("pv_label_spacing")
    number = work("n_label", "ceil(L / L_label) + 1", "1", label.clause, L=length, L_label=apart).quantity
    return label._replace(number=round(number), place=f"{label.place}: {number:.0f} on {amount(length)}")


def _of_the_storage(installation: Installation, backup: bool) -> Iterator[Row]:
    """At each disconnecting means of a unit, which is the unit itself where it has none of its own outside."""
    starter = next(iter(installation.of_kind("shutdown switch")), None)
    for unit in installation.of_kind("battery"):
        inside = installation.parts.get(f"{unit.id}/inverter")
        voltages = f"maximum {_at_most(unit.facts.get('dc_voltage'))} DC"
        if inside is not None:
            voltages = f"nominal {_volts(inside, 'ac_voltage')} AC, {voltages}"
        for part in _disconnects(installation, unit) or [unit]:
            yield from _at_disconnect(part, voltages, both=backup and part is not unit)
        if starter is None:
            at = (_disconnects(installation, unit) or [unit])[0]
            yield "emergency shutdown", at.name, "", "it shuts the storage system down"
    for inverter in _standing(installation):
        for part in _disconnects(installation, inverter):
            yield from _at_disconnect(part, f"nominal {_volts(inverter, 'ac_voltage')} AC", both=backup)
    if starter is not None:
        yield "emergency shutdown", starter.name, "", "it shuts the storage system down"


def _at_disconnect(part: Part, voltages: str, *, both: bool) -> Iterator[Row]:
    yield "storage disconnect", part.name, "", "it disconnects the storage system"
    yield "storage voltage", part.name, voltages, "it disconnects the storage system"
    if both:
        yield "both sides live", part.name, "", "the grid feeds one side of it, the battery the other"


def _disconnects(installation: Installation, source: Part) -> list[Part]:
    return [part for part in installation.of_kind("disconnect") if part.id.startswith(f"{source.id}/")]


def _standing(installation: Installation) -> list[Part]:
    """Inverters that this job puts up by themselves."""
    return [part for part in installation.of_kind("inverter") if part.role == "inverter"]


def _of_arrays(installation: Installation, service: Part, voltages: Mapping[str, Value]) -> Iterator[Row]:
    """At the inverter that PV arrays are joined to, and at the service where a roof is shut down from the ground."""
    arrays = installation.of_kind("array")
    if not arrays:
        return
    names = ", ".join(each.name for each in arrays)
    for inverter in _standing(installation):
        yield "pv disconnect", inverter.name, "", f"it disconnects {names}"
        for each in arrays:
            most = _at_most(voltages.get(each.id))
            yield "pv voltage", inverter.name, f"{each.name}: {most}", f"{each.name} ends in it"
    shut = [each for each in arrays if "rapid_shutdown" in each.facts and each.facts["rapid_shutdown"].number is True]
    if shut:
        starter = next((each.name for each in installation.of_kind("shutdown switch")), service.name)
        why = f"the conductors of {', '.join(each.name for each in shut)} on the roof are shut down from the ground"
        yield "rapid shutdown", service.name, starter, why
        yield "rapid shutdown switch", starter, "", f"it shuts down {', '.join(each.name for each in shut)} too"


RACEWAY = "pv raceway"


def _at_array_runs(installation: Installation) -> Iterator[Row]:
    """Along the DC raceways of every array."""
    for each in installation.of_kind("array"):
        if not each.existing:
            yield RACEWAY, each.name, "", f"its DC conductors run from the roof to {_joined_to(installation, each)}"


def _joined_to(installation: Installation, array: Part) -> str:
    return next((part.name for part, _ in installation.beside(array.id)), "the inverter")


def _of_switches(installation: Installation) -> Iterator[Row]:
    """Purpose of every new disconnecting means that no other sign tells, and the directories of panels that change."""
    switches = [part for part in installation.of_kind(*SWITCHES) if not part.existing]
    for part in switches:
        if not (part.kind == "disconnect" and is_of_source(part)):
            yield "purpose", part.name, _purpose(installation, part), "it is a new disconnecting means"
    for part in switches:
        panel = next((each for each, _ in installation.beside(part.id) if each.kind == "busbar"), None)
        if part.kind == "breaker" and panel is not None and panel.existing:
            yield "circuit directory", panel.name, part.name, f"{part.name} is new in it"
    for panel in installation.of_kind("busbar"):
        if not panel.existing:
            yield "circuit directory", panel.name, "every circuit, as in the panel schedule", "the panel is new"


def _of_busbars(installation: Installation, options: Mapping[str, int]) -> Iterator[Row]:
    """What the option asks for by which a busbar passes."""
    for busbar, option in options.items():
        panel = installation.parts[busbar]
        why = f"the busbar of {panel.name} passes by 705.12(B) option {option}"
        if option == SUM:
            yield "multiple sources", panel.name, "", why
        if option == RELOCATE:
            ways = [installation.path(busbar, each.id) for each in installation.of_kind("inverter")]
            below = [way[1].name for way in ways if len(way) > 1 and way[1].kind == "breaker"]
            for name in dict.fromkeys(name for name in below if name != _feeding(installation, panel)):
                yield "do not relocate", name, "", why


def _feeding(installation: Installation, panel: Part) -> str:
    """Name of the device that feeds a panel: what lies beyond it is not on this busbar."""
    way = next((installation.path(panel.id, each.id) for each in installation.of_kind("utility")), [])
    return way[1].name if len(way) > 1 else ""


def _label(id: str, sign: Mark, at: str, text: str, why: str) -> Label:
    wording = sign.wording.format(device=at, text=text).upper()
    return Label(id, wording, at, sign.place, sign.look, sign.letters_in, sign.clause, sign.ground, why)


def _volts(part: Part, fact: str) -> str:
    value = part.facts.get(fact)
    return "not known" if value is None else amount(value)


def _at_most(value: Value | None) -> str:
    """A greatest voltage as a sign tells it: whole volts, never less than it is."""
    return "not known" if value is None or value.missing else show(ceil(value.quantity), value.unit)


def _purpose(installation: Installation, part: Part) -> str:
    if is_of_source(part):
        side = "DC" if part.role == "dc_overcurrent" else "AC"
        return f"{side} circuit of the energy storage system"
    if part.kind == "transfer equipment":
        return "parts the backed-up circuits from the grid"
    fed = [each for each in installation.of_kind("busbar") if _feeding(installation, each) == part.name]
    through = [each.name for each in fed] or [
        each.name for each in installation.of_kind("busbar") if part in _way(installation, each) and not each.existing
    ]
    return f"feeds {', '.join(through)}" if through else "disconnecting means"


def _way(installation: Installation, panel: Part) -> list[Part]:
    """From a panel to the utility."""
    return [part for each in installation.of_kind("utility") for part in installation.path(panel.id, each.id)]


def _in_other_buildings(installation: Installation, served: str) -> Iterator[Row]:
    """A directory at the panel of every other building that a source stands in."""
    for bond in (link for link in installation.links if link.kind == "bond"):
        panel = installation.parts[bond.a]
        fed = [each for each in installation.feeding(panel.id) if each.kind == "inverter"]
        near = [each for each in fed if panel in installation.busbars_to_utility(each.id)]
        if panel.kind == "busbar" and near:
            yield "source directory", panel.name, served, f"{near[0].name} stands in a building of its own"
