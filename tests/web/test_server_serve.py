"""The server as it is started: nothing configured, the first account, TLS of one's own, and a quiet end."""

import datetime
import io
import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from ipaddress import ip_address
from pathlib import Path

import httpx2
import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID
from firm import PASSWORD, TOKEN, Firm
from test_server_office import reading, small
from test_server_record import card

from standfast.cli import run
from standfast.foreman.office import accounts
from standfast.foreman.office.opening import opened

LISTENS = re.compile(r"standfast listens: (https?://[^/]+)/office/")


@contextmanager
def served(folder: Path, *words: str) -> Iterator[tuple[subprocess.Popen[str], str, str]]:
    """A server of its own process: the process, its address, and what it said by then."""
    call = [Path(sys.executable).with_name("standfast"), "serve", "--port", "0", *words]
    log = folder / "serve.log"
    environ = {**os.environ, "STANDFAST_DATA": str(folder / "data"), "PYTHONUNBUFFERED": "1"}
    with log.open("w") as out:
        process = subprocess.Popen(call, stdout=out, stderr=subprocess.STDOUT, text=True, env=environ, cwd=folder)
        try:
            end = time.monotonic() + 60
            while not (found := LISTENS.search(log.read_text())):
                assert process.poll() is None, log.read_text()
                assert time.monotonic() < end, log.read_text()
                time.sleep(0.05)
            time.sleep(0.1)
            yield process, found[1], log.read_text()
        finally:
            if process.poll() is None:
                process.kill()
            process.wait(30)


def test_with_nothing_configured_the_first_link_makes_the_office(tmp_path: Path) -> None:
    with served(tmp_path) as (process, address, said):
        (link,) = re.findall(r"make the first account, once, within a day: (\S+)", said)
        assert address.startswith("http://127.0.0.1:")
        with httpx2.Client() as client:
            page = client.get(link)
            told = {"name": "Ana", "password": PASSWORD, "again": PASSWORD, "language": "en"}
            found = TOKEN.search(page.text)
            assert found is not None
            answer = client.post(link, data={"token": found[1], **told}, headers={"Origin": address})
            assert answer.status_code == 303
            assert client.get(f"{address}/office/").status_code == 200
            assert client.get(link).status_code == 404
        process.send_signal(signal.SIGTERM)
        assert process.wait(20) == 0
    log = (tmp_path / "serve.log").read_text()
    code = link.rpartition("/")[2]
    # It stands where it was told to who started it, and nowhere in the log of what was asked.
    assert log.count(code) == 1
    assert PASSWORD not in log
    assert "asked POST /office/join/{code} 303" in log
    data = tmp_path / "data"
    assert {each.name for each in data.iterdir()} >= {"standfast.db", "standfast.db.key"}
    assert [each for each in data.iterdir() if each.stat().st_mode & 0o077] == []
    with served(tmp_path) as (process, _, said):
        assert "make the first account" not in said
        process.send_signal(signal.SIGINT)
        assert process.wait(20) == 0


def test_a_place_where_it_cannot_listen_is_told_in_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("STANDFAST_DATA", str(tmp_path / "data"))
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        assert run(["serve", "--port", str(port)]) == 2
    assert f"port {port} is taken (another program has it" in capsys.readouterr().err
    assert run(["serve", "--plain-http", "--host", "192.0.2.1"]) == 2
    assert "nothing can listen at 192.0.2.1" in capsys.readouterr().err
    text = tmp_path / "no-certificate.pem"
    text.write_text("no certificate")
    assert run(["serve", "--tls-cert", str(text), "--tls-key", str(text), "--port", "0"]) == 2
    assert "are no such pair" in capsys.readouterr().err


