"""The pick list: every material and tool by its place in the van, with the steps that ask it, what is there, and what
is to be bought."""

from collections.abc import Iterator, Mapping
from math import floor
from typing import Literal, NamedTuple

from standfast.equipment.prices import Prices
from standfast.fieldwork.delivery import boxes
from standfast.fieldwork.material import Group, Material
from standfast.fieldwork.materials import Materials
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.rows import counted
from standfast.fieldwork.tools import Shelf, Tools
from standfast.fieldwork.work_order import WorkOrder
from standfast.reading.quantities import amount
from standfast.sheet import total
from standfast.survey.firm import Firm

Place = Literal[
    "load bed", "roof rack", "spools", "switchgear crate", "fixings case", "seals and labels", "torque case",
    "drill case", "test case", "lock-off bag", "wiring bag", "people", "in the boxes",
]  # fmt: skip
OF_GROUP: Mapping[Group, Place] = {
    "chosen equipment": "load bed", "conductors": "spools", "raceway": "roof rack", "switchgear": "switchgear crate",
    "fixing": "fixings case", "sealing": "seals and labels", "labels": "seals and labels",
    "detection": "switchgear crate", "vehicle protection": "load bed", "named by the maker": "fixings case",
    "existing house": "switchgear crate", "protective equipment": "people",
}  # fmt: skip
OF_SHELF: Mapping[Shelf, Place] = {
    "torque": "torque case", "drilling": "drill case", "finding": "drill case", "dust": "drill case",
    "testing": "test case", "isolation": "lock-off bag", "wiring": "wiring bag", "lifting": "load bed",
    "setting out": "drill case", "named by the maker": "wiring bag",
}  # fmt: skip
ORDER: tuple[Place, ...] = (
    "load bed", "roof rack", "spools", "switchgear crate", "fixings case", "seals and labels", "drill case",
    "torque case", "wiring bag", "lock-off bag", "test case", "people", "in the boxes",
)  # fmt: skip
"""Places in the order in which a van is loaded."""


JOB = "job"
"""Ground of a number that neither a book nor a data sheet gives: the job itself, as it was surveyed and designed."""


class Pick(NamedTuple):
    """One row.

    Attributes:
        place: in the van; ``in the boxes`` for what comes with the equipment.
        what: the thing with its size.
        amount: for print; empty for a tool.
        goes: where on the job it goes: names of devices, runs and panels.
        steps: numbers of the steps of the work order that ask it.
        why: what it is for.
        ground: on what ground it is asked.
        have: how much of it lies in the store; empty where no firm file says.
        buy: how much is to be bought.
        cost: of what is to be bought, with its currency; empty where no price is known.
    """

    place: Place
    what: str
    amount: str
    goes: str
    steps: str
    why: str
    ground: str
    have: str = ""
    buy: str = ""
    cost: str = ""


class Store(NamedTuple):
    """What a firm has and pays.

    Attributes:
        firm: the firm; None where there is no firm file.
        prices: the price list, the firm's own over it.
    """

    firm: Firm | None
    prices: Prices


def pick_list(plan: Plan, bill: Materials, gear: Tools, order: WorkOrder, store: Store) -> list[Pick]:
    """The pick list of a job in the order in which the van is loaded.

    Args:
        plan: what the work is derived from.
        bill: the bill of materials.
        gear: the tools.
        order: the work order.
        store: what the firm has and pays.
    """
    rows = [_material(plan, row, order, store) for row in _together(plan, bill)]
    for tool in gear.rows:
        steps = _tool_steps(tool.shelf, order)
        rows.append(Pick(OF_SHELF[tool.shelf], tool.what, "", "", steps, tool.use, tool.ground))
    for box in boxes(plan):
        number = "" if box.number is None else f"{box.number:g}"
        steps = _numbers(order, ["job.delivery"])
        why = box.use or plan.say("van.comes_with", device=box.device)
        rows.append(Pick("in the boxes", box.what, number, box.device, steps, why, "data sheet"))
    return sorted(rows, key=lambda row: ORDER.index(row.place))


def _together(plan: Plan, bill: Materials) -> list[Material]:
    """The bill with equal things of several runs in one row: a crate is filled once."""
    found: dict[tuple[Group, str], Material] = {}
    for row in bill.rows:
        old = found.get((row.group, row.what))
        if old is None:
            found[row.group, row.what] = row
            continue
        amount, use = old.amount, "; ".join(dict.fromkeys((old.use, row.use)))
        quantity = total("n_buy", [old.quantity, row.quantity], old.quantity.unit)
        if {old.amount, row.amount} != {plan.say("common.count_on_site")}:
            amount = counted(quantity, plan.language)
        of, needs = tuple(dict.fromkeys((*old.of, *row.of))), tuple(dict.fromkeys((*old.needs, *row.needs)))
        found[row.group, row.what] = row._replace(quantity=quantity, amount=amount, use=use, of=of, needs=needs)
    # nothing of a row that the work makes of another is loaded: bends of the stick
    return [row for row in found.values() if row.quantity.missing or row.quantity.quantity > 0]


def _material(plan: Plan, row: Material, order: WorkOrder, store: Store) -> Pick:
    goes = ", ".join(dict.fromkeys(name for name in _names(plan, row.of) if name))
    steps = _numbers(order, _asking(row, order)) or _numbers(order, ["job.van"])
    if row.group == "protective equipment":
        steps = _numbers(order, _worn_at(plan, row, order)) or steps
    have, buy, cost = _bought(plan, row, store)
    return Pick(OF_GROUP[row.group], row.what, row.amount, goes, steps, row.use, row.ground or JOB, have, buy, cost)


