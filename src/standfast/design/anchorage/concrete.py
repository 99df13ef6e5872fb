"""Post-installed anchors in concrete: steel, breakout, pullout, pryout, edge, both at once (ACI 318 chapter 17).

All anchors of the unit are taken as one rectangular group in which each pulls as much as the worst one does. Concrete
counts as cracked until an engineer's analysis shows that it is not.
"""

from collections.abc import Callable, Iterator
from functools import cache, partial
from typing import Literal, NamedTuple

from standfast.design.anchorage import edges, loads, ratios
from standfast.design.anchorage.edges import Ground
from standfast.design.anchorage.forces import Asked, Forces
from standfast.design.anchorage.loads import Case
from standfast.design.anchorage.pattern import Pattern
from standfast.design.anchorage.task import SheetFile, Task
from standfast.rulebooks.aci318 import shear, steel, strength_reduction, tension
from standfast.rulebooks.aci318.interaction import Interaction, interaction
from standfast.sheet import Check, Value, chosen, measured, missing, settle, work
from standfast.shelf import Edition

INSTALL = "post-installed"
WAY_OUT = (
    "take a larger or deeper anchor that the maker allows, keep farther from edges, or stand the unit on the floor"
)
FLOOR_WAY_OUT = "take a larger or deeper anchor that the maker allows, or a thicker and wider pad"
Held = dict[str, tuple[Value, Value]]
"""Mode → demand and design strength, lb, in one combination."""


class Anchors(NamedTuple):
    """The anchors of a unit in their wall: lengths in inches, strengths in psi, forces in lb.

    Attributes:
        sheet: data sheet of the anchor.
        book: ACI 318.
        n: number of anchors.
        d_a: diameter.
        h_ef: effective depth.
        f_c: specified strength of the concrete.
        lambda_a: factor of lightweight concrete.
        cracked: yes where the concrete may crack.
        ground: spacings, edges and thickness.
        detailing: True where the category of the house asks for the seismic factor.
    """

    sheet: SheetFile
    book: Edition
    n: Value
    d_a: Value
    h_ef: Value
    f_c: Value
    lambda_a: Value
    cracked: Value
    ground: Ground
    detailing: bool


def anchors(task: Task, found: Pattern, sheet: SheetFile, ground: Ground) -> Anchors:
    """The anchors of a data sheet, as they sit in the concrete of the task."""
    book = task.books.book("aci318")
    cracked = task.of_concrete("cracked", "cracked")
    if cracked.missing:
        cracked = book.bounding("cracked_unknown", cracked.how, "cracked")
    return Anchors(
        sheet,
        book,
        edges.count(found),
        sheet.fact("anchor.diameter", "d_a", "in"),
        sheet.fact("anchor.effective_embedment", "h_ef", "in"),
        task.of_concrete("concrete_strength", "f_c", "psi"),
        _light(task),
        cracked,
        ground,
        loads.seismic(task),
    )


def way_out(task: Task) -> str:
    """What to do where anchors do not hold, by what they hold in."""
    return WAY_OUT if task.part == "wall" else FLOOR_WAY_OUT


def checks(task: Task, asked: Asked, each: Anchors) -> Iterator[Check]:
    """Is an anchor torn, pulled or pried out, does the concrete break, does an anchor carry everything at once?"""
    ask = ratios.asker(task, each.book, way_out(task))

    @cache
    def cases() -> list[tuple[Case, Held]]:
        group = breakout(each)
        return [(case, held(each, group, case, force)) for case, force in asked]

    def of(mode: str) -> list[Value]:
        clause = each.book.clause(MODES[mode].clause)
        return [ratios.ratio(case.name, *modes[mode], clause) for case, modes in cases()]

    for mode, (title, clause, _) in MODES.items():
        if mode != "pullout" or _pullout_decides(each):
            yield ask(f"concrete-{mode}", title, each.book.clause(clause), partial(of, mode))
    yield _together(task, each, cases)


