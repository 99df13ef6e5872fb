"""Who and where: what every sheet says of the job, and what is missing of it."""

from typing import NamedTuple

from standfast.paper.sheets import Revision, TitleStrip
from standfast.shelf import Adoption, Edition
from standfast.survey.model import Job

METHODS = frozenset(("handbook", "indg143", "niosh", "tr12", "vdi2230", "iso898", "iso3506", "permitguide", "practice"))
"""Books that hold methods, product standards and practice: applied, but not adopted as codes."""
_NAME, _SENTENCES = 100, 260
"""Longest texts of the title strip."""
NOT_STATED = "not stated"
NOT_READY = "NOT READY TO SUBMIT"
READY = "FOR REVIEW"
INVENTED = "INVENTED EXAMPLE. House, people, firm and equipment do not exist."


class Lack(NamedTuple):
    """A fact of the application that is not in the job file: what, and where to put it."""

    what: str
    where: str


def lacks(job: Job) -> list[Lack]:
    """The facts that an application cannot do without."""
    asked: list[tuple[object, str, str]] = [
        (job.job.scope, "scope of the work", "scope in [job]"),
        (job.owner.name, "name of the owner", "name in [owner]"),
        (job.site.address, "address of the site", "address in [site]"),
        (job.site.parcel, "parcel number", "parcel in [site]"),
        (job.contractor.firm, "contractor", "firm in [contractor]"),
        (job.contractor.licence, "licence of the contractor", "licence in [contractor]"),
        (job.contractor.licence_expires, "expiry of the licence", "licence_expires in [contractor]"),
        (job.contractor.responsible, "responsible person", "responsible in [contractor]"),
        (job.authority.name, "authority", "name in [authority]"),
    ]
    found = [Lack(what, where) for fact, what, where in asked if fact is None]
    if expired(job):
        found.append(Lack("a licence that is valid on the date of the set", "licence_expires in [contractor]"))
    return found


def expired(job: Job) -> bool:
    """True where the licence ends before the date of the job."""
    ends = job.contractor.licence_expires
    return ends is not None and ends < job.job.date


def licence(job: Job) -> str:
    """Number and expiry of the licence, as the sheets say it."""
    held = job.contractor
    number = held.licence or f"licence {NOT_STATED}"
    ends = held.licence_expires
    if ends is None:
        return f"{number}, expiry {NOT_STATED}"
    return f"{number}, EXPIRED {ends.isoformat()}" if expired(job) else f"{number}, expires {ends.isoformat()}"


def codes(adoption: Adoption, *, adopted: bool) -> list[tuple[str, str, str]]:
    """Short name, edition and title of the codes in force; or, not adopted, of the methods that are applied."""
    books = [adoption.book(name) for name in adoption.books if (name not in METHODS) == adopted]
    places = adoption.overlays if adopted else ()
    return [
        *((book.short, book.edition, _title(book)) for book in books),
        *((place.short, place.edition, place.title) for place in places),
    ]


def _title(book: Edition) -> str:
    return f"{book.facts['title']}{', held in part' if book.thin else ''}"


def short(text: str, most: int) -> str:
    """A text for the title strip: cut at a word where it is longer than `most` signs; the cover holds it whole."""
    if len(text) <= most:
        return text
    head = text[:most].rsplit(" ", 1)[0]
    return f"{head} … (whole text on the cover)"


def strip(job: Job, adoption: Adoption, state: str) -> TitleStrip:
    """The title strip of every sheet of the job."""
    head = job.job
    date = head.date.isoformat()
    return TitleStrip(
        job=short(head.name, _NAME),
        address=short(job.site.address or NOT_STATED, _NAME),
        parcel=short(job.site.parcel or NOT_STATED, _NAME),
        owner=short(job.owner.name or NOT_STATED, _NAME),
        contractor=short(job.contractor.firm or f"Contractor {NOT_STATED}", _NAME),
        licence=short(licence(job), _NAME),
        scope=short(head.scope or NOT_STATED, _SENTENCES),
        codes=tuple(f"{short} {year}" for short, year, _ in codes(adoption, adopted=True)),
        date=date,
        revisions=(Revision(short(head.revision, 20), date, "this issue"),),
        state=state,
        warning=INVENTED if head.invented else "",
    )
