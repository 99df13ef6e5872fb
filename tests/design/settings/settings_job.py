"""Jobs to ask for their settings: the invented demo with words changed, and short ones of other countries."""

from collections.abc import Mapping

from standfast import shelf
from standfast.design.settings import Setting, SettingsSheet, settings
from standfast.equipment.read import read as read_sheet
from standfast.equipment.read import shipped
from standfast.foreman.demo import job_text
from standfast.sheet import Check
from standfast.survey.read import Survey, read
from standfast.survey.write import put

DEMO = job_text("one-wall")
Changes = Mapping[str, str | bool | int | float | None]


def survey(changes: Changes, text: str = DEMO) -> Survey:
    """A job with words of it changed, or taken out where the new value is None."""
    for word, value in changes.items():
        text = put(text, tuple(word.split(".")), value)
    found, faults = read(text)
    assert found is not None
    assert not list(map(str, faults))
    return found


def asked(
    changes: Changes | None = None, sheet: tuple[str, str] = ("", ""), adoption: str = "", text: str = DEMO
) -> SettingsSheet:
    """The settings of a job after changes in it and in the sheet of its battery."""
    job = survey(changes or {}, text)
    battery, faults = read_sheet(shipped()["demo-wall-10"].replace(*sheet, 1), "battery.toml")
    assert battery is not None
    assert not list(map(str, faults))
    return settings(job, {"battery": battery}, shelf.adoption(adoption or job.job.job.adoption))


def check(found: SettingsSheet, id: str) -> Check:
    (one,) = [each for each in found.checks if each.id == f"settings.{id}"]
    return one


def row(found: SettingsSheet, id: str) -> Setting:
    (one,) = [each for each in found.rows if each.id == id]
    return one


def abroad(grid: str) -> str:
    """A job of another country: only what its settings ask."""
    return (
        f'schema = 1\n[job]\nname = "Abroad (invented)"\ninvented = true\ndate = 2026-03-02\nadoption = "none"\n{grid}'
    )
