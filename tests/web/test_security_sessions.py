"""Signing in: passwords, sessions and their ends, limits, links that make accounts."""

import json
import sqlite3
from pathlib import Path

import argon2
import pytest
from firm import KEY, PASSWORD, PRIVATE, Browser, Firm

from standfast.fieldwork.record.seal import sign
from standfast.foreman.office import accounts, limits, passkeys, passwords, sessions, tablets
from standfast.foreman.office.cabinet import Refused
from standfast.web.settings import Settings

REAL = argon2.PasswordHasher
"""The one that the program uses; the tests around it take a quick one."""


def sign_in(browser: Browser, name: str, password: str) -> int:
    return int(browser.form("/office/sign-in", {"name": name, "password": password}, on="/office/sign-in").status_code)


def test_a_password_of_several_words_signs_in_and_a_wrong_one_does_not(firm: Firm) -> None:
    accounts.add(firm.store, "Ana Ruiz", "office", PASSWORD)
    browser = firm.browser()
    assert sign_in(browser, "Ana Ruiz", PASSWORD + "!") == 422
    assert browser.get("/office/").status_code == 303
    assert sign_in(browser, "  ana   RUIZ ", PASSWORD) == 303
    assert browser.get("/office/").status_code == 200


@pytest.mark.parametrize(
    ("password", "why"),
    [
        ("eleven char", "short"), ("a" * 201, "long"), ("aaaaaaaaaaaaaa", "common"), ("Password1234", "common"),
        ("123456789012", "common"), ("mnopqrstuvwxyz", "common"), ("987654321098", "common"),
        ("Bartholomew Lee", "name"), ("bartholomew lee1", "name"), ("correct mule battery", ""),
        ("ÄÖÜ été façade 日本", ""), ("            ", "common"),
    ],
)  # fmt: skip
def test_long_is_asked_for_and_what_many_take_is_refused(password: str, why: str) -> None:
    assert passwords.refusal(password, "Bartholomew Lee") == why


