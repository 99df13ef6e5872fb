"""Joints of neutral and ground in every state that the switches of a house can be in. Exactly one is right.

With none a fault to ground drives no current that a breaker or a residual current device clears; with two a part of the
neutral current flows where hands touch. The rule is the same in every adoption: the book that is passed in names it.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from standfast.design.installation import Installation
from standfast.design.wiring.neutral import Count, Island, Joint, Layers, Switching
from standfast.faults import NotInEdition
from standfast.sheet import Check, Value, cannot_tell, chosen, exactly, missing, total
from standfast.shelf import Edition
from standfast.terms import Verdict

Opens = Callable[[Switching], Mapping[str, Value]]
"""In a state: of each switch that may open its neutral whether it does: yes, no or missing."""
RANK: dict[Verdict, int] = {"fail": 0, "cannot tell": 1, "pass": 2, "not applicable": 3}


class Row(NamedTuple):
    """One line of the table: what is alive together in one state.

    Attributes:
        state: the state in words.
        part: the part of the house, by its busbars.
        sources: what feeds it.
        bonds: number of joints; the fewest that it can be where two or more are certain; missing where it is not known.
        where: the places of the joints, those that are not known with a question mark.
        own: true where its neutral is parted from that of the grid.
        verdict: pass for exactly one.
    """

    state: str
    part: str
    sources: str
    bonds: Value
    where: str
    own: bool
    verdict: Verdict


class Bonds(NamedTuple):
    """The table of a house, a check of every state, and the word of the code for ground: ``ground`` or ``earth``."""

    rows: tuple[Row, ...] = ()
    checks: tuple[Check, ...] = ()
    ground: str = "ground"


def table(
    book: Edition, graph: Installation, states: Sequence[Switching], joints: Sequence[Joint], opens: Opens,
    *, ground: str = "ground",
) -> Bonds:  # fmt: skip
    """The joints of neutral and ground in every state.

    Args:
        book: the code; its clauses ``service_bond`` (grid and house share a neutral) and ``island_bond`` (they do not).
        graph: the installation.
        states: every state that its switches can be in.
        joints: every place where neutral and ground can be joined.
        opens: which switches open their neutral.
        ground: the word of the code for it: ``ground`` or ``earth``.

    Returns:
        A row for every part of the house that is alive by itself and carries anything, and a check for every state
        that has one: its worst row.
    """
    layers, rows, checks = Layers(graph), list[Row](), list[Check]()
    for state in states:
        found: list[tuple[Row, Check]] = []
        for island in layers.alive(state):
            if any(graph.parts[each].kind == "busbar" for each in island.parts):
                sides = opens(state)
                found.append(_judged(book, graph, state, island, layers.count(state, island, joints, sides),
                                     tuple(sides[each] for each in sides if each in state.opened), ground))  # fmt: skip
        rows += [row for row, _ in found]
        if found:
            checks.append(min((check for _, check in found), key=lambda check: RANK[check.verdict]))
    return Bonds(tuple(rows), tuple(checks), ground)


def _judged(
    book: Edition, graph: Installation, state: Switching, island: Island, count: Count, sides: Sequence[Value],
    ground: str,
) -> tuple[Row, Check]:  # fmt: skip
    """One row, and its check under the name of the state."""
    clause = book.clause("island_bond" if count.own else "service_bond")
    met = "once, on the side of the source: the neutral of the grid is parted" if count.own else "once, at the service"
    one = chosen("n_one", 1.0, "1", met, clause, *(each for each in sides if not each.missing))
    bonds = _number(book, count)
    title = f"Neutral and {ground} are joined exactly once: {state.name}"
    check = exactly(f"wiring.neutral-bond/{state.id}", title, clause, bonds, one)
    names = [graph.parts[each].name for each in graph.parts if each in island.parts]
    buses = [part.name for part in graph.of_kind("busbar") if part.id in island.parts]
    where = ", ".join([*(each.name for each in count.sure), *(f"{each.name} (?)" for each in count.unsure)]) or "none"
    part, sources = ", ".join(buses or names), ", ".join(graph.parts[each].name for each in island.sources)
    if check.verdict == "fail" and state.hangs_on:
        needs = "; ".join(dict.fromkeys(each.how for each in state.hangs_on))
        check = cannot_tell(check.id, title, clause, f"{needs}; {bonds.number:g} joints if it can be so", bonds)
    if check.verdict == "fail":
        check = check._replace(reason=f"{part}: {_told(book, count, where, ground)}")
    return Row(state.name, part, sources, bonds, where, count.own, check.verdict), check


def _number(book: Edition, count: Count) -> Value:
    """How many joints there are; missing where what is not known decides whether it is one."""
    if count.least < count.most and count.least <= 1 <= count.most:
        return missing("n_bonds", "1", "; ".join(dict.fromkeys(each.how for each in count.open)), *count.open)
    found = [_counted(each, 1.0, "joined there") for each in count.sure]
    found += [_counted(each, 0.0, "not joined there in this state") for each in count.absent]
    return total("n_bonds" if count.least == count.most else "n_bonds_least", found, "1")


def _counted(joint: Joint, number: float, how: str) -> Value:
    symbol = "n_" + "".join(each if each.isalnum() else "_" for each in joint.part)
    known = () if joint.joined.missing else (joint.joined,)  # one that cannot be closed counts none, known or not
    return chosen(symbol, number, "1", f"{joint.name}: {how}", None, *known)


def _told(book: Edition, count: Count, where: str, ground: str) -> str:
    """What a wrong number of joints does, with the clauses that name it as far as the edition holds them."""
    if count.most == 0:
        return f"no joint, so a fault to {ground} drives no current that clears it{_cited(book, 'fault_path')}"
    flows = f"part of the neutral current flows on the {ground}ing side"
    return f"joined at {where}: {flows}{_cited(book, 'objectionable_current', 'load_side_neutral')}"


def _cited(book: Edition, *keys: str) -> str:
    found = []
    for key in keys:
        try:
            found.append(book.clause(key).clause)
        except NotInEdition:
            continue
    return f" ({', '.join(found)})" if found else ""
