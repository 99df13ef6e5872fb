"""What seals each entry of a run or cable through a wall: one row an entry, by what the wall keeps apart."""

from collections.abc import Iterator

from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Plan
from standfast.sheet import chosen


def entry_rows(plan: Plan) -> list[Material]:
    """A row for each new run or cable whose ends are in two rooms; counted on site where nobody knows its rooms."""
    return list(_rows(plan))


def _rows(plan: Plan) -> Iterator[Material]:
    named = {run.id: run.name for run in plan.runs} | {cable.id: cable.name for cable in plan.cables}
    for id, name in named.items():
        way = plan.ways.get(id)
        rooms = None if way is None else way.rooms
        if rooms is not None and rooms[0] == rooms[1]:
            continue
        count = chosen("n_entry", 1.0, "1", f"the ends of {id} are in two rooms", None)
        if rooms is None:
            what, use = plan.say("materials.entry"), plan.say("materials.entry_open_use", name=name)
            row = material("sealing", what, count, use, plan.language, plan.say("common.count_on_site"), (id,))
        else:
            use = plan.say("materials.entry_use", name=name, first=rooms[0], second=rooms[1])
            row = material("sealing", plan.say(f"materials.{_key(plan, rooms)}"), count, use, plan.language, of=(id,))
        yield row


def _key(plan: Plan, rooms: tuple[str, str]) -> str:
    """Outer walls against weather, walls between garage and dwelling against fire, every other against draught."""
    kinds = {room.id: room.kind for room in plan.survey.job.rooms}
    first, second = (kinds.get(room, "outside") for room in rooms)
    if "outside" in (first, second):
        return "entry_weather"
    return "entry_fire" if ("garage" in first) != ("garage" in second) else "entry_inside"
