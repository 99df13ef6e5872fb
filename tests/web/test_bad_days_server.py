"""The server is killed at one statement of its writing after another while a tablet sends: none lost, none doubled."""

import contextlib
import os
import select
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

import pytest
from bad_days import (
    broken,
    contact,
    photos,
    raws,
    record_of,
    settle,
    small_sheet,
    taken,
)
from field_site import PHONE, Site, Tab, launched
from playwright.sync_api import Request, sync_playwright

from postgresql import Server, server

SCRIPT = Path(__file__).with_name("uncertain_server.py")
STARTS = {"sqlite": 26, "postgresql": 9}
POINTS = 18
"""So many points are there in what is sent: two entries, and a photo in three pieces."""
PIECE = 256 * 1024
WRITE = """async n => {
  const { record } = await import("/field/static/work.js");
  const { kept } = await import("/field/static/media.js");
  const bytes = new Uint8Array(600_000);
  for (let at = 0; at < bytes.length; at += 60_000) crypto.getRandomValues(bytes.subarray(at, at + 60_000));
  bytes.set([0xff, 0xd8, 0xff]);
  const file = await kept(new Blob([bytes], { type: "image/jpeg" }));
  await record("problem", "", { kind: "other", text: `before photo ${n}` });
  await record("photo", "cover", { item: "cover/photo", sha: file.sha, bytes: file.bytes, mime: file.mime }, [file]);
}"""


class Uncertain(Site):
    """A server of its own process, which dies."""

    def _start(self) -> None:
        self._socket.close()
        self.port = int(self.url.rpartition(":")[2])
        call = [sys.executable, str(SCRIPT), self.database, str(self.port)]
        self.process = subprocess.Popen(call, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=os.environ)
        self.start(0)

    def start(self, at: int) -> None:
        """Start it, to die at a point; it listens when this returns."""
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        self.process.stdin.write(f"{at}\n")
        self.process.stdin.flush()
        self.pid, self.ended = int(self.process.stdout.readline()), ""
        end = time.monotonic() + 30
        while True:
            with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", self.port), 1):
                return
            assert not self.dead()
            assert time.monotonic() < end
            time.sleep(0.02)

    def dead(self, wait: float = 0) -> bool:
        """Whether it has ended, by itself or killed."""
        out = self.process.stdout
        assert out is not None
        if not self.ended and select.select([out], [], [], wait)[0]:
            self.ended = out.readline().strip()
        return bool(self.ended)

    def stop(self) -> None:
        """Kill it, where it is not dead yet."""
        if not self.dead():
            os.kill(self.pid, signal.SIGKILL)
        assert self.dead(10)

    def close(self) -> None:
        self.stop()
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        self.process.stdin.close()
        self.process.wait(10)
        self.process.stdout.close()
        self.store.close()


@pytest.fixture(scope="module")
def running() -> Iterator[Server]:
    with server() as found:
        yield found


@pytest.fixture(params=["sqlite", "postgresql"])
def site(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Iterator[Uncertain]:
    url = ""
    if request.param == "postgresql":
        running: Server = request.getfixturevalue("running")
        monkeypatch.setenv("STANDFAST_KEY", "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=")
        url = running.database()
    with tempfile.TemporaryDirectory(prefix="sfkill", dir="/dev/shm" if Path("/dev/shm").is_dir() else None) as name:
        site = Uncertain(Path(name), small_sheet(), url)
        try:
            yield site
        finally:
            site.close()


def test_a_server_that_is_killed_at_its_statements_gets_everything_once(site: Uncertain) -> None:
    starts = STARTS["sqlite" if site.database.startswith("sqlite") else "postgresql"]
    step = 1 if starts > POINTS else 2
    begins: list[int] = []

    def asked(request: Request) -> None:
        if request.method == "PATCH":
            begins.append(int(request.headers["upload-offset"]))

    with sync_playwright() as playwright:
        browser = launched(playwright)
        tab = taken(Tab(browser.new_context(viewport=PHONE), site))
        tab.context.on("request", asked)
        settle(tab)
        site.stop()
        died, goes_on, where, every = 0, 0, list[str](), list[int]()
        for number in range(starts):
            # From the first point on; each time there is something new to send.
            tab.page.evaluate(WRITE, number)
            site.start(1 + number * step % POINTS)
            # The tablet is told nothing of it; it sends until nobody is there.
            for _ in range(20):
                tab.send()
                if site.dead() or (contact(tab)["state"] == "done" and not contact(tab)["photos"]):
                    break
            if site.dead():
                where.append("photo" if begins else "events")
                goes_on += bool(begins) and begins[0] > 0
            every.extend(begins)
            begins.clear()
            died += site.dead() and site.ended == "-9"
            site.stop()
            acked = tab.page.evaluate(
                'async job => (await (await import("/field/static/log.js")).recall(`acked ${job}`)) ?? {}', site.job
            )
            kept = [each.raw for each in site.store.events(site.job)]
            here = raws(tab.page, site.job)
            assert len(kept) == len(set(kept))
            assert set(kept) <= set(here)
            assert sum(acked.values()) <= len(kept), "what the tablet was told to be there is there"
            sent = tab.page.evaluate(
                """async job => (await (await import("/field/static/log.js")).recallNames(`sent ${job} `))
                .map(name => name.split(" ")[2])""",
                site.job,
            )
            for sha in sent:
                content = site.store.file(site.job, sha)
                assert content is not None
                assert sha256(content).hexdigest() == sha
        assert died >= starts * 4 // 5, died
        site.start(0)
        settle(tab)
        texts = raws(tab.page, site.job)
        assert broken(texts) == []
        assert sorted(each.raw for each in site.store.events(site.job)) == sorted(texts)
        assert not site.store.forks(site.job)
        named = [each.data["sha"] for each in record_of(texts).events if each.type == "photo"]
        assert len(named) == starts
        for sha, content in photos(tab.page, site.job).items():
            assert site.store.file(site.job, sha) == content
        assert set(every) <= {0, PIECE, 2 * PIECE}, "whole pieces"
        assert where.count("photo") >= starts // 4, where
        assert where.count("events") >= 1, where
        assert goes_on >= 1, "from the piece where it stood"
        browser.close()
