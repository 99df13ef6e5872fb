"""Working space: room to stand in front of a panel and of the unit, and to walk past."""

from collections.abc import Iterator

from standfast.design.siting.asking import Ask, in_mm, rule
from standfast.design.siting.layout import FOREIGN, SERVICED, Layout, Thing, Unit
from standfast.design.siting.solid import Solid, Span, gap, mm, tenths
from standfast.sheet import Check, Value, at_most, chosen, measured, missing
from standfast.units import convert

CONDITIONS = (1, 2, 3)
"""What faces the space: nothing or insulated parts, grounded parts, live parts."""
_SIDES = "between the nearest bodies left and right"
_FRONT = "from the front of the unit to the opposite face"


@rule("working-width", "nfpa70", key="working_space_width")
def working_width(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Clear width in front of each panel between the units and bodies that stand in its working space."""
    for panel in serviced(layout):
        yield from width_before(ask, layout, panel)


def width_before(ask: Ask, layout: Layout, panel: Thing | Unit) -> Iterator[Check]:
    """Clear width in front of one panel or unit; nothing where it is not placed, or open to one side."""
    if panel.solid.x is None:
        return
    title = f"Is there working space as wide as {panel.name} needs?"
    lacking = flat(layout)
    if lacking:
        yield ask.unknown(title, lacking, panel.id)
        return
    width = between(panel.solid.x, blockers(ask, layout, panel), layout)
    if width is not None:
        yield ask.clear(title, mm(width), _SIDES, width_needed(ask, panel.solid.x, layout), panel.id)


def flat(layout: Layout) -> str:
    """The bodies whose depth is not known, each with its word; empty where all are known."""
    return "; ".join(_depth(each) for each in layout.bodies if each.solid.y is None)


def _depth(body: Thing) -> str:
    return body.lacks("depth", f"how far {body.id} stands out from the wall")


def serviced(layout: Layout) -> list[Thing]:
    """Equipment that asks for working space: panels; in a job disconnects of the wall too, and its new inverter.

    That of another wall is judged on its own, where its front can be told.
    """
    if layout.room is None:
        return layout.kind("panel")
    hung = [each for each in layout.things if each.on_wall]
    return [each for each in hung if each.kind in SERVICED or (each.kind == "inverter" and each.new)]


def blockers(ask: Ask, layout: Layout, panel: Thing | Unit) -> list[Span]:
    """Stretches along the wall of what stands in the working space of a panel or unit, in front of its front plane."""
    bodies: list[Unit | Thing] = [*layout.units, *layout.near, *layout.bodies]
    return [
        each.solid.x
        for each in bodies
        if each.id != panel.id and each.solid.x is not None and _stands_before(ask, each, panel)
    ]


def _stands_before(ask: Ask, body: Unit | Thing, panel: Thing | Unit) -> bool:
    """True where a body reaches into the space before the front plane of a panel."""
    out, front, up = body.solid.y, panel.solid.y, body.solid.z
    if out is None or front is None or out.high <= front.high or out.low >= front.high + deep(ask):
        return False
    if up is not None and up.low >= tall(ask, panel):
        return False
    allowed = tenths(ask.distance("working_projection").quantity)
    over = isinstance(body, Thing) and isinstance(panel, Thing) and _in_line(body, panel)
    return not (over and out.high - front.high <= allowed)


def _in_line(body: Thing, panel: Thing) -> bool:
    """True where a body is straight above or below a panel: there it may stand out a little further."""
    across, upward = gap(body.solid.x, panel.solid.x), gap(body.solid.z, panel.solid.z)
    return across is not None and upward is not None and across < 0 <= upward


def deep(ask: Ask) -> int:
    """The least depth of working space that the edition knows, tenths."""
    table = ask.book.table("working_depth")
    return tenths(
        min(convert(each, table.unit("depth"), "mm") for each in table.column("depth") if isinstance(each, float))
    )


def tall(ask: Ask, panel: Thing | Unit) -> int:
    """Height of working space: that of the edition, or the top of the equipment where it is higher."""
    least = tenths(ask.distance("working_height").quantity)
    return least if panel.solid.z is None or isinstance(panel, Unit) else max(least, panel.solid.z.high)


def width_needed(ask: Ask, panel: Span, layout: Layout) -> Value:
    """Width of working space: that of the edition, or of the equipment where it is wider."""
    least, wide = ask.distance("working_width", layout.facts.limits_in), mm(panel.high - panel.low)
    if wide <= least.quantity:
        return chosen("w_work", least.quantity, "mm", "not less than the width of the equipment", ask.clause, least)
    own = measured("w_equipment", wide, "mm", "width of the equipment")
    return chosen("w_work", wide, "mm", "the width of the equipment, since it is more", ask.clause, least, own)


def between(panel: Span, bodies: list[Span], layout: Layout) -> int | None:
    """Clear width that holds the panel; zero where a body stands before it, None where one side is open."""
    if any(body.overlaps(panel) for body in bodies):
        return 0
    left = [body.high for body in bodies if body.high <= panel.low]
    right = [body.low for body in bodies if body.low >= panel.high]
    if layout.facts.wall_from is not None:
        left.append(layout.facts.wall_from)
    if layout.facts.wall_to is not None:
        right.append(layout.facts.wall_to)
    return min(right) - max(left) if left and right else None


@rule("unit-working-width", "nfpa70", key="storage_working_space")
def unit_working_width(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Clear width in front of each unit."""
    for unit in layout.units:
        yield from width_before(ask, layout, unit)


@rule("dedicated-space", "nfpa70", key="dedicated_space")
def dedicated_space(ask: Ask, layout: Layout) -> Iterator[Check]:
    """The space above and below each panelboard, as wide as it: no unit in any, nothing foreign in a new one's.

    What already stands in the space of an existing panelboard is not for this job to answer.
    """
    for panel in layout.kind("panel"):
        for unit in layout.units:
            limit = chosen("d_foreign", 0.0, "mm", "a unit counts as foreign to the panelboard", ask.clause)
            yield from _kept_out(ask, panel, unit, limit, unit.id, panel.id)
        for thing in layout.kind(*FOREIGN) if panel.new and panel.on_wall else []:
            if thing.on_wall:
                limit = chosen("d_foreign", 0.0, "mm", "it is foreign to the panelboard", ask.clause)
                yield from _kept_out(ask, panel, thing, limit, panel.id, thing.id)


def _kept_out(ask: Ask, panel: Thing, body: Unit | Thing, limit: Value, *parts: str) -> Iterator[Check]:
    """Whether a body stands out of the dedicated space of a panelboard, where both are placed."""
    space = dedicated(ask, panel)
    if space.x is None or space.z is None or body.solid.x is None or body.solid.z is None:
        return
    title = f"Is {body.name} out of the space above and below {panel.name}?"
    free = max(gap(body.solid.x, space.x) or 0, gap(body.solid.z, space.z) or 0)
    yield ask.clear(title, mm(free), "gap along the wall or above the space", limit, *parts)


def dedicated(ask: Ask, panel: Thing) -> Solid:
    """The dedicated space of a panelboard in elevation: from the floor to so much above it."""
    if panel.solid.z is None:
        return Solid()
    above = tenths(ask.distance("dedicated_height").quantity)
    return Solid(x=panel.solid.x, z=Span(0, panel.solid.z.high + above))


@rule("handle-height", "nfpa70", key="handle_height")
def handle_height(ask: Ask, layout: Layout) -> Iterator[Check]:
    """The switch of each unit within reach."""
    limit = ask.distance("handle_height", layout.facts.limits_in)
    for unit in layout.units:
        if unit.maker is not None and unit.solid.z is not None:
            yield reach(ask, unit, limit)


def reach(ask: Ask, unit: Unit, limit: Value) -> Check:
    """Height of the switch of a unit against a limit, at the bad end of the placing tolerance."""
    title = f"Is the switch of {unit.name} within reach?"
    if unit.maker is None or unit.solid.z is None or unit.maker.switch_height.missing:
        return ask.unknown(
            title, f"body.switch_height: height of the switch on {unit.name}, by its data sheet", unit.id
        )
    bottom = measured("y_bottom", mm(unit.solid.z.low), "mm", "lower edge above the floor")
    top = mm(unit.solid.z.low + tenths(unit.maker.switch_height.quantity) + ask.slack)
    inputs = [bottom, unit.maker.switch_height] + ([] if ask.placing is None else [ask.placing])
    handle = measured(
        "y_handle", top, "mm", "middle of the switch above the floor, with the placing tolerance", *inputs
    )
    return at_most(ask.id(unit.id), title, ask.clause, handle, limit)


@rule("working-depth", "nfpa70", key="working_space")
def working_depth(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Clear depth before a unit that is likely to be worked on live, to each face opposite."""
    facts = layout.facts
    if facts.likely_worked_on_live is False:
        return
    for unit in layout.units:
        title = f"Is there working space before {unit.name}?"
        if facts.likely_worked_on_live is None:
            yield ask.unknown(title, f"whether {unit.name} is likely to be worked on live", unit.id)
            continue
        faces = layout.kind("opposite face")
        if not faces and layout.room is not None:
            yield ask.unknown(title, layout.facts.lacks("facing", "distance to the opposite face"), unit.id)
        for face in faces:
            depth = gap(unit.solid.y, face.solid.y)
            if depth is None:
                yield ask.unknown(title, "distance to the opposite face", unit.id, face.id)
            else:
                yield ask.clear(
                    title, mm(depth), _FRONT, depth_needed(ask, layout, facts.volts_to_ground), unit.id, face.id
                )


@rule("equipment-depth", "nfpa70", key="working_space")
def equipment_depth(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Clear depth before the panels and disconnects of the wall, as they stand after the job."""
    if layout.room is None:
        return
    for panel in serviced(layout):
        if panel.on_wall:
            title = f"Is there working space before {panel.name}?"
            needed = depth_needed(ask, layout, panel.volts)
            depths = [gap(panel.solid.y, face.solid.y) for face in layout.kind("opposite face")]
            known = [each for each in depths if each is not None]
            if known:
                yield ask.clear(title, mm(min(known)), _FRONT, needed, panel.id)
            else:
                yield ask.unknown(title, "; ".join(_lacking(layout, panel)), panel.id)


def _lacking(layout: Layout, panel: Thing) -> Iterator[str]:
    """What the depth of working space before a panel cannot be told without."""
    if panel.solid.y is None:
        yield _depth(panel)
    if not layout.kind("opposite face"):
        yield layout.facts.lacks("facing", "distance to the opposite face")


@rule("protection-depth", "nfpa70", key="working_space")
def protection_depth(ask: Ask, layout: Layout) -> Iterator[Check]:
    """A bollard, wheel stop or barrier before the unit stands outside its working space."""
    room, facts = layout.room, layout.facts
    if room is None or room.protection.missing or room.protection.word == "none" or not facts.likely_worked_on_live:
        return
    for unit in layout.units:
        title = f"Does the {room.protection.word} leave the working space before {unit.name} free?"
        if room.protection_distance.missing:
            yield ask.unknown(title, room.protection_distance.how, unit.id)
        else:
            needed = depth_needed(ask, layout, facts.volts_to_ground)
            yield ask.clear(
                title, room.protection_distance.quantity, "from the front of the unit to it", needed, unit.id
            )


@rule("headroom", "nfpa70", key="working_space_height")
def headroom(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Height of the working space under the ceiling."""
    if layout.room is None:
        return
    title, limit = "Is the working space high enough?", ask.distance("working_height", layout.facts.limits_in)
    if layout.facts.ceiling is None:
        yield ask.unknown(title, layout.facts.lacks("height", "height of the wall, or the ceiling of its room"))
    else:
        yield ask.clear(title, mm(layout.facts.ceiling), "from the floor to the ceiling", limit)


def depth_needed(ask: Ask, layout: Layout, volts: Value | None) -> Value:
    """Depth of working space, mm, by volts to ground and by what faces it; missing where that decides unknown."""
    condition = layout.facts.facing_condition
    if volts is None:
        return missing("d_work", "mm", "volts to ground of the equipment")
    table = ask.book.table("working_depth")
    if condition is None:
        any_face = [table.look("d_work", "depth", condition=each, volts_to_ground=volts) for each in CONDITIONS]
        if len({each.number for each in any_face}) > 1:
            faces = "what faces the equipment: bare or insulated, grounded, or live parts"
            need = layout.facts.lacks("facing_is", faces)
            return missing("d_work", "mm", need)
        found = any_face[0]
    else:
        found = table.look("d_work", "depth", condition=condition, volts_to_ground=volts)
    if found.missing:
        return missing("d_work", "mm", found.how)
    return in_mm(found, layout.facts.limits_in)


@rule("hall", "asnzs5139")
def hall(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Clear way past a unit in a corridor that leads to an exit."""
    limit = ask.distance("hall")
    for unit in layout.units:
        if unit.place not in (None, "corridor"):
            continue
        title = f"Is the way past {unit.name} wide enough?"
        if layout.facts.corridor_leads_to_exit is None:
            yield ask.unknown(title, "whether the corridor leads to an exit", unit.id)
        elif layout.facts.corridor_leads_to_exit:
            for face in layout.kind("opposite face"):
                depth = gap(unit.solid.y, face.solid.y)
                if depth is None:
                    yield ask.unknown(title, "distance to the opposite face", unit.id, face.id)
                else:
                    yield ask.clear(title, mm(depth), _FRONT, limit, unit.id, face.id)
