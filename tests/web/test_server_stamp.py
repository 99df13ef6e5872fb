"""Sealing with a stamp from outside: an authority of our own is asked, and only when somebody ticks it."""

import shutil
import subprocess
import threading
from base64 import b64decode
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest
from firm import Firm
from test_server_office import reading, small

from standfast.fieldwork.record.event import read
from standfast.fieldwork.record.seal import Sealed, sealed_by, stamp
from standfast.foreman.office import sealing
from standfast.foreman.office.cabinet import Refused
from standfast.web.settings import Settings

CONFIG = """
[ req ]
distinguished_name = name
prompt = no
[ name ]
CN = Invented Stamps
[ stamps ]
basicConstraints = critical, CA:FALSE
keyUsage = critical, digitalSignature
extendedKeyUsage = critical, timeStamping
[ tsa ]
default_tsa = own
[ own ]
serial = ./serial
signer_cert = ./stamps.pem
signer_key = ./stamps.key
default_policy = 1.2.3.4.1
digests = sha256
signer_digest = sha256
ess_cert_id_alg = sha256
"""


def openssl(folder: Path, *words: str) -> None:
    subprocess.run(["openssl", *words], cwd=folder, check=True, capture_output=True, timeout=60)


class Authority:
    """A time-stamp authority that listens. `wrong`: what it says instead of an answer."""

    def __init__(self, folder: Path) -> None:
        (folder / "config").write_text(CONFIG)
        (folder / "serial").write_text("01\n")
        openssl(folder, "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-config", "config", "-days", "30",
                "-keyout", "stamps.key", "-out", "stamps.pem", "-extensions", "stamps")  # fmt: skip
        self.asked, self.wrong = list[bytes](), b""
        authority = self

        class Answers(BaseHTTPRequestHandler):
            def do_POST(self) -> None:
                asked = self.rfile.read(int(self.headers["Content-Length"]))
                authority.asked.append(asked)
                (folder / "asked").write_bytes(asked)
                openssl(folder, "ts", "-reply", "-config", "config", "-queryfile", "asked", "-out", "answer")
                answer = authority.wrong or (folder / "answer").read_bytes()
                self.send_response(200)
                self.send_header("Content-Type", "application/timestamp-reply")
                self.send_header("Content-Length", str(len(answer)))
                self.end_headers()
                self.wfile.write(answer)

            def log_message(self, format: str, *words: object) -> None:
                pass

        self.server = HTTPServer(("127.0.0.1", 0), Answers)
        self.url = f"http://127.0.0.1:{self.server.server_port}/"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()


@pytest.fixture
def authority(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Authority]:
    if shutil.which("openssl") is None:
        pytest.skip("openssl makes the time-stamp authority of this test")
    monkeypatch.setenv("no_proxy", "*")
    folder = tmp_path / "authority"
    folder.mkdir()
    made = Authority(folder)
    yield made
    made.server.shutdown()
    made.server.server_close()


def test_a_stamp_is_asked_only_where_somebody_ticks_it(tmp_path: Path, authority: Authority) -> None:
    firm = Firm(tmp_path, Settings(tsa=authority.url))
    job, (tablet,) = small(firm)
    tablet.bring(job, tablet.begin(job), reading(tablet, job, "5"))
    browser, path = firm.signed_in("office"), f"/office/jobs/{job}/seal"
    assert "time stamp of the authority" in browser.get(f"/office/jobs/{job}").text
    assert browser.form(path).status_code == 303
    assert "token" not in read(firm.store.events(job)[-1].raw).data
    assert authority.asked == []
    assert browser.form(path, {"stamp": "1"}).status_code == 303
    event = read(firm.store.events(job)[-1].raw)
    sealed = sealed_by(event)
    assert sealed is not None
    told = stamp(b64decode(event.data["token"]), sealed)
    # Right, and of an authority that nobody named as trusted.
    assert told.word == "cannot tell"
    assert told.why.startswith("it is about this seal")
    # What was asked is a hash: nothing of the job.
    assert len(authority.asked) == 1
    assert job.encode() not in authority.asked[0]


def test_an_answer_to_something_else_is_refused_and_nothing_is_sealed(tmp_path: Path, authority: Authority) -> None:
    firm = Firm(tmp_path, Settings(tsa=authority.url))
    job, (tablet,) = small(firm)
    tablet.bring(job, tablet.begin(job), reading(tablet, job, "5"))
    authority.wrong = sealing.stamped(authority.url, Sealed(job, "0" * 64, "1" * 64, {}))
    answer = firm.signed_in("office").form(f"/office/jobs/{job}/seal", {"stamp": "1"})
    assert answer.status_code == 422
    assert "answered something else" in answer.text
    assert "seal" not in {read(line.raw).type for line in firm.store.events(job)}
    authority.wrong = b"<html>no stamps here</html>"
    with pytest.raises(Refused, match="something else"):
        sealing.seal(firm.store, job, authority.url, firm.now)


@pytest.mark.parametrize("address", ["ftp://127.0.0.1/", "file:///etc/passwd", "127.0.0.1"])
def test_only_the_web_is_asked(address: str) -> None:
    with pytest.raises(Refused, match="no address"):
        sealing.stamped(address, Sealed("j", "0" * 64, "1" * 64, {}))


def test_an_authority_that_is_not_there_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("no_proxy", "*")
    with pytest.raises(Refused, match="does not answer"):
        sealing.stamped("http://127.0.0.1:9/", Sealed("j", "0" * 64, "1" * 64, {}))
