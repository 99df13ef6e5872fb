"""Ladders of direct current: conductors worked out anew, other devices, other inputs, shorter strings."""

from collections.abc import Callable, Iterator

from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies import at_hand, parts, wiring
from standfast.foreman.remedies.change import Change, Ladder, Word, ladder, one
from standfast.sheet import Check

Way = Callable[[JobPlan, Check], Iterator[Ladder]]


def _subject(check: Check) -> str:
    """The battery or array that a check is about, also where it is about its circuit: ``battery-1-dc``."""
    return check.id.split("/")[1].removesuffix("-dc")


def worked_out(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """Size and number of the conductors left to be worked out, where the job fixes them."""
    made = parts.built(plan, f"{_subject(check)}-dc")
    words: list[Word] = []
    for path in [] if made is None else parts.routes(plan, made):
        fixed = plan.survey.job.routes[path[1]].conductors if isinstance(path[1], int) else None
        for word in ("size", "sets"):
            if fixed is not None and getattr(fixed, word) is not None:
                words.append(Word((*path, "conductors", word), None))
    yield ladder([Change("let size and number of the DC conductors be worked out", tuple(words))] if words else [])


def larger(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """The next sizes, on every DC run of the battery."""
    yield from wiring.larger_conductor(plan, check._replace(id=f"wiring./{_subject(check)}-dc"))


def device(role: str, name: str) -> Way:
    """Another data sheet at hand for a device."""

    def ways(plan: JobPlan, _: Check) -> Iterator[Ladder]:
        found = at_hand.sheets(plan, role)
        yield ladder(one(f"choose another {name}, {called}", (("equipment", role), id)) for id, called in found)

    return ways


def input_(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """A new array on another input of the inverter."""
    inverter = plan.sheets.get("inverter")
    for number, array in enumerate(plan.survey.job.arrays):
        if array.id == _subject(check) and array.state == "new" and inverter is not None:
            free = [each.id for each in inverter.sheet.pv_inputs if each.id != array.input]
            says = f"join the {array.name or array.id} to input {{}}"
            yield ladder(one(says.format(id), (("arrays", number, "input"), id)) for id in free)


def shorter(plan: JobPlan, check: Check) -> Iterator[Ladder]:
    """Fewer modules in each string of a new array."""
    for number, array in enumerate(plan.survey.job.arrays):
        if array.id == _subject(check) and array.state == "new" and array.modules is not None:
            path = ("arrays", number, "modules")
            says = f"put {{}} modules in each string of the {array.name or array.id}"
            yield ladder(
                (one(says.format(n), (path, n)) for n in range(array.modules - 1, 0, -1)), rising=True
            )  # fmt: skip


_overcurrent, _disconnect = device("dc_overcurrent", "DC fuse or breaker"), device("dc_disconnect", "DC disconnect")
_units = at_hand.other("battery", "inverter")
_CIRCUITS = tuple(f"battery-{number}-dc" for number in range(1, 9))
"""The DC circuits that a job can have, one for each unit that it can name."""

WAYS: tuple[tuple[str, tuple[Way, ...]], ...] = (
    ("wiring.dc-overcurrent-maker", (_overcurrent, _units)),
    ("wiring.dc-overcurrent-", (_overcurrent,)),
    ("wiring.dc-interrupting", (_overcurrent,)),
    ("wiring.dc-disconnect-", (_disconnect,)),
    ("wiring.dc-voltage-low", (_units,)),
    ("wiring.dc-voltage-high", (_units,)),
    ("wiring.dc-voltage-drop", (worked_out, larger)),
    ("wiring.dc-terminations", (worked_out, larger)),
    ("wiring.dc-ampacity", (worked_out, larger)),
    ("wiring.dc-protection", (worked_out, larger)),
    ("wiring.dc-parallel", (worked_out, larger)),
    ("wiring.dc-lugs", (worked_out,)),
    ("wiring.dc-equipment-ground", (worked_out, larger)),
    ("wiring.dc-voltage/", (_units,)),
    ("wiring.dc-", (_units,)),
    *((f"wiring.terminal-range/{each}", (worked_out, larger)) for each in _CIRCUITS),
    *((f"wiring.bending-space/{each}", (worked_out,)) for each in _CIRCUITS),
    ("wiring.pv-voltage", (shorter,)),
    ("wiring.pv-input-voltage", (shorter, input_)),
    ("wiring.pv-input-", (input_,)),
)
"""The least change first."""
