"""Reading the files that a call names; what cannot be read becomes a fault."""

from pathlib import Path

from standfast.faults import Fault, FaultsFound


def read_text(path: Path, todo: str = "check the name") -> str:
    """The text of a file.

    Raises:
        FaultsFound: where there is no such file, or it is not UTF-8 text, with what to do.
    """
    try:
        return path.read_text("utf-8")
    except FileNotFoundError:
        raise FaultsFound([Fault(str(path), 0, 0, "there is no such file", "", todo)]) from None
    except IsADirectoryError:
        raise FaultsFound([Fault(str(path), 0, 0, "this is a folder", "", "name the file in it")]) from None
    except UnicodeDecodeError as error:
        what = f"byte {error.start} is not UTF-8 text"
        raise FaultsFound([Fault(str(path), 0, 0, what, "", "save the file as UTF-8")]) from None
    except OSError as error:
        raise FaultsFound([Fault(str(path), 0, 0, f"cannot be read: {error.strerror}", "", todo)]) from None
