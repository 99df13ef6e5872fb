"""Opens the database of an office."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from standfast.faults import Fault, FaultsFound
from standfast.foreman.office.cabinet import Cabinet, Refused


def opened(url: str = "") -> Cabinet:
    """The store of a database, made ready where it is new.

    Args:
        url: which one; empty for the SQLite file in the user's own data folder.

    Raises:
        StoreError: where it cannot be opened.
    """
    from standfast.store.database import open_store
    from standfast.store.place import default_url

    return open_store(url or default_url(os.environ, Path.home()), os.environ)


@contextmanager
def at_the_desk(url: str) -> Iterator[Cabinet]:
    """The store of a database for one call; a refusal becomes a fault as the command line tells them."""
    store = opened(url)
    try:
        yield store
    except Refused as refused:
        told = (each.removesuffix(".") for each in (refused.what, refused.why, refused.todo))
        raise FaultsFound([Fault("standfast", 0, 0, *told)]) from None
    finally:
        store.close()
