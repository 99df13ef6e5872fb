"""The one gate: every request comes here, is known by who sends it, and is let in or not by the table of ways."""

import asyncio
import time
from collections.abc import Mapping, Sequence

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers
from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response
from starlette.types import Receive, Scope, Send

from standfast.foreman.field_record import StoreError
from standfast.foreman.internal import report
from standfast.foreman.office import sessions, tablets
from standfast.foreman.office.cabinet import Refused
from standfast.web.security import cookies, hosts
from standfast.web.security.answers import Stopped, refused, status_of
from standfast.web.security.logs import LOG, note
from standfast.web.security.way import ANYBODY, TABLET, Call, Visitor, Way
from standfast.web.settings import House
from standfast.words import ENGLISH, languages

ASKED = "X-Standfast"
"""A header that only a page of ours can send along with a change: no form and no other site can."""
_OWN = ("same-origin", "none")


class Gate:
    """All ways of one path, as an application.

    Args:
        house: what the answers need.
        ways: of one path, by method.
        page: answers a refusal as a page.
    """

    def __init__(self, house: House, ways: Sequence[Way], page: "Shown") -> None:
        self._house, self._page = house, page
        self._ways = {each.method: each for each in ways}
        if "GET" in self._ways:
            self._ways.setdefault("HEAD", self._ways["GET"])
        self._first = ways[0]

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        began = time.monotonic()
        request = Request(scope, receive)
        way = self._ways.get(request.method)
        response = await self._answer(way, request)
        ms = round((time.monotonic() - began) * 1000)
        note("asked", request.method if way else "?", self._first.path, str(response.status_code), f"{ms}ms")
        await response(scope, receive, send)

    async def _answer(self, way: Way | None, request: Request) -> Response:
        try:
            if not hosts.called(request.headers.get("host", ""), self._house.settings.names):
                raise Stopped(421, "This server is not called that.", "", "Start it with --name and its name.")
            if "content-length" in request.headers and "transfer-encoding" in request.headers:
                # A proxy may believe the one and we the other: what follows would be a request of somebody else.
                raise Stopped(400, "A body has one length.", "", "", Connection="close")
            if way is None:
                raise Stopped(405, "That is not done here.", "", "", Allow=", ".join(sorted(self._ways)))
            body = await self._body(way, request)
            return await run_in_threadpool(self._inside, way, request, body)
        except Stopped as stopped:
            return refused(stopped) if self._first.sort != "page" else self._page.plain(stopped)
        except ClientDisconnect:
            return Response(status_code=400)

    async def _body(self, way: Way, request: Request) -> bytes:
        """The whole body, where it is not too long and comes in time."""
        told = request.headers.get("content-length", "")
        if told.isascii() and told.isdigit() and int(told) > way.most_bytes:
            raise Stopped(
                413, "That is too long.", f"At most {way.most_bytes} bytes are taken.", "", Connection="close"
            )
        found = bytearray()
        try:
            async with asyncio.timeout(self._house.settings.body_seconds):
                async for piece in request.stream():
                    found += piece
                    if len(found) > way.most_bytes:
                        raise Stopped(413, "That is too long.", f"At most {way.most_bytes} bytes are taken.", "")
        except TimeoutError:
            raise Stopped(408, "That took too long to arrive.", "", "Try again.", Connection="close") from None
        return bytes(found)

    def _inside(self, way: Way, request: Request, body: bytes) -> Response:
        """Who asks, whether they may, and the answer; beside the loop."""
        visitor: Visitor | None = None
        try:
            visitor = self._visitor(request)
            call = Call(self._house, visitor, request.path_params, request.headers, body, request.url.query)
            self._let_in(way, call, request.method)
            return way.answer(call)
        except (Refused, Stopped, StoreError) as error:
            if isinstance(error, StoreError) and status_of(error) == 503:
                LOG.info("store %s", error)
            language = visitor.language if visitor else ENGLISH
            return refused(error, language) if way.sort != "page" else self._page.refused(error, visitor, self._house)
        except Exception as error:  # noqa: BLE001 - the boundary of the web, see ARCHITECTURE
            note("internal fault", way.method, way.path, str(report(error, [way.method, way.path])))
            stopped = Stopped(500, "The server made a mistake.", "It was written down.", "Keep what you have; tell us.")
            return refused(stopped) if way.sort != "page" else self._page.refused(stopped, visitor, self._house)

    def _visitor(self, request: Request) -> Visitor:
        house, secure = self._house, self._house.settings.secure
        now = house.clock()
        shown: Mapping[str, str] = request.cookies
        token = cookies.shown(shown, cookies.SESSION, secure=secure)
        session = sessions.session(house.store, token, now)
        tablet = tablets.tablet(house.store, cookies.shown(shown, cookies.TABLET, secure=secure), now)
        roles = {ANYBODY}
        if session is not None:
            roles.add(session.person.role)
        if tablet is not None:
            roles.add(TABLET)
        mark = token if session else cookies.shown(shown, cookies.MARK, secure=secure)
        language = session.person.language if session else _spoken(request.headers)
        address = hosts.place(request.client.host) if request.client else "unknown"
        return Visitor(frozenset(roles), session, tablet, mark, address, language)

    def _let_in(self, way: Way, call: Call, method: str) -> None:
        if not way.who & call.visitor.roles:
            if call.visitor.roles == {ANYBODY}:
                raise Stopped(401, "Nobody is signed in here.", "", "Sign in, or enrol the tablet again.")
            raise Stopped(403, "That is not yours to do.", "Others in the firm may.", "Ask the office.")
        if method in ("GET", "HEAD") or way.sort == "static":
            return
        secure = self._house.settings.secure
        origin, site = call.headers.get("origin"), call.headers.get("sec-fetch-site")
        own = origin is None or hosts.same_site(origin, call.headers.get("host", ""), secure=secure)
        if not own or (site is not None and site not in _OWN):
            raise Stopped(403, "That came from another page.", "Only pages of this server change something.", "")
        if way.sort == "data" and call.headers.get(ASKED) != "1":
            raise Stopped(403, f"The header {ASKED} is missing.", "Only pages of this server change something.", "")
        if way.sort == "page" and not cookies.right_token(call.visitor.mark, call.form.get("token", "")):
            raise Stopped(403, "The page is too old.", "It was made before you signed in or out.", "Load it again.")


class Shown:
    """How a refusal looks to people. The office's pages give the real one."""

    def refused(self, error: Exception, visitor: Visitor | None, house: House) -> Response:
        """A page that says it."""
        raise NotImplementedError

    def plain(self, error: Stopped) -> Response:
        """The same before anybody is known."""
        raise NotImplementedError


def _spoken(headers: Headers) -> str:
    """The first language of a browser that the catalogue has."""
    known = languages()
    for each in headers.get("accept-language", "").split(","):
        word = each.partition(";")[0].strip()[:2].lower()
        if word in known:
            return word
    return ENGLISH
