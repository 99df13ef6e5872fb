"""What the office works with: a store that keeps jobs and, beside them, what never leaves the office."""

import json
import secrets
import unicodedata
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from typing import Any, Protocol

from standfast.store.interface import Office, Store

SECRET_BYTES = 32
"""Of chance in everything that is shown instead of a password: 256 bits."""


class Cabinet(Store, Office, Protocol):
    """A database: jobs, events, files; and accounts, tablets, sessions."""


class Refused(Exception):
    """Something that is not done: what, why, and what to do; each a sentence for the person who asked."""

    def __init__(self, what: str, why: str = "", todo: str = "") -> None:
        super().__init__(what)
        self.what, self.why, self.todo = what, why, todo


def universal() -> datetime:
    """The time now, universal; everything else of the office gets it as an argument."""
    return datetime.now(UTC)


def stamp(when: datetime) -> str:
    """A time as the store compares it: ISO 8601, universal, to the millisecond."""
    return when.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%f")[:-3] + "Z"


def until(now: datetime, lasts: timedelta) -> str:
    """When something that begins now counts no longer."""
    return stamp(now + lasts)


def secret() -> str:
    """A text nobody guesses: 256 bits of chance, safe in an address and in a cookie."""
    return secrets.token_urlsafe(SECRET_BYTES)


def hashed(text: str) -> str:
    """What is kept in the place of a secret. It has 256 bits of chance, so that a plain hash cannot be turned back."""
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def packed(data: Mapping[str, Any]) -> str:
    """A small mapping as a text of the store."""
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def unpacked(text: str | None) -> dict[str, Any] | None:
    """What `packed` made; None where there is none."""
    if text is None:
        return None
    data: dict[str, Any] = json.loads(text)
    return data


def one_line(text: str) -> str:
    """What somebody typed as a name: on one line, without marks that do not show."""
    plain = unicodedata.normalize("NFKC", text)
    shown = "".join(each if unicodedata.category(each)[0] not in "CZ" else _blank(each) for each in plain)
    return " ".join(shown.split())


def _blank(mark: str) -> str:
    """What stands for a mark that does not show: a blank for those that part words, nothing for the others."""
    return " " if mark.isspace() else ""
