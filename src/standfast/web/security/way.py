"""One way into the server: a method of a path, who may go it, and who answers. There is no other way in."""

from collections.abc import Callable, Mapping
from datetime import datetime
from functools import cached_property
from typing import NamedTuple
from urllib.parse import parse_qsl

from starlette.datastructures import Headers
from starlette.responses import Response

from standfast.foreman.office.cabinet import Refused
from standfast.foreman.office.sessions import Session
from standfast.foreman.office.tablets import Tablet
from standfast.web.settings import House

ANYBODY = "anybody"
TABLET = "tablet"
OFFICE, CREW, READER = "office", "crew", "reader"
OPEN = frozenset({ANYBODY, TABLET, OFFICE, CREW, READER})
PEOPLE = frozenset({OFFICE, CREW, READER})
SMALL_BYTES = 64_000
MOST_FIELDS = 200


class Visitor(NamedTuple):
    """Who asks: a person with a session, a tablet, or anybody.

    Attributes:
        roles: as what they may go a way; a browser may have both a session and a tablet's cookie.
        mark: text of the cookie to which the tokens of forms are tied.
        address: from where they ask.
    """

    roles: frozenset[str]
    session: Session | None
    tablet: Tablet | None
    mark: str
    address: str
    language: str


class Call:
    """One request, as those who answer see it: whole, and already let in."""

    def __init__(
        self, house: House, visitor: Visitor, params: Mapping[str, str], headers: Headers, body: bytes, query: str
    ) -> None:
        self.house, self.visitor, self.params = house, visitor, params
        self.headers, self.body, self.query = headers, body, query
        self.now: datetime = house.clock()

    @cached_property
    def form(self) -> Mapping[str, str]:
        """Fields of the form; of a field that comes twice the last."""
        return dict(self.fields)

    @cached_property
    def fields(self) -> list[tuple[str, str]]:
        """Fields of the form, in their order."""
        try:
            text = self.body.decode("utf-8")
            return parse_qsl(text, keep_blank_values=True, errors="strict", max_num_fields=MOST_FIELDS)
        except ValueError:
            raise Refused("The form cannot be read.", "", "Load the page again.") from None

    @property
    def person_id(self) -> str:
        """Id of the account that asks; empty for others."""
        return "" if self.visitor.session is None else self.visitor.session.person.id


class Way(NamedTuple):
    """A method of a path.

    Attributes:
        method: GET (HEAD comes with it), HEAD, POST or PATCH.
        path: with the names of its parts in braces; it is also what the log says.
        who: roles that may go it.
        answer: who answers; called beside the loop, so that it may wait for the store.
        sort: page (for people), data (JSON), static (the same for everybody).
        most_bytes: of the body.
    """

    method: str
    path: str
    who: frozenset[str]
    answer: Callable[[Call], Response]
    sort: str
    most_bytes: int = SMALL_BYTES
