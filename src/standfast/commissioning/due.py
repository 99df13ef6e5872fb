"""The tests that are due on a job, with the limits that have a source and space for readings.

A limit is printed only where a source states it, and the source stands beside it. Where none does, the reading is
recorded and judged by the licensed person.
"""

from standfast.commissioning import due_dc, due_metric
from standfast.commissioning.due_test import Blank, DueTest, Site, blank_test, ground, limited, of_each
from standfast.design.installation import Part
from standfast.units import show

WAITS = ("enter-service/delay", "reconnection/delay")
"""Rows of the settings sheet that say how long a unit waits before it connects again."""


SPLIT = ("L1–L2", "L1–N", "L2–N", "L1–G", "L2–G", "N–G")
"""Pairs of a split-phase house."""
PAIRS = {
    "230 V single-phase": ("L–N", "L–PE", "N–PE"),
    "230/400 V three-phase": ("L1–L2", "L2–L3", "L1–L3", "L1–N", "L2–N", "L3–N", "L1–PE", "L2–PE", "L3–PE", "N–PE"),
}
"""Pairs of other houses, by their system."""


def due_tests(site: Site) -> list[DueTest]:
    """The tests of a job in the order in which they are done."""
    found = [_insulation(site), _identity(site), *_polarity(site)]
    found += _one_bond(site)
    found += [_continuity(site), *due_metric.tests(site, "connected"), *due_dc.insulation(site), _voltages(site)]
    found += [*due_dc.batteries(site), *due_dc.strings(site)]
    found += _indications(site)
    found += due_dc.ground_fault(site)
    found += [*_settings(site), _direction(site)]
    found += _loss_of_grid(site)
    found += due_metric.tests(site, "unit running")
    found += [_return(site), _shutdown(site), *_alarm(site)]
    return [test._replace(id=f"T{number}") for number, test in enumerate(found, 1)]


def _insulation(site: Site) -> DueTest:
    least, volts = site.practice.number("insulation_least"), site.practice.number("insulation_test")
    runs = [route.id for route in site.survey.job.routes if route.state != "existing"]
    readings = [Blank(site.say("tests.run_reading", run=site.runs.get(run, run)), "MΩ") for run in runs]
    test = blank_test(site, "insulation", "before power", readings, volts=show(volts.quantity, "V"))
    where = site.say("tests.not_required", ground=ground(site, least))
    return limited(test, site.say("tests.at_least", value=f"{least.quantity:g} MΩ"), least, where, "at least")


def _continuity(site: Site) -> DueTest:
    """Of every device that this job puts up; its conductors must be in their terminals."""
    kinds = site.installation.of_kind("battery", "inverter", "busbar", "disconnect", "transfer equipment", "fuse")
    names = [part.name for part in kinds if not part.existing and not _inside(part)]
    readings = [Blank(site.say("tests.to_bar", name=name), "Ω") for name in names]
    return blank_test(site, "continuity", "connected", readings)


def _identity(site: Site) -> DueTest:
    return blank_test(site, "identity", "before power", [Blank(site.say("tests.each_run"), "")])


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
    return (
        [blank_test(site, "polarity", "before power", [Blank(site.runs.get(run, run), "") for run in runs])]
        if runs
        else []
    )


def _one_bond(site: Site) -> list[DueTest]:
    """For each new panel: a second joint of neutral and ground would put current on metal that people touch."""
    panels = [part.name for part in site.installation.of_kind("busbar") if not part.existing]
    blanks = [Blank(site.say("tests.neutral_to_ground"), "Ω")]
    return [blank_test(site, "one_bond", "before power", blanks, name=name) for name in panels]


def _voltages(site: Site) -> DueTest:
    volts = site.survey.fact("supply.voltage", "V_LL", "V")
    shown = site.say("common.not_known") if volts.missing else show(volts.quantity, "V")
    at = [part.name for part in site.installation.of_kind("disconnect") if part.role == "disconnect"]
    names = ", ".join(at) or site.say("tests.new_disconnect")
    own = [part.name for part in site.installation.of_kind("breaker") if not part.existing and _of_source(site, part)]
    breakers = ", ".join(own) or site.say("tests.new_breaker")
    pairs = PAIRS.get(site.survey.job.supply.system or "", SPLIT)
    readings = [Blank(told, "V") for pair in pairs for told in of_each(at, pair)]
    return blank_test(site, "voltages", "before the unit", readings, volts=shown, names=names, breakers=breakers)


