"""Every way to weaken a data sheet by one entry of its steps, and whether that is found."""

from collections.abc import Iterator
from typing import Any, NamedTuple

import tomlkit

from standfast.equipment.read import read, shipped
from standfast.faults import Refusal
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import work_order

DEMOS = {
    "demo-wall-10": ("one_wall", "battery"), "demo-stack-15": ("stack_outdoors", "battery"),
    "demo-hybrid-8": ("stack_outdoors", "inverter"), "demo-cabinet-48": ("cabinet", "battery"),
    "demo-inverter-48": ("cabinet", "inverter"), "demo-wall-5": ("terrace", "battery"),
    "demo-wall-8": ("verandah", "battery"),
}  # fmt: skip
"""The demo and the role in which each sheet with steps for a device stands."""


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


def mutants(sheet: str) -> Iterator[Mutant]:
    """Every `after` and every `does` of a sheet taken away, and every wait halved, one at a time."""
    plain = tomlkit.parse(shipped()[sheet])
    for place, step in enumerate(_steps(plain)):
        for number, before in enumerate(step.get("after", ())):
            changed = tomlkit.parse(shipped()[sheet])
            del _steps(changed)[place]["after"][number]
            yield Mutant(sheet, str(step["id"]), f"after {before}", tomlkit.dumps(changed))
        if "time" in step.get("does", {}):
            changed = tomlkit.parse(shipped()[sheet])
            _steps(changed)[place]["does"]["time"] = "150 s"
            yield Mutant(sheet, str(step["id"]), "wait 150 s", tomlkit.dumps(changed))
        if "does" in step:
            changed = tomlkit.parse(shipped()[sheet])
            del _steps(changed)[place]["does"]
            yield Mutant(sheet, str(step["id"]), f"does {step['does']['change']}", tomlkit.dumps(changed))


def _steps(document: Any) -> Any:
    return document["steps"]


def verdict(mutant: Mutant, plans: dict[str, Plan]) -> str:
    """How a mutant is found: ``fault`` of the reader, ``unsafe`` in some order, ``refused``; empty where it is not."""
    found = read(mutant.text, "x.toml")
    if found.faults or found.sheet is None:
        return "fault"
    demo, role = DEMOS[mutant.sheet]
    plan = plans[demo]
    try:
        order = work_order(plan._replace(sheets={**plan.sheets, role: found.sheet}))
    except Refusal:
        return "refused"
    return "unsafe" if order.decided.unsafe else ""
