"""What cables take along their way in countries that count in square millimetres, and the house's own electrode."""

from collections import defaultdict

from standfast.fieldwork.electrodes import electrodes
from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Laid, Plan
from standfast.fieldwork.rows import counted, length_of, metres, open_needs
from standfast.sheet import Value, chosen, total, work

ARMOURED, SINGLES = "armoured", "singles"
"""In the name of a cable whose armour is earthed at its glands, and of one that lies in conduit or trunking."""


def metric_rows(plan: Plan) -> list[Material]:
    """Glands and clips of the cables of a metric job; of singles the conduit or trunking that they lie in."""
    alike: dict[tuple[str, str, str], list[Laid]] = defaultdict(list)
    for each in plan.cables:
        kind = "" if each.cable.missing else each.cable.word
        alike[kind, plan.said(each.cable), counted(each.area, plan.language)].append(each)
    rows = []
    for (kind, cable, area), laid in alike.items():
        words = {"cable": cable, "area": area}
        needs = open_needs(*(value for each in laid for value in (each.cable, each.area)))
        made = _enclosed(plan, laid, words) if SINGLES in kind else _laid(plan, laid, words, armoured=ARMOURED in kind)
        rows += [row._replace(needs=tuple(dict.fromkeys((*row.needs, *needs)))) for row in made]
    return rows


def _laid(plan: Plan, laid: list[Laid], words: dict[str, str], *, armoured: bool) -> list[Material]:
    """Glands at both ends of each cable, and its clips."""
    runs, names = tuple(each.id for each in laid), "; ".join(each.name for each in laid)
    what = plan.say("materials.gland_armoured" if armoured else "materials.gland", **words)
    row = material("raceway", what, _number(2 * len(laid), "two ends of each cable"), names, plan.language, of=runs)
    spacing = plan.practice.number("clip_spacing")
    counts = [work("n_clip", "ceil(L / s_clip) + 1", "1", spacing.clause, spacing, L=each.length) for each in laid]
    use = plan.say("materials.clip_use", names=names, every=length_of(spacing, plan.language, metric=True))
    clips = plan.say("materials.clip", **words)
    return [
        row._replace(ground="common practice"),
        material("raceway", clips, total("n_clip", counts, "1"), use, plan.language, of=runs),
    ]


def _enclosed(plan: Plan, laid: list[Laid], words: dict[str, str]) -> list[Material]:
    """Conduit or trunking along the route of singles; no size is worked out, and its bends are counted on site."""
    runs, on_site = tuple(each.id for each in laid), plan.say("common.count_on_site")
    use = "; ".join(f"{each.name}: {metres(each.length, plan.language)}" for each in laid)
    length = work("L_buy", "ceil(L_sum)", "m", None, total("L_sum", [each.length for each in laid], "m"))
    need = plan.say("materials.trunking_need", names=", ".join(each.name for each in laid))
    trunking = material("raceway", plan.say("materials.trunking", **words), length, use, plan.language, of=runs)
    fittings = plan.say("materials.trunking_fittings")
    return [
        trunking._replace(needs=(*trunking.needs, need), ground="job"),
        material("raceway", fittings, _number(1, "one set a route"), use, plan.language, on_site, runs),
    ]


def electrode_rows(plan: Plan) -> list[Material]:
    """Each electrode that this job puts in the ground: of a building that has none, and the house's own without the
    grid."""
    rows = []
    for each in electrodes(plan):
        own = each.slug == "own"
        what, use = plan.say("materials.electrode"), plan.say("materials.electrode_use") if own else each.name
        why = "the job states an electrode of its own" if own else "the building has none"
        row = material("switchgear", what, _number(1, why), use, plan.language, of=(each.slug,))
        rows.append(row._replace(ground="common practice"))
    return rows


def relay_rows(plan: Plan) -> list[Material]:
    """What joins neutral and earth while the grid is away: where the island switch opens the neutral and the unit does
    not say that it joins them inside."""
    switch, unit = plan.sheets.get("island_switch"), plan.sheets.get("inverter", plan.sheets.get("battery"))
    made = None if switch is None else switch.sheet.switch
    if unit is None or made is None or made.neutral_switched is not True:
        return []
    word = unit.fact("electrical.neutral_bond", "neutral_bond")
    if not word.missing and word.word != "none":
        return []
    of = tuple(part.id for part in plan.installation.of_kind("transfer equipment"))
    count = chosen("n", 1.0, "1", "the island switch opens the neutral", None, word)
    use = plan.say("materials.relay_use", name=unit.sheet.name)
    row = material("switchgear", plan.say("materials.relay"), count, use, plan.language, of=of)
    return [row._replace(ground="data sheet", needs=open_needs(word))]


def _number(count: int, why: str) -> Value:
    return chosen("n", float(count), "1", why, None)