def _names(plan: Plan, ids: tuple[str, ...]) -> Iterator[str]:
    runs = {run.id: run.name for run in plan.runs} | {cable.id: cable.name for cable in plan.cables}
    places = {extra.id: extra.where for extra in plan.extras} | {room.id: room.id for room in plan.survey.job.rooms}
    for id in ids:
        part = plan.installation.parts.get(id)
        yield runs.get(id, places.get(id, "")) if part is None else part.name


PUT_IN = ("mount", "connect", "electrode", "join-electrode")
"""Acts on what stands in the bill of materials under switchgear, as ids of steps have them."""


def _asking(row: Material, order: WorkOrder) -> list[str]:
    """Ids of the steps at which a material is used, nearest first in meaning: its own, else those of its trade."""
    own = [id.replace("/", "-") for id in row.of]
    at = {
        "conductors": [f"job.run-{id}" for id in own] if row.ware is None else ["job.pull"],
        "raceway": [f"job.run-{id}" for id in own],
        "switchgear": [f"job.{act}-{id}" for id in own for act in PUT_IN],
        "fixing": [f"job.mount-{id}" for id in own],
        "existing house": [f"job.{id}" for id in own],
        "labels": ["job.labels"],
        "sealing": [id for id in order.numbers if id.startswith("job.seal-")],
        "detection": [f"job.detector-{id}" for id in own],
        "vehicle protection": ["job.barrier"],
        "protective equipment": ["job.van"],
    }
    found = [id for id in dict.fromkeys(at.get(row.group, [])) if id in order.numbers]
    if row.group in ("fixing", "named by the maker", "chosen equipment"):
        stages = ("hang", "connect") if row.group == "named by the maker" else ("hang",)
        found += [
            step.id for step in order.steps if step.stage in stages and any(step.id.startswith(f"{id}.") for id in own)
        ]
    return found


TESTED = ("job.dead-tests", "job.closed-tests", "job.live-tests")
"""Steps at which somebody tests."""


def _worn_at(plan: Plan, row: Material, order: WorkOrder) -> list[str]:
    """Ids of the steps at which a thing is worn: those that drill, those that lift, those that prove dead or test live;
    clothing for an arc at a battery at those that prove terminals dead."""
    drilled = {
        f"{device.id}.{step.id}"
        for device in plan.devices
        for step in device.sheet.steps
        if step.does is not None and step.does.change == "drill"
    }
    worn = {
        "drilling": [step.id for step in order.steps if step.stage == "fix" or step.id in drilled],
        "lifting": [step.id for step in order.steps if step.stage == "hang"],
        "voltage": [step.id for step in order.steps if step.proves or step.id in TESTED],
    }
    return next((worn[kind] for kind in row.of if kind in worn), [step.id for step in order.steps if step.proves])


STAGES: Mapping[Shelf, tuple[str, ...]] = {
    "drilling": ("fix", "hang"), "finding": ("fix",), "dust": ("fix", "hang"), "isolation": ("isolate",),
    "wiring": ("run", "connect"), "lifting": ("hang",), "setting out": ("fix", "hang"),
}  # fmt: skip
"""Parts of the day in which the tools of a shelf are used."""


def _tool_steps(shelf: Shelf, order: WorkOrder) -> str:
    """Numbers of the steps at which the tools of a shelf are used."""
    if shelf == "torque":
        return _numbers(order, [step.id for step in order.steps if step.torque])
    if shelf == "testing":
        return _numbers(order, [step.id for step in order.steps if step.proves or step.id in TESTED])
    if shelf == "named by the maker":
        return _numbers(order, [step.id for step in order.steps if step.tools])
    stages = STAGES.get(shelf, ())
    return _numbers(order, [step.id for step in order.steps if step.stage in stages])


def _numbers(order: WorkOrder, ids: list[str]) -> str:
    """Numbers of steps, three and more that follow on one another as a span."""
    spans: list[list[int]] = []
    for number in sorted({order.numbers[id] for id in ids if id in order.numbers}):
        if spans and number == spans[-1][-1] + 1:
            spans[-1].append(number)
        else:
            spans.append([number])
    shown = [f"{each[0]}–{each[-1]}" if len(each) > 2 else ", ".join(map(str, each)) for each in spans]
    return ", ".join(shown)


def _bought(plan: Plan, row: Material, store: Store) -> tuple[str, str, str]:
    """What lies in the store, what is to be bought, and what that costs."""
    unknown = plan.say("common.not_known")
    if row.amount == plan.say("common.count_on_site"):
        return "", row.amount, ""
    if row.quantity.missing:
        return "", unknown, ""
    held = _held(row, store.firm)
    short = max(0.0, row.quantity.quantity - (held or 0.0))
    unit = "" if row.quantity.unit == "1" else f" {row.quantity.unit}"
    have = "" if held is None else f"{held:g}{unit}"
    price = None if row.ware is None else store.prices.of(*row.ware)
    if price is None or not short:
        return have, f"{short:g}{unit}", ""
    mark = plan.say("van.invented") if price.invented else ""
    return have, f"{short:g}{unit}", f"{short * row.per * price.amount:.2f} {store.prices.currency}{mark}"


def _held(row: Material, firm: Firm | None) -> float | None:
    """How much of a row lies in the store, in the unit of the row; None where the firm keeps no list that says."""
    if firm is None or row.ware is None:
        return None
    table, word = row.ware
    if table == "piece" and firm.stock:
        return float(sum(each.count for each in firm.stock if each.sheet == word))
    if table in ("conductor", "raceway") and firm.wares:
        feet = sum(amount(each.length, "ft") for each in firm.wares if each.what == word)
        return float(floor(feet / row.per + 1e-9))
    return None
