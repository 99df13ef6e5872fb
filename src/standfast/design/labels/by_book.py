"""The signs of a job by the wiring rules that its adoption names."""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from standfast.design.installation import Installation
from standfast.design.labels.schedule import Label, schedule
from standfast.design.labels.spots import placed, served
from standfast.sheet import Check, Value, cannot_tell
from standfast.shelf import Adoption
from standfast.survey.read import Survey


class Signed(NamedTuple):
    """What signs tell of the wiring.

    Attributes:
        options: busbar to the option by which its sources pass.
        voltages: greatest DC voltage of every PV array in V.
        lengths: of the conductors of every PV array in ft.
    """

    options: Mapping[str, int] = {}
    voltages: Mapping[str, Value] = {}
    lengths: Mapping[str, Value] = {}


Told = tuple[tuple[Label, ...], tuple[Check, ...]]


def labelled(
    adoption: Adoption, job: Survey, installation: Installation, wiring: Signed, where: Mapping[str, str]
) -> Told:
    """The signs of a job, and checks on what they cannot tell yet.

    Args:
        adoption: the codes in force.
        job: the job file.
        installation: the graph.
        wiring: what signs tell of it.
        where: part of the installation → where it is, in words.

    Raises:
        NotInEdition: where the edition holds one of the signs not.
    """
    maker = next((maker for book, maker in MAKERS.items() if book in adoption.books), _without)
    return maker(adoption, job, installation, wiring, where)


def _american(
    adoption: Adoption, job: Survey, installation: Installation, wiring: Signed, where: Mapping[str, str]
) -> Told:
    book, backed = adoption.book("nfpa70"), job.job.backup.mode not in (None, "none")
    signs = schedule(
        book, installation, wiring.options, backup=backed, telephone=job.job.contractor.phone or "",
        voltages=wiring.voltages, lengths=wiring.lengths, places=where,
    )  # fmt: skip
    return tuple(signs), (*served(book, job), *placed(book, job.job, installation, where))


def _metric(
    adoption: Adoption, job: Survey, installation: Installation, wiring: Signed, where: Mapping[str, str]
) -> Told:
    from standfast.design.labels.metric import signs

    return signs(adoption, job, installation, where)


def _without(
    adoption: Adoption, job: Survey, installation: Installation, wiring: Signed, where: Mapping[str, str]
) -> Told:
    why = f"the adoption {adoption.name} names no book of signs for electrical work"
    clause = adoption.book("practice").unheld()
    return (), (cannot_tell("labels.rules", "Signs under adopted rules", clause, why),)


Maker = Callable[[Adoption, Survey, Installation, Signed, Mapping[str, str]], Told]
MAKERS: Mapping[str, Maker] = {"nfpa70": _american, "bs7671": _metric, "asnzs3000": _metric}
"""Book of wiring rules → what makes the signs."""
