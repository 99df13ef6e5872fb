"""The breakers of the job: of new circuits, and of every circuit of a new panel."""

from typing import NamedTuple

from standfast.design.installation.circuits import listed, named
from standfast.equipment.model import Switch
from standfast.fieldwork import arc_fault
from standfast.fieldwork.material import Material, material
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.rows import counted
from standfast.sheet import chosen
from standfast.survey.joined import owner
from standfast.survey.power import Circuit, Panel

RESIDUAL = "breaker with residual current device"


class Bought(NamedTuple):
    """What equal breakers have in common: panel, poles, rating, and in metric countries device, curve and residual
    device, as far as they are known."""

    panel: str
    name: str
    poles: str
    rating: str
    family: str
    kind: str
    more: str


def breaker_rows(plan: Plan) -> list[Material]:
    """Breakers by panel and kind; those with arc-fault protection stand apart, with the work on the existing house."""
    apart = {circuit.id for circuit in arc_fault.protected(plan)}
    names_of = named(plan.survey.job, plan.installation, plan.sheets)
    found: dict[Bought, list[str]] = {}
    for panel in plan.survey.job.panels:
        for circuit in panel.circuits:
            if (circuit.state == "new" or panel.state == "new") and circuit.id not in apart:
                key = _bought(plan, panel, circuit)
                found.setdefault(key, []).append(listed(names_of, panel.id, circuit))
    rows = []
    for key, names in found.items():
        family = plan.say("materials.family", family=key.family) if key.family else ""
        words = {"poles": key.poles, "rating": key.rating, "family": family, "kind": key.kind, "more": key.more}
        use = plan.say("materials.breaker_use", panel=key.name, names=", ".join(names))
        count = chosen("n", float(len(names)), "1", f"circuits of {key.name}", None)
        what = plan.say("materials.breaker", **words)
        row = material("switchgear", what, count, use, plan.language, of=(key.panel,))
        rows.append(row._replace(ware=_ware(plan, key.poles, key.rating)))
    return rows


def _bought(plan: Plan, panel: Panel, circuit: Circuit) -> Bought:
    rating = plan.survey.fact(f"panels.{panel.id}.circuits.{circuit.id}.breaker", "I_n", "A")
    source = owner(plan.survey.job, circuit)
    shown, poles = counted(plan.breakers.get(source, rating), plan.language), str(circuit.poles or "?")
    made = _made(plan, poles) if source in plan.breakers else None
    kind = {"breaker": "mcb", RESIDUAL: "rcbo"}.get(circuit.device or "", "circuit_breaker")
    return Bought(
        panel.id, panel.name or panel.id, poles, shown, " or ".join(panel.accepts), plan.say(f"materials.{kind}"),
        _more(plan, circuit, made),
    )  # fmt: skip


def _more(plan: Plan, circuit: Circuit, made: Switch | None) -> str:
    """Curve and residual device: as the job states them, else of a source's breaker as its data sheet does."""
    curve = circuit.curve or (None if made is None else made.curve)
    words = [] if curve is None else [plan.say("materials.curve", curve=curve)]
    if circuit.residual is not None and circuit.residual.type is not None:
        type_, rated = circuit.residual.type, circuit.residual.rated
    elif circuit.device == RESIDUAL and made is not None and made.residual is not None:
        type_, rated = made.residual, made.residual_rated
    else:
        type_, rated = None, None
    if type_ is not None:
        current = plan.say("common.not_known") if rated is None else rated.text
        words.append(plan.say("materials.residual", type=type_, rated=current))
    return "".join(words)


def _made(plan: Plan, poles: str) -> Switch | None:
    """The breaker of the data sheet, where it has these poles."""
    data = plan.sheets.get("breaker")
    made = None if data is None else data.sheet.switch
    return made if made is not None and str(made.poles) == poles else None


def _ware(plan: Plan, poles: str, shown: str) -> tuple[str, str] | None:
    """A breaker in the words of a price list; None where the data sheet is of breakers with other poles."""
    if _made(plan, poles) is None:
        return None
    return "breaker", f"{plan.sheets['breaker'].sheet.id} {shown.removesuffix(' A')}"
