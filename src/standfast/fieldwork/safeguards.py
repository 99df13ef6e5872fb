"""What the design asks round the units: a detector, a barrier against vehicles, an electrode; each only where asked.

The rows of the bill of materials say what is put up; a step stands here for each of them.
"""

from standfast.fieldwork import fronts, places
from standfast.fieldwork.electrodes import Earth, electrodes
from standfast.fieldwork.fixings import barrier_rows, detection_rows
from standfast.fieldwork.job_steps import DELIVERY, DUST, INSULATION, job_step
from standfast.fieldwork.making_dead import entered
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.sheet_steps import hung_first
from standfast.fieldwork.steps import Reading, WorkStep

BARRIER, ELECTRODE = "job.barrier", "grounding electrode"


def detector_id(room: str) -> str:
    """Id of the step that puts up the detector of a room."""
    return f"job.detector-{room}"


def electrode_id(slug: str) -> str:
    """Id of the step that puts an electrode in the ground."""
    return f"job.electrode-{slug}"


def put_up(plan: Plan) -> list[WorkStep]:
    """Detectors, the barrier, and electrodes in the ground."""
    return [*_detectors(plan), *_barrier(plan), *(_electrode(plan, each) for each in electrodes(plan))]


def joined(plan: Plan) -> list[WorkStep]:
    """The conductors of electrodes, joined while everything is dead."""
    return [_joined(plan, each) for each in electrodes(plan)]


def _detectors(plan: Plan) -> list[WorkStep]:
    steps = []
    for row in detection_rows(plan):
        step = job_step(
            plan, detector_id(row.of[0]), "fix", (DUST,), key="detector", what=row.what, use=row.use, room=row.of[0]
        )
        seen = Reading(plan.say("order.detector_seen"), "", ticked=True)
        steps.append(step._replace(readings=(seen,), cautions=(plan.say("order.detector_caution"),)))
    return steps


def _barrier(plan: Plan) -> list[WorkStep]:
    """After the units, which come past it: at the strip that a vehicle can reach."""
    rows = barrier_rows(plan)
    if not rows:
        return []
    walls = {wall.id: wall.vehicle_path for wall in plan.survey.job.walls if wall.id in rows[0].of}
    strips = [plan.say("order.barrier_strip", wall=id, left=path.left.text, right=path.right.text)
              for id, path in walls.items() if path is not None]  # fmt: skip
    strip = "; ".join(strips) or plan.say("order.barrier_unknown")
    hung = tuple(f"{each.id}.{id}" for each in plan.devices for id in hung_first(each.sheet))
    step = job_step(plan, BARRIER, "hang", hung or (DUST,), key="barrier", what=rows[0].what, strip=strip)
    return [step._replace(cautions=(plan.say("order.barrier_caution"),), evidence=(plan.say("order.keep_photo"),))]


def _electrode(plan: Plan, each: Earth) -> WorkStep:
    at = places.on_site_plan(plan, ELECTRODE) if each.slug == "own" else ""
    place = at or plan.say("order.electrode_place")
    step = job_step(plan, electrode_id(each.slug), "fix", (DELIVERY,), key="electrode", name=each.name, place=place)
    read = Reading(plan.say("order.electrode_ohm", name=each.name), "Ω")
    return step._replace(cautions=(plan.say("order.electrode_caution"),), readings=(read,))


def _joined(plan: Plan, each: Earth) -> WorkStep:
    at = plan.installation.parts[each.joined]
    step = job_step(
        plan, f"job.join-electrode-{each.slug}", "connect", (INSULATION, electrode_id(each.slug)),
        key="join_electrode", name=each.name, at=at.name,
    )  # fmt: skip
    return step._replace(hands=True, touches=entered(plan, at.id), behind=fronts.behind(plan, (at.id,)))
