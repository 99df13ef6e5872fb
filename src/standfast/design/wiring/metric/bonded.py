"""Joints of neutral and earth of a metric house in every state of its switches: the one of the supply, and its own."""

from collections.abc import Iterator

from standfast.design.installation.build import UTILITY, build
from standfast.design.installation.graph import Installation
from standfast.design.installation.states import states
from standfast.design.wiring.bonds import Bonds, table
from standfast.design.wiring.metric.question import Question
from standfast.design.wiring.neutral import Joint
from standfast.faults import BadFormula, NotInEdition
from standfast.sheet import Value, cannot_tell, chosen
from standfast.survey.joined import has_inverter, source_ids

TITLE = "Neutral and earth are joined exactly once"


def bonds(q: Question, stays: Installation | None = None) -> Bonds:
    """The joints in every state that the switches of the house can be in; of `stays` where that is given."""
    clause = q.rules.unheld()
    try:
        clause = q.clause("service_bond")
        graph = build(q.job, q.sheets) if stays is None else stays
        switched = q.of("island_switch", "switch.neutral_switched", "switched")
        opens = {part.id: switched for part in graph.of_kind("transfer equipment")}
        every = states(q.job, q.sheets, graph)
        return table(q.rules, graph, every, list(_joints(q, graph)), lambda state: opens, ground="earth")
    except (NotInEdition, BadFormula) as refusal:
        return Bonds((), (cannot_tell("wiring.neutral-bond", TITLE, clause, str(refusal)),))


def _joints(q: Question, graph: Installation) -> Iterator[Joint]:
    """That of the distributor, those in panels, and the relay of each unit or of the inverter."""
    yield Joint(UTILITY, "the distributor's", _of_supply(q))
    for each in q.job.content.panels:
        path = f"panels.{each.id}.neutral_bonded"
        yield Joint(each.id, each.name or each.id, q.job.fact(path, f"bond_{each.id.replace('-', '_')}"))
    word = q.own("neutral_bond", "neutral_bond")
    for source in source_ids(q.job.content):
        part = source if has_inverter(q.job.content) else f"{source}/inverter"
        said = "" if word.missing else word.word
        yes = chosen("bond_unit", said in ("always", "while the grid is away"), "", f"joined: {said}", None, word)
        if part in graph.parts:
            name = source.replace("-", " ") if part != source else "inverter"
            yield Joint(part, name, yes, "without the grid" if said in ("none", "while the grid is away") else "always")


def _of_supply(q: Question) -> Value:
    """Every public supply has its neutral earthed; where the main earthing terminal of the house is joined to it in the
    house itself, the panel says so and it is not counted twice."""
    earthing = q.job.fact("supply.earthing", "earthing")
    if earthing.missing:
        return chosen("bond_supply", False, "", "", None, earthing)
    outside = earthing.word != "multiple earthed neutral"
    how = "its neutral is earthed before the house" if outside else "neutral and earth are joined in the main board"
    return chosen("bond_supply", outside, "", f"{earthing.word}: {how}", None, earthing)
