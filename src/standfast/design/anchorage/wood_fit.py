"""Whether a screw fits its stud: depth, edge, spacing and lead hole (NDS 12.1, 12.5)."""

from collections.abc import Iterator
from itertools import combinations

from standfast.design.anchorage.forces import Asked
from standfast.design.anchorage.pattern import Hole, Pattern, studs_met
from standfast.design.anchorage.ratios import told
from standfast.design.anchorage.task import SheetFile, Task
from standfast.design.anchorage.wood import Screw
from standfast.rulebooks.nds import adjustment
from standfast.sheet import Check, Value, at_least, at_most, cannot_tell, chosen, measured, needs, settle, work, worst
from standfast.units import inches as in_inches

BESIDE = "a hole beside its stud meets plasterboard alone, which counts as nothing: move the unit to the studs"
OFF_CENTRE = "a screw so near to the edge splits the stud: move the unit until every hole meets the middle of its stud"
ACROSS = (
    "the earthquake pushes more across the grain than the weight pulls along it, and the stud is too narrow for a "
    "screw of this thickness: have wider studs or blocking put in, or an engineer's design"
)


def checks(task: Task, found: Pattern, asked: Asked, one: Screw, sheet: SheetFile) -> Iterator[Check]:
    """Does the screw sit where the wood can hold it?"""
    yield _into_studs(task, found)
    yield _deep_enough(task, one)
    yield _not_through(task, one)
    yield _edge(task, found, asked, one)
    yield from _spacing(task, found, one)
    yield _lead_hole(task, one, sheet)


def _into_studs(task: Task, found: Pattern) -> Check:
    """A hole beside its stud meets plasterboard alone, which carries nothing."""
    id, title, clause = task.id("every-hole-in-a-stud"), "Every hole meets a stud", task.practice.clause("hanging")
    half = work("b_half", "b_stud / 2", "in", None, task.of_build_up("stud_width", "b_stud", "in"))
    off = worst("x_off", [_size(hole) for hole in found.holes], "max")
    check = at_most(id, title, clause, off, half)
    return told(check, BESIDE)


def holding(task: Task, found: Pattern) -> Pattern:
    """The holes that meet their stud: a screw in plasterboard alone carries nothing, and the others carry its share.

    A hole whose place in its stud is not known stays, and `unplaced` says why nothing passes then.
    """
    width = task.of_build_up("stud_width", "b_stud", "in")
    if width.missing:
        return found
    off = [hole.off for hole in found.holes]
    met = zip(found.holes, off, strict=True)
    half = width.quantity / 2
    return Pattern(tuple(hole for hole, by in met if by is None or by.missing or -half <= by.quantity <= half))


def unplaced(task: Task, found: Pattern) -> list[str]:
    """What has to be known before it is known which holes meet their stud; empty where it is."""
    width = task.of_build_up("stud_width", "b_stud", "in")
    asked = [width, *(hole.off for hole in found.holes if hole.off is not None)]
    return list(dict.fromkeys(need for each in asked for need in needs(each)))


def once_placed(check: Check, need: list[str]) -> Check:
    """A strength counted on every hole refuses where it is too little, and passes once the holes are known to hold."""
    if not need or check.verdict != "pass":
        return check
    return check._replace(verdict="cannot tell", condition="", reason="; ".join(need))


def nothing_holds(task: Task, found: Pattern) -> list[Check]:
    """No hole meets a stud: there is nothing whose strength could be worked out."""
    clause = task.practice.clause("hanging")
    titles = {"withdrawal": "No screw is pulled out of its stud",
              "lateral": "No screw gives way sideways, the board counted as a gap",
              "combined": "Every screw carries pull and shear at once"}  # fmt: skip
    lost = [cannot_tell(task.id(f"wood-{mode}"), title, clause, BESIDE) for mode, title in titles.items()]
    return [_into_studs(task, found), *lost]


def _deep_enough(task: Task, one: Screw) -> Check:
    nds = task.books.book("nds")
    id, title = task.id("wood-penetration"), "The screws reach deep enough into the studs"
    clause = nds.clause(f"penetration_{one.fastener}")
    there = work("p_E", "p - E", "in", clause, p=one.p, E=one.E) if one.fastener == "lag" else one.p
    check = at_least(id, title, clause, there, adjustment.least_penetration(nds, one.fastener, one.D))
    return told(check, "the screw is too short for bracket, board and stud: take a longer one")


def _not_through(task: Task, one: Screw) -> Check:
    """A point that comes out behind the stud can meet a cable or pipe."""
    title, clause = "No screw comes out behind its stud", task.practice.clause("hanging")
    check = at_most(task.id("wood-depth"), title, clause, one.p, task.of_build_up("stud_depth", "h_stud", "in"))
    return told(check, "the screw comes out behind the stud, where cables and pipes can be: take a shorter one")


