"""What cables take at their ends and along their way, and what fine-stranded conductors take in their terminals."""

from collections import defaultdict

from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Laid, Plan, Run
from standfast.fieldwork.rows import counted, open_needs
from standfast.fieldwork.runs import named_size
from standfast.sheet import Value, chosen, total, work

CORES = {"230 V single-phase": 2.0, "230/400 V three-phase": 4.0}
"""Live conductors of a cable, by the system of the supply."""
ARMOURED = "armoured"
"""In the name of a cable whose armour is earthed at its glands."""
SPARE = "n_end + max(2, ceil(n_end * k_ferrule / 100))"


def metric_rows(plan: Plan) -> list[Material]:
    """Glands and clips of the cables of a metric job."""
    glands: dict[tuple[bool, str, str], list[Laid]] = defaultdict(list)
    for each in plan.cables:
        armoured = not each.cable.missing and ARMOURED in each.cable.word
        glands[armoured, plan.said(each.cable), counted(each.area, plan.language)].append(each)
    rows = []
    for (armoured, cable, area), laid in glands.items():
        words = {"cable": cable, "area": area}
        runs, names = tuple(each.id for each in laid), "; ".join(each.name for each in laid)
        what = plan.say("materials.gland_armoured" if armoured else "materials.gland", **words)
        row = material("raceway", what, _number(2 * len(laid), "two ends of each cable"), names, plan.language, of=runs)
        needs = open_needs(*(value for each in laid for value in (each.cable, each.area)))
        rows.append(row._replace(needs=needs, ground="common practice"))
        spacing = plan.practice.number("clip_spacing")
        counts = [
            work("n_clip", "ceil(L / s_clip) + 1", "1", spacing.clause, spacing, L=each.length) for each in laid
        ]  # fmt: skip
        clips = plan.say("materials.clip", **words)
        use = plan.say("materials.clip_use", names=names)
        rows.append(material("raceway", clips, total("n_clip", counts, "1"), use, plan.language, of=runs))
    return rows


def ferrule_rows(plan: Plan) -> list[Material]:
    """Ferrules for the ends of cables that are finely stranded, and lugs for the direct-current conductors."""
    return [*_ferrules(plan), *_lugs(plan)]


def electrode_rows(plan: Plan) -> list[Material]:
    """The electrode that serves while the grid is away, where the job says that the house has one of its own."""
    if not plan.survey.job.backup.own_electrode:
        return []
    what, use = plan.say("materials.electrode"), plan.say("materials.electrode_use")
    row = material("switchgear", what, _number(1, "the job states an electrode of its own"), use, plan.language)
    return [row._replace(ground="common practice")]


def _ferrules(plan: Plan) -> list[Material]:
    cores = CORES.get(plan.survey.job.supply.system or "")
    ends: dict[str, list[tuple[Laid, float | None]]] = defaultdict(list)
    for each in plan.cables:
        ends[counted(each.area, plan.language)].append((each, None if cores is None else 2 * cores))
        ends[counted(each.protective, plan.language)].append((each, 2.0))
    return [_end_row(plan, area, found) for area, found in ends.items()]


def _end_row(plan: Plan, area: str, found: list[tuple[Laid, float | None]]) -> Material:
    known = [number for _, number in found if number is not None]
    amount = "" if len(known) == len(found) else plan.say("common.count_on_site")
    share = plan.practice.number("ferrule_spares")
    n_end = chosen("n_end", sum(known), "1", f"ends of {area}", None)
    bought = work("n_buy", SPARE, "1", share.clause, n_end, share)
    what, use = plan.say("materials.ferrule", area=area), plan.say("materials.ferrule_use")
    runs = tuple(dict.fromkeys(each.id for each, _ in found))
    return material("conductors", what, bought, use, plan.language, amount, runs)


def _lugs(plan: Plan) -> list[Material]:
    """At both ends of every direct-current conductor, and on both sides of each switch that it is led through."""
    alike: dict[str, list[tuple[Run, float]]] = defaultdict(list)
    unknown: dict[str, list[Value]] = defaultdict(list)
    for run in plan.runs:
        for wire in (each for each in run.wires if each.use in ("positive", "negative")):
            size = plan.say("common.not_known") if wire.size.missing else named_size(wire.size.word)
            alike[size].append((run, wire.number * 2.0 * (1 + len(run.through))))
            unknown[size].append(wire.size)
    rows = []
    for size, found in alike.items():
        share = plan.practice.number("ferrule_spares")
        n_end = chosen("n_end", sum(number for _, number in found), "1", f"ends of {size}", None)
        bought = work("n_buy", SPARE, "1", share.clause, n_end, share)
        what, use = plan.say("materials.lug", size=size), plan.say("materials.lug_use")
        runs = tuple(dict.fromkeys(run.id for run, _ in found))
        row = material("conductors", what, bought, use, plan.language, of=runs)
        rows.append(row._replace(needs=(*row.needs, *open_needs(*unknown[size]))))
    return rows


def _number(count: int, why: str) -> Value:
    return chosen("n", float(count), "1", why, None)
