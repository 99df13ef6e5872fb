"""Which walls can carry a hanging unit, and which are refused with the reason; plugs of braces."""

from collections.abc import Iterator
from typing import NamedTuple

from standfast.design.anchorage.held import Base
from standfast.design.anchorage.ratios import told
from standfast.design.anchorage.task import SheetFile, Task
from standfast.sheet import Check, at_least, cannot_tell, chosen, given, is_, one_of


class Footing(NamedTuple):
    """What the fixings hold in; None where the wall cannot carry, or nobody knows, with the check that says so."""

    base: Base | None
    check: Check


REFUSED: dict[str, str] = {
    "steel studs": "sheet steel studs strip and twist under a heavy unit: put a backing plate or blocking across "
    "several studs and have it designed",
    "brick veneer": "the veneer carries only itself: fix through to the structure behind by an engineer's design",
    "hollow block": "the shell of a hollow block is too thin for the anchors that are held here: an evaluation report "
    "for hollow block and an engineer must say how",
    "hollow brick": "the webs of hollow brick break under an anchor: an evaluation report for this brick must say how",
    "stone": "stone is of unknown strength and joint: an engineer must say how",
}
"""What holds no unit by the fixings that are held here, and the way out."""
INSTEAD = {"steel studs": ", or stand the unit on the floor", "brick veneer": ", or stand the unit on the floor"}
"""A further way out for a unit that hangs."""


def footing(task: Task) -> Footing:
    """Is there something behind the bracket that carries? Plasterboard alone never does."""
    id, clause = task.id("wall-carries"), task.practice.clause("hanging")
    hangs = task.battery.content.body.hung is not False
    title = "The wall carries a hanging unit" if hangs else "The wall holds the brace of a standing unit"
    kind = task.of_build_up("kind", "wall_kind")
    if kind.missing:
        return Footing(None, cannot_tell(id, title, clause, kind.how, kind))
    word = kind.word
    if word == "masonry":
        masonry = task.of_build_up("masonry", "masonry")
        if masonry.missing:
            return Footing(None, cannot_tell(id, title, clause, masonry.how, masonry))
        if masonry.word not in REFUSED:
            reason = f"anchors in {masonry.word} are designed from their evaluation report alone: ask an engineer"
            return Footing(None, cannot_tell(id, title, clause, reason, masonry))
        kind, word = masonry, masonry.word
    if word in REFUSED:
        why = REFUSED[word] + (INSTEAD.get(word, "") if hangs else "")
        return Footing(None, Check(id, title, clause, "fail", demand=kind, reason=why))
    carries = chosen("carries", ("concrete", "timber frame"), "", "walls whose fixings can be worked out", clause)
    return Footing("wood" if word == "timber frame" else "concrete", one_of(id, title, clause, kind, carries))


def maker_allows(task: Task) -> Check:
    """Does the maker allow a wall of this kind?"""
    title = "The maker allows this kind of wall"
    kind = task.of_build_up("kind", "wall_kind")
    fixing = task.battery.content.fixing
    if fixing is None or not fixing.holds:
        return cannot_tell(task.id("maker-wall"), title, task.maker, task.battery.fact("fixing.holds", "holds").how)
    check = one_of(task.id("maker-wall"), title, task.maker, kind, task.battery.fact("fixing.holds", "holds"))
    return told(check, f"the maker allows {' and '.join(fixing.holds)} only: choose another wall or ask the maker")


def plug(task: Task, sheet: SheetFile) -> Iterator[Check]:
    """A plug of a brace: it keeps a standing unit from tilting, and never carries a hanging one."""
    clause = task.practice.clause("hanging")
    hung = task.battery.fact("body.hung", "hung")
    id, title = task.id("plug", sheet.content.id), "The plug is used against tilting only"
    standing = is_(id, title, clause, hung, given("asked", False, "", "a plug may hold only a unit that stands"))
    if standing.verdict == "fail":
        reason = "a plug in the wall is accepted for tilt restraint only and refused for a hanging unit"
        standing = Check(id, title, clause, "fail", "is", hung, standing.limit, reason=reason)
    yield standing
    for word, key, what in (("diameter", "brace_plug_diameter", "thick"), ("depth", "brace_plug_depth", "deep")):
        title = f"The plug is {what} enough for a brace"
        there = sheet.fact(f"plug.{word}", word, "mm")
        check = at_least(task.id(f"plug-{word}", sheet.content.id), title, clause, there, task.practice.number(key))
        yield told(check, f"the plug is not {what} enough to hold a brace: take a larger one")
