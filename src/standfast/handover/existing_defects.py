"""Existing defects and work that the job brings with it: a sheet that the owner signs before the contract.

It holds every part that the knock-on list finds lacking, done with the job or not known, with the work that brings it,
clause and price; every defect that the survey wrote down, with what is done and what is left; and room to choose and
to sign.
"""

from collections.abc import Iterator, Sequence
from itertools import count

from standfast.design.knock_on.whole import KnockOn, Row
from standfast.equipment.prices import Price
from standfast.handover.particulars import NOT_STATED, codes, licence, strip
from standfast.paper.document import (
    Attachment,
    Block,
    Bullets,
    Document,
    Facts,
    Fields,
    Frame,
    Gap,
    Heading,
    Keep,
    Sheet,
    Table,
    Text,
    Words,
    bold,
    box,
    verdict,
)
from standfast.paper.sheets import ANSI_A
from standfast.sheet import Check, Ledger
from standfast.shelf import Adoption
from standfast.survey.existing import Defect
from standfast.survey.model import Job

TITLE = "Existing defects, and work that this job brings with it"
STATE = "FOR THE OWNER TO SIGN, BEFORE THE CONTRACT"
INTRO = (
    "What stands and is not touched stays as it was lawfully built. Where the chosen work touches a part of the house, "
    "or needs a permit, the code that is in force now asks more of some of them. They are listed here before the "
    "contract, with their price, so that nobody is surprised on the day of the work."
)
LIMITS = (
    "The list holds what the survey saw and wrote down. Walls, ceilings and fixed covers were not opened; what lies "
    "behind them is not known, and what is found there during the work is told and priced before it is done.",
    "Where a code asks a part and the owner declines it, the work cannot be finished as the permit asks. The authority "
    "may ask more, or less, than stands here; it decides.",
    "Clauses were read in secondary sources or are from memory, and were not compared with the printed code; the "
    "calculations of the permit set say which.",
    "A defect that is a danger now is mended or made safe before anything is connected, or the work does not begin.",
)
DANGERS = {"immediate": "DANGER NOW", "soon": "a danger that grows", "note": "worth knowing"}
ACTIONS = {"with this job": "Mended with this job", "made safe": "Made safe, not mended", "left": "Left as it is"}
CHOICE: Text = (box(), "\u00a0do it ", box(), "\u00a0decline")
NO_DECLINING: Text = (box(), "\u00a0mend it ", box(), "\u00a0make it safe")
"""What an owner can choose of a danger that is there now."""
ELSEWHERE = (
    "wiring.service-rating", "wiring.service-conductors", "wiring.emergency-disconnect", "wiring.electrode-conductor",
    "siting.garage-separation/", "siting.fire-detection/",
)  # fmt: skip
"""Checks of other trades on parts that are there, by the beginning of their ids."""
OF_PANELS = (
    "wiring.panel-spaces/", "wiring.panel-protection/", "wiring.source-busbar/", "wiring.interrupting-rating/",
    "wiring.short-circuit-rating/",
)  # fmt: skip
"""The same for a panel that is there; its id follows."""


def existing_defects(job: Job, job_file: bytes, adoption: Adoption, found: KnockOn, ledger: Ledger) -> Document:
    """The sheet of a job, with something to sign or without.

    Args:
        job: the job file's model.
        job_file: its text, which travels inside the PDF.
        adoption: the codes in force.
        found: the knock-on list.
        ledger: every check, for those of other trades that ask a change of what is there.
    """
    return Document(
        title=f"{TITLE}, {job.job.name}, revision {job.job.revision}",
        author=job.contractor.firm or NOT_STATED,
        date=job.job.date.isoformat(),
        size=ANSI_A,
        strip=strip(job, adoption, STATE),
        sheets=[Sheet("X1", TITLE, [*_head(job, adoption), *_body(job, found, ledger), *_end(job)])],
        attachments=[Attachment("job.toml", job_file, "application/toml", "source", "Job file of this sheet")],
    )


def _head(job: Job, adoption: Adoption) -> Iterator[Block]:
    owner, firm = job.owner, job.contractor
    rows: list[tuple[str, Text]] = [
        ("Owner", bold(owner.name or f"name {NOT_STATED}")),
        ("House", f"{job.site.address or NOT_STATED}, built {job.site.year_built or NOT_STATED}"),
        ("Chosen work", job.job.scope or NOT_STATED),
        ("Contractor", f"{firm.firm or NOT_STATED}, {licence(job)}"),
        ("Codes", ", ".join(f"{short} {year}" for short, year, _ in codes(adoption, adopted=True))),
    ]
    yield Facts(rows, 26)
    yield Words(INTRO)


def _body(job: Job, found: KnockOn, ledger: Ledger) -> Iterator[Block]:
    asked = [row for row in found.rows if row.state in ("lacking", "done with this job")]
    unknown = [row for row in found.rows if row.state == "not known"]
    yield Heading("1. What the chosen work brings with it")
    if asked:
        yield _brought(asked, found.currency)
        yield Words(_sum(asked, found.currency))
    else:
        yield Words("Nothing that is known so far." if unknown else "Nothing: what is there may stay as it is.")
    if unknown:
        yield Heading("Still to be found out: each may bring more work", 3)
        yield Table(
            ["Part", "Clause", "What has to be found out"], [_unknown(row) for row in unknown], [3, 2, 5], size=8
        )
    in_order = [f"{row.check.title} ({row.check.clause})" for row in found.rows if row.state == "in order"]
    if in_order:
        yield Heading("Asked, looked at and in order", 3)
        yield Words("; ".join(in_order) + ".", 8)
    yield from _other_trades(job, ledger)
    yield Heading("2. Defects that the survey found")
    yield from _defects(job.defects)


