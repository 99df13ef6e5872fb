"""A source without a neutral carries no load that needs one: lamps and outlets from line to neutral."""

from collections.abc import Iterator

from standfast.design.wiring.carried import backed_up
from standfast.design.wiring.material import Material
from standfast.sheet import Check, chosen, is_, missing, not_applicable


def checks(task: Material) -> Iterator[Check]:
    """Of the sources together: their neutral against the circuits that are carried; nothing without backup."""
    if task.job.content.backup.mode not in ("circuits", "whole house"):
        return
    id, title = "wiring.island-neutral", "The battery has the neutral that the circuits which it carries need"
    clause, carried = task.nec.clause("listed_use"), backed_up(task.job)
    needing = [each for each in carried if each.circuit.phases != "line to line"]
    unsaid = [each for each in needing if each.circuit.phases is None]
    if not needing:
        yield not_applicable(id, title, clause, "every circuit that is carried is joined line to line")
        return
    word = task.own("neutral", "neutral")
    there = chosen("has_neutral", word.number != "not used", "", f"neutral: {word.number}", None, word)
    if unsaid == needing and not word.missing and word.word == "not used":
        paths = ", ".join(f"panels.{each.panel}.circuits.{each.circuit.id}.phases" for each in unsaid)
        there = missing("has_neutral", "", f"{paths}: how their loads are connected")
    names = ", ".join(each.circuit.name or each.circuit.id for each in needing)
    needed = chosen("needed", True, "", f"not joined line to line: {names}", clause)
    optional = word.number == "optional"
    yield is_(id, title, clause, there, needed, condition="its neutral is connected" if optional else "")
