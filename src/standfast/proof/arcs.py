"""Adapters of stored energy, direct-current arcs and heat."""

from typing import Any

from standfast import shelf
from standfast.proof.inputs import Inputs
from standfast.proof.methods import method
from standfast.rulebooks.dc_arcs import steady_arc
from standfast.rulebooks.handbook import discharge
from standfast.rulebooks.neta import thermal
from standfast.rulebooks.nfpa70e import dc_arc
from standfast.sheet import Value, given


@method("safety.rc_discharge")
def rc_discharge(case: Inputs) -> dict[str, Any]:
    """Time to discharge a capacitor."""
    resistance = given("R", case.number("resistance_kohm") * 1000, "ohm", "case, resistance_kohm")
    capacitance = given("C", case.number("capacitance_uf") / 1e6, "F", "case, capacitance_uf")
    start, target = case.value("start_v", "V_0", "V"), case.value("target_v", "V", "V")
    time = discharge.time(shelf.edition("handbook", "2026"), start, resistance, capacitance, target)
    return {"time_s": time.quantity}


@method("arc.dc.max_power")
def max_power(case: Inputs) -> dict[str, Any]:
    """Incident energy and boundary by the greatest power."""
    book = shelf.edition("nfpa70e", "undated")
    voltage, time = case.value("voltage_v", "V", "V"), case.value("time_s", "t", "s")
    arc = dc_arc.arc_current(book, case.value("fault_a", "I_bf", "A"))
    found = {"arc_a": arc.quantity}
    if "distance_cm" in case:
        distance = case.value("distance_cm", "D", "cm")
        found["energy_cal_cm2"] = dc_arc.incident_energy(book, voltage, arc, time, distance).quantity
    if "boundary_energy_cal_cm2" in case:
        energy = case.value("boundary_energy_cal_cm2", "E_b", "cal/cm2")
        found["boundary_cm"] = dc_arc.boundary(book, voltage, arc, time, energy).quantity
    return found


@method("arc.dc.stokes_oppenlander")
def stokes_oppenlander(case: Inputs) -> dict[str, Any]:
    """A steady arc of a given gap; its energy in open air and in front of a box. No sustained arc is an answer."""
    book = shelf.edition("dc_arcs", "2010")
    voltage, fault = case.value("voltage_v", "V", "V"), case.value("fault_a", "I_bf", "A")
    arc = steady_arc.arc(book, voltage, fault, case.value("gap_mm", "g", "mm"), case.value("time_s", "t", "s"))
    boxed = "box_a_mm" in case or "box_k" in case
    box = (case.value("box_a_mm", "a", "mm"), case.value("box_k", "k", "1")) if boxed else None
    distance = case.value("distance_mm", "d", "mm") if boxed or "distance_mm" in case else None
    if arc.resistance is None or arc.energy is None:
        none = {"arc_energy_j": 0.0} | ({} if distance is None else {"open_air_cal_cm2": 0.0})
        return {"arc_a": arc.current.quantity, "arc_ohm": None} | none | ({"box_cal_cm2": 0.0} if boxed else {})
    found = {"arc_a": arc.current, "arc_ohm": arc.resistance, "arc_energy_j": arc.energy}
    if distance is not None:
        found["open_air_cal_cm2"] = steady_arc.open_air(book, arc.energy, distance)
        if box is not None:
            found["box_cal_cm2"] = steady_arc.in_front_of_a_box(book, arc.energy, distance, *box)
    return {name: value.quantity for name, value in found.items()}


@method("arc.dc.box_factors")
def box_factors(case: Inputs) -> dict[str, Any]:
    """Size and factor of enclosures."""
    book = shelf.edition("dc_arcs", "2010")
    found = [steady_arc.box(book, word) for word in case.words("enclosure")]
    return {"a_mm": [a.quantity for a, _ in found], "k": [k.quantity for _, k in found]}


@method("thermal.neta_class")
def neta_class(case: Inputs) -> dict[str, Any]:
    """What a temperature difference means, and the row in which it falls."""
    difference = case.value("delta_k", "dT", "K")
    finding = thermal.judge(shelf.edition("neta", "undated"), case.word("basis"), difference)
    rows: dict[str, Value | None] = {"from_k": finding.least, "to_k": finding.greatest, "above_k": finding.above}
    return {"class": finding.meaning.word} | {name: row.quantity for name, row in rows.items() if row is not None}
