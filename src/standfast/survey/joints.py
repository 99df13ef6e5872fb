"""Faults in what the routes join: each route is in order by itself, together they cannot be built."""

from collections.abc import Iterator

from standfast.faults import Fault
from standfast.reading import Document
from standfast.survey.joined import INVERTER, SERVICE_TAP, devices, has_inverter, owner, source_ids, unit_ids, way
from standfast.survey.model import Job
from standfast.survey.pieced import pieced

ELSEWHERE = frozenset({"utility", "island-switch", SERVICE_TAP})
"""Ends that every job can have, beside its panels, arrays and devices."""


def routed(survey: Document[Job]) -> Iterator[Fault]:
    """Every fault in what routes and circuits join."""
    yield from _named(survey)
    yield from _pairs(survey)
    yield from _circuits(survey)
    yield from pieced(survey)


def _named(survey: Document[Job]) -> Iterator[Fault]:
    """Ends that this job has not: a third unit of two, an inverter where none is chosen."""
    job = survey.content
    known = {*devices(job), *ELSEWHERE, *survey.named("panels"), *survey.named("arrays")}
    for number, route in enumerate(job.routes):
        for word, end in (("from", route.from_), ("to", route.to)):
            why, todo = _not_there(job, end)
            if end not in known and why:
                what = f'route "{route.id}" is joined to "{end}"'
                yield survey.fault(("routes", number, word), what, why, todo)
    for number, panel in enumerate(job.panels):
        for nth, circuit in enumerate(panel.circuits):
            feeds = circuit.feeds
            if feeds is not None and feeds not in known and not owner(job, circuit):
                why, todo = _not_there(job, feeds)
                if why:
                    what = f'"{circuit.id}" feeds "{feeds}"'
                    yield survey.fault(("panels", number, "circuits", nth, "feeds"), what, why, todo)


def _not_there(job: Job, end: str) -> tuple[str, str]:
    """Why a word names nothing of this job, and what to write; empty for a word that never does."""
    count, (kind, _, number) = len(unit_ids(job)), end.rpartition("-")
    if end == "inverter" or end.startswith(("dc-disconnect", "fuse")):
        if end.startswith("fuse") and has_inverter(job) and job.equipment.dc_overcurrent is None:
            return "no DC fuse is chosen", "choose equipment.dc_overcurrent, or name another end"
        if end == "fuse" and has_inverter(job):
            return f"there are {count} units", 'say whose: "fuse-1"'
        if not has_inverter(job):
            return "no inverter is chosen beside the battery unit", "choose equipment.inverter, or name another end"
        return f"quantity is {count}", "name a unit of the job"
    if end.startswith("disconnect") and has_inverter(job):
        return "the one inverter has one AC disconnect", 'write "disconnect"'
    if end in ("battery", "disconnect"):
        return f"there are {count} units", f'say which one: "{end}-1"'
    if kind in ("battery", "disconnect") and number.isdecimal():
        return f"quantity is {count}", "correct the quantity, or name another unit"
    return "", ""


def _pairs(survey: Document[Job]) -> Iterator[Fault]:
    """Two ends that no run can join."""
    job, known = survey.content, devices(survey.content)
    arrays, panels, units = survey.named("arrays"), survey.named("panels"), set(unit_ids(job))
    for number, route in enumerate(job.routes):
        ends = [known.get(end, end) for end in (route.from_, route.to)]
        for one, other in (ends, ends[::-1]):
            why = todo = ""
            if route.from_ == route.to:
                break  # told already
            if one == other:
                why, todo = "both words mean one device", "name what it ends at"
            elif one in arrays and other != INVERTER:
                why, todo = "a PV array is joined to the inverter", 'write the other end as "inverter"'
            elif one in units and has_inverter(job) and (other in panels or other == f"{INVERTER}/disconnect"):
                why = "an inverter is chosen: the unit gives DC and is joined to it"
                todo = 'join it to "inverter" or to its "dc-disconnect", or choose no inverter'
            elif one in units and not has_inverter(job) and other in units:
                why, todo = "each unit has a circuit of its own", "join each to its disconnect or to a panel"
            elif one in units and "/" in other and other.partition("/")[0] in units - {one}:
                fuse = other.endswith("/dc-overcurrent")
                why = f"that {'fuse' if fuse else 'disconnect'} belongs to another unit"
                todo = f'join it to "{one.replace("battery", "fuse" if fuse else "disconnect")}"'
            elif one in panels and other.endswith(("/dc-disconnect", "/dc-overcurrent")):
                device = "DC disconnect" if other.endswith("/dc-disconnect") else "DC fuse"
                why, todo = f"a {device} stands between a battery and the inverter", "correct one of the two ends"
            if why:
                what = f'route "{route.id}" joins "{route.from_}" and "{route.to}"'
                yield survey.fault(("routes", number, "to"), what, why, todo)
                break


def _circuits(survey: Document[Job]) -> Iterator[Fault]:
    """Two circuits for one source, or its circuit in another panel than its route leads to."""
    job = survey.content
    panels = [panel.id for panel in job.panels]
    seen: dict[str, str] = {}
    for number, panel in enumerate(job.panels):
        for nth, circuit in enumerate(panel.circuits):
            source = owner(job, circuit)
            if not source or source not in source_ids(job):
                continue
            at = ("panels", number, "circuits", nth, "id" if circuit.feeds is None else "feeds")
            name = f"{panel.id}.{circuit.id}"
            if source in seen:
                what = f"two circuits are those of {source}: {seen[source]} and {name}"
                yield survey.fault(at, what, "it has one breaker", "say what each of them feeds")
                continue
            seen[source] = name
            found = way(job, source, panels)
            if found is not None and found.devices[-1] != panel.id:
                what = f'"{circuit.id}" is the circuit of {source}, in the panel "{panel.id}"'
                why = f'its routes lead to the panel "{found.devices[-1]}"'
                yield survey.fault(at, what, why, "put the circuit and the end of the routes into one panel")
