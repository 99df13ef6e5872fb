"""Faults between the words of a job file: each word is in order by itself, together they cannot be true."""

from collections.abc import Iterator
from datetime import date

from standfast.faults import Fault
from standfast.reading import Document, engine
from standfast.reading.complaints import nearest
from standfast.reading.positions import Path
from standfast.survey import joints, spaces
from standfast.survey.agreed import agreed
from standfast.survey.feeding import feeding
from standfast.survey.measures import measured
from standfast.survey.model import Job
from standfast.survey.offered import offered
from standfast.survey.visit import visited
from standfast.survey.wished import wished

UNITS = tuple(f"battery-{number}" for number in range(1, 9))
"""Names of battery units."""
ENDS = frozenset(
    {"battery", "disconnect", "inverter", "island-switch", "utility", "service-tap", "dc-disconnect", "fuse", *UNITS}
    | {unit.replace("battery", part) for unit in UNITS for part in ("disconnect", "dc-disconnect", "fuse")}
)
"""Ends of a route that are no panel and no array."""
OUTSIDE = "outside"
_BETWEEN_V = {
    "120/240 V single-phase": 240, "120/208 V single-phase": 208, "120/208 V three-phase": 208,
    "230 V single-phase": 230, "230/400 V three-phase": 400,
}  # fmt: skip


def crossed(survey: Document[Job]) -> Iterator[Fault]:
    """Every fault between words of the job."""
    for rule in (
        _names,
        _references,
        _families,
        measured,
        _dates,
        _place,
        _panels,
        _feeds,
        _backup,
        feeding,
        joints.routed,
        agreed,
        offered,
        wished,
        visited,
    ):
        yield from rule(survey)


def _names(survey: Document[Job]) -> Iterator[Fault]:
    """Two things with one id."""
    job = survey.content
    for word in ("rooms", "walls", "panels", "routes", "arrays", "documents", "acceptances", "generators",
                 "controls"):  # fmt: skip
        yield from engine.doubles(survey, word)
    yield from engine.same(survey, ("land", "buildings"), [each.id for each in job.land.buildings])
    yield from engine.same(survey, ("land", "marks"), [each.id for each in job.land.marks])
    yield from engine.same(survey, ("loads", "appliances"), [each.id for each in job.loads.appliances])
    for number, wall in enumerate(job.walls):
        yield from engine.same(survey, ("walls", number, "openings"), [each.id for each in wall.openings])
        yield from engine.same(survey, ("walls", number, "obstacles"), [each.id for each in wall.obstacles])
    for number, panel in enumerate(job.panels):
        yield from engine.same(survey, ("panels", number, "circuits"), [each.id for each in panel.circuits])


def _refers(survey: Document[Job], path: Path, word: str | None, known: set[str], what: str) -> Iterator[Fault]:
    if word is not None and word not in known:
        advice = nearest(word, sorted(known)) if known else f"add the {what}"
        yield survey.fault(path, f'there is no {what} "{word}"', "", advice)


def _families(survey: Document[Job]) -> Iterator[Fault]:
    """Families on the label of a panel that are the id of a data sheet."""
    chosen = {value for value in dict(survey.content.equipment).values() if isinstance(value, str)}
    for number, panel in enumerate(survey.content.panels):
        for nth, family in enumerate(panel.accepts):
            if family in chosen:
                what = f'accepts of "{panel.id}" names the data sheet "{family}"'
                todo = 'write the family as its [switch] names it, for instance accepts = ["W"]'
                yield survey.fault(("panels", number, "accepts", nth), what, "labels name breaker families", todo)


def _references(survey: Document[Job]) -> Iterator[Fault]:
    """Words that name a thing that is not there."""
    job = survey.content
    generators = survey.named("generators")
    rooms, walls, panels = survey.named("rooms") | {OUTSIDE}, survey.named("walls"), survey.named("panels")
    for number, room in enumerate(job.rooms):
        yield from _refers(survey, ("rooms", number, "opens_into"), room.opens_into, rooms, "room")
    for number, wall in enumerate(job.walls):
        at: Path = ("walls", number)
        yield from _refers(survey, (*at, "room"), wall.room, rooms, "room")
        yield from _refers(survey, (*at, "behind"), wall.behind, rooms, "room")
        for nth, opening in enumerate(wall.openings):
            yield from _refers(survey, (*at, "openings", nth, "leads_into"), opening.leads_into, rooms, "room")
        for nth, thing in enumerate(wall.obstacles):
            yield from _refers(survey, (*at, "obstacles", nth, "panel"), thing.panel, panels, "panel")
    for number, panel in enumerate(job.panels):
        yield from _refers(survey, ("panels", number, "wall"), panel.wall, walls, "wall")
        yield from _refers(survey, ("panels", number, "fed_from"), panel.fed_from, panels | {"utility"}, "panel")
        for nth, circuit in enumerate(panel.circuits):
            here: Path = ("panels", number, "circuits", nth)
            yield from _refers(
                survey, (*here, "feeds"), circuit.feeds, panels | ENDS | survey.named("generators"), "panel or unit"
            )
            yield from _refers(survey, (*here, "moved_from"), circuit.moved_from, panels, "panel")
        buildings = {each.id for each in job.land.buildings}
        yield from _refers(survey, ("panels", number, "building"), panel.building, buildings, "building")
    ends = panels | ENDS | survey.named("arrays") | generators
    for number, route in enumerate(job.routes):
        yield from _refers(survey, ("routes", number, "from"), route.from_, ends, "panel, unit or array")
        yield from _refers(survey, ("routes", number, "to"), route.to, ends, "panel, unit or array")
        if route.from_ == route.to:
            yield survey.fault(("routes", number, "to"), f'route "{route.id}" ends where it starts', "", "name its end")
    yield from _refers(survey, ("wishes", "wall"), job.wishes.wall, walls, "wall")
    for number, unit in enumerate(job.wishes.units):
        yield from _refers(survey, ("wishes", "units", number, "wall"), unit.wall, walls, "wall")
    papers = survey.named("documents")
    for number, answer in enumerate(job.acceptances):
        yield from _refers(survey, ("acceptances", number, "document"), answer.document, papers, "document")


