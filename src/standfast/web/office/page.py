"""Makes a page: one template, the words of a language, and what the call is about. Everything is escaped."""

from collections.abc import Callable
from functools import cache, partial
from importlib.resources import files
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape
from starlette.responses import HTMLResponse, RedirectResponse, Response

from standfast.foreman.office.cabinet import secret
from standfast.web.security import cookies
from standfast.web.security.answers import Stopped, in_words, status_of, told
from standfast.web.security.guard import Shown
from standfast.web.security.way import ANYBODY, OFFICE, Call, Visitor
from standfast.web.settings import House
from standfast.words import ENGLISH, has, say

LOOSE_COOKIE_DAYS = 1


def page(call: Call, name: str, status: int = 200, /, **parts: Any) -> Response:
    """A page for the one who asks."""
    mark, fresh = call.visitor.mark, not call.visitor.mark
    mark = mark or secret()
    response = _made(name, status, call.visitor, mark, parts)
    if fresh:
        cookies.give(response, cookies.MARK, mark, secure=call.house.settings.secure, days=LOOSE_COOKIE_DAYS)
    return response


def to(path: str) -> Response:
    """Show another page, by asking for it anew."""
    return RedirectResponse(path, 303)


class Refusals(Shown):
    """Refusals as pages; who is not signed in is sent where one signs in."""

    def refused(self, error: Exception, visitor: Visitor | None, house: House) -> Response:
        """A page that says what, why and what to do."""
        if isinstance(error, Stopped) and error.status == 401:
            return to("/office/sign-in")
        return _made("refused.html", status_of(error), visitor, "", told(error))

    def plain(self, error: Stopped) -> Response:
        """The same before anybody is known."""
        response = _made("refused.html", error.status, None, "", told(error))
        response.headers.update(error.headers)
        return response


def _made(name: str, status: int, visitor: Visitor | None, mark: str, parts: dict[str, Any]) -> Response:
    language = visitor.language if visitor else ENGLISH
    person = visitor.session.person if visitor and visitor.session else None
    speak: Callable[..., str] = partial(_say, language)
    sentence: Callable[[str], str] = partial(_sentence, language)
    text = _pages().get_template(name).render(
        t=speak, sentence=sentence, language=language, person=person, token=cookies.form_token(mark) if mark else "",
        is_office=bool(person and person.role == OFFICE), anybody=ANYBODY, **parts,
    )  # fmt: skip
    # Half a character in a text of a record has no UTF-8: it is shown as a question mark, and stops no page.
    return HTMLResponse(text.encode("utf-8", "replace"), status)


def _say(language: str, key: str, **parts: object) -> str:
    """A word of the office. One that was put together from a state of a later version is said as it is."""
    whole = f"office.{key}"
    return say(whole, language, **parts) if has(whole, language) else key.partition("_")[2].replace("_", " ")


def _sentence(language: str, text: str) -> str:
    return in_words(text, language)


@cache
def _pages() -> Environment:
    folder = str(files("standfast.web.office") / "templates")
    return Environment(
        loader=FileSystemLoader(folder), autoescape=select_autoescape(("html", "svg"), default=True),
        undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True,
    )  # fmt: skip
