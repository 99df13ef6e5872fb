"""Photos and cards as a database keeps them: encrypted under a key of their job, which a master key wraps.

AES-256-GCM (NIST SP 800-38D) throughout. Each piece of a file is sealed by itself under 96 bits of chance, never under
a count or its offset: where a piece is written again after a crash, perhaps cut otherwise, no nonce comes twice. What a
piece belongs to (job, file, offset, length) is bound into its tag, so that none passes for another. Whole files are
compared with their hash besides. With the key of a job destroyed nothing of it is read again, here or in a copy that
lacks the key.
"""

import binascii
import os
from base64 import b64decode, b64encode
from collections.abc import Mapping
from pathlib import Path

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM

from standfast.store import disk
from standfast.store.interface import StoreError
from standfast.store.place import unshared

KEY_BYTES = 32
NONCE_BYTES = 12
KEY = "STANDFAST_KEY"
"""Variable of the environment with the master key: 32 bytes as base64 or hexadecimal."""
KEY_FILE = "STANDFAST_KEY_FILE"
"""Variable of the environment with the path of a file that holds it."""
_MAKE = "make one with: head -c 32 /dev/urandom | base64"


def new_key() -> bytes:
    """A key made by chance."""
    return os.urandom(KEY_BYTES)


def seal(key: bytes, about: str, plain: bytes) -> bytes:
    """Encrypt: nonce, then what was encrypted with its tag.

    Args:
        key: of 32 bytes.
        about: what it belongs to; the same has to be given to `unseal`.
        plain: what to encrypt.
    """
    nonce = os.urandom(NONCE_BYTES)
    return nonce + AESGCM(key).encrypt(nonce, plain, about.encode())


def unseal(key: bytes, about: str, sealed: bytes) -> bytes:
    """Decrypt what `seal` made.

    Raises:
        StoreError: where the key is another, or what was sealed was altered or belongs elsewhere.
    """
    try:
        return AESGCM(key).decrypt(sealed[:NONCE_BYTES], sealed[NONCE_BYTES:], about.encode())
    except (InvalidTag, ValueError):
        why = "it was altered, or the key is another"
        raise StoreError(f"{about} cannot be decrypted", why, "put database and key back from one backup") from None


def master_key(environ: Mapping[str, str], beside: Path | None, *, fresh: bool) -> bytes:
    """The master key: from the environment, from a file that it names, or from the file beside the database.

    Args:
        environ: variables of the environment.
        beside: the file beside a SQLite database; None for a database elsewhere.
        fresh: the database was never sealed yet, so that a key may be made.

    Raises:
        StoreError: where there is none, or it is no key.
    """
    if environ.get(KEY):
        return _key(environ[KEY].encode(), KEY)
    if environ.get(KEY_FILE):
        path = Path(environ[KEY_FILE])
        return _key(disk.read(path), str(path))
    if beside is None:
        why = "photos and cards of people are encrypted, and the key never stands in the database"
        raise StoreError("there is no master key", why, f"give {KEY_FILE} or {KEY}; {_MAKE}", "database")
    if not beside.exists():
        if not fresh:
            todo = "put it back from the backup; without it photos and cards of people cannot be read"
            raise StoreError("the master key of this database is not there", todo=todo, where=str(beside))
        disk.replace(beside, b64encode(new_key()) + b"\n")
    unshared(beside)
    return _key(disk.read(beside), str(beside))


def _key(text: bytes, where: str) -> bytes:
    words = text.strip()
    for read in (binascii.unhexlify, lambda each: b64decode(each, validate=True)):
        try:
            found: bytes = read(words)
        except ValueError:
            continue
        if len(found) == KEY_BYTES:
            return found
    raise StoreError("this is no master key", "it has to be 32 bytes as base64 or hexadecimal", _MAKE, where)