def own_ca(folder: Path) -> tuple[Path, Path, Path]:
    """A certificate authority of a firm, and a certificate of it for 127.0.0.1: paths of CA, certificate, key."""
    now = datetime.datetime.now(datetime.UTC)
    keys = [ec.generate_private_key(ec.SECP256R1()) for _ in range(2)]
    names = [x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, each)]) for each in ("Invented CA", "127.0.0.1")]
    made = []
    for key, name, ca in zip(keys, names, (True, False), strict=True):
        build = (
            x509.CertificateBuilder().subject_name(name).issuer_name(names[0]).public_key(key.public_key())
            .serial_number(x509.random_serial_number())
            .not_valid_before(now).not_valid_after(now + datetime.timedelta(2))
            .add_extension(x509.BasicConstraints(ca=ca, path_length=None), critical=True)
        )  # fmt: skip
        if not ca:
            build = build.add_extension(
                x509.SubjectAlternativeName([x509.IPAddress(ip_address("127.0.0.1"))]), critical=False
            )
        made.append(build.sign(keys[0], hashes.SHA256()))
    paths = folder / "ca.pem", folder / "cert.pem", folder / "key.pem"
    for path, certificate in zip(paths, made, strict=False):
        path.write_bytes(certificate.public_bytes(serialization.Encoding.PEM))
    plain = serialization.NoEncryption()
    paths[2].write_bytes(keys[1].private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, plain))
    return paths


def test_with_a_certificate_of_ones_own_it_speaks_tls_and_says_so(tmp_path: Path) -> None:
    ca, cert, key = own_ca(tmp_path)
    with served(tmp_path, "--tls-cert", str(cert), "--tls-key", str(key)) as (_, address, said):
        assert address.startswith("https://")
        assert "https://" in said
        trusting = ssl.create_default_context(cafile=str(ca))
        trusting.verify_flags &= ~ssl.VERIFY_X509_STRICT
        with httpx2.Client(verify=trusting) as client:
            answer = client.get(f"{address}/office/sign-in")
            assert answer.headers["strict-transport-security"]
            assert "__Host-sf_form" in answer.headers["set-cookie"]
            assert "Secure" in answer.headers["set-cookie"]
        with pytest.raises(httpx2.ConnectError, match="CERTIFICATE_VERIFY_FAILED"):
            httpx2.get(f"{address}/office/sign-in")


@pytest.mark.parametrize("host", ["0.0.0.0", "192.168.1.5", "::", "office.example"])
def test_others_are_not_let_in_without_tls(host: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["serve", "--host", host]) == 2
    told = capsys.readouterr().err
    assert "anybody on the way reads passwords and photos" in told
    assert "--behind-proxy" in told


