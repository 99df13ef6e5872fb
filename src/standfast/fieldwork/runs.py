"""Conductors, raceways and their fittings, from the runs of the job with tolerance and what is left at the ends."""

from collections import defaultdict

from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import End, Plan, Run, Wire
from standfast.fieldwork.rows import length_of
from standfast.sheet import Value, chosen, missing, total, work
from standfast.shelf import Edition

COILS = ("fmc",)
"""Raceways that come in coils and need no couplings."""


def conductor_rows(plan: Plan, practice: Edition) -> list[Material]:
    """One row for each size, material, insulation and colour, with the cuts of every run."""
    cuts: dict[tuple[str, str, str, str], list[tuple[Wire, str, Value]]] = defaultdict(list)
    for run in plan.runs:
        length = cut_length(practice, run)
        for wire in run.wires:
            for colour, count in _colours(practice, wire):
                pieces = work("L_cuts", "n * L_cut", "ft", None, length, n=count)
                text = f"{count.quantity:g} × {length_of(length, plan.language)} ({run.name})"
                cuts[wire.size, wire.material, wire.insulation, colour].append((wire, text, pieces))
    rows = []
    for (size, metal, insulation, colour), found in cuts.items():
        bought = work("L_buy", "ceil(L_sum)", "ft", None, total("L_sum", [pieces for _, _, pieces in found], "ft"))
        words = {"size": named_size(size)}
        words |= {"material": plan.say(f"materials.{metal}"), "insulation": plan.say(f"materials.{insulation}")}
        what = plan.say("materials.conductor", colour=colour, **words)
        text = "; ".join(text for _, text, _ in found)
        use = plan.say("materials.conductor_use", use=plan.say(f"materials.{found[0][0].use}"), cuts=text)
        rows.append(material("conductors", what, bought, use, plan.language))
    return rows


def cut_length(practice: Edition, run: Run) -> Value:
    """Length of one conductor of a run, ft: the run with its tolerance, and what is left free at both ends."""
    first, second = (practice.number(f"free_at_{end}", f"l_{number}") for number, end in enumerate(run.ends, 1))
    text = "L_run * (1 + w_run / 100) + l_1 + l_2"
    return work("L_cut", text, "ft", practice.clause("ends"), first, second, L_run=run.length, w_run=run.waste)


def raceway_rows(plan: Plan, practice: Edition, run: Run) -> list[Material]:
    """Raceway, couplings, connectors, straps and what else a run needs."""
    words = {"raceway": plan.say(f"materials.{run.raceway}"), "size": run.trade_size}
    wet = plan.say("materials.wet") if run.wet else ""
    length = work("L_raceway", "L_run * (1 + w_run / 100)", "ft", None, L_run=run.length, w_run=run.waste)
    two = practice.number("connectors_per_run")
    rows = _lengths(plan, practice, run, length, words, wet)
    rows.append(_row(plan, "connector", two, run.name, wet=wet, **words))
    rows.append(_straps(plan, practice, run, length, words))
    bends = missing("n_bend", "1", plan.say("common.count_on_site"))
    use, what = plan.say("materials.bend_use", name=run.name), plan.say("materials.bend", **words)
    on_site = material("raceway", what, bends, use, plan.language, plan.say("common.count_on_site"))
    rows.append(on_site._replace(needs=()))
    if any(_needs_bushing(practice, wire) for wire in run.wires):
        rows.append(_row(plan, "bushing", two, plan.say("materials.bushing_use", name=run.name), size=run.trade_size))
    if run.raceway.startswith("pvc"):
        rows.append(_row(plan, "pvc_cement", _one(run), plan.say("materials.pvc_cement_use")))
    if any(wire.material == "al" for wire in run.wires):
        rows.append(_row(plan, "antioxidant", _one(run), plan.say("materials.antioxidant_use")))
    return rows


def end_of(part_kind: str) -> End:
    """What stands at an end of a run, by the kind of the part of the installation."""
    if part_kind == "busbar":
        return "panel"
    return "unit" if part_kind in ("battery", "inverter") else "disconnect"


def named_size(size: str) -> str:
    """``10`` → ``10 AWG``, ``4/0`` → ``4/0 AWG``, ``250`` → ``250 kcmil``."""
    return f"{size} kcmil" if size.isdecimal() and int(size) >= 250 else f"{size} AWG"


def _lengths(plan: Plan, practice: Edition, run: Run, length: Value, words: dict[str, str], wet: str) -> list[Material]:
    use = plan.say("materials.raceway_use", name=run.name, length=length_of(length, plan.language))
    if run.raceway in COILS:
        bought = work("L_buy", "ceil(L_raceway)", "ft", None, length)
        return [material("raceway", plan.say("materials.raceway_coil", **words), bought, use, plan.language)]
    stick = practice.table("supports").pick("L_stick", "stick", raceway=run.raceway, trade_size=run.trade_size)
    sticks = work("n_stick", "ceil(L_raceway / L_stick)", "1", None, length, stick)
    what = plan.say("materials.raceway", stick=length_of(stick, plan.language), **words)
    rows = [material("raceway", what, sticks, use, plan.language)]
    couplings = work("n_coupling", "n_stick - 1", "1", None, sticks)
    if couplings.missing or couplings.quantity > 0:
        rows.append(_row(plan, "coupling", couplings, run.name, wet=wet, **words))
    return rows


def _straps(plan: Plan, practice: Edition, run: Run, length: Value, words: dict[str, str]) -> Material:
    table = practice.table("supports")
    every, within = (
        table.pick(symbol, column, raceway=run.raceway, trade_size=run.trade_size)
        for symbol, column in (("s_every", "every"), ("s_within", "within"))
    )
    text = "max(2, ceil((L_raceway - 2 * s_within) / s_every) + 1)"
    count = work("n_strap", text, "1", practice.clause("supports"), length, every, within)
    lengths = {"within": length_of(within, plan.language), "every": length_of(every, plan.language)}
    return _row(plan, "strap", count, plan.say("materials.strap_use", name=run.name, **lengths), **words)


def _row(plan: Plan, key: str, quantity: Value, use: str, **words: str) -> Material:
    return material("raceway", plan.say(f"materials.{key}", **words), quantity, use, plan.language)


def _colours(practice: Edition, wire: Wire) -> list[tuple[str, Value]]:
    """The colours of equal conductors: lines one colour a phase, everything else one colour."""
    table = practice.table("colours")
    kinds = [row for row in table.rows if row["use"] == wire.use]
    found: dict[str, int] = {}
    for number in range(wire.number):
        colour = str(kinds[number % min(len(kinds), wire.number)]["colour"])
        found[colour] = found.get(colour, 0) + 1
    return [(colour, _count(count, f"conductors of use {wire.use}")) for colour, count in found.items()]


def _needs_bushing(practice: Edition, wire: Wire) -> bool:
    """True from the size of the clause upward: sizes count down to 1, then 1/0 up, then kcmil."""
    least = int(practice.number("bushing_from").word)
    return "/" in wire.size or int(wire.size) >= 250 or int(wire.size) <= least


def _count(number: int, why: str) -> Value:
    return chosen("n", float(number), "1", why, None)


def _one(run: Run) -> Value:
    return _count(1, f"one can serves run {run.id}")
