"""What is sealed at handover, its signature, and a time stamp on it from outside (RFC 3161)."""

from base64 import b64decode, b64encode
from collections.abc import Mapping, Sequence
from hashlib import sha256
from typing import TYPE_CHECKING, NamedTuple

from standfast.fieldwork.record.causal import text
from standfast.fieldwork.record.compare import Word
from standfast.fieldwork.record.event import GREATEST, HASH, UUID, Event

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

KEY_BYTES = 32
SHA256_OID = "2.16.840.1.101.3.4.2.1"


class Head(NamedTuple):
    """How far a log is sealed: place and hash of its last event."""

    seq: int
    hash: str


class Sealed(NamedTuple):
    """What a seal holds fast: the job, the field sheet, the hash of the state, and the head of every log."""

    job: str
    sheet: str
    state: str
    heads: Mapping[str, Head]

    @property
    def text(self) -> str:
        """What is signed and stamped: one line each, the logs in the order of their devices."""
        heads = [f"head {dev} {head.seq} {head.hash}" for dev, head in sorted(self.heads.items())]
        return "\n".join(["sf1-seal", f"job {self.job}", f"sheet {self.sheet}", f"state {self.state}", *heads, ""])

    @property
    def hash(self) -> str:
        """SHA-256 of the text, in hexadecimal: what can be printed on paper and compared by eye."""
        return sha256(self.text.encode()).hexdigest()

    def as_data(self) -> dict[str, object]:
        """As it stands in the event, without signature and stamp."""
        heads = {dev: {"seq": head.seq, "hash": head.hash} for dev, head in self.heads.items()}
        return {"heads": heads, "sheet": self.sheet, "state": self.state}


def sealed_by(event: Event) -> Sealed | None:
    """What a seal event holds fast; None where it cannot be read."""
    heads, told = {}, event.data.get("heads")
    if not isinstance(told, dict) or not told:
        return None
    for dev, head in told.items():
        seq, hash = (head.get("seq"), text(head, "hash")) if isinstance(head, dict) else (None, "")
        if not isinstance(seq, int) or isinstance(seq, bool) or not 1 <= seq <= GREATEST:
            return None
        if not UUID.fullmatch(dev) or not HASH.fullmatch(hash):
            return None
        heads[dev] = Head(seq, hash)
    sheet, state = text(event.data, "sheet"), text(event.data, "state")
    if not HASH.fullmatch(sheet) or not HASH.fullmatch(state):
        return None
    return Sealed(event.job, sheet, state, heads)


def head_text(job: str, dev: str, seq: int, hash: str) -> str:
    """What a checkpoint signs: a log up to one of its events."""
    return f"sf1-head\n{job}\n{dev}\n{seq}\n{hash}"


def sign(said: str, key: "Ed25519PrivateKey") -> str:
    """An Ed25519 signature of a text, in base64."""
    return b64encode(key.sign(said.encode("ascii"))).decode()


def signed(said: str, signature: str, key: str) -> bool:
    """Whether a signature of a text is by a key.

    Args:
        said: the text, ASCII.
        signature: Ed25519, base64.
        key: raw public key, base64.
    """
    from cryptography.exceptions import InvalidSignature
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

    try:
        public = Ed25519PublicKey.from_public_bytes(b64decode(key, validate=True))
        public.verify(b64decode(signature, validate=True), said.encode("ascii"))
    except (InvalidSignature, ValueError):
        return False
    return True


def is_key(key: str) -> bool:
    """Whether a text is a raw public key in base64."""
    try:
        return len(b64decode(key, validate=True)) == KEY_BYTES
    except ValueError:
        return False


class Stamp(NamedTuple):
    """What a time stamp says: a verdict, why, and when it claims to have been made (ISO 8601, universal time)."""

    word: Word
    why: str
    when: str = ""


def request(sealed: Sealed) -> bytes:
    """What a time stamping authority is asked for: a stamp over the text of a seal, SHA-256, with its certificate.

    It has no nonce: the answer is compared with this seal, and an older answer to the same seal is as good.

    Raises:
        ImportError: where the extra `timestamp` is not installed.
    """
    from rfc3161_client import HashAlgorithm, TimestampRequestBuilder

    asked = TimestampRequestBuilder().data(sealed.text.encode()).hash_algorithm(HashAlgorithm.SHA256)
    found: bytes = asked.nonce(nonce=False).cert_request(cert_request=True).build().as_bytes()
    return found


def stamp(token: bytes, sealed: Sealed, roots: Sequence[bytes] = ()) -> Stamp:
    """What an answer of a time stamping authority is worth for a seal.

    Args:
        token: the answer (a TimeStampResp), DER.
        sealed: what it has to be about.
        roots: certificates that are trusted, PEM; without them nobody can tell who made it.
    """
    try:
        from rfc3161_client import VerificationError, VerifierBuilder, decode_timestamp_response
    except ImportError:
        return Stamp("cannot tell", "the extra `timestamp` is not installed")
    from cryptography.x509 import load_pem_x509_certificate

    try:
        answer = decode_timestamp_response(token)
        imprint, when = answer.tst_info.message_imprint, answer.tst_info.gen_time
        algorithm = imprint.hash_algorithm.dotted_string
    except ValueError as error:
        return Stamp("fail", f"it cannot be read as a time stamp: {error}")
    made = when.strftime("%Y-%m-%dT%H:%M:%SZ")
    if algorithm != SHA256_OID:
        return Stamp("cannot tell", f"it is about a hash of another kind ({algorithm})", made)
    if imprint.message != sha256(sealed.text.encode()).digest():
        return Stamp("fail", "it is about something else than this seal", made)
    if not roots:
        return Stamp("cannot tell", "it is about this seal; who made it is open without a trusted certificate", made)
    builder = VerifierBuilder()
    try:
        for root in roots:
            builder = builder.add_root_certificate(load_pem_x509_certificate(root))
        builder.build().verify(answer, sha256(sealed.text.encode()).digest())
    except (VerificationError, ValueError) as error:
        return Stamp("fail", f"the trusted certificates do not vouch for it: {error}", made)
    return Stamp("pass", "it is about this seal, by a trusted authority", made)
