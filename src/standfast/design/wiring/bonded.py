"""Where a house of the NEC can have neutral and ground joined, and which of its switches open the neutral."""

from collections.abc import Iterator, Mapping

from standfast.design.installation import Installation
from standfast.design.installation.build import EMERGENCY, SERVICE, build
from standfast.design.installation.states import states
from standfast.design.wiring.bonds import Bonds, table
from standfast.design.wiring.material import Material
from standfast.design.wiring.neutral import Joint, Switching
from standfast.faults import BadFormula, NotInEdition
from standfast.sheet import Check, Value, cannot_tell, chosen, missing
from standfast.survey.joined import has_inverter, source_ids
from standfast.survey.sources import Generator

TITLE = "Neutral and ground are joined exactly once"


def bonds(task: Material, stays: Installation | None = None) -> Bonds:
    """The joints of neutral and ground in every state that the switches of the house can be in.

    Args:
        task: the job.
        stays: the installation that is asked about, where it is not the whole of the job: the house after a removal.
    """
    try:
        graph = build(task.job, task.sheets) if stays is None else stays
        found = table(
            task.nec, graph, states(task.job, task.sheets, graph), joints(task, graph),
            lambda state: opens(task, graph, state),
        )  # fmt: skip
        backup = _unswitched(task, graph) if stays is None else ()  # a house without its battery has none
        return found._replace(checks=(*found.checks, *backup))
    except (NotInEdition, BadFormula) as refusal:
        return Bonds((), (cannot_tell("wiring.neutral-bond", TITLE, task.nec.unheld(), str(refusal)),))


def _unswitched(task: Material, graph: Installation) -> Iterator[Check]:
    """Backup that is asked for, and nothing that parts it from the grid: what is joined then is not known."""
    if task.job.content.backup.mode in ("circuits", "whole house") and not graph.of_kind("transfer equipment"):
        first = next(iter(task.job.ids("panels")), "panel")
        need = f"panels.{first}.fed_through: what parts the backed-up circuits from the grid"
        clause = task.nec.clause("island_bond")
        yield cannot_tell("wiring.neutral-bond/island", f"{TITLE}: the grid is away", clause, need)


def joints(task: Material, graph: Installation) -> list[Joint]:
    """Every place where neutral and ground can be joined: outdoors, in panels, in units, in generators."""
    found = [*_outdoors(task), *_panels(task), *_units(task)]
    found += [_generator(task, each) for each in task.job.content.generators]
    return [each for each in found if each.part in graph.parts]


def opens(task: Material, graph: Installation, state: Switching) -> Mapping[str, Value]:
    """Of each switch that may open the neutral in a state, whether it does; breakers and disconnects never do.

    A generator's change-over opens it at the generator's breaker while that does not run, else at the switch that keeps
    the grid away.
    """
    switched = task.of("island_switch", "switch.neutral_switched", "switched")
    found = {part.id: switched for part in graph.of_kind("transfer equipment")}
    for each in graph.of_kind("generator"):
        fact = task.job.fact(f"generators.{each.id}.neutral_switched", "switched")
        sides = {part.id for part, _ in graph.beside(each.id) if part.kind == "breaker"}
        if each.id not in state.idle:
            sides = {part.id for grid in graph.of_kind("utility") for part in graph.path(each.id, grid.id)}
        found |= {id: fact for id in sides & state.opened if id not in found}
    return found


def _outdoors(task: Material) -> Iterator[Joint]:
    """A disconnect at the meter joins them where it is marked as the service disconnect."""
    where = task.job.fact("supply.emergency_disconnect", "emergency_disconnect")
    if where.number == "at the meter":
        mark = task.job.fact("supply.emergency_disconnect_mark", "mark")
        yes = not mark.missing and mark.word == "service disconnect"
        met = "one that is marked as the service disconnect joins them"
        yield Joint(EMERGENCY, "disconnect at the meter", chosen("bond_outdoors", yes, "", met, None, mark))
    elif where.missing:
        yield Joint(SERVICE, "disconnect at the meter", where)


def _panels(task: Material) -> Iterator[Joint]:
    for each in task.job.content.panels:
        joined = task.job.fact(f"panels.{each.id}.neutral_bonded", f"bond_{each.id.replace('-', '_')}")
        yield Joint(each.id, each.name or each.id, joined)


def _units(task: Material) -> Iterator[Joint]:
    """The relay of each unit, or of the inverter that stands by itself; where none has a neutral, no place at all."""
    if task.own("neutral", "neutral").number == "not used":
        return
    word = task.own("neutral_bond", "neutral_bond")
    for source in source_ids(task.job.content):
        part = source if has_inverter(task.job.content) else f"{source}/inverter"
        name = source.replace("-", " ") if part != source else "inverter"
        said = "" if word.missing else word.word
        yes = chosen("bond_unit", said in ("always", "while the grid is away"), "", f"joined: {said}", None, word)
        yield Joint(part, name, yes, "without the grid" if said in ("none", "while the grid is away") else "always")


def _generator(task: Material, generator: Generator) -> Joint:
    """The joint in a generator; one on an inlet is there only while it is plugged in."""
    path, name = f"generators.{generator.id}", generator.name or generator.id
    joined = task.job.fact(f"{path}.neutral_bonded", f"bond_{generator.id.replace('-', '_')}")
    if joined.missing or not joined.yes or generator.connection == "fixed":
        return Joint(generator.id, name, joined)
    if generator.connection == "inlet":
        return Joint(generator.id, name, joined, "while it runs")
    unsaid = task.job.fact(f"{path}.connection", "connection")
    return Joint(generator.id, name, missing(joined.symbol, "", unsaid.how, unsaid))
