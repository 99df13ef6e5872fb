"""Formats whose library does not come with every installation."""

from standfast.faults import Refusal


class NotInstalled(Refusal):
    """A format that needs a library which is not installed.

    Args:
        format: its name.
        library: what it needs.
        extra: of standfast, that installs the library.
    """

    def __init__(self, format: str, library: str, extra: str) -> None:
        super().__init__(f"{format} needs {library}: install standfast with its extra {extra}, or {library} beside it")
