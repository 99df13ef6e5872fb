"""A server as its own process, on a real database, with tablets that were enrolled and handed a job."""

import base64
import contextlib
import os
import signal
import socket
import subprocess
import sys
import time
import uuid
from collections.abc import Iterator
from datetime import UTC, datetime
from http.client import HTTPConnection
from pathlib import Path
from typing import NamedTuple

from benchmarks.record.tablet import KEY, Tablet

sys.path.insert(0, str(Path(__file__).parents[2] / "tests"))
STANDFAST = str(Path(sys.executable).with_name("standfast"))


class Firm(NamedTuple):
    """What the firm has: its database, the job with its field sheet, and tablets as device and what each shows."""

    url: str
    job: str
    sheet: str
    shown: tuple[tuple[str, str], ...]

    def tablets(self, port: int) -> list[Tablet]:
        """The tablets, before they wrote anything."""
        return [Tablet(port, self.job, dev, token) for dev, token in self.shown]


def firm(url: str, folder: Path, tablets: int) -> Firm:
    """Set up a firm: the main demo job is taken in and handed to so many tablets."""
    from standfast.foreman.demo import write_demo
    from standfast.foreman.field import field_sheet
    from standfast.foreman.office import tablets as office
    from standfast.foreman.office.jobs_in import take_in
    from standfast.foreman.office.opening import opened
    from standfast.foreman.plan import make_plan

    now = datetime.now(UTC)
    if not (folder / "one-wall").exists():
        write_demo("one-wall", folder / "one-wall")
    store = opened(url)
    job = take_in(store, folder, "one-wall", now)
    sheet = office.keep_sheet(store, job, field_sheet(make_plan(folder / "one-wall")))
    shown = []
    for number in range(tablets):
        dev = str(uuid.uuid4())
        token = office.enrol(store, office.code(store, now), dev, f"Tablet {number}", KEY, now)
        office.hand_out(store, dev, job, sheet, now)
        shown.append((dev, token))
    store.close()
    return Firm(url, job, sheet, tuple(shown))


class Server:
    """The server process; it can be killed at any moment, and started again on the same port."""

    def __init__(self, url: str) -> None:
        self.url, self.port, self.peak_mb = url, _free_port(), 0.0
        self._process: subprocess.Popen[bytes] | None = None
        self.start()

    def start(self) -> None:
        """Start it, and wait until it answers."""
        call = [STANDFAST, "serve", "--database", self.url, "--port", str(self.port)]
        self._process = subprocess.Popen(call, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        until = time.monotonic() + 30
        while time.monotonic() < until:
            with contextlib.suppress(OSError):
                connection = HTTPConnection("127.0.0.1", self.port, timeout=2)
                connection.request("GET", "/api/v1/openapi.json")
                connection.getresponse().read()
                return
            time.sleep(0.05)
        raise SystemExit("the server did not start")

    def kill(self) -> None:
        """End it at once, in whatever it does."""
        if self._process is not None:
            self.measure()
            self._process.send_signal(signal.SIGKILL)
            self._process.wait()
            self._process = None

    def measure(self) -> None:
        """Note the most memory that it has had so far, in MB."""
        if self._process is not None:
            told = Path(f"/proc/{self._process.pid}/status").read_text("utf-8")
            lines = (line for line in told.splitlines() if line.startswith("VmHWM"))
            self.peak_mb = max(self.peak_mb, *(int(line.split()[1]) / 1024 for line in lines))


@contextlib.contextmanager
def databases(folder: Path) -> Iterator[dict[str, str]]:
    """Addresses of a new SQLite file and of a new database on a throw-away PostgreSQL that commits to its disk."""
    import postgresql

    os.environ["STANDFAST_KEY"] = base64.b64encode(os.urandom(32)).decode()
    with postgresql.server() as running:
        yield {"SQLite": f"sqlite:///{folder}/firm.db", "PostgreSQL": running.database()}


def _free_port() -> int:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return int(found.getsockname()[1])
