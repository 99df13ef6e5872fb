"""Demo jobs with several units or an inverter of its own: a fact taken away never makes a pass and never a fail."""

from importlib.resources import files

import pytest

from standfast.design.installation.build import build
from standfast.design.wiring.backup import backup_load
from standfast.design.wiring.load import service_load
from standfast.design.wiring.whole import wire
from standfast.equipment.read import KINDS, find
from standfast.shelf import edition
from standfast.survey.read import read

NEC, HANDBOOK = edition("nfpa70", "2023"), edition("handbook", "2026")
STEP = 4
"""Every fourth line is taken away, each by itself; the others have neighbours of their kind."""


def verdicts(text: str) -> dict[str, str] | None:
    """Verdicts of the electrical trades; None where the text has faults."""
    job, faults = read(text)
    if job is None or faults:
        return None
    chosen = {role: getattr(job.job.equipment, role) for role in KINDS}
    sheets = {role: sheet for role, id in chosen.items() if id is not None and (sheet := find(id).sheet) is not None}
    if "battery" not in sheets:
        return None
    build(job, sheets)
    load = service_load(NEC, job, sheets)
    backup = backup_load(NEC, job, sheets, load.house)
    found = [*wire(NEC, HANDBOOK, job, sheets).checks, *load.checks, *backup.checks]
    return {check.id: check.verdict for check in found}


@pytest.mark.parametrize("name", ["detached_pair", "stack_outdoors", "cabinet"])
def test_a_fact_taken_away_makes_no_pass_and_no_fail(name: str) -> None:
    text = (files("standfast.foreman") / "demos" / name / "job.toml").read_text("utf-8")
    lines, before, tried = text.split("\n"), verdicts(text), 0
    assert before is not None
    first = lines.index("[supply]")
    facts = [at for at in range(first, len(lines)) if lines[at] and lines[at][0] not in "#["]
    for at in facts[::STEP]:
        after = verdicts("\n".join([*lines[:at], *lines[at + 1 :]]))
        for id, verdict in (after or {}).items():
            was = before.get(id, verdict if verdict != "fail" else "absent")
            assert verdict != "fail" or was == "fail", (lines[at], id)
            assert verdict != "pass" or was not in ("fail", "cannot tell"), (lines[at], id)
        tried += after is not None
    assert tried > 20
