"""The office on PostgreSQL: a whole day of it, limits and codes under many hands, two servers on one database."""

from base64 import b64encode
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import nullcontext
from hashlib import sha256
from pathlib import Path

import pytest
from firm import JPEG, KEY, PASSWORD, Firm
from test_server_office import reading, small
from test_server_record import card

from postgresql import Server, server
from standfast.fieldwork.record.event import read
from standfast.foreman.office import accounts, erasing, limits, own_log, standing, tablets
from standfast.foreman.office.cabinet import Refused
from standfast.foreman.office.opening import opened


@pytest.fixture(scope="module")
def running() -> Iterator[Server]:
    with server() as found:
        yield found


@pytest.fixture
def office(running: Server, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Firm]:
    monkeypatch.setenv("STANDFAST_KEY", b64encode(bytes(32)).decode())
    firm = Firm(tmp_path, url=running.database())
    yield firm
    firm.store.close()


def test_a_day_of_the_office(office: Firm) -> None:
    accounts.add(office.store, "Ana", "office", PASSWORD)
    browser = office.browser()
    assert (
        browser.form("/office/sign-in", {"name": "Ana", "password": PASSWORD}, on="/office/sign-in").status_code == 303
    )
    job, (one, other) = small(office, "One", "Other")
    sha = card(office, job, one)
    one.bring(job, one.write(job, "photo", {"sha": sha256(JPEG).hexdigest()}), reading(one, job, "5"))
    assert one.send(job, JPEG).status_code == 204
    other.bring(job, other.begin(job), reading(other, job, "0.5"))
    found = standing.standing(office.store, job, office.now).state.work["items"]["s1/r"]
    assert found["state"] == "disputed"
    keep = next(each["event"] for each in found["values"] if each["value"] == "5")
    told = {"item": "s1/r", "keep": keep, "reason": "wrong range"}
    assert browser.form(f"/office/jobs/{job}/resolve", told).status_code == 303
    assert browser.get(f"/office/jobs/{job}").status_code == 200
    assert set(erasing.erase(office.store, job, "asked", office.now)) == {sha, sha256(JPEG).hexdigest()}
    assert read(office.store.events(job)[-1].raw).type == "erased"
    tablets.withdraw(office.store, one.dev, office.now)
    assert one.browser.get("/api/v1/jobs").status_code == 401


def test_of_many_who_show_one_code_one_is_enrolled(office: Firm) -> None:
    code = tablets.code(office.store, office.now)

    def enrol(number: int) -> bool:
        try:
            tablets.enrol(office.store, code, f"{number:08d}-0000-4000-8000-000000000000", "T", KEY, office.now)
        except Refused:
            return False
        return True

    with ThreadPoolExecutor(8) as pool:
        assert sum(pool.map(enrol, range(8))) == 1
    assert len(office.store.devices()) == 1


def test_attempts_of_many_at_one_moment_are_all_counted(office: Firm) -> None:
    names = {"address": "here", "anybody": ""}

    def attempt(_: int) -> bool:
        try:
            limits.attempt(office.store, "enrol", limits.ENROL, names, office.now)
        except limits.TooOften:
            return False
        return True

    most, hands = limits.ENROL["address"].most, 4
    with ThreadPoolExecutor(hands) as pool:
        let = sum(pool.map(attempt, range(30)))
    # Of those who ask at one moment more may be refused than had to be, never fewer; the refused are not counted.
    assert most - hands < let <= most
    assert let + sum(map(attempt, range(30))) == most
    assert not attempt(0)


def test_two_servers_on_one_database_write_the_office_log_one_after_the_other(
    office: Firm, monkeypatch: pytest.MonkeyPatch
) -> None:
    job, _ = small(office)
    # As two programs, which share no lock but what stands in the database.
    monkeypatch.setattr(own_log, "_ONE", nullcontext())
    own_log.own(office.store, office.now)
    others = [opened(office.url) for _ in range(2)]
    try:
        with ThreadPoolExecutor(4) as pool:
            told = {"of": "x", "text": "y"}
            list(pool.map(lambda n: own_log.write(others[n % 2], job, "closed", told, office.now), range(12)))
    finally:
        for each in others:
            each.close()
    assert list(office.store.forks(job)) == []
    assert dict(office.store.acked(job)) == {own_log.own(office.store, office.now).dev: 13}


def test_a_text_that_the_database_would_not_take_never_reaches_it(office: Firm) -> None:
    job, (tablet,) = small(office, "a\x00b\u202ec \t d")
    assert office.store.devices()[0].name == "abc d"
    assert tablet.browser.get(f"/api/v1/jobs/{job}%00/state").status_code == 404
    assert tablet.browser.get("/api/v1/jobs/%00/state").status_code == 404
    answer = office.browser().api("POST", "/office/passkey/sign-in", {"number": "\x00", "answer": {"id": "\x00"}})
    assert answer.status_code == 422
    browser = office.signed_in("office")
    for path, fields in {
        "/office/people/withdraw": {"person": "\x00"}, "/office/tablets/withdraw": {"dev": "\x00"},
        f"/office/jobs/{job}/void": {"of": "\x00", "reason": "\x00"}, "/office/passkey/forget": {"passkey": "\x00"},
        f"/office/jobs/{job}/hand-out": {"dev": "\x00"}, "/office/jobs/take-in": {"folder": "\x00"},
    }.items():  # fmt: skip
        assert browser.form(path, fields).status_code in (303, 422), path
    code = accounts.invite(office.store, "crew", office.now)
    told = {"name": "Jo\x00 Ruiz", "password": PASSWORD, "again": PASSWORD, "language": "\x00"}
    fresh = office.browser()
    assert fresh.form(f"/office/join/{code}", told, on=f"/office/join/{code}").status_code == 303
    assert "Jo Ruiz" in {each.name for each in accounts.people(office.store)}
