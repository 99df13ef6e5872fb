"""Guideline weights by the zones that the hands pass through, and what a team may lift together.

A filter, not a limit: above it a lift must be looked at closely or done with an aid.
"""

from standfast.faults import OutsideTable
from standfast.sheet import Value, missing, work, worst
from standfast.shelf import Edition

ZONES = ("below mid lower leg", "mid lower leg to knuckle", "knuckle to elbow", "elbow to shoulder", "above shoulder")


def one_person(book: Edition, people: Value, H: Value, low: Value, high: Value) -> Value:
    """Guideline weight of one person, kg: the least of the zones between two heights of the hands.

    Args:
        book: the edition.
        people: ``men`` or ``women``; `people_unknown` where the crew is not known.
        H: how far the hands are out, mm.
        low: lowest height of the hands, mm.
        high: greatest height of the hands, mm.
    """
    facts = (people, H, low, high)
    lacking = [fact for fact in facts if fact.missing]
    if lacking:
        return missing("m_one", "kg", "; ".join(dict.fromkeys(fact.how for fact in lacking)), *lacking)
    near = book.number("close_reach")
    reach = "close" if H.quantity <= near.quantity else "arm's length"
    lines = [book.number(key).quantity for key in ("lower_leg", "knuckle", "elbow", "shoulder")]
    first, last = (sum(height >= line for line in lines) for height in (low.quantity, high.quantity))
    table = book.table("guideline")
    cells = [table.look("m_zone", "kg", people=people, zone=zone, reach=reach) for zone in ZONES[first : last + 1]]
    return worst("m_one", cells, "min", book.clause("guideline"))


def people_unknown(book: Edition) -> Value:
    """Whose guideline counts where the crew is not known: the lower one."""
    return book.bounding("people_unknown", "who lifts is not known", "people")


def team(book: Edition, m_one: Value, people: Value) -> Value:
    """Guideline weight of a team, kg: a part of the sum of what each could lift. OutsideTable beyond four people."""
    if people.missing:
        return missing("m_team", "kg", people.how, people)
    if people.quantity < 1:
        raise OutsideTable(f"{book.short}: a team of {people.quantity:g} lifts nothing")
    part = book.table("team").look("k_team", "part", people=people)
    return work("m_team", "k_team * n * m_one", "kg", book.clause("team"), part, m_one, n=people)
