"""Ladders of siting: things moved aside, wishes eased, protection, what the room must have, an answer asked for."""

import json
from collections.abc import Iterator
from math import ceil

from standfast.design.siting.drawn import role_of
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import fewer, tape
from standfast.foreman.remedies.change import Entry, Ladder, ladder, one
from standfast.foreman.remedies.places import asked_of, place, walls
from standfast.reading.positions import Path
from standfast.reading.quantities import amount
from standfast.sheet import Check
from standfast.survey.house import Wall

PROTECTIONS = ("bollard", "wheel stop", "barrier")
DISTANCES = (12, 18, 24, 30, 36, 42, 48, 60)
"""Distances of the protection, in. No verdict rests on them: each is tried."""
SHIFTS = (2, 4, 8, 12, 18, 24, 36, 48)
"""Ways that a thing is moved on its wall, in. No verdict rests on them either."""
INCH_MM = 25.4
DETECTION = {
    "heat detector, interconnected": "put in a heat detector that sounds in the dwelling",
    "smoke alarm, interconnected": "put in a smoke alarm that sounds in the dwelling",
}


def beside(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A thing that this job puts on the wall moved to the right or to the left: the one that the check is about."""
    at, wall = _wall(plan, check)
    number = _in_the_way(wall, check)
    if number is None:
        return
    thing, path = wall.obstacles[number], (*at, "obstacles", number, "left")
    left = amount(thing.left, "mm")
    for way, sign in (("right", 1), ("left", -1)):
        steps = ((far, left + sign * far * INCH_MM) for far in SHIFTS)
        says = f"move the {thing.id} {{}} in {way}"
        yield ladder(
            one(says.format(far), (path, tape.texts(plan, path, there)[-1])) for far, there in steps if there >= 0
        )


def _in_the_way(wall: Wall, check: Check) -> int | None:
    """The new thing of a wall that a check names; where it names one that stays, the new thing nearest to that."""
    new = [number for number, thing in enumerate(wall.obstacles) if thing.state == "new"]
    named = [number for number, thing in enumerate(wall.obstacles) if thing.id in check.id.split("/")[1:]]
    if not new or not named:
        return None
    at = amount(wall.obstacles[named[0]].left, "mm")
    return min(new, key=lambda number: (number not in named, (amount(wall.obstacles[number].left, "mm") - at) ** 2))


def wish(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The owner's wish eased to what is there."""
    if check.demand is None or check.demand.missing or check.limit is None:
        return
    there, word = check.demand.quantity, "keep_clear" if "owner-way" in check.id else "handle_height"
    mm, more = (ceil(there), 1) if word == "handle_height" else (int(there), -1)
    what = "a clear width of" if word == "keep_clear" else "a switch at"
    if getattr(plan.survey.job.wishes, word) is not None and mm > 0:
        tries = tape.texts(plan, ("wishes", word), mm, more)
        yield ladder(one(f"ask the owner to accept {what} {each}", (("wishes", word), each)) for each in tries)


def protection(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """Something between vehicle and unit, as near as leaves the room in front of the unit that is asked."""
    at, wall = _wall(plan, check)
    if wall.vehicle_path is None:
        return
    path = (*at, "vehicle_path")
    there = wall.vehicle_path.protection
    for each in sorted(PROTECTIONS, key=lambda each: each != there):
        changes = (
            one(
                f"put a {each} {far} in before the unit",
                ((*path, "protection"), each),
                ((*path, "protection_distance"), f"{far} in"),
            )
            for far in DISTANCES
        )
        yield ladder(changes, rising=True)


def detection(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A detector in the room."""
    yield ladder(one(f"{says}", ((*_room(plan, check), "detection"), word)) for word, says in DETECTION.items())


def separation(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The separation that the code asks between garage and dwelling."""
    says = "have the garage separated from the dwelling, with the board and the door that the code asks"
    yield ladder([one(says, ((*_room(plan, check), "separated"), True))])


def lining(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The board taken away behind the bracket, where it is the gap that decides."""
    at, wall = _wall(plan, check)
    if wall.build_up.lining not in (None, "none") and wall.build_up.lining_thickness is not None:
        says = "take the board away behind the bracket, where the room may be without it"
        words = (((*at, "build_up", "lining"), "none"), ((*at, "build_up", "lining_thickness"), "0 mm"))
        yield ladder([one(says, *words)])


def lower(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """The answer of the authority to a unit below the height of ignition sources, where nobody asked for it yet."""
    answers = plan.survey.job.acceptances
    if not any(each.what == "ignition height" for each in answers):
        says = "ask the authority to accept the unit below the height of ignition sources, and write its answer down"
        answer = Entry(json.dumps({"id": "ignition-height", "what": "ignition height", "accepted": True}))
        yield ladder([one(says, (("acceptances", len(answers)), answer))])


def accepted(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """The answer of the authority to the smaller spacing of a fire test report, where nobody asked for it yet."""
    made, answers = plan.sheets["battery"].sheet.clearances, plan.survey.job.acceptances
    if made.spacing_report is None or any(each.what == "unit spacing" for each in answers):
        return
    says = "ask the authority to accept the spacing of the fire test report, and write its answer down"
    answer = Entry(json.dumps({"id": "unit-spacing", "what": "unit spacing", "accepted": True}))
    yield ladder([one(says, (("acceptances", len(answers)), answer))])


def _wall(plan: JobPlan, check: Check) -> tuple[Path, Wall]:
    """The wall of the unit that a check is about; of the first where it names none."""
    id = asked_of(plan, check)[0].wall
    return next((("walls", n), wall) for n, wall in enumerate(plan.survey.job.walls) if wall.id == id)


def _room(plan: JobPlan, check: Check) -> Path:
    room = _wall(plan, check)[1].room
    return next((("rooms", n) for n, each in enumerate(plan.survey.job.rooms) if each.id == room), ("rooms", 0))


def as_large(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A chosen device drawn as large as its data sheet says, where it is drawn smaller."""
    for n, wall in enumerate(plan.survey.job.walls):
        for m, thing in enumerate(wall.obstacles):
            role = role_of(plan.survey.job, thing)
            if role is None or check.id.split("/")[1:] != [thing.id] or role not in plan.sheets:
                continue
            body, path = plan.sheets[role].sheet.body, ("walls", n, "obstacles", m)
            words = []
            for word, own in (("width", body.width), ("height", body.height), ("depth", body.depth)):
                there = getattr(thing, word)
                if own is not None and (there is None or there.number < own.number):
                    words.append(((*path, word), own.text))
            if words:
                yield ladder([one(f"draw the {thing.id} as large as its data sheet says", *words)])


WAYS = (
    ("siting.drawn-size/", (as_large,)),
    ("siting.owner-", (wish, place, walls)),
    ("siting.protection-depth", (protection, walls)),
    ("siting.vehicle-", (place, protection, walls)),
    ("siting.beside-vehicle-", (place, protection, walls)),
    ("siting.end-wall-", (place, protection, walls)),
    ("siting.fire-detection", (detection, walls)),
    ("siting.garage-separation", (separation, walls)),
    ("siting.listing", (walls,)),
    ("siting.unit-spacing", (place, accepted, walls, fewer.units)),
    ("siting.ignition-height/", (place, lower, walls)),
    ("siting.energy-", (walls, fewer.units)),
    ("siting.", (place, beside, walls, fewer.units)),
)
"""The least change first."""
