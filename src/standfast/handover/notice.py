"""What the grid operator is told: the sheet of the set, rows for spreadsheets, and data for a form to be filled in."""

from standfast.design.wiring.metric.built import Notification
from standfast.paper.document import Block, Facts, Frame, Sheet, Text, Words
from standfast.paper.schedule import Schedule, cell
from standfast.sheet.printed import amount

CODE = "S2"
PART = "grid notification"
_SIGNED = (
    "These are the answers of the form, as the job holds them. The form of the operator itself is signed by the "
    "installer; readings, dates of commissioning and serial numbers are added when the work is done."
)


def sheet(found: Notification | None) -> list[Sheet]:
    """The sheet of the set; none where the adoption names no network rules."""
    if found is None:
        return []
    facts: list[tuple[str, Text]] = [(each.asked, amount(each.answer)) for each in found.fields]
    blocks: list[Block] = [Frame("Before it is sent", [Words(_SIGNED)], "caution"), Facts(facts, 70)]
    return [Sheet(CODE, "Notice to the grid operator", blocks)]


def schedule(found: Notification) -> Schedule:
    """The answers as rows."""
    rows = tuple((each.asked, cell(each.answer), each.answer.unit) for each in found.fields)
    return Schedule("notification", ("asked", "answer", "unit"), rows)


def data(found: Notification) -> dict[str, object]:
    """The answers as plain data; what is not known is null, with what is needed."""
    return {
        "schema": 1,
        "procedure": None if found.route.missing else found.route.number,
        "fields": [
            {
                "asked": each.asked,
                "answer": each.answer.number,
                "unit": each.answer.unit,
                "needed": each.answer.how if each.answer.missing else "",
            }
            for each in found.fields
        ],
    }
