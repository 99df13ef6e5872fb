"""What a page may do, where a change may come from, and that a hostile text stays a text."""

import asyncio
import re
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest
from firm import Firm
from hypothesis import given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient
from starlette.websockets import WebSocketDisconnect

from standfast.foreman.office import accounts, jobs_in, tablets
from standfast.foreman.office.cabinet import Refused
from standfast.store.interface import Revision
from standfast.web import app as application
from standfast.web.app import WAYS
from standfast.web.security.way import Way
from standfast.web.settings import Settings

WEB = Path(application.__file__).parent
HOSTILE = "<script>alert(1)</script>{{7*7}}{% include '/etc/passwd' %}\"' onload=x"


def test_every_answer_keeps_a_browser_within_bounds(firm: Firm) -> None:
    for path in ("/", "/office/sign-in", "/office/", "/field/", "/api/v1/jobs", "/api/v1/openapi.json", "/nowhere"):
        headers = firm.browser().get(path).headers
        policy = headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "frame-ancestors 'none'" in policy
        assert "base-uri 'none'" in policy
        assert "unsafe-inline" not in policy
        assert "unsafe-eval" not in policy.replace("wasm-unsafe-eval", "")
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["x-frame-options"] == "DENY"
        assert headers["referrer-policy"] == "same-origin"
        assert headers["cross-origin-opener-policy"] == "same-origin"
        assert headers["cross-origin-resource-policy"] == "same-origin"
        assert ("camera=(self)" in headers["permissions-policy"]) == path.startswith("/field/")
        assert "microphone=()" in headers["permissions-policy"]
        assert "strict-transport-security" not in headers
        assert "server" not in headers


def test_only_with_tls_a_browser_is_told_to_stay_with_it(tmp_path: Path) -> None:
    headers = Firm(tmp_path, Settings(secure=True)).browser().get("/office/sign-in").headers
    assert headers["strict-transport-security"] == "max-age=31536000"


def test_what_is_about_people_is_kept_by_no_cache(firm: Firm) -> None:
    browser = firm.signed_in("office")
    for path in ("/office/", "/office/people", "/api/v1/jobs"):
        assert browser.get(path).headers["cache-control"] == "no-store"


def test_no_page_holds_a_script_or_a_style_of_its_own() -> None:
    pages = list(WEB.rglob("*.html"))
    assert pages
    for page in pages:
        text = page.read_text("utf-8")
        assert not re.search(r"\sstyle\s*=|<style|javascript:|\son\w+\s*=", text), page.name
        for script in re.findall(r"<script[^>]*>.*?</script>", text, re.DOTALL):
            assert re.fullmatch(r"<script[^>]* src=\"[^\"]+\"[^>]*></script>", script), page.name
        if "templates" in page.parts:
            assert "autoescape false" not in text
            # The one picture that we draw ourselves.
            assert text.count("| safe") == (1 if page.name == "code.html" else 0)


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "https://evil.test"}, {"Origin": "null"}, {"Origin": "http://127.0.0.1:8001"},
        {"Sec-Fetch-Site": "cross-site"}, {"Sec-Fetch-Site": "same-site"}, {"Origin": "https://127.0.0.1:8000"},
    ],
)  # fmt: skip
def test_a_change_from_elsewhere_is_refused(firm: Firm, headers: dict[str, str]) -> None:
    browser, tablet, job = firm.signed_in("office"), firm.tablet(), firm.job()
    assert browser.form("/office/people/invite", {"role": "office"}, headers=headers).status_code == 403
    answer = tablet.browser.api("POST", f"/api/v1/jobs/{job}/events", {}, **headers)
    assert answer.status_code == 403
    assert answer.json()["what"] == "That came from another page."
    assert (
        firm.browser().form("/office/sign-in", {"name": "a"}, on="/office/sign-in", headers=headers).status_code == 403
    )


def test_a_change_from_here_is_taken(firm: Firm) -> None:
    headers = {"Origin": "http://127.0.0.1:8000", "Sec-Fetch-Site": "same-origin"}
    assert firm.signed_in("office").form("/office/people/invite", {"role": "crew"}, headers=headers).status_code == 200


