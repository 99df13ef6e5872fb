"""Formats whose library does not come with every installation."""

from standfast.faults import Refusal


class NotInstalled(Refusal):
    """A format that needs an extra which is not installed."""

    def __init__(self, format: str, extra: str) -> None:
        super().__init__(f"{format} needs the extra {extra}: pip install 'standfast[{extra}]'")
