"""Every way to weaken a data sheet by one entry of what its order hangs on, and whether that is found."""

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import Any, NamedTuple

import tomlkit

from standfast.aftercare.service import What, possible, service
from standfast.equipment.read import read, shipped
from standfast.faults import Refusal
from standfast.fieldwork.link import checks, devices_of
from standfast.fieldwork.order.decide import Unsafe
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.fieldwork.work_order import work_order
from standfast.foreman.plan import JobPlan
from standfast.foreman.removals import planned

DEMOS = {
    "demo-wall-10": ("detached_pair", "battery"), "demo-stack-15": ("stack_outdoors", "battery"),
    "demo-hybrid-8": ("stack_outdoors", "inverter"), "demo-cabinet-48": ("cabinet", "battery"),
    "demo-inverter-48": ("cabinet", "inverter"), "demo-wall-5": ("terrace", "battery"),
    "demo-wall-8": ("verandah", "battery"),
}  # fmt: skip
"""The demo and the role in which each sheet with steps for a device stands."""
STATED = {"zones": ("under",), "gates": ("locks",), "sensors": ("shorting",), "temporary": ()}
"""Entries of lists beside the steps that an order hangs on."""
OTHER = {"open": "closed", "in place": "apart"}
"""The other state in which a switch, connector or temporary part may come out of its box."""


class Mutant(NamedTuple):
    """A sheet without one entry: what was taken away, and the text that is left."""

    sheet: str
    step: str
    entry: str
    text: str

    @property
    def id(self) -> str:
        """For instance ``demo-wall-10 wire-ground after prove-dead``."""
        return f"{self.sheet} {self.step} {self.entry}"


class Job(NamedTuple):
    """A demo job, what it can be asked, and everything that its papers ask of people before anything was weakened."""

    plan: JobPlan
    site: Plan
    asked: frozenset[str]


class Told(NamedTuple):
    """The steps of one work, and what some order of them makes unsafe."""

    steps: tuple[WorkStep, ...]
    unsafe: tuple[Unsafe, ...]


def job(plan: JobPlan, site: Plan) -> Job:
    """A demo job with what the papers of its works ask."""
    return Job(plan, site, frozenset(text for work in works(plan, site) for text in _asks(work().steps)))


def works(plan: JobPlan, site: Plan) -> Iterator[Callable[[], Told]]:
    """The installation, then the removal, then every service."""

    def installed() -> Told:
        order = work_order(site)
        return Told(order.steps, order.decided.unsafe)

    def removed() -> Told:
        made = planned(plan, site)["sound"]
        return Told(made.steps, made.decided.unsafe)

    def served(what: What, unit: str) -> Told:
        made = service(site, what, unit)
        return Told(made.steps, made.decided.unsafe)

    yield installed
    yield removed
    for what, unit in possible(site):
        yield partial(served, what, unit)


def _asks(steps: Iterable[WorkStep]) -> Iterator[str]:
    return (text for each in steps for text in (*each.first, *each.cautions))


def mutants(sheet: str) -> Iterator[Mutant]:
    """Every `after`, `touches` and `does` taken away, every wait cut short; zones, gates, sensors, temporary parts and
    what they state; every word of the link."""
    plain: Any = tomlkit.parse(shipped()[sheet])
    for place, step in enumerate(plain["steps"]):
        for list_of in ("after", "touches"):
            for number, named in enumerate(step.get(list_of, ())):
                yield _without(sheet, str(step["id"]), f"{list_of} {named}", ("steps", place, list_of, number))
        if "time" in step.get("does", {}):
            changed = tomlkit.parse(shipped()[sheet])
            _at(changed, ("steps", place, "does"))["time"] = "150 s"
            yield Mutant(sheet, str(step["id"]), "wait 150 s", tomlkit.dumps(changed))
        if "does" in step:
            yield _without(sheet, str(step["id"]), f"does {step['does']['change']}", ("steps", place, "does"))
    for key, words in STATED.items():
        for place, each in enumerate(plain.get(key, ())):
            if each.get("delivered") in OTHER:
                changed = tomlkit.parse(shipped()[sheet])
                _at(changed, (key, place))["delivered"] = OTHER[each["delivered"]]
                yield Mutant(sheet, str(each["name"]), f"{key} delivered", tomlkit.dumps(changed))
            for word in (word for word in words if word in each):
                yield _without(sheet, str(each["name"]), f"{key} {word}", (key, place, word))
            yield _without(sheet, str(each["name"]), key, (key, place))
    for word in plain.get("link", {}):
        yield _without(sheet, "link", word, ("link", word))


def _without(sheet: str, step: str, entry: str, path: tuple[str | int, ...]) -> Mutant:
    changed = tomlkit.parse(shipped()[sheet])
    del _at(changed, path[:-1])[path[-1]]
    return Mutant(sheet, step, entry, tomlkit.dumps(changed))


def _at(document: Any, path: tuple[str | int, ...]) -> Any:
    for word in path:
        document = document[word]
    return document


def verdict(mutant: Mutant, jobs: dict[str, Job]) -> str:
    """How a mutant is found; empty where it is not.

    ``fault``: the reader refuses the sheet. ``refused``: no order is made. ``unsafe``: some order of the installation,
    the removal or a service. ``asked``: a paper stops the work and asks for what is missing. ``check``: a check on the
    link no longer passes.
    """
    found = read(mutant.text, "x.toml")
    if found.faults or found.sheet is None:
        return "fault"
    demo, role = DEMOS[mutant.sheet]
    before = jobs[demo]
    site = before.site._replace(sheets={**before.site.sheets, role: found.sheet})
    try:
        for work in works(before.plan, site):
            told = work()
            if told.unsafe:
                return "unsafe"
            if not before.asked.issuperset(_asks(told.steps)):
                return "asked"
    except Refusal:
        return "refused"
    told_of_link = checks(devices_of(site.installation, site.sheets), site.practice)
    return "" if all(each.verdict == "pass" for each in told_of_link) else "check"
