"""What a bad day needs: a job that fits one hand, tablets that stay on a disk, and ways to break things."""

import base64
import contextlib
import json
import os
import signal
import time
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from field_site import ARGS, CHROMIUM, PHONE, Site, Tab, site_of
from playwright.sync_api import Page, Playwright

from standfast.fieldwork.record.chain import Record, chained, read_record
from standfast.fieldwork.record.event import Event, read
from standfast.fieldwork.record.fold import fold
from standfast.fieldwork.record.sheet import read_sheet
from standfast.fieldwork.record.state import State

Data = dict[str, Any]
READING = "cells/volts"


def _step(number: int, name: str, text: str, *items: Data, after: Sequence[str] = ()) -> Data:
    empty: Data = {key: [] for key in ("first", "torque", "cautions", "tools", "holds", "redo", "drawings")}
    return {
        **empty, "id": name, "number": number, "part": "check", "people": "", "indication": None, "hands": False,
        "text": {"en": text, "es": text}, "after": list(after), "items": list(items),
    }  # fmt: skip


def _item(name: str, kind: str, what: str, **more: Any) -> Data:
    base = {"count": 1, "limit": None, "tool_kind": [], "unit": "", "told": None}
    return {**base, "id": name, "kind": kind, "what": {"en": what, "es": what}, **more}


def small_sheet(revision: str = "A", until: str = "") -> Data:
    """A job of three steps: something to read, something to photograph, something to do.

    Args:
        revision: of the job.
        until: the day on which the one instrument of the firm has to be calibrated again; empty for no instrument.
    """
    limit = {
        "relation": "at least", "value": "1", "upper": "", "unit": "MΩ", "over_range": "pass", "also": [],
        "source": "invented", "text": {"en": "at least 1 MΩ", "es": "al menos 1 MΩ"},
    }  # fmt: skip
    kinds = ["insulation tester"] if until else []
    tool = {
        "id": "tester", "kind": "insulation tester", "name": "Invented tester", "serial": "INV-7", "from": "50",
        "to": "1000", "unit": "V", "calibrated_until": until,
    }  # fmt: skip
    reading = _item(READING, "reading", "Insulation", unit="MΩ", limit=limit, tool_kind=kinds)
    return {
        "schema": 1, "adoption": "us-2021", "program": "0.1.0", "languages": ["en", "es"], "drawings": [], "rules": [],
        "job": {
            "name": "A bad day (invented)", "address": "1 Example Lane", "revision": revision, "date": "2026-05-04",
            "invented": True,
        },
        "tools": [tool] if until else [],
        "steps": [
            _step(1, "cells", "Read the insulation.", reading),
            _step(2, "cover", "Photograph what gets covered.", _item("cover/photo", "photo", "Photo of the joints")),
            _step(3, "close", "Put the cover on.", after=["cells", "cover"]),
        ],
    }  # fmt: skip


@contextlib.contextmanager
def small_site(sheet: Data | None = None) -> Iterator[Site]:
    """A server with the small job."""
    with site_of(sheet or small_sheet()) as site:
        yield site


def kept_tablet(playwright: Playwright, folder: Path, site: Site, *more: str) -> Tab:
    """A tablet whose store lies in a folder, so that it is there after the browser ends."""
    context = playwright.chromium.launch_persistent_context(
        folder, executable_path=CHROMIUM, args=[*ARGS, *more], viewport=PHONE, accept_downloads=True
    )
    return Tab(context, site)


def taken(tab: Tab, name: str = "Ana Invented") -> Tab:
    """Enrol a tablet, and let somebody take it."""
    tab.enrol(f"Tablet of {name}")
    tab.take(name)
    return tab


def again(tab: Tab) -> None:
    """Enrol a tablet that the office does not know any more as the same one."""
    tab.page.goto(f"{tab.site.url}/field/#enrol={tab.site.code()}")
    tab.page.locator("#code").wait_for()
    assert tab.page.locator("#name").input_value().startswith("Tablet of")
    tab.tap("Enrol")
    tab.page.get_by_role("heading", name="Jobs").wait_for()


def programs_of(folder: Path) -> list[int]:
    """The programs of a browser whose store lies in a folder, and no others."""
    found = []
    for each in Path("/proc").iterdir():
        with contextlib.suppress(OSError):
            if (
                each.name.isdigit()
                and f"--user-data-dir={folder}\0".encode() in (each / "cmdline").read_bytes() + b"\0"
            ):
                found.append(int(each.name))
    return found


