"""Fasteners with spares, sealants, and what stands between a vehicle and the unit or warns of its fire."""

from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Plan
from standfast.sheet import Value, chosen, total, work
from standfast.shelf import Edition
from standfast.survey.house import Room, Wall

ALONE = ("none", "smoke alarm, alone")
"""Detection that does not sound in the dwelling."""


def fastener_rows(plan: Plan, practice: Edition) -> list[Material]:
    """Screws and anchors by data sheet, with spares."""
    placed: dict[str, list[tuple[str, Value]]] = {}
    names: dict[str, str] = {}
    washers: dict[str, str] = {}
    for held in plan.held:
        sheet = held.fastener.content
        names[sheet.id] = sheet.name
        washer = sheet.fastener.washer if sheet.fastener is not None else None
        washers[sheet.id] = "" if washer is None else plan.say("materials.washer", size=washer.text)
        count = chosen("n_placed", float(len(held.spots)), "1", f"holes of {held.name}", None)
        placed.setdefault(sheet.id, []).append((held.name, count))
    rows = []
    for id, found in placed.items():
        needed = total("n_placed", [count for _, count in found], "1")
        share = practice.number("spare_fasteners")
        bought = work("n_buy", "n_placed + max(1, ceil(n_placed * k_spare / 100))", "1", None, needed, share)
        spare = bought.quantity - needed.quantity
        amount = plan.say("materials.fastener_set", placed=f"{needed.quantity:g}", spare=f"{spare:g}")
        use = plan.say("materials.fastener_use", names=", ".join(name for name, _ in found))
        what = plan.say("materials.fastener", name=names[id]) + washers[id]
        row = material("fixing", what, bought, use, plan.language, f"{bought.quantity:g}: {amount}")
        ids = tuple(dict.fromkeys(held.of for held in plan.held if held.fastener.content.id == id))
        row = row._replace(of=ids, ware=("piece", id))
        rows.append(_outdoors(plan, row, [held.wall for held in plan.held if held.fastener.content.id == id]))
    return rows


def device_rows(plan: Plan, practice: Edition) -> list[Material]:
    """Screws of the disconnect and the like, and the board behind them, in walls of studs."""
    names, counts, ids = [], [], list[str]()
    for role in ("disconnect", "island_switch", "dc_disconnect", "dc_overcurrent"):
        own = [part for part in plan.installation.parts.values() if part.role == role and not part.existing]
        parts = [part.name for part in own]
        if role in plan.sheets and parts:
            least = plan.sheets[role].fact("fixing.least_fasteners", "n_fix", "1")
            counts.append(work("n_placed", "n_fix * n_device", "1", None, least, n_device=_number(len(parts))))
            names += parts
            ids += [part.id for part in own]
    rows = []
    screw = plan.sheets.get("disconnect_fastener")
    if names and not plan.framed:
        needed = total("n_placed", counts, "1")
        use = plan.say("materials.device_anchors_use", names=", ".join(names))
        rows.append(material("fixing", plan.say("materials.device_anchors"), needed, use, plan.language, of=tuple(ids)))
    elif names and screw is not None:
        needed, share = total("n_placed", counts, "1"), practice.number("spare_fasteners")
        bought = work("n_buy", "n_placed + max(1, ceil(n_placed * k_spare / 100))", "1", None, needed, share)
        use = plan.say("materials.device_fasteners_use", names=", ".join(names))
        row = material("fixing", plan.say("materials.fastener", name=screw.sheet.name), bought, use, plan.language)
        row = row._replace(of=tuple(ids), ware=("piece", screw.sheet.id))
        rows.append(_outdoors(plan, row, [wall.id for wall in plan.survey.job.walls]))
    panels = {part.name: part.id for part in plan.installation.of_kind("busbar") if not part.existing}
    for name, id in panels.items():
        what, amount = plan.say("materials.panel_screws", name=name), plan.say("common.count_on_site")
        key = "device_fasteners_use" if plan.framed else "device_anchors_use"
        use = plan.say(f"materials.{key}", names=name)
        rows.append(material("fixing", what, _number(1), use, plan.language, amount, (id,)))
    names, ids = [*names, *panels], [*ids, *panels.values()]
    if names and plan.framed:
        use = plan.say("materials.backing_use", names=", ".join(names))
        count = _number(len(names))
        board = material("fixing", plan.say("materials.backing"), count, use, plan.language, of=tuple(ids))
        rows.append(board._replace(ground="common practice"))
    return rows