def _dates(survey: Document[Job]) -> Iterator[Fault]:
    job, day = survey.content, survey.content.job.date
    if day == date.min:
        return
    ends = job.contractor.licence_expires
    if ends is not None and ends < day:
        what = f"licence_expires: the licence ended on {ends.isoformat()}"
        why = f"the job is dated {day.isoformat()}"
        yield survey.fault(("contractor", "licence_expires"), what, why, "renew it, or correct one of the two dates")
    built = job.site.year_built
    if built is not None and not 1600 <= built <= day.year:
        why = f"the job is dated {day.isoformat()}"
        yield survey.fault(("site", "year_built"), f"year_built: {built} cannot be", why, "check the year")


def _place(survey: Document[Job]) -> Iterator[Fault]:
    """Conditions and supply that contradict themselves."""
    conditions, supply = survey.content.conditions, survey.content.supply
    high, low = conditions.temperature_high, conditions.temperature_low
    if high is not None and low is not None and high.number <= low.number:
        what = f"temperature_high ({high.text}) is not above temperature_low ({low.text})"
        yield survey.fault(("conditions", "temperature_high"), what, "", "check both and their units")
    sds = conditions.seismic_sds
    if sds is not None and sds.number > 4:
        why = "no mapped site in the adopted standard is so high"
        yield survey.fault(("conditions", "seismic_sds"), f'"{sds.text}" cannot be', why, "write it in g: 1.05 g")
    if supply.system is not None and supply.voltage is not None:
        due = _BETWEEN_V[supply.system]
        if supply.voltage.number != due:
            what = f'voltage is "{supply.voltage.text}" in a system of {supply.system}'
            yield survey.fault(("supply", "voltage"), what, "", f'write the voltage between lines: "{due} V"')


def _panels(survey: Document[Job]) -> Iterator[Fault]:
    """Spaces, poles and loads of the circuits."""
    for number, panel in enumerate(survey.content.panels):
        yield from spaces.counted(survey, number, panel)
        for nth, circuit in enumerate(panel.circuits):
            at: Path = ("panels", number, "circuits", nth)
            if circuit.spaces and circuit.poles is not None and len(circuit.spaces) != circuit.poles:
                what = f'"{circuit.id}" has {circuit.poles} poles and {len(circuit.spaces)} spaces'
                yield survey.fault((*at, "spaces"), what, "a pole takes a space", "list one space for each pole")
            part, whole = circuit.continuous, circuit.load
            if part is not None and whole is not None and part.number > whole.number:
                what = f'"{circuit.id}": the continuous part is more than the load'
                yield survey.fault((*at, "continuous"), what, "", "check load and continuous")


def _feeds(survey: Document[Job]) -> Iterator[Fault]:
    """Panels that feed each other."""
    panels = survey.content.panels
    fed = {panel.id: panel.fed_from for panel in panels}
    for number, panel in enumerate(panels):
        seen, at = {panel.id}, panel.fed_from
        while at in fed and at not in seen:
            seen.add(at)
            at = fed[at]
        if at == panel.id:
            what = f'panel "{panel.id}" is fed from itself'
            why = "directly or through other panels"
            yield survey.fault(("panels", number, "fed_from"), what, why, 'one panel is fed from "utility"')


def _backup(survey: Document[Job]) -> Iterator[Fault]:
    """The mode against the circuits."""
    job = survey.content
    carried = [circuit.id for panel in job.panels for circuit in panel.circuits if circuit.backed_up]
    if job.backup.mode == "none" and carried:
        what = 'mode is "none", but circuits say backed_up = true'
        yield survey.fault(("backup", "mode"), what, ", ".join(carried), "change one of the two")
    listed = all(survey.stated(f"panels.{panel.id}.circuits") for panel in job.panels)
    if job.backup.mode == "circuits" and job.panels and listed and not carried:
        what = 'mode is "circuits", but no circuit says backed_up = true'
        yield survey.fault(("backup", "mode"), what, "", "say which circuits the battery shall carry")
    every = [circuit.id for panel in job.panels for circuit in panel.circuits]
    for number, word in enumerate(job.backup.sheds):
        yield from _refers(survey, ("backup", "sheds", number), word, set(every), "circuit")
        if every.count(word) > 1:
            what = f'"{word}" is the name of circuits in several panels'
            yield survey.fault(("backup", "sheds", number), what, "", "give the one that is dropped a name of its own")
    if job.equipment.battery is not None and job.equipment.quantity == 0:
        yield survey.fault(("equipment", "quantity"), "quantity is 0, but a battery is chosen", "", "write how many")
