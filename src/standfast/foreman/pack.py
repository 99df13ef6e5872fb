"""Writes the papers of a job into ``out/``: what the counter, the van and the crew get."""

from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple

from standfast.fieldwork.derive import plan_of
from standfast.fieldwork.materials import as_csv
from standfast.fieldwork.plan import Plan
from standfast.foreman.answers import answer, as_json
from standfast.foreman.crew import day_of
from standfast.foreman.files import write
from standfast.foreman.of_firm import own_bars
from standfast.foreman.plan import JobPlan
from standfast.foreman.read_back import settings_data
from standfast.foreman.removals import aftercare_papers
from standfast.foreman.work_orders import NAME, Named, languages_of, named, work_of
from standfast.handover import notice
from standfast.handover.calendar import calendars
from standfast.handover.counter import printed
from standfast.handover.crew import charts, with_day
from standfast.handover.existing_defects import existing_defects
from standfast.handover.gather import gather
from standfast.handover.permit_set import PermitSet, file_name, permit_set
from standfast.handover.schedules import schedules
from standfast.handover.van_sheets import van_schedules
from standfast.handover.work_order import work_order_document
from standfast.paper import schedule
from standfast.paper.document import Document
from standfast.paper.drawing import Drawing
from standfast.paper.extras import NotInstalled
from standfast.paper.pdf import Press
from standfast.paper.schedule import Schedule
from standfast.paper.xlsx import workbook

OUT = "out"
SET = "permit-set.pdf"
DERIVED = (
    "drawings/*.svg", "drawings/*.dxf", "schedules.xlsx", "*.ics", "work-order.*.pdf", "work-order.*.html",
    "removal.*.pdf", "service.pdf", "service.*.pdf",
)  # fmt: skip
"""What a run may write or not, depending on the job and on what is installed."""


class Packed(NamedTuple):
    """What was written.

    Attributes:
        paths: the files, in the order in which a person reads them.
        counter: the counter list, a line a document.
        against: what stands against handing the set over; empty where it is ready.
        left_out: what was not written because an extra is not installed or a fact is not known, a line a format.
    """

    paths: list[Path]
    counter: list[str]
    against: list[str]
    left_out: list[str]


class Papers(NamedTuple):
    """The papers of a job before they are printed."""

    permit: PermitSet
    work: Document
    work_orders: Named
    defects: Document
    removals: dict[str, Document]
    drawings: dict[str, Drawing]
    materials: str
    schedules: list[Schedule]
    calendars: dict[str, str]
    no_calendar: str


def papers(plan: JobPlan, asked: Iterable[str] = ()) -> Papers:
    """Put the papers of a job together; its work order also in the languages that are asked for."""
    made = plan.design
    contents = gather(
        plan.survey, plan.folder.text, plan.adoption, plan.sheets, made, plan.ledger, plan.folder.documents
    )
    permit = permit_set(contents)
    site = sitework(plan)
    work = work_of(plan, site, permit.against)
    order = work.order
    lists = [*schedules(contents, made.wiring, order, work.materials), *van_schedules(site, work.van)]
    defects = existing_defects(plan.survey.job, plan.folder.text.encode(), plan.adoption, made.existing, plan.ledger)
    day = day_of(plan, site, order)
    drawn = charts(site, order, day)
    english = with_day(work_order_document(work), site, order, day, drawn)
    orders = named(plan, work, day, english, languages_of(plan, asked))
    return Papers(
        permit,
        orders.documents[NAME],
        orders,
        defects,
        aftercare_papers(plan, site, languages_of(plan, asked)),
        {**contents.drawings, **drawn},
        as_csv(work.materials),
        lists,
        *calendars(site, order, day),
    )


def sitework(plan: JobPlan) -> Plan:
    """What the work on site is derived from."""
    site = plan_of(plan.survey, plan.sheets, plan.design, plan.lifting, plan.adoption, plan.ledger)
    return site if plan.firm is None else site._replace(own_bars=own_bars(plan.firm))


def pack(plan: JobPlan, languages: Iterable[str] = ()) -> Packed:
    """Write the papers of a job into ``out/`` of its folder, over those of an earlier run.

    Args:
        plan: the job.
        languages: in which the work order is written too, beside English and those of the crew.

    Raises:
        FaultsFound: where a file cannot be written, or a document of ``documents/`` cannot be bound in.
    """
    made = papers(plan, languages)
    with Press() as press, ThreadPoolExecutor() as hands:
        orders = {**made.work_orders.documents, **made.removals}
        documents = {SET: made.permit.document, "existing-defects.pdf": made.defects,
                     **{f"{name}.pdf": each for name, each in orders.items()}}  # fmt: skip
        printing = {name: hands.submit(press.pdf, each) for name, each in documents.items()}
        others, left_out = _others(plan, made)  # while the press runs
        pressed = {name: each.result() for name, each in printing.items()}
        files = {**{name: each.pdf for name, each in pressed.items()}, **others}
    out = plan.folder.path / OUT
    paths = [write(out / name, content) for name, content in files.items()]
    _clear(out, paths)
    return Packed(paths, printed(made.permit.counter, pressed[SET].numbers), made.permit.against, left_out)


def _clear(out: Path, written: list[Path]) -> None:
    """Take away what an earlier run wrote and this one did not: an old drawing beside new papers would deceive."""
    stale = {path for form in DERIVED for path in out.glob(form)} - set(written)
    for path in stale:
        path.unlink(missing_ok=True)


def _others(plan: JobPlan, made: Papers) -> tuple[dict[str, str | bytes], list[str]]:
    """What is written beside the PDFs, and what was left out, with the reason."""
    files: dict[str, str | bytes] = {
        **made.work_orders.pages,
        **_drawn(made, "svg", Drawing.svg),
        "materials.csv": made.materials,
        **{f"{each.name}.csv": schedule.as_csv(each) for each in made.schedules if each.name != "materials"},
        "checks.json": as_json(answer(plan)) + "\n",
        "settings.json": as_json(settings_data(plan)) + "\n",
        **made.calendars,
        **_told(plan),
    }
    lacking = [f"*.ics: {made.no_calendar}"] if made.no_calendar else []
    return files, [*lacking, *_extras(plan, made, files)]


def _told(plan: JobPlan) -> dict[str, str | bytes]:
    """The data of the grid operator's form, where the rules of the place have him told."""
    metric = plan.design.wiring.metric
    if metric is None or metric.notification is None:
        return {}
    return {"notification.json": as_json(notice.data(metric.notification)) + "\n"}


def _extras(plan: JobPlan, made: Papers, files: dict[str, str | bytes]) -> list[str]:
    """Add the formats that need an extra to the files; what is not installed is told and left out."""
    left_out: list[str] = []
    try:
        files |= _drawn(made, "dxf", Drawing.dxf)
    except NotInstalled as lacking:
        left_out.append(f"drawings/*.dxf: {lacking}")
    try:
        files["schedules.xlsx"] = workbook(made.schedules, plan.title, plan.survey.job.job.date)
    except NotInstalled as lacking:
        left_out.append(f"schedules.xlsx: {lacking}")
    return left_out


def _drawn(made: Papers, ending: str, form: Callable[[Drawing], str]) -> dict[str, str]:
    """Every drawing as a file of one format."""
    return {f"drawings/{file_name(part)}.{ending}": form(each) for part, each in made.drawings.items()}
