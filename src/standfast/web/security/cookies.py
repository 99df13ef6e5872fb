"""Cookies and what they carry: never more than chance whose hash the store keeps."""

import hmac
from collections.abc import Mapping
from hashlib import sha256

from starlette.responses import Response

SESSION, TABLET, MARK = "sf_session", "sf_tablet", "sf_form"
DAY_S = 86_400


def shown(cookies: Mapping[str, str], name: str, *, secure: bool) -> str:
    """What a browser shows under a name; empty where nothing."""
    return cookies.get(_called(name, secure=secure), "")


def give(response: Response, name: str, value: str, *, secure: bool, days: int | None = None) -> None:
    """Have a browser keep a text: no script reads it, no other site has it sent, nothing sends it in the clear."""
    response.set_cookie(
        _called(name, secure=secure), value, max_age=None if days is None else days * DAY_S, path="/",
        secure=secure, httponly=True, samesite="strict",
    )  # fmt: skip


def forget(response: Response, name: str, *, secure: bool) -> None:
    """Have a browser forget it."""
    called = _called(name, secure=secure)
    response.delete_cookie(called, path="/", secure=secure, httponly=True, samesite="strict")


def form_token(mark: str) -> str:
    """What a form shows: it follows from the cookie and cannot be turned back into it."""
    return hmac.new(mark.encode("utf-8", "replace"), b"standfast form", sha256).hexdigest()


def right_token(mark: str, token: str) -> bool:
    """True where a form came from a page that this browser was given."""
    return bool(mark) and hmac.compare_digest(form_token(mark).encode(), token.encode("utf-8", "replace"))


def _called(name: str, *, secure: bool) -> str:
    """With TLS a browser takes the name only from this host itself, for all of its paths."""
    return f"__Host-{name}" if secure else name
