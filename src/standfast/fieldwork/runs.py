"""Conductors, raceways and their fittings, from the runs of the job with tolerance and what is left at the ends."""

from collections import defaultdict
from fractions import Fraction
from typing import NamedTuple

from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import End, Laid, Plan, Run, Wire
from standfast.fieldwork.rows import counted, length_of, length_up, metres, open_needs
from standfast.sheet import Value, chosen, missing, total, work
from standfast.shelf import Edition

STEEL = ("emt", "imc", "rmc")
"""Raceways that are bent."""
COILS = ("fmc",)
"""Raceways that come in coils and need no couplings."""


class Cutting(NamedTuple):
    """Equal cuts of one conductor: the wire, the run, the length of each, and how many."""

    wire: Wire
    run: Run
    length: Value
    pieces: Value


Conductor = tuple[str, str, str, str]
"""Size, metal, insulation and colour for print."""


def conductor_cuts(plan: Plan) -> dict[Conductor, list[Cutting]]:
    """Every cut of the conductors of all runs, by what is bought."""
    cuts: dict[Conductor, list[Cutting]] = defaultdict(list)
    for run in plan.runs:
        length = cut_length(plan.practice, run)
        for wire in run.wires:
            for colour, count in _colours(plan.practice, wire):
                cuts[(*_words(plan, wire), colour)].append(Cutting(wire, run, length, count))
    return cuts


def conductor_rows(plan: Plan) -> list[Material]:
    """One row for each size, material, insulation and colour, with the cuts of every run."""
    rows = []
    for (size, metal, insulation, colour), found in conductor_cuts(plan).items():
        pieces = [work("L_cuts", "n * L_cut", "ft", None, each.length, n=each.pieces) for each in found]
        bought = work("L_buy", "ceil(L_sum)", "ft", None, total("L_sum", pieces, "ft"))
        what = plan.say("materials.conductor", size=size, material=metal, insulation=insulation, colour=colour)
        text = "; ".join(
            f"{each.pieces.quantity:g} × {length_of(each.length, plan.language)} ({each.run.name})" for each in found
        )
        use = plan.say("materials.conductor_use", use=plan.say(f"materials.{found[0].wire.use}"), cuts=text)
        wires = [each.wire for each in found]
        unknown = [value for wire in wires for value in (wire.size, wire.material, wire.insulation)]
        row = material("conductors", what, bought, use, plan.language, of=tuple(each.run.id for each in found))
        needs = tuple(dict.fromkeys((*row.needs, *open_needs(*unknown))))
        rows.append(row._replace(needs=needs, ware=conductor_ware(wires[0])))
    return rows


def conductor_ware(wire: Wire) -> tuple[str, str] | None:
    """A conductor in the words of a price list: ``cu 10``; None where its size or metal is not known."""
    known = not (wire.size.missing or wire.material.missing)
    return ("conductor", f"{wire.material.word} {wire.size.word}") if known else None


def cable_cuts(plan: Plan) -> dict[tuple[str, str, str], list[tuple[Laid, Value]]]:
    """The cables by what is bought, each with the length that is cut: of its route, and what both ends take."""
    alike: dict[tuple[str, str, str], list[tuple[Laid, Value]]] = defaultdict(list)
    end = plan.practice.number("cable_ends")
    for each in plan.cables:
        length = work("L_cut", "L + 2 * l_end", "m", end.clause, end, L=each.length)
        alike[plan.said(each.cable), counted(each.area, plan.language), counted(each.protective, plan.language)].append(
            (each, length)
        )
    return alike


def cable_rows(plan: Plan) -> list[Material]:
    """One row for each kind and size of cable, with the cut of every route, its ends in it."""
    rows = []
    for (cable, area, protective), found in cable_cuts(plan).items():
        bought = work("L_buy", "ceil(L_sum)", "m", None, total("L_sum", [length for _, length in found], "m"))
        what = plan.say("materials.cable", cable=cable, area=area, protective=protective)
        cuts = "; ".join(f"1 × {metres(length, plan.language)} ({each.name})" for each, length in found)
        use = plan.say("materials.cable_use", cuts=cuts)
        row = material("conductors", what, bought, use, plan.language, of=tuple(each.id for each, _ in found))
        values = [value for each, _ in found for value in (each.cable, each.area, each.protective)]
        rows.append(row._replace(needs=tuple(dict.fromkeys((*row.needs, *open_needs(*values))))))
    return rows


