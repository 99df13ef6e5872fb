"""The hole card: where each hole is, with which bit and how deep, and what comes first at each."""

from typing import NamedTuple

from standfast.design.anchorage.concrete_fit import drilled
from standfast.fieldwork.plan import Held, Plan
from standfast.fieldwork.rows import bit_both, length_down, length_of, open_needs
from standfast.sheet import Value, missing, work, worst
from standfast.words import say

WOOD_FASTENERS = ("lag screw", "wood screw")


class Pass(NamedTuple):
    """One drilling: what for, bit and depth from the face of the wall, both mm."""

    kind: str
    bit: Value
    depth: Value


class Hole(NamedTuple):
    """One row of the hole table.

    Attributes:
        id: ``battery-1/H1`` in a wall, ``battery-1/F1`` in the floor, as on the drawings.
        of: id of what is fixed there.
        name: what is fixed there.
        x: from the datum, mm.
        y: up from the floor, or of a hole in the floor out from the wall, mm.
        across: x for print. up: y for print.
        bit: bits in the order they are used. depth: their depths from the face of the wall.
        into: what is drilled.
    """

    id: str
    of: str
    name: str
    x: Value
    y: Value
    across: str
    up: str
    bit: tuple[str, ...]
    depth: tuple[str, ...]
    into: str


class HoleCard(NamedTuple):
    """All holes of the job.

    Attributes:
        datums: from where `across` is measured, one sentence a wall.
        first: what is done at each hole before the bit turns, in order.
        stop: why no hole may be drilled yet; empty where nothing stands against it.
        holes: the table.
        tolerance: how far a hole may wander.
    """

    datums: tuple[str, ...]
    first: tuple[str, ...]
    stop: tuple[str, ...]
    holes: tuple[Hole, ...]
    tolerance: str


def hole_card(plan: Plan) -> HoleCard:
    """The hole card of a job."""
    walls = list(dict.fromkeys((held.wall, held.floor) for held in plan.held))
    dust = [plan.say(f"holes.dust_{base}") for base in plan.bases]
    floor = [plan.say("holes.scan_floor")] if any(held.floor for held in plan.held) else []
    return HoleCard(
        tuple(plan.say("holes.datum_floor" if floor else "holes.datum", wall=wall) for wall, floor in walls),
        (plan.say("holes.scan"), *floor, *dust, plan.say("holes.centre")),
        _stops(plan),
        tuple(_holes(plan)),
        _tolerance(plan),
    )


def _tolerance(plan: Plan) -> str:
    """How far a hole may wander: by the placing tolerance, but across a stud no farther than its edge allows."""
    by = length_of(plan.survey.fact("tolerances.placing", "t_placing", "mm"), plan.language, metric=plan.metric)
    strays = [held.stray for held in plan.held if held.stray is not None]
    if not strays:
        return plan.say("holes.tolerance", by=by)
    least = worst("x_stray", strays, "min")
    return plan.say("holes.tolerance_stud", by=by, off=length_down(least, plan.language, metric=plan.metric))


def passes(held: Held) -> list[Pass]:
    """The drillings of one hole, in order: anchors have one; screws in wood a lead hole, lags a shank hole first."""
    sheet = held.fastener
    if sheet.content.kind not in WOOD_FASTENERS:
        depth = work("d_face", "h + t_lining", "mm", None, h=drilled(sheet, held.plate), t_lining=held.lining)
        return [Pass("anchor hole", sheet.fact("anchor.hole", "d_hole", "mm"), depth)]
    length = sheet.fact("fastener.length", "l_screw", "mm")
    full = work("d_face", "l_screw - t_plate", "mm", None, length, t_plate=held.plate)
    found = [Pass("lead hole", _lead(held), full)]
    if sheet.has("fastener.shank_hole"):
        thread = sheet.fact("fastener.thread", "l_thread", "mm")
        shank = work("d_face", "max(0, l_screw - l_thread - t_plate)", "mm", None, length, thread, t_plate=held.plate)
        if shank.missing or shank.quantity > 0:
            found.insert(0, Pass("shank hole", sheet.fact("fastener.shank_hole", "d_hole", "mm"), shank))
    return found


def _lead(held: Held) -> Value:
    if held.dense is None:
        return missing("d_hole", "mm", say("holes.density_need"))
    word = "pilot_hard" if held.dense else "pilot_soft"
    return held.fastener.fact(f"fastener.{word}", "d_hole", "mm")


def _holes(plan: Plan) -> list[Hole]:
    rows: list[Hole] = []
    for held in plan.held:
        drillings, letter = passes(held), "F" if held.floor else "H"
        for number, spot in enumerate(held.spots, 1):
            rows.append(_row(plan, held, drillings, f"{held.of}/{letter}{number}", spot.x, spot.y))
    return rows


def _row(plan: Plan, held: Held, drillings: list[Pass], id: str, x: Value, y: Value) -> Hole:
    bits, depths = [], []
    for each in drillings:
        kind = plan.say(f"holes.{each.kind.replace(' ', '_')}")
        bits.append(plan.say("holes.bit", kind=kind, bit=bit_both(each.bit, plan.language, metric=plan.metric)))
        depths.append(length_of(each.depth, plan.language, metric=plan.metric))
    across, up = (length_of(each, plan.language, metric=plan.metric) for each in (x, y))
    if held.floor:
        up = plan.say("holes.out", out=up)
    into = plan.say("holes.into_floor" if held.floor else f"holes.into_{held.base}")
    return Hole(id, held.id, held.name, x, y, across, up, tuple(bits), tuple(depths), into)


def _stops(plan: Plan) -> tuple[str, ...]:
    """Asbestos and lead: drilled only where a survey or the law says that there is none."""
    found = []
    for fact in ("asbestos", "lead"):
        known = plan.survey.fact(f"conditions.{fact}", fact)
        if known.missing:
            found.append(plan.say(f"holes.{fact}_not_known"))
        elif known.word == "found":
            found.append(plan.say(f"holes.{fact}_found"))
    scanned = plan.survey.fact("conditions.hidden_services", "hidden_services")
    if scanned.missing or scanned.word != "scanned":
        found.append(plan.say("holes.not_scanned"))
    return (*found, *(plan.say("holes.open_need", need=plan.foreign(need)) for need in _open(plan)))


def _open(plan: Plan) -> tuple[str, ...]:
    """What is to be found out before the place, the bit or the depth of a hole is known."""
    values = [
        value
        for held in plan.held
        for group in (*((each.bit, each.depth) for each in passes(held)), *held.spots)
        for value in group
    ]
    return open_needs(*values)
