"""The chosen design as plain data: units with place and fixing, circuits, busbars, fault currents, labels, lifting."""

from standfast.design.anchorage.whole import Anchorage, Foot
from standfast.design.knock_on.whole import Row as BroughtRow
from standfast.design.siting.placed import PlacedUnit
from standfast.design.wiring.circuit import Circuit
from standfast.design.wiring.fault_levels import Level
from standfast.design.wiring.feeds import Feed, Side
from standfast.design.wiring.sources import Busbar
from standfast.fieldwork.lifting import Row
from standfast.foreman.chosen import chosen
from standfast.foreman.plan import JobPlan
from standfast.sheet import Value
from standfast.survey.joined import INVERTER

Data = dict[str, object]


def designed(plan: JobPlan) -> Data:
    """The design of a job in the form of ``schemas/design.json``; null where a number is not known."""
    made = plan.design
    siting, wiring = made.siting, made.wiring
    held = {each.unit: each for each in made.anchorages}
    pv = [each.circuit for each in wiring.arrays]
    return {
        "schema": 1,
        "job": plan.title,
        "adoption": plan.adoption.name,
        "units": [_unit(place, held[place.id]) for place in siting.places],
        "inverter": _inverter(held.get(INVERTER)),
        "walls": [{"wall": each.wall, "open": each.open, "reasons": list(each.reasons)} for each in siting.walls],
        "panel": wiring.panel,
        "circuits": [_circuit(each, protected=each not in pv) for each in wiring.circuits],
        "voltage": {
            "drop_percent": None if wiring.unit is None else _number(wiring.unit.drop.percent),
            "rise_percent": None if wiring.rise is None else _number(wiring.rise.percent),
        },
        "busbars": [_busbar(each) for each in wiring.busbars],
        "feeds": [_feed(each) for each in wiring.feeds],
        "fault_currents": [_fault(each) for each in wiring.levels.values()],
        "labels": [
            {
                "id": each.id,
                "number": each.number,
                "wording": each.wording,
                "at": each.at,
                "place": each.place,
                "clause": str(each.clause),
            }
            for each in made.labels
        ],
        "lifting": [_lifted(row) for row in plan.lifting.rows],
        "existing": [_brought(row, made.existing.currency) for row in made.existing.rows if row.brought],
        "choice": chosen(made.choice),
        "summary": plan.ledger.summary(),
    }


def _feed(feed: Feed) -> Data:
    """A conductor or busbar with what can feed it; the current is null where it is not known, or nothing limits it."""
    return {
        "id": feed.id,
        "from": feed.a,
        "to": feed.b,
        "utility_side": _side(feed.from_utility),
        "other_side": _side(feed.from_other),
        "through_a": None if feed.through is None else _number(feed.through),
        "state": None if feed.state is None else feed.state.name,
        "cleared": [{"source": each.source, "device": each.device or None} for each in feed.clearing],
    }


def _side(side: Side) -> Data:
    current = None if side.current is None else _number(side.current)
    return {"sources": list(side.sources), "current_a": current}


def _number(value: Value) -> float | None:
    return None if value.missing else value.quantity


def _word(value: Value) -> str | None:
    return None if value.missing else value.word


def _brought(row: BroughtRow, currency: str) -> Data:
    """A part of the existing house that the work brings under the edition, or may."""
    trigger, price = row.trigger, row.price
    return {
        "id": row.asked.id,
        "part": row.asked.part,
        "at": row.asked.at,
        "state": row.state,
        "clause": str(row.check.clause),
        "brought_by": "" if trigger is None else str(trigger.clause),
        "work": list(row.work),
        "does": row.does,
        "price": None if price is None else price.amount,
        "currency": currency,
        "invented": price is not None and price.invented,
    }


def _unit(place: PlacedUnit, held: Anchorage) -> Data:
    return {
        "unit": place.id,
        "wall": place.wall,
        "left_mm": _number(place.left),
        "bottom_mm": _number(place.bottom),
        "run_mm": _number(place.run),
        "fixing": _fixing(held),
    }


def _inverter(held: Anchorage | None) -> Data | None:
    """An inverter of its own on its wall."""
    return None if held is None else {"wall": held.wall, "fixing": _fixing(held)}


def _fixing(held: Anchorage) -> Data:
    fixing = held.fixing
    return {
        "base": held.base,
        "sheet": None if fixing is None else fixing.content.id,
        "name": None if fixing is None else fixing.content.name,
        "cost": held.cost,
        "holes": [
            {"id": f"{held.unit}/H{number}", "x_mm": _number(each.x), "y_mm": _number(each.y)}
            for number, each in enumerate(held.holes, 1)
        ],
        "tried": [{"sheet": each.sheet.content.id, "cost": each.cost, "open": each.open} for each in held.tried],
        "foot": None if held.foot is None else _foot(held.unit, held.foot),
    }


def _foot(unit: str, foot: Foot) -> Data:
    """What holds a standing unit on the floor; holes are called as on drawings and hole card."""
    anchor = foot.anchor
    return {
        "sheet": None if anchor is None else anchor.content.id,
        "name": None if anchor is None else anchor.content.name,
        "cost": foot.cost,
        "holes": [
            {"id": f"{unit}/F{number}", "x_mm": _number(each.x), "out_mm": _number(each.out)}
            for number, each in enumerate(foot.holes, 1)
        ],
    }


def _circuit(circuit: Circuit, *, protected: bool) -> Data:
    """One circuit; that of a PV array has no overcurrent device, only one by which its ground is sized."""
    wire = circuit.conductor
    return {
        "id": circuit.id,
        "title": circuit.title,
        "device_a": _number(circuit.need.device) if protected else None,
        "needed_a": _number(circuit.need.before),
        "carries_a": _number(wire.carried.usable),
        "size": _word(wire.size),
        "material": _word(wire.conditions.material),
        "insulation": _word(wire.conditions.insulation),
        "ground": _word(circuit.ground),
        "neutral": None if circuit.neutral.missing else circuit.neutral.yes,
        "length_ft": _number(circuit.length),
        "raceways": [
            {
                "run": tube.run.id,
                "kind": _word(tube.kind),
                "trade_size": _word(tube.trade_size),
                "fill_percent": _number(tube.percent),
            }
            for run in circuit.raceways
            for tube in run.kinds
        ],
    }


def _fault(level: Level) -> Data:
    return {
        "at": level.at,
        "ka": _number(level.greatest),
        "line_line_ka": _number(level.line_line),
        "line_neutral_ka": _number(level.line_neutral),
        "added_ka": _number(level.added),
        "least_ka": _number(level.least),
    }


def _busbar(bar: Busbar) -> Data:
    options = [{"option": number, "verdict": check.verdict, "reason": check.reason} for number, check in bar.options]
    return {
        "panel": bar.panel,
        "sources_a": _number(bar.sources),
        "option": bar.option,
        "verdict": bar.check.verdict,
        "options": options,
    }


def _lifted(row: Row) -> Data:
    return {
        "unit": row.unit,
        "part": row.part,
        "name": row.name,
        "pieces": row.pieces,
        "mass_kg": _number(row.mass),
        "lifting_index": _number(row.solo),
        "way": row.way,
        "people": row.people,
        "aid": row.aid,
        "reason": row.reason,
        "condition": row.condition,
    }