class Mode(NamedTuple):
    """A way to fail: the question, the clause, and whether it is one of tension or of shear."""

    title: str
    clause: str
    load: Literal["tension", "shear"]


MODES: dict[str, Mode] = {
    "steel": Mode("No anchor is torn", "steel_tension", "tension"),
    "breakout": Mode("The concrete does not break out under pull", "tension_breakout", "tension"),
    "pullout": Mode("No anchor is pulled out of its hole", "pullout", "tension"),
    "steel-shear": Mode("No anchor is sheared off", "steel_shear", "shear"),
    "pryout": Mode("The concrete is not pried out behind the anchors", "pryout", "shear"),
    "edge": Mode("The concrete does not break out towards its nearest edge", "shear_breakout", "shear"),
}


def breakout(each: Anchors) -> Value:
    """Nominal breakout strength of the group in tension, lb."""
    sheet, book, layout = each.sheet, each.book, each.ground.layout
    uncracked = not each.cracked.missing and not each.cracked.yes
    word = "k_uncracked" if uncracked else "k_cracked"
    k_c = sheet.fact(f"anchor.{word}", "k_c", "1") if not sheet.left_out(f"anchor.{word}") else None
    further = []
    if uncracked:
        c_ac = sheet.fact("anchor.critical_edge", "c_ac", "in")
        further.append(tension.splitting_factor(book, each.h_ef, each.ground.nearest, c_ac))
    found = tension.breakout(book, f_c=each.f_c, h_ef=each.h_ef, lambda_a=each.lambda_a, cracked=each.cracked,
                             install=INSTALL, k_c=k_c, layout=layout, further=further)  # fmt: skip
    return found.N_cb


def held(each: Anchors, N_cb: Value, case: Case, force: Forces) -> Held:
    """Demand and design strength of every mode in one combination."""
    book, sheet, quake = each.book, each.sheet, case.quake and each.detailing
    none: strength_reduction.Reinforced = "none"
    N_group = work("N_ua_g", "n * T", "lb", None, each.n, T=force.T)
    V_group = work("V_ua_g", "n * V", "lb", None, each.n, V=force.V)
    kind = _category(each)
    concrete = strength_reduction.seismic_tension_strength if quake else strength_reduction.design_strength
    phi_N = book.table("strength_reduction").look("phi_cN", "phi", mode="concrete tension", anchor=kind, condition=none)
    modes: Held = {
        "steel": (force.T, _steel_tension(each)),
        "breakout": (N_group, concrete(book, "phi_N_cb", phi_N, N_cb)),
        "steel-shear": (force.V, _steel_shear(each, quake)),
        "pryout": (V_group, strength_reduction.design_strength(
            book, "phi_V_cp", strength_reduction.phi_pryout(book), shear.pryout(book, each.h_ef, N_cb))),
        "edge": _towards_edge(each, force),
    }  # fmt: skip
    if _pullout_decides(each):
        word = "pullout_seismic" if quake else "pullout_cracked"
        phi_p = book.table("strength_reduction").look("phi_p", "phi", mode="pullout", anchor=kind, condition="any")
        N_p = sheet.fact(f"anchor.{word}", "N_p", "lb")
        modes["pullout"] = (force.T, concrete(book, "phi_N_p", phi_p, N_p))
    return modes


def _together(task: Task, each: Anchors, cases: Callable[[], list[tuple[Case, Held]]]) -> Check:
    id, title = task.id("concrete-combined"), "Every anchor carries pull and shear at once"
    clause = each.book.clause("interaction")

    def judged() -> Check:
        over = []
        for case, modes in cases():
            one = _interaction(each, modes)
            over.append(work(f"r_{case.name}", "r_NV / r_max", "1", clause, r_NV=one.demand, r_max=one.limit))
        return ratios.within(id, title, ratios.governing(over, clause), each.book, clause, way_out(task))

    return settle(id, title, clause, judged)


def _interaction(each: Anchors, modes: Held) -> Interaction:
    N_ua, phi_N = _governing(each, modes, "tension")
    V_ua, phi_V = _governing(each, modes, "shear")
    return interaction(each.book, N_ua=N_ua, phi_N=phi_N, V_ua=V_ua, phi_V=phi_V, form="sum")


