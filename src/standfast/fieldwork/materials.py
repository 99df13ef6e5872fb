"""The bill of materials: the chosen equipment and everything that is not in its boxes, derived from the design."""

import csv
from io import StringIO
from typing import NamedTuple

from standfast.fieldwork import brought, shutdown
from standfast.fieldwork.breakers import breaker_rows
from standfast.fieldwork.by_maker import named_by_maker
from standfast.fieldwork.chosen_equipment import equipment_rows
from standfast.fieldwork.cut_plan import stick_rows
from standfast.fieldwork.ends import ferrule_rows, lug_rows
from standfast.fieldwork.entries import entry_rows
from standfast.fieldwork.fixings import barrier_rows, detection_rows, device_rows, fastener_rows, sealing_rows
from standfast.fieldwork.material import Group, Material, material
from standfast.fieldwork.metric_material import electrode_rows, metric_rows, relay_rows
from standfast.fieldwork.pads import pad_rows
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.protective import protective_rows
from standfast.fieldwork.rows import counted, open_needs
from standfast.fieldwork.runs import cable_rows, conductor_rows, raceway_rows
from standfast.sheet import Value, chosen, missing, work
from standfast.survey.power import Panel

HEAD = ("group", "what", "amount", "use", "basis", "of", "box")
"""Columns of the CSV."""


class Materials(NamedTuple):
    """The bill: rows in the order of the van, and what must be found out before it is complete."""

    rows: tuple[Material, ...]
    needs: tuple[str, ...]

    def of(self, group: Group) -> list[Material]:
        """The rows of one group."""
        return [row for row in self.rows if row.group == group]


def materials(plan: Plan) -> Materials:
    """The bill of materials of a job."""
    practice = plan.practice
    rows = [*conductor_rows(plan), *cable_rows(plan), *ferrule_rows(plan), *lug_rows(plan), *metric_rows(plan)]
    rows += stick_rows(plan)
    for run in plan.runs:
        rows += raceway_rows(plan, practice, run)
    rows += [*_switchgear(plan), *electrode_rows(plan), *relay_rows(plan)]
    rows += fastener_rows(plan, practice)
    rows += device_rows(plan, practice)
    rows += pad_rows(plan)
    rows += [*sealing_rows(plan), *entry_rows(plan)]
    rows += _labels(plan)
    rows += detection_rows(plan)
    rows += barrier_rows(plan)
    rows += brought.material_rows(plan)
    rows = [*equipment_rows(plan), *named_by_maker(plan, rows)]
    rows += protective_rows(plan)
    needs = dict.fromkeys(plan.foreign(need) for row in rows for need in row.needs)
    return Materials(tuple(rows), tuple(needs))


def as_csv(bill: Materials) -> str:
    """The bill as CSV text, one row a material, lines ended by CR LF as the format asks."""
    text = StringIO()
    writer = csv.writer(text)
    writer.writerow(HEAD)
    for row in bill.rows:
        writer.writerow(columns(row))
    return text.getvalue()


def columns(row: Material) -> tuple[str, ...]:
    """The cells of a row: `of` are ids of the job; the box is that of the equipment, or the thing is in none."""
    box = "comes in its boxes" if row.group == "chosen equipment" else "not in a box"
    return row.group, row.what, row.amount, row.use, row.ground or "job", ", ".join(row.of), box


def _switchgear(plan: Plan) -> list[Material]:
    rows = [_panel(plan, panel) for panel in plan.survey.job.panels if panel.state == "new"]
    rows += breaker_rows(plan)
    for role in ("disconnect", "island_switch", "dc_disconnect", "dc_overcurrent"):
        own = [part for part in plan.installation.parts.values() if part.role == role and not part.existing]
        if role in plan.sheets and own:
            ids = tuple(part.id for part in own)
            row = _device(plan, role, [part.name for part in own])
            rows.append(row._replace(of=ids, ware=("piece", plan.sheets[role].sheet.id)))
    rows += _fuses(plan)
    rows += _roof_boxes(plan)
    for panel in plan.survey.job.panels:
        if panel.state == "new" and any(circuit.state == "existing" for circuit in panel.circuits):
            count = _count(1, "circuits are moved")
            use = plan.say("materials.splices_use", panel=panel.name or panel.id)
            amount = plan.say("common.count_on_site")
            rows.append(
                material("switchgear", plan.say("materials.splices"), count, use, plan.language, amount, (panel.id,))
            )
    rows += [_ground_bar(plan, panel) for panel in plan.survey.job.panels if panel.state == "new"]
    return [*rows, *_fillers(plan), *_shutdown(plan)]


def _fuses(plan: Plan) -> list[Material]:
    """Fuses of the DC conductors by rating: one a pole of each battery, and one spare a pole of one battery."""
    if not plan.fuses:
        return []
    poles = plan.sheets["dc_overcurrent"].fact("switch.poles", "n_pole", "1")
    alike: dict[str, list[str]] = {}
    for unit, rating in plan.fuses.items():
        alike.setdefault(counted(rating, plan.language), []).append(unit)
    rows = []
    for shown, units in alike.items():
        share = plan.practice.number("spare_fuse_sets")
        count = work(
            "n_buy",
            "n_pole * (n_unit + n_spare)",
            "1",
            share.clause,
            poles,
            share,
            n_unit=_count(len(units), "batteries with such fuses"),
        )
        names = ", ".join(each.name for each in plan.of_role("battery") if each.id in units)
        what, use = plan.say("materials.fuse", rating=shown), plan.say("materials.fuse_use", names=names)
        of = tuple(part.id for part in plan.installation.of_kind("fuse"))
        row = material("switchgear", what, count, use, plan.language, of=of)
        rows.append(row._replace(needs=(*row.needs, *open_needs(*(plan.fuses[unit] for unit in units)))))
    return rows


