"""Where conductors end: temperature mark, range of sizes and metals that a terminal takes."""

from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import sizes, terminations
from standfast.sheet import Check, Value, at_least, at_most, chosen, missing, one_of, settle
from standfast.shelf import Edition

MARKS: dict[str, float] = {"60 °C": 60.0, "75 °C": 75.0, "60/75 °C": 75.0, "90 °C": 75.0}
"""What a mark allows. Equipment marked 90 °C is still used at the 75 °C column: only separate connectors go beyond."""


class End(NamedTuple):
    """One end of a conductor.

    Attributes:
        name: of what it ends in.
        mark: temperature that is marked there.
        smallest: size that it takes; this and the next two are None where the range is stated elsewhere.
        largest: size that it takes.
        metals: that it takes.
        space: to bend the conductor, in inches; None where it ends in the enclosure of something else.
        listed: true where its data sheet names a listing.
    """

    name: str
    mark: Value
    smallest: Value | None = None
    largest: Value | None = None
    metals: Value | None = None
    space: Value | None = None
    listed: bool = False


def of_sheet(task: Material, role: str, use: str = "ac line") -> End:
    """The terminals of chosen equipment for one use."""
    name = role.replace("_", "-")
    terminal = task.terminal(role, use)
    if terminal is None:
        sheet = task.sheets.get(role)
        chosen_none = f"equipment.{role}: choose one by the id of its data sheet"
        need = chosen_none if sheet is None else f"terminals: {sheet.file} names none for {use}"
        low, high, metals = (missing(symbol, "", need) for symbol in ("size_min", "size_max", "metals"))
        return End(name, missing("T_mark", "°C", need), low, high, metals)
    path = f"terminals.{terminal.id}"
    metals = task.of(role, f"{path}.materials", "metals")
    if not terminal.materials:
        metals = missing("metals", "", f"{path}.materials of {name}: the metals that the terminal takes")
    return End(
        name,
        _mark(task.of(role, f"{path}.temperature", "mark")),
        task.of(role, f"{path}.wire_min", "size_min"),
        task.of(role, f"{path}.wire_max", "size_max"),
        metals,
        None if role == "breaker" else task.of(role, f"{path}.bending_space", "b_space", "in"),
        bool(task.sheets[role].content.listing),
    )


def of_panel(task: Material, panel: str) -> End:
    """The terminals of a panel; what they take is on its label."""
    mark, space = task.job.fact(f"panels.{panel}.terminals", "mark"), f"panels.{panel}.bending_space"
    return End(panel, _mark(mark), space=task.job.fact(space, "b_space", "in"))


def column(book: Edition, rating: Value, ends: list[End]) -> Value:
    """Temperature column in °C that all ends allow."""
    return terminations.lowest(book, [terminations.end(book, rating, each.mark, "T_end") for each in ends])


def checks(task: Material, circuit: str, use: str, size: Value, metal: Value, ends: list[End]) -> Iterator[Check]:
    """Every end takes the size and the metal of the conductor."""
    clause = task.nec.clause("terminal_wire_range")
    for end in ends:
        where = f"{circuit}/{end.name}/{use}"
        if end.smallest is None or end.largest is None or end.metals is None:
            continue
        title = f"Conductor size at the terminals of the {end.name} ({use})"
        id = f"wiring.terminal-range/{where}"
        yield settle(id, title, clause, partial(_range, task.nec, id, title, size, end.smallest, end.largest))
        title = f"Conductor metal at the terminals of the {end.name} ({use})"
        yield one_of(f"wiring.terminal-metal/{where}", title, clause, metal, end.metals)


def _range(book: Edition, id: str, title: str, size: Value, smallest: Value, largest: Value) -> Check:
    clause = book.clause("terminal_wire_range")
    area = sizes.area(book, size)
    low = at_least(id, title, clause, area, sizes.area(book, smallest, "A_min"))
    if low.verdict != "pass":
        return low
    return at_most(id, title, clause, area, sizes.area(book, largest, "A_max"))


def _mark(word: Value) -> Value:
    if word.missing:
        return missing("T_mark", "°C", word.how, word)
    if word.word == terminations.UNMARKED:
        return word
    return chosen("T_mark", MARKS[word.word], "°C", f"marked {word.word}", None, word)
