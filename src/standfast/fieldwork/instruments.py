"""What the tests of a job are read with: one row an instrument, with the tests that ask it."""

from collections.abc import Iterable

from standfast.commissioning.due import due_tests
from standfast.commissioning.due_test import DueTest, Site
from standfast.fieldwork.fixings import detected
from standfast.fieldwork.plan import Plan
from standfast.sheet import Value
from standfast.units import show

NOTHING = "none"
"""A test that is heard or seen and read with nothing."""
READERS = ("watch", "commissioning device")
"""What needs no calibration."""


def site_of(plan: Plan) -> Site:
    """What the tests of a job are derived from."""
    runs = {each.id: each.name for each in plan.runs} | {each.id: each.name for each in plan.cables}
    return Site(
        plan.survey, plan.sheets, plan.installation, plan.practice, plan.language, detected(plan), tuple(plan.settings),
        tuple(plan.readings), runs,
    )  # fmt: skip


def instruments(plan: Plan, tests: Iterable[DueTest]) -> dict[str, list[DueTest]]:
    """The instruments that tests are read with, each with its tests.

    Args:
        plan: the job.
        tests: its due tests; one that the table of instruments does not know is in no list.
    """
    table, asked = plan.practice.table("instruments"), dict[str, list[DueTest]]()
    for test in tests:
        for row in (row for row in table.rows if row["test"] == test.key):
            asked.setdefault(str(row["instrument"]), []).append(test)
    asked.pop(NOTHING, None)
    return asked


def due(plan: Plan) -> dict[str, list[DueTest]]:
    """The instruments of all tests that are due on a job."""
    return instruments(plan, due_tests(site_of(plan)))


def least_voltage(plan: Plan, instrument: str) -> Value:
    """For what voltage an instrument must be made: an insulation tester gives the test voltage, others bear what is
    there."""
    if instrument == "insulation tester":
        return plan.practice.number("insulation_test")
    return plan.survey.fact("supply.voltage", "V_LL", "V")


def named(plan: Plan, instrument: str) -> str:
    """An instrument with what it must be made for, for print."""
    volts = least_voltage(plan, instrument)
    shown = plan.say("common.not_known") if volts.missing else show(volts.quantity, "V")
    return plan.say(f"tools.instrument_{instrument.replace(' ', '_').replace('-', '_')}", volts=shown)
