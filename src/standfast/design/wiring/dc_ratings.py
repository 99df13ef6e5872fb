"""What the data sheets of battery, inverter and devices say of direct current, as the circuit between them needs it."""

from standfast.design.wiring.material import Material
from standfast.reading.quantities import amount
from standfast.rulebooks.nfpa70 import direct_current
from standfast.sheet import Value, attempt, chosen, given, missing, total, work, worst

WIRES = 2.0
"""Conductors of one set, plus and minus; and sides of a switch or fuse, line and load."""


def draw(task: Material) -> Value:
    """Greatest current in A that the inverter takes: as its maker states, and as worked at the lowest voltage.

    It is the lowest voltage of the battery, not of the window of the inverter. The greater of both currents counts;
    where one of them is not known, the other alone: each is a full statement.
    """
    inverter = task.sheets.get("inverter")
    stated = task.of("inverter", "dc.discharge_current", "I_port", "A")
    power = task.of("inverter", "electrical.output_power", "P_out", "W")
    share = task.of("inverter", "dc.efficiency", "eta_pct", "%")
    lowest = task.of("battery", "dc.voltage_min", "U_min", "V")
    worked = attempt("I_low", "A", lambda: direct_current.drawn(task.nec, power, share, lowest))
    if inverter is None or (stated.missing and worked.missing):
        return chosen("I_draw", 0.0, "A", "", None, stated)
    both = [each for each in (stated, worked) if not each.missing]
    return attempt("I_draw", "A", lambda: worst("I_draw", both, "max", task.nec.clause("storage_circuit_current")))


def greatest(task: Material) -> Value:
    """Greatest current in A of the circuit: of the battery's nameplate, of what the inverter takes and gives."""
    nameplate = task.of("battery", "dc.discharge_current", "I_nameplate", "A")
    charging = task.of("inverter", "dc.charge_current", "I_charge", "A")
    clause = task.nec.clause("storage_circuit_current")
    return worst("I_dc", [nameplate, draw(task), charging], "max", clause)


def is_inside(task: Material) -> bool:
    """Whether the battery holds the device that protects its conductors."""
    sheet = task.sheets.get("battery")
    return sheet is not None and sheet.has("dc.overcurrent_device")


def rating(task: Material, role: str, needed: Value, symbol: str = "I_n") -> Value:
    """The smallest rating of a chosen device that reaches a current in A; its largest where none does."""
    sheet = task.sheets.get(role)
    if sheet is None:
        return missing(symbol, "A", f"equipment.{role}: choose one by the id of its data sheet", needed)
    switch = sheet.content.switch
    amps = sorted(amount(each, "A") for each in (() if switch is None else switch.ratings))
    if not amps or needed.missing:
        need = needed.how if amps else f"{sheet.file}: switch.ratings"
        return missing(symbol, "A", need, needed)
    found = next((each for each in amps if each >= needed.quantity), amps[-1])
    return chosen(symbol, found, "A", "rating of its data sheet", None, needed)


def lugs(task: Material, role: str) -> Value:
    """How many conductors the terminals of a piece of equipment take at each pole and side, and at each port."""
    sheet = task.sheets.get(role)
    groups = [] if sheet is None else [each.id for each in sheet.content.terminals if each.use == "dc"]
    count = missing("n_term", "1", f"equipment.{role}: its data sheet names no terminals for dc")
    if groups:
        count = total("n_term", [task.of(role, f"terminals.{each}.count", "n_term", "1") for each in groups], "1")
    wires = given("n_wire", WIRES, "1", "plus and minus")
    if role == "battery":
        return work("n_lug", "n_term / n_wire", "1", None, count, wires)
    if role == "inverter":
        ports = task.of(role, "dc.ports", "n_port", "1")
        return work("n_lug", "n_term / (n_wire * n_port)", "1", None, count, wires, ports)
    sides = given("n_side", WIRES, "1", "line and load")
    return work("n_lug", "n_term / (n_pole * n_side)", "1", None, count, sides,
                n_pole=task.of(role, "switch.poles", "n_pole", "1"))  # fmt: skip
