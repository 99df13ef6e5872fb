"""Earth faults: loop impedance, residual current devices, protective conductors."""

from standfast.faults import OutsideTable
from standfast.sheet import Value, chosen, missing, work
from standfast.shelf import Edition


def loop_impedance(book: Edition, external: Value, circuit: Value) -> Value:
    """Z_s in ohm from Z_e and R_1 + R_2 of the circuit, all at one temperature."""
    return work("Z_s", "Z_e + R_12", "ohm", book.clause("earth_loop"), Z_e=external, R_12=circuit)


def greatest_loop_impedance(book: Edition, curve: str, rating: Value, voltage: Value, c_min: Value) -> Value:
    """Greatest Z_s in ohm with which a circuit breaker trips instantaneously.

    Args:
        book: BS 7671.
        curve: ``b``, ``c`` or ``d`` of BS EN 60898 and 61009.
        rating: rated current in A.
        voltage: nominal voltage to earth in V.
        c_min: voltage factor of the edition; 1 where the edition has none.
    """
    multiple = book.table("instantaneous_trip").pick("n_trip", "multiple", curve=curve)
    text = "U_0 * C_min / (n_trip * I_n)"
    return work("Z_s_max", text, "ohm", book.clause("earth_loop"), multiple, U_0=voltage, C_min=c_min, I_n=rating)


def cold_reading_limit(book: Edition, z_max: Value) -> Value:
    """The greatest reading in ohm on a circuit at room temperature, for conductors that warm up in use."""
    k_cold = book.number("cold_reading")
    return work("Z_s_test", "k_cold * Z_s_max", "ohm", k_cold.clause, k_cold, Z_s_max=z_max)


def earth_fault_current(book: Edition, voltage: Value, impedance: Value) -> Value:
    """Earth fault current in A from the voltage to earth in V and the loop impedance in ohm."""
    return work("I_f", "U_0 / Z_s", "A", book.clause("adiabatic"), U_0=voltage, Z_s=impedance)


def least_protective_conductor(book: Edition, fault: Value, time: Value, k: Value) -> Value:
    """Least area in mm2 by the adiabatic equation.

    Args:
        book: BS 7671.
        fault: earth fault current in A.
        time: disconnection time in s at that current.
        k: factor of the conductor and its surroundings in A s^0.5/mm2.

    Raises:
        OutsideTable: for a time beyond which the conductor sheds heat and the equation does not hold.
    """
    longest = book.number("adiabatic_longest")
    if not time.missing and time.quantity > longest.quantity:
        raise OutsideTable(f"the adiabatic equation holds up to {longest.quantity:g} s, not for {time.quantity:g} s")
    return work("S", "sqrt(I**2 * t) / k", "mm2", book.clause("adiabatic"), I=fault, t=time, k=k)


def greatest_electrode_resistance(book: Edition, residual: Value, touch: Value) -> Value:
    """Greatest resistance in ohm of electrode and protective conductor of a TT installation.

    `residual` is the rated residual current in A, `touch` the touch voltage allowed in V.
    """
    return work("R_A", "U_touch / I_dn", "ohm", book.clause("tt_rcd"), U_touch=touch, I_dn=residual)


def longest_tripping_time(book: Edition, device: str, multiple: Value) -> Value:
    """Longest tripping time in ms at a multiple of the rated residual current.

    `device` is ``general`` (without delay) or ``s_type`` (selective). Between two points of the device standard the
    time of the lower one holds.
    """
    return book.table("rcd_times").look("t_max", "longest", device=device, multiple=multiple)


def least_tripping_time(book: Edition, device: str, multiple: Value) -> Value | None:
    """Least tripping time in ms of a selective device at a multiple of the rated residual current.

    None for a device without delay, which may trip at once. Between two points that of the higher one holds.
    """
    table = book.table("rcd_least_times")
    return table.look("t_min", "least", device=device, multiple=multiple) if device in table.column("device") else None


def sources_and_supply(book: Edition, supply: Value, generators: Value) -> Value:
    """Least rated current in A of an assembly that a supply device and generator devices feed together."""
    text = "I_supply + I_generators"
    return work("I_nA_min", text, "A", book.clause("assembly_rating"), I_supply=supply, I_generators=generators)


