"""Ladders of siting: the wished place moved or left free, another wall, protection, what the room must have."""

from collections.abc import Iterator
from math import ceil

from standfast.design.siting import choosing
from standfast.design.siting.choosing import Question, Spot
from standfast.design.siting.ruling import rule_of
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies.change import Change, Ladder, ladder, one
from standfast.reading.positions import Path
from standfast.reading.quantities import amount
from standfast.sheet import Check
from standfast.survey.house import Wall

_LEFT: Path = ("wishes", "left")
_BOTTOM: Path = ("wishes", "bottom")
_WALL: Path = ("wishes", "wall")
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


def place(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The least way from the wished place to a free one; then each wish of the place left out."""
    wishes = plan.survey.job.wishes
    wished = [path for path, value in ((_LEFT, wishes.left), (_BOTTOM, wishes.bottom)) if value is not None]
    if not wished or wishes.wall is None:
        return
    asked = plan.design.siting.judged[0].question
    refusing = {each for each in asked.refusing(*_at(plan)) if each.rule != rule_of(check)}
    yield ladder(_moves(plan, wished, asked))
    if refusing:
        others = [each for each in asked.keepouts if each not in refusing]
        yield ladder(_moves(plan, wished, asked._replace(keepouts=others)))
    yield ladder(_free([path]) for path in wished)
    if len(wished) > 1:
        yield ladder([_free(wished)])


def _moves(plan: JobPlan, wished: list[Path], asked: Question) -> list[Change]:
    """The least way to a free place: along the wall alone, up or down alone, both.

    An edge that nobody fixed is chosen anew, as the design chooses it.
    """
    left, bottom = _at(plan)
    ways = [(True, False), (False, True), (True, True)] if len(wished) > 1 else [(True, True)]
    spots = [choosing.nearest(asked, left, bottom, along=along, up=up) for along, up in ways]
    moves = [_moved(wished, each.left - left, each.bottom - bottom, each) for each in spots if each is not None]
    return sorted((each for each in moves if each.words), key=lambda each: len(each.words))


def _at(plan: JobPlan) -> tuple[int, int]:
    """Where the unit stands, in tenths of a millimetre."""
    place = plan.design.siting.places[0]
    return round(place.left.quantity * 10), round(place.bottom.quantity * 10)


def _moved(wished: list[Path], across: int, up: int, spot: Spot) -> Change:
    """The unit moved; an edge that nobody fixed needs no word."""
    ways = {_LEFT: (_by(across, "right", "left"), spot.left), _BOTTOM: (_by(up, "up", "down"), spot.bottom)}
    found = [(path, way, tenths) for path, (way, tenths) in ways.items() if way and path in wished]
    says = f"move the unit {' and '.join(way for _, way, _ in found)}"
    return one(says, *((path, f"{tenths / 10:g} mm") for path, _, tenths in found))


def _by(tenths: int, forward: str, back: str) -> str:
    return f"{max(tenths, -tenths) / 10:g} mm {forward if tenths > 0 else back}" if tenths else ""


def _free(paths: list[Path]) -> Change:
    names = {_LEFT: "left edge", _BOTTOM: "lower edge"}
    says = f"leave the {' and the '.join(names[path] for path in paths)} of the unit free to be chosen"
    return one(says, *((path, None) for path in paths))


def walls(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """Another surveyed wall, with the place on it to be chosen."""
    wishes = plan.survey.job.wishes
    edges = [path for path, value in ((_LEFT, wishes.left), (_BOTTOM, wishes.bottom)) if value is not None]
    yield ladder(
        one(f"hang the unit on the wall {wall.id}", (_WALL, wall.id), *((path, None) for path in edges))
        for wall in plan.survey.job.walls
        if wall.id != plan.design.siting.places[0].wall
    )


def beside(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A thing that this job puts on the wall moved to the right or to the left: the one that the check is about."""
    at, wall = _wall(plan)
    number = _in_the_way(wall, check)
    if number is None:
        return
    thing, path = wall.obstacles[number], (*at, "obstacles", number, "left")
    left = amount(thing.left, "mm")
    for way, sign in (("right", 1), ("left", -1)):
        steps = ((far, left + sign * far * INCH_MM) for far in SHIFTS)
        says = f"move the {thing.id} {{}} in {way}"
        yield ladder(one(says.format(far), (path, f"{there:.1f} mm")) for far, there in steps if there >= 0)


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
    mm = ceil(there) if word == "handle_height" else int(there)
    what = "a clear width of" if word == "keep_clear" else "a switch at"
    if getattr(plan.survey.job.wishes, word) is not None and mm > 0:
        yield ladder([one(f"ask the owner to accept {what} {mm} mm", (("wishes", word), f"{mm} mm"))])


def protection(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """Something between vehicle and unit, as near as leaves the room in front of the unit that is asked."""
    at, wall = _wall(plan)
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


def detection(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """A detector in the room."""
    yield ladder(one(f"{says}", ((*_room(plan), "detection"), word)) for word, says in DETECTION.items())


def separation(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """The separation that the code asks between garage and dwelling."""
    says = "have the garage separated from the dwelling, with the board and the door that the code asks"
    yield ladder([one(says, ((*_room(plan), "separated"), True))])


def lining(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """The board taken away behind the bracket, where it is the gap that decides."""
    at, wall = _wall(plan)
    if wall.build_up.lining not in (None, "none") and wall.build_up.lining_thickness is not None:
        says = "take the board away behind the bracket, where the room may be without it"
        words = (((*at, "build_up", "lining"), "none"), ((*at, "build_up", "lining_thickness"), "0 mm"))
        yield ladder([one(says, *words)])


def _wall(plan: JobPlan) -> tuple[Path, Wall]:
    id = plan.design.siting.places[0].wall
    return next((("walls", n), wall) for n, wall in enumerate(plan.survey.job.walls) if wall.id == id)


def _room(plan: JobPlan) -> Path:
    room = _wall(plan)[1].room
    return next((("rooms", n) for n, each in enumerate(plan.survey.job.rooms) if each.id == room), ("rooms", 0))


WAYS = (
    ("siting.owner-", (wish, place, walls)),
    ("siting.protection-depth", (protection, walls)),
    ("siting.vehicle-", (place, protection, walls)),
    ("siting.beside-vehicle-", (place, protection, walls)),
    ("siting.end-wall-", (place, protection, walls)),
    ("siting.fire-detection", (detection, walls)),
    ("siting.garage-separation", (separation, walls)),
    ("siting.listing", (walls,)),
    ("siting.", (place, beside, walls)),
)
"""The least change first."""