def cut_length(practice: Edition, run: Run) -> Value:
    """Length of one conductor of a run, ft: the run at the bad end of its survey, and the free length at both ends,
    up to the next whole inch, since nobody cuts a conductor to a sixteenth.

    Where the run is led through a switch, both sides of the cut there have their free length too.
    """
    first, second = (practice.number(f"free_at_{end}", f"l_{number}") for number, end in enumerate(run.ends, 1))
    each, n = practice.number("free_at_disconnect", "l_way"), _count(len(run.through), "switches on the way")
    text, ends = "L_max + l_1 + l_2 + 2 * n_way * l_way", practice.clause("ends")
    whole = work("L_whole", text, "ft", ends, first, second, each, L_max=run.length, n_way=n)
    inch = chosen("L_inch", 1 / 12, "ft", "cut to whole inches", None)
    return work("L_cut", "ceil(L_whole / L_inch) * L_inch", "ft", None, whole, inch)


def raceway_rows(plan: Plan, practice: Edition, run: Run) -> list[Material]:
    """Raceway, couplings, connectors, straps and what else a run needs; one open row where its size is not known.

    Where the raceway changes along the run, each kind has rows of its own, and two ends.
    """
    if run.changes:
        return [row for each in of_one_kind(run) for row in raceway_rows(plan, practice, each)]
    if run.raceway.missing or run.trade_size.missing:
        unknown = chosen("n_stick", 0.0, "1", "", None, run.raceway, run.trade_size)
        what = plan.say("materials.raceway_unknown")
        return [material("raceway", what, unknown, run.name, plan.language, of=(run.id,))]
    words = raceway_words(plan, run)
    wet = plan.say("materials.wet") if run.wet is not False else ""
    two = _ends(practice, run)
    rows = _lengths(plan, practice, run, words, wet)
    ends = _row(plan, "connector", two, run.name, wet=wet, **words)
    rows.append(ends._replace(ware=("fitting", f"{run.raceway.word} {run.trade_size.word}")))
    rows.append(_straps(plan, practice, run, words))
    way = plan.ways.get(run.id)
    if way is None or way.bends.missing or run.changes or way.bends.quantity > 0:
        rows.append(_bends(plan, run, words))
    if any(_needs_bushing(practice, wire) for wire in run.wires):
        use = plan.say("materials.bushing_use", name=run.name)
        rows.append(_row(plan, "bushing", two, use, size=run.trade_size.word))
    if run.raceway.word.startswith("pvc"):
        rows.append(_row(plan, "pvc_cement", _one(run), plan.say("materials.pvc_cement_use")))
    if any(not wire.material.missing and wire.material.word == "al" for wire in run.wires):
        rows.append(_row(plan, "antioxidant", _one(run), plan.say("materials.antioxidant_use")))
    return [row._replace(of=(run.id,)) for row in rows]


def of_one_kind(run: Run) -> list[Run]:
    """The parts of a run that are of one raceway each; the switches on its way are in the first."""
    if not run.changes:
        return [run]
    changed = total("L_changed", [length for length, _, _ in run.changes], "ft")
    own = work("L_own", "L_max - L_changed", "ft", None, changed, L_max=run.length)
    parts = [(own, run.raceway, run.trade_size), *run.changes]
    alone = [run._replace(length=each, raceway=kind, trade_size=size, changes=()) for each, kind, size in parts]
    return [alone[0], *(each._replace(through=()) for each in alone[1:])]


def _ends(practice: Edition, run: Run) -> Value:
    """Ends of the raceway: two, and two more at each switch that it is led through."""
    each, n = practice.number("connectors_per_run"), _count(len(run.through), "switches on the way")
    return work("n_end", "n_connector * (1 + n_way)", "1", each.clause, each, n_way=n)


def end_of(part_kind: str) -> End:
    """What stands at an end of a run, by the kind of the part of the installation."""
    if part_kind == "busbar":
        return "panel"
    return "unit" if part_kind in ("battery", "inverter") else "disconnect"


def named_size(size: str) -> str:
    """``10`` → ``10 AWG``, ``4/0`` → ``4/0 AWG``, ``250`` → ``250 kcmil``."""
    return f"{size} kcmil" if size.isdecimal() and int(size) >= 250 else f"{size} AWG"


def _words(plan: Plan, wire: Wire) -> tuple[str, str, str]:
    """Size, metal and insulation for print."""
    unknown = plan.say("common.not_known")
    size = unknown if wire.size.missing else named_size(wire.size.word)
    metal, insulation = (
        unknown if each.missing else plan.say(f"materials.{each.word}") for each in (wire.material, wire.insulation)
    )
    return size, metal, insulation


