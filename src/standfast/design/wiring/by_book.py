"""Which engine works the electrical trades of a job out: the wiring rules that its adoption names decide.

Engines are imported when a job asks for them: the books of other countries are never loaded.
"""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from standfast.design.installation import Installation
from standfast.design.wiring.backup import BackupSheet
from standfast.design.wiring.bonds import Bonds
from standfast.design.wiring.load import LoadSheet
from standfast.design.wiring.material import JobFile, Material, SheetFile
from standfast.design.wiring.whole import Sight, Wiring, unworked
from standfast.sheet import cannot_tell, missing
from standfast.shelf import Adoption, Edition
from standfast.survey.joined import source_ids

Sheets = Mapping[str, SheetFile]


class Electrical(NamedTuple):
    """The electrical trades under one book of wiring rules.

    Attributes:
        rules: the wiring rules in force; where the adoption names none, the book of good practice.
        wire: the wiring of a job, with where the disconnect of each unit is seen from.
        load: the load of the service.
        backup: what the battery carries without the grid, given the load of the service.
        bonds: joints of neutral and ground in an installation that stays when a part of the job's has left.
    """

    rules: Edition
    wire: Callable[[JobFile, Mapping[str, Sight]], Wiring]
    load: Callable[[JobFile], LoadSheet]
    backup: Callable[[JobFile, LoadSheet], BackupSheet]
    bonds: Callable[[JobFile, Installation], Bonds]


def electrical(adoption: Adoption, sheets: Sheets) -> Electrical:
    """The electrical trades of a job, by the first book of wiring rules that its adoption names."""
    engine = next((engine for book, engine in ENGINES.items() if book in adoption.books), _without)
    return engine(adoption, sheets)


def _american(adoption: Adoption, sheets: Sheets) -> Electrical:
    from standfast.design.wiring.backup import backup_load
    from standfast.design.wiring.bonded import bonds
    from standfast.design.wiring.load import service_load
    from standfast.design.wiring.whole import wire

    nec = adoption.book("nfpa70")
    return Electrical(
        nec,
        lambda job, sights: wire(nec, adoption.book("handbook"), job, sheets, sights),
        lambda job: service_load(nec, job, sheets),
        lambda job, load: backup_load(nec, job, sheets, load.house),
        lambda job, stays: bonds(
            Material(nec, adoption.book("handbook"), job, sheets, source_ids(job.content)[0]), stays
        ),
    )


def _british(adoption: Adoption, sheets: Sheets) -> Electrical:
    from standfast.design.wiring.metric.british import BRITISH
    from standfast.design.wiring.metric.whole import electrical as metric

    return metric(adoption, sheets, BRITISH)


def _australasian(adoption: Adoption, sheets: Sheets) -> Electrical:
    from standfast.design.wiring.metric.australasian import AUSTRALASIAN
    from standfast.design.wiring.metric.whole import electrical as metric

    return metric(adoption, sheets, AUSTRALASIAN)


def _without(adoption: Adoption, sheets: Sheets) -> Electrical:
    """Where no wiring rules are adopted nothing of them is known: that is told once by each trade."""
    practice = adoption.book("practice")
    why = f"the adoption {adoption.name} names no wiring rules: name under [job], adoption, one that does"
    told = {
        trade: cannot_tell(f"{trade}.rules", f"{trade.capitalize()} under adopted rules", practice.unheld(), why)
        for trade in ("wiring", "load", "backup")
    }
    unknown = missing("I", "A", why)
    return Electrical(
        practice,
        lambda job, sights: unworked(told["wiring"]),
        lambda job: LoadSheet("Load of the service", (), unknown, unknown, (told["load"],)),
        lambda job, load: BackupSheet("Backup", (), unknown, (told["backup"],)),
        lambda job, stays: Bonds(),
    )


ENGINES: Mapping[str, Callable[[Adoption, Sheets], Electrical]] = {
    "nfpa70": _american, "bs7671": _british, "asnzs3000": _australasian,
}  # fmt: skip
"""Book of wiring rules → its engine."""
