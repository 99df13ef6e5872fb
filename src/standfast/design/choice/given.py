"""What the job file states beforehand: it was not chosen, and what is proven holds with it as it is."""

from collections.abc import Iterator

from standfast.design.choice.options import breaker_path
from standfast.design.wiring.whole import Wiring
from standfast.survey.read import Survey


def given(job: Survey, made: Wiring) -> tuple[str, ...]:
    """Breakers, metals, sizes, parallel sets and kinds of raceway that the job states for new circuits, in words."""
    return tuple(dict.fromkeys((*_breakers(job, made), *_runs(job, made))))


def _breakers(job: Survey, made: Wiring) -> Iterator[str]:
    for source in made.units:
        path = breaker_path(job, source)
        if path and job.has(path):
            yield f"the breaker of {source.id} ({source.breaker.quantity:g} A)"


def _runs(job: Survey, made: Wiring) -> Iterator[str]:
    routes = [tube.run.id for circuit in made.circuits for tube in circuit.raceways if tube.run.new]
    words = {"conductors.material": "metal of conductors", "conductors.size": "size of conductors",
             "conductors.sets": "parallel sets", "raceway": "kind of raceway"}  # fmt: skip
    for word, name in words.items():
        stated = list(dict.fromkeys(id for id in routes if job.has(f"routes.{id}.{word}")))
        if stated:
            yield f"the {name} of {', '.join(stated)}"
