"""A real server with a job to hand out, and a real browser that is a tablet."""

import io
import json
import shutil
import socket
import tempfile
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any
from uuid import uuid4

import uvicorn
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Locator, Page, Playwright, Request

from standfast.foreman.office import tablets
from standfast.foreman.office.cabinet import Cabinet, universal
from standfast.foreman.office.opening import opened
from standfast.foreman.office.uploads import Uploads
from standfast.store.interface import Revision
from standfast.web.app import make_app
from standfast.web.settings import House, Settings

CHROMIUM = "/usr/bin/chromium"
ARGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--disable-default-apps", "--disable-dev-shm-usage",
    "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream",
    "--autoplay-policy=no-user-gesture-required",
]  # fmt: skip
PHONE, TABLET = {"width": 390, "height": 844}, {"width": 820, "height": 1180}
AXE = Path(__file__).parent / "axe" / "axe.min.js"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


class Site:
    """The office's server with one job.

    Attributes:
        url: where it listens.
        database: address of its database.
        store: its database.
        job: id of the job.
        sheet: the field sheet that is handed out.
    """

    def __init__(self, folder: Path, sheet: dict[str, Any], database: str = "") -> None:
        self.database = database or f"sqlite:///{folder}/office.sqlite"
        self.store: Cabinet = opened(self.database)
        self.job, self.sheet, self._hash = str(uuid4()), sheet, ""
        head = sheet["job"]
        self.store.save(self.job, head["name"], Revision(1, head["revision"], "", "2026-05-04T08:00:00Z", "office"))
        self.hand_in(sheet)
        self._socket = socket.create_server(("127.0.0.1", 0))
        self.url = f"http://localhost:{self._socket.getsockname()[1]}"
        self._start()

    def hand_in(self, sheet: dict[str, Any]) -> str:
        """Keep a field sheet as the one that is handed out from now on; its hash."""
        self.sheet = sheet
        self._hash = tablets.keep_sheet(self.store, self.job, json.dumps(sheet, ensure_ascii=False, sort_keys=True))
        for each in self.store.devices():
            tablets.hand_out(self.store, each.id, self.job, self._hash, universal())
        return self._hash

    def _start(self) -> None:
        house = House(Settings(), self.store, Uploads(self.store))
        config = uvicorn.Config(make_app(house), lifespan="off", ws="none", log_config=None, access_log=False)
        self.server = uvicorn.Server(config)
        self._thread = threading.Thread(target=self.server.run, args=([self._socket],), daemon=True)
        self._thread.start()

    def close(self) -> None:
        """Stop the server."""
        self.server.should_exit = True
        self._thread.join(10)
        self._socket.close()
        self.store.close()

    def code(self) -> str:
        """A code for one tablet."""
        return tablets.code(self.store, universal())

    def hand_out(self) -> None:
        """Hand the job to every tablet that is enrolled."""
        for each in self.store.devices():
            tablets.hand_out(self.store, each.id, self.job, self._hash, universal())

    def types(self) -> list[str]:
        """Types of the events that the office has."""
        return [json.loads(each.raw)["type"] for each in self.store.events(self.job)]


@contextmanager
def site_of(sheet: dict[str, Any]) -> Iterator[Site]:
    """A server for a while."""
    folder = Path(tempfile.mkdtemp(prefix="sffield"))
    site = Site(folder, sheet)
    try:
        yield site
    finally:
        site.close()
        shutil.rmtree(folder, ignore_errors=True)


def launched(playwright: Playwright, *more: str) -> Browser:
    """Debian's Chromium."""
    return playwright.chromium.launch(executable_path=CHROMIUM, args=[*ARGS, *more])