def test_a_form_needs_the_token_of_this_session_and_data_their_header(firm: Firm) -> None:
    one, other = firm.signed_in("office"), firm.signed_in("office")
    for token in ("", "0" * 64, other.token()):
        told = {"token": token, "role": "office"}
        assert one.client.post("/office/people/invite", data=told).status_code == 403
    tablet = firm.tablet()
    assert tablet.browser.client.post("/api/v1/enrol", json={}).status_code == 403
    assert tablet.browser.api("POST", "/api/v1/enrol", {}, **{"X-Standfast": "0"}).status_code == 403


def test_a_server_is_only_called_by_its_names(tmp_path: Path) -> None:
    firm = Firm(tmp_path, Settings(names=("office.example",)))
    for host, right in {
        "127.0.0.1:8000": True, "localhost:8000": True, "[::1]:8000": True, "office.example": True,
        "OFFICE.example:8443": True, "192.168.1.5": True, "evil.test": False, "office.example.evil.test": False,
        "": False, "127.0.0.1.evil.test": False,
    }.items():  # fmt: skip
        status = firm.browser().get("/office/sign-in", headers={"Host": host}).status_code
        assert status == (200 if right else 421), host


def test_too_much_is_not_read(firm: Firm) -> None:
    browser = firm.browser()
    assert browser.client.post("/office/sign-in", content=b"x" * 70_000).status_code == 413

    def pieces() -> object:
        for _ in range(100):
            yield b"x" * 1000

    assert browser.client.post("/office/sign-in", content=pieces()).status_code == 413
    fields = "&".join(f"a{number}=1" for number in range(300))
    assert browser.client.post("/office/sign-in", content=fields.encode()).status_code == 422


def test_a_hostile_name_stays_a_text(firm: Firm) -> None:
    browser = firm.signed_in("office")
    firm.person("crew", HOSTILE)
    firm.tablet(HOSTILE)
    job = "0c6e0d2e-7d1f-4b5c-9a55-5a6b7c8d9e0f"
    firm.store.save(job, HOSTILE, Revision(0, HOSTILE, "x", "2026-11-25T21:00:00.000Z", ""))
    for path in ("/office/", "/office/people", "/office/tablets", f"/office/jobs/{job}", f"/office/jobs/{job}/erase"):
        text = browser.get(path).text
        assert "&lt;script&gt;" in text, path
        assert "<script>" not in text
        assert "{{7*7}}" in text
        assert not re.search(r"<[^>]*[\"'] onload=x", text)
    answer = firm.browser().form("/office/sign-in", {"name": HOSTILE, "password": HOSTILE}, on="/office/sign-in")
    assert "<script>" not in answer.text


def test_the_picture_of_a_code_is_a_drawing_and_nothing_else() -> None:
    picture = tablets.qr("https://office.example/field/#enrol=" + "x" * 43 + '"><script>')
    assert picture.startswith("<svg")
    assert set(re.findall(r"<(/?\w+)", picture)) <= {"svg", "/svg", "path", "/path", "g", "/g"}


@pytest.mark.parametrize(
    "name",
    ["../firm.db", "..%2ffirm.db", "/etc/passwd", "....//app.py", "office.css/../../templates/base.html",
     "office.css%00", "\\..\\app.py", "."],
)  # fmt: skip
def test_no_path_leads_out_of_what_is_shipped(firm: Firm, name: str) -> None:
    for room in ("/office/static/", "/field/static/"):
        answer = firm.browser().get(room + name)
        assert answer.status_code in (404, 405), answer.text[:80]


@pytest.mark.parametrize("name", ["../jobs/one-wall", "/tmp", "", ".", "..", "one-wall/../one-wall", "link", "no such"])
def test_only_folders_on_the_shelf_are_taken_in(firm: Firm, tmp_path: Path, name: str) -> None:
    firm.job()
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "job.toml").write_text("[job]\n")
    (firm.shelf / "link").symlink_to(elsewhere)
    assert jobs_in.folders(firm.shelf) == ["one-wall"]
    with pytest.raises(Refused, match="no such folder"):
        jobs_in.take_in(firm.store, firm.shelf, name, firm.now)


