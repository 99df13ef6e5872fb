"""The wiring of a metric job: everything that is built, and every check on it."""

from collections.abc import Callable, Iterator, Mapping
from functools import partial

from standfast.design.installation.build import way_up
from standfast.design.wiring.alone import Alone
from standfast.design.wiring.by_book import Electrical
from standfast.design.wiring.gaps import told
from standfast.design.wiring.metric import bonded, checks, circuits, demand, finals, readings
from standfast.design.wiring.metric.built import MetricCircuit, MetricWiring, Notification
from standfast.design.wiring.metric.circuits import Source
from standfast.design.wiring.metric.dialect import Dialect
from standfast.design.wiring.metric.question import JobFile, Question, SheetFile
from standfast.design.wiring.whole import Wiring
from standfast.faults import NotInEdition
from standfast.sheet import Check, cannot_tell
from standfast.shelf import Adoption


def electrical(adoption: Adoption, sheets: Mapping[str, SheetFile], dialect: Dialect) -> Electrical:
    """The electrical trades of a job under the rules of one country."""

    def asked(job: JobFile) -> Question:
        return Question(adoption, dialect, job, sheets)

    return Electrical(
        adoption.book(dialect.rules),
        lambda job, sights: wiring(asked(job)),
        lambda job: demand.load(asked(job)),
        lambda job, load: demand.backup(asked(job)),
        lambda job, stays: bonded.bonds(asked(job), stays),
    )


def wiring(q: Question) -> Wiring:
    """The wiring of a job as every room reads it."""
    found, joints = work_out(q), bonded.bonds(q)
    alone = Alone(joints, tuple(finals.clearing(q, each) for each in found.finals))
    return Wiring((), (), (), {}, (*found.checks, *joints.checks), alone=alone, metric=found)


def work_out(q: Question) -> MetricWiring:
    """Work out the circuits of a metric job, and check them.

    Args:
        q: the question.

    Raises:
        NotInEdition: where the edition lacks what all of it hangs on.
    """
    every = circuits.sources(q)
    built = tuple(circuits.all_of(q))
    carried = tuple(finals.carried(q, built))
    panels = dict.fromkeys(each for source in every if source.panel for each in way_up(q.job, source.panel))
    assemblies = {each: checks.assembly(q, each, every) for each in panels}
    found = MetricWiring(built, carried, assemblies, _notification(q), ())
    return found._replace(checks=tuple(_checks(q, found, every)), readings=tuple(readings.due(q, found)))


def _notification(q: Question) -> Notification | None:
    try:
        return q.dialect.notification(q)
    except NotInEdition:
        return None


def _checks(q: Question, found: MetricWiring, every: list[Source]) -> Iterator[Check]:
    for source in every:
        if source.added and not source.panel:
            yield _unjoined(q, source)
    for made in found.circuits:
        asked = partial(checks.of_circuit, q, made, _at(q, made), every)
        yield from _told(q, f"wiring.unstated-circuit/{made.id}", made.title, asked)
    yield from _told(
        q, "wiring.unstated-assembly", "Rated current of the panels",
        lambda: (checks.of_assembly(q, panel, least) for panel, least in found.assemblies.items()),
    )  # fmt: skip
    yield from _told(q, "wiring.unstated-finals", "Circuits carried without the grid",
                     lambda: finals.checks(q, found.finals))  # fmt: skip
    yield from _told(q, "wiring.unstated-country", f"Rules of {q.dialect.name} alone", lambda: q.dialect.more(q, found))


def _told(q: Question, id: str, title: str, ask: Callable[[], Iterator[Check]]) -> Iterator[Check]:
    yield from told(q.rules, id, title, ask())


def _unjoined(q: Question, source: Source) -> Check:
    need = f"routes: the runs between {source.id} and its panel"
    return cannot_tell(f"wiring.route/{source.id}", "Way of the unit's circuit to its panel", q.clause("current"), need)


def _at(q: Question, made: MetricCircuit) -> str:
    """Where the job writes the device of a circuit; empty where it does not."""
    listed = q.circuit_of(made.id)
    if listed is not None:
        return f"panels.{listed[0]}.circuits.{listed[1].id}"
    there = any(each.id == made.panel for each in q.job.content.panels)
    mine = there and any(each.id == made.id for each in q.panel(made.panel).circuits)
    return f"panels.{made.panel}.circuits.{made.id}" if mine else ""