class Tab:
    """One tablet: a page, and everything that it said and asked for.

    Attributes:
        taps: how often something was tapped.
        faults: errors of the console and of scripts.
        hosts: hosts that were asked.
    """

    def __init__(self, context: BrowserContext, site: Site) -> None:
        self.context, self.site = context, site
        self.taps = 0
        self.faults: list[str] = []
        self.hosts: set[str] = set()
        context.on("request", self._asked)
        self.page = self.new_page()

    def new_page(self) -> Page:
        """Another page of the same tablet."""
        page = self.context.new_page()
        page.set_default_timeout(15_000)
        page.on("console", self._said)
        page.on("pageerror", lambda error: self.faults.append(str(error)))
        return page

    def _asked(self, request: Request) -> None:
        if not request.url.startswith(("blob:", "data:")):
            self.hosts.add(request.url.split("/")[2])

    def _said(self, message: ConsoleMessage) -> None:
        # A browser writes an error for every request that a server refuses or that finds no server: that is no fault.
        if message.type == "error" and "Failed to load resource" not in message.text:
            self.faults.append(message.text)

    def tap(self, name: str, exact: bool = True) -> None:
        """Tap a button by its words."""
        self.taps += 1
        self.page.get_by_role("button", name=name, exact=exact).first.click()

    def enrol(self, name: str = "Tablet 1") -> None:
        """Enrol with the code of the office, as its picture would open it, and take the job."""
        self.page.goto(f"{self.site.url}/field/#enrol={self.site.code()}")
        self.page.locator("#name").fill(name)
        self.tap("Enrol")
        self.page.get_by_role("heading", name="Jobs").wait_for()
        self.site.hand_out()
        self.tap("Send now")
        self.page.locator("button.job").click()

    def take(self, name: str, role: str = "licensed") -> None:
        """Somebody new takes the tablet."""
        self.page.get_by_label("name", exact=True).fill(name)
        self.page.get_by_label("role").select_option(role)
        self.tap("I take the tablet")
        self.page.locator(".step").wait_for()

    def send(self) -> None:
        """Bring everything to the office and take what it has; resolved when that has ended."""
        self.page.evaluate('async () => (await import("/field/static/sync.js")).now()')

    def field(self, item: str) -> Locator:
        """The field of an item."""
        return self.page.locator(f'[id="f-{item}"]')

    def photo(self, item: str) -> None:
        """Take the photo of an item."""
        self.taps += 1
        self.field(item).set_input_files({"name": "a.jpg", "mimeType": "image/jpeg", "buffer": picture()})
        self.page.get_by_text("Photo saved on this tablet.").wait_for()

    def goto(self, path: str) -> None:
        """Go to a page of the job."""
        self.page.evaluate(
            """async place => {
              const { ui } = await import("/field/static/ui.js");
              while (ui.busy) await new Promise(later => setTimeout(later, 10));
              await new Promise(later => setTimeout(later, 10));
              location.hash = place;
            }""",
            f"#/job/{self.site.job}{path}",
        )
        self.page.wait_for_timeout(100)

    def ready(self) -> None:
        """Wait until the shell is kept on the tablet."""
        self.page.evaluate("navigator.serviceWorker.ready.then(() => 0)")

    def events(self) -> list[dict[str, Any]]:
        """What the tablet itself has of the job, as the events stand in its store."""
        found: list[dict[str, Any]] = self.page.evaluate(
            """async job => { const { linesOf } = await import("/field/static/log.js");
            return (await linesOf(job)).map(line => JSON.parse(line.raw)) }""",
            self.site.job,
        )
        return found

    def told(self, kind: str) -> dict[str, Any]:
        """What the last event of a type tells."""
        found: dict[str, Any] = [each for each in self.events() if each["type"] == kind][-1]["data"]
        return found

    def violations(self) -> list[str]:
        """What axe finds against WCAG 2.2 AA on the page, all of it in sight."""
        size = self.page.viewport_size
        assert size is not None
        self.page.set_viewport_size({**size, "height": 9000})
        try:
            return self._violations()
        finally:
            self.page.set_viewport_size(size)

    def _violations(self) -> list[str]:
        if not self.page.evaluate("typeof axe === 'object'"):
            self.page.evaluate(AXE.read_text("utf-8"))
        found = self.page.evaluate("tags => axe.run(document, { runOnly: tags })", TAGS)
        return [
            f"{each['id']}: {node['html'][:160]} {node.get('failureSummary', '')[:200]}"
            for each in found["violations"]
            for node in each["nodes"]
        ]

    def small(self) -> list[str]:
        """Targets smaller than 48 px either way, words of a running text aside."""
        found: list[str] = self.page.evaluate(
            """() => [...document.querySelectorAll('a,button,select,input,textarea,summary,label.choice,label.camera')]
            .filter(each => !each.closest('.camera') && !(each.tagName === 'INPUT' && each.closest('.choice')))
            .map(each => [each.outerHTML.slice(0, 120), each.getBoundingClientRect()])
            .filter(([, box]) => box.width && (box.height < 47.5 || box.width < 47.5))
            .map(([html, box]) => `${Math.round(box.width)}x${Math.round(box.height)} ${html}`)"""
        )
        return found


@cache
def demo_sheet() -> str:
    """The field sheet of the first demo job, with times that are shortened: nobody waits five minutes in a test."""
    from standfast.foreman.demo import write_demo
    from standfast.foreman.field import field_sheet
    from standfast.foreman.plan import make_plan

    with tempfile.TemporaryDirectory() as folder:
        sheet = json.loads(field_sheet(make_plan(write_demo("one-wall", Path(folder)))))
    for step in sheet["steps"]:
        for item in step["items"]:
            if item["kind"] == "timer":
                item["seconds"] = 1
    return json.dumps(sheet)


@cache
def picture(width: int = 1600, height: int = 1200) -> bytes:
    """A photo as a camera gives it: JPEG, with a position in it."""
    image = Image.effect_noise((width, height), 40).convert("RGB")
    exif = Image.Exif()
    exif.get_ifd(0x8825)[1] = "N"
    exif[0x010E] = "POSITION-IN-THE-PICTURE"
    out = io.BytesIO()
    image.save(out, "JPEG", quality=92, exif=exif)
    return out.getvalue()