def test_a_link_shown_on_the_page_is_that_of_this_server(firm: Firm) -> None:
    answer = firm.signed_in("office").form("/office/people/invite", {"role": "crew"})
    (link,) = re.findall(r"http://127\.0\.0\.1:8000(/office/join/[\w-]{43})", answer.text)
    assert firm.browser().get(link).status_code == 200


def test_a_mistake_of_ours_is_told_without_its_insides(firm: Firm, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> None:
        raise RuntimeError("the insides: /work/secret")

    tablet = firm.tablet()
    monkeypatch.setattr(tablets, "handed", broken)
    monkeypatch.setattr("standfast.web.security.guard.report", lambda error, call: "report: x")
    answer = tablet.browser.get("/api/v1/jobs")
    assert answer.status_code == 500
    assert set(answer.json()) == {"what", "why", "do"}
    assert "insides" not in answer.text


def test_roles_that_are_none_make_nobody(firm: Firm) -> None:
    browser = firm.signed_in("office")
    assert browser.form("/office/people/invite", {"role": "owner"}).status_code == 422
    with pytest.raises(Refused, match="no role"):
        accounts.add(firm.store, "A", "owner", "correct mule battery")


def test_the_application_is_asked_over_http_alone(firm: Firm) -> None:
    with pytest.raises(WebSocketDisconnect), TestClient(firm.app).websocket_connect("/office/"):
        pass


def test_a_slow_request_is_not_waited_for_for_ever(tmp_path: Path) -> None:
    firm = Firm(tmp_path, Settings(body_seconds=0.05))
    sent: list[dict[str, Any]] = []

    async def never() -> Any:
        await asyncio.sleep(30)

    async def send(message: Any) -> None:
        sent.append(message)

    scope = {
        "type": "http", "method": "POST", "path": "/office/sign-in", "raw_path": b"/office/sign-in", "root_path": "",
        "headers": [(b"host", b"localhost")], "client": ("127.0.0.1", 1), "server": ("127.0.0.1", 8000),
        "scheme": "http", "http_version": "1.1", "query_string": b"",
    }  # fmt: skip
    asyncio.run(firm.app(scope, never, send))
    assert sent[0]["status"] == 408


FIELDS = ("name", "password", "again", "language", "role", "person", "dev", "folder", "item", "keep", "of", "reason",
          "title", "stamp", "passkey", "new", "everywhere")  # fmt: skip
ODD = st.one_of(
    st.text(max_size=50),
    st.sampled_from(["\x00", "../..", "%00", "\u202e", "💥" * 30, "x" * 3000, "-1", "null", "{{7*7}}"]),
)


@pytest.mark.parametrize(
    "way", [each for each in WAYS if each.sort == "page" and each.method == "POST"], ids=lambda way: way.path
)
def test_no_form_however_odd_makes_a_mistake_of_ours(tmp_path_factory: pytest.TempPathFactory, way: Way) -> None:
    firm = Firm(tmp_path_factory.mktemp("odd"))
    job = firm.job()

    @settings(max_examples=6, deadline=None, database=None)
    @given(st.lists(st.tuples(st.sampled_from(FIELDS), ODD), max_size=8))
    def call(fields: list[tuple[str, str]]) -> None:
        firm.later(minutes=16)
        browser = firm.signed_in("office")
        path = way.path.replace("{job}", job).replace("{code}", accounts.invite(firm.store, "crew", firm.now))
        sent = urlencode([*fields, ("token", browser.token())], errors="surrogatepass")
        headers = {"Content-Type": "application/x-www-form-urlencoded"}
        answer = browser.client.post(path, content=sent.encode(), headers=headers)
        assert answer.status_code in (200, 303, 404, 413, 422, 429), (path, fields)

    call()