def test_passwords_are_kept_as_argon2id_each_with_its_salt(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(argon2, "PasswordHasher", REAL)
    one, other = passwords.kept(PASSWORD), passwords.kept(PASSWORD)
    assert one.startswith("$argon2id$v=19$m=65536,t=3,p=4$")
    assert one != other
    assert passwords.right(one, PASSWORD)
    assert not passwords.right("", PASSWORD)
    assert not passwords.right("no hash", PASSWORD)


def test_accents_may_be_put_together_in_two_ways() -> None:
    assert passwords.right(passwords.kept("contraseña larga mía"), "contrasen\u0303a larga mi\u0301a")


def test_a_session_ends_when_nobody_uses_it(firm: Firm) -> None:
    browser = firm.signed_in("crew")
    for _ in range(3):
        firm.later(minutes=59)
        assert browser.get("/office/").status_code == 200
    firm.later(minutes=61)
    assert browser.get("/office/").status_code == 303


def test_a_session_ends_after_a_day_of_work_however_it_is_used(firm: Firm) -> None:
    browser = firm.signed_in("crew")
    for _ in range(14):
        firm.later(minutes=50)
        assert browser.get("/office/").status_code == 200
    firm.later(minutes=30)
    assert browser.get("/office/").status_code == 303


def test_signing_in_gives_a_new_text_and_the_old_one_counts_no_longer(firm: Firm) -> None:
    accounts.add(firm.store, "Ana", "office", PASSWORD)
    browser = firm.browser()
    assert sign_in(browser, "Ana", PASSWORD) == 303
    first = browser.client.cookies["sf_session"]
    assert sign_in(browser, "Ana", PASSWORD) == 303
    assert browser.client.cookies["sf_session"] != first
    assert sessions.session(firm.store, first, firm.now) is None


def test_signing_out_here_and_everywhere(firm: Firm) -> None:
    person = firm.person("crew")
    one, other = firm.browser(), firm.browser()
    for each in (one, other):
        each.show("session", sessions.start(firm.store, person, firm.now))
    assert one.form("/office/sign-out").status_code == 303
    assert one.get("/office/").status_code == 303
    assert other.get("/office/").status_code == 200
    one.show("session", sessions.start(firm.store, person, firm.now))
    one.form("/office/sign-out", {"everywhere": "1"})
    assert other.get("/office/").status_code == 303


def test_a_changed_password_ends_every_other_session(firm: Firm) -> None:
    person = accounts.add(firm.store, "Ana", "office", PASSWORD)
    one, other = firm.browser(), firm.browser()
    for each in (one, other):
        each.show("session", sessions.start(firm.store, person, firm.now))
    told = {"password": PASSWORD, "new": "another mule goes home", "again": "another mule goes home"}
    assert one.form("/office/account/password", {**told, "password": "not the one I have"}).status_code == 422
    assert one.form("/office/account/password", told).status_code == 303
    assert one.get("/office/").status_code == 200
    assert other.get("/office/").status_code == 303
    assert accounts.sign_in(firm.store, "Ana", "another mule goes home") is not None


def test_guessing_is_stopped_by_waiting(firm: Firm) -> None:
    accounts.add(firm.store, "Ana", "office", PASSWORD)
    browser = firm.browser()
    found = [sign_in(browser, "Ana", f"a wrong one {number}") for number in range(6)]
    assert found == [422] * 5 + [429]
    assert sign_in(browser, "Ana", PASSWORD) == 429
    firm.later(minutes=16)
    assert sign_in(browser, "Ana", PASSWORD) == 303


def test_attempts_on_many_names_from_one_place_are_counted_together(firm: Firm) -> None:
    for number in range(30):
        names = {"account and address": f"{number} here", "address": "here", "account": str(number)}
        limits.attempt(firm.store, "sign in", limits.SIGN_IN, names, firm.now)
    with pytest.raises(limits.TooOften):
        names = {"account and address": "x here", "address": "here", "account": "x"}
        limits.attempt(firm.store, "sign in", limits.SIGN_IN, names, firm.now)


def test_enrolment_codes_cannot_be_guessed_for_long(firm: Firm) -> None:
    told = {"code": "x" * 43, "dev": "0" * 8 + "-0000-0000-0000-" + "0" * 12, "name": "T", "key": "A" * 43 + "="}
    found = [firm.browser().api("POST", "/api/v1/enrol", told).status_code for _ in range(11)]
    assert found == [422] * 10 + [429]


def test_an_invitation_makes_one_account_and_looking_at_it_uses_nothing_up(firm: Firm) -> None:
    code = accounts.invite(firm.store, "crew", firm.now)
    browser, path = firm.browser(), f"/office/join/{code}"
    assert browser.get(path).status_code == 200
    told = {"name": "Jo", "password": PASSWORD, "again": PASSWORD, "language": "es"}
    assert browser.form(path, {**told, "again": "something else than that"}, on=path).status_code == 422
    assert browser.form(path, {**told, "password": "short", "again": "short"}, on=path).status_code == 422
    assert browser.form(path, told, on=path).status_code == 303
    assert "Trabajos" in browser.get("/office/").text
    assert browser.get(path).status_code == 404
    (person,) = accounts.people(firm.store)
    assert (person.name, person.role, person.language) == ("Jo", "crew", "es")


def test_an_invitation_runs_out(firm: Firm) -> None:
    code = accounts.invite(firm.store, "office", firm.now)
    firm.later(hours=25)
    assert accounts.invited(firm.store, code, firm.now) == ""


def test_an_enrolment_code_is_good_once_and_for_ten_minutes(firm: Firm) -> None:
    tablet = firm.tablet()
    code = tablets.code(firm.store, firm.now)
    firm.later(minutes=11)
    with pytest.raises(Refused, match="counts no longer"):
        tablets.enrol(
            firm.store, code, tablet.dev[::-1].replace("-", "0")[:8] + tablet.dev[8:], "T", "A" * 43 + "=", firm.now
        )
    code = tablets.code(firm.store, firm.now)
    sig = sign(tablets.enrol_text(code, tablet.dev), PRIVATE)
    tablets.enrol(firm.store, code, tablet.dev, "T", KEY, firm.now, sig)
    with pytest.raises(Refused, match="counts no longer"):
        tablets.enrol(firm.store, code, tablet.dev, "T", KEY, firm.now, sig)
    # Enrolled anew, the text that it showed before counts no longer.
    assert tablet.browser.get("/api/v1/jobs").status_code == 401


def test_a_known_tablet_cannot_be_taken_over_by_another_key(firm: Firm) -> None:
    tablet = firm.tablet()
    code = tablets.code(firm.store, firm.now)
    with pytest.raises(Refused, match="another key"):
        tablets.enrol(firm.store, code, tablet.dev, "T", "A" * 43 + "=", firm.now)


def test_two_accounts_cannot_be_mistaken_for_each_other(firm: Firm) -> None:
    accounts.add(firm.store, "Ana Ruiz", "crew", PASSWORD)
    for name in ("ana ruiz", "Ana\u200b Ruiz", " Ana \t Ruiz "):
        with pytest.raises(Refused, match="of that name"):
            accounts.add(firm.store, name, "crew", PASSWORD)
    with pytest.raises(Refused, match="has a name"):
        accounts.add(firm.store, "\u200b", "crew", PASSWORD)


def test_what_is_shown_never_stands_in_the_database(firm: Firm, tmp_path: Path) -> None:
    accounts.add(firm.store, "Ana", "office", PASSWORD)
    browser = firm.browser()
    assert sign_in(browser, "Ana", PASSWORD) == 303
    tablet, code = firm.tablet(), accounts.invite(firm.store, "crew", firm.now)
    secrets = [
        PASSWORD, code, tablets.code(firm.store, firm.now), browser.client.cookies["sf_session"],
        tablet.browser.client.cookies["sf_tablet"],
    ]  # fmt: skip
    with sqlite3.connect(tmp_path / "firm.db") as db:
        text = "\n".join(db.iterdump())
    assert "Ana" in text
    assert not [each for each in secrets if each in text]


def test_cookies_are_kept_from_scripts_other_sites_and_plain_http(tmp_path: Path) -> None:
    for secure in (False, True):
        folder = tmp_path / str(secure)
        folder.mkdir()
        firm = Firm(folder, Settings(secure=secure))
        accounts.add(firm.store, "Ana", "office", PASSWORD)
        browser = firm.browser()
        token = browser.token("/office/sign-in")
        told = {"token": token, "name": "Ana", "password": PASSWORD}
        cookie = browser.client.post("/office/sign-in", data=told).headers.get_list("set-cookie")[0]
        assert cookie.startswith("__Host-sf_session=" if secure else "sf_session=")
        for word in ("HttpOnly", "SameSite=strict", "Path=/", *(["Secure"] if secure else [])):
            assert word in cookie
        assert "Domain" not in cookie


def test_where_the_library_is_not_installed_no_passkey_is_offered(firm: Firm, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(passkeys, "offered", lambda: False)
    assert "passkey" not in firm.browser().get("/office/sign-in").text
    browser = firm.signed_in("crew")
    assert "passkey" not in browser.get("/office/account").text
    for way in ("ask", "ask-new", "new", "sign-in"):
        assert browser.api("POST", f"/office/passkey/{way}", {}).status_code in (404, 422)


@pytest.mark.parametrize("told", [{}, [], {"answer": 1}, {"number": "x", "answer": {"id": "x"}}])
def test_a_passkey_answer_that_is_none_is_refused(firm: Firm, told: object) -> None:
    assert firm.browser().api("POST", "/office/passkey/sign-in", told).status_code == 422
    assert firm.signed_in("crew").api("POST", "/office/passkey/new", told).status_code == 422


def test_a_challenge_is_good_once_for_who_asked_and_for_five_minutes(firm: Firm) -> None:
    here, person, other = passkeys.Here("localhost", "http://localhost:1"), firm.person("crew"), firm.person("crew")
    for who, later in ((other, 0), (person, 6)):
        number = passkeys.begin_registering(firm.store, person, here, firm.now)["number"]
        firm.later(minutes=later)
        with pytest.raises(Refused, match="took too long"):
            passkeys.register(firm.store, who, number, {}, "", here, firm.now)
    number = passkeys.begin_registering(firm.store, person, here, firm.now)["number"]
    with pytest.raises(Refused, match="not right"):
        passkeys.register(firm.store, person, number, {}, "", here, firm.now)
    with pytest.raises(Refused, match="took too long"):
        passkeys.register(firm.store, person, number, {}, "", here, firm.now)


def test_asking_for_a_passkey_is_counted_too(firm: Firm) -> None:
    browser = firm.browser()
    found = [browser.api("POST", "/office/passkey/ask", {}).status_code for _ in range(61)]
    assert found == [200] * 60 + [429]


def test_who_is_withdrawn_signs_in_by_nothing(firm: Firm) -> None:
    person = accounts.add(firm.store, "Jo", "crew", PASSWORD)
    told = {"person": person.id, "key": "AA", "count": 0, "label": "phone"}
    firm.store.put("passkey", "its-id", json.dumps(told))
    assert passkeys.names(firm.store, person.id, firm.now) == [("its-id", "phone")]
    office = firm.signed_in("office")
    assert office.form("/office/people/withdraw", {"person": person.id}).status_code == 200
    assert passkeys.names(firm.store, person.id, firm.now) == []
    assert accounts.sign_in(firm.store, "Jo", PASSWORD) is None
    assert "Jo" not in {each.name for each in accounts.people(firm.store)}
