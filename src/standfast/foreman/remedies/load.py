"""Ladders of the service load: a listed limit of charging, a larger service."""

from collections.abc import Iterator

from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import fewer, parts
from standfast.foreman.remedies.busbars import BUSBARS
from standfast.foreman.remedies.change import Change, Ladder, ladder, one
from standfast.reading.positions import Path
from standfast.reading.quantities import amount
from standfast.sheet import Check
from standfast.survey.joined import has_inverter

STEP_A = 5
"""Steps in which a control is set. No verdict rests on it."""


def limit(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """The control that stops charging set lower; nothing where no listed control is known."""
    job = plan.survey.job
    maker = plan.sheets["inverter" if has_inverter(job) else "battery"]
    listed = maker.fact("electrical.charge_limit_listed", "listed").number is True
    if not (listed or job.loads.charging_control is not None) or job.supply.service is None:
        return
    most = job.loads.charging_limit or job.supply.service
    start = int(amount(most, "A")) // STEP_A * STEP_A - (STEP_A if job.loads.charging_limit is not None else 0)
    steps = range(start, 0, -STEP_A)
    says = "set the listed control so that charging stops at {} A of service current"
    yield ladder((one(says.format(each), (("loads", "charging_limit"), f"{each} A")) for each in steps), rising=True)


def service(plan: JobPlan, _: Check) -> Iterator[Ladder]:
    """A larger service, with its panel: the utility has to agree, and its fault current has to be asked anew."""
    job = plan.survey.job
    found = next((each for each in parts.panels(plan) if each[1].fed_from == "utility"), None)
    if job.supply.service is None or found is None:
        return
    have, top, new = amount(job.supply.service, "A"), found[0], parts.as_new(plan, *found)

    def raised(amps: int) -> Change:
        text = f"{amps} A"
        at_service: list[Path] = [("supply", "service"), ("supply", "main"), ("supply", "busbar")]
        words = [*at_service, (*top, "main"), (*top, "busbar")]
        says = f"have the service raised to {amps} A, with a panel and conductors for it"
        return one(says, *((word, text) for word in words), *new)

    yield ladder((raised(each) for each in BUSBARS if each > have), rising=True)


WAYS = (
    ("load.", (limit, fewer.units, service)),
    ("wiring.service-rating", (service,)),
)
"""The least change first."""
