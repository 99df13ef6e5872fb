"""Rules that the planned removal is held against: of the standard on electrical safety, and of the trade for a stack.

The plan is derived from the installation and the data sheets and knows none of these rules. Each is asked of every
order that the steps allow, and printed with its verdict beside the steps that it is about.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from standfast.aftercare.making import DEAD, HOUSE, SEEN, SEEN_HOUSE, STOP
from standfast.aftercare.removal import Removal
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.shelf import Edition

RuleVerdict = Literal["kept", "kept earlier", "broken", "not applicable", "left to a person"]


class Rule(NamedTuple):
    """One rule: what is done first, and what then.

    Attributes:
        book: and clause that it stands in.
        first, then: as the table has it.
        before, after: ids of the steps that it is about.
        verdict: kept where each of the first is done before each of the second in every order; kept earlier where a
            lock goes on with its switch, before the standard asks for it.
    """

    book: str
    first: str
    then: str
    before: tuple[str, ...]
    after: tuple[str, ...]
    verdict: RuleVerdict


def rules(plan: Plan, made: Removal, safety: Edition | None) -> list[Rule]:
    """The rules, each with its verdict.

    Args:
        plan: the job as built.
        made: its removal.
        safety: the standard on electrical safety of the adoption; None where it has none.
    """
    found = [] if safety is None else list(_isolation(made, safety))
    return [*found, *_stack(plan, made)]


def _isolation(made: Removal, book: Edition) -> Iterator[Rule]:
    """Each step of the sequence before the next, for the units and then for the panels.

    What the removal has no steps for is left to a person: nothing in a battery moves, and temporary grounds are the
    licensed person's. A lock that goes on as its switch opens is earlier than the standard has it.
    """
    words = [str(row["what"]) for row in book.table("safe_state").rows]
    clause, told = f"{book.short} {book.clause('safe_state').clause}", set[str]()
    for stage in ("make dead", HOUSE):
        steps = [each for each in made.steps if each.stage == stage and not each.id.startswith("off.leads-")]
        known = [(word, ids) for word in words if (ids := _steps_of(word, steps))]
        told |= {word for word, _ in known}
        for (first, ids), (then, later) in pairwise(known):
            yield _asked(made, clause, (first, then), ids, later, early=LOCK in (first, then))
    for word in words:
        if word not in told:
            yield Rule(clause, word, "", (), (), "left to a person")


LOCK = "lock and tag"


def _steps_of(word: str, steps: Sequence[WorkStep]) -> tuple[str, ...]:
    """The steps that a step of the sequence is about; none where there are none."""
    kinds: Mapping[str, Callable[[WorkStep], bool]] = {
        "find all sources": lambda each: each.id == STOP,
        "open": lambda each: any(turn.change == "open" for turn in each.turns),
        "see that it is open": lambda each: each.id in (SEEN, SEEN_HOUSE),
        "release stored charge": lambda each: bool(each.waited),
        LOCK: lambda each: any(turn.change == "lock" for turn in each.turns),
        "prove dead": lambda each: bool(each.proves),
    }
    asked = kinds.get(word)
    return tuple(each.id for each in steps if asked is not None and asked(each))


def _stack(plan: Plan, made: Removal) -> Iterator[Rule]:
    """What the trade does before what when a stack that is braced to a wall is taken away; no source has it."""
    table = plan.practice.table("stack_removal")
    clause = f"{table.facts['clause']} ({table.facts['seen']})"
    for device in plan.of_role("battery"):
        braces = [
            each.id for each in made.steps if each.id.startswith(f"undo.{device.id}.") and each.id.endswith(".off")
        ]
        for row in table.rows if braces else ():
            inverters = [each.id for each in plan.of_role("inverter")]
            first, then = (_of_stack(made, str(row[word]), device.id, braces, inverters) for word in ("first", "then"))
            yield _asked(made, clause, (str(row["first"]), str(row["then"])), first, then)


def _of_stack(
    made: Removal, word: str, unit: str, braces: Sequence[str], inverters: Sequence[str]
) -> tuple[str, ...]:  # fmt: skip
    """The steps of a removal that a word of the table is about."""
    ids = [each.id for each in made.steps]
    undone = [id for id in ids if id.startswith(f"undo.{unit}.") and id not in braces]
    covers = [each.id for each in made.steps if each.takes_off.startswith(f"{unit}/")]
    pulled = [each.id for each in made.steps if each.id in undone and any(turn.change == "open" for turn in each.turns)]
    heads = [id for id in undone if id.endswith(".head")]
    found: Mapping[str, Sequence[str]] = {
        "inverter off": [id for id in ids if any(id in (f"off.ac-{each}", f"off.{each}") for each in inverters)],
        "battery breaker off": [id for id in ids if id == f"off.{unit}"],
        "battery breaker verified off": [SEEN],
        "its cover off": covers,
        "cables out": [id for id in ids if id.startswith(f"out.{unit}.")],
        "head released": heads,
        "pack off": [id for id in ids if id in (f"off.{unit}", DEAD)],
        "module connectors apart": pulled,
        "everything else down": undone,
        "side supports off": braces,
    }
    return tuple(found.get(word, ()))


def _asked(
    made: Removal, book: str, words: tuple[str, str], before: tuple[str, ...], after: tuple[str, ...],
    *, early: bool = False,
) -> Rule:  # fmt: skip
    """Whether each of some steps is done before each of others, in every order that the steps allow.

    A lock that is `early` goes on where its switch opens: only what comes after it is asked.
    """
    acts = made.decided.acts
    if not before or not after:
        return Rule(book, *words, before, after, "not applicable")
    if early and words[1] == LOCK:
        return Rule(book, *words, before, after, "kept earlier")
    kept = all(acts.precedes(acts.number[one], acts.number[other]) for one in before for other in after)
    return Rule(book, *words, before, after, "kept" if kept else "broken")
