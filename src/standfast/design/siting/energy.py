"""Rated energy: of each unit, and of all units in one kind of place."""

from collections.abc import Iterator

from standfast.design.siting.asking import Ask, Judge, bound, rule
from standfast.design.siting.layout import Layout, Unit
from standfast.faults import NotInEdition
from standfast.sheet import Check, Value, at_most, missing, total
from standfast.shelf import Adoption

_BOOKS = ("crc", "irc", "nfpa855")
GROUPS = ("utility-space", "attached-garage", "detached-building", "exterior-wall", "ground")
"""Kinds of place that have a limit of their own."""
COUNTED_APART = "the authority counts each place by itself, and not all storage of the property together"


@rule("unit-energy", *_BOOKS)
def unit_energy(ask: Ask, layout: Layout) -> Iterator[Check]:
    """Each unit."""
    limit = ask.book.number("unit_energy")
    for unit in layout.units:
        yield at_most(
            ask.id(unit.id), f"Is {unit.name} within the energy of one unit?", ask.clause, _energy(unit), limit
        )


def _key(group: str) -> str:
    return f"energy_{group.replace('-', '_')}"


def _place_energy(group: str) -> Judge:
    key = _key(group)

    def place_energy(ask: Ask, layout: Layout) -> Iterator[Check]:
        limit, places = ask.book.number(key), ask.words(f"{key}_places")
        there = [unit for unit in layout.every if unit.place in places]
        if not there:
            return
        whole = _whole_dwelling(ask, layout, limit)
        energies = [_energy(unit) for unit in (layout.every if whole else there)]
        if layout.room is not None:
            energies += [energy for place, energy in layout.room.stored if whole or place in places]
        energy = total("E_place", energies, "kWh", ask.clause)
        title = f"Is the energy of the place within its limit ({group.replace('-', ' ')})?"
        yield at_most(ask.id(), title, ask.clause, energy, limit, condition=_condition(ask, layout))

    return place_energy


for _group in GROUPS:
    rule(f"energy-{_group}", *_BOOKS, key=_key(_group))(_place_energy(_group))


def _whole_dwelling(ask: Ask, layout: Layout, limit: Value) -> bool:
    """True where the authority caps the whole dwelling: the smaller limit of a place stays its own."""
    if layout.facts.energy_counted == "per place":
        return False
    return limit.quantity >= ask.book.number("energy_dwelling_cap").quantity


def _condition(ask: Ask, layout: Layout) -> str:
    """What a pass of one place hangs on where all the storage of the property is more than a cap of the whole dwelling.

    Some authorities read the limits as one cap. Storage of which nobody knows is left out here: the place in which it
    stands cannot be told by itself.
    """
    if layout.room is None:
        return ""
    stored = {id(energy): energy for _, energy in layout.room.stored}
    known = [each for each in (*map(_energy, layout.every), *stored.values()) if not each.missing]
    everything = total("E_property", known, "kWh", ask.clause)
    cap = ask.book.number("energy_dwelling_cap")
    return COUNTED_APART if everything.quantity > cap.quantity else ""


def _energy(unit: Unit) -> Value:
    if unit.energy is None:
        return missing("E_unit", "kWh", f"rated energy of {unit.name}")
    return unit.energy


def place_limit(adoption: Adoption, place: str) -> Value:
    """The limit of a kind of place. NotInEdition where no book in force has one for it."""
    for group in GROUPS:
        try:
            ask = bound(adoption, f"energy-{group}")
        except NotInEdition:
            continue
        if place in ask.words(f"{_key(group)}_places"):
            return ask.book.number(_key(group))
    raise NotInEdition(f"no book of the adoption {adoption.name} limits the energy in {place!r}")
