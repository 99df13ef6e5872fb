"""Ways out for a busbar with too many sources: each one that the code allows, with the work that it brings.

The code gives alternatives and not an order: the least work stands first, and `priced` puts them by what they cost.
What is not here: a study under engineering supervision (705.12(B), its last option), which no program makes.
"""

import json
from collections.abc import Iterator

from standfast.design.wiring.along import follows
from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import ends, fewer, parts
from standfast.foreman.remedies.change import Change, Entry, Ladder, New, ladder, one
from standfast.reading.positions import Path
from standfast.reading.quantities import amount
from standfast.sheet import Check
from standfast.survey.agreed import service_panel
from standfast.survey.joined import INVERTER, SERVICE_TAP, has_inverter, owner, unit_ids
from standfast.survey.power import Circuit, Panel

BUSBARS = (100, 125, 150, 200, 225, 320, 400)
MAINS = (60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350)
TAPS = ("6", "4", "3", "2", "1", "1/0")
"""Ratings of busbars and main devices, and sizes of conductors, that are made. No verdict rests on them: each is tried
like any other change."""
STEP_A = 5
"""Steps of the settings of a control that are tried."""
QUALIFIED = "qualified people"


def opposite(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The breakers of the sources at the end of the busbar opposite its feed."""
    found = _panel(plan, check)
    if found is None or found[1].source_position == "opposite end":
        return
    moved = ends.at_end(plan, *found)
    if moved is not None:
        says = f"put the breaker of the source at the end of the {_name(found[1])} opposite its feed"
        yield _with_work("moved breaker", one(says, ((*found[0], "source_position"), "opposite end"), *moved))


def source_breaker(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """Smaller breakers of the sources, where they count on the busbar: the same for each."""
    found, family = [parts.protected(plan, each.id) for each in plan.design.wiring.units], plan.sheets.get("breaker")
    known = [each for each in found if each is not None]
    if family is None or family.sheet.switch is None or not known or len(known) < len(found):
        return
    amps = sorted(amount(each, "A") for each in family.sheet.switch.ratings)
    least = min(parts.rating(each) for each in known)
    says = "put in a breaker of {:g} A" if len(known) == 1 else "put in breakers of {:g} A for every unit"
    changes = (
        one(says.format(each), *(((*at.path, "breaker"), f"{each:g} A") for at in known))
        for each in reversed(amps)
        if each < least
    )
    yield ladder(changes, rising=True)


def smaller_main(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A smaller device for the busbar, with the source at the opposite end; what it has to carry is checked too."""
    found = _panel(plan, check)
    if found is None or found[1].main is None:
        return
    path, each = found
    have, moved = amount(found[1].main, "A"), ends.at_end(plan, *found)
    if moved is None:
        return
    yield _with_work("smaller main", *(
        one(
            f"put a main of {amps} A into the {_name(each)}, the source at the opposite end",
            ((*path, "main"), f"{amps} A"),
            ((*path, "source_position"), "opposite end"),
            *moved,
            *((way, f"{amps} A") for way in parts.said_twice(plan, path, "main")),
        )
        for amps in reversed(MAINS)
        if amps < have
    ), rising=True)  # fmt: skip


def larger_panel(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The next busbars."""
    for way in parts.greater(plan, check, "busbar", "a busbar", BUSBARS, "A"):
        yield _with_work("larger panel", *way.changes, rising=True)


def power_control(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A setting of the control that the maker has listed for it; none where the data sheet names no such listing."""
    found, job = _panel(plan, check), plan.survey.job
    sheet = plan.sheets.get("inverter" if has_inverter(job) else "battery")
    listing = None if sheet is None or sheet.sheet.electrical is None else sheet.sheet.electrical.busbar_control
    if found is None or listing is None or found[1].busbar is None:
        return
    id, most = found[1].id, int(amount(found[1].busbar, "A"))
    held = [INVERTER] if has_inverter(job) else unit_ids(job)
    yield _with_work("power control", *(
        one(
            f"set the listed control so that it keeps the busbar of the {_name(found[1])} below {amps} A",
            (("controls", len(job.controls)), _control(f"control-{id}", id, amps, held, listing)),
        )
        for amps in range(most - most % STEP_A, most // 2, -STEP_A)
    ), rising=True)  # fmt: skip


def elsewhere(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The circuit of a source on another panel, where its run follows the walls, so that its new length is known."""
    found, job = _panel(plan, check), plan.survey.job
    if found is None:
        return
    for made in plan.design.wiring.units:
        runs = [(number, route) for number, route in enumerate(job.routes) if made.panel in (route.from_, route.to)]
        runs = [
            (number, route) for number, route in runs if route.id in {tube.run.id for tube in made.circuit.raceways}
        ]
        at = next((each for each in parts.circuits(plan) if owner(job, each[2]) == made.id), None)
        if made.panel == found[1].id and len(runs) == 1 and follows(runs[0][1]) and at is not None:
            end: Path = ("routes", runs[0][0], "from" if runs[0][1].from_ == made.panel else "to")
            changes = [_moved(at[0], at[2], made.id, other, panel, end) for other, panel in parts.panels(plan)
                       if panel.id != made.panel]  # fmt: skip
            yield _with_work("other panel", *(each for each in changes if each is not None))


def supply_side(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The source of a service panel ahead of the service disconnect, its run as long as to that panel."""
    found, job = _panel(plan, check), plan.survey.job
    if found is None or found[0] != ("panels", service_panel(job)):
        return
    own = [each for each in plan.design.wiring.units if each.panel == found[1].id]
    runs = [(number, route) for number, route in enumerate(job.routes)
            for made in own if found[1].id in (route.from_, route.to)
            and route.id in {tube.run.id for tube in made.circuit.raceways}]  # fmt: skip
    if not own or len(runs) != len(own):
        return
    gone = [path for path, _, each in parts.circuits(plan) if owner(job, each) in {made.id for made in own}]
    ended: list[tuple[Path, New]] = [
        (("routes", number, "from" if route.from_ == found[1].id else "to"), SERVICE_TAP) for number, route in runs
    ]
    every = [path for made in own for path in parts.routes(plan, made.circuit)]
    says = "join the source to the service conductors ahead of the service disconnect, in conductors of size {}"
    yield _with_work("supply-side connection", *(
        one(says.format(size), *ended, *(((*path, "conductors", "size"), size) for path in every),
            *((path, None) for path in reversed(gone)))
        for size in TAPS
    ))  # fmt: skip


def _moved(path: Path, circuit: Circuit, source: str, other: Path, panel: Panel, end: Path) -> Change | None:
    """A circuit in the last free spaces of another panel; None where it has none."""
    taken = {space for each in panel.circuits for space in each.spaces}
    free = [each for each in ends.slots(panel.spaces or 0) if not taken & set(each)]
    if not free or circuit.poles != len(free[0]):
        return None
    words = {"feeds": source, "spaces": list(free[0]), "poles": circuit.poles, "state": "new"}
    words |= {"name": circuit.name} if circuit.name else {}
    words |= {name: getattr(circuit, name).text for name in ("breaker", "source_output") if getattr(circuit, name)}
    words |= {"phases": circuit.phases} if circuit.phases else {}
    entry = Entry(json.dumps({"id": circuit.id, **words}), f"added, in spaces {free[0][0]} and {free[0][1]}")
    said: list[tuple[Path, New]] = [((*other, "circuits", len(panel.circuits)), entry), (path, None), (end, panel.id)]
    if panel.source_position is None:
        said.append(((*other, "source_position"), "opposite end"))
    return one(f"join {source.replace('-', ' ')} to the {_name(panel)} instead", *said)


def _control(id: str, panel: str, amps: int, held: list[str], listing: str) -> Entry:
    words = {"id": id, "limits": panel, "setting": f"{amps} A", "sources": held, "listing": listing}
    told = f'added: limits = "{panel}", setting = "{amps} A", listing and access as on the data sheet'
    return Entry(json.dumps({**words, "access": QUALIFIED}), told)


def _with_work(work: str, *changes: Change, rising: bool = False) -> Ladder:
    return ladder((each._replace(work=work) for each in changes), rising=rising)


def _panel(plan: JobPlan, check: Check) -> tuple[Path, Panel] | None:
    return parts.panel(plan, check.id.partition("/")[2])


def _name(panel: Panel) -> str:
    return panel.name or panel.id


WAYS = (
    (
        "wiring.source-busbar",
        (opposite, power_control, elsewhere, source_breaker, smaller_main, supply_side, larger_panel, fewer.units),
    ),
)
"""The least work first."""
