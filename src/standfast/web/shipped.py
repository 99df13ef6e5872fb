"""Files that are the same for everybody: style, scripts, the shell of the field pages. Only what is listed is given.

The list is made once from what the package holds, so that no path of a request is ever a path of the disk.
"""

from collections.abc import Mapping
from functools import cache
from hashlib import sha256
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import NamedTuple

from starlette.responses import RedirectResponse, Response

from standfast.web.security.answers import Stopped
from standfast.web.security.way import OPEN, Call, Way

KINDS = {
    "css": "text/css; charset=utf-8", "html": "text/html; charset=utf-8", "js": "text/javascript; charset=utf-8",
    "json": "application/json", "mjs": "text/javascript; charset=utf-8", "png": "image/png", "svg": "image/svg+xml",
    "ttf": "font/ttf", "otf": "font/otf", "wasm": "application/wasm", "webmanifest": "application/manifest+json",
    "woff2": "font/woff2",
}  # fmt: skip
"""Kinds of files that are given; any other is not."""


class Shipped(NamedTuple):
    """One file: its bytes, its kind, and a mark by which a browser asks whether it changed."""

    data: bytes
    kind: str
    mark: str


@cache
def shipped(room: str) -> Mapping[str, Shipped]:
    """Everything in the folder `static` of a room of the web, by its path there."""
    found: dict[str, Shipped] = {}
    _walk(files(f"standfast.web.{room}") / "static", "", found)
    return found


def _walk(folder: Traversable, before: str, found: dict[str, Shipped]) -> None:
    for each in folder.iterdir() if folder.is_dir() else ():
        kind = KINDS.get(each.name.rpartition(".")[2])
        if each.is_dir():
            _walk(each, f"{before}{each.name}/", found)
        elif kind is not None:
            data = each.read_bytes()
            found[before + each.name] = Shipped(data, kind, f'"{sha256(data).hexdigest()[:32]}"')


def office_file(call: Call) -> Response:
    """Style and scripts of the office."""
    return _given(call, "office", call.params["name"])


def field_file(call: Call) -> Response:
    """Modules of the field pages."""
    return _given(call, "field", call.params["name"])


def shell(call: Call) -> Response:
    """The one page of the field; what it shows comes from its modules."""
    return _given(call, "field", "shell.html")


def worker(call: Call) -> Response:
    """What keeps the field pages for the time without signal; it may speak for all of /field/."""
    response = _given(call, "field", "sw.js")
    response.headers["Service-Worker-Allowed"] = "/field/"
    return response


def field(call: Call) -> Response:
    """The field pages, also without the stroke at the end."""
    return RedirectResponse("/field/", 308)


WAYS = (
    Way("GET", "/office/static/{name}", OPEN, office_file, "static"),
    Way("GET", "/field", OPEN, field, "static"),
    Way("GET", "/field/", OPEN, shell, "static"),
    Way("GET", "/field/sw.js", OPEN, worker, "static"),
    Way("GET", "/field/static/{name:path}", OPEN, field_file, "static"),
)


def _given(call: Call, room: str, name: str) -> Response:
    found = shipped(room).get(name)
    if found is None:
        raise Stopped(404, "There is no such file.")
    headers = {"ETag": found.mark, "Cache-Control": "no-cache"}
    if call.headers.get("if-none-match") == found.mark:
        return Response(status_code=304, headers=headers)
    return Response(found.data, media_type=found.kind, headers=headers)