def insulation_row(book: Edition, low_voltage: bool, voltage: Value, sensitive: bool) -> Value:
    """The row of the insulation table that a circuit falls under.

    Args:
        book: BS 7671.
        low_voltage: false for SELV and PELV.
        voltage: nominal voltage in V.
        sensitive: true where equipment that a full test voltage could damage stays connected.

    Raises:
        OutsideTable: for a SELV or PELV circuit above the voltage of such circuits.
    """
    clause = book.clause("insulation_test")
    if not low_voltage:
        highest = book.number("selv_highest")
        if not voltage.missing and voltage.quantity > highest.quantity:
            raise OutsideTable(f"{voltage.quantity:g} V is more than SELV or PELV may have ({highest.quantity:g} V)")
        return chosen("row", "SELV and PELV", "", "the circuit is SELV or PELV", clause, voltage)
    if sensitive:
        clause = book.clause("insulation_test_sensitive")
        return chosen("row", "equipment that could be damaged", "", "it cannot be disconnected", clause, voltage)
    boundary = book.number("insulation_boundary")
    row = "up to 500 V" if voltage.missing or voltage.quantity <= boundary.quantity else "above 500 V"
    return chosen("row", row, "", "nominal voltage of the circuit", clause, voltage, boundary)


def insulation_limits(book: Edition, row: Value) -> tuple[Value, Value]:
    """Test voltage in V d.c. and least insulation resistance in megohm of a row of the table."""
    table = book.table("insulation")
    return table.look("U_test", "test", row=row), table.look("R_min", "least", row=row)


def disconnection_time(book: Edition, earthing: str, circuit: str) -> Value:
    """Longest disconnection time in s at 230 V to earth.

    Args:
        book: BS 7671.
        earthing: ``TN-C-S``, ``TN-S`` or ``TT``.
        circuit: ``final`` or ``distribution``.
    """
    system = "TT" if earthing == "TT" else "TN"
    return book.table("disconnection_times").pick("t_max", "longest", system=system, circuit=circuit)


def instantaneous_multiple(book: Edition, curve: str) -> Value:
    """Multiple of its rating at which a breaker trips at once, at the high end of its band."""
    return book.table("instantaneous_trip").pick("n_trip", "multiple", curve=curve.lower())


def protective_factor(book: Edition, cable: str) -> Value:
    """k in A s^0.5/mm2 of the protective conductor in a kind of cable."""
    return book.table("cables").pick("k", "k", cable=cable)


def protective_of_cable(book: Edition, cable: str, area: Value) -> Value:
    """Area in mm2 of the protective conductor: of flat cable as it is made, else by selection."""
    if book.table("cables").pick("protective", "protective", cable=cable).word == "flat":
        return book.table("flat_cable").look("S_p", "protective", area=area)
    return protective_by_selection(book, area)


def protective_by_selection(book: Edition, area: Value) -> Value:
    """Area in mm2 of a protective conductor of the metal of its line, by Table 54.7."""
    small, middle, clause = book.number("select_small"), book.number("select_middle"), book.clause("select_protective")
    if area.missing:
        return missing("S_p", "mm2", area.how, area)
    if area.quantity <= small.quantity:
        return chosen("S_p", area.quantity, "mm2", f"line up to {small.quantity:g} mm²", clause, area, small)
    if area.quantity <= middle.quantity:
        return chosen("S_p", small.quantity, "mm2", f"line up to {middle.quantity:g} mm²", clause, area, small, middle)
    return work("S_p", "S / 2", "mm2", clause, S=area)


def let_through_energy(book: Edition, curve: str, rating: Value, breaking: Value) -> Value:
    """Greatest energy in A2 s that an energy-limiting breaker lets through at its breaking capacity in A.

    OutsideTable for ratings and breaking capacities that the device standard does not hold.
    """
    unknown = next((each for each in (rating, breaking) if each.missing), None)
    if unknown is not None:
        return missing("I2t", "A2 s", unknown.how, unknown)
    table = book.table("let_through")
    return table.pick("I2t", "energy", rating, breaking, curve=curve.lower(), breaking=breaking.quantity,
                      rating=rating.quantity)  # fmt: skip


def tripping_time_s(book: Edition, device: str, multiple: Value) -> Value:
    """Longest tripping time in s at a multiple of the rated residual current; beyond the last point that of it."""
    return work("t_rcd", "t_max / 1000", "s", None, t_max=longest_tripping_time(book, device, multiple))
