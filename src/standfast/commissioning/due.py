"""The tests that are due on a job, with the limits that have a source and space for readings.

A limit is printed only where a source states it, and the source stands beside it. Where none does, the reading is
recorded and judged by the licensed person.
"""

from collections.abc import Mapping
from typing import Literal, NamedTuple

from standfast.design.installation import Installation, Part
from standfast.equipment.read import DataSheet
from standfast.sheet import Value
from standfast.shelf import Edition
from standfast.survey.read import Survey
from standfast.terms import SEEN_WORDS
from standfast.units import show
from standfast.words import ENGLISH, say

When = Literal["before power", "connected", "before the unit", "unit running"]


class Blank(NamedTuple):
    """A space for one reading: what, its unit, and whether the limit of the test is one for it."""

    what: str
    unit: str
    limited: bool = True


class DueTest(NamedTuple):
    """One test.

    Attributes:
        id: T1, T2, …
        when: part of the work in which it is done.
        what: what is tested.
        how: how it is done.
        limit: what the reading is compared with; empty where no source states a limit.
        ground: where the limit was read; empty where there is none.
        value: the limit on the sheet; None where there is none or it is a state.
        readings: spaces.
    """

    id: str
    when: When
    what: str
    how: str
    limit: str
    ground: str
    value: Value | None
    readings: tuple[Blank, ...]


class Site(NamedTuple):
    """What the tests are derived from: job file, data sheets by role, the graph, rules of thumb, language."""

    survey: Survey
    sheets: Mapping[str, DataSheet]
    installation: Installation
    practice: Edition
    language: str = ENGLISH

    def say(self, key: str, /, **parts: object) -> str:
        """A text of the catalogue."""
        return say(key, self.language, **parts)


def due_tests(site: Site) -> list[DueTest]:
    """The tests of a job in the order in which they are done."""
    found = [_insulation(site), _identity(site), *_polarity(site)]
    found += _one_bond(site)
    found += [_continuity(site), _voltages(site)]
    found += _indications(site)
    found += [_direction(site)]
    found += _loss_of_grid(site)
    found += [_return(site), _shutdown(site), _alarm(site)]
    return [test._replace(id=f"T{number}") for number, test in enumerate(found, 1)]


def _test(site: Site, key: str, when: When, readings: list[Blank], **parts: object) -> DueTest:
    what, how = site.say(f"tests.{key}", **parts), site.say(f"tests.{key}_how", **parts)
    return DueTest("", when, what, how, "", "", None, tuple(readings))


def _limited(test: DueTest, limit: str, value: Value, ground: str) -> DueTest:
    return test._replace(limit=limit, value=value, ground=ground)


def _ground(value: Value) -> str:
    clause = "" if value.clause is None else value.clause.clause
    seen = "" if value.seen is None else SEEN_WORDS[value.seen]
    return "; ".join(part for part in (clause, seen) if part)


def _insulation(site: Site) -> DueTest:
    least, volts = site.practice.number("insulation_least"), site.practice.number("insulation_test")
    runs = [route.id for route in site.survey.job.routes if route.state != "existing"]
    readings = [Blank(site.say("tests.run_reading", run=run), "MΩ") for run in runs]
    test = _test(site, "insulation", "before power", readings, volts=show(volts.quantity, "V"))
    ground = site.say("tests.not_required", ground=_ground(least))
    return _limited(test, site.say("tests.at_least", value=f"{least.quantity:g} MΩ"), least, ground)


def _continuity(site: Site) -> DueTest:
    """Of every device that this job puts up; its conductors must be in their terminals."""
    kinds = site.installation.of_kind("battery", "inverter", "busbar", "disconnect", "transfer equipment", "fuse")
    names = [part.name for part in kinds if not part.existing and not _inside(part)]
    readings = [Blank(site.say("tests.to_bar", name=name), "Ω") for name in names]
    return _test(site, "continuity", "connected", readings)


def _identity(site: Site) -> DueTest:
    return _test(site, "identity", "before power", [Blank(site.say("tests.each_run"), "")])


def _inside(part: Part) -> bool:
    """True for an inverter that is inside a battery unit: it has no metal of its own."""
    return part.kind == "inverter" and part.role != "inverter"


def _polarity(site: Site) -> list[DueTest]:
    """Of every new DC run: crossed poles destroy an inverter and draw thousands of amperes."""
    own = [part for part in site.installation.of_kind("inverter") if part.role == "inverter"]
    routes = {route.id for route in site.survey.job.routes if route.state != "existing"}
    direct = {part.id for part in site.installation.of_kind("battery", "array")}
    ways = [link.id for part in own for id in direct for link in site.installation.conductors(part.id, id)]
    runs = [run for run in dict.fromkeys(sorted(ways)) if run in routes]
    return [_test(site, "polarity", "before power", [Blank(run, "") for run in runs])] if runs else []


