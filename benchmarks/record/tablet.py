"""A tablet without a screen: writes a chained log, keeps its photos, brings both until all of it is acknowledged."""

import base64
import contextlib
import json
import random
import time
import uuid
from collections.abc import Callable, Mapping
from hashlib import sha256
from http.client import HTTPConnection, HTTPException
from typing import Any

from standfast.fieldwork.record.event import FIRST, hash_of

KEY = base64.b64encode(bytes(range(32))).decode()
BATCH = 200
PIECE = 200_000
Fault = Callable[[], bool]
"""Asked before each call: true where its answer shall be lost."""


class Lost(OSError):
    """An answer that never came."""


class Refused(Exception):
    """An answer that no tablet should get."""


class Tablet:
    """One device of a crew."""

    def __init__(self, port: int, job: str, dev: str, token: str) -> None:
        self.port, self.job, self.dev, self.token = port, job, dev, token
        self.log: list[str] = []
        self.photos: dict[str, bytes] = {}
        self.others: dict[str, int] = {}
        self.acked, self.calls = 0, 0
        self._prev = FIRST
        self._connection: HTTPConnection | None = None

    def write(self, type: str, data: Mapping[str, Any], step: str = "", wall: str = "2026-11-25T21:04:05.123Z") -> None:
        """Add an event to the log of this tablet."""
        seen = {**self.others, self.dev: len(self.log)}
        event = {
            "v": 1, "job": self.job, "dev": self.dev, "seq": len(self.log) + 1, "prev": self._prev,
            "id": str(uuid.uuid4()), "type": type, "step": step, "data": data, "seen": seen, "wall": wall,
            "tz": "-05:00", "mono": 1.5, "boot": "b1", "app": "0.1.0", "user": "",
        }  # fmt: skip
        self.log.append(json.dumps(event, separators=(",", ":")))
        self._prev = hash_of(self.log[-1])

    def photo(self, draw: random.Random, size: int, step: str) -> None:
        """Take a photo of so many bytes."""
        data = b"\xff\xd8\xff\xe0\x00\x10JFIF\x00" + draw.randbytes(size)
        sha = sha256(data).hexdigest()
        self.photos[sha] = data
        self.write("photo", {"item": f"{step}/photo", "sha": sha, "bytes": len(data), "mime": "image/jpeg"}, step)

    def bring(self, lost: Fault, *, again: bool = False) -> None:
        """Bring one batch of events; `again`: bring one that was acknowledged once more, in another order.

        Raises:
            OSError: where the server is away, or the answer is lost.
        """
        start = 0 if again else self.acked
        events = self.log[start : start + BATCH]
        if again:
            events = events[::-1]
        told = {"dev": self.dev, "events": events, "have": {**self.others, self.dev: self.acked}}
        path = f"/api/v1/jobs/{self.job}/events"
        status, _, body = self._call(
            "POST", path, json.dumps(told).encode(), lost, **{"Content-Type": "application/json"}
        )
        if status != 200:
            raise Refused(f"events were answered with {status}: {body[:200]!r}")
        said = json.loads(body)
        self.acked = max(self.acked, said["acked"].get(self.dev, 0))
        for line in said["events"]:
            if line["dev"] != self.dev:
                self.others[line["dev"]] = max(self.others.get(line["dev"], 0), line["seq"])

    def send(self, sha: str, lost: Fault) -> bool:
        """Send one piece of a photo; true once the whole is there.

        Raises:
            OSError: where the server is away, or the answer is lost.
        """
        path, data = f"/api/v1/jobs/{self.job}/files/{sha}", self.photos[sha]
        status, headers, _ = self._call("HEAD", path, None, lost)
        offset = int(headers["upload-offset"]) if status == 200 else 0
        if status == 200 and offset == len(data):
            return True
        sent = {
            "Content-Type": "application/offset+octet-stream", "Upload-Offset": str(offset),
            "Upload-Length": str(len(data)),
        }  # fmt: skip
        status, headers, body = self._call("PATCH", path, data[offset : offset + PIECE], lost, **sent)
        if status not in (204, 409):
            raise Refused(f"a piece of a photo was answered with {status}: {body[:200]!r}")
        return status == 204 and int(headers["upload-offset"]) == len(data)

    def _call(
        self, method: str, path: str, body: bytes | None, lost: Fault, **headers: str
    ) -> tuple[int, dict[str, str], bytes]:
        self.calls += 1
        if self._connection is None:
            self._connection = HTTPConnection("127.0.0.1", self.port, timeout=60)
        try:
            sent = {"X-Standfast": "1", "Cookie": f"sf_tablet={self.token}", **headers}
            self._connection.request(method, path, body, sent)
            answer = self._connection.getresponse()
            content = answer.read()
        except (OSError, HTTPException) as error:
            self._hang_up()
            raise Lost(str(error)) from None
        if lost():
            self._hang_up()
            raise Lost("the answer was lost")
        return answer.status, {name.lower(): text for name, text in answer.headers.items()}, content

    def _hang_up(self) -> None:
        if self._connection is not None:
            with contextlib.suppress(OSError):
                self._connection.close()
            self._connection = None


def never() -> bool:
    """No fault."""
    return False


def timed(run: Callable[[], object]) -> float:
    """Seconds of one run."""
    start = time.perf_counter()
    run()
    return time.perf_counter() - start
