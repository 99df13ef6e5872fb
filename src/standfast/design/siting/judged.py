"""The checks of all walls that hold units, each once."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from standfast.design.siting import drawn, listed
from standfast.design.siting.asking import bound, judge, unstated
from standfast.design.siting.ground import NOT_FOR_JOBS, Ground, rules_of_jobs
from standfast.design.siting.layout import Layout, Unit
from standfast.design.siting.several import Standing, with_units
from standfast.design.siting.things import is_chosen_inverter, not_in_plan
from standfast.design.siting.working_space import blockers, serviced, width_before
from standfast.sheet import Check, cannot_tell
from standfast.shelf import Adoption
from standfast.terms import Verdict

_RANK: dict[Verdict, int] = {"fail": 0, "cannot tell": 1, "pass": 2, "not applicable": 3}


_AT_PANELS = ("working-width", "dedicated-space", "equipment-depth", "headroom")
"""Rules that a wall without units is asked where a panel on it is worked on."""


def judged(adoption: Adoption, grounds: Mapping[str, Ground], placed: Sequence[Standing]) -> tuple[Check, ...]:
    """Every check of the units at their places, and of a new inverter at its own."""
    found: list[Check] = []
    for wall, at in grounds.items():
        units = [each.unit for each in placed if each.wall == wall]
        if units or any(is_chosen_inverter(each) for each in at.wall.obstacles):
            found += judge(adoption, with_units(grounds, wall, placed), rules_of_jobs(adoption))
            found += _unseen(adoption, at, units)
        elif listed.holds_work(at):
            found += judge(adoption, with_units(grounds, wall, placed), [id for id in _AT_PANELS if id in at.asks])
        else:
            found += _before_others(at, with_units(grounds, wall, placed))
        found += drawn.checks(at.seen)
    found += listed.checks(adoption, grounds, {each.wall for each in placed})
    found += [check for at in list(grounds.values())[:1] for check in drawn.undrawn(at.seen)]
    return tuple(each_once(found))


def _before_others(at: Ground, layout: Layout) -> Iterator[Check]:
    """Working space of the equipment of a wall without units, where a unit of the next wall stands in it."""
    ask = at.asks.get("working-width")
    for thing in serviced(layout) if ask is not None else []:
        if ask is not None and thing.on_wall and blockers(ask, layout, thing) != blockers(ask, at.bare, thing):
            yield from width_before(ask, layout, thing)


def checks_of(adoption: Adoption, layout: Layout) -> list[Check]:
    """The checks of one wall."""
    return judge(adoption, layout, rules_of_jobs(adoption))


def each_once(checks: Iterable[Check]) -> list[Check]:
    """Of checks with the same id, as two walls of one room have them, the one that is worst."""
    found: dict[str, Check] = {}
    for check in checks:
        before = found.get(check.id)
        if before is None or _worse(check) < _worse(before):
            found[check.id] = check
    return list(found.values())


def _worse(check: Check) -> tuple[int, float]:
    return _RANK[check.verdict], float("inf") if check.margin is None else check.margin


def _unseen(adoption: Adoption, at: Ground, units: Sequence[Unit]) -> list[Check]:
    """What survey and data sheets do not let anybody judge."""
    clause = bound(adoption, "overlap").clause
    found = [
        cannot_tell(
            f"siting.walls-in-plan/{unit.id}/{wall}",
            f"Is {unit.name} far enough from what is on {wall}?",
            clause,
            f"walls.{wall}: where it stands in plan is not known (start and end of it and of {at.wall.id})",
        )
        for unit in units
        for wall in not_in_plan(at.seen)
    ]
    if at.seen.inverter is None:
        found += [
            cannot_tell(
                f"siting.maker-clearance/{each.id}",
                f"Is there free space at {each.id}?",
                bound(adoption, "maker-clearance").clause,
                "equipment.inverter: choose the inverter by the id of its data sheet",
            )
            for each in at.wall.obstacles
            if is_chosen_inverter(each)
        ]
    found += [
        cannot_tell(
            f"siting.{id}/{unit.id}",
            f"What does {book.short} {book.edition} ask of {unit.name}: {id.replace('-', ' ')}?",
            book.unheld(),
            f"{book.short} {book.edition} is held in part only: no clause is held for {key!r}",
        )
        for unit in units
        for id, book, key in unstated(adoption)
        if id not in NOT_FOR_JOBS
    ]
    return found
