"""How the server was started: what it is called, whether it speaks TLS, and where it finds what."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from standfast.foreman.office.cabinet import Cabinet, universal
from standfast.foreman.office.uploads import Uploads


class Settings(NamedTuple):
    """How the server was started.

    Attributes:
        names: host names by which it is called, beside localhost and addresses in numbers.
        secure: True where people reach it by https, from itself or from the proxy before it.
        jobs: folder whose folders with a job.toml can be taken in; None where there is none.
        firm: folder of the firm; None where there is none.
        tsa: address of the time-stamp authority that is asked when somebody seals with a stamp; empty for none.
        body_seconds: how long a request may take to arrive.
    """

    names: tuple[str, ...] = ()
    secure: bool = False
    jobs: Path | None = None
    firm: Path | None = None
    tsa: str = ""
    body_seconds: float = 60.0


class House(NamedTuple):
    """What every answer may need: settings, the store, and the clock."""

    settings: Settings
    store: Cabinet
    uploads: Uploads
    clock: Callable[[], datetime] = universal
