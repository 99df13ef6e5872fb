"""The electrodes that a job puts in the ground."""

from typing import NamedTuple

from standfast.fieldwork.plan import Plan


class Earth(NamedTuple):
    """An electrode that this job puts in the ground: its name in ids, what it is called, the part it is joined to."""

    slug: str
    name: str
    joined: str


def electrodes(plan: Plan) -> list[Earth]:
    """Those of panels in other buildings that have none, and that of the house for the time without the grid."""
    graph, found = plan.installation, list[Earth]()
    for part in graph.of_kind("electrode"):
        if not part.existing:
            found.append(Earth(part.id.replace("/", "-"), part.name, part.id.partition("/")[0]))
    if plan.survey.job.backup.own_electrode:
        switches = [part for part in graph.of_kind("transfer equipment") if not part.existing]
        at = switches or [part for part in graph.of_kind("busbar") if not part.existing] or graph.of_kind("busbar")
        found.append(Earth("own", plan.say("order.own_electrode"), at[0].id))
    return found
