"""What a motor draws while it starts: from its nameplate, else its code letter, else the motor tables, else by rule."""

from collections.abc import Callable, Sequence
from typing import NamedTuple, Protocol

from standfast import units
from standfast.design.installation.build import JobFile
from standfast.rulebooks.nfpa70 import motors
from standfast.sheet import Value, attempt, given, missing
from standfast.shelf import Edition
from standfast.survey.power import Circuit, Motor

MOTOR_VOLTS = {120: 115.0, 208: 208.0, 240: 230.0}
"""Rated voltage of motors on a nominal voltage, as the motor tables name it."""


class OnPanel(Protocol):
    """A circuit and the panel it is in."""

    @property
    def panel(self) -> str: ...  # noqa: D102

    @property
    def circuit(self) -> Circuit: ...  # noqa: D102


class Start(NamedTuple):
    """A motor's name, its panel and circuit, and its starting current in A."""

    name: str
    panel: str
    circuit: Circuit
    current: Value


def starting_currents(book: Edition, job: JobFile, circuits: Sequence[OnPanel]) -> list[Start]:
    """The starting current of the motor of every circuit that names one."""
    return [
        Start(
            each.circuit.name or each.circuit.id,
            each.panel,
            each.circuit,
            _start(book, job, each.panel, each.circuit, each.circuit.motor),
        )
        for each in circuits
        if each.circuit.motor is not None
    ]


def _start(book: Edition, job: JobFile, panel: str, circuit: Circuit, motor: Motor) -> Value:
    path = f"panels.{panel}.circuits.{circuit.id}"
    symbol = f"I_LR_{circuit.id.replace('-', '_')}"
    if motor.locked_rotor is not None:
        return job.fact(f"{path}.motor.locked_rotor", symbol, "A")
    if motor.soft_start:
        return missing(
            symbol, "A", f"{path}.motor.locked_rotor: write the greatest current with the soft starter there"
        )
    volts = _volts(job, circuit, path)
    if volts.missing:
        return missing(symbol, "A", volts.how, volts)
    if motor.code_letter is not None and motor.rating is not None:
        power = job.fact(f"{path}.motor.rating", "P", "hp")
        return motors.locked_rotor(book, _per_hp(book, motor.code_letter), power, volts, three_phase=False)
    return _by_table(book, job, path, symbol, motor, volts)


def _per_hp(book: Edition, letter: str) -> Value:
    """The upper end of a code letter's range. The last letter has none: NotInEdition."""
    return motors.locked_rotor_per_hp(book, letter.lower(), "high")


def _by_table(book: Edition, job: JobFile, path: str, symbol: str, motor: Motor, volts: Value) -> Value:
    """The motor table, else a multiple of the full-load current of the nameplate, else of the motor table."""
    size = _hp_word(motor)
    rated = given("U_motor", MOTOR_VOLTS.get(round(volts.quantity), volts.quantity), "V", f"for {volts.quantity:g} V")
    ways: list[Callable[[], Value]] = []
    if motor.full_load is not None:
        full_load = job.fact(f"{path}.motor.full_load", "I_FLC", "A")
        ways.append(lambda: motors.locked_rotor_from_full_load(book, full_load))
    if size:
        power = given("hp", size, "", job.place(f"{path}.motor.rating"))
        ways.insert(0, lambda: motors.locked_rotor_table(book, power, rated))
        ways.append(lambda: motors.locked_rotor_from_full_load(book, motors.full_load(book, power, rated)))
    found = [attempt(symbol, "A", way) for way in ways]
    need = job.fact(f"{path}.motor.locked_rotor", symbol, "A")
    return next((value for value in found if not value.missing), need)


def _volts(job: JobFile, circuit: Circuit, path: str) -> Value:
    phases = job.fact(f"{path}.phases", "phases")
    if phases.missing:
        return missing("U", "V", phases.how, phases)
    word = "supply.voltage_to_ground" if phases.word == "line to neutral" else "supply.voltage"
    return job.fact(word, "U", "V")


def _hp_word(motor: Motor) -> str:
    """The rated power as the motor tables write it: ``1/2``, ``1-1/2``; empty where no rated power is known."""
    if motor.rating is None:
        return ""
    whole, part = divmod(motor.rating.number / units.UNITS["hp"].factor, 1)
    return "-".join(str(each) for each in (whole, part) if each)
