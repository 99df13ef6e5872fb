"""Every way in × everybody who may come: what is not allowed is refused, and what is allowed is not."""

import uuid

import pytest
from firm import Browser, Firm

from standfast.foreman.office import accounts, sessions, tablets
from standfast.web.app import WAYS
from standfast.web.security.way import Way

EVERYBODY = "anybody office crew reader tablet"
SIGNED_IN = "office crew reader"
READS = "office crew reader tablet"
EXPECTED = {
    "GET /": EVERYBODY,
    "GET /office": EVERYBODY,
    "GET /office/sign-in": EVERYBODY,
    "POST /office/sign-in": EVERYBODY,
    "POST /office/sign-out": SIGNED_IN,
    "GET /office/join/{code}": EVERYBODY,
    "POST /office/join/{code}": EVERYBODY,
    "GET /office/account": SIGNED_IN,
    "POST /office/account/password": SIGNED_IN,
    "GET /office/": SIGNED_IN,
    "POST /office/jobs/take-in": "office",
    "POST /office/jobs/{job}/hand-out": "office",
    "GET /office/jobs/{job}": SIGNED_IN,
    "POST /office/jobs/{job}/resolve": "office",
    "POST /office/jobs/{job}/void": "office",
    "POST /office/jobs/{job}/seal": "office",
    "GET /office/jobs/{job}/erase": "office",
    "POST /office/jobs/{job}/erase": "office",
    "GET /office/jobs/{job}/export": "office",
    "GET /office/people": "office",
    "POST /office/people/invite": "office",
    "POST /office/people/withdraw": "office",
    "GET /office/tablets": "office",
    "POST /office/tablets/code": "office",
    "POST /office/tablets/withdraw": "office",
    "POST /office/passkey/ask-new": SIGNED_IN,
    "POST /office/passkey/new": SIGNED_IN,
    "POST /office/passkey/ask": EVERYBODY,
    "POST /office/passkey/sign-in": EVERYBODY,
    "POST /office/passkey/forget": SIGNED_IN,
    "POST /api/v1/enrol": EVERYBODY,
    "GET /api/v1/jobs": READS,
    "GET /api/v1/jobs/{job}/sheet/{sheet}": READS,
    "GET /api/v1/jobs/{job}/cards": READS,
    "POST /api/v1/jobs/{job}/events": "office tablet",
    "HEAD /api/v1/jobs/{job}/files/{sha}": READS,
    "PATCH /api/v1/jobs/{job}/files/{sha}": "office tablet",
    "GET /api/v1/jobs/{job}/files/{sha}": READS,
    "GET /api/v1/jobs/{job}/state": READS,
    "GET /api/v1/openapi.json": EVERYBODY,
    "GET /office/static/{name}": EVERYBODY,
    "GET /field": EVERYBODY,
    "GET /field/": EVERYBODY,
    "GET /field/sw.js": EVERYBODY,
    "GET /field/words/{language}.json": EVERYBODY,
    "GET /field/static/{name:path}": EVERYBODY,
}
"""Written by hand, so that a new way, or a wider one, has to be put here on purpose."""
WHO = ("anybody", "office", "crew", "reader", "tablet", "withdrawn tablet", "withdrawn account", "session run out")


def who(firm: Firm, name: str) -> tuple[Browser, str]:
    """A browser, and as whom it counts."""
    if name in ("office", "crew", "reader"):
        return firm.signed_in(name), name
    if name == "tablet":
        return firm.tablet().browser, "tablet"
    if name == "withdrawn tablet":
        tablet = firm.tablet()
        tablets.withdraw(firm.store, tablet.dev, firm.now)
        return tablet.browser, "anybody"
    browser = firm.browser()
    if name == "withdrawn account":
        person = firm.person("crew")
        browser.show("session", sessions.start(firm.store, person, firm.now))
        accounts.withdraw(firm.store, person, firm.now)
    if name == "session run out":
        browser.show("session", sessions.start(firm.store, firm.person("office"), firm.now))
        firm.later(hours=2)
    return browser, "anybody"


def go(browser: Browser, way: Way) -> int:
    path = way.path.replace("{name:path}", "app.js")
    for name, value in {
        "language": "en",
        "job": str(uuid.uuid4()),
        "sha": "a" * 64,
        "sheet": "b" * 64,
        "code": "c" * 43,
    }.items():
        path = path.replace(f"{{{name}}}", value)
    path = path.replace("{name}", "office.css")
    headers = {"X-Standfast": "1"} if way.sort == "data" else {}
    if way.method == "POST" and way.sort == "page":
        return int(browser.form(path, headers=headers).status_code)
    answer = browser.client.request(way.method, path, headers=headers, content=b"{}" if way.method != "GET" else None)
    if answer.status_code == 303 and answer.headers["location"] == "/office/sign-in":
        return 401
    return int(answer.status_code)


def test_the_table_is_the_one_that_is_meant() -> None:
    found = {f"{way.method} {way.path}": set(way.who) for way in WAYS}
    assert len(found) == len(WAYS)
    assert found == {name: set(allowed.split()) | ({"anybody"} if "anybody" in allowed else set())
                     for name, allowed in EXPECTED.items()}  # fmt: skip


@pytest.mark.parametrize("name", WHO)
def test_who_may_and_who_may_not(firm: Firm, name: str) -> None:
    refused = 0
    for way in WAYS:
        browser, role = who(firm, name)
        status = go(browser, way)
        allowed = set(EXPECTED[f"{way.method} {way.path}"].split())
        assert status < 500, (way.method, way.path)
        if role in allowed:
            assert status not in (401, 403), (way.method, way.path, status)
        else:
            # A form of somebody who is not signed in is sent where one signs in.
            refused += 1
            assert status in ((401, 303) if role == "anybody" else (403,)), (way.method, way.path, status)
    assert refused == sum(role not in allowed.split() for allowed in EXPECTED.values())


def test_a_method_that_is_not_there_is_told_with_those_that_are(firm: Firm) -> None:
    answer = firm.browser().api("DELETE", "/api/v1/jobs")
    assert answer.status_code == 405
    assert answer.headers["allow"] == "GET, HEAD"
    assert answer.json()["what"]


def test_a_path_that_is_not_there_is_told(firm: Firm) -> None:
    for path in ("/admin", "/office/jobs", "/api/v1/", "/field/secret", "/.env", "/office/static/..%2f..%2fapp.py"):
        answer = firm.browser().get(path)
        assert answer.status_code == 404, path
        assert answer.headers["content-security-policy"]


def test_the_office_of_one_person_stays(firm: Firm) -> None:
    browser = firm.signed_in("office")
    me = next(each for each in firm.store.people() if each.role == "office")
    answer = browser.form("/office/people/withdraw", {"person": me.id})
    assert answer.status_code == 422
    assert accounts.person(firm.store, me.id) is not None
