"""An array on an input of the inverter: its voltage in the cold, its currents and its conductors.

The strings of an array are joined at the array: one pair of conductors comes down to the inverter.
"""

from typing import NamedTuple

from standfast.design.wiring import circuit, conductor, ends, runs, sets
from standfast.design.wiring.conductor import Conditions, Need
from standfast.design.wiring.dc_circuit import joined
from standfast.design.wiring.dc_ratings import WIRES
from standfast.design.wiring.ends import End
from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import overcurrent, photovoltaics
from standfast.sheet import Value, attempt, chosen, given, total
from standfast.survey.joined import INVERTER, has_inverter


class ArrayCircuit(NamedTuple):
    """One array and its conductors.

    Attributes:
        id: of the array.
        name: what people call it.
        input: path of its input in the data sheet of the inverter.
        strings: all strings on that input.
        voltage: greatest voltage in the cold, in V.
        current: greatest current in A, of this array.
        shared: greatest current in A of all arrays on that input.
        circuit: its conductors.
        end: the terminals of the inverter.
    """

    id: str
    name: str
    input: str
    strings: Value
    voltage: Value
    current: Value
    shared: Value
    circuit: circuit.Circuit
    end: End


def plans(task: Material) -> tuple[ArrayCircuit, ...]:
    """The circuit of every array of the job; none where no inverter of its own is chosen."""
    if not has_inverter(task.job.content):
        return ()
    return tuple(_plan(task, id) for id in task.job.ids("arrays"))


def _plan(task: Material, id: str) -> ArrayCircuit:
    fact = task.job.fact
    content = next(each for each in task.job.content.arrays if each.id == id)
    name, entry = content.name or id.replace("-", " "), f"pv_inputs.{content.input or 'unknown'}"
    together = [each.id for each in task.job.content.arrays if each.input == content.input and content.input]
    currents = {each: _current(task, each) for each in dict.fromkeys([id, *together])}
    strings = total("n_str", [fact(f"arrays.{each}.strings", "n_str", "1") for each in currents], "1")
    current, shared = currents[id], total("I_pv", list(currents.values()), "A")
    least = attempt("I_req", "A", lambda: photovoltaics.ampacity(task.nec, current))
    device = attempt("I_n", "A", lambda: overcurrent.next_standard(task.nec, least))
    need = Need(least, current, device, given("n_wire", WIRES, "1", "plus and minus"))
    end = ends.of_sheet(task, "inverter", "pv")
    ways = runs.between(task, id, [INVERTER]) or [runs.unsaid(id, INVERTER)]
    column = ends.column(task.nec, device, [end])
    metals = [metal for metal in ("cu", "al") if circuit.end_takes(end, metal)]

    def under(_: Value) -> Conditions:
        return conductor.conditions(task.nec, column, need.own, ways, metals)

    one = chosen("n_set", 1.0, "1", "the strings are joined at the array", None)
    fixed = sets.Fixed(runs.agreed(ways, "size"), one)
    found = sets.choose(
        task.nec, under, need, fixed, 1, lambda size: circuit.size_fits(task, size, [end]), lambda size, number: True
    )
    built = joined(task, f"{id}-pv", f"Conductors of {name}", need, found, ways, grows=False)
    return ArrayCircuit(id, name, entry, strings, _voltage(task, id), current, shared, built, end)


def _current(task: Material, id: str) -> Value:
    fact, path = task.job.fact, f"arrays.{id}"
    short = fact(f"{path}.short_circuit_current", "I_sc_mod", "A")
    strings = fact(f"{path}.strings", "n_str", "1")
    return attempt("I_pv", "A", lambda: photovoltaics.current(task.nec, short, strings))


def _voltage(task: Material, id: str) -> Value:
    """By the coefficient of the module's maker where the job states it, else by the table of the code."""
    fact, path = task.job.fact, f"arrays.{id}"
    module, row = fact(f"{path}.open_circuit_voltage", "U_oc", "V"), fact(f"{path}.modules", "n_mod", "1")
    coldest = fact("conditions.temperature_low", "T_low", "°C")
    if not task.job.has(f"{path}.voltage_rise"):
        return attempt("U_pv", "V", lambda: photovoltaics.by_table(task.nec, module, row, coldest))
    rise = fact(f"{path}.voltage_rise", "b_pct", "%")
    return attempt("U_pv", "V", lambda: photovoltaics.by_coefficient(task.nec, module, row, rise, coldest))
