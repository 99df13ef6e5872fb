"""Whether the codes that a job names were in force on its date."""

from datetime import date

from standfast.sheet import Check, Clause, cannot_tell
from standfast.shelf import Adoption
from standfast.shelf.adoptions import IN_FORCE as ID


def in_force(adoption: Adoption, day: date) -> list[Check]:
    """The check on the dates of an adoption; none where it states no dates.

    A job that was applied for in time may stay under codes that have ended since: the authority says, not the program.

    Args:
        adoption: the codes that the job names.
        day: date of the job.
    """
    begins, ends = adoption.begins, adoption.ends
    if begins is None and ends is None:
        return []
    span = " ".join(
        f"{word} {edge.isoformat()}" for word, edge in (("from", begins), ("until", ends)) if edge is not None
    )
    title, clause = "The codes of the job are in force on its date", Clause("Adoption", adoption.name, span)
    if (begins is None or begins <= day) and (ends is None or day <= ends):
        return [Check(ID, title, clause, "pass")]
    reason = (
        f"the job is dated {day.isoformat()}, and these codes are in force {span}: "
        "ask the authority under which codes the permit is, and name them under [job], adoption"
    )
    return [cannot_tell(ID, title, clause, reason)]
