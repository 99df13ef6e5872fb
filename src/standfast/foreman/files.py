"""Reading and writing the files of a call; what cannot be read or written becomes a fault."""

from pathlib import Path

from standfast.faults import Fault, FaultsFound


def read_bytes(path: Path, todo: str = "check the name") -> bytes:
    """The content of a file.

    Raises:
        FaultsFound: where it is not there or cannot be read, with what to do.
    """
    try:
        return path.read_bytes()
    except FileNotFoundError:
        raise fault(path, "there is no such file", todo) from None
    except IsADirectoryError:
        raise fault(path, "this is a folder", "name the file in it") from None
    except OSError as error:
        raise fault(path, f"cannot be read: {error.strerror}", todo) from None


def read_text(path: Path, todo: str = "check the name") -> str:
    """The text of a file, its line ends as ``\\n``.

    Raises:
        FaultsFound: where it cannot be read or is not UTF-8 text, with what to do.
    """
    content = read_bytes(path, todo)
    try:
        return content.decode("utf-8").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        before = content[: error.start].decode("utf-8").split("\n")
        what = f"byte {content[error.start]:#04x} is no UTF-8 text"
        raise FaultsFound(
            [Fault(str(path), len(before), len(before[-1]) + 1, what, "", "save the file as UTF-8")]
        ) from None


def write(path: Path, content: str | bytes) -> Path:
    """Write a file that is derived, over an older one.

    Raises:
        FaultsFound: where it cannot be written.
    """
    _folder_of(path)
    try:
        path.write_bytes(content.encode() if isinstance(content, str) else content)
    except OSError as error:
        raise _unwritable(path, error) from None
    return path


def write_new(path: Path, text: str) -> Path:
    """Write a file that is not there yet.

    Raises:
        FaultsFound: where it is there, or cannot be written: nothing that somebody wrote is ever overwritten.
    """
    _folder_of(path)
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        todo = "name another folder or file, or take the old one away first"
        raise fault(path, "is there already and was left as it is", todo) from None
    except OSError as error:
        raise _unwritable(path, error) from None
    return path


def fault(path: Path, what: str, todo: str) -> FaultsFound:
    """One fault of a whole file."""
    return FaultsFound([Fault(str(path), 0, 0, what, "", todo)])


def _folder_of(path: Path) -> None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise _unwritable(path, error) from None


def _unwritable(path: Path, error: OSError) -> FaultsFound:
    why = "a file is in the way of its folder" if isinstance(error, FileExistsError) else str(error.strerror)
    todo = "name a folder that can be written, and close the file where it is open"
    return FaultsFound([Fault(str(path), 0, 0, "cannot be written", why, todo)])
