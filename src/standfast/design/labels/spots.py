"""Where every source of the house is disconnected: the device, and the place of the device."""

from collections.abc import Iterator, Mapping

from standfast.design.installation import Installation, Part
from standfast.design.installation.graph import PartKind
from standfast.rulebooks.nfpa70.marking import mark
from standfast.sheet import Check, cannot_tell
from standfast.shelf import Edition
from standfast.survey.joined import devices
from standfast.survey.model import Job
from standfast.survey.read import Survey

SWITCHES: tuple[PartKind, ...] = ("breaker", "disconnect", "transfer equipment")
SERVICE = "service-disconnect"


def is_of_source(part: Part) -> bool:
    """True for a device in the circuit of a source that this job adds."""
    return part.id.startswith(("battery-", "inverter-"))


class Spots:
    """The sources of a house and where they are disconnected."""

    def __init__(self, installation: Installation, places: Mapping[str, str]) -> None:
        self.installation, self.places = installation, places

    def sources(self) -> list[str]:
        """Every source: the utility first."""
        return [f"utility, {self._told(self.installation.parts[SERVICE])}", *self.others()]

    def others(self, *, storage_only: bool = False) -> list[str]:
        """Every source that is not the utility, or only storage."""
        return [f"{name}, {self._told(at)}" for name, at in self._switched(storage_only=storage_only)]

    def unplaced(self) -> list[Part]:
        """The devices on these signs of which nobody said where they are."""
        found = [self.installation.parts[SERVICE], *(at for _, at in self._switched() if at is not None)]
        return list({each.id: each for each in found if each.id not in self.places}.values())

    def _told(self, device: Part | None) -> str:
        if device is None:
            return "not known"
        return f"{device.name} {self.places.get(device.id, '(place not known)')}"

    def _switched(self, *, storage_only: bool = False) -> Iterator[tuple[str, Part | None]]:
        """What feeds the house beside the utility, and the device that disconnects it."""
        arrays = self.installation.of_kind("array")
        for inverter in self.installation.of_kind("inverter"):
            unit = self.installation.parts[inverter.id.removesuffix("/inverter")]
            if unit.kind == "battery" or inverter.role == "inverter":
                own = self.installation.of_kind("disconnect", "breaker")
                own = [each for each in own if each.id.startswith(f"{unit.id}/")]
                at = next((each for each in own if each.kind == "disconnect"), own[0] if own else None)
                what = "energy storage and PV" if unit.kind != "battery" and arrays else "energy storage"
                yield f"{unit.name} ({what})", at
            elif not storage_only:
                beside = [each for each, _ in self.installation.beside(inverter.id) if each.kind in SWITCHES]
                yield f"{inverter.name} (power source)", beside[0] if beside else None


def served(book: Edition, job: Survey) -> Iterator[Check]:
    """Of the telephone number on the directories, where nobody stated it, that it cannot be told.

    Raises:
        NotInEdition: where the edition holds no sign that tells it.
    """
    phone = job.fact("contractor.phone", "telephone")
    if phone.missing:
        clause, title = mark(book, "source directory").clause, "Emergency telephone on the signs"
        yield cannot_tell("labels.emergency-telephone", title, clause, phone.how, phone)


def placed(book: Edition, job: Job, installation: Installation, places: Mapping[str, str]) -> Iterator[Check]:
    """Of every device on the signs whose place nobody said, that it cannot be told.

    Raises:
        NotInEdition: where the edition holds no sign that tells places.
    """
    clause, words = mark(book, "source directory").clause, {part: word for word, part in devices(job).items()}
    for device in Spots(installation, places).unplaced():
        title = f"Place of the {device.name} on the signs"
        panel = next((each.id for each, _ in installation.beside(device.id) if each.kind == "busbar"), "")
        need = f"walls.obstacles: draw {words.get(device.id, device.id)} on the wall where it hangs"
        if device.kind == "breaker" and panel:
            need = f"panels.{panel}.wall: the wall that the panel of the {device.name} hangs on"
        elif device.kind == "breaker":
            need = f"routes: the runs that lead to the panel of the {device.name}"
        yield cannot_tell(f"labels.place/{device.id}", title, clause, need)