def _brought(rows: Sequence[Row], currency: str) -> Table:
    head = ["", "Part, and what was found", "Brought in by", "What we do", "Price", "Owner"]
    cells: list[list[Text]] = [
        [
            bold(f"K{number}"), [bold(row.asked.title), f". Found: {_found(row)}."], _because(row), _done(row),
            _price(row.price, currency), CHOICE,
        ]
        for number, row in zip(count(1), rows)
    ]  # fmt: skip
    return Table(head, cells, [0, 3.3, 2.3, 3.5, 1.2, 1.4], size=8, tall=11)


def _found(row: Row) -> str:
    fact = row.asked.found
    if fact.missing or fact.number is None:
        return "not known"
    return ("yes" if fact.number else "no") if isinstance(fact.number, bool) else str(fact.number)


def _because(row: Row) -> str:
    clause = "" if row.trigger is None or row.trigger.clause is None else f"{row.trigger.clause}: "
    return f"{clause}{', '.join(row.work)}"


def _done(row: Row) -> Text:
    """What is done, and what the owner has said so far."""
    does = f"{row.does[0].upper()}{row.does[1:]}."
    if row.state == "done with this job":
        return [does, bold(" Agreed so far.")]
    return [does, bold(" Declined so far.")] if row.adder is not None else does


def _price(price: Price | None, currency: str) -> str:
    if price is None:
        return "to be offered"
    return f"{price.amount:,.0f} {currency}" + ("*" if price.invented else "")


def _sum(rows: Sequence[Row], currency: str) -> str:
    agreed = [row.price for row in rows if row.state == "done with this job"]
    text = f"{_total([row.price for row in rows], currency, 'Together')}; {_total(agreed, currency, 'agreed so far')}."
    if any(row.price is not None and row.price.invented for row in rows):
        text += " Prices with * are invented and are no offer."
    return f"{text} Net of tax, work included."


def _total(prices: Sequence[Price | None], currency: str, name: str) -> str:
    known = [price.amount for price in prices if price is not None]
    more = "" if len(known) == len(prices) else f" and {len(prices) - len(known)} not priced"
    return f"{name} {sum(known):,.0f} {currency}{more}"


def _unknown(row: Row) -> list[Text]:
    return [row.check.title, str(row.check.clause), row.check.reason]


def _other_trades(job: Job, ledger: Ledger) -> Iterator[Block]:
    """Open checks of other trades on parts that are there."""
    open_ = [check for check in ledger.open if _of_existing(job, check)]
    if not open_:
        return
    yield Heading("Parts that are there and that the design does not get by with", 3)
    rows: list[list[Text]] = [
        [verdict(check.verdict), check.title, str(check.clause), "; ".join(check.remedies) or check.reason]
        for check in open_
    ]
    yield Table(["", "Part", "Clause", "What would settle it"], rows, [0, 3, 2, 4], size=8)


def _of_existing(job: Job, check: Check) -> bool:
    there = [panel.id for panel in job.panels if panel.state != "new"]
    starts = (*ELSEWHERE, *(f"{start}{panel}" for start in OF_PANELS for panel in there))
    return check.id.startswith(starts)


def _defects(defects: Sequence[Defect]) -> Iterator[Block]:
    if not defects:
        yield Words("The survey wrote down none.")
        return
    head = ["", "Where, and what was found", "How it hurts", "What is done, what is left", "Price", "Owner"]
    rows: list[list[Text]] = [_defect(number, each) for number, each in zip(count(1), defects)]
    yield Table(head, rows, [0, 3.3, 2, 3.8, 1.2, 1.4], size=8, tall=11)
    left = [
        each for each in defects if each.danger == "immediate" and each.action not in ("with this job", "made safe")
    ]
    if left:
        told: list[Text] = [f"{each.where}: {each.what}" for each in left]
        yield Frame("DANGER NOW: mended or made safe, or the work does not begin", [Bullets(told)], "caution")


def _defect(number: int, each: Defect) -> list[Text]:
    seen = [f"found {each.found_on.isoformat()}" if each.found_on else "", f"photo {each.photo}" if each.photo else ""]
    more = ", ".join(filter(None, seen))
    what: Text = [bold(each.where), f": {each.what}", *([f" ({more})"] if more else [])]
    danger = DANGERS.get(each.danger or "", f"danger {NOT_STATED}")
    clause = f"; against {each.clause}" if each.clause else ""
    action = ACTIONS.get(each.action or "", "Not decided yet")
    risk = f" Where it is left: {each.risk}" if each.risk else ""
    hurts: Text = bold(danger + clause) if each.danger == "immediate" else danger + clause
    choice = NO_DECLINING if each.danger == "immediate" else CHOICE
    return [bold(f"D{number}"), what, hurts, f"{action}.{risk}", each.price or "to be offered", choice]


def _end(job: Job) -> Iterator[Block]:
    yield Heading("3. What this sheet does not say")
    yield Bullets(LIMITS)
    owner, firm = job.owner.name or "Owner", job.contractor.responsible or "Responsible person of the contractor"
    yield Keep(
        [
            Heading("4. Signed"),
            Words("I have read this sheet, ticked what shall be done, and know what is left and what can come of it."),
            Gap(6),
            Fields([(f"{owner}, owner", 3), ("Date", 1)], 14),
            Fields([(firm, 3), ("Date", 1)], 14),
        ]
    )
