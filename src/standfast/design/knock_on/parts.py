"""The existing parts that work on a house can bring under an edition, what was surveyed of them, and what is enough."""

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

from standfast.design.installation.build import JobFile
from standfast.design.knock_on import work
from standfast.rulebooks.nfpa70 import existing
from standfast.sheet import Value, chosen, missing
from standfast.shelf import Edition
from standfast.terms import ExistingPart as Part

OUTSIDE = "outside"
_PIPES: Mapping[Part, str] = {"water pipe bond": "water", "gas pipe bond": "gas"}
IDS: Mapping[Part, str] = {
    "surge protection": "surge-protection",
    "feeder surge protection": "feeder-surge-protection",
    "arc-fault protection": "arc-fault",
    "circuit directory": "circuit-directory",
    "closed openings": "closed-openings",
    "water pipe bond": "water-pipe-bond",
    "gas pipe bond": "gas-pipe-bond",
    "electrodes joined": "electrodes-joined",
    "second electrode": "second-electrode",
    "intersystem bonding terminal": "intersystem-bonding",
    "smoke alarms": "smoke-alarms",
    "carbon monoxide alarms": "carbon-monoxide-alarms",
}
"""Part → the second word of its checks' ids. With low lines it is the key of its clause; after ``brought_`` that of its
trigger."""


class Asked(NamedTuple):
    """One existing part at one place.

    Attributes:
        part: which.
        book: that asks it: ``nfpa70`` or ``irc``.
        at: panel or circuit, by its id; empty for the house.
        where: the place in words.
        title: the question.
        works: what the job does to it.
        found: what was surveyed: yes or no, or a word of a set.
        accepted: key of the set of words that are enough; empty where yes is.
        free: why nothing is asked though the work would bring it; empty where it is.
        short: length of added conductor that makes it needless, where there is one and it is short enough.
    """

    part: Part
    book: Literal["nfpa70", "irc"]
    at: str
    where: str
    title: str
    works: work.Works
    found: Value
    accepted: str = ""
    free: str = ""
    short: Value | None = None

    @property
    def id(self) -> str:
        """Id of its check."""
        return f"existing.{IDS[self.part]}" + (f"/{self.at}" if self.at else "")

    @property
    def key(self) -> str:
        """Key of its clause."""
        return IDS[self.part].replace("-", "_")


def parts(job: JobFile, nec: Edition) -> Iterator[Asked]:
    """Every existing part that is asked about, in the order of the list that the owner gets.

    Args:
        job: the job file.
        nec: the electrical code in force.
    """
    house = work.of_the_house(job)
    yield from _panels(job, house)
    yield from _circuits(job, nec)
    yield from _bonding(job, nec, house)
    yield from _alarms(job, house)


def _panels(job: JobFile, house: work.Works) -> Iterator[Asked]:
    for panel in job.content.panels:
        works, path, name = {**house, **work.of_panel(job, panel)}, f"panels.{panel.id}", panel.name or panel.id
        surge = job.fact(f"{path}.surge_protection", "surge_protection")
        if panel.fed_from == work.UTILITY:
            title = f"Surge protection at the service, {name}"
            yield Asked("surge protection", "nfpa70", panel.id, name, title, works, surge)
        else:
            title = f"Surge protection at {name}, which a feeder supplies"
            yield Asked("feeder surge protection", "nfpa70", panel.id, name, title, works, surge)
        if panel.state != "new":
            names, closed = job.fact(f"{path}.directory", "directory"), job.fact(f"{path}.openings_closed", "closed")
            title = f"{name} has a directory that names every circuit"
            yield Asked("circuit directory", "nfpa70", panel.id, name, title, works, names)
            title = f"Open spaces and knock-outs of {name} are closed"
            yield Asked("closed openings", "nfpa70", panel.id, name, title, works, closed)


