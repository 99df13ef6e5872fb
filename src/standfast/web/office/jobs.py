"""The list of jobs, taking one in from a folder of the server, and handing one out to tablets."""

from collections.abc import Sequence

from starlette.responses import Response

from standfast.foreman.field_record import NotThere
from standfast.foreman.office import handing, jobs_in, tablets
from standfast.foreman.office.cabinet import Refused
from standfast.web.office.page import page, to
from standfast.web.security.logs import note
from standfast.web.security.way import OFFICE, PEOPLE, Call, Way

_OFFICE = frozenset({OFFICE})


def show(call: Call) -> Response:
    """Every job."""
    return _jobs(call, None)


def _jobs(call: Call, refused: Refused | None) -> Response:
    found, folders = call.house.store.jobs(), jobs_in.folders(call.house.settings.jobs)
    return page(call, "jobs.html", 422 if refused else 200, jobs=found, folders=folders, refused=refused)


def take_in(call: Call) -> Response:
    """Take a job in from a folder that was named when the server was started."""
    try:
        job = jobs_in.take_in(call.house.store, call.house.settings.jobs, call.form.get("folder", ""), call.now)
    except Refused as refused:
        return _jobs(call, refused)
    note("job taken in", job, "by", call.person_id)
    return to(f"/office/jobs/{job}")


def hand_out(call: Call) -> Response:
    """Give the job to the tablets that are ticked, and take it from the others."""
    job, store = job_of(call), call.house.store
    chosen = [value for name, value in call.fields if name == "dev"]
    here = with_job(call, job)
    if chosen:
        handing.hand_out(store, job, chosen, call.house.settings.firm, call.now)
    for dev in here:
        if dev not in chosen:
            tablets.take_back(store, dev, job, call.now)
    note("job handed out", job, f"tablets={len(chosen)}", "by", call.person_id)
    return to(f"/office/jobs/{job}")


def job_of(call: Call) -> str:
    """The job of the way, where it is there."""
    job = call.params["job"]
    if all(each.id != job for each in call.house.store.jobs()):
        raise NotThere("There is no such job.", "", "Look at the list of jobs.")
    return job


def with_job(call: Call, job: str) -> Sequence[str]:
    """Tablets that have a job."""
    store = call.house.store
    here = [each.id for each in tablets.devices(store) if not each.withdrawn]
    return [dev for dev in here if tablets.has(store, dev, job, call.now)]


WAYS = (
    Way("GET", "/office/", PEOPLE, show, "page"),
    Way("POST", "/office/jobs/take-in", _OFFICE, take_in, "page"),
    Way("POST", "/office/jobs/{job}/hand-out", _OFFICE, hand_out, "page"),
)
