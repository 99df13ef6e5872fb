"""Whether a battery and an inverter of two data sheets fit together: voltages, currents, ports, ground."""

from collections.abc import Iterator

from standfast.design.wiring import runs
from standfast.design.wiring.dc_circuit import DcCircuit
from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import direct_current
from standfast.sheet import Check, at_least, at_most, cannot_tell, is_
from standfast.survey.joined import INVERTER, installed, unit_ids


def checks(task: Material, found: DcCircuit) -> Iterator[Check]:
    """The window of the inverter holds the battery's, and each gives what the other takes."""
    nec, unit, of = task.nec, found.unit, task.of
    volts, maker = nec.clause("voltage_match"), nec.clause("listed_use")
    yield at_least(
        f"wiring.dc-voltage-low/{unit}", "Lowest voltage of the battery within the window of the inverter", maker,
        of("battery", "dc.voltage_min", "U_bat_min", "V"), of("inverter", "dc.voltage_min", "U_inv_min", "V"),
    )  # fmt: skip
    yield at_most(
        f"wiring.dc-voltage-high/{unit}", "Highest voltage of the battery within the window of the inverter", volts,
        of("battery", "dc.voltage_max", "U_bat_max", "V"), of("inverter", "dc.voltage_max", "U_inv_max", "V"),
    )  # fmt: skip
    yield at_most(
        f"wiring.dc-discharge/{unit}", "The battery gives what the inverter takes at the lowest voltage", maker,
        found.drawn, of("battery", "dc.discharge_current", "I_bat", "A"),
    )  # fmt: skip
    yield at_most(
        f"wiring.dc-charge/{unit}", "The battery takes what the inverter gives while it charges", maker,
        of("inverter", "dc.charge_current", "I_charge", "A"), of("battery", "dc.charge_current", "I_bat", "A"),
    )  # fmt: skip
    yield at_most(
        f"wiring.dc-fault/{unit}", "Fault current of the battery at the battery port of the inverter",
        nec.clause("short_circuit_rating"), found.fault, of("inverter", "dc.short_circuit_rating", "I_scc", "kA"),
    )  # fmt: skip
    yield from _ground(task, unit)
    yield from _shared(task, unit)
    if unit == unit_ids(task.job.content)[0]:
        yield _ports(task)


def _ground(task: Material, unit: str) -> Iterator[Check]:
    battery = task.of("battery", "dc.grounding", "grounding")
    inverter = task.of("inverter", "dc.grounding", "port")
    title = "Battery and inverter stand to ground in the same way"
    yield is_(f"wiring.dc-grounding/{unit}", title, task.nec.clause("listed_use"), battery, inverter)
    found = [task.of(role, "dc.fault_detection", "detected") for role in ("battery", "inverter")]
    title = "A ground fault of the DC conductors is detected and shown"
    yield direct_current.ground_fault(task.nec, f"wiring.dc-ground-fault/{unit}", title, battery, found)


def _shared(task: Material, unit: str) -> Iterator[Check]:
    """Conductors that several batteries share carry the sum of their currents, and a fault is fed from each of them."""
    own = {run.id for run in runs.between(task, unit, [INVERTER])}
    others = (each for each in unit_ids(task.job.content) if each != unit)
    shared = sorted(own & {run.id for each in others for run in runs.between(task, each, [INVERTER])})
    if shared:
        title = "The battery has conductors of its own to its port"
        why = f"routes.{shared[0]}: several batteries share it, which is not worked out: give each a run of its own"
        yield cannot_tell(f"wiring.dc-shared/{unit}", title, task.nec.clause("storage_circuit_current"), why)


def _ports(task: Material) -> Check:
    id, title = f"wiring.dc-ports/{INVERTER}", "A battery port of the inverter for every battery"
    return at_most(id, title, task.nec.clause("listed_use"), installed(task.job, "n_bat"),
                   task.of("inverter", "dc.ports", "n_port", "1"))  # fmt: skip
