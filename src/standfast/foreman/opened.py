"""A job opened in a script or notebook: its checks, its design and its drawings, each of which shows itself."""

from collections.abc import Mapping
from functools import cached_property
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING

from standfast.foreman.plan import JobPlan, make_plan
from standfast.sheet import Check, Ledger

if TYPE_CHECKING:  # drawing loads what a check never needs
    from standfast.paper.drawing import Drawing


class Job:
    """A job that was worked out. Made by `open_job`.

    Attributes:
        plan: everything that was worked out; its parts are not promised.
    """

    def __init__(self, plan: JobPlan) -> None:
        self.plan = plan

    @property
    def title(self) -> str:
        """Name, revision and date of the job."""
        return self.plan.title

    @property
    def checks(self) -> Ledger:
        """Every check, in the order of the trades."""
        return self.plan.ledger

    def check(self, text: str) -> Check:
        """The one check whose id is the text or holds it.

        Raises:
            KeyError: where there is none, or more than one; it names what was found.
        """
        found = self.checks.find(text)
        if len(found) != 1:
            names = ", ".join(each.id for each in found[:5]) or "none"
            raise KeyError(f"{len(found)} checks hold {text!r}: {names}")
        return found[0]

    @cached_property
    def drawings(self) -> Mapping[str, "Drawing"]:
        """The drawings of the permit set, by name."""
        from standfast.foreman.pack import papers

        return papers(self.plan).drawings

    def design(self) -> Mapping[str, object]:
        """The chosen design as plain data, as ``standfast design --json`` gives it."""
        from standfast.foreman.designed import designed

        return designed(self.plan)

    def __repr__(self) -> str:
        counts = ", ".join(f"{count} {state.replace('_', ' ')}" for state, count in self.checks.summary().items())
        return f"<Job {self.title}: {counts}>"

    def _repr_html_(self) -> str:
        from standfast.sheet.shown import ledger_html

        head = f"<p><b>{escape(self.title)}</b>; codes: {escape(self.plan.adoption.name)}</p>"
        return head + ledger_html(self.checks)


def open_job(path: str | Path, firm: str | Path | None = None, adoption: str | None = None) -> Job:
    """Open a job folder and work the job out.

    Args:
        path: the folder, or the job file in it.
        firm: folder of the firm; None where there is none.
        adoption: codes to take instead of the job's own.

    Raises:
        FaultsFound: with every fault of the job file and of what it names.
        Refusal: where the job cannot be worked out at all.
    """
    return Job(make_plan(Path(path), None if firm is None else Path(firm), adoption))
