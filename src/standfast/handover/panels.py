"""Panel schedules before and after the work, and the load calculation beside them."""

from collections.abc import Mapping, Sequence

from standfast.paper.document import Block, Facts, Heading, Keep, Sheet, Table, Text, Words, bold
from standfast.survey.model import Job
from standfast.survey.power import Circuit, Panel
from standfast.survey.spaces import Held, as_built, as_found
from standfast.units import Quantity, show

_FREE = "free"
_UNKNOWN = "not known"


def sheet(job: Job, code: str, load: Sequence[Block]) -> Sheet:
    """The sheet of panel schedules: existing, then as it will be; then the load calculation.

    Args:
        job: the job file.
        code: of the sheet.
        load: the load calculation as cards.
    """
    names = {panel.id: panel.name or panel.id for panel in job.panels}
    blocks: list[Block] = []
    for panel in job.panels:
        if panel.state != "new":
            blocks.append(Keep(_schedule(panel, "existing", as_found(job, panel.id), names)))
        blocks.append(Keep(_schedule(panel, "new", as_built(job, panel.id), names)))
    blocks.append(Heading("Load calculation"))
    blocks += load or [Words("No load calculation was made: see the open checks.")]
    return Sheet(code, "Panel schedules and load calculation", blocks, columns=2)


def _schedule(panel: Panel, state: str, circuits: list[Held], panels: Mapping[str, str]) -> list[Block]:
    """One schedule.

    Args:
        panel: the panel.
        state: existing or new.
        circuits: what it holds then.
        panels: names of all panels by id.
    """
    name = panel.name or panel.id
    facts = [
        ("Busbar, main", f"{_text(panel.busbar)}, {_text(panel.main)}"),
        ("Fed from, at", f"{_named(panel.fed_from, panels)}, {panel.feed or _UNKNOWN} of the busbar"),
        ("Withstands", f"{_text(panel.short_circuit_rating)}; breakers {_text(panel.breaker_interrupting)}"),
        ("Spaces", _UNKNOWN if panel.spaces is None else str(panel.spaces)),
    ]
    placed = [each for each in circuits if each.spaces]
    loose = [each.circuit for each in circuits if not each.spaces]
    blocks: list[Block] = [Heading(f"{name}: {state}"), Facts(facts, 26, 8.5)]
    if placed:
        came_from = panels if state == "new" else {}
        blocks.append(_grid(panel, placed, came_from, _UNKNOWN if loose else _FREE))
    if loose:
        rows: list[list[Text]] = [[*_told(each), _of(each)] for each in loose]
        blocks.append(Table(["Circuit", "A/P", "VA", "State"], rows, [4, 1.2, 1.4, 1.4], "Spaces not surveyed", [1, 2]))
    return blocks


def _grid(panel: Panel, circuits: list[Held], panels: Mapping[str, str], empty: str) -> Table:
    """Spaces as they lie in the panel: odd numbers on the left, even ones on the right; `empty` where none lies."""
    held = {space: each for each in circuits for space in each.spaces}
    last = max([panel.spaces or 0, *held])
    rows: list[list[Text]] = []
    for odd in range(1, last + 1, 2):
        row: list[Text] = []
        for space in (odd, odd + 1):
            row += [str(space), *_cell(held.get(space), space, panels, empty)]
        rows.append(row)
    head = ["", "Circuit", "A/P", "VA"] * 2
    return Table(head, rows, [0, 3, 1, 1.5] * 2, "", [0, 2, 3, 4, 6, 7], 8)


def _cell(held: Held | None, space: int, panels: Mapping[str, str], empty: str) -> list[Text]:
    if held is None:
        return [empty, "", ""]
    if space != held.spaces[0]:
        return [f"with {held.spaces[0]}", "", ""]
    circuit = held.circuit
    name, rating, load = _told(circuit)
    if panels and circuit.moved_from is not None:
        spaces = ", ".join(str(each) for each in circuit.moved_spaces)
        name = f"{name} (from {panels.get(circuit.moved_from, circuit.moved_from)} {spaces})"
    return [bold(f"NEW {name}") if circuit.state == "new" else name, rating, load]


def _told(circuit: Circuit) -> tuple[str, str, str]:
    poles = "?" if circuit.poles is None else str(circuit.poles)
    rating = "?" if circuit.breaker is None else f"{float(circuit.breaker.number):g}"
    load = "" if circuit.load is None else show(float(circuit.load.number), "")
    if circuit.source_output is not None:
        load = f"source\u00a0{_text(circuit.source_output)}".replace(" ", "\u00a0")
    return circuit.name or circuit.id, f"{rating}/{poles}", load


def _of(circuit: Circuit) -> Text:
    return bold("new") if circuit.state == "new" else circuit.state or _UNKNOWN


def _named(panel: str | None, panels: Mapping[str, str]) -> str:
    return _UNKNOWN if panel is None else panels.get(panel, panel)


def _text(quantity: Quantity | None) -> str:
    return _UNKNOWN if quantity is None else quantity.text
