"""The link of several units and an inverter: the place of each on it, its address, and where it is terminated.

One chain: an inverter of its own first, then the units in their order. Two on one address do not answer; a bus without
a terminator at each end, or with one between, fails when it likes. What the data sheets do not state is asked for.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from standfast.design.installation import Installation
from standfast.equipment.read import DataSheet
from standfast.fieldwork.plan import Device
from standfast.sheet import Check, Value, at_most, chosen, is_, one_of
from standfast.shelf import Edition

BUS, SET = "two-wire bus", "set by hand"
AT_END = ("switch", "plug", "always in", "automatic")
BETWEEN = ("switch", "plug", "automatic", "none")
"""Kinds of terminator that a device may have at an end of the chain, and between."""


class Place(NamedTuple):
    """A device on the link.

    Attributes:
        device: the device.
        number: its place along the chain, from 1.
        unit: its place among the units, from 1; 0 for an inverter.
        end: true where the chain ends there.
    """

    device: Device
    number: int
    unit: int
    end: bool

    @property
    def address(self) -> int | None:
        """What its address is set to; None where nobody sets one, or the data sheet does not say which."""
        link = self.device.sheet.link
        if link is None or link.address != SET or not 0 < self.unit <= len(link.addresses):
            return None
        return link.addresses[self.unit - 1]


def chain(devices: Sequence[Device]) -> list[Place]:
    """The devices along the link; none where one is alone, or all say that they do not talk."""
    ordered = sorted(devices, key=lambda one: one.role != "inverter")
    kinds = {None if each.sheet.link is None else each.sheet.link.kind for each in ordered}
    if len(ordered) < 2 or kinds == {"none"}:
        return []
    units = [each for each in ordered if each.role != "inverter"]
    return [
        Place(each, number, units.index(each) + 1 if each in units else 0, number in (1, len(ordered)))
        for number, each in enumerate(ordered, 1)
    ]


def devices_of(installation: Installation, sheets: Mapping[str, DataSheet]) -> list[Device]:
    """The units, and an inverter of its own, of an installation."""
    parts = [part for part in installation.of_kind("battery", "inverter") if part.role == part.kind]
    return [Device(part.id, part.name, part.role, sheets[part.role]) for part in parts if part.role in sheets]


def checks(devices: Sequence[Device], practice: Edition) -> list[Check]:
    """Whether every device on the link has an address of its own, and whether its two ends are terminated."""
    found, places = list[Check](), chain(devices)
    alone = sum(place.unit > 0 for place in places) == 1
    for place in places:
        found.append(_kind(place, places[0], practice))
        found += [_address(place, practice, alone=alone)] if place.unit else []
        found += [_terminator(place, practice)] if _kind_of(place).number == BUS else []
    return found


def _kind_of(place: Place) -> Value:
    return place.device.data.fact("link.kind", "kind")


def _kind(place: Place, first: Place, practice: Edition) -> Check:
    title = f"Does {place.device.name} talk on the link as {first.device.name} does?"
    limit = first.device.data.fact("link.kind", "kind_first")
    return is_(f"link.kind/{place.device.id}", title, practice.clause("link"), _kind_of(place), limit)


def _address(place: Place, practice: Edition, *, alone: bool) -> Check:
    """An address of its own: found by itself, or one of those that the maker names, one for each place."""
    device, clause = place.device, practice.clause("link")
    id, title = f"link.address/{device.id}", f"Has {device.name} an address of its own on the link?"
    how = device.data.fact("link.address", "address")
    if how.missing or how.word != SET:
        words = ("automatic", "fixed") if alone else ("automatic",)
        return one_of(id, title, clause, how, chosen("address_fit", words, "", "one address to one unit", clause))
    number = chosen("n_place", float(place.unit), "1", "its place among the units", None)
    return at_most(id, title, clause, number, device.data.count("link.addresses", "n_address"))


def _terminator(place: Place, practice: Edition) -> Check:
    device, clause = place.device, practice.clause("link")
    words, why = (AT_END, "at an end of the link") if place.end else (BETWEEN, "between the ends of the link")
    title = f"Can the link be terminated right at {device.name}?"
    limit = chosen("terminator_fit", words, "", why, clause)
    how = device.data.fact("link.terminator", "terminator")
    return one_of(f"link.terminator/{device.id}", title, clause, how, limit)
