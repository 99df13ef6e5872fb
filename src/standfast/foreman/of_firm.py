"""What the firm file gives a job: its contractor and its prices; and where the two are at odds."""

from collections.abc import Iterator, Mapping

from standfast.equipment.prices import TABLES, Prices
from standfast.equipment.read import DataSheet, find, shipped
from standfast.faults import Fault
from standfast.fieldwork.of_firm import LICENSED
from standfast.foreman.folder import FIRM, JobFolder
from standfast.sheet import Value
from standfast.survey.firm import FirmFile, read
from standfast.survey.read import Survey

SAME = {"firm": "name", "phone": "phone", "licence": "licence", "licence_expires": "licence_expires"}
"""Word of [contractor] in a job → word of [firm] that says the same."""


def firm_of(folder: JobFolder) -> tuple[FirmFile | None, list[Fault]]:
    """The firm file of a job and its faults; nothing where there is none."""
    if not folder.firm:
        return None, []
    firm, faults = read(folder.firm, FIRM)
    return firm, faults if firm is None else [*faults, *_unknown_sheets(firm, folder)]


def at_odds(firm: FirmFile, survey: Survey) -> Iterator[Fault]:
    """Faults between a job and the firm file that it is worked out with."""
    job, head = survey.job, firm.firm.firm
    if head.invented and not job.job.invented:
        what, why = f'the firm "{head.name}" is invented and the job is not', "a real job is not done by it"
        yield firm.fault(("firm", "invented"), what, why, "name the folder of your own firm with --firm")
    for word, same in SAME.items():
        said, known = getattr(job.contractor, word), getattr(head, same)
        if said is not None and known is not None and said != known:
            what, why = f'{word} is "{said}"', f'the firm file says "{known}"'
            yield survey.fault(("contractor", word), what, why, "correct one of the two, or leave it out here")
    ids = {person.id for person in firm.firm.people}
    for number, id in enumerate(job.contractor.people):
        if id not in ids:
            known_ids = ", ".join(sorted(ids)) or "nobody"
            what, why = f'there is nobody called "{id}" in the firm file', f"it knows {known_ids}"
            yield survey.fault(("contractor", "people", number), what, why, "add the person there, or correct the id")


def with_contractor(survey: Survey, firm: FirmFile) -> Survey:
    """The job with what it leaves out of its contractor taken from the firm file."""
    head, said = firm.firm.firm, survey.job.contractor
    licensed = (each.name for each in firm.firm.people if each.id in said.people and each.role == LICENSED)
    known = {word: getattr(head, same) for word, same in SAME.items()} | {"responsible": next(licensed, None)}
    contractor = said.model_copy(update={word: value for word, value in known.items() if getattr(said, word) is None})
    content = survey.content.model_copy(update={"contractor": contractor})
    return Survey(survey.file, content, survey.index, survey.unknown, survey.raw)


def priced(prices: Prices, firm: FirmFile) -> Prices:
    """A price list with the firm's own prices over it."""
    head, own = firm.firm.firm, firm.firm.prices
    tables: dict[str, Mapping[str, float]] = {table: getattr(own, table) for table in TABLES}
    return prices.over(Prices(head.invented, own.currency or prices.currency, {}).filled(tables))


def own_bars(firm: FirmFile) -> dict[str, Value]:
    """The length of one stick, spool or drum of each ware in the store, where it is written down; of several the
    longest, of which fewest are needed."""
    found: dict[str, Value] = {}
    for place, each in enumerate(firm.firm.wares):
        if each.each is not None:
            bar = firm.fact(f"wares.{place}.each", "L_bar", "ft")
            old = found.get(each.what)
            if old is None or old.quantity < bar.quantity:
                found[each.what] = bar
    return found


def in_stock(firm: FirmFile, folder: JobFolder) -> dict[str, DataSheet]:
    """The data sheets of what lies in the store, by id."""
    found = {each.sheet: find(each.sheet, folder.sheets, folder.firm_sheets).sheet for each in firm.firm.stock}
    return {id: sheet for id, sheet in found.items() if sheet is not None}


def _unknown_sheets(firm: FirmFile, folder: JobFolder) -> Iterator[Fault]:
    known = {*shipped(), *folder.firm_sheets, *folder.sheets}
    named = [(("prices", "piece", id), id) for id in firm.firm.prices.piece]
    named += [(("prices", "breaker", word), word.rpartition(" ")[0]) for word in firm.firm.prices.breaker]
    named += [(("stock", str(number), "sheet"), each.sheet) for number, each in enumerate(firm.firm.stock)]
    for path, id in named:
        if id not in known:
            at = tuple(int(part) if part.isdecimal() else part for part in path)
            yield firm.fault(at, f'there is no data sheet "{id}"', "", "put it into sheets/ beside the firm file")
    for number, aid in enumerate(firm.firm.aids):
        if aid.sheet not in known:
            what, todo = f'there is no data sheet "{aid.sheet}"', "put it into sheets/ beside the firm file"
            yield firm.fault(("aids", number, "sheet"), what, "", todo)
