"""What the bracket and its maker ask of the fasteners: how many, which ones, holes and heads that fit."""

import re
from collections.abc import Iterator

from standfast.design.anchorage.ratios import told
from standfast.design.anchorage.task import SheetFile, Task
from standfast.sheet import Check, Value, at_least, chosen, exactly, given, not_applicable, work
from standfast.units import read

_SIZE = re.compile(r"\d+(?:-\d+/\d+|/\d+|\.\d+)?\s*(?:mm|in)\b")
_NEAR = 0.02
"""Two ways to write one size differ by less than this part of it."""


def checks(task: Task, holes: int, sheet: SheetFile, diameter: Value) -> Iterator[Check]:
    """As many fasteners as the maker asks for, of those that it names, one to a place; holes and heads that fit."""
    title, n = (
        "As many fasteners as the maker asks for",
        given("n", float(holes), "1", task.battery.place("fixing.holes")),
    )
    least = task.battery.fact("fixing.least_fasteners", "n_min", "1")
    yield told(at_least(task.id("fasteners"), title, task.maker, n, least), "the maker asks for more fasteners")
    yield from through(task, sheet, diameter)
    yield _one_hole(task)


def through(task: Task, sheet: SheetFile, diameter: Value) -> Iterator[Check]:
    """A fastener that the maker names, which goes through the bracket or the foot and is held by it."""
    yield _named(task, sheet, diameter)
    part = task.held_part
    title = f"The holes of the {part} take the fastener"
    hole = task.of_part("hole", "d_bracket", "in")
    check = at_least(task.id("bracket-hole"), title, task.maker, hole, diameter)
    yield told(check, f"the fastener does not go through the {part}: take one that fits, do not drill the {part}")
    if sheet.content.fastener is not None:
        yield _head(task, sheet, hole)


def _named(task: Task, sheet: SheetFile, diameter: Value) -> Check:
    """Is the fastener one that the maker names, by kind and by size where it gives one?"""
    id, title = task.id("maker-fastener"), "The maker names this fastener"
    fixing = task.battery.content.fixing
    names = () if fixing is None else fixing.base_fasteners if task.part == "foot" else fixing.fasteners
    if not names:
        return not_applicable(id, title, task.maker, "the maker names no fasteners")
    fits = any(_fits(name, _words(sheet), diameter) for name in names)
    if fits:
        return Check(id, title, task.maker, "pass", demand=diameter)
    reason = f"{sheet.content.name} is none of those that the maker names: {', '.join(names)}"
    return Check(id, title, task.maker, "fail", demand=diameter, reason=reason)


def _words(sheet: SheetFile) -> tuple[str, ...]:
    anchor = sheet.content.anchor
    kind = anchor.kind if anchor is not None and anchor.kind is not None else sheet.content.kind
    return (kind, sheet.content.kind) if anchor is None else (kind,)


def _fits(name: str, words: tuple[str, ...], diameter: Value) -> bool:
    if not any(word in name.lower() for word in words):
        return False
    size = _SIZE.search(name)
    if size is None or diameter.missing:
        return size is None
    stated = float(read(size[0]).number) / 25.4
    return -_NEAR <= diameter.quantity / stated - 1 <= _NEAR


def _head(task: Task, sheet: SheetFile, hole: Value) -> Check:
    """A head that is hardly wider than the hole pulls through the bracket."""
    word = "head" if sheet.left_out("fastener.washer") else "washer"
    there = sheet.fact(f"fastener.{word}", f"d_{word}", "in")
    least = work("d_head_min", "k_head * d_bracket", "in", None, task.practice.number("head_over_hole"), hole)
    title = "Head or washer covers the hole of the bracket"
    check = at_least(task.id("bracket-head"), title, task.practice.clause("hanging"), there, least)
    return told(check, "the head can pull through the bracket: put a larger washer under it")


def _one_hole(task: Task) -> Check:
    """A hole that went wrong is not drilled again beside itself: the place is given up."""
    fixing = task.battery.content.fixing
    spots = fixing.holes if fixing is not None else ()
    marked = float(len({(x.number, y.number) for x, y in spots}))
    places = chosen("n_places", marked, "1", "places that are marked", None)
    drilled = given("n_holes", float(len(spots)), "1", task.battery.place("fixing.holes"))
    each = task.practice.number("holes_per_place")
    allowed = work("n_allowed", "n_hole * n_places", "1", each.clause, each, places)
    title, clause = "One hole at each marked place", task.practice.clause("hanging")
    check = exactly(task.id("one-hole"), title, clause, drilled, allowed)
    return told(
        check, "two holes stand at one place: a hole that went wrong is given up, not drilled again beside itself"
    )
