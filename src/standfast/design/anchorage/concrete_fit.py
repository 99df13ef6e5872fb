"""Whether an anchor may be used in its wall at all: what its report covers, and least dimensions (ACI 318 17.9)."""

from collections.abc import Iterator

from standfast.design.anchorage import loads
from standfast.design.anchorage.concrete import Anchors
from standfast.design.anchorage.ratios import told
from standfast.design.anchorage.task import SheetFile, Task
from standfast.rulebooks.aci318 import distances
from standfast.sheet import (
    Check,
    Clause,
    Value,
    at_least,
    at_most,
    cannot_tell,
    chosen,
    exactly,
    given,
    is_,
    not_applicable,
    work,
)
from standfast.sheet import worst as worst_of

THIN = "the concrete is too thin for this anchor: take a shorter one that the maker allows, or another wall"

DEEPER = (
    "anchor.nominal_embedment: as long as it is, the anchor sits deeper than this row of its report, and the least "
    "thickness of the concrete is that of the row: take one as long as plate and embedment, or the row of its depth"
)
MEASURE = "the thickness of the slab is measured at the first hole, before the others are drilled"


def checks(task: Task, each: Anchors) -> Iterator[Check]:
    """Does the report cover this use, and does the anchor fit?"""
    yield from _report(task, each)
    if task.part == "wall":
        yield _no_board(task)
    yield from _dimensions(task, each)


def _report(task: Task, each: Anchors) -> Iterator[Check]:
    clause, yes = _report_clause(each), given("required", True, "", "asked of an anchor here")
    fact = each.sheet.fact
    report = fact("anchor.report", "report")
    stated = chosen("stated", True, "", "the evaluation report is named", clause, report)
    yield is_(
        task.id("concrete-report"), "The numbers of the anchor come from an evaluation report", clause, stated, yes
    )
    for rule, title, word, why_not in (
        ("concrete-cracked", "The anchor is evaluated for cracked concrete", "cracked",
         "" if each.cracked.missing or each.cracked.yes else "an analysis shows that the concrete does not crack"),
        ("concrete-seismic", "The anchor is evaluated for earthquake", "seismic",
         "" if loads.seismic(task) else "the seismic design category does not ask for it"),
    ):  # fmt: skip
        if why_not:
            yield not_applicable(task.id(rule), title, clause, why_not)
        else:
            check = is_(task.id(rule), title, clause, fact(f"anchor.{word}", word), yes)
            yield told(check, "the report does not cover it: take an anchor whose report does")


def _no_board(task: Task) -> Check:
    """A bracket on board before concrete bends its anchors, which the anchor chapter does not cover."""
    title = "The bracket bears on the concrete itself"
    zero = given("g_max", 0.0, "in", "no board between bracket and concrete")
    check = exactly(task.id("concrete-bearing"), title, task.practice.clause("hanging"), task.lining, zero)
    return told(check, "board between bracket and concrete lets the anchors bend: cut it out behind the bracket")


def _dimensions(task: Task, each: Anchors) -> Iterator[Check]:
    """Each question with the way out where it fails."""
    book, sheet, ground, clause = each.book, each.sheet, each.ground, _report_clause(each)
    h_a, plate = ground.thickness, task.of_part("plate", "l_s", "in")

    def fact(word: str, symbol: str) -> Value:
        return sheet.fact(f"anchor.{word}", symbol, "in")

    yield _thickness(task, each, plate)
    title, most = "The anchor is not too deep for the concrete", distances.greatest_depth(book, h_a)
    yield told(at_most(task.id("concrete-depth"), title, book.clause("member_thickness"), each.h_ef, most), THIN)
    title, least = "The anchors keep their distance from every edge", fact("least_edge", "c_min")
    check = at_least(task.id("concrete-edge-distance"), title, clause, ground.nearest, least)
    yield told(check, "the concrete splits so near to an edge: move the unit away from it")
    if ground.layout.gaps:
        gap = worst_of("s_least", ground.layout.gaps, "min")
        title = "The anchors stand far enough apart"
        check = at_least(task.id("concrete-spacing"), title, clause, gap, _least_spacing(each))
        yield told(check, "take a smaller anchor that the maker allows")
    there = work("h_there", "L - l_s", "in", None, fact("length", "L"), plate)
    title, least = f"The anchor is long enough for {task.held_part} and embedment", fact("nominal_embedment", "h_nom")
    yield told(at_least(task.id("concrete-embedment"), title, clause, there, least), "take a longer anchor")
    title = f"The hole of the {task.held_part} is not too wide for the anchor"
    hole = task.of_part("hole", "d_bracket", "in")
    check = at_most(task.id("concrete-fixture-hole"), title, clause, hole, fact("fixture_hole", "d_fixture_max"))
    yield told(check, f"the anchor has too much play in the {task.held_part}: take a thicker one that the maker allows")
    title = "The hole does not go through the concrete"
    yield told(at_most(task.id("concrete-hole"), title, clause, drilled(sheet, plate), h_a), THIN)


