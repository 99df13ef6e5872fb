"""Residual current devices in a row, from the supply to the circuits of the house and of its sources."""

from collections.abc import Iterator

from standfast.design.installation.build import feeders, way_up
from standfast.design.wiring.metric.question import Question
from standfast.rulebooks.bs7671 import residual
from standfast.sheet import Check, worst
from standfast.survey.joined import source_ids
from standfast.survey.power import Circuit


def checks(q: Question) -> Iterator[Check]:
    """Of every feeder with a residual device: it sees what sources leak beyond it, and trips after those beyond it."""
    fed = feeders(q.job)
    for panel, (above, feeder) in fed.items():
        if feeder.residual is None:
            continue
        path, name = f"panels.{above}.circuits.{feeder.id}.residual", feeder.name or feeder.id
        below = [each.id for each in q.job.content.panels if panel in way_up(q.job, each.id)]
        if _sources_in(q, below):
            title = f"{name}: its residual device is not blinded by what the inverter leaks"
            asked, kind = q.own("residual_device", "type_asked"), q.job.fact(f"{path}.type", "type")
            yield residual.upstream(q.rules, f"wiring.residual-upstream/{feeder.id}", title, kind, asked)
        yield from _selective(q, feeder, path, below, {each.id for _, each in fed.values()})


def _sources_in(q: Question, panels: list[str]) -> list[str]:
    """The sources that this job adds on some panels."""
    found = {source: q.circuit_of(source) for source in source_ids(q.job.content)}
    return [source for source, at in found.items() if at is not None and at[0] in panels]


def _selective(q: Question, feeder: Circuit, path: str, below: list[str], between: set[str]) -> Iterator[Check]:
    """The device of a feeder against the greatest of the circuits beyond it."""
    beyond = [
        (panel.id, each)
        for panel in q.job.content.panels
        if panel.id in below
        for each in panel.circuits
        if each.residual is not None and each.id not in between
    ]
    if not beyond:
        return
    rated = [
        q.job.fact(f"panels.{panel}.circuits.{each.id}.residual.rated", f"I_dn_{each.id.replace('-', '_')}", "A")
        for panel, each in beyond
    ]
    title = f"{feeder.name or feeder.id}: its residual device leaves a fault beyond it to the device there"
    above, delayed = q.job.fact(f"{path}.rated", "I_dn_above", "A"), q.job.fact(f"{path}.delayed", "delayed")
    id, most = f"wiring.residual-selective/{feeder.id}", worst("I_dn_below", rated, "max")
    yield residual.selective(q.rules, id, title, above, delayed, most)
