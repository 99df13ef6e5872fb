"""The description of the ways of the field record (OpenAPI 3.1), made from the models that also read the calls."""

import re
from collections.abc import Iterable
from typing import Any

from pydantic.json_schema import models_json_schema

from standfast import __version__
from standfast.foreman.office.uploads import PIECE_BYTES
from standfast.web.field import models
from standfast.web.security.way import ANYBODY, Way

IN: dict[str, type[models.Strict]] = {"enrol": models.EnrolIn, "events": models.EventsIn}
OUT: dict[str, type[models.Strict]] = {
    "enrol": models.EnrolOut, "jobs": models.JobsOut, "cards": models.CardsOut, "events": models.EventsOut,
}  # fmt: skip
TEXT = {"sheet": "application/json", "state": "application/json", "openapi": "application/json"}
"""Answers that are no model of this room: their form is that of the field sheet, of the fold, of OpenAPI."""
_FAULTS = {
    "400": "The call is not as it should be.", "401": "Nobody is signed in.", "403": "Not for the one who asks.",
    "404": "It is not there.", "408": "It took too long to arrive.", "413": "It is too long.",
    "415": "It is of another kind.", "421": "The server is not called that.", "422": "The call is not as it should be.",
    "429": "Too often.", "503": "The store cannot do that now.",
}  # fmt: skip
_REF = "#/components/schemas/{model}"
_ASKED = {
    "name": "X-Standfast", "in": "header", "required": True, "schema": {"type": "string", "const": "1"},
    "description": "Only a page of this server can send it along.",
}  # fmt: skip


def described(ways: Iterable[Way]) -> dict[str, Any]:
    """The description of some ways."""
    kinds = [(each, "validation") for each in (*IN.values(), *OUT.values(), models.Error)]
    _, schemas = models_json_schema(kinds, ref_template=_REF)  # type: ignore[arg-type]
    paths: dict[str, Any] = {}
    for way in ways:
        paths.setdefault(way.path, {})[way.method.lower()] = _operation(way)
    return {
        "openapi": "3.1.0",
        "info": {"title": "standfast field record", "version": __version__, "description": _ABOUT},
        "paths": paths,
        "components": {
            "schemas": schemas["$defs"],
            "securitySchemes": {
                "tablet": {"type": "apiKey", "in": "cookie", "name": "sf_tablet"},
                "session": {"type": "apiKey", "in": "cookie", "name": "sf_session"},
            },
        },
    }


_ABOUT = (
    "Tablets bring their own log of the jobs that were handed to them; people of the office any. Events are exact "
    "texts, hashed and kept to the byte. With TLS the names of the cookies begin with __Host-."
)


def _operation(way: Way) -> dict[str, Any]:
    name = way.answer.__name__
    told: dict[str, Any] = {
        "operationId": name,
        "summary": (way.answer.__doc__ or "").strip().splitlines()[0],
        "parameters": [*_parts(way.path), *_headers(way)],
        "responses": {**_done(way, name), **_faults(way)},
        "security": [] if ANYBODY in way.who else [{"tablet": []}, {"session": []}],
    }
    if name in IN:
        schema = {"$ref": _REF.format(model=IN[name].__name__)}
        told["requestBody"] = {"required": True, "content": {"application/json": {"schema": schema}}}
    elif way.method == "PATCH":
        about = f"A piece of the file, at most {PIECE_BYTES} bytes."
        kind = {"schema": {"type": "string", "format": "binary", "description": about}}
        told["requestBody"] = {"required": True, "content": {"application/offset+octet-stream": kind}}
    return told


def _parts(path: str) -> list[dict[str, Any]]:
    patterns = {"job": models.UUID, "sheet": models.SHA, "sha": models.SHA}
    return [
        {"name": name, "in": "path", "required": True, "schema": {"type": "string", "pattern": patterns[name]}}
        for name in re.findall(r"\{(\w+)\}", path)
    ]


def _headers(way: Way) -> list[dict[str, Any]]:
    told = [] if way.method in ("GET", "HEAD") else [_ASKED]
    if way.method == "PATCH":
        number = {"type": "string", "pattern": r"^[0-9]{1,12}$"}
        told += [
            {"name": name, "in": "header", "required": True, "schema": number}
            for name in ("Upload-Offset", "Upload-Length")
        ]
    return told


def _done(way: Way, name: str) -> dict[str, Any]:
    offset = {"Upload-Offset": {"schema": {"type": "string"}, "description": "Bytes that are here."}}
    if way.method == "PATCH":
        return {"204": {"description": "The piece is kept.", "headers": offset}}
    if way.method == "HEAD":
        return {"200": {"description": "So much is here.", "headers": offset}}
    if name in OUT:
        content = {"application/json": {"schema": {"$ref": _REF.format(model=OUT[name].__name__)}}}
    elif name in TEXT:
        content = {TEXT[name]: {"schema": {"type": "object"}}}
    else:
        content = {kind: {} for kind in ("image/jpeg", "image/png", "image/webp", "application/json")}
    return {"200": {"description": "Done.", "content": content}}


def _faults(way: Way) -> dict[str, Any]:
    content = {} if way.method == "HEAD" else {"application/json": {"schema": {"$ref": _REF.format(model="Error")}}}
    told = dict(_FAULTS)
    if way.method == "PATCH":
        told |= {"409": "Go on at Upload-Offset.", "460": "What arrived is not what was named."}
    body = {"content": content} if content else {}
    return {status: {"description": text, **body} for status, text in told.items()}
