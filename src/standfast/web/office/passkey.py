"""The ways of passkeys: a page's script asks what the device is to sign, and brings what it signed."""

import json
from typing import Any

from starlette.responses import Response

from standfast.foreman.office import limits, passkeys
from standfast.foreman.office.cabinet import Refused
from standfast.web.office.entrance import let_in
from standfast.web.office.page import to
from standfast.web.security.answers import Stopped, data
from standfast.web.security.logs import note
from standfast.web.security.way import OPEN, PEOPLE, Call, Way


def begin_registering(call: Call) -> Response:
    """What the device is asked for."""
    session = _session(call)
    return data(passkeys.begin_registering(call.house.store, session.person, _here(call), call.now))


def register(call: Call) -> Response:
    """What the device made."""
    session, told = _session(call), _told(call)
    number, answer, label = str(told.get("number", "")), _answer(told), str(told.get("label", ""))
    passkeys.register(call.house.store, session.person, number, answer, label, _here(call), call.now)
    note("passkey added", session.person.id)
    return data({"to": "/office/account"})


def begin_signing_in(call: Call) -> Response:
    """What the device is asked for. Each asking is a note in the store, so that they are counted too."""
    here = _here(call)
    limits.attempt(call.house.store, "passkey asked", limits.PASSKEY, {"address": call.visitor.address}, call.now)
    return data(passkeys.begin_signing_in(call.house.store, here, call.now))


def sign_in(call: Call) -> Response:
    """What the device signed."""
    told = _told(call)
    limits.attempt(call.house.store, "passkey", limits.LINK, {"address": call.visitor.address}, call.now)
    person = passkeys.sign_in(call.house.store, str(told.get("number", "")), _answer(told), _here(call), call.now)
    limits.forgive(call.house.store, "passkey", "address", call.visitor.address, call.now)
    return let_in(call, person.id, data({"to": "/office/"}))


def forget(call: Call) -> Response:
    """Take a passkey away."""
    passkeys.forget(call.house.store, call.person_id, call.form.get("passkey", "-") or "-", call.now)
    note("passkey taken away", call.person_id)
    return to("/office/account")


def _here(call: Call) -> passkeys.Here:
    if not passkeys.offered():
        raise Stopped(404, "Passkeys are not offered here.", "", "Install standfast[passkeys].")
    host = call.headers["host"]
    scheme = "https" if call.house.settings.secure else "http"
    return passkeys.Here(host.rpartition(":")[0] or host if ":" in host else host, f"{scheme}://{host}")


def _session(call: Call) -> Any:
    if call.visitor.session is None:
        raise Stopped(401, "Nobody is signed in here.", "", "Sign in.")
    return call.visitor.session


def _told(call: Call) -> dict[str, Any]:
    try:
        told = json.loads(call.body)
    except (ValueError, RecursionError):
        told = None
    if not isinstance(told, dict):
        raise Refused("The call is not as it should be.", "", "Load the page again.")
    return told


def _answer(told: dict[str, Any]) -> dict[str, Any]:
    answer = told.get("answer")
    if not isinstance(answer, dict):
        raise Refused("The call is not as it should be.", "", "Load the page again.")
    return answer


WAYS = (
    Way("POST", "/office/passkey/ask-new", PEOPLE, begin_registering, "data"),
    Way("POST", "/office/passkey/new", PEOPLE, register, "data"),
    Way("POST", "/office/passkey/ask", OPEN, begin_signing_in, "data"),
    Way("POST", "/office/passkey/sign-in", OPEN, sign_in, "data"),
    Way("POST", "/office/passkey/forget", PEOPLE, forget, "page"),
)
