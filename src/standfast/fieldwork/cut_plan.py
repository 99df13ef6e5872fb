"""The cut plan of a job: raceway out of sticks, conductors off spools, cables off drums, all runs together."""

from collections import defaultdict
from typing import Literal, NamedTuple

from standfast.fieldwork.cutting import Cuts, cut
from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Plan, Run
from standfast.fieldwork.rows import length_of, length_up, metres, open_needs, tenths
from standfast.fieldwork.runs import (
    COILS,
    cable_cuts,
    conductor_cuts,
    conductor_ware,
    of_one_kind,
    raceway_words,
    stick_length,
)
from standfast.sheet import Value, chosen, missing
from standfast.units import convert

Ware = Literal["raceway", "conductor", "cable"]
INCH = 254
"""Tenths of a millimetre: nobody cuts a raceway to less."""


class Piece(NamedTuple):
    """One piece: of which run, and its length in tenths of a millimetre."""

    run: str
    length: int


class CutPlan(NamedTuple):
    """The pieces of one ware and the bars that they are cut from.

    Attributes:
        ware: raceway, conductor or cable.
        what: as the bill of materials names it.
        bar: length of a stick, spool or drum.
        pieces: the pieces; those of runs whose length nobody knows are not among them.
        cuts: how they are cut; places are those of `pieces`.
        open: values without which not all pieces are known: with any of them missing the plan is not whole.
        runs: ids of the runs.
    """

    ware: Ware
    what: str
    bar: Value
    pieces: tuple[Piece, ...]
    cuts: Cuts
    open: tuple[Value, ...]
    runs: tuple[str, ...]

    @property
    def number(self) -> Value:
        """How many bars: missing where a piece is not known or longer than any bar."""
        how = f"{len(self.pieces)} pieces; no plan takes fewer than {self.cuts.bound}"
        return chosen("n_bar", float(len(self.cuts.bars)), "1", how, None, self.bar, *self.open)


def cut_plans(plan: Plan) -> list[CutPlan]:
    """The cut plans of a job: raceways, conductors, cables."""
    sticks = [_sticks(plan, what, runs) for what, runs in _in_sticks(plan).items()]
    return [*sticks, *_spools(plan), *_drums(plan)]


def stick_rows(plan: Plan) -> list[Material]:
    """A row for each kind and size of raceway that comes in sticks, cut for all runs together."""
    rows = []
    for what, runs in _in_sticks(plan).items():
        found = _sticks(plan, what, runs)
        use = "; ".join(
            plan.say("materials.raceway_use", name=run.name, length=length_up(run.length, plan.language))
            for run in runs
        )
        row = material("raceway", what, found.number, use, plan.language, of=found.runs)
        ware = ("raceway", f"{runs[0].raceway.word} {runs[0].trade_size.word}")
        known = not found.bar.missing
        rows.append(row._replace(ware=ware, per=convert(found.bar.quantity, found.bar.unit, "ft") if known else 1.0))
    return rows


def told(plan: Plan, found: CutPlan) -> list[str]:
    """Each bar in words: its pieces with their runs, and what is left of it."""
    if found.number.missing:
        return [plan.say("van.cut_unknown", needs="; ".join(open_needs(found.number)))]
    lines = []
    for bar, waste in zip(found.cuts.bars, found.cuts.waste, strict=True):
        pieces = " + ".join(f"{_shown(plan, found, found.pieces[at].length)} ({found.pieces[at].run})" for at in bar)
        lines.append(plan.say("van.cut_bar", pieces=pieces, waste=_shown(plan, found, waste)))
    return lines


def _shown(plan: Plan, found: CutPlan, length: int) -> str:
    value = chosen("L", length / 10, "mm", "cut plan", None)
    return metres(value, plan.language) if found.ware == "cable" else length_of(value, plan.language)


def _in_sticks(plan: Plan) -> dict[str, list[Run]]:
    """Runs of raceways that come in sticks, by what is bought; a run of several kinds in its parts."""
    alike: dict[str, list[Run]] = defaultdict(list)
    for run in (part for each in plan.runs for part in of_one_kind(each)):
        if run.raceway.missing or run.trade_size.missing or run.raceway.word in COILS:
            continue
        stick = length_of(stick_length(plan, run), plan.language)
        alike[plan.say("materials.raceway", stick=stick, **raceway_words(plan, run))].append(run)
    return alike


def _sticks(plan: Plan, what: str, runs: list[Run]) -> CutPlan:
    """A run longer than a stick is made of whole sticks and a rest, joined by couplings."""
    bar, saw = stick_length(plan, runs[0]), plan.practice.number("saw_cut")
    open_values = tuple(run.length for run in runs if run.length.missing)
    if bar.missing:
        return CutPlan("raceway", what, bar, (), cut((), 0), (bar, *open_values), tuple(run.id for run in runs))
    whole, pieces = tenths(bar), list[Piece]()
    for run in runs:
        if not run.length.missing:
            full, rest = divmod(-(-tenths(run.length) // INCH) * INCH, whole)
            pieces += [Piece(run.name, whole)] * full + ([Piece(run.name, rest)] if rest else [])
    cuts = cut([each.length for each in pieces], whole, tenths(saw))
    return CutPlan("raceway", what, bar, tuple(pieces), cuts, open_values, tuple(run.id for run in runs))


def _spools(plan: Plan) -> list[CutPlan]:
    found = []
    for (size, metal, insulation, colour), cuts in conductor_cuts(plan).items():
        what = plan.say("materials.conductor", size=size, material=metal, insulation=insulation, colour=colour)
        pieces = [
            Piece(each.run.name, tenths(each.length))
            for each in cuts
            if not each.length.missing
            for _ in range(round(each.pieces.quantity))
        ]
        values = [value for each in cuts for value in (each.length, each.wire.size) if value.missing]
        runs, ware = tuple(each.run.id for each in cuts), conductor_ware(cuts[0].wire)
        own = None if ware is None else plan.own_bars.get(ware[1])
        found.append(_least(plan, "conductor", what, "spools", pieces, values, runs, own))
    return found


def _drums(plan: Plan) -> list[CutPlan]:
    found = []
    for (cable, area, protective), laid in cable_cuts(plan).items():
        what = plan.say("materials.cable", cable=cable, area=area, protective=protective)
        pieces = [Piece(each.name, tenths(length)) for each, length in laid if not length.missing]
        values = [value for each, length in laid for value in (length, each.area) if value.missing]
        runs = tuple(each.id for each, _ in laid)
        found.append(_least(plan, "cable", what, "drums", pieces, values, runs, None))
    return found


def _least(
    plan: Plan, ware: Ware, what: str, table: str, pieces: list[Piece], values: list[Value], runs: tuple[str, ...],
    own: Value | None,
) -> CutPlan:  # fmt: skip
    """Of the lengths that a ware comes in the one that is bought least of, shorter ones first; a piece longer than
    every one leaves the plan open. The length that lies in the store of the firm goes before those that are usual."""
    held = plan.practice.table(table)
    bars = [held.pick("L_bar", "length", step=row["step"]) for row in held.rows] if own is None else [own]
    lengths = [each.length for each in pieces]
    plans = [(bar, cut(lengths, tenths(bar))) for bar in bars]
    whole = [each for each in plans if not each[1].too_long] or plans[-1:]
    bar, cuts = min(whole, key=lambda each: len(each[1].bars) * each[0].quantity)
    beyond = [
        missing("L_cut", bar.unit, plan.say("van.too_long", run=pieces[at].run, what=what)) for at in cuts.too_long
    ]
    return CutPlan(ware, what, bar, tuple(pieces), cuts, (*values, *beyond), runs)