def _roof_boxes(plan: Plan) -> list[Material]:
    """Where the string conductors of a new array go over into the raceway."""
    arrays = {part.id: part.name for part in plan.installation.of_kind("array") if not part.existing}
    names = [arrays[id] for id in arrays if any(id in run.parts for run in plan.runs)]
    if not names:
        return []
    what, use = plan.say("materials.roof_box"), plan.say("materials.roof_box_use", names=", ".join(names))
    runs = tuple(run.id for run in plan.runs if arrays.keys() & set(run.parts))
    return [material("raceway", what, _count(len(names), "one a new array"), use, plan.language, of=runs)]


def _ground_bar(plan: Plan, panel: Panel) -> Material:
    """Equipment grounding conductors of a panel that is not the service land on a bar of their own."""
    use = plan.say("materials.ground_bar_use", panel=panel.name or panel.id)
    count = _count(1, f"panel {panel.id} is new")
    return material("switchgear", plan.say("materials.ground_bar"), count, use, plan.language, of=(panel.id,))


def _fillers(plan: Plan) -> list[Material]:
    """A panel that circuits are moved out of keeps no open spaces."""
    rows = []
    for panel in plan.survey.job.panels:
        gone = [
            circuit for each in plan.survey.job.panels for circuit in each.circuits if circuit.moved_from == panel.id
        ]
        if panel.state == "new" or not gone:
            continue
        taken = {space for circuit in panel.circuits for space in circuit.spaces}
        left = {space for circuit in gone for space in circuit.moved_spaces} - taken
        known = all(circuit.moved_spaces for circuit in gone)
        if known and not left:
            continue
        amount = "" if known else plan.say("common.count_on_site")
        use = plan.say("materials.filler_use", panel=panel.name or panel.id)
        count = _count(max(1, len(left)), f"spaces that circuits leave in {panel.id}")
        rows.append(
            material("switchgear", plan.say("materials.filler"), count, use, plan.language, amount, (panel.id,))
        )
    return rows


def _shutdown(plan: Plan) -> list[Material]:
    """The switch of the emergency shutdown with its cable, where the unit has terminals for one.

    Where switch and unit are on different buildings its cable crosses the yard: nobody knows how, and it is asked.
    """
    if not plan.shut_down:
        return []
    count, use = _count(1, "the unit has terminals for a remote switch"), plan.say("materials.shutdown_use")
    row = material("switchgear", plan.say("materials.shutdown"), count, use, plan.language, of=("shutdown",))
    if not shutdown.apart(plan):
        return [row]
    need = plan.say("materials.shutdown_route_need")
    route = material(
        "raceway", plan.say("materials.shutdown_route"), missing("L_buy", "ft", need),
        plan.say("materials.shutdown_route_use"), plan.language, of=("shutdown",),
    )  # fmt: skip
    return [row, route]


def _panel(plan: Plan, panel: Panel) -> Material:
    path = f"panels.{panel.id}"
    facts = {
        "busbar": plan.survey.fact(f"{path}.busbar", "I_bus", "A"),
        "main": plan.survey.fact(f"{path}.main", "I_main", "A"),
        "spaces": plan.survey.fact(f"{path}.spaces", "n_space", "1"),
        "withstand": plan.survey.fact(f"{path}.short_circuit_rating", "I_scc", "kA"),
    }
    words = {name: counted(value, plan.language) for name, value in facts.items()}
    what = plan.say("materials.panel", name=panel.name or panel.id, **words)
    count = _count(1, f"panel {panel.id} is new")
    return material("switchgear", what, count, plan.say("materials.panel_use"), plan.language, of=(panel.id,))


def _device(plan: Plan, role: str, names: list[str]) -> Material:
    sheet = plan.sheets[role].sheet
    ratings = sheet.switch.ratings if sheet.switch is not None else ()
    said = len(ratings) != 1 or ratings[0].text in sheet.name
    known = "" if said else plan.say("materials.device_rating", rating=ratings[0].text)
    what = plan.say("materials.device", maker=sheet.maker, name=sheet.name, rating=known)
    use = plan.say("materials.device_use", name=", ".join(names))
    return material("switchgear", what, _count(len(names), f"{role} of the job"), use, plan.language)


def _labels(plan: Plan) -> list[Material]:
    if not plan.labels:
        return []
    pieces = sum(label.number for label in plan.labels)
    count = _count(pieces, "label schedule")
    ids = ", ".join(label.id for label in plan.labels)
    what, use = plan.say("materials.label", count=pieces), plan.say("materials.label_use", ids=ids)
    return [material("labels", what, count, use, plan.language, of=tuple(label.id for label in plan.labels))]


def _count(number: int, why: str) -> Value:
    return chosen("n", float(number), "1", why, None)
