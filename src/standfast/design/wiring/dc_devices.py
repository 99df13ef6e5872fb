"""Overcurrent device and disconnect of the direct-current circuit of a battery: made for direct current, both ways."""

from collections.abc import Iterator

from standfast.design.wiring import runs
from standfast.design.wiring.dc_circuit import DcCircuit
from standfast.design.wiring.dc_ratings import rating
from standfast.design.wiring.material import Material
from standfast.rulebooks.nfpa70 import direct_current, overcurrent, storage
from standfast.sheet import (
    Check,
    Value,
    at_least,
    at_most,
    attempt,
    cannot_tell,
    chosen,
    exactly,
    is_,
    missing,
    not_applicable,
)
from standfast.survey.joined import INVERTER, way

INSIDE = (
    ("voltage", "rated DC voltage"), ("direction", "current both ways"), ("poles", "poles"),
    ("series", "poles in series"), ("limiting", "limits the current"),
)  # fmt: skip
WITHIN = "it is part of the battery, and of its listing"
TWO = "equipment.dc_overcurrent: the battery holds a device already, and two in a row are not worked out: leave it out"

ALIVE = (
    "fuses are alive from both ends: they are changed with the disconnect open and the battery end treated as live, "
    "and its cover is kept shut for everybody who is not qualified (706.31(E))"
)
UNPLACED = "nobody says where it stands and how far unfused conductors run to it"
LATE = (
    "another device stands between the battery and its overcurrent device, so that nothing protects what lies between: "
    "lead the first route from the battery to the overcurrent device"
)
NEAR = (
    "it stands as near to the battery as can be, in the same room: the code states no length, the authority judges it; "
    "nobody can switch off or fuse these conductors ahead of it, so they are worked on as live"
)


def overcurrent_checks(task: Material, found: DcCircuit) -> Iterator[Check]:
    """The device at the battery end: its rating, its voltage, what it can break, its poles and directions."""
    nec, unit, of = task.nec, found.unit, task.of
    title = "DC overcurrent device"
    current = attempt("I_req", "A", lambda: storage.circuit_ampacity(nec, found.current))
    yield at_least(
        f"wiring.dc-overcurrent-rating/{unit}", f"{title} carries 125 % of the greatest current",
        nec.clause("storage_overcurrent_rating"), found.device, current,
    )  # fmt: skip
    yield at_most(
        f"wiring.dc-overcurrent-maker/{unit}", f"{title} within what the maker of the inverter allows",
        nec.clause("listed_use"), found.device, of("inverter", "dc.max_overcurrent_device", "I_maker", "A"),
    )  # fmt: skip
    breaks = "dc.interrupting" if found.inside else "switch.dc_interrupting"
    role = "battery" if found.inside else "dc_overcurrent"
    yield direct_current.interrupting(
        nec, f"wiring.dc-interrupting/{unit}", f"{title}: what it can break as direct current",
        found.fault, of(role, breaks, "I_cu", "kA"),
    )  # fmt: skip
    yield _fuse_place(task, found)
    if found.inside:
        clause = nec.clause("storage_overcurrent_dc")
        for word, what in INSIDE:
            yield not_applicable(f"wiring.dc-overcurrent-{word}/{unit}", f"{title}: {what}", clause, WITHIN)
        if "dc_overcurrent" in task.sheets:
            yield cannot_tell(
                f"wiring.dc-overcurrent-second/{unit}", f"{title} beside that of the battery", clause, TWO
            )
        return
    standard = attempt("I_std", "A", lambda: overcurrent.next_standard(nec, found.device, "I_std"))
    yield exactly(
        f"wiring.dc-overcurrent-standard/{unit}", f"{title} has a standard rating", nec.clause("standard_ratings"),
        found.device, standard,
    )  # fmt: skip
    yield from _for_direct_current(task, unit, "dc_overcurrent", "dc-overcurrent", title)
    clause = nec.clause("storage_overcurrent_limiting")
    yes = chosen("needed", True, "", "it stands beside a battery", clause)
    limits = of("dc_overcurrent", "switch.current_limiting", "limiting")
    yield is_(f"wiring.dc-overcurrent-limiting/{unit}", f"{title} limits it", clause, limits, yes, condition=ALIVE)