def _circuits(job: JobFile, nec: Edition) -> Iterator[Asked]:
    for panel in job.content.panels:
        for circuit in panel.circuits:
            if circuit.moved_from is None:
                continue
            path, name = f"panels.{panel.id}.circuits.{circuit.id}", circuit.name or circuit.id
            added = job.fact(f"{path}.extended", "L_added", "ft")
            serves = _listed(job, f"{path}.serves", "serves", "the rooms in which its outlets are")
            breaker, connected = job.fact(f"{path}.breaker", "I_n", "A"), job.fact(f"{path}.phases", "connected")
            found = job.fact(f"{path}.arc_fault", "arc_fault")
            if found.number is not True:  # a no counts only where length and rooms, which could excuse it, are known
                how = "it is not, and its length and rooms are known"
                found = chosen("protected", False, "", how, None, found, added, serves)
            title = f"{name}, which is moved, is protected against arc faults or made little longer"
            yield Asked(
                "arc-fault protection", "nfpa70", circuit.id, name, title, work.of_circuit(circuit), found, "",
                existing.arc_fault_out_of_scope(nec, breaker, connected, serves),
                added if existing.short_extension(nec, added) else None,
            )  # fmt: skip


def _bonding(job: JobFile, nec: Edition, house: work.Works) -> Iterator[Asked]:
    for part, pipe in _PIPES.items():
        bonded, there = job.fact(f"supply.{pipe}_pipe_bonded", "bonded"), f"supply.metal_{pipe}_pipe"
        metal = job.fact(there, "metal")
        free = f"no metal {pipe} pipe is in the building" if metal.number is False else ""
        if bonded.number is False:  # a no counts only where there is something to bond
            bonded = chosen("bonded", False, "", "it is not, and there is metal pipe", None, bonded, metal)
        yield Asked(part, "nfpa70", "", f"{pipe} pipe", f"Metal {pipe} pipe is bonded", house, bonded, "", free)
    what = "the grounding electrodes that are there"
    kinds = _listed(job, "supply.electrodes", "electrodes", what)
    joined = job.fact("supply.electrodes_joined", "joined")
    if joined.number is False:
        joined = chosen("joined", False, "", "they are not, and it is known which are there", None, joined, kinds)
    single = len(job.content.supply.electrodes) == 1
    free = "one electrode is there: there is nothing to join" if single else ""
    title = "All grounding electrodes that are there are joined"
    yield Asked("electrodes joined", "nfpa70", "", "grounding electrodes", title, house, joined, "", free)
    title, second = "The water pipe is not the only grounding electrode", existing.second_electrode(nec, kinds)
    yield Asked("second electrode", "nfpa70", "", "grounding electrodes", title, house, second)
    title, found = "Terminal for bonding communications systems", job.fact("supply.intersystem_bonding", "terminal")
    yield Asked("intersystem bonding terminal", "nfpa70", "", "service", title, house, found)


def _listed(job: JobFile, path: str, symbol: str, what: str) -> Value:
    """A set of words; missing where the file lists none."""
    found = job.fact(path, symbol)
    return found if found.number else missing(symbol, "", f"{path}: {job.file} does not say. Write {what}")


def _alarms(job: JobFile, house: work.Works) -> Iterator[Asked]:
    smoke = job.fact("site.smoke_alarms", "smoke_alarms")
    title = "Smoke alarms are where a new dwelling has them"
    yield Asked("smoke alarms", "irc", "", "dwelling", title, house, smoke, "smoke_alarms_accepted")
    found, fuel = job.fact("site.co_alarms", "co_alarms"), job.fact("site.fuel_burning", "fuel_burning")
    garage = any(
        room.kind == "attached garage" and room.opens_into not in (None, OUTSIDE) for room in job.content.rooms
    )
    free = ""
    if not garage and fuel.number is False:
        free = "no fuel is burnt in the dwelling and no attached garage opens into it"
    elif not garage and found.number is False:
        found = chosen("co_alarms", False, "", "there is none, and fuel is burnt in the dwelling", None, found, fuel)
    title = "Carbon monoxide alarms are where a new dwelling has them"
    yield Asked("carbon monoxide alarms", "irc", "", "dwelling", title, house, found, "", free)
