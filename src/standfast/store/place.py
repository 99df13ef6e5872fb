"""Where the database is: the URL that was given, or a SQLite file in the user's own data folder."""

import os
import stat
import sys
from collections.abc import Mapping
from pathlib import Path

from standfast.store import disk
from standfast.store.interface import StoreError

DATA = "STANDFAST_DATA"
"""Variable of the environment with the folder of the data, instead of the user's own."""
FILE = "standfast.db"
OURS = 0o700


def data_folder(environ: Mapping[str, str], home: Path) -> Path:
    """The folder of the data: by `DATA`, or where the system has such folders."""
    if environ.get(DATA):
        return Path(environ[DATA])
    if sys.platform == "win32":
        return Path(environ.get("LOCALAPPDATA") or home / "AppData" / "Local") / "standfast"
    if sys.platform == "darwin":
        return home / "Library" / "Application Support" / "standfast"
    stated = environ.get("XDG_DATA_HOME", "")
    return (Path(stated) if stated.startswith("/") else home / ".local" / "share") / "standfast"


def default_url(environ: Mapping[str, str], home: Path) -> str:
    """URL of the database where none is configured; its folder is made, for its user alone.

    Raises:
        StoreError: where the folder cannot be made.
    """
    folder = data_folder(environ, home)
    own(folder)
    return f"sqlite:///{(folder / FILE).resolve()}"


def own(folder: Path) -> None:
    """Make a folder that nobody else can look into; one that is there stays as it is.

    Raises:
        StoreError: where it cannot be made.
    """
    try:
        folder.mkdir(mode=OURS, parents=True, exist_ok=True)
    except OSError as error:
        raise disk.refused(folder, error) from None


def own_file(path: Path) -> None:
    """Make a file that nobody else can read, so that what a library writes into it is nobody else's either.

    Raises:
        StoreError: where it cannot be made, or others can read it.
    """
    try:
        os.close(os.open(path, os.O_CREAT | os.O_RDWR, 0o600))
    except OSError as error:
        raise disk.refused(path, error) from None
    unshared(path)


def unshared(path: Path) -> None:
    """Nothing, where nobody else can read a file.

    Raises:
        StoreError: where others can.
    """
    try:
        shared = path.stat().st_mode & (stat.S_IRWXG | stat.S_IRWXO)
    except OSError as error:
        raise disk.refused(path, error) from None
    if shared and sys.platform != "win32":
        raise StoreError("others can read this file", todo=f"chmod 600 {path}", where=str(path))
