"""The demo house with words changed and generators added, and who feeds what in it."""

from importlib.resources import files
from typing import NamedTuple

from standfast.design.installation import Installation
from standfast.design.installation.build import build
from standfast.design.installation.states import State, states
from standfast.design.installation.yard import JobFile, SheetFile
from standfast.design.wiring.feeds import Feed, feeds
from standfast.equipment.read import find
from standfast.survey.read import read

TEXT = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")
CHOSEN = {
    "battery": "demo-wall-10", "breaker": "demo-breaker", "disconnect": "demo-disconnect-60",
    "island_switch": "demo-island-switch",
}  # fmt: skip
INLET = ('id = "dryer"\nname = "Dryer"', 'id = "inlet"\nname = "Generator inlet"\nfeeds = "generator"')
SUN = (
    'id = "dryer"\nname = "Dryer"\nspaces = [2, 4]',
    'id = "sun"\nname = "Solar array"\nspaces = [28, 30]\nsource_output = "16 A"',
)


class House(NamedTuple):
    """A job with its graph, its states and what feeds each conductor and busbar, by id."""

    job: JobFile
    graph: Installation
    states: list[State]
    feeds: dict[str, Feed]


def sheets() -> dict[str, SheetFile]:
    found = {role: find(id).sheet for role, id in CHOSEN.items()}
    return {role: sheet for role, sheet in found.items() if sheet is not None}


def text_of(*changes: tuple[str, str], generator: str | None = None, more: str = "") -> str:
    text = TEXT
    for old, new in changes if generator is None else (*changes, INLET):
        if old not in text:
            raise LookupError(old)
        text = text.replace(old, new, 1)
    if generator is not None:
        text += f'\n[[generators]]\nid = "generator"\nname = "Generator"\noutput = "30 A"\n{generator}\n'
    return text + more


def job_of(*changes: tuple[str, str], generator: str | None = None, more: str = "") -> JobFile:
    survey, faults = read(text_of(*changes, generator=generator, more=more))
    if survey is None or faults:
        raise LookupError(faults)
    return survey


def house_of(*changes: tuple[str, str], generator: str | None = None, more: str = "") -> House:
    job, chosen = job_of(*changes, generator=generator, more=more), sheets()
    graph = build(job, chosen)
    reachable = states(job, chosen, graph)
    return House(job, graph, reachable, {each.id: each for each in feeds(graph, reachable, {})})