def test_a_certificate_comes_with_its_key(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, cert, _ = own_ca(tmp_path)
    assert run(["serve", "--tls-cert", str(cert)]) == 2
    assert "give both" in capsys.readouterr().err


def test_what_is_too_long_is_refused_before_it_is_read(tmp_path: Path) -> None:
    with served(tmp_path) as (_, address, _said):
        host, port = address.removeprefix("http://").split(":")
        with socket.create_connection((host, int(port)), timeout=30) as slow:
            slow.sendall(b"POST /office/sign-in HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 70000\r\n\r\n")
            assert b"413" in slow.recv(1000)


def test_the_command_line_keeps_accounts_and_tablets(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    url = ["--database", f"sqlite:///{tmp_path}/a.db"]
    monkeypatch.setattr("sys.stdin", io.StringIO(PASSWORD + "\n"))
    assert run(["account", "add", "Ana Ruiz", "--role", "office", *url]) == 0
    monkeypatch.setattr("sys.stdin", io.StringIO("short\n"))
    assert run(["account", "add", "Jo", *url]) == 2
    assert "fewer than 12" in capsys.readouterr().err
    assert run(["account", "invite", "--role", "crew", *url]) == 0
    assert re.fullmatch(r"/office/join/[\w-]{43}\n", capsys.readouterr().out)
    assert run(["account", "withdraw", "Ana Ruiz", *url]) == 2
    assert "last account" in capsys.readouterr().err
    assert run(["account", "withdraw", "Nobody", *url]) == 2
    assert run(["account", "list", *url]) == 0
    assert "office  Ana Ruiz" in capsys.readouterr().out
    assert run(["tablet", "code", *url]) == 0
    assert re.fullmatch(r"/field/#enrol=[\w-]{43}\n", capsys.readouterr().out)
    assert run(["tablet", "list", *url]) == 0
    assert capsys.readouterr().out == ""
    assert run(["tablet", "withdraw", "no such", *url]) == 2
    store = opened(url[1])
    try:
        assert accounts.sign_in(store, "Ana Ruiz", PASSWORD) is not None
    finally:
        store.close()


def test_the_command_line_hands_out_and_erases(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    firm = Firm(tmp_path)
    job, tablet = firm.job(), firm.tablet()
    url = ["--database", firm.url]
    assert run(["tablet", "hand-out", job, tablet.dev, *url]) == 0
    assert "handed out; field sheet" in capsys.readouterr().out
    card(firm, job, tablet)
    assert run(["tablet", "list", *url]) == 0
    assert f"has job {job}" in capsys.readouterr().out
    assert run(["erase", job, "--reason", "asked", *url]) == 0
    assert "1 photos and cards would be erased" in capsys.readouterr().out
    assert len(firm.store.files(job, private=True)) == 1
    assert run(["erase", job, "--reason", "asked", "--yes", *url]) == 0
    assert "erased: 1" in capsys.readouterr().out
    assert len(firm.store.files(job, private=True)) == 0
    assert run(["erase", "no such", "--reason", "asked", *url]) == 2
    assert run(["tablet", "withdraw", tablet.dev, *url]) == 0


def test_the_command_line_settles_takes_out_and_seals(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    firm = Firm(tmp_path)
    job, (one, other) = small(firm, "One", "Other")
    url = ["--database", firm.url]
    one.bring(job, one.begin(job), reading(one, job, "5"))
    other.bring(job, other.begin(job), reading(other, job, "0.5"))
    assert run(["record", "show", job, *url]) == 1
    told = capsys.readouterr().out
    assert told.startswith("not to be handed over")
    (keep,) = re.findall(r"  (\S+)  5 MΩ pass", told)
    (gone,) = re.findall(r"  (\S+)  0.5 MΩ fail", told)
    assert run(["record", "seal", job, *url]) == 2
    assert "not ready" in capsys.readouterr().err
    assert run(["record", "resolve", job, "s1/r", keep, "--reason", "wrong range", *url]) == 0
    assert run(["record", "void", job, gone, "--reason", "wrong range", *url]) == 0
    assert run(["record", "resolve", job, "s1/r", keep, "--reason", "again", *url]) == 2
    assert run(["record", "seal", job, *url]) == 0
    capsys.readouterr()
    assert run(["record", "show", job, *url]) == 0
    assert capsys.readouterr().out == "may be handed over\n"
    assert run(["record", "show", "no such", *url]) == 2
    assert run(["tablet", "take-back", job, one.dev, *url]) == 0
    assert one.browser.get("/api/v1/jobs").json()["jobs"] == []


def test_what_was_acknowledged_is_there_after_the_server_was_killed(tmp_path: Path) -> None:
    firm = Firm(tmp_path)
    job, (tablet,) = small(firm)
    token = tablet.browser.client.cookies["sf_tablet"]
    raws = [tablet.begin(job), *(tablet.write(job, "done", {}, step="s1") for _ in range(400))]
    acked, sent = 0, 0
    with served(tmp_path, "--database", firm.url) as (process, address, _):
        killer = threading.Timer(1.0, process.kill)
        with httpx2.Client(cookies={"sf_tablet": token}, headers={"X-Standfast": "1"}) as client:
            killer.start()
            try:
                for raw in raws:
                    told = {"dev": tablet.dev, "events": [raw], "have": {tablet.dev: acked}}
                    sent += 1
                    answer = client.post(f"{address}/api/v1/jobs/{job}/events", json=told)
                    acked = answer.json()["acked"][tablet.dev]
            except httpx2.TransportError:
                pass
        killer.join()
        assert process.wait(20) == -signal.SIGKILL
    assert 0 < acked < len(raws)
    there = [line.raw for line in firm.store.events(job)]
    assert there == raws[: len(there)]
    assert acked <= len(there) <= sent
    # The tablet brings it again, and goes on as if nothing had been.
    told = tablet.bring(job, *raws[acked:sent]).json()
    assert (told["acked"], told["forks"], told["broken"]) == ({tablet.dev: sent}, [], [])
