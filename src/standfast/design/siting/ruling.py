"""Sums up the checks of a layout: one verdict, the condition it hangs on, and the rule that decides."""

from collections.abc import Sequence
from typing import NamedTuple

from standfast.design.siting.asking import PART
from standfast.sheet import Check
from standfast.terms import Verdict


class Ruling(NamedTuple):
    """What the checks of a layout come to.

    Attributes:
        verdict: fail where one fails; cannot tell where one cannot be told; else pass.
        condition: what must be provided for the pass to hold.
        decisive: the checks that decide, worst first: those that refuse, else those that carry the condition, else
            those with the least margin. More than one where they tie; none where nothing was judged.
    """

    verdict: Verdict
    condition: str
    decisive: tuple[Check, ...]

    @property
    def binding_rule(self) -> str:
        """The rule that decides; empty where two tie or nothing had to be judged."""
        rules = {rule_of(check) for check in self.decisive}
        return rules.pop() if len(rules) == 1 else ""


def rule_of(check: Check) -> str:
    """The rule of a check, from its id."""
    return check.id.removeprefix(PART).partition("/")[0]


def ruling(checks: Sequence[Check]) -> Ruling:
    """Sum up checks of one layout."""
    failing = [check for check in checks if check.verdict == "fail"]
    if failing:
        return Ruling("fail", "", _least(failing))
    unknown = [check for check in checks if check.verdict == "cannot tell"]
    if unknown:
        return Ruling("cannot tell", "", tuple(unknown))
    conditional = [check for check in checks if check.condition]
    if conditional:
        first = _least(conditional)
        return Ruling("pass", first[0].condition, first)
    numbered = [check for check in checks if check.margin is not None]
    return Ruling("pass", "", _least(numbered))


def _least(checks: list[Check]) -> tuple[Check, ...]:
    """The checks with the least margin; a refusal without a number is worse than any number."""
    if not checks:
        return ()
    least = min(_margin(check) for check in checks)
    return tuple(check for check in checks if _margin(check) <= least)


def _margin(check: Check) -> float:
    return float("-inf") if check.margin is None else check.margin
