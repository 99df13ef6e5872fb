"""What is sealed, its signature, and a time stamp by an authority of our own (`openssl ts`)."""

import shutil
import subprocess
from base64 import b64encode
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from signed_record import Signed, kinds, said, worked

from standfast.fieldwork.record.seal import Head, Sealed, is_key, request, sealed_by, sign, signed, stamp

OPENSSL = shutil.which("openssl")
needs_openssl = pytest.mark.skipif(OPENSSL is None, reason="openssl makes the time stamping authority of this test")
DEV, OTHER = "aaaaaaaa-aaaa-aaaa-aaaa-aaaaaaaaaaaa", "bbbbbbbb-bbbb-bbbb-bbbb-bbbbbbbbbbbb"
SEALED = Sealed("j", "1" * 64, "2" * 64, {OTHER: Head(7, "4" * 64), DEV: Head(3, "3" * 64)})
CONFIG = """
[ req ]
distinguished_name = name
prompt = no
[ name ]
CN = Invented Stamps
[ ca ]
basicConstraints = critical, CA:TRUE
keyUsage = critical, keyCertSign
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
other_policies = 1.2.3.4.1
digests = sha256, sha512
signer_digest = sha256
ess_cert_id_alg = sha256
ess_cert_id_chain = no
"""


def test_the_text_that_is_signed() -> None:
    assert SEALED.text == (
        f"sf1-seal\njob j\nsheet {'1' * 64}\nstate {'2' * 64}\nhead {DEV} 3 {'3' * 64}\nhead {OTHER} 7 {'4' * 64}\n"
    )
    assert SEALED.as_data()["heads"] == {DEV: {"seq": 3, "hash": "3" * 64}, OTHER: {"seq": 7, "hash": "4" * 64}}


def test_a_signature_holds_for_its_text_and_its_key_only() -> None:
    key = Ed25519PrivateKey.from_private_bytes(b"k" * 32)
    public = b64encode(key.public_key().public_bytes_raw()).decode()
    other = b64encode(Ed25519PrivateKey.from_private_bytes(b"o" * 32).public_key().public_bytes_raw()).decode()
    sig = sign(SEALED.text, key)
    assert is_key(public) and not is_key(public[:-2]) and not is_key("é")
    assert signed(SEALED.text, sig, public)
    assert not signed(SEALED.text + " ", sig, public)
    assert not signed(SEALED.text, sig, other)
    assert not signed(SEALED.text, sig[:-4], public)
    assert not signed(SEALED.text, sig, public[:-4])


def test_a_seal_that_was_written_is_read_back() -> None:
    office = Signed("f", "")
    sealed = office.seals(office.log, office)
    assert sealed_by(office.log[-1]) == sealed


class Authority:
    """A time stamping authority in a folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        (folder / "config").write_text(CONFIG)
        (folder / "serial").write_text("01\n")
        new = ("-newkey", "rsa:2048", "-nodes", "-config", "config", "-days", "30")
        self.run(
            "req", "-x509", *new, "-keyout", "ca.key", "-out", "ca.pem", "-extensions", "ca", "-subj", "/CN=Invented CA"
        )
        self.run("req", *new[:-2], "-keyout", "stamps.key", "-out", "stamps.csr")
        self.run("x509", "-req", "-in", "stamps.csr", "-CA", "ca.pem", "-CAkey", "ca.key", "-CAcreateserial", "-days",
                 "30", "-extfile", "config", "-extensions", "stamps", "-out", "stamps.pem")  # fmt: skip
        self.root = (folder / "ca.pem").read_bytes()

    def run(self, *arguments: str) -> None:
        call = [OPENSSL or "openssl", *arguments]
        subprocess.run(call, cwd=self.folder, check=True, capture_output=True, timeout=60)

    def answers(self, asked: bytes) -> bytes:
        (self.folder / "asked").write_bytes(asked)
        self.run("ts", "-reply", "-config", "config", "-queryfile", "asked", "-out", "answer")
        return (self.folder / "answer").read_bytes()


@pytest.fixture(scope="module")
def authority(tmp_path_factory: pytest.TempPathFactory) -> Authority:
    return Authority(tmp_path_factory.mktemp("stamps"))


@needs_openssl
def test_a_stamp_on_a_seal(authority: Authority) -> None:
    token = authority.answers(request(SEALED))
    found = stamp(token, SEALED, [authority.root])
    assert found.word == "pass" and found.when.endswith("Z")
    assert stamp(token, SEALED).word == "cannot tell"  # nobody said whom to trust
    other = stamp(token, SEALED._replace(state="5" * 64), [authority.root])
    assert (other.word, other.why) == ("fail", "it is about something else than this seal")


@needs_openssl
def test_a_stamp_by_somebody_else_is_no_pass(authority: Authority, tmp_path: Path) -> None:
    token = Authority(tmp_path).answers(request(SEALED))
    assert stamp(token, SEALED, [authority.root]).word == "fail"


@needs_openssl
def test_a_stamp_that_was_altered_is_no_pass(authority: Authority) -> None:
    token = authority.answers(request(SEALED))
    for place in range(0, len(token), 7):
        changed = bytearray(token)
        changed[place] ^= 1
        found = stamp(bytes(changed), SEALED, [authority.root])
        if found.word == "pass":  # a byte that nothing signs: certificates beside it, not used
            assert found.when == stamp(token, SEALED, [authority.root]).when


@needs_openssl
def test_a_stamp_over_another_kind_of_hash(authority: Authority) -> None:
    (authority.folder / "text").write_text(SEALED.text)
    authority.run("ts", "-query", "-data", "text", "-sha512", "-cert", "-out", "other")
    token = authority.answers((authority.folder / "other").read_bytes())
    assert stamp(token, SEALED, [authority.root]).word == "cannot tell"


def test_bytes_that_are_no_stamp() -> None:
    assert stamp(b"", SEALED).word == "fail"
    assert stamp(b"\x30\x03\x02\x01\x00", SEALED).word == "fail"


@needs_openssl
def test_the_stamp_of_a_seal_in_a_record(authority: Authority) -> None:
    whole = worked(sealed=False)
    office = whole.office
    office.sees(whole.a, whole.b)
    events = [*whole.a.log, *whole.b.log, *office.log]
    trial = Signed("f", "")
    trial.seen = office.seen
    sealed = trial.seals(events, whole.a, whole.b, trial)
    office.seals(events, whole.a, whole.b, office, token=b64encode(authority.answers(request(sealed))).decode())
    lines = [*whole.a.raws, *whole.b.raws, *office.raws]
    report = said(lines, whole.keys)
    assert report.word == "cannot tell" and kinds(report) == ["stamp"]
    report = said(lines, whole.keys, roots=(authority.root,))
    assert report.word == "pass" and kinds(report) == ["stamp"]
    for token in ("no base64", "AAAA"):
        office.log.pop()
        office.seals(events, whole.a, whole.b, office, token=token)
        assert "stamp" in kinds(said([*whole.a.raws, *whole.b.raws, *office.raws], whole.keys), "fail")
