"""Tests that rules ask which count in square millimetres: loops, residual devices, the link of neutral and earth.

A loop or a residual device that was tried on the grid proves nothing while the inverter is the source: it is tried
there again.
"""

from standfast.commissioning.due_test import Blank, DueTest, Site, When, blank_test, ground, limited
from standfast.units import show


def tests(site: Site, when: When) -> list[DueTest]:
    """The tests of a metric job in one part of the work, in order; none of a job under other rules.

    Args:
        site: what the tests are derived from.
        when: ``connected``, while everything is dead, or ``unit running``.
    """
    found = []
    for each in site.metric:
        if (when == "connected") != (each.kind == "electrode"):
            continue
        test = blank_test(site, each.kind, when, _blanks(site, each.kind), name=each.name)
        if each.limit is not None and not each.limit.missing:
            shown = site.say("tests.at_most", value=show(each.limit.quantity, each.limit.unit))
            test = limited(test, shown, each.limit, ground(site, each.limit), "at most")
        found.append(test)
    return found


def _blanks(site: Site, kind: str) -> list[Blank]:
    grid, away = site.say("tests.on_the_grid"), site.say("tests.grid_away")
    match kind:
        case "loop":
            return [Blank(grid, "Ω")]
        case "tripping":
            return [Blank(grid, "s"), Blank(away, "s")]
        case "link":
            return [Blank(away, "V")]
        case _:
            return [Blank(site.say("tests.electrode_alone"), "Ω")]