def _thickness(task: Task, each: Anchors, plate: Value) -> Check:
    """Is the concrete thick enough for the row of the report that is used, at the depth to which the anchor goes?

    A screw anchor goes in until its head stops it. Where that is deeper than the row, the least thickness of the row is
    not that of the anchor as it sits: as much more concrete is enough, less than that nobody knows.
    """
    id, title, clause = (
        task.id("concrete-thickness"),
        "The concrete is thick enough for the anchor",
        _report_clause(each),
    )
    least, thick = each.sheet.fact("anchor.least_thickness", "h_min", "in"), each.ground.thickness
    measure = "" if task.part == "wall" else MEASURE
    check = told(at_least(id, title, clause, thick, least, condition=measure), THIN)
    anchor = each.sheet.content.anchor
    if check.verdict != "pass" or anchor is None or anchor.kind != "screw anchor":
        return check
    length, h_nom = (
        each.sheet.fact(f"anchor.{word}", symbol, "in")
        for word, symbol in (("length", "L"), ("nominal_embedment", "h_nom"))
    )
    deep = work("h_deep", "h_min + max(0, L - l_s - h_nom)", "in", clause, least, length, h_nom, l_s=plate)
    sits = at_least(id, title, clause, thick, deep, condition=measure)
    if sits.verdict == "fail":
        return cannot_tell(id, title, clause, DEEPER, thick, deep)
    return sits


def drilled(sheet: SheetFile, plate: Value) -> Value:
    """How deep the hole is drilled, from the face of the concrete, in the unit of the plate.

    A screw anchor goes in as far as its head lets it: through a thin bracket farther than the report's embedment, and
    its hole must be deeper by as much, or it bottoms before it holds the bracket.
    """
    h_hole = sheet.fact("anchor.hole_depth", "h_hole", plate.unit)
    anchor = sheet.content.anchor
    if anchor is None or anchor.kind != "screw anchor":
        return h_hole
    length = sheet.fact("anchor.length", "L", plate.unit)
    h_nom = sheet.fact("anchor.nominal_embedment", "h_nom", plate.unit)
    text = "max(h_hole, L - l_s + h_hole - h_nom)"
    return work("h_drill", text, plate.unit, None, h_hole, h_nom, length, l_s=plate)


def _least_spacing(each: Anchors) -> Value:
    """Of the report; of the code where the report states none."""
    if not each.sheet.left_out("anchor.least_spacing"):
        return each.sheet.fact("anchor.least_spacing", "s_min", "in")
    return distances.least_spacing(each.book, each.d_a, "post-installed", torqued=True)


def _report_clause(each: Anchors) -> Clause:
    anchor = each.sheet.content.anchor
    report = anchor.report if anchor is not None and anchor.report else "report not stated"
    return Clause(each.sheet.content.name, "evaluation report", report)


def suits_concrete(task: Task, each: Anchors) -> Check:
    """Is the anchor made for concrete?"""
    title, clause = "The anchor is evaluated for concrete", _report_clause(each)
    base = each.sheet.content.anchor.base if each.sheet.content.anchor is not None else ()
    made = given("made_for_concrete", "concrete" in base, "", each.sheet.place("anchor.base"))
    return is_(task.id("concrete-base"), title, clause, made, chosen("asked", True, "", "it goes into concrete", None))
