"""The application: every way in, behind one gate. There is no way that does not stand in `WAYS`."""

from collections.abc import Sequence
from itertools import groupby

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.responses import Response
from starlette.routing import Route

from standfast.web import shipped
from standfast.web.field import routes
from standfast.web.office import entrance, jobs, passkey, record, staff
from standfast.web.office.page import Refusals
from standfast.web.security.answers import Stopped
from standfast.web.security.guard import Gate
from standfast.web.security.headers import Headers
from standfast.web.security.way import OPEN, Call, Way
from standfast.web.settings import House

WAYS: Sequence[Way] = (
    *entrance.WAYS, *jobs.WAYS, *record.WAYS, *staff.WAYS, *passkey.WAYS, *routes.WAYS, *shipped.WAYS,
)  # fmt: skip


def nowhere(call: Call) -> Response:
    """What is asked where no way is."""
    raise Stopped(404, "There is no such page.", "", "Begin at /office/.")


def make_app(house: House) -> Starlette:
    """The application of a house."""
    pages = Refusals()
    by_path = groupby(sorted(WAYS, key=lambda each: each.path), key=lambda each: each.path)
    gates = [Route(path, Gate(house, list(ways), pages), name=path) for path, ways in by_path]
    # A path with a part in braces takes what a path without would: those without stand first.
    gates.sort(key=lambda each: each.path.count("{"))
    lost = [
        Way(method, "/{rest:path}", OPEN, nowhere, "static") for method in ("GET", "POST", "PATCH", "PUT", "DELETE")
    ]
    gates.append(Route("/{rest:path}", Gate(house, lost, pages), name="nowhere"))
    app = Starlette(routes=gates, middleware=[Middleware(Headers, secure=house.settings.secure)])
    app.router.redirect_slashes = False
    return app
