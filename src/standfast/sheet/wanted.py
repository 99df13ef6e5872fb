"""What is still to be found out, ordered by how many verdicts hang on it."""

from collections.abc import Iterable, Iterator
from typing import Literal, NamedTuple

from standfast.sheet.check import Check
from standfast.sheet.value import Value

Why = Literal["missing", "assumed", "other"]


class Wanted(NamedTuple):
    """One thing to find out.

    Attributes:
        need: what, and where to put it.
        why: a fact is *missing*; or it was *assumed* and may not decide; or a rule or a part does not go so far.
        checks: ids of the checks that cannot be told for want of it.
        alone: those among them that lack nothing else: finding it out settles them.
    """

    need: str
    why: Why
    checks: tuple[str, ...]
    alone: tuple[str, ...]


def wanted(checks: Iterable[Check]) -> list[Wanted]:
    """What the checks that cannot be told lack.

    Returns:
        First what most checks hang on, then what settles most by itself, then in the order of the checks.
    """
    found: dict[tuple[str, Why], tuple[list[str], list[str]]] = {}
    for check in checks:
        if check.verdict != "cannot tell":
            continue
        lacks = dict.fromkeys(_lacks(check))
        for lack in lacks:
            hang, alone = found.setdefault(lack, ([], []))
            hang.append(check.id)
            if len(lacks) == 1:
                alone.append(check.id)
    rows = [Wanted(need, why, tuple(hang), tuple(alone)) for (need, why), (hang, alone) in found.items()]
    return sorted(rows, key=lambda row: (-len(row.checks), -len(row.alone)))


def _lacks(check: Check) -> Iterator[tuple[str, Why]]:
    """The roots of a verdict that cannot be told; its own reason where no value tells."""
    roots = [each for each in check.values() if each.missing and not any(part.missing for part in each.inputs)]
    doubtful = [] if roots else _doubtful(check)
    yield from ((each.how, "missing") for each in roots)
    yield from ((f"{each.symbol} was assumed: {each.how}", "assumed") for each in doubtful)
    if not roots and not doubtful:
        yield check.reason, "other"


def _doubtful(check: Check) -> list[Value]:
    """The assumptions that may not decide: those not bounding; all of them where even the bounding ones fail it."""
    assumptions = check.assumptions()
    fails = check.margin is not None and check.margin < 0
    loose = [] if fails else [each for each in assumptions if not each.bounding]
    return loose or assumptions
