"""The ways of the field record: `/api/v1`. Tablets bring their own log of jobs that they have; the office any."""

import json
import re
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from starlette.responses import Response

from standfast.foreman import field_record
from standfast.foreman.field_record import NotAllowed, NotThere
from standfast.foreman.office import limits, tablets
from standfast.foreman.office.cabinet import Refused, stamp
from standfast.foreman.office.uploads import PIECE_BYTES
from standfast.web.field import models
from standfast.web.security import cookies
from standfast.web.security.answers import Stopped, data
from standfast.web.security.logs import note
from standfast.web.security.way import OFFICE, OPEN, PEOPLE, TABLET, Call, Way

EVENTS_BYTES = 14_000_000
"""200 events of 64,000 bytes, and what stands around them."""
PIECE_TYPE = "application/offset+octet-stream"
Model = TypeVar("Model", bound=BaseModel)
_UUID = re.compile(models.UUID)
_READ = PEOPLE | {TABLET}
_WRITE = frozenset({TABLET, OFFICE})


def enrol(call: Call) -> Response:
    """A tablet shows the office's code and is known from now on."""
    asked = _told(models.EnrolIn, call)
    names = {"address": call.visitor.address, "anybody": ""}
    limits.attempt(call.house.store, "enrol", limits.ENROL, names, call.now)
    token = tablets.enrol(call.house.store, asked.code, asked.dev, asked.name, asked.key, call.now, asked.sig)
    note("enrolled", asked.dev, call.visitor.address)
    response = _said(models.EnrolOut(dev=asked.dev, now=stamp(call.now)))
    days = tablets.TOKEN_LASTS.days
    cookies.give(response, cookies.TABLET, token, secure=call.house.settings.secure, days=days)
    return response


def jobs(call: Call) -> Response:
    """Jobs that were handed to this tablet; for people those that were handed to any."""
    found = field_record.jobs_of(call.house.store, _dev(call), call.now)
    return _said(models.JobsOut(dev=_dev(call) or "", jobs=[models.JobOut(**each) for each in found]))


def sheet(call: Call) -> Response:
    """A field sheet, to the byte."""
    job = _job(call)
    text = tablets.sheet(call.house.store, job, call.params["sheet"])
    if text is None:
        raise NotThere("There is no such field sheet.", "", "Ask for the list of jobs.")
    response = Response(text, media_type="application/json")
    response.headers["Cache-Control"] = "private, max-age=31536000, immutable"
    return response


def cards(call: Call) -> Response:
    """Cards of the people of a job."""
    return _said(models.CardsOut(cards=field_record.cards(call.house.store, _job(call))))


def events(call: Call) -> Response:
    """Events in, and those that the other side lacks out."""
    job = _job(call)
    asked = _told(models.EventsIn, call)
    own = _dev(call)
    if own is not None and asked.dev != own:
        raise NotAllowed("That is the log of another device.", "A tablet brings its own log only.", "")
    found = field_record.exchange(call.house.store, job, own, asked.events, asked.have, call.now)
    if found.forks or found.broken:
        note("record", job, f"forks={len(found.forks)}", f"broken={len(found.broken)}")
    return data(field_record.as_data(found, call.now))


def upload(call: Call) -> Response:
    """How much of a file is here."""
    job, sha = _job(call), call.params["sha"]
    found = call.house.store.upload(job, sha) if field_record.is_sha(sha) else None
    if found is None:
        raise NotThere("There is no such file.", "", "Send it from its beginning.")
    return Response(headers={"Upload-Offset": str(found.offset), "Upload-Length": str(found.length)})


def write(call: Call) -> Response:
    """A piece of a file."""
    job, sha = _job(call), call.params["sha"]
    if not field_record.is_sha(sha):
        raise NotThere("A file is named by its SHA-256.", "", "")
    if call.headers.get("content-type") != PIECE_TYPE:
        raise Stopped(415, f"A piece is sent as {PIECE_TYPE}.")
    offset, length = _count(call, "Upload-Offset"), _count(call, "Upload-Length")
    found = call.house.uploads.write(job, sha, offset, length, call.body)
    return Response(status_code=204, headers={"Upload-Offset": str(found.offset)})


def file(call: Call) -> Response:
    """A whole file."""
    job, sha = _job(call), call.params["sha"]
    if not field_record.is_sha(sha):
        raise NotThere("A file is named by its SHA-256.", "", "")
    found, kind = field_record.file(call.house.store, job, sha)
    return Response(found, media_type=kind, headers={"Content-Disposition": "inline"})


def state(call: Call) -> Response:
    """What follows from the record as it stands here."""
    return data(field_record.state(call.house.store, _job(call), call.house.settings.firm, call.now))


def openapi(call: Call) -> Response:
    """The description of these ways."""
    from standfast.web.field.openapi import described

    return data(described(WAYS))


_JOB = "/api/v1/jobs/{job}"
WAYS = (
    Way("POST", "/api/v1/enrol", OPEN, enrol, "data", 4_000),
    Way("GET", "/api/v1/jobs", _READ, jobs, "data"),
    Way("GET", f"{_JOB}/sheet/{{sheet}}", _READ, sheet, "data"),
    Way("GET", f"{_JOB}/cards", _READ, cards, "data"),
    Way("POST", f"{_JOB}/events", _WRITE, events, "data", EVENTS_BYTES),
    Way("HEAD", f"{_JOB}/files/{{sha}}", _READ, upload, "data"),
    Way("PATCH", f"{_JOB}/files/{{sha}}", _WRITE, write, "data", PIECE_BYTES),
    Way("GET", f"{_JOB}/files/{{sha}}", _READ, file, "data"),
    Way("GET", f"{_JOB}/state", _READ, state, "data"),
    Way("GET", "/api/v1/openapi.json", OPEN, openapi, "data"),
)


def _dev(call: Call) -> str | None:
    """The one device for which is spoken; None where a person of the office speaks for any.

    A browser of the office that is enrolled as a tablet too speaks as a tablet.
    """
    return None if call.visitor.tablet is None else call.visitor.tablet.dev


def _job(call: Call) -> str:
    """The job of the way, where it is there for the one who asks."""
    job, dev = call.params["job"], _dev(call)
    if not _UUID.fullmatch(job):
        raise NotThere("There is no such job.", "", "Ask for the list of jobs.")
    if dev is not None:
        field_record.may(call.house.store, dev, job, call.now)
    elif not field_record.known(call.house.store, job):
        raise NotThere("There is no such job.", "", "Ask for the list of jobs.")
    return job


def _count(call: Call, name: str) -> int:
    text = call.headers.get(name, "")
    if not (text.isascii() and text.isdigit() and len(text) <= 12):
        raise Stopped(400, f"The header {name} is no number of bytes.")
    return int(text)


def _told(model: type[Model], call: Call) -> Model:
    if call.headers.get("content-type", "").partition(";")[0].strip().lower() != "application/json":
        raise Stopped(415, "JSON is taken here, as application/json.")
    try:
        return model.model_validate_json(call.body)
    except ValidationError as error:
        raise Refused("The call is not as it should be.", _where(error), "See /api/v1/openapi.json.") from None


def _where(error: ValidationError) -> str:
    """The first three faults: where, and what. What was sent is not sent back."""
    told = error.errors(include_input=False, include_url=False, include_context=False)[:3]
    return "; ".join(f"{'.'.join(map(str, each['loc'])) or 'body'}: {each['msg']}" for each in told)


def _said(model: BaseModel) -> Response:
    content: Any = json.loads(model.model_dump_json())
    return data(content)
