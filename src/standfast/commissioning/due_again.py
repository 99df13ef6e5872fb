"""Tests that are due again years later: those of the job, with their numbers, texts and limits, of what is left.

A test that asks for the unit to run goes where the unit goes. Of the others, the readings that name a thing which is
not there, or was not touched, are left out; a test of which no reading is left is not due.
"""

import re
from collections.abc import Collection, Iterable

from standfast.commissioning.due import PAIRS, SPLIT
from standfast.commissioning.due_test import Blank, DueTest, Site, blank_test, of_each
from standfast.units import show

WITHOUT_UNIT = ("insulation", "identity", "one_bond", "continuity", "electrode", "loop", "tripping")
"""Kinds of test that need no unit."""


def of_what_stays(
    site: Site, tests: Iterable[DueTest], gone: Collection[str], stays: Collection[str], panels: list[str]
) -> list[DueTest]:  # fmt: skip
    """The tests of a house that its battery has left.

    Args:
        site: what the tests of the job were derived from.
        tests: those tests.
        gone: names of parts and runs that are not there any more.
        stays: names of runs that are, whatever stood on their way.
        panels: names of the panels that were opened.
    """
    made = list(tests)
    away = [*gone, site.say("tests.grid_away")]  # without the unit nothing feeds the house then
    found = about([test for test in made if test.key in WITHOUT_UNIT], away, stays)
    if not any(test.key == "insulation" for test in found):  # no new run stays: there are no conductors to ring out
        found = [test for test in found if test.key != "identity"]
    number = next((test.id for test in made if test.key == "voltages"), "")
    volts = _voltages(site, panels)._replace(id=number)
    return sorted([*found, volts], key=lambda one: _place(made, one.id))


def about(tests: Iterable[DueTest], others: Collection[str], own: Collection[str] = ()) -> list[DueTest]:
    """Of tests the readings that name none of some other things; without a test that is left without one.

    Args:
        tests: the tests.
        others: names of parts and runs that the tests are not about.
        own: names of runs that they are about, also where something else stands on the way.
    """
    found = list[DueTest]()
    for test in tests:
        readings = tuple(
            each for each in test.readings if _names(each.what, own) or not _names(each.what, others)
        )  # fmt: skip
        if readings and not _names(test.what, others):
            found.append(test._replace(readings=readings))
    return found


def _names(text: str, others: Collection[str]) -> bool:
    return any(re.search(rf"(?<!\w){re.escape(name)}(?!\w)", text) is not None for name in others)


def _place(tests: list[DueTest], id: str) -> int:
    return next((number for number, test in enumerate(tests) if test.id == id), len(tests))


def _voltages(site: Site, panels: list[str]) -> DueTest:
    """At each panel that was opened, where the switch at which the job read them is not there any more."""
    volts = site.survey.fact("supply.voltage", "V_LL", "V")
    shown = site.say("common.not_known") if volts.missing else show(volts.quantity, "V")
    pairs = PAIRS.get(site.survey.job.supply.system or "", SPLIT)
    readings = [Blank(told, "V") for pair in pairs for told in of_each(panels, pair)]
    test = blank_test(site, "voltages_panel", "before the unit", readings, names=", ".join(panels), volts=shown)
    return test._replace(key="voltages")
