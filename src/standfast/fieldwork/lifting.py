"""How each part gets to its place: by one person, by a team, or with an aid; the first that is allowed.

One person may lift where the lifting index is at most 1 at the origin and at the destination, since a part that is hung
is placed with control. A team may lift what the rule of the adopted place lets it. Else an aid must be rated for the
mass over the whole path. The index of one person is printed as the reason for the aid.
"""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from standfast.equipment.model import Sheet
from standfast.fieldwork import solo_lift
from standfast.fieldwork.lifted import Lift
from standfast.fieldwork.solo_lift import Solo
from standfast.reading import Document
from standfast.rulebooks.indg143 import guideline
from standfast.sheet import Check, Clause, Value, at_least, at_most, cannot_tell, chosen, exactly, is_, one_of, worst
from standfast.sheet.printed import amount
from standfast.shelf import Adoption
from standfast.survey.model import Job

CLEAR_WAY = (
    "make the way level and dry (handling.floor), or choose an aid that is made for it: aid.floor of its data sheet "
    "names the floor"
)
STEPS = (
    "choose an aid that climbs steps (equipment.aid, whose data sheet says aid.steps = true), or another way without "
    "any (handling.steps = 0)"
)
Way = Literal["one person", "team", "aid", "no way known"]


class Row(NamedTuple):
    """A row of the lifting card.

    Attributes:
        unit: what it is a part of: ``battery-1``, ``inverter``.
        part: id of the part. name: what it is. pieces: how many there are.
        mass: of one, kg.
        solo: lifting index of one person, the worst of origin and destination; missing where a fact is not known.
        way: how it is lifted.
        people: how many it takes; None where no way is known.
        aid: name of the aid; empty where none is used.
        reason: why so, in a sentence.
        condition: what must hold on the day; empty where nothing is asked.
    """

    unit: str
    part: str
    name: str
    pieces: int
    mass: Value
    solo: Value
    way: Way
    people: int | None
    aid: str
    reason: str
    condition: str


class Lifting(NamedTuple):
    """Checks with ids ``lifting.…/battery-1/part``, and the lifting card, in the order of the data sheet."""

    checks: tuple[Check, ...]
    rows: tuple[Row, ...]

    @property
    def heaviest(self) -> Row | None:
        """The row of the heaviest piece whose mass is known."""
        known = [row for row in self.rows if not row.mass.missing]
        return max(known, key=lambda row: row.mass.quantity, default=None)


def lift(
    job: Document[Job],
    battery: Document[Sheet],
    aid: Document[Sheet] | None,
    books: Adoption,
    bottom: Value,
    *,
    unit: str = "battery-1",
    units: int = 1,
) -> Lifting:
    """Find a way to lift every part of a unit or inverter.

    Args:
        job: the job file, with [handling].
        battery: its data sheet, with its parts.
        aid: data sheet of the lifting aid; None where none was chosen.
        books: the editions in force.
        bottom: height of its lower edge over the floor, mm.
        unit: its name everywhere.
        units: how many such units the job puts up; every piece of all of them is a lift.

    Returns:
        One verdict for each part that is lifted, with those of the aid where it is needed, and the card.
    """
    checks: list[Check] = []
    rows: list[Row] = []
    parts = [part for part in battery.content.parts if part.lifted != "not lifted"]
    if not parts:
        clause = books.book("niosh").clause("scope")
        reason = battery.fact("parts", "parts").how if not battery.content.parts else "no part is lifted"
        return Lifting((cannot_tell(f"lifting.parts/{unit}", "The parts to be lifted are known", clause, reason),), ())
    for part in parts:
        found, row = _one(Lift(unit, job, battery, aid, books, bottom, part, units))
        checks += found
        rows.append(row)
    return Lifting(tuple(checks), tuple(rows))


def _one(task: Lift) -> tuple[list[Check], Row]:
    solo = solo_lift.judge(task)
    by_hand = task.part.lifted != "with an aid"
    if by_hand and solo.check.verdict == "pass":
        return [solo.check], _row(task, solo, "one person", 1, solo.why, solo.check.condition)
    team = _team(task)
    if by_hand and isinstance(team, Check) and team.verdict == "pass":
        return [team._replace(reason=solo.why)], _row(task, solo, "team", _crew(task), solo.why)
    reasons = [solo.why, team if isinstance(team, str) else _team_short(team)]
    if not by_hand:
        reasons.append("the maker asks for an aid")
    reason = "; ".join(reasons)
    open_by_hand = by_hand and solo.check.verdict == "cannot tell"
    if task.aid is None:
        return _by_hand_if(task, solo, reason) if open_by_hand else _no_aid(task, solo, reason)
    checks = list(_aid(task, task.aid, solo, reason))
    if any(check.open for check in checks):
        if open_by_hand:
            return _by_hand_if(task, solo, reason)
        return checks, _row(task, solo, "no way known", None, reason)
    condition = checks[0].condition
    return checks, _row(task, solo, "aid", _people(task, task.aid), reason, condition, task.aid.content.name)


def _team(task: Lift) -> Check | str:
    """The team rule of the place, or why there is none to go by."""
    if "indg143" not in task.books.books:
        return "the adopted codes state no weight for a team"
    book, people = task.books.book("indg143"), task.handling("crew", "n_crew", "1")
    if not people.missing and people.quantity < 2:
        return "there is no team"
    low, high = solo_lift.lowest_and_highest(task)
    m_one = guideline.one_person(book, guideline.people_unknown(book), task.handling("reach", "H", "mm"), low, high)
    title = f"The team may lift the {task.spoken}"
    return at_most(task.id("part"), title, book.clause("team"), task.mass, guideline.team(book, m_one, people))


