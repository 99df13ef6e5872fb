"""Equipment grounding conductors, grounding electrode conductors and bonding jumpers.

Three tables with three entries: 250.122 goes by the overcurrent device, 250.66 and 250.102(C)(1) by the area of the
service conductors.
"""

from functools import partial
from typing import NamedTuple

from standfast.rulebooks.nfpa70 import conductors, sizes
from standfast.sheet import Value, attempt, chosen, work
from standfast.shelf import Edition


class Upsized(NamedTuple):
    """Least area of an equipment grounding conductor in circular mils, and its size."""

    area: Value
    size: Value


class Jumper(NamedTuple):
    """A bonding jumper: area of the service conductors, least area beyond the table (None within it), size."""

    service_area: Value
    least_area: Value | None
    size: Value


def equipment(book: Edition, material: Value, rating: Value) -> Value:
    """Least wire-type equipment grounding conductor for a device rating in A; in parallel raceways a full one in each.

    For several circuits in one raceway the largest device decides.
    """
    return book.table("equipment_ground").look("EGC", "egc", material=material, rating=rating)


def equipment_upsized(book: Edition, base: Value, original: Value, installed: Value) -> Upsized:
    """Equipment grounding conductor that grows with ungrounded conductors larger than they need be.

    Args:
        book: the code.
        base: size by the table for the device.
        original: ungrounded size that would do, ambient and bundling already counted.
        installed: ungrounded size that is installed; all of one material.
    """
    clause, own = book.clause("equipment_ground_increased"), sizes.area(book, installed)
    area = work(
        "A_EGC", "max(A_base, A_base * A_inst / A_orig)", "cmil", clause,
        A_base=sizes.area(book, base), A_inst=own, A_orig=sizes.area(book, original),
    )  # fmt: skip
    if not area.missing and area.quantity > own.quantity:
        met = "never larger than the circuit conductors"
        return Upsized(area, chosen("EGC", installed.word, "", met, book.clause("equipment_ground"), area, own))
    return Upsized(area, sizes.with_area(book, area, "EGC", "equipment_ground_increased"))


def equipment_capped(book: Edition, size: Value, circuit: Value) -> Value:
    """The equipment grounding conductor is never required to be larger than the circuit conductors."""
    if size.missing or circuit.missing:
        return chosen("EGC", "", "", "", None, size, circuit)
    if sizes.not_smaller(book, circuit.word, size.word):
        return size
    met = "never larger than the circuit conductors"
    return chosen("EGC", circuit.word, "", met, book.clause("equipment_ground"), size, circuit)


def electrode(book: Edition, service: Value, size: Value, sets: Value, material: Value, electrode: str) -> Value:
    """Grounding electrode conductor of an alternating-current service.

    Args:
        book: the code.
        service: material of the ungrounded service conductors.
        size: their size.
        sets: how many in parallel; their areas add.
        material: of the grounding electrode conductor.
        electrode: ``rod``, ``concrete`` or ``other``: the caps of 250.66(A) and (B) hold where the conductor goes on
            to no other kind of electrode.
    """
    area = _service_area(book, size, sets)
    found = book.table("electrode_conductor").look("GEC", "size", service=service, material=material, area=area)
    if found.missing or electrode == "other":
        return found
    cap = book.number(f"electrode_cap_{electrode}_{material.word}")
    if sizes.not_smaller(book, cap.word, found.word):
        return found
    met = f"only to a {electrode} electrode"
    return chosen("GEC", cap.word, "", met, book.clause("electrode_conductor"), cap, found)


def bonding_jumper(book: Edition, service: Value, size: Value, sets: Value, material: Value) -> Jumper:
    """Main, system or supply-side bonding jumper.

    Beyond the table 12.5 % of the area of the service conductors; where the materials differ, of service conductors
    of the jumper's material with at least the same ampacity (notes 1 and 2).

    Args:
        book: the code.
        service: material of the ungrounded service conductors.
        size: their size.
        sets: how many in parallel.
        material: of the jumper.

    Returns:
        Areas and size; the size is missing where the area is beyond the largest conductor held.

    Raises:
        OutsideTable: where no conductor of the jumper's material has the ampacity of the service conductors.
    """
    area = _service_area(book, size, sets)
    table = book.table("bonding_jumper")
    if area.missing or service.missing or material.missing:
        return Jumper(area, None, chosen("jumper", "", "", "", None, area, service, material))
    tops = [row["area"] for row in table.rows if row["service"] == service.word]
    if area.quantity <= max(top for top in tops if isinstance(top, float)):
        return Jumper(area, None, table.look("jumper", "size", service=service, material=material, area=area))
    same = service.word == material.word
    own = area if same else _service_area(book, _equivalent(book, service, size, material), sets)
    clause, factor = book.clause("bonding_jumper_beyond"), book.number("jumper_fraction")
    least = work("A_jumper", "k_jumper * A_service", "cmil", clause, factor, A_service=own)
    size_of = partial(sizes.with_area, book, least, "jumper", "bonding_jumper_beyond")
    return Jumper(area, least, attempt("jumper", "", size_of))


def _service_area(book: Edition, size: Value, sets: Value) -> Value:
    clause = book.clause("bonding_jumper")
    return work("A_service", "n_set * A_c", "cmil", clause, sizes.area(book, size), n_set=sets)


def _equivalent(book: Edition, service: Value, size: Value, material: Value) -> Value:
    column = book.number("termination_large", "T_col")
    ampacity = conductors.tabulated(book, service, size, column)
    one = chosen("n_set", 1.0, "1", "one set", None)
    return conductors.smallest(book, ampacity, one, material, column).size