def _edge(task: Task, found: Pattern, asked: Asked, one: Screw) -> Check:
    nds = task.books.book("nds")
    id, title = task.id("wood-edge"), "The screws keep their distance from the edges of the studs"
    clause = nds.clause("edge_distance")
    width = task.of_build_up("stud_width", "b_stud", "in")
    off = worst("x_off", [_size(hole) for hole in found.holes], "max")
    there = work("e_edge", "b_stud / 2 - x_off", "in", clause, width, off)
    along = adjustment.least_edge(nds, one.D)
    if not there.missing and not along.missing and there.quantity < along.quantity:
        return told(at_least(id, title, clause, there, along), OFF_CENTRE)
    least = _least_edge(task, asked, one, along)
    most = stray(task, asked, one)
    if most.missing or there.missing or most.quantity < 0:
        return told(at_least(id, title, clause, there, least), ACROSS)
    by = in_inches(most.quantity * 25.4, 32)
    condition = f"both edges of each stud are found with a probe; a hole keeps within {by} of the middle of the stud"
    return told(at_least(id, title, clause, there, least, condition=condition), OFF_CENTRE)


def stray(task: Task, asked: Asked, one: Screw) -> Value:
    """How far a screw may be off the middle of its stud, in; below 0 where it may not even stand in the middle."""
    nds = task.books.book("nds")
    least = _least_edge(task, asked, one, adjustment.least_edge(nds, one.D))
    width = task.of_build_up("stud_width", "b_stud", "in")
    return work("x_stray", "b_stud / 2 - e_min", "in", nds.clause("edge_distance"), width, e_min=least)


def _least_edge(task: Task, asked: Asked, one: Screw, along: Value) -> Value:
    """Edge distance along the grain, or towards a loaded edge where a load lies more across the grain than along it."""
    nds, limit = task.books.book("nds"), task.practice.number("angle_along_grain")
    steepest = worst("theta", [force.theta for _, force in asked], "max")
    across = not steepest.missing and steepest.quantity > limit.quantity
    least = adjustment.least_loaded_edge(nds, one.D) if across else along
    number = 0.0 if least.missing else least.quantity
    how = "some load lies across the grain" if across else "every load lies nearer to the grain than across it"
    return chosen("e_min", number, "in", how, least.clause, least, steepest, limit)


def _spacing(task: Task, found: Pattern, one: Screw) -> Iterator[Check]:
    """Two screws in one stud; nothing is asked where every stud has one."""
    pairs = [(a, b) for a, b in combinations(found.holes, 2) if not a.x.missing and a.x.quantity == b.x.quantity]
    if not pairs:
        return
    nds = task.books.book("nds")
    gaps = [work("s_row", "max(a - b, b - a)", "in", None, a=a.up, b=b.up) for a, b in pairs]
    title, clause = "Screws in one stud stand far enough apart", nds.clause("spacing")
    least = adjustment.least_spacing(nds, one.D)
    check = at_least(task.id("wood-spacing"), title, clause, worst("s", gaps, "min"), least)
    yield told(
        check, "two screws of one stud stand so near that the stud splits: take thinner ones that the maker allows"
    )


def _lead_hole(task: Task, one: Screw, sheet: SheetFile) -> Check:
    """The lead hole of the data sheet against the greatest that the wood standard allows."""
    nds = task.books.book("nds")
    id, clause = task.id("wood-lead-hole"), nds.clause("lead_holes")
    title = "The lead hole leaves the thread enough wood"

    def ask() -> Check:
        part = nds.table("lead_holes").look("k_lead", "most_part", G=one.G)
        most = work("d_most", "k_lead * D", "in", clause, part, D=one.D)
        return told(
            at_most(id, title, clause, lead_hole(one.G, sheet), most), "the thread finds no wood: drill smaller"
        )

    return settle(id, title, clause, ask)


def lead_hole(G: Value, sheet: SheetFile) -> Value:
    """The lead hole that the data sheet gives for wood of a density, in."""
    dense = not G.missing and G.quantity > DENSE
    return sheet.fact("fastener.pilot_hard" if dense else "fastener.pilot_soft", "d_lead", "in")


DENSE = 0.5
"""Specific gravity above which the words of a data sheet call wood hard."""


def least_studs(task: Task, found: Pattern) -> Check:
    """The maker's number of studs."""
    title = "The fasteners reach the number of studs that the maker asks for"
    least = task.battery.fact("fixing.least_studs", "n_studs_min", "1")
    check = at_least(task.id("studs"), title, task.maker, studs_met(task, found), least)
    return told(check, "the holes reach too few studs: move the unit to the studs")


def _size(hole: Hole) -> Value:
    if hole.off is None:
        return measured("x_off", 0.0, "in", "no studs in this wall")
    return work("x_off", "max(x, -x)", "in", None, x=hole.off)