def _team_short(check: Check) -> str:
    if check.limit is None or check.limit.missing or check.demand is None or check.demand.missing:
        return f"it cannot be told whether a team may lift it: {check.reason}"
    return f"a team may lift {amount(check.limit)} together"


def _aid(task: Lift, aid: Document[Sheet], solo: Solo, reason: str) -> Iterator[Check]:
    """Is the aid rated for the mass, the height, the floor, the steps and the crew? The first check is the verdict."""
    clause = Clause(aid.content.name, "data sheet", "[aid]")
    fact, steps = aid.fact, task.handling("steps", "n_steps", "1")
    title = f"The aid is rated for the {task.spoken}"
    mass = task.mass
    if not solo.li.missing:
        how = f"one person's lifting index is {amount(solo.li)}"
        mass = chosen("m", 0.0 if mass.missing else mass.quantity, "kg", how, None, mass, solo.li)
    condition = "the part rests on the aid until it is bolted; nobody stands or reaches under it"
    rated = at_most(task.id("part"), title, clause, mass, fact("aid.rated_load", "m_rated", "kg"), condition=condition)
    way_out = "choose an aid that is rated for it" if rated.verdict == "fail" else ""
    yield rated._replace(reason="; ".join(each for each in (rated.reason, reason, way_out) if each))
    heights = task.heights
    title, highest = "The aid reaches the height of the unit", _of("y_highest", heights, "max")
    check = at_least(task.id("aid-height"), title, clause, fact("aid.lift_max", "h_max", "mm"), highest)
    yield _told(check, "choose an aid that lifts higher, or hang the unit lower")
    title, lowest = "The aid goes low enough", _of("y_lowest", heights, "min")
    check = at_most(task.id("aid-low"), title, clause, fact("aid.lift_min", "h_min", "mm"), lowest)
    yield _told(check, "choose an aid that goes lower, or hang the unit higher")
    title, floor = "The aid is made for the floor of the way", task.handling("floor", "floor")
    check = one_of(task.id("aid-floor"), title, clause, floor, fact("aid.floor", "floors"))
    yield _told(check, "make the way dry and level, with boards where it is soft, or choose an aid made for this floor")
    yield _told(_steps(task, aid, steps, clause), STEPS)
    title, needed = "There are enough people for the aid", _needed(task, aid)
    check = at_least(task.id("aid-crew"), title, clause, task.handling("crew", "n_crew", "1"), needed)
    yield _told(check, "bring more people: the aid or the maker's step asks for them")


def _of(symbol: str, heights: list[Value], pick: Literal["max", "min"]) -> Value:
    """The highest or lowest place of the pieces of a part; that of the only one as it is."""
    return worst(symbol, heights, pick) if len(heights) > 1 else heights[0]


def _told(check: Check, way_out: str) -> Check:
    """A failing check with the way out; any other as it is."""
    return check._replace(reason=way_out) if check.verdict == "fail" else check


def _steps(task: Lift, aid: Document[Sheet], steps: Value, clause: Clause) -> Check:
    title = "The aid takes the steps on the way"
    if not steps.missing and steps.quantity > 0:
        allowed = chosen("asked", True, "", f"{steps.quantity:g} steps on the way", None, steps)
        return is_(task.id("aid-steps"), title, clause, aid.fact("aid.steps", "takes_steps"), allowed)
    none = chosen("n_steps_allowed", 0.0, "1", "no step on the way asks nothing of the aid", clause)
    return exactly(task.id("aid-steps"), title, clause, steps, none)


def _needed(task: Lift, aid: Document[Sheet]) -> Value:
    """People that the aid and the maker's own step ask for."""
    operators = aid.fact("aid.operators", "n_operators", "1")
    by_maker = max((step.people or 0 for step in task.battery.content.steps if task.part.id in step.parts), default=0)
    number = by_maker if operators.missing else max(by_maker, operators.quantity)
    how = f"operators of the aid; the maker's step asks for {by_maker}"
    return chosen("n_needed", float(number), "1", how, None, operators)


def _no_aid(task: Lift, solo: Solo, reason: str) -> tuple[list[Check], Row]:
    """Without an aid: the lift by hand is refused, by the index or by the maker."""
    title, say = f"There is a way to lift the {task.spoken}", f"{reason}; choose an aid under [equipment]"
    check = Check(task.id("part"), title, solo.check.clause, "fail", solo.check.relation,
                  solo.check.demand, solo.check.limit, solo.check.margin, reason=say)  # fmt: skip
    return [check], _row(task, solo, "no way known", None, say)


def _by_hand_if(task: Lift, solo: Solo, reason: str) -> tuple[list[Check], Row]:
    """A part that one person could lift but for a fact or the way: what is asked is the way, not a stronger aid."""
    known = solo.check.demand is None or not solo.check.demand.missing
    say = f"{reason}; {CLEAR_WAY}" if known else reason
    return [solo.check._replace(reason=say)], _row(task, solo, "no way known", None, say)


def _people(task: Lift, aid: Document[Sheet]) -> int:
    return round(_needed(task, aid).quantity)


def _crew(task: Lift) -> int:
    return round(task.handling("crew", "n_crew", "1").quantity)


def _row(task: Lift, solo: Solo, way: Way, people: int | None, reason: str, condition: str = "", aid: str = "") -> Row:
    part = task.part
    pieces = 1 if part.count is None else part.count
    return Row(task.unit, part.id, part.name, pieces, task.mass, solo.li, way, people, aid, reason, condition)
