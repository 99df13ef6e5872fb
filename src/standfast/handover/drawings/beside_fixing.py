"""What stands beside a fixing detail: what the fixing is, its holes unit by unit, and its checks."""

from collections.abc import Sequence

from standfast.design.anchorage.held import Anchorage
from standfast.handover.calculations import compared
from standfast.handover.drawings.face import listed
from standfast.paper.document import Block, Facts, Heading, Table, Text, Words, bold, verdict
from standfast.sheet import Check, Value
from standfast.survey.house import Wall
from standfast.units import feet_inches

_WORST = ("fail", "cannot tell", "pass", "not applicable")


def beside_wall(held: Sequence[Anchorage], wall: Wall) -> list[Block]:
    """Holes of the wall and checks of units that are held alike on it."""
    first = held[0]
    name = "none found" if first.fixing is None else f"{first.fixing.content.maker} {first.fixing.content.name}"
    rows: list[list[Text]] = [
        [bold(f"{each.unit}/H{number}"), _both(hole.x), _both(hole.y), "" if hole.off is None else _both(hole.off)]
        for each in held
        for number, hole in enumerate(each.holes, 1)
    ]
    head = ["Hole", "From the left end", "Up from the floor", "Off the middle of the stud"]
    facts: list[tuple[str, Text]] = [
        ("Fastener", f"{len(rows)} × {name}"),
        ("Holds", listed([each.unit for each in held])),
        ("Wall", f"{wall.id}: {wall.build_up.kind or 'not known'}"),
        ("Holds in", first.base or "nothing that may carry the unit"),
    ]
    return [
        Heading("Fixing"),
        Facts(facts, 26, 10),
        Heading("Holes"),
        Table(head, rows, [0, 3, 3, 3], size=9),
        Words("Measured on the face of the wall, seen facing it. Scan at each mark before drilling."),
        *_judged([(each.unit, [check for check in each.checks if not _elsewhere(each, check)]) for each in held]),
    ]


def beside_foot(held: Sequence[Anchorage], wall: Wall) -> list[Block]:
    """Holes of the floor under units that stand alike, and the checks of their feet."""
    feet = [(each.unit, each.foot) for each in held if each.foot is not None]
    anchor = feet[0][1].anchor if feet else None
    name = "none found" if anchor is None else f"{anchor.content.maker} {anchor.content.name}"
    rows: list[list[Text]] = [
        [bold(f"{unit}/F{number}"), _both(hole.x), _both(hole.out)]
        for unit, foot in feet
        for number, hole in enumerate(foot.holes, 1)
    ]
    under = wall.footing
    facts: list[tuple[str, Text]] = [
        ("Anchor", f"{len(rows)} × {name}"),
        ("Holds", listed([unit for unit, _ in feet])),
        ("Stands on", "not known" if under is None else under.kind or "not known"),
    ]
    return [
        Heading("Foot"),
        Facts(facts, 26, 10),
        Heading("Holes in the floor"),
        Table(["Hole", "From the left end of the wall", "Out from the wall"], rows, [0, 3, 3], size=9),
        Words("Measured on the floor. Scan for heating pipes, cables and tendons at each mark before drilling."),
        *_judged([(each.unit, [check for check in each.checks if _of_foot(check)]) for each in held]),
    ]


def _of_foot(check: Check) -> bool:
    return check.id.endswith("/foot")


def _elsewhere(held: Anchorage, check: Check) -> bool:
    """Whether a check stands beside the detail of the foot."""
    return _of_foot(check) and held.foot is not None and bool(held.foot.holes)


def _judged(held: Sequence[tuple[str, Sequence[Check]]]) -> list[Block]:
    """The checks of each unit with their verdicts, of several units each the worst; the working is elsewhere."""
    worst: dict[str, Check] = {}
    for unit, checks in held:
        for check in checks:
            rule = check.id.replace(f"/{unit}", "/")
            if rule not in worst or _rank(check) < _rank(worst[rule]):
                worst[rule] = check
    rows: list[list[Text]] = [
        [verdict(check.verdict), check.title, compared(check), str(check.clause)]
        for check in worst.values()
        if check.verdict != "not applicable"
    ]
    title = "Checks" if len(held) == 1 else f"Checks: of {len(held)} units the worst"
    return [Heading(title), Table(["", "Check", "Demand and limit", "Clause"], rows, [0, 4, 5, 3], size=8)]


def _rank(check: Check) -> tuple[int, float]:
    return _WORST.index(check.verdict), float("inf") if check.margin is None else check.margin


def _both(value: Value) -> str:
    return "not known" if value.missing else f"{feet_inches(value.quantity)} ({value.quantity:.0f} mm)"
