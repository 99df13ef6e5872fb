"""The steps of the work as acts: each change of a switch by itself, hands and proofs by terminals."""

from collections.abc import Iterator, Sequence

from standfast.fieldwork.order.acts import Act, Acts
from standfast.fieldwork.steps import WorkStep


def acts_of(steps: Sequence[WorkStep]) -> Acts:
    """The acts of the steps.

    A step that turns several switches is as many acts, one after the other; the last has the name of the step, so that
    what waits for the step waits for all of it.

    Raises:
        BadFormula: as `Acts`.
    """
    return Acts(act for step in steps for act in _acts(step))


def step_of(act: str) -> str:
    """The step that an act belongs to."""
    return act.partition("#")[0]


def _acts(step: WorkStep) -> Iterator[Act]:
    turns = list(step.turns)
    first = Act(
        f"{step.id}#0" if turns else step.id, step.after, touches=tuple(dict.fromkeys(step.touches)),
        uncovers=step.takes_off, covers=step.puts_on, reaches=step.behind,
        shut=step.shut, clears=step.clears, tightens=step.tightens, fits=step.fits,
    )  # fmt: skip
    proves, waits = step.proves, step.waited
    if waits and proves and not turns:  # nobody proves before the wait is over
        yield first._replace(id=f"{step.id}#0", waits=waits)
        yield Act(step.id, (f"{step.id}#0",), proves=proves, groups=step.groups)
        return
    if not turns:
        yield first._replace(proves=proves, waits=waits, groups=step.groups)
        return
    yield first
    for number, turn in enumerate(turns, 1):
        done = number == len(turns)
        id, before = step.id if done else f"{step.id}#{number}", f"{step.id}#{number - 1}"
        act = Act(id, (before,), gate=turn.gate, change=turn.change)
        act = act._replace(groups=step.groups)
        yield act._replace(proves=proves, waits=waits) if done else act
