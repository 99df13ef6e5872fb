"""Working space: room to stand in front of a panel and of the unit, and to walk past."""

from collections.abc import Iterator

from standfast.design.siting.asking import Ask, in_mm, rule
from standfast.design.siting.layout import Layout, Thing, Unit
from standfast.design.siting.solid import Span, gap, mm
from standfast.sheet import Check, Value, chosen, measured, missing

CONDITIONS = (1, 2, 3)
"""What faces the space: nothing or insulated parts, grounded parts, live parts."""
_FRONT = "from the front of the unit to the opposite face"


@rule("working-width", "nfpa70", key="working_space_width")
def working_width(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Clear width in front of each panel between the units and bodies that stand out further than it."""
    least = ask.distance("working_width", layout.facts.limits_in)
    for panel in layout.kind("panel"):
        if panel.solid.x is None:
            continue
        bodies: list[Unit | Thing] = [*layout.units, *layout.bodies]
        stand_out = [each.solid.x for each in bodies if _further(each, panel)]
        between = _between(panel.solid.x, [span for span in stand_out if span is not None], layout)
        if between is None:
            continue
        title = f"Is there working space as wide as {panel.id} needs?"
        yield ask.clear(
            title, mm(between), "between the nearest bodies left and right", _width(ask, panel, least), panel.id
        )


def _further(body: Unit | Thing, panel: Thing) -> bool:
    """True where a body stands out from the wall further than the panel."""
    return body.solid.y is not None and panel.solid.y is not None and body.solid.y.high > panel.solid.y.high


def _width(ask: Ask, panel: Thing, least: Value) -> Value:
    wide = mm(panel.solid.x.high - panel.solid.x.low) if panel.solid.x is not None else 0.0
    if wide <= least.quantity:
        return chosen("w_work", least.quantity, "mm", "not less than the width of the panel", ask.clause, least)
    own = measured("w_panel", wide, "mm", "width of the panel")
    return chosen("w_work", wide, "mm", "the width of the panel, since it is more", ask.clause, least, own)


def _between(panel: Span, bodies: list[Span], layout: Layout) -> int | None:
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


@rule("working-depth", "nfpa70", key="working_space")
def working_depth(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Clear depth before a unit that is likely to be worked on live, to each face opposite."""
    facts = layout.facts
    if facts.likely_worked_on_live is False:
        return
    for unit in layout.units:
        title = f"Is there working space before {unit.id}?"
        if facts.likely_worked_on_live is None:
            yield ask.unknown(title, f"whether {unit.id} is likely to be worked on live", unit.id)
            continue
        for face in layout.kind("opposite face"):
            depth = gap(unit.solid.y, face.solid.y)
            if depth is None:
                yield ask.unknown(title, "distance to the opposite face", unit.id, face.id)
            else:
                yield ask.clear(title, mm(depth), _FRONT, depth_needed(ask, layout), unit.id, face.id)


def depth_needed(ask: Ask, layout: Layout) -> Value:
    """Depth of working space, mm, by volts to ground and by what faces it; missing where that decides unknown."""
    volts, condition = layout.facts.volts_to_ground, layout.facts.facing_condition
    if volts is None:
        return missing("d_work", "mm", "volts to ground of the equipment")
    table = ask.book.table("working_depth")
    if condition is None:
        any_face = [table.look("d_work", "depth", condition=each, volts_to_ground=volts) for each in CONDITIONS]
        if len({each.number for each in any_face}) > 1:
            return missing("d_work", "mm", "what faces the equipment: bare or insulated, grounded, or live parts")
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
        title = f"Is the way past {unit.id} wide enough?"
        if layout.facts.corridor_leads_to_exit is None:
            yield ask.unknown(title, "whether the corridor leads to an exit", unit.id)
        elif layout.facts.corridor_leads_to_exit:
            for face in layout.kind("opposite face"):
                depth = gap(unit.solid.y, face.solid.y)
                if depth is None:
                    yield ask.unknown(title, "distance to the opposite face", unit.id, face.id)
                else:
                    yield ask.clear(title, mm(depth), _FRONT, limit, unit.id, face.id)
