"""Reads a record from wherever it is: a job folder, a file of events, an export as a zip; without server or database.

What is read may have been made to do harm: a zip is never unpacked, names of files in it are only names, and sizes are
counted while reading, whatever the zip says of itself.
"""

import struct
import zlib
from collections.abc import Iterator, Sequence
from hashlib import sha256
from pathlib import Path, PurePosixPath
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo

from standfast.faults import Fault, FaultsFound
from standfast.fieldwork.record.event import HASH
from standfast.fieldwork.record.findings import Finding
from standfast.fieldwork.record.seal import is_key
from standfast.fieldwork.record.verify import Given, Report, verify
from standfast.fieldwork.record.vouched import Trust
from standfast.foreman.files import fault, read_bytes

LONGEST_FILE_BYTES = 64_000_000
LONGEST_RECORD_BYTES = 512_000_000
LONGEST_ZIP_BYTES = 4_000_000_000
MOST_FILES = 50_000
EVENTS = ".ndjson"
ZIPS = (b"PK\x03\x04", b"PK\x05\x06")

__all__ = ["Finding", "Report", "given_of_zip", "verify_record"]


def verify_record(path: Path, keys: Sequence[str] = (), roots: Sequence[Path] = ()) -> Report:
    """Say what can be said about a record.

    Args:
        path: a job folder, a file of events (``record.ndjson``), or an export as a zip.
        keys: public keys that are known from elsewhere, as the office shows them: base64 of 32 bytes.
        roots: files with certificates of time stamping authorities that are trusted, PEM.

    Raises:
        FaultsFound: where there is nothing to read, or it cannot be read.
    """
    for key in keys:
        if not is_key(key):
            raise FaultsFound([Fault("--key", 0, 0, f"{key} is no public key", "", "give it as the office shows it")])
    trust = Trust(frozenset(keys), tuple(_root(each) for each in roots))
    if path.is_dir():
        return verify(_folder(path, trust))
    if path.is_file() and _begins(path) in ZIPS:
        return verify(_zip(path, trust))
    if path.is_file() and path.stat().st_size > LONGEST_RECORD_BYTES:
        raise fault(path, f"it is longer than {LONGEST_RECORD_BYTES} bytes", "name the record of one job")
    content = read_bytes(path, "name a job folder, a record.ndjson or an export")
    return verify(Given(((path.name, content),), (), lambda _: None, trust))


def given_of_zip(path: Path) -> Given:
    """What is in an export or in the copy of a tablet; nothing of it is believed yet.

    Raises:
        FaultsFound: where it is none, or made to do harm.
    """
    return _zip(path, Trust(frozenset(), ()))


def _begins(path: Path) -> bytes:
    """The first bytes of a file; none where it cannot be read."""
    try:
        with path.open("rb") as opened:
            return opened.read(4)
    except OSError:
        return b""


def _root(path: Path) -> bytes:
    from cryptography.x509 import load_pem_x509_certificate

    content = read_bytes(path, "name a file with a certificate")
    try:
        load_pem_x509_certificate(content)
    except ValueError:
        raise fault(path, "this is no certificate in PEM", "name a file with a certificate") from None
    return content


def _folder(path: Path, trust: Trust) -> Given:
    texts = [(each.name, read_bytes(each)) for each in sorted(path.glob(f"*{EVENTS}")) if each.is_file()]
    if not texts:
        raise fault(path, "there is no record in this folder", "name a job folder, a record.ndjson or an export")
    places: dict[str, Path] = {}
    files = []
    for each in _named(path):
        sha = _hash(each)
        places.setdefault(sha, each)
        files.append((each.relative_to(path).as_posix(), sha))

    def content(sha: str) -> bytes | None:
        return read_bytes(places[sha]) if sha in places else None

    return Given(tuple(texts), tuple(files), content, trust)


def _named(path: Path) -> Iterator[Path]:
    """The files of a folder that may be what the record names: those named by a hash, and field sheets beside them."""
    for each in sorted(path.rglob("*")):
        ours = HASH.fullmatch(each.name.partition(".")[0]) or each.suffix == ".json"
        if ours and each.is_file() and not each.is_symlink() and each.stat().st_size <= LONGEST_FILE_BYTES:
            yield each


def _hash(path: Path) -> str:
    return sha256(read_bytes(path)).hexdigest()


def _zip(path: Path, trust: Trust) -> Given:
    try:
        with ZipFile(path) as opened:
            members = [each for each in opened.infolist() if not each.is_dir()]
            _check(path, members)
            texts, files, places = list[tuple[str, bytes]](), list[tuple[str, str]](), dict[str, str]()
            left, records = LONGEST_ZIP_BYTES, _records(members)
            for each in members:
                events = each.filename in records
                most = min(left, LONGEST_RECORD_BYTES if events else LONGEST_FILE_BYTES)
                whole = _member(path, opened, each, most)
                left -= len(whole)
                if events:
                    texts.append((each.filename, whole))
                else:
                    sha = sha256(whole).hexdigest()
                    files.append((each.filename, sha))
                    places.setdefault(sha, each.filename)
    except (BadZipFile, NotImplementedError, RuntimeError, EOFError, OSError, ValueError, zlib.error, struct.error):
        raise fault(path, "this zip cannot be read", "make the export again") from None
    if not texts:
        raise fault(path, "there is no record in this zip", "name an export of the record")

    def found(sha: str) -> bytes | None:
        if sha not in places:
            return None
        with ZipFile(path) as again:
            return again.read(places[sha])

    return Given(tuple(texts), tuple(files), found, trust)


def _records(members: Sequence[ZipInfo]) -> set[str]:
    """Names of the files with events. What lies deeper is a document of the job, however it is called."""
    names = [each.filename for each in members if each.filename.endswith(EVENTS)]
    least = min((name.count("/") for name in names), default=0)
    return {name for name in names if name.count("/") == least}


def _check(path: Path, members: Sequence[ZipInfo]) -> None:
    """Refuse a zip that no export of ours is like."""
    names = [each.filename for each in members]
    why = ""
    if len(members) > MOST_FILES:
        why = f"it has more than {MOST_FILES} files"
    elif len(set(names)) != len(names):
        why = "two files in it have one name"
    elif any(each.flag_bits & 1 for each in members):
        why = "it is encrypted"
    elif any(each.compress_type not in (ZIP_STORED, ZIP_DEFLATED) for each in members):
        why = "it is packed in a way that exports are not"
    elif any(_leads_out(name) for name in names):
        why = "a name in it leads out of the folder"
    if why:
        raise fault(path, f"this zip is refused: {why}", "make the export again")


def _leads_out(name: str) -> bool:
    return name.startswith("/") or "\\" in name or ":" in name or ".." in PurePosixPath(name).parts


def _member(path: Path, opened: ZipFile, member: ZipInfo, most: int) -> bytes:
    """What is in a file of a zip, as far as a limit allows."""
    with opened.open(member) as stream:
        whole = stream.read(most + 1)
    if len(whole) > most:
        raise fault(
            path, f"this zip is refused: {member.filename} is longer than {most} bytes", "make the export again"
        )
    return whole