def _one_bond(site: Site) -> list[DueTest]:
    """For each new panel: a second joint of neutral and ground would put current on metal that people touch."""
    panels = [part.name for part in site.installation.of_kind("busbar") if not part.existing]
    blanks = [Blank(site.say("tests.neutral_to_ground"), "Ω")]
    return [_test(site, "one_bond", "before power", blanks, name=name) for name in panels]


def _voltages(site: Site) -> DueTest:
    volts = site.survey.fact("supply.voltage", "V_LL", "V")
    shown = site.say("common.not_known") if volts.missing else show(volts.quantity, "V")
    at = [part.name for part in site.installation.of_kind("disconnect") if part.role == "disconnect"]
    names = ", ".join(at) or site.say("tests.new_disconnect")
    pairs = ("L1–L2", "L1–N", "L2–N", "L1–G", "L2–G", "N–G")
    readings = [Blank(told, "V") for pair in pairs for told in _of_each(at, pair)]
    return _test(site, "voltages", "before the unit", readings, volts=shown, names=names)


def _indications(site: Site) -> list[DueTest]:
    """What the data sheets say that each unit, and an inverter, shows when all is well, and in what time."""
    return [test for role in ("battery", "inverter") for test in _shown(site, role)]


def _shown(site: Site, role: str) -> list[DueTest]:
    kinds = [part for part in site.installation.of_kind("battery", "inverter") if part.kind == part.role == role]
    if not kinds or role not in site.sheets:
        return []
    sheet, found = site.sheets[role], list[DueTest]()
    seen = site.say("tests.seen_after")
    for indication in sheet.sheet.indications:
        if not indication.good:
            continue
        readings = [Blank(told, "s") for told in _of_each([part.name for part in kinds], seen)]
        test = _test(site, "indication", "unit running", readings, shows=indication.shows, meaning=indication.meaning)
        within = sheet.fact(f"indications.{indication.id}.within", "t", "s")
        if not within.missing:
            limit = site.say("tests.within", value=show(within.quantity, "s"))
            test = _limited(test, limit, within, site.say("tests.data_sheet", file=sheet.file))
        found.append(test)
    return found


def _makers(site: Site) -> list[str]:
    """Names of what feeds the house: an inverter of its own, else every battery unit."""
    parts = site.installation.of_kind("battery", "inverter")
    own = [part for part in parts if not part.existing and part.kind == part.role]
    inverters = [part.name for part in own if part.kind == "inverter"]
    return inverters or [part.name for part in own]


def _of_each(names: list[str], what: str) -> list[str]:
    """What is read of each of several things, with its name; of one, or of none in particular, without."""
    return [f"{name}: {what}" for name in names] if len(names) > 1 else [what]


def _direction(site: Site) -> DueTest:
    names = ("charge_unit", "charge_service", "discharge_unit", "discharge_service")
    readings = [
        Blank(told, "W")
        for name in names
        for told in _of_each(_makers(site) if name.endswith("_unit") else [], site.say(f"tests.{name}"))
    ]
    return _test(site, "direction", "unit running", readings)


def _loss_of_grid(site: Site) -> list[DueTest]:
    mode = site.survey.job.backup.mode
    if mode in (None, "none"):
        stopped = _of_each(_makers(site), site.say("tests.stopped_after"))
        return [_test(site, "stops", "unit running", [Blank(told, "s") for told in stopped])]
    blanks = [
        Blank(site.say("tests.back_after"), "s"),
        Blank("L1–N", "V", limited=False),
        Blank("L2–N", "V", limited=False),
    ]
    test = _test(site, "carries", "unit running", blanks)
    island = site.sheets.get("island_switch")
    if island is not None and island.has("switch.transfer_time"):
        time = island.fact("switch.transfer_time", "t", "s")
        limit = site.say("tests.within", value=show(time.quantity, "s"))
        test = _limited(test, limit, time, site.say("tests.data_sheet", file=island.file))
    return [test]


def _return(site: Site) -> DueTest:
    delay = site.practice.number("return_delay")
    test = _test(site, "return", "unit running", [Blank(site.say("tests.returned_after"), "s")])
    return _limited(test, site.say("tests.not_before", value=show(delay.quantity, "s")), delay, _ground(delay))


def _shutdown(site: Site) -> DueTest:
    stopped = _of_each(_makers(site), site.say("tests.stopped_after"))
    return _test(site, "shutdown", "unit running", [Blank(told, "s") for told in stopped])


def _alarm(site: Site) -> DueTest:
    return _test(site, "alarm", "unit running", [Blank(site.say("tests.heard_in"), "")])
