"""A firm for the tests of the server: a store, its application, people who are signed in, tablets that write logs."""

import base64
import json
import re
import shutil
import uuid
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from functools import cache
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from starlette.testclient import TestClient

from standfast.fieldwork.record.event import FIRST, hash_of
from standfast.fieldwork.record.seal import sign
from standfast.foreman.demo import write_demo
from standfast.foreman.office import handing, sessions, tablets
from standfast.foreman.office.jobs_in import take_in
from standfast.foreman.office.opening import opened
from standfast.foreman.office.uploads import Uploads
from standfast.store.interface import Person
from standfast.web.app import make_app
from standfast.web.settings import House, Settings

BEGAN = datetime(2026, 11, 25, 21, 0, tzinfo=UTC)
PASSWORD = "correct mule battery nine"
PRIVATE = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))
KEY = base64.b64encode(PRIVATE.public_key().public_bytes_raw()).decode()
"""Of every tablet of the tests."""
JPEG = b"\xff\xd8\xff\xe0\x00\x10JFIF\x00" + b"invented picture " * 20
TOKEN = re.compile(r'name="token" value="(\w+)"')


@cache
def _made() -> TemporaryDirectory[str]:
    """A database that is made once and copied: making its tables takes longer than most tests."""
    folder = TemporaryDirectory(prefix="standfast-firm-")
    opened(f"sqlite:///{folder.name}/firm.db").close()
    return folder


class Firm:
    """A firm with a clock that the test sets."""

    def __init__(
        self, folder: Path, settings: Settings | None = None, job_bytes: int = 10_000_000, url: str = ""
    ) -> None:
        for name in () if url else ("firm.db", "firm.db.key"):
            shutil.copy2(Path(_made().name) / name, folder / name)
        self.now, self.url = BEGAN, url or f"sqlite:///{folder}/firm.db"
        self.store = opened(self.url)
        self.shelf = folder / "jobs"
        told = (settings or Settings())._replace(jobs=self.shelf)
        self.house = House(told, self.store, Uploads(self.store, job_bytes), lambda: self.now)
        self.app = make_app(self.house)

    def later(self, **by: float) -> None:
        self.now += timedelta(**by)

    def browser(self) -> "Browser":
        scheme = "https" if self.house.settings.secure else "http"
        return Browser(TestClient(self.app, f"{scheme}://127.0.0.1:8000", follow_redirects=False))

    def person(self, role: str, name: str = "") -> Person:
        """An account whose password nobody knows: hashing takes long, and few tests ask for it."""
        made = Person(str(uuid.uuid4()), name or f"{role} {uuid.uuid4()}", role, "no hash")
        self.store.keep_person(made)
        return made

    def signed_in(self, role: str) -> "Browser":
        browser = self.browser()
        browser.show("session", sessions.start(self.store, self.person(role), self.now))
        return browser

    def job(self) -> str:
        """The main demo job in the store."""
        write_demo("one-wall", self.shelf / "one-wall")
        return take_in(self.store, self.shelf, "one-wall", self.now)

    def tablet(self, name: str = "Tablet one", dev: str = "") -> "Tablet":
        dev = dev or str(uuid.uuid4())
        browser = self.browser()
        code = tablets.code(self.store, self.now)
        sig = sign(tablets.enrol_text(code, dev), PRIVATE)
        browser.show("tablet", tablets.enrol(self.store, code, dev, name, KEY, self.now, sig))
        return Tablet(browser, dev, self)


class Browser:
    """A browser: fills the token of a form in, and sends along what a page of ours sends."""

    def __init__(self, client: TestClient) -> None:
        self.client = client

    @property
    def secure(self) -> bool:
        return self.client.base_url.scheme == "https"

    def show(self, what: str, token: str) -> None:
        self.client.cookies.set(("__Host-" if self.secure else "") + f"sf_{what}", token)

    def get(self, path: str, **more: Any) -> Any:
        return self.client.get(path, **more)

    def token(self, path: str = "/office/account") -> str:
        found = TOKEN.search(self.get(path).text) or TOKEN.search(self.get("/office/sign-in").text)
        return found[1] if found else ""

    def form(self, path: str, fields: Mapping[str, Any] | None = None, on: str = "/office/account", **more: Any) -> Any:
        return self.client.post(path, data={"token": self.token(on), **(fields or {})}, **more)

    def api(self, method: str, path: str, told: Any = None, **headers: str) -> Any:
        content = None if told is None else json.dumps(told).encode()
        sent = {"X-Standfast": "1", "Content-Type": "application/json", **headers}
        return self.client.request(method, path, content=content, headers=sent)


class Tablet:
    """A tablet that writes a chained log and brings it."""

    def __init__(self, browser: Browser, dev: str, firm: Firm) -> None:
        self.browser, self.dev, self.firm = browser, dev, firm
        self.head: dict[str, tuple[int, str]] = {}

    def write(
        self, job: str, type: str, data: Mapping[str, Any], seen: Mapping[str, int] | None = None, **over: Any
    ) -> str:
        seq, prev = self.head.get(job, (0, FIRST))
        event = {
            "v": 1, "job": job, "dev": self.dev, "seq": seq + 1, "prev": prev, "id": str(uuid.uuid4()), "type": type,
            "step": "", "data": dict(data), "seen": dict(seen or {self.dev: seq}), "wall": "2026-11-25T21:04:05.123Z",
            "tz": "-05:00", "mono": 1.5, "boot": "b1", "app": "0.1.0", "user": "", **over,
        }  # fmt: skip
        raw = json.dumps(event, separators=(",", ":"))
        self.head[job] = (event["seq"], hash_of(raw))
        return raw

    def begin(self, job: str, sheet: str = "0" * 64) -> str:
        return self.write(job, "begin", {"sheet": sheet, "key": KEY, "device": "Tablet"})

    def bring(self, job: str, *raws: str, have: Mapping[str, int] | None = None, dev: str = "") -> Any:
        told = {"dev": dev or self.dev, "events": list(raws), "have": dict(have or {})}
        return self.browser.api("POST", f"/api/v1/jobs/{job}/events", told)

    def send(self, job: str, data: bytes, offset: int = 0, length: int | None = None, sha: str = "") -> Any:
        headers = {
            "X-Standfast": "1", "Content-Type": "application/offset+octet-stream", "Upload-Offset": str(offset),
            "Upload-Length": str(len(data) if length is None else length),
        }  # fmt: skip
        path = f"/api/v1/jobs/{job}/files/{sha or sha256(data).hexdigest()}"
        return self.browser.client.patch(path, content=data, headers=headers)


def handed(firm: Firm, *names: str, sheet: str = "") -> tuple[str, list[Tablet]]:
    """The demo job, handed out to tablets. Its field sheet is worked out once, and is the same for every test."""
    job, made = firm.job(), [firm.tablet(name) for name in names or ("Tablet one",)]
    sha = tablets.keep_sheet(firm.store, job, sheet or _sheet_text())
    for each in made:
        tablets.hand_out(firm.store, each.dev, job, sha, firm.now)
    return job, made


@cache
def _sheet_text() -> str:
    with TemporaryDirectory() as name:
        firm = Firm(Path(name))
        return handing.compiled(firm.store, firm.job(), None)