PLATED = "zinc plated"
"""What a data sheet says of a fastener with a thin coat of zinc."""


def _outdoors(plan: Plan, row: Material, walls: list[str]) -> Material:
    """A fastener that is zinc plated and stands outdoors: a thin coat of zinc rusts there, and another is asked for."""
    outside = {room.id for room in plan.survey.job.rooms if room.kind == "outside"} | {"outside"}
    found = [wall for wall in plan.survey.job.walls if wall.id in walls and wall.room in outside]
    if not found or PLATED not in row.what:
        return row
    need = plan.say("materials.plated_need", name=row.what)
    use = f"{row.use}; {plan.say('materials.plated_use')}"
    return row._replace(use=use, needs=(*row.needs, need))


def _number(count: int) -> Value:
    return chosen("n", float(count), "1", "devices of the job", None)


def sealing_rows(plan: Plan) -> list[Material]:
    """Sealants, by what the runs and walls ask."""
    rows = []
    if plan.outdoors or plan.shut_down:
        rows.append(_one(plan, "weather_seal", "a run is outdoors or wet, or the shutdown switch is outside"))
    for wall in _walls(plan):
        if _separates(plan, wall):
            rows.append(_one(plan, "fire_seal", f"wall {wall.id} separates garage and dwelling"))
        elif wall.build_up.lining not in (None, "none"):
            rows.append(_one(plan, "board_seal", f"wall {wall.id} is lined", wall=wall.id))
    return rows


def detection_rows(plan: Plan) -> list[Material]:
    """An alarm where the room of the unit has none that sounds in the dwelling."""
    rows = []
    for room in _unit_rooms(plan):
        if room.kind == "outside" or not (room.detection is None or room.detection in ALONE):
            continue
        what = "detector" if "garage" in room.kind else "smoke_alarm"
        state = room.detection or plan.say("common.not_known")
        key = "detector_use" if room.detection else "detector_unknown"
        use = plan.say(f"materials.{key}", room=room.id, state=state)
        count = chosen("n", 1.0, "1", f"room {room.id} holds the unit", None)
        rows.append(material("detection", plan.say(f"materials.{what}"), count, use, plan.language, of=(room.id,)))
    return rows


def detected(plan: Plan) -> bool:
    """True unless every unit is known to stand outdoors, where no detector is."""
    rooms = _unit_rooms(plan)
    return not rooms or any(room.kind != "outside" or room.detection not in (None, "none") for room in rooms)


def barrier_rows(plan: Plan) -> list[Material]:
    """A barrier where a check says that a vehicle can hit the unit and nothing stands before it."""
    if not plan.struck:
        return []
    walls = ", ".join(wall.id for wall in _unit_walls(plan))
    count = chosen("n", 1.0, "1", "a vehicle can hit the unit", None)
    use = plan.say("materials.barrier_use", wall=walls)
    of = tuple(wall.id for wall in _unit_walls(plan))
    return [material("vehicle protection", plan.say("materials.barrier"), count, use, plan.language, of=of)]


def _separates(plan: Plan, wall: Wall) -> bool:
    kinds = {room.id: room.kind for room in plan.survey.job.rooms}
    garage = "garage" in kinds.get(wall.room, "")
    behind = kinds.get(wall.behind or "", "outside")
    return garage and behind != "outside" and "garage" not in behind


def _walls(plan: Plan) -> list[Wall]:
    drilled = {held.wall for held in plan.held}
    return [wall for wall in plan.survey.job.walls if wall.id in drilled]


def _unit_walls(plan: Plan) -> list[Wall]:
    units = {each.id for each in plan.of_role("battery")}
    here = {held.wall for held in plan.held if held.of in units}
    return [wall for wall in plan.survey.job.walls if wall.id in here]


def _unit_rooms(plan: Plan) -> list[Room]:
    here = {wall.room for wall in _unit_walls(plan)}
    return [room for room in plan.survey.job.rooms if room.id in here]


def _one(plan: Plan, key: str, why: str, **words: str) -> Material:
    use = plan.say(f"materials.{key}_use", **words)
    return material("sealing", plan.say(f"materials.{key}"), chosen("n", 1.0, "1", why, None), use, plan.language)
