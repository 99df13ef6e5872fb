"""All checks of one job, in the order they were made, with counts for the cover."""

from collections import Counter
from collections.abc import Iterable, Iterator

from standfast.faults import BadFormula
from standfast.sheet.check import Check
from standfast.sheet.value import Value


class Ledger:
    """The checks of one job; ids are unique."""

    def __init__(self, checks: Iterable[Check] = ()) -> None:
        self._checks: dict[str, Check] = {}
        for check in checks:
            self.add(check)

    def add(self, check: Check) -> Check:
        """Enter a check. BadFormula if its id is taken: two answers to one question are a mistake of the program."""
        if check.id in self._checks:
            raise BadFormula(f"two checks have the id {check.id}")
        self._checks[check.id] = check
        return check

    def __iter__(self) -> Iterator[Check]:
        return iter(self._checks.values())

    def __len__(self) -> int:
        return len(self._checks)

    def __getitem__(self, id: str) -> Check:
        return self._checks[id]

    def _repr_html_(self) -> str:
        from standfast.sheet.shown import ledger_html

        return ledger_html(self)

    def find(self, text: str) -> list[Check]:
        """The checks whose id begins with or holds the text."""
        exact = self._checks.get(text)
        return [exact] if exact else [check for check in self if text in check.id]

    @property
    def open(self) -> list[Check]:
        """The checks that fail or cannot be told."""
        return [check for check in self if check.open]

    def summary(self) -> dict[str, int]:
        """How many checks have each verdict."""
        counts = Counter(check.verdict for check in self)
        return {
            "pass": counts["pass"],
            "fail": counts["fail"],
            "cannot_tell": counts["cannot tell"],
            "not_applicable": counts["not applicable"],
        }

    def basis(self) -> dict[str, int]:
        """How many decided checks rest, at their weakest, on each ground."""
        return dict(Counter(check.basis for check in self if check.verdict in ("pass", "fail")))

    def assumptions(self) -> list[Value]:
        """Every assumed value that some check rests on, each once, for *verify on site*."""
        found: dict[tuple[str, str], Value] = {}
        for check in self:
            for value in check.assumptions():
                found.setdefault((value.symbol, value.how), value)
        return list(found.values())
