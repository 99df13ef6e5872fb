"""Work on the existing house that is done with the job: adders that the owner agreed to, and known defects."""

from collections.abc import Iterable, Iterator

from standfast.design.knock_on.parts import IDS
from standfast.design.knock_on.whole import Row
from standfast.fieldwork import fronts
from standfast.fieldwork.arc_fault import ARC_FAULT, moved
from standfast.fieldwork.isolation import isolations
from standfast.fieldwork.job_steps import DEAD, DELIVERY, RESTORE
from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Extra, Plan
from standfast.fieldwork.steps import WorkStep
from standfast.sheet import chosen
from standfast.survey.existing import Adder
from standfast.survey.model import Job
from standfast.survey.power import Panel

ALARMS = ("smoke_alarms", "carbon_monoxide_alarms")
TRACED = "circuit_directory"
"""Is found out and written with the power on, when everything is connected."""
DONE = ("with this job", "made safe")


def extras(job: Job, rows: Iterable[Row]) -> Iterator[Extra]:
    """What is done to the existing house, place by place.

    Args:
        job: the job file.
        rows: the knock-on list.
    """
    met = set()
    for row in rows:
        if row.adder is not None and row.adder.accepted and _meant(row, row.adder):
            met.add(row.adder.id)
            yield Extra(row.asked.id.replace(".", "-").replace("/", "-"), row.asked.key, row.asked.where)
    names = {panel.id: panel.name or panel.id for panel in job.panels}
    names |= {circuit.id: circuit.name or circuit.id for panel in job.panels for circuit in panel.circuits}
    for adder in job.adders:  # agreed to although nothing asks it
        if adder.accepted and adder.id not in met:
            where = "" if adder.at is None else names.get(adder.at, adder.at)
            yield Extra(f"existing-offer-{adder.id}", IDS[adder.what].replace("-", "_"), where)
    for defect in job.defects:
        if defect.action in DONE:
            key = "safe" if defect.action == "made safe" else "mend"
            yield Extra(f"existing-defect-{defect.id}", key, defect.where, defect.what)


def _meant(row: Row, adder: Adder) -> bool:
    """True where an offer means this place: it names it, or there is one place only, or the part lacks there."""
    return adder.at is not None or not row.asked.at or row.state == "done with this job"


def steps(plan: Plan) -> list[WorkStep]:
    """A step for each: alarms when the delivery is checked, what is wired when everything is dead.

    A breaker with arc-fault protection for a circuit that moves to a new panel has none: the circuit lands on it there.
    """
    photo, landed = (plan.say("order.keep_photo"),), {f"{ARC_FAULT}{circuit.id}" for circuit in moved(plan)}
    return [_step(plan, each)._replace(evidence=photo) for each in plan.extras if each.id not in landed]


def _step(plan: Plan, extra: Extra) -> WorkStep:
    text = _sentence(plan.say(f"existing.{extra.key}", where=_where(plan, extra), what=extra.what))
    if extra.key in ALARMS:
        return WorkStep(f"job.{extra.id}", "fix", text, (DELIVERY,), "job")
    if extra.key == TRACED:
        return WorkStep(f"job.{extra.id}", "prove", text, (RESTORE,), "job")
    return WorkStep(
        f"job.{extra.id}", "connect", text, (DEAD,), "job", hands=True, touches=_opened(plan), behind=_bare(plan)
    )


def _opened(plan: Plan) -> tuple[str, ...]:
    """The terminals of every panel that is opened."""
    return tuple(dict.fromkeys(name for each in isolations(plan) if not each.direct for name in each.terminals))


def _bare(plan: Plan) -> tuple[str, ...]:
    """Their fronts."""
    return fronts.behind(plan, (each.id for each in isolations(plan) if not each.direct))


def material_rows(plan: Plan) -> list[Material]:
    """What is brought for each, how many is counted on the spot; and what new panels have by the design."""
    rows = [_surge(plan, panel) for panel in plan.survey.job.panels if panel.state == "new" and panel.surge_protection]
    for extra in plan.extras:
        one = chosen("n", 1.0, "1", "the owner agreed to it", None)
        what, use = plan.say(f"existing.bring_{extra.key}"), _where(plan, extra)
        if extra.what:
            use = f"{use}: {extra.what}"
        amount = plan.say("common.count_on_site")
        rows.append(material("existing house", what, one, use, plan.language, amount, (extra.id,)))
    return rows


def _surge(plan: Plan, panel: Panel) -> Material:
    one = chosen("n", 1.0, "1", f"panel {panel.id} is new and has one", None)
    what = plan.say("existing.bring_surge_protection")
    return material("switchgear", what, one, panel.name or panel.id, plan.language, of=(panel.id,))


def _where(plan: Plan, extra: Extra) -> str:
    return extra.where or plan.say("existing.everywhere")


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:].rstrip('.')}."