def kill_browser(folder: Path) -> int:
    """End a browser as a battery that is empty does; how many programs of it there were."""
    killed = programs_of(folder)
    for each in killed:
        with contextlib.suppress(ProcessLookupError):
            os.kill(each, signal.SIGKILL)
    end = time.monotonic() + 10
    while programs_of(folder) and time.monotonic() < end:
        time.sleep(0.02)
    for held in folder.glob("Singleton*"):
        held.unlink()
    return len(killed)


def raws(page: Page, job: str) -> list[str]:
    """The texts of the events of a job as they stand in the store of a tablet."""
    found: list[str] = page.evaluate(
        """async job => { const { linesOf } = await import("/field/static/log.js");
        return (await linesOf(job)).map(line => line.raw) }""",
        job,
    )
    return found


def photos(page: Page, job: str) -> Mapping[str, bytes]:
    """The photos and cards of a job in the store of a tablet, by the names they have there."""
    found: dict[str, str] = page.evaluate(
        """async job => { const { filesOf } = await import("/field/static/log.js"); const found = {};
        for (const file of await filesOf(job)) found[file.sha] = await new Promise(done => {
          const reader = new FileReader(); reader.onload = () => done(reader.result.split(",")[1] ?? "");
          reader.onerror = () => done(""); reader.readAsDataURL(file.blob); });
        return found }""",
        job,
    )
    return {sha: base64.b64decode(text) for sha, text in found.items()}


def record_of(texts: Sequence[str]) -> Record:
    """A record as Python reads it from the texts of its events, each log in its order."""
    return read_record([("record.ndjson", "\n".join(texts).encode())])


def broken(texts: Sequence[str]) -> list[str]:
    """What Python finds wrong with the chains of a record."""
    record = record_of(texts)
    return [f"{each.kind}: {each.what}" for each in (*record.findings, *chained(record))]


def folded(texts: Sequence[str], sheet: Data) -> State:
    """The state as Python folds it."""
    return fold([read(each) for each in texts], read_sheet(json.dumps(sheet)))


def state_of(tab: Tab) -> Data:
    """The state as the tablet folds it."""
    found: Data = tab.page.evaluate('async () => (await import("/field/static/work.js")).job().state')
    return found


def of_office(site: Site) -> list[Event]:
    """The events that the office has."""
    return [read(each.raw) for each in site.store.events(site.job)]


CONTACT = 'async () => ({ ...(await import("/field/static/sync.js")).contact })'


def contact(tab: Tab) -> Data:
    """What the tablet knows of its contact with the office."""
    found: Data = tab.page.evaluate(CONTACT)
    return found


def settle(tab: Tab, seconds: float = 15) -> None:
    """Send until the tablet says that the office has everything."""
    end = time.monotonic() + seconds
    while True:
        tab.send()
        told = contact(tab)
        if (told["state"], told["waiting"], told["photos"], told["counted"]) == ("done", 0, 0, True):
            return
        assert time.monotonic() < end, told
        tab.page.wait_for_timeout(100)


def whole(site: Site, tab: Tab) -> None:
    """The office has exactly what the tablet has: each event once, each photo to the byte."""
    here = raws(tab.page, site.job)
    assert sorted(each.raw for each in site.store.events(site.job)) == sorted(here)
    assert not site.store.forks(site.job)
    for sha, content in photos(tab.page, site.job).items():
        assert site.store.file(site.job, sha) == content


def read_cells(tab: Tab, value: str) -> None:
    """Record a reading, and wait until it is said to be saved."""
    tab.goto("/step/cells")
    if tab.page.get_by_role("button", name="Record again").count():
        tab.tap("Record again")
    tab.field(READING).fill(value)
    tab.tap("Save, done")
    tab.page.get_by_text("Step 1 is saved on this tablet.").wait_for()


def note_problem(tab: Tab, text: str) -> None:
    """Note a problem, and wait until it is said to be saved."""
    tab.goto("/problem")
    tab.page.get_by_text("damaged").click()
    tab.page.locator("textarea").fill(text)
    tab.tap("Save the problem")
    tab.page.get_by_text("The problem is saved on this tablet.").wait_for()


def camera(tab: Tab) -> None:
    """Take the photo of the cover."""
    tab.goto("/step/cover")
    tab.photo("cover/photo")
