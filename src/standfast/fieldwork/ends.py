"""What the ends of conductors take: lugs by the stud that they land on, ferrules by the length that is stripped."""

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from standfast.equipment.electrical import Terminal
from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Laid, Plan, Run, Wire
from standfast.fieldwork.rows import counted, open_needs
from standfast.fieldwork.runs import named_size
from standfast.sheet import Value, chosen, missing, work
from standfast.survey.joined import devices

CORES = {"230 V single-phase": 2.0, "230/400 V three-phase": 4.0}
"""Live conductors of a cable, by the system of the supply."""
SPARE = "n_end + max(2, ceil(n_end * k_ferrule / 100))"
DC = ("positive", "negative")


class End(NamedTuple):
    """Equal ends of conductors at one device: of which run, what it is, how many, and what was not found out."""

    of: str
    what: str
    number: float | None
    needs: tuple[str, ...] = ()


def lug_rows(plan: Plan) -> list[Material]:
    """Compression lugs for the ends of direct-current conductors that land on studs.

    A terminal with a length to strip clamps the conductor itself and takes none. One with neither takes a lug whose
    hole is not known: its stud is asked for.
    """
    ends = [end for run in plan.runs for wire in run.wires if wire.use in DC for end in _lugs(plan, run, wire)]
    return list(_rows(plan, ends, "lug_use"))


def ferrule_rows(plan: Plan) -> list[Material]:
    """Ferrules for the ends of finely stranded cables, as long as the terminal of each end asks."""
    return list(_rows(plan, [end for each in plan.cables for end in _ferrules(plan, each)], "ferrule_use"))


def _lugs(plan: Plan, run: Run, wire: Wire) -> Iterator[End]:
    size = plan.say("common.not_known") if wire.size.missing else named_size(wire.size.word)
    arrays = {part.id for part in plan.installation.of_kind("array")}
    use = "pv" if arrays & set(run.parts) else "dc"
    for place, part in enumerate(run.parts):
        if part in arrays:
            continue
        terminal = _terminal(plan, part, use)
        if terminal is not None and terminal.strip is not None:
            continue
        number = wire.number * (1.0 if place in (0, len(run.parts) - 1) else 2.0)
        name = plan.installation.parts[part].name
        if terminal is None or terminal.stud is None:
            need = plan.say("materials.stud_need", name=name)
            what = plan.say("materials.lug", size=size)
            yield End(run.id, what, number, (need, *open_needs(wire.size)))
        else:
            what = plan.say("materials.lug_stud", size=size, stud=_stud(terminal.stud))
            yield End(run.id, what, number, open_needs(wire.size))


def _stud(thread: str) -> str:
    return thread if thread.startswith("M") else f"{thread} in"


def _ferrules(plan: Plan, laid: Laid) -> Iterator[End]:
    """Both ends of a cable: live conductors and the protective one."""
    cores = CORES.get(plan.survey.job.supply.system or "")
    route = next(each for each in plan.survey.job.routes if each.id == laid.id)
    known = devices(plan.survey.job)
    for end in (route.from_, route.to):
        part = known.get(end, end)
        for use, area, number in (("ac line", laid.area, cores), ("ground", laid.protective, 1.0)):
            terminal = _terminal(plan, part, use)
            long = None if terminal is None or terminal.strip is None else terminal.strip.text
            words = {"area": counted(area, plan.language)}
            if long is None:
                yield End(laid.id, plan.say("materials.ferrule", **words), number, open_needs(area))
            else:
                what = plan.say("materials.ferrule_long", **words, strip=long)
                yield End(laid.id, what, number, open_needs(area))


def _terminal(plan: Plan, part: str, use: str) -> Terminal | None:
    """The terminal of a use at a device, as its data sheet has it; None where no sheet is chosen or it names none."""
    found = plan.installation.parts.get(part)
    sheet = None if found is None else plan.sheets.get(found.role or found.kind)
    if sheet is None:
        return None
    return next((each for each in sheet.sheet.terminals if each.use == use), None)


def _rows(plan: Plan, ends: list[End], use: str) -> Iterator[Material]:
    alike: dict[str, list[End]] = defaultdict(list)
    for end in ends:
        alike[end.what].append(end)
    for what, found in alike.items():
        share = plan.practice.number("ferrule_spares")
        known = [end.number for end in found if end.number is not None]
        whole = len(known) == len(found)
        n_end: Value = missing("n_end", "1", "supply.system")
        if whole:
            n_end = chosen("n_end", sum(known), "1", f"ends: {what}", None)
        bought = work("n_buy", SPARE, "1", share.clause, n_end, share)
        of = tuple(dict.fromkeys(end.of for end in found))
        needs = tuple(dict.fromkeys(need for end in found for need in end.needs))
        amount = "" if whole else plan.say("common.count_on_site")
        row = material("conductors", what, bought, plan.say(f"materials.{use}"), plan.language, amount, of)
        yield row._replace(needs=tuple(dict.fromkeys((*(row.needs if whole else ()), *needs))))
