"""Files that are the same for everybody: style, scripts, the shell of the field pages. Only what is listed is given.

The list is made once from what the package holds, so that no path of a request is ever a path of the disk.
"""

import json
from collections.abc import Mapping
from functools import cache
from hashlib import sha256
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import NamedTuple

from starlette.responses import RedirectResponse, Response

from standfast.web.security.answers import Stopped
from standfast.web.security.way import OPEN, Call, Way
from standfast.words import languages
from standfast.words.catalogue import keys, template

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
            found[before + each.name] = _shipped(each.read_bytes(), kind)


def office_file(call: Call) -> Response:
    """Style and scripts of the office."""
    return _given(call, "office", call.params["name"])


def field_file(call: Call) -> Response:
    """Modules of the field pages."""
    return _given(call, "field", call.params["name"])


def lacking(folder: Traversable | None = None) -> str:
    """What is missing of the field pages, in one sentence; empty where nothing is.

    Args:
        folder: where the browser modules lie; that of the package where none is named.
    """
    lib = files("standfast.web.field") / "static" / "lib" if folder is None else folder
    if (lib / "stamp.txt").is_file():
        return ""
    return (
        "The field pages cannot be served, since their browser modules were not fetched: install Node 20 with npm, "
        "then install standfast again."
    )


def shell(call: Call) -> Response:
    """The one page of the field; what it shows comes from its modules."""
    missing = lacking()
    if missing:
        raise Stopped(503, missing)
    return _given(call, "field", "shell.html")


def worker(call: Call) -> Response:
    """What keeps the field pages for the time without signal; it may speak for all of /field/."""
    response = _answer(call, _worker())
    response.headers["Service-Worker-Allowed"] = "/field/"
    return response


def words(call: Call) -> Response:
    """What people read on the field pages, in one language."""
    language = call.params["language"]
    if language not in languages():
        raise Stopped(404, "There is no such file.")
    return _answer(call, _words(language))


def field(call: Call) -> Response:
    """The field pages, also without the stroke at the end."""
    return RedirectResponse("/field/", 308)


WAYS = (
    Way("GET", "/office/static/{name}", OPEN, office_file, "static"),
    Way("GET", "/field", OPEN, field, "static"),
    Way("GET", "/field/", OPEN, shell, "static"),
    Way("GET", "/field/sw.js", OPEN, worker, "static"),
    Way("GET", "/field/static/{name:path}", OPEN, field_file, "static"),
    Way("GET", "/field/words/{language}.json", OPEN, words, "static"),
)


@cache
def _worker() -> Shipped:
    """The worker, and before it which files make up the shell of the field pages, and which version of it they are."""
    room = shipped("field")
    own = room["sw.js"]
    parts = {"/field/": room["shell.html"].mark}
    parts |= {f"/field/static/{name}": each.mark for name, each in room.items() if name not in ("sw.js", "shell.html")}
    parts |= {f"/field/words/{language}.json": _words(language).mark for language in languages()}
    version = sha256(json.dumps([own.mark, parts], sort_keys=True).encode()).hexdigest()[:16]
    shell = json.dumps({"version": version, "files": sorted(parts)})
    return _shipped(f"const SHELL = {shell};\n".encode() + own.data, own.kind)


@cache
def _words(language: str) -> Shipped:
    """The texts of the catalogue that begin with field., without that beginning."""
    texts = {key.removeprefix("field."): template(key, language) for key in keys(language) if key.startswith("field.")}
    return _shipped(json.dumps(texts, ensure_ascii=False, sort_keys=True).encode(), KINDS["json"])


def _shipped(data: bytes, kind: str) -> Shipped:
    return Shipped(data, kind, f'"{sha256(data).hexdigest()[:32]}"')


def _given(call: Call, room: str, name: str) -> Response:
    found = shipped(room).get(name)
    if found is None:
        raise Stopped(404, "There is no such file.")
    return _answer(call, found)


def _answer(call: Call, found: Shipped) -> Response:
    headers = {"ETag": found.mark, "Cache-Control": "no-cache"}
    if call.headers.get("if-none-match") == found.mark:
        return Response(status_code=304, headers=headers)
    return Response(found.data, media_type=found.kind, headers=headers)
