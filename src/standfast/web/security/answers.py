"""How a refusal is answered: as data for programs, as a page for people."""

import json
import re
from typing import Any

from starlette.responses import JSONResponse, Response

from standfast.foreman.field_record import NotAllowed, NotThere, StoreError, WrongHash, WrongOffset
from standfast.foreman.office.cabinet import Refused
from standfast.foreman.office.limits import TooOften
from standfast.foreman.office.uploads import NotNamed, TooLarge, WrongKind
from standfast.words import ENGLISH, has, say

_NUMBER, _NOT_A_LETTER = re.compile(r"\d+"), re.compile(r"[^a-z0-9]+")
WRONG_HASH = 460
"""As resumable uploads have it: what arrived is not what was named."""
_STATES: tuple[tuple[type[Exception], int], ...] = (
    (TooOften, 429), (NotAllowed, 403), (NotThere, 404), (NotNamed, 403), (TooLarge, 413), (WrongKind, 415),
    (Refused, 422), (WrongOffset, 409), (WrongHash, WRONG_HASH), (StoreError, 503),
)  # fmt: skip


class Stopped(Exception):
    """A request that is not let in, with the answer to it."""

    def __init__(self, status: int, what: str, why: str = "", todo: str = "", **headers: str) -> None:
        super().__init__(what)
        self.status, self.what, self.why, self.todo = status, what, why, todo
        self.headers = {name.replace("_", "-"): value for name, value in headers.items()}


def status_of(error: Exception) -> int:
    """The status by which a refusal is answered."""
    if isinstance(error, Stopped):
        return error.status
    return next(status for kind, status in _STATES if isinstance(error, kind))


def told(error: Exception) -> dict[str, str]:
    """What, why and what to do."""
    match error:
        case Refused() | Stopped():
            return {"what": error.what, "why": error.why, "do": error.todo}
        case WrongOffset():
            return {
                "what": "The piece does not begin where the last one ended.",
                "why": "",
                "do": "Ask and go on there.",
            }
        case WrongHash():
            what = "What arrived is not the file that was named."
            return {"what": what, "why": "It was damaged on its way.", "do": "Send it again from its beginning."}
    return {"what": "The store cannot do that now.", "why": "", "do": "Keep what you have; try again, tell the office."}


def refused(error: Exception, language: str = ENGLISH) -> Response:
    """The answer to a program, in the language of who reads it there."""
    status = status_of(error)
    headers = dict(error.headers) if isinstance(error, Stopped) else {}
    if isinstance(error, WrongOffset):
        headers["Upload-Offset"] = str(error.offset)
    if status == 429:
        headers["Retry-After"] = "900"
    said = {key: in_words(text, language) for key, text in told(error).items()}
    return JSONResponse(said, status, headers)


def in_words(text: str, language: str) -> str:
    """A sentence of a refusal in a language, where the catalogue has it; else as it is, in English."""
    numbers = _NUMBER.findall(text)
    key = f"refusals.{_NOT_A_LETTER.sub('_', _NUMBER.sub('n', text).lower()).strip('_')}"
    return say(key, language, n=numbers[-1] if numbers else "") if has(key, language) else text


class Data(JSONResponse):
    """JSON in ASCII: half a character in a text of a record, which UTF-8 cannot hold, does not stop the answer."""

    def render(self, content: Any) -> bytes:
        """The answer as it is sent."""
        return json.dumps(content, allow_nan=False, separators=(",", ":")).encode("ascii")


def data(content: Any, status: int = 200) -> Response:
    """An answer to a program."""
    return Data(content, status)
