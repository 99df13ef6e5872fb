"""The link set up on site: at each device its cable, its address and its terminator; then the dead bus is read.

The resistance between the two wires of a dead bus tells how many terminators are in: ISO 11898-2 as practised.
"""

from collections.abc import Iterator

from standfast.fieldwork.job_steps import INSULATION, job_step
from standfast.fieldwork.link import AT_END, BETWEEN, BUS, Place, chain
from standfast.fieldwork.order.house import cover_id
from standfast.fieldwork.order.of_sheet import terminals
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.sheet_steps import live_steps, wired_behind
from standfast.fieldwork.steps import Reading, WorkStep
from standfast.rulebooks.iso11898 import terminators
from standfast.sheet import Value, missing, work
from standfast.shelf import Edition, edition

READ = "job.read-link"
RIGHT = "two_terminators"
OHM = "ohm"


def link_id(device: str) -> str:
    """Id of the step that sets up the link at a device."""
    return f"job.link-{device}"


def inside(plan: Plan, device: str) -> bool:
    """True where the link of a device is set behind a cover of it."""
    return any(place.device.id == device and _under(place) for place in chain(plan.devices))


def steps(plan: Plan) -> list[WorkStep]:
    """A step at each device of the link, in their order, and the reading of the bus."""
    places = chain(plan.devices)
    found = [_at(plan, place, places) for place in places]
    return [*found, *_read(plan, places, tuple(step.id for step in found))]


def _under(place: Place) -> str:
    link = place.device.sheet.link
    return "" if link is None or link.under is None else link.under


def _at(plan: Plan, place: Place, places: list[Place]) -> WorkStep:
    device, cover = place.device, _under(place)
    beside = [each.device.name for each in places if abs(each.number - place.number) == 1]
    words = {"name": device.name, "number": place.number, "count": len(places), "beside": ", ".join(beside)}
    set_up = [plan.say("order.link_at", **words), *settings(plan, place)]
    opened = [id for ids in wired_behind(device.sheet).values() for id in ids]
    after = (INSULATION, *(f"{device.id}.{id}" for id in opened))
    step = job_step(plan, link_id(device.id), "connect", after, key="link", name=device.name, text=" ".join(set_up))
    step = step._replace(first=tuple(_asked(plan, place)), readings=tuple(_seen(plan, place)))
    if not cover:
        return step
    return step._replace(hands=True, touches=tuple(terminals(device)), behind=(cover_id(device.id, cover),))


def settings(plan: Plan, place: Place) -> Iterator[str]:
    """What is set: the address of its place, and the terminator on at an end and off between."""
    link, sheet, say = place.device.sheet.link, place.device.sheet, plan.say
    if link is None:
        return
    if place.address is not None:
        switch = sheet.told(link.address_switch, plan.language) if link.address_switch else say("order.link_address")
        yield say("order.link_set", switch=switch, address=place.address)
    elif place.unit and link.address == "automatic":
        yield say("order.link_by_itself")
    if link.kind == BUS and link.terminator in ("switch", "plug"):
        named = link.terminator_switch
        switch = sheet.told(named, plan.language) if named else say("order.link_terminator")
        yield say(f"order.link_{link.terminator}_{'end' if place.end else 'between'}", switch=switch)
    elif link.kind == BUS and link.terminator == "always in":
        yield say("order.link_always_in")


def _asked(plan: Plan, place: Place) -> Iterator[str]:
    """What nobody knows, or what cannot be: nobody goes on before the maker has answered."""
    link, name = place.device.sheet.link, place.device.name
    file = place.device.data.file
    if link is None or link.kind is None:
        yield plan.say("order.link_unknown", name=name, file=file)
        return
    if place.unit and place.address is None and link.address != "automatic":
        yield plan.say("order.link_no_address", name=name, file=file)
    if link.kind == BUS and link.terminator not in (AT_END if place.end else BETWEEN):
        yield plan.say("order.link_no_terminator", name=name, file=file)
    by_hand = link.address == "set by hand" or link.terminator in ("switch", "plug")
    if by_hand and link.under is None:
        yield plan.say("order.link_no_cover", name=name, file=file)


def _seen(plan: Plan, place: Place) -> Iterator[Reading]:
    if place.address is not None:
        yield Reading(plan.say("order.link_address_seen", name=place.device.name), "", str(place.address))
    link = place.device.sheet.link
    if link is not None and link.kind == BUS and link.terminator in ("switch", "plug"):
        state = plan.say("order.link_on" if place.end else "order.link_off")
        yield Reading(plan.say("order.link_terminator_seen", name=place.device.name), "", state)


def _read(plan: Plan, places: list[Place], after: tuple[str, ...]) -> list[WorkStep]:
    """The reading of the bus, where all are on one pair of wires."""
    if not places or any(each.device.sheet.link is None or each.device.sheet.link.kind != BUS for each in places):
        return []
    names = f"{places[0].device.name} – {places[-1].device.name}"
    step = job_step(plan, READ, "connect", (*after, *_landed(places)), key="link_read", names=names)
    return [step._replace(readings=(Reading(plan.say("order.link_ohm"), "Ω", _limit(plan, places)),))]


def _landed(places: list[Place]) -> list[str]:
    """The steps of data sheets that land the wires of a link, but for those that power comes before."""
    landed = []
    for device in (each.device for each in places):
        signals = {terminal.id for terminal in device.sheet.terminals if terminal.use == "signal"}
        steps = [step for step in device.sheet.steps if step.id not in live_steps(device.sheet)]
        landed += [f"{device.id}.{step.id}" for step in steps if step.joint in signals]
    return landed


def _limit(plan: Plan, places: list[Place]) -> str:
    """The band of two terminators, where the data sheets say that they are of the kind that the band is for."""
    expected = resistance(places)
    if expected.missing:
        return plan.say("order.link_ohm_unknown")
    book = edition("iso11898", "undated")
    if terminators.diagnosis(book, expected).number != RIGHT:
        return plan.say("order.link_ohm_about", number=f"{expected.quantity:g} Ω")
    low, high = _band(book)
    return plan.say("order.link_ohm_band", low=f"{low:g} Ω", high=f"{high:g} Ω")


def resistance(places: list[Place]) -> Value:
    """Both terminators in parallel, ohm; missing where a data sheet does not state its own."""
    ends = [each.device.data.fact("link.terminator_resistance", f"R_{number}", OHM)
            for number, each in enumerate((places[0], places[-1]), 1)]  # fmt: skip
    if any(each.missing for each in ends):
        return missing("R_bus", OHM, "; ".join(each.how for each in ends if each.missing))
    return work("R_bus", "R_1 * R_2 / (R_1 + R_2)", OHM, None, *ends)


def _band(book: Edition) -> tuple[float, float]:
    """Between which readings, in ohm, there are two terminators."""
    table = book.table("bus_resistance")
    edges, found = table.column("from"), table.column("diagnosis")
    place = found.index(RIGHT)
    return float(str(edges[place])), float(str(edges[place + 1]))