def _governing(each: Anchors, modes: Held, load: str) -> tuple[Value, Value]:
    """Demand and strength of the mode of tension, or of shear, that is used most."""
    found = [pair for mode, pair in modes.items() if MODES[mode].load == load]
    unknown = [pair for pair in found if pair[0].missing or pair[1].missing]
    return unknown[0] if unknown else max(found, key=lambda pair: pair[0].quantity / pair[1].quantity)


def _steel_tension(each: Anchors) -> Value:
    book, fact = each.book, each.sheet.fact
    if not each.sheet.left_out("anchor.steel_tension"):
        N_sa = fact("anchor.steel_tension", "N_sa", "lb")
    else:
        N_sa = steel.steel_tension(book, fact("anchor.steel_area", "A_se", "in2"),
                                   fact("anchor.tensile_strength", "f_uta", "psi"), _yield(each))  # fmt: skip
    phi = strength_reduction.phi_steel(book, "tension", _steel(each))
    return strength_reduction.design_strength(book, "phi_N_sa", phi, N_sa)


def _steel_shear(each: Anchors, quake: bool) -> Value:
    """As the report states it: a screw or expansion anchor is weaker than its section alone would say."""
    book, fact = each.book, each.sheet.fact
    word = "steel_shear_seismic" if quake else "steel_shear"
    V_sa = fact(f"anchor.{word}", "V_sa", "lb")
    phi = strength_reduction.phi_steel(book, "shear", _steel(each))
    return strength_reduction.design_strength(book, "phi_V_sa", phi, V_sa)


def _towards_edge(each: Anchors, force: Forces) -> tuple[Value, Value]:
    """The row nearest to an edge, all of its shear taken to act towards that edge."""
    book, row = each.book, each.ground.edge_row
    found = shear.shear_breakout(
        book, shear.shear_area(book, row), d_a=each.d_a, h_ef=each.h_ef, f_c=each.f_c, lambda_a=each.lambda_a,
        psi_c=book.number("shear_cracked_plain"), attachment="loose", direction="to edge", install=INSTALL,
    )  # fmt: skip
    n_row = measured("n_row", float(len(row.gaps) + 1), "1", "anchors of the row nearest to the edge", each.n)
    demand = work("V_ua_row", "n_row * V", "lb", None, n_row, V=force.V)
    phi = strength_reduction.phi_concrete_shear(book, "none")
    return demand, strength_reduction.design_strength(book, "phi_V_cb", phi, found.V_cb)


def _pullout_decides(each: Anchors) -> bool:
    anchor = each.sheet.content.anchor
    return anchor is None or anchor.pullout_decides is not False


def _steel(each: Anchors) -> Literal["ductile", "brittle"]:
    """Brittle unless the report says otherwise: its factor is the smaller one."""
    anchor = each.sheet.content.anchor
    return "ductile" if anchor is not None and anchor.ductile else "brittle"


def _yield(each: Anchors) -> Value | None:
    word = "anchor.yield_strength"
    return None if each.sheet.left_out(word) else each.sheet.fact(word, "f_ya", "psi")


def _category(each: Anchors) -> Value:
    category = each.sheet.fact("anchor.category", "category", "1")
    if category.missing:
        return missing("anchor", "", category.how, category)
    return chosen("anchor", f"{INSTALL} category {category.quantity:g}", "", "by the report", None, category)


def _light(task: Task) -> Value:
    """Factor of lightweight concrete; only that of normal weight is held."""
    kind = task.of_concrete("concrete_kind", "concrete_kind")
    if kind.missing:
        return missing("lambda_a", "1", kind.how, kind)
    if kind.word != "normalweight":
        return missing("lambda_a", "1", f"the factor for {kind.word} concrete is not held: ask an engineer", kind)
    return chosen("lambda_a", 1.0, "1", "concrete of normal weight", None, kind)
