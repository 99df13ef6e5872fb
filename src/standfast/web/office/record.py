"""The page of a job: its record as it stands, and what the office does about it: resolve, seal, erase, export."""

from starlette.responses import Response

from standfast.foreman import field_record
from standfast.foreman.office import (
    erasing,
    exporting,
    isolation,
    own_log,
    record_view,
    sealing,
    standing,
    tablets,
)
from standfast.foreman.office.cabinet import Refused
from standfast.web.office.jobs import job_of, with_job
from standfast.web.office.page import page, to
from standfast.web.security.logs import note
from standfast.web.security.way import OFFICE, PEOPLE, Call, Way

_OFFICE = frozenset({OFFICE})
_REASON = 500


def show(call: Call) -> Response:
    """The record as it stands."""
    return _record(call, job_of(call), None)


def _record(call: Call, job: str, refused: Refused | None) -> Response:
    store = call.house.store
    title = next(each for each in store.jobs() if each.id == job)
    cards = field_record.cards(store, job)
    try:
        found = standing.standing(store, job, call.now)
        key = own_log.own(store, call.now).public
        view = record_view.view(found, cards, call.visitor.language, key)
        clock = erasing.clock(view.adoption, view.last)
        unsafe = isolation.unsafe_now(store, job, found.events, call.house.settings.firm)
    except standing.NoSheet:
        view, clock, unsafe = None, None, []
    people = sorted(filter(None, (record_view.name_on(text) for text in cards.values())))
    devices = [each for each in tablets.devices(store) if not each.withdrawn]
    return page(
        call, "job.html", 422 if refused else 200, job=title, view=view, clock=clock, names=people, devices=devices,
        here=with_job(call, job), refused=refused,
        there=frozenset(store.files(job, private=True)),
        unsafe=[each["text"].get(call.visitor.language) or each["text"]["en"] for each in unsafe],
        stamps=bool(call.house.settings.tsa),
    )  # fmt: skip


def resolve(call: Call) -> Response:
    """Say which of two values that were written at one time counts."""
    job, form = job_of(call), call.form
    try:
        sealing.resolve(call.house.store, job, form.get("item", ""), form.get("keep", ""), _reason(call), call.now)
    except Refused as refused:
        return _record(call, job, refused)
    note("resolved", job, "by", call.person_id)
    return to(f"/office/jobs/{job}")


def void(call: Call) -> Response:
    """Say that a value does not count, and why. It stays visible."""
    job = job_of(call)
    try:
        sealing.void(call.house.store, job, call.form.get("of", ""), _reason(call), call.now)
    except Refused as refused:
        return _record(call, job, refused)
    note("voided", job, "by", call.person_id)
    return to(f"/office/jobs/{job}")


def seal(call: Call) -> Response:
    """Seal the record as it stands, for the handover; with a time stamp only where it was asked for."""
    job = job_of(call)
    tsa = call.house.settings.tsa if call.form.get("stamp") else ""
    try:
        sealing.seal(call.house.store, job, tsa, call.now, call.house.settings.firm)
    except Refused as refused:
        return _record(call, job, refused)
    note("sealed", job, "with stamp" if tsa else "without stamp", "by", call.person_id)
    return to(f"/office/jobs/{job}")


def ask_erase(call: Call) -> Response:
    """What would be erased, and from when on that is asked at all."""
    job, store = job_of(call), call.house.store
    return _ask_erase(call, job, len(store.files(job, private=True)), None)


def _ask_erase(call: Call, job: str, count: int, refused: Refused | None) -> Response:
    title = next(each for each in call.house.store.jobs() if each.id == job)
    return page(call, "erase.html", 422 if refused else 200, job=title, count=count, refused=refused)


def erase(call: Call) -> Response:
    """Erase photos and names, where the name of the job was typed."""
    job, store = job_of(call), call.house.store
    title = next(each for each in store.jobs() if each.id == job)
    try:
        if " ".join(call.form.get("title", "").split()) != " ".join((title.title or title.id).split()):
            raise Refused("The name of the job is not right.", "It cannot be undone.", "Type it as it stands above.")
        gone = erasing.erase(store, job, call.form.get("reason", ""), call.now)
    except Refused as refused:
        return _ask_erase(call, job, len(store.files(job, private=True)), refused)
    note("erased", job, f"files={len(gone)}", "by", call.person_id)
    return to(f"/office/jobs/{job}")


def export(call: Call) -> Response:
    """The job as one file."""
    job = job_of(call)
    note("exported", job, "by", call.person_id)
    headers = {"Content-Disposition": f'attachment; filename="{job}.zip"'}
    return Response(
        exporting.packed_job(call.house.store, job, call.now), media_type="application/zip", headers=headers
    )


def _reason(call: Call) -> str:
    return " ".join(call.form.get("reason", "").split())[:_REASON]


_JOB = "/office/jobs/{job}"
WAYS = (
    Way("GET", _JOB, PEOPLE, show, "page"),
    Way("POST", f"{_JOB}/resolve", _OFFICE, resolve, "page"),
    Way("POST", f"{_JOB}/void", _OFFICE, void, "page"),
    Way("POST", f"{_JOB}/seal", _OFFICE, seal, "page"),
    Way("GET", f"{_JOB}/erase", _OFFICE, ask_erase, "page"),
    Way("POST", f"{_JOB}/erase", _OFFICE, erase, "page"),
    Way("GET", f"{_JOB}/export", _OFFICE, export, "page"),
)