def _of_source(site: Site, part: Part) -> bool:
    """True for the breaker of an inverter or of a unit with one inside: its id begins with theirs."""
    return part.id.partition("/")[0] in site.installation.parts and part.id.endswith("/breaker")


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
        readings = [Blank(told, "s") for told in of_each([part.name for part in kinds], seen)]
        test = blank_test(
            site,
            "indication",
            "unit running",
            readings,
            shows=sheet.sheet.told(indication.shows, site.language),
            meaning=sheet.sheet.told(indication.meaning, site.language),
        )
        test = test._replace(shows=f"{role}/{indication.id}")
        within = sheet.fact(f"indications.{indication.id}.within", "t", "s")
        if not within.missing:
            limit = site.say("tests.within", value=show(within.quantity, "s"))
            test = limited(test, limit, within, site.say("tests.data_sheet", file=sheet.file), "at most")
        found.append(test)
    return found


def _makers(site: Site) -> list[str]:
    """Names of what feeds the house: an inverter of its own, else every battery unit."""
    parts = site.installation.of_kind("battery", "inverter")
    own = [part for part in parts if not part.existing and part.kind == part.role]
    inverters = [part.name for part in own if part.kind == "inverter"]
    return inverters or [part.name for part in own]


def _direction(site: Site) -> DueTest:
    names = ("charge_unit", "charge_service", "discharge_unit", "discharge_service")
    readings = [
        Blank(told, "W")
        for name in names
        for told in of_each(_makers(site) if name.endswith("_unit") else [], site.say(f"tests.{name}"))
    ]
    return blank_test(site, "direction", "unit running", readings)


def _loss_of_grid(site: Site) -> list[DueTest]:
    mode = site.survey.job.backup.mode
    if mode in (None, "none"):
        stopped = of_each(_makers(site), site.say("tests.stopped_after"))
        return [blank_test(site, "stops", "unit running", [Blank(told, "s") for told in stopped])]
    pairs = PAIRS.get(site.survey.job.supply.system or "", SPLIT)
    lines = [Blank(pair, "V", limited=False) for pair in pairs if pair.endswith("–N")]
    blanks = [Blank(site.say("tests.back_after"), "s"), *lines]
    test = blank_test(site, "carries", "unit running", blanks)
    island = site.sheets.get("island_switch")
    if island is not None and island.has("switch.transfer_time"):
        time = island.fact("switch.transfer_time", "t", "s")
        limit = site.say("tests.within", value=show(time.quantity, "s"))
        test = limited(test, limit, time, site.say("tests.data_sheet", file=island.file), "at most")
    return [test]


def _settings(site: Site) -> list[DueTest]:
    """Every row of the settings sheet, before the unit is tried on the grid; none where there is no such sheet."""
    if not site.settings:
        return []
    return [blank_test(site, "settings", "unit running", [Blank(site.say("tests.rows_differ"), "")])]


def _return(site: Site) -> DueTest:
    """Not before the wait of the settings; where no book on the grid is adopted, the usual one."""
    test = blank_test(site, "return", "unit running", [Blank(site.say("tests.returned_after"), "s")])
    wait = next((each.value for each in site.settings if each.id in WAITS), None)
    if wait is None:
        wait = site.practice.number("return_delay")
    if wait.missing or wait.seen == "memory":
        return test  # what nobody could look up is no limit
    shown = site.say("tests.not_before", value=show(wait.quantity, "s"))
    return limited(test, shown, wait, ground(site, wait), "at least")


def _shutdown(site: Site) -> DueTest:
    stopped = of_each(_makers(site), site.say("tests.stopped_after"))
    return blank_test(site, "shutdown", "unit running", [Blank(told, "s") for told in stopped])


def _alarm(site: Site) -> list[DueTest]:
    """Of the detector nearest to a unit; none where units stand only outdoors, where there is none."""
    return [blank_test(site, "alarm", "unit running", [Blank(site.say("tests.heard_in"), "")])] if site.detector else []
