"""Passkeys: signing in by what a device holds, where the library of the extra ``passkeys`` is installed.

Web Authentication (W3C, level 2): the challenge is made here and is good for one answer within five minutes; the answer
is compared with it, with the name of this server, and with the key that was registered.
"""

import json
import re
from collections.abc import Sequence
from datetime import datetime, timedelta
from functools import cache
from importlib.util import find_spec
from typing import Any, NamedTuple

from standfast.foreman.office import accounts
from standfast.foreman.office.cabinet import Cabinet, Refused, hashed, packed, secret, stamp, unpacked, until
from standfast.store.interface import Person

CHALLENGE = timedelta(minutes=5)
MOST = 10
"""Passkeys of one account."""
_ID = re.compile(r"[A-Za-z0-9_-]{1,1400}")
"""The id of a passkey: up to 1023 bytes, in the letters of addresses."""
_ASKED, _KEY = "passkey challenge", "passkey"


class Here(NamedTuple):
    """By what name and address the browser knows this server."""

    name: str
    origin: str


@cache
def offered() -> bool:
    """True where the library is installed."""
    return find_spec("webauthn") is not None


def begin_registering(store: Cabinet, person: Person, here: Here, now: datetime) -> dict[str, Any]:
    """What the browser asks the device for, and under which number the answer comes back."""
    from webauthn import base64url_to_bytes, generate_registration_options
    from webauthn.helpers.structs import (
        AuthenticatorSelectionCriteria,
        PublicKeyCredentialDescriptor,
        ResidentKeyRequirement,
        UserVerificationRequirement,
    )

    known = [PublicKeyCredentialDescriptor(base64url_to_bytes(each)) for each, _ in _of(store, person.id, now)]
    wanted = AuthenticatorSelectionCriteria(
        resident_key=ResidentKeyRequirement.REQUIRED, user_verification=UserVerificationRequirement.REQUIRED
    )
    options = generate_registration_options(
        rp_id=here.name, rp_name="standfast", user_name=person.name, user_id=person.id.encode(),
        user_display_name=person.name, authenticator_selection=wanted, exclude_credentials=known,
    )  # fmt: skip
    return _asked(store, options, person.id, now)


def register(
    store: Cabinet, person: Person, number: str, answer: dict[str, Any], label: str, here: Here, now: datetime
) -> None:
    """Keep what the device made.

    Raises:
        Refused: where the answer is none to what was asked.
    """
    from webauthn import verify_registration_response
    from webauthn.helpers import bytes_to_base64url
    from webauthn.helpers.exceptions import WebAuthnException

    challenge = _challenge(store, number, person.id, now)
    if len(_of(store, person.id, now)) >= MOST:
        raise Refused("There are many passkeys already.", f"At most {MOST}.", "Take one away.")
    try:
        found = verify_registration_response(
            credential=answer, expected_challenge=challenge, expected_rp_id=here.name, expected_origin=here.origin,
            require_user_verification=True,
        )  # fmt: skip
    except (WebAuthnException, ValueError, KeyError, TypeError):
        raise Refused("The device's answer is not right.", "", "Try again.") from None
    id = bytes_to_base64url(found.credential_id)
    if store.get(_KEY, id, stamp(now)) is not None:
        raise Refused("This passkey is known already.", "", "Take another.")
    key = bytes_to_base64url(found.credential_public_key)
    shown = " ".join(label.split())[:40] or "passkey"
    store.put(_KEY, id, packed({"person": person.id, "key": key, "count": found.sign_count, "label": shown}))


def begin_signing_in(store: Cabinet, here: Here, now: datetime) -> dict[str, Any]:
    """What the browser asks the device for; it says itself whose key it has."""
    from webauthn import generate_authentication_options
    from webauthn.helpers.structs import UserVerificationRequirement

    options = generate_authentication_options(rp_id=here.name, user_verification=UserVerificationRequirement.REQUIRED)
    return _asked(store, options, "", now)


def sign_in(store: Cabinet, number: str, answer: dict[str, Any], here: Here, now: datetime) -> Person:
    """The account whose device answered.

    Raises:
        Refused: where the answer is none to what was asked, or of no key that is known.
    """
    from webauthn import base64url_to_bytes, verify_authentication_response
    from webauthn.helpers.exceptions import WebAuthnException

    challenge = _challenge(store, number, "", now)
    wrong = Refused("The device's answer is not right.", "", "Try again, or sign in with the password.")
    id = str(answer.get("id", ""))
    told = unpacked(store.get(_KEY, id, stamp(now))) if _ID.fullmatch(id) else None
    person = accounts.person(store, told["person"]) if told else None
    if told is None or person is None:
        raise wrong
    try:
        found = verify_authentication_response(
            credential=answer, expected_challenge=challenge, expected_rp_id=here.name, expected_origin=here.origin,
            credential_public_key=base64url_to_bytes(told["key"]), credential_current_sign_count=told["count"],
            require_user_verification=True,
        )  # fmt: skip
    except (WebAuthnException, ValueError, KeyError, TypeError):
        raise wrong from None
    store.put(_KEY, id, packed({**told, "count": found.new_sign_count}))
    return person


def names(store: Cabinet, person: str, now: datetime) -> Sequence[tuple[str, str]]:
    """Passkeys of an account: id and how they were called."""
    return [(id, told["label"]) for id, told in _of(store, person, now)]


def forget(store: Cabinet, person: str, id: str, now: datetime) -> None:
    """Take a passkey away; with an empty id all of the account."""
    for known, _ in _of(store, person, now):
        if id in ("", known):
            store.take(_KEY, known, stamp(now))


def _of(store: Cabinet, person: str, now: datetime) -> list[tuple[str, dict[str, Any]]]:
    found = ((id, unpacked(store.get(_KEY, id, stamp(now)))) for id in list(store.keys(_KEY, stamp(now))))
    return [(id, told) for id, told in found if told is not None and told["person"] == person]


def _asked(store: Cabinet, options: Any, person: str, now: datetime) -> dict[str, Any]:
    from webauthn import options_to_json
    from webauthn.helpers import bytes_to_base64url

    list(store.keys(_ASKED, stamp(now)))
    number = secret()
    challenge = bytes_to_base64url(options.challenge)
    store.put(_ASKED, hashed(number), packed({"challenge": challenge, "person": person}), until(now, CHALLENGE))
    return {"number": number, "options": json.loads(options_to_json(options))}


def _challenge(store: Cabinet, number: str, person: str, now: datetime) -> bytes:
    from webauthn import base64url_to_bytes

    told = unpacked(store.take(_ASKED, hashed(number), stamp(now)))
    if told is None or told["person"] != person:
        raise Refused("That took too long.", "An answer is good for five minutes, and once.", "Try again.")
    return base64url_to_bytes(told["challenge"])
