"""Signs of a job under rules that count in square millimetres: which go where, and what they tell."""

from collections.abc import Iterator, Mapping

from standfast.design.installation import Installation, Part
from standfast.design.installation.build import islanded
from standfast.design.labels.marking import Sign
from standfast.design.labels.marking import signs as held
from standfast.design.labels.schedule import BLANK, Label
from standfast.design.labels.spots import Spots
from standfast.sheet import Check, cannot_tell
from standfast.sheet.printed import amount
from standfast.shelf import Adoption
from standfast.survey.read import Survey
from standfast.units import convert

Signs = tuple[tuple[Label, ...], tuple[Check, ...]]
SIGNED = {"bs7671": ("bs7671", "pas63100"), "asnzs3000": ("asnzs3000", "asnzs4777", "asnzs5139")}
"""Wiring rules → the books that ask for signs under them."""


def signs(adoption: Adoption, job: Survey, installation: Installation, where: Mapping[str, str]) -> Signs:
    """The signs of a job, and a check for every device on them whose place nobody said.

    Args:
        adoption: the codes in force.
        job: the job file.
        installation: the graph.
        where: part of the installation → where it is, in words.

    Raises:
        NotInEdition: where the edition holds no signs.
    """
    rules = next(each for each in SIGNED if each in adoption.books)
    book, spots = adoption.book(rules), Spots(installation, where)
    asked = [sign for name in SIGNED[rules] if name in adoption.books for sign in held(adoption.book(name))]
    rows = [(sign, part) for sign in asked if _called(job, sign) for part in _at(job, installation, sign)]
    phone = job.job.contractor.phone or BLANK
    found = [_label(number, sign, part, spots, phone) for number, (sign, part) in enumerate(rows, 1)]
    clause = book.clause("dual_supply_notice")
    unplaced = [
        cannot_tell(f"labels.place/{each.id}", f"Place of the {each.name} on the signs", clause,
                    f"walls.obstacles: draw {each.id} on the wall where it hangs, or panels.….wall: that of its panel")
        for each in spots.unplaced()
    ]  # fmt: skip
    return tuple(found), (*_served(job, [sign for sign, _ in rows]), *unplaced)


def _served(job: Survey, asked: list[Sign]) -> Iterator[Check]:
    """Of the telephone number on a sign, where nobody stated it, that it cannot be told."""
    phone = job.fact("contractor.phone", "telephone")
    telling = next((sign for sign in asked if "{telephone}" in sign.wording), None)
    if phone.missing and telling is not None:
        title = "Emergency telephone on the signs"
        yield cannot_tell("labels.emergency-telephone", title, telling.clause, phone.how, phone)


def _called(job: Survey, sign: Sign) -> bool:
    """Whether the job calls for a sign."""
    backed = job.job.backup.mode not in (None, "none")
    return {"always": True, "backup": backed, "own electrode": backed and job.job.backup.own_electrode is True}[
        sign.when
    ]


def _at(job: Survey, installation: Installation, sign: Sign) -> Iterator[Part]:
    """The devices that a sign is put at."""
    boards = installation.of_kind("busbar")
    if sign.at == "origin":
        yield installation.parts["service-disconnect"]
    elif sign.at == "meter":
        yield installation.parts["meter"]
    elif sign.at == "electrode":
        yield from installation.of_kind("electrode")[:1]
    elif sign.at == "battery":
        yield from installation.of_kind("battery")
    elif sign.at == "isolation":
        yield from (each for each in installation.of_kind("disconnect") if not each.existing)
    elif sign.when == "backup":
        carried = set(islanded(job))
        yield from (each for each in boards if each.id in carried)
    else:
        yield from (each for each in boards if any(one.kind == "inverter" for one in installation.feeding(each.id)))


def _label(number: int, sign: Sign, part: Part, spots: Spots, phone: str) -> Label:
    voltage = part.facts.get("dc_voltage")
    text = sign.wording.format(
        mains=spots.sources()[0], others="; ".join(spots.others()), device=part.name, telephone=phone,
        voltage="" if voltage is None else f"UP TO {amount(voltage)} D.C.",
    )  # fmt: skip
    letters = convert(sign.letters_mm, "mm", "in")
    said, name = text.upper(), f"L{number}"
    return Label(
        name, said, part.name, sign.place, sign.look, letters, sign.clause, sign.ground, sign.name, metric=True
    )
