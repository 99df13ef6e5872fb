"""The steps of the job that lay what conductors run in: raceways and cables, up to but not into what is live."""

from standfast.fieldwork.job_steps import DELIVERY, job_step
from standfast.fieldwork.plan import Laid, Plan, Run
from standfast.fieldwork.rows import counted
from standfast.fieldwork.sheet_steps import hung_first
from standfast.fieldwork.steps import WorkStep


def running(plan: Plan, mounted: list[str]) -> list[WorkStep]:
    """Raceways, up to but not into what is live. A run to a unit or inverter waits until all of them hang or stand."""
    steps = []
    for run in plan.runs:
        after = list(mounted)
        if "unit" in run.ends:
            after += [f"{each.id}.{id}" for each in plan.devices for id in hung_first(each.sheet)]
        steps.append(_run(plan, run, tuple(dict.fromkeys(after or [DELIVERY]))))
    for cable in plan.cables:
        after = list(mounted)
        if cable.unit:
            after += [f"{each.id}.{id}" for each in plan.devices for id in hung_first(each.sheet)]
        steps.append(_lay(plan, cable, tuple(dict.fromkeys(after or [DELIVERY]))))
    return steps


def _lay(plan: Plan, cable: Laid, after: tuple[str, ...]) -> WorkStep:
    """A cable along its route, up to but not into what is live."""
    kind = plan.said(cable.cable)
    areas = f"{counted(cable.area, plan.language)} + {counted(cable.protective, plan.language)}"
    return job_step(plan, f"job.run-{cable.id}", "run", after, key="lay", cable=kind, areas=areas, name=cable.name)


def _run(plan: Plan, run: Run, after: tuple[str, ...]) -> WorkStep:
    unknown = plan.say("common.not_known")
    raceway = unknown if run.raceway.missing else plan.say(f"materials.{run.raceway.word}")
    size = unknown if run.trade_size.missing else run.trade_size.word
    return job_step(plan, f"job.run-{run.id}", "run", after, key="run", raceway=raceway, size=size, name=run.name)
