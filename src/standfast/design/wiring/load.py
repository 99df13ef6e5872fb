"""Load of the service with the battery: what the house takes, what charging adds, what the service carries.

The battery's charging is a load that runs for hours, so it is counted as continuous and in full beside the method's
demand: no method gives a factor for it. Only a listed control that watches the service current takes it out; then the
setting of the control counts as a continuous load where it is more than the house without the battery.
"""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from standfast.design.installation.build import JobFile, SheetFile
from standfast.design.wiring import appliances, controls, unbalance
from standfast.design.wiring.gaps import told
from standfast.design.wiring.house import House, Row, house_load, surveyed
from standfast.design.wiring.standard_named import standard_named
from standfast.faults import Refusal
from standfast.rulebooks.nfpa70 import loads
from standfast.sheet import (
    Check,
    Value,
    at_least,
    at_most,
    attempt,
    chosen,
    given,
    is_,
    missing,
    settle,
    total,
    work,
    worst,
)
from standfast.shelf import Edition
from standfast.survey.joined import has_inverter, source_ids

CONTROL_SHOWN = "the listing of the control that the job file names is in the set and the authority accepts it"


class LoadSheet(NamedTuple):
    """The load calculation of the service.

    Attributes:
        title: name of the method, with its clause.
        rows: lines of the sheet, in the order they are added up.
        house: current in A without the battery.
        needed: current in A that the service has to carry.
        checks: verdicts.
    """

    title: str
    rows: tuple[Row, ...]
    house: Value
    needed: Value
    checks: tuple[Check, ...]


def service_load(book: Edition, job: JobFile, sheets: Mapping[str, SheetFile]) -> LoadSheet:
    """The load of the service by the method that the job names, with the battery's charging.

    Args:
        book: NFPA 70 in force.
        job: the job file.
        sheets: data sheets by role; ``battery`` must be there, and ``inverter`` where one is chosen.
    """
    house = _house(book, job)
    service = job.fact("supply.service", "I_service", "A")
    charging = attempt("I_charging", "A", lambda: charging_current(book, job, speaker(job, sheets)))
    limited, listed = _control(book, job, speaker(job, sheets))
    settings = [setting for _, setting in controls.of_service(job)]
    held = limited is not None and listed.number is True
    if limited is not None and held:
        settings.append(limited)
    if held or any(controls.holding(job, each) is not None for each in source_ids(job.content)):
        extra, base = list[Row](), house.current  # the control stops the charging: its setting stands for it
    else:
        extra = [Row("Battery charging, counted as a continuous load", charging)]
        base = attempt("I_needed", "A", lambda: total(
            "I_needed", [house.current, charging], "A", book.clause("service_continuous")
        ))  # fmt: skip
    continuous = [_continuous(book, each) for each in settings]
    extra += [
        Row("Setting of the listed control that stops what it holds, counted as continuous", each)
        for each in continuous
    ]
    needed = worst("I_needed", [base, *continuous], "max", book.clause("controlled_load")) if continuous else base
    rows = (
        *house.rows,
        Row("House without the battery", house.current),
        *extra,
        Row("The service has to carry", needed),
        Row("Rating of the service", service),
        Row("Neutral of the service, by the greatest imbalance", unbalance.of_house(book, job)),
    )
    none = chosen("n_least", 0.0, "1", "none is an answer too", house.clause)
    title = "The appliances of the dwelling are listed"
    checks = [*house.checks, at_least("load.surveyed-appliances", title, house.clause, surveyed(job), none)]
    checks += told(book, "load.unstated-appliances", "Appliances of the calculation", _listed(book, job))
    if limited is not None:
        checks.append(_control_check(book, listed, job))
    if job.content.controls:
        checks += told(book, "load.unstated-controls", "Controls of the service", controls.of_load(book, job))
    checks.append(
        at_most(
            "load.service",
            "The service carries the house and the charging of the battery",
            house.clause,
            needed,
            service,
        )
    )
    checks += told(book, "load.unstated-least", "Least rating of the service", _least(book, service))
    return LoadSheet(house.title, rows, house.current, needed, tuple(checks))


def _listed(book: Edition, job: JobFile) -> Iterator[Check]:
    yield appliances.listed(book, job)


def _continuous(book: Edition, setting: Value) -> Value:
    """The setting of a control in A, as the continuous load that it counts for."""
    clause, factor = book.clause("controlled_load"), book.number("continuous_factor")
    return work("I_set_cont", "k_cont * I_set", "A", clause, factor, I_set=setting)


def charging_current(book: Edition, job: JobFile, sheet: SheetFile) -> Value:
    """Current in A that the charging of all units counts for, as a continuous load.

    Args:
        book: NFPA 70 in force.
        job: the job file.
        sheet: what charges: the battery unit, or the inverter that stands by itself.
    """
    current = sheet.fact("electrical.charge_current", "I_charge", "A")
    factor, clause = book.number("continuous_factor"), book.clause("service_continuous")
    return work("I_charging", "k_cont * n_units * I_charge", "A", clause, factor, sources(job), current)


def sources(job: JobFile) -> Value:
    """How many AC sources the job adds: its units, or the one inverter that they are joined to."""
    if has_inverter(job.content):
        return chosen("n_units", 1.0, "1", "one inverter, to which the batteries are joined", None)
    return job.fact("equipment.quantity", "n_units", "1")


def speaker(job: JobFile, sheets: Mapping[str, SheetFile]) -> SheetFile:
    """The sheet that speaks for the AC side: of the inverter where one is chosen, else of the battery unit."""
    return sheets["inverter" if has_inverter(job.content) else "battery"]


def _house(book: Edition, job: JobFile) -> House:
    try:
        return house_load(book, job)
    except Refusal as refusal:
        current = missing("I_house", "A", str(refusal))
        return House("Load calculation", (), current, book.clause("standard_load"), ())


def _control(book: Edition, job: JobFile, battery: SheetFile) -> tuple[Value | None, Value]:
    """The setting of a control that limits charging, and whether its listing is known."""
    listed = battery.fact("electrical.charge_limit_listed", "listed", "")
    if not job.has("loads.charging_limit"):
        return None, listed
    setting = job.fact("loads.charging_limit", "I_set", "A")
    if listed.number is not True and job.has("loads.charging_control"):
        named = standard_named(job, "loads.charging_control")
        listed = chosen("listed", True, "", "the job file names the listing", book.clause("controlled_load"), named)
    return setting, listed


def _control_check(book: Edition, listed: Value, job: JobFile) -> Check:
    id, title = "load.charging-control", "The control that limits charging is listed for it"
    condition = CONTROL_SHOWN if listed.kind == "chosen" else ""
    wanted = given("listed_needed", True, "", "a control that is not listed counts for nothing")
    return is_(id, title, book.clause("controlled_load"), listed, wanted, condition=condition)


def _least(book: Edition, service: Value) -> Iterator[Check]:
    id, title, clause = (
        "load.service-least",
        "The service is not under the least of a one-family dwelling",
        "service_least",
    )
    yield settle(
        id,
        title,
        book.clause(clause),
        lambda: at_least(id, title, book.clause(clause), service, loads.service_least(book)),
    )