def raceway_words(plan: Plan, run: Run) -> dict[str, str]:
    """Kind and trade size of a raceway for print."""
    return {"raceway": plan.say(f"materials.{run.raceway.word}"), "size": run.trade_size.word}


def _lengths(plan: Plan, practice: Edition, run: Run, words: dict[str, str], wet: str) -> list[Material]:
    """Flexible raceway by the foot; the couplings of sticks. The sticks of all runs are cut together."""
    if run.raceway.word in COILS:
        use = plan.say("materials.raceway_use", name=run.name, length=length_up(run.length, plan.language))
        bought = work("L_buy", "ceil(L_max)", "ft", None, L_max=run.length)
        row = material("raceway", plan.say("materials.raceway_coil", **words), bought, use, plan.language)
        return [row._replace(ware=("raceway", f"{run.raceway.word} {run.trade_size.word}"))]
    stick, elbows = stick_length(plan, run), _elbows(plan, run)
    text = "ceil(L_max / L_stick) - 1 + 2 * n_elbow"
    couplings = work("n_coupling", text, "1", None, stick, L_max=run.length, n_elbow=elbows)
    if couplings.missing or couplings.quantity > 0:
        return [_row(plan, "coupling", couplings, run.name, wet=wet, **words)]
    return []


def stick_length(plan: Plan, run: Run) -> Value:
    """Length of a stick of the raceway of a run, ft: of those in the store of the firm, else as sticks are sold."""
    own = plan.own_bars.get(f"{run.raceway.word} {run.trade_size.word}")
    return _support(plan.practice, run, "L_stick", "stick") if own is None else own


def bent_by_hand(practice: Edition, raceway: str, size: str) -> bool:
    """True of steel tubing up to the size that a hand bender takes: its bends are made of the stick."""
    if raceway not in STEEL:
        return False
    inches = float(sum(Fraction(part) for part in size.replace("-", " ").split()))
    return inches <= practice.number("hand_bender_most").quantity


def _elbows(plan: Plan, run: Run) -> Value:
    """Elbows that are bought: none where bends are made of the stick, or where nobody knows how many there are."""
    way = plan.ways.get(run.id)
    if way is None or way.bends.missing or bent_by_hand(plan.practice, run.raceway.word, run.trade_size.word):
        return _count(0, "elbows that are known and bought")
    return way.bends


def _bends(plan: Plan, run: Run, words: dict[str, str]) -> Material:
    """Quarter bends of a run that follows the wall: made of the stick, or bought as elbows; else counted on site."""
    way, what = plan.ways.get(run.id), plan.say("materials.bend", **words)
    if way is None or way.bends.missing or run.changes:
        bends, use = (
            missing("n_bend", "1", plan.say("common.count_on_site")),
            plan.say("materials.bend_use", name=run.name),
        )
        row = material("raceway", what, bends, use, plan.language, plan.say("common.count_on_site"))
        return row._replace(needs=())
    count = f"{way.bends.quantity:g}"
    use = plan.say("materials.bend_counted", name=run.name, count=count)
    if bent_by_hand(plan.practice, run.raceway.word, run.trade_size.word):
        return material(
            "raceway", what, _elbows(plan, run), use, plan.language, plan.say("materials.bent", count=count)
        )
    return material("raceway", plan.say("materials.elbow", **words), way.bends, use, plan.language)


def _straps(plan: Plan, practice: Edition, run: Run, words: dict[str, str]) -> Material:
    every, within = _support(practice, run, "s_every", "every"), _support(practice, run, "s_within", "within")
    text = "max(2, ceil((L_max - 2 * s_within) / s_every) + 1)"
    count = work("n_strap", text, "1", practice.clause("supports"), every, within, L_max=run.length)
    lengths = {"within": length_of(within, plan.language), "every": length_of(every, plan.language)}
    section = _support(practice, run, "section", "section")
    lengths["section"] = plan.say("common.not_known") if section.missing else section.word
    return _row(plan, "strap", count, plan.say("materials.strap_use", name=run.name, **lengths), **words)


def _support(practice: Edition, run: Run, symbol: str, column: str) -> Value:
    table = practice.table("supports")
    return table.look(symbol, column, raceway=run.raceway, trade_size=run.trade_size)


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
    """True from the size of the clause upward: sizes count down to 1, then 1/0, then kcmil. False where not known."""
    if wire.size.missing:
        return False
    least, size = int(practice.number("bushing_from").word), wire.size.word
    return "/" in size or int(size) >= 250 or int(size) <= least


def _count(number: int, why: str) -> Value:
    return chosen("n", float(number), "1", why, None)


def _one(run: Run) -> Value:
    return _count(1, f"one can serves run {run.id}")
