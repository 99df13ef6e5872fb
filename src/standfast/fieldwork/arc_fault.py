"""Circuits that get a breaker with arc-fault protection: where it stands, and which of them move with the job."""

from standfast.fieldwork.plan import Plan
from standfast.survey.power import Circuit

ARC_FAULT = "existing-arc-fault-"
"""Beginning of the names of work that puts in a breaker with arc-fault protection; the circuit follows."""


def protected(plan: Plan) -> list[Circuit]:
    """The circuits that get a breaker with arc-fault protection."""
    ids = {extra.id.removeprefix(ARC_FAULT) for extra in plan.extras if extra.id.startswith(ARC_FAULT)}
    return [circuit for panel in plan.survey.job.panels for circuit in panel.circuits if circuit.id in ids]


def moved(plan: Plan) -> list[Circuit]:
    """Those of them that were there before and move to a new panel: they land on that breaker at once."""
    here = [circuit for panel in plan.survey.job.panels if panel.state == "new" for circuit in panel.circuits]
    new = {circuit.id for circuit in here if circuit.state == "existing"}
    return [circuit for circuit in protected(plan) if circuit.id in new]