def _fuse_place(task: Material, found: DcCircuit) -> Check:
    """Where the device stands, and how far conductors run from the battery to it without protection of their own.

    The code states no length: as near to the battery as can be, and where the conductors go through a wall, floor or
    ceiling, at the battery's end of them.
    """
    unit, clause = found.unit, task.nec.clause("storage_overcurrent")
    id, title = f"wiring.dc-overcurrent-place/{unit}", "Conductors from the battery to its DC overcurrent device"
    if found.inside:
        return not_applicable(id, title, clause, WITHIN)
    fuse, led = f"{unit}/dc-overcurrent", way(task.job.content, unit, [INVERTER])
    if "dc_overcurrent" not in task.sheets:
        return cannot_tell(id, title, clause, "equipment.dc_overcurrent: choose one by the id of its data sheet")
    if led is None or fuse not in led.devices:
        word = "fuse" if (task.job.content.equipment.quantity or 1) == 1 else unit.replace("battery", "fuse")
        return cannot_tell(id, title, clause, f'routes: the run from {unit} to "{word}", and from there on: {UNPLACED}')
    if led.devices[1] != fuse:
        return Check(id, title, clause, "fail", reason=LATE)
    length = runs.run(task, led.routes[0]).longest
    if length.missing:
        return cannot_tell(id, title, clause, length.how, length)
    return Check(id, title, clause, "pass", demand=length, condition=NEAR)


def disconnect_checks(
    task: Material, found: DcCircuit, in_sight: Value | None, distance: Value | None
) -> Iterator[Check]:  # fmt: skip
    """The disconnecting means of the battery: where it stands, its rating, that it may be opened under load."""
    nec, unit, of, title = task.nec, found.unit, task.of, "DC disconnect"
    inside = of("battery", "electrical.disconnect_inside", "inside")
    lockable = of("dc_disconnect", "switch.lockable_open", "lockable")
    need = "the place of the DC disconnect on the wall"
    seen = missing("in_sight", "", need) if in_sight is None else in_sight
    far = missing("d", "ft", need) if distance is None else distance
    place = storage.disconnect(nec, f"wiring.dc-disconnect-place/{unit}", inside, seen, far, lockable)
    yield place._replace(title="Place of the disconnecting means of the battery")
    if "dc_disconnect" not in task.sheets and not inside.missing and inside.yes:
        yield not_applicable(f"wiring.dc-disconnect-rating/{unit}", f"{title}: its rating",
                             nec.clause("storage_disconnect"), WITHIN)  # fmt: skip
        return
    least = found.circuit.need.before
    yield at_least(
        f"wiring.dc-disconnect-rating/{unit}", f"{title} is not rated below the circuit",
        nec.clause("storage_disconnect"), rating(task, "dc_disconnect", least, "I_disc"), least,
    )  # fmt: skip
    yield at_most(
        f"wiring.dc-disconnect-fault/{unit}", f"{title}: the fault current that it stands",
        nec.clause("short_circuit_rating"), found.fault,
        of("dc_disconnect", "switch.short_circuit_rating", "I_scc", "kA"),
        condition=_with(of("dc_disconnect", "switch.short_circuit_with", "with")),
    )  # fmt: skip
    yes = chosen("needed", True, "", "a battery cannot be switched off ahead of it", nec.clause("storage_disconnect"))
    yield is_(
        f"wiring.dc-disconnect-load/{unit}", f"{title} may be opened under load", nec.clause("storage_disconnect"),
        of("dc_disconnect", "switch.load_break", "load_break"), yes,
    )  # fmt: skip
    yield from _for_direct_current(task, unit, "dc_disconnect", "dc-disconnect", title)


def _for_direct_current(task: Material, unit: str, role: str, id: str, title: str) -> Iterator[Check]:
    nec, of = task.nec, task.of
    yield direct_current.voltage(
        nec, f"wiring.{id}-voltage/{unit}", f"{title}: rated DC voltage, against the charged battery",
        of(role, "switch.dc_voltage", "U_dc", "V"), of("battery", "dc.voltage_max", "U_bat_max", "V"),
    )  # fmt: skip
    clause = nec.clause("storage_overcurrent_dc")
    no = chosen("refused", False, "", "the battery gives and takes current", clause)
    polarised = of(role, "switch.dc_polarised", "polarised")
    yield is_(f"wiring.{id}-direction/{unit}", f"{title} works with current both ways", clause, polarised, no)
    poles = direct_current.ungrounded(nec, of("battery", "dc.grounding", "grounding"))
    has = of(role, "switch.poles", "n_has", "1")
    yield at_least(
        f"wiring.{id}-poles/{unit}", f"{title} has a pole in each ungrounded conductor", nec.clause("device_poles"),
        has, poles,
    )  # fmt: skip
    yield at_most(
        f"wiring.{id}-series/{unit}", f"{title}: poles in series that its DC voltage asks for", clause,
        of(role, "switch.dc_poles_in_series", "n_series", "1"), has,
    )  # fmt: skip


def _with(protection: Value) -> str:
    return "" if protection.missing else protection.word
