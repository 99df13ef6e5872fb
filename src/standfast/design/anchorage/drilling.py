"""What has to be known of a wall before it is drilled: asbestos, lead paint, hidden services."""

from collections.abc import Iterator

from standfast.design.anchorage.task import JobFile
from standfast.sheet import Check, one_of
from standfast.shelf import Adoption

LEAD_SAFE = "lead-safe work: wet methods or extraction at the bit, sheet below, nobody else in the room"
SCAN_FIRST = "the wall is scanned for cables and pipes at each hole before it is drilled"


def checks(job: JobFile, books: Adoption, unit: str) -> Iterator[Check]:
    """May this wall be drilled? A survey that was not made is never a pass.

    Args:
        job: the job file.
        books: the editions in force.
        unit: name of the unit whose holes are drilled.
    """
    practice = books.book("practice")
    clause = practice.clause("drilling")
    for fact, title, condition in (
        ("asbestos", "What is drilled holds no asbestos", ""),
        ("lead", "It is known whether lead paint is drilled", LEAD_SAFE),
        ("hidden_services", "It is known whether the wall was scanned", SCAN_FIRST),
    ):
        found = job.fact(f"conditions.{fact}", fact)
        asked = "" if found.number in ("not found", "not needed", "scanned") else condition
        id = f"anchorage.drilling-{fact.replace('_', '-')}/{unit}"
        yield one_of(id, title, clause, found, practice.number(f"drilling_{fact}"), condition=asked)
