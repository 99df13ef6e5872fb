"""The settings sheet as paper to tick on site, and as rows for spreadsheets."""

from collections.abc import Sequence

from standfast.design.settings import Setting, SettingsSheet
from standfast.paper.document import Block, Facts, Frame, Sheet, Table, Text, Words, bold, box, mono
from standfast.paper.schedule import NOT_KNOWN, Cell, Schedule, cell
from standfast.sheet import Value
from standfast.sheet.printed import amount
from standfast.terms import SEEN_WORDS

CODE = "S1"
HEAD = (
    "setting", "function", "parameter", "relation", "required", "unit", "least allowed", "greatest allowed", "asked by",
    "standard's own", "clause", "ground", "model", "point", "required at the point", "unit of the point",
)  # fmt: skip
_WHO = {"standard": "standard", "operator": "grid operator", "agreed": "agreed for this house"}
_SEEN = {"secondary": "secondary source", "memory": "from memory", "common practice": "common practice"}
_CAUTION = (
    "Settings that protect the grid are changed by a qualified person only, as the operator agreed and the maker's "
    "instructions say. A profile that was chosen by its name is not read back: each row is read on the unit after "
    "it was set, and again after new firmware."
)
_TRIED = (
    "On site: open the service with the unit feeding at full power, and again with nothing flowing: it stops within "
    "the time of this sheet. Close it: the unit waits as long as this sheet says."
)


def sheet(found: SettingsSheet) -> list[Sheet]:
    """The settings sheet of the set; none where the adoption names no book on the grid."""
    if found.profile is None:
        return []
    head = ["Setting", "Required", "Allowed", "Asked by", "Open point", "Read back", "By", "Date", ""]
    rows = [_row(each) for each in found.rows]
    table = Table(head, rows, [3.4, 1.7, 1.9, 2.8, 3.0, 1.6, 1, 1.2, 0], size=7.5, tall=5.5)
    blocks: list[Block] = [Facts(_facts(found)), Frame("Caution", [Words(_CAUTION), Words(_TRIED)], "caution"), table]
    return [Sheet(CODE, "Settings sheet", blocks)]


def schedule(found: SettingsSheet) -> Schedule:
    """The settings as rows."""
    return Schedule("settings", HEAD, tuple(_cells(each) for each in found.rows))


def _facts(found: SettingsSheet) -> list[tuple[str, Text]]:
    profile, facts = found.profile, list[tuple[str, Text]]()
    if profile is None:
        return facts
    facts.append(("Grid profile", f"{profile.standard.facts['title']} ({profile.standard.edition})"))
    facts += [(name.replace("_", " ").capitalize(), amount(value)) for name, value in profile.rules.items()]
    facts.append(("Operator's settings", "none named: the standard's own" if profile.operator is None else _own(found)))
    state = "every row can be read back" if found.ready else bold("NOT READY: rows or checks are open, see sheet C1")
    return [*facts, ("State", state)]


def _own(found: SettingsSheet) -> str:
    operator = None if found.profile is None else found.profile.operator
    if operator is None:
        return ""
    days = " ".join(
        f"{word} {day.isoformat()}" for word, day in (("from", operator.begins), ("until", operator.ends)) if day
    )
    return f"{operator.title} ({days})" if days else operator.title


def _row(each: Setting) -> list[Text]:
    relation = "" if each.relation == "is" else f"{each.relation} "
    who: Text = _WHO[each.origin] if each.value.clause is None else f"{_WHO[each.origin]}: {each.value.clause}"
    if each.value.seen is not None and each.value.seen != "print":
        who = f"{who}; {_SEEN[each.value.seen]}"
    if each.default is not None:
        who = f"{who}; standard's own {amount(each.default)}"
    return [
        [bold(each.function), f", {each.parameter}"], bold(f"{relation}{amount(each.value)}"), _span(each), who,
        _point(each), "", "", "", [box()],
    ]  # fmt: skip


def _span(each: Setting) -> str:
    if each.least is None or each.greatest is None:
        return ""
    return f"{amount(each.least)} to {amount(each.greatest)}"


def _point(each: Setting) -> Text:
    if each.point is None:
        return "by display or certificate"
    return [mono(f"{each.point.model} {each.point.name}"), f" = {amount(each.point.target)}"]


def _cells(each: Setting) -> tuple[Cell, ...]:
    value, point = each.value, each.point
    at: Sequence[Cell] = ("", "", "", "")
    if point is not None:
        at = (float(point.model), point.name, cell(point.target), _unit(point.target))
    return (
        each.id, each.function, each.parameter, each.relation, cell(value), _unit(value), cell(each.least),
        cell(each.greatest), _WHO[each.origin], cell(each.default), "" if value.clause is None else str(value.clause),
        NOT_KNOWN if value.missing else SEEN_WORDS.get(value.seen or "", "job file"), *at,
    )  # fmt: skip


def _unit(value: Value) -> str:
    return "" if value.unit == "1" else value.unit
