"""A generator that can feed the house: kept apart from the grid, its conductors, its breaker, what it has to carry."""

from collections.abc import Iterator

from standfast.design.wiring import conductor, ends, feeder_load, runs
from standfast.design.wiring.material import Material
from standfast.design.wiring.sources_together import Together, alone
from standfast.rulebooks.nfpa70 import busbars, standby
from standfast.sheet import Check, Value, at_most, cannot_tell, chosen, is_, missing, not_applicable, one_of, work
from standfast.survey.power import Circuit
from standfast.survey.sources import Generator

BESIDE = "inverters beside it are switched off first, unless their makers and that of the generator allow both together"
INLET = (
    "where it is plugged in, the sign at the inlet says what may be plugged in, and whether its neutral is joined "
    "to its frame (702.7(C))"
)


def checks(task: Material, found: Together) -> Iterator[Check]:
    """Every generator of the job.

    Args:
        task: the job.
        found: what runs together in the house.
    """
    for generator in task.job.content.generators:
        yield _apart(task, generator)
        fed = next(
            ((panel.id, each) for panel in task.job.content.panels for each in panel.circuits
             if each.feeds == generator.id), None,
        )  # fmt: skip
        if fed is not None:
            yield from _of(task, found, generator, *fed)


def _apart(task: Material, generator: Generator) -> Check:
    """Nothing lets it and the grid be joined at one time."""
    id, title = f"wiring.generator-interlock/{generator.id}", f"{_name(generator)} and the grid are kept apart"
    clause = task.nec.clause("transfer_equipment")
    kept = task.job.fact(f"generators.{generator.id}.interlocked", "interlocked")
    yes = chosen("needed", True, "", "sources that are not made for running in parallel are never joined", clause)
    connection = task.job.fact(f"generators.{generator.id}.connection", "connection")
    return is_(id, title, clause, kept, yes, condition="" if connection.number == "fixed" else INLET)


def _of(task: Material, found: Together, generator: Generator, panel: str, circuit: Circuit) -> Iterator[Check]:
    fact, id = task.job.fact, generator.id
    output = fact(f"generators.{id}.output", "I_gen", "A")
    breaker = fact(f"panels.{panel}.circuits.{circuit.id}.breaker", "I_n", "A")
    yield _busbar(task, found, generator, panel, breaker)
    usable = _usable(task, generator, panel, breaker)
    if usable is not None:
        yield standby.conductors(task.nec, f"wiring.generator-conductors/{id}", usable, output)
        title, clause = f"Conductors of {_name(generator)}: their breaker", task.nec.clause("conductor_protection")
        yield at_most(f"wiring.generator-protection/{id}", title, clause, breaker, usable)
    yield _load(task, generator, panel, output)
    if circuit.state == "new":
        title, clause = f"Breaker of {_name(generator)} is fastened in the panel", task.nec.clause("backfed_fastening")
        held = task.of("breaker", "switch.held", "held")
        yield one_of(f"wiring.generator-held/{id}", title, clause, held, task.nec.number("fastened_breakers"))


def _busbar(task: Material, found: Together, generator: Generator, panel: str, breaker: Value) -> Check:
    """While it feeds in place of the grid, its breaker stands for the main; inverters that run with it come on top."""
    id, title = f"wiring.generator-busbar/{generator.id}", f"Busbar of {panel} while {_name(generator)} feeds it"
    outputs = [_beside(found, *each) for each in sorted(alone(found, panel).items())]
    if found.graph is None:
        outputs = [missing("I_out", "A", found.refused)]
    clause = task.nec.clause("source_busbar")
    sources = busbars.sources_125(task.nec, outputs)
    carried = work("I_sum", "I_n + I_src", "A", clause, sources, I_n=breaker)
    bus, beside = task.job.fact(f"panels.{panel}.busbar", "I_bus", "A"), BESIDE if outputs else ""
    return at_most(id, title, clause, carried, bus, condition=beside)


def _beside(found: Together, inverter: str, hangs_on: tuple[Value, ...]) -> Value:
    """Output in A of an inverter that runs beside a generator; missing where nobody knows whether it does."""
    if hangs_on or found.graph is None:
        return missing("I_out", "A", "; ".join(each.how for each in hangs_on), *hangs_on)
    need = f"the data sheet of {found.graph.parts[inverter].name}: electrical.output_current"
    return found.graph.parts[inverter].facts.get("output_current", missing("I_out", "A", need))


def _load(task: Material, generator: Generator, panel: str, output: Value) -> Check:
    id, fact = f"wiring.generator-load/{generator.id}", task.job.fact
    by_itself = fact(f"generators.{generator.id}.starts_by_itself", "by_itself")
    title = f"What {_name(generator)} carries"
    if by_itself.missing:
        return cannot_tell(id, title, task.nec.clause("standby_capacity"), by_itself.how, by_itself)
    if by_itself.yes:
        return standby.automatic(task.nec, id, output, feeder_load.connected(task, panel))
    why = "a person starts it and chooses what it carries"
    return not_applicable(id, title, task.nec.clause("standby_manual"), why)


def _usable(task: Material, generator: Generator, panel: str, breaker: Value) -> Value | None:
    """Ampacity in A of its conductors; None where it was there before and no route tells of them."""
    ways = runs.between(task, panel, [generator.id])
    if not ways:
        need = f"routes: the run from {panel} to {generator.id}, with the size of its conductors"
        return missing("I_use", "A", need) if generator.state == "new" else None
    run = ways[0]
    if run.size is None or run.material is None:
        return missing("I_use", "A", f"routes.{run.id}.conductors: size and material")
    column = ends.column(task.nec, breaker, [ends.of_panel(task, panel)])
    own = chosen("n_own", 2.0, "1", "both lines; its neutral carries what they do not share", None)
    where = conductor.conditions(task.nec, column, own, ways, ["cu"])._replace(material=run.material)
    return conductor.carried_or_missing(task.nec, where, run.size).usable


def _name(generator: Generator) -> str:
    return f"the {(generator.name or generator.id).lower()}"
