"""Makes the tables of a database, or brings older ones up to what this version knows."""

import logging
from pathlib import Path

from sqlalchemy import Connection, inspect, text

from standfast.store.interface import StoreError
from standfast.store.link import Link

KNOWN = ("0001",)
"""Every step of `migrations/versions`, oldest first."""


def bring_up(link: Link) -> None:
    """Make or upgrade the tables, in one transaction: all of it, or nothing.

    Raises:
        StoreError: where a newer version has made them, or somebody else's tables are there.
    """
    with link.read() as db:
        stands = _stands(db, link.where)
    if stands == KNOWN[-1]:
        return
    with link.write("standfast schema") as db:
        if _stands(db, link.where) != KNOWN[-1]:
            upgrade(db)


def upgrade(db: Connection, to: str = KNOWN[-1]) -> None:
    """Take the steps up to one, inside the transaction of the connection."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    config.attributes["connection"] = db
    quiet = logging.getLogger("alembic")
    quiet.setLevel(logging.WARNING)
    command.upgrade(config, to)


def _stands(db: Connection, where: str) -> str | None:
    """The step at which the tables stand; None where there are none."""
    tables = set(inspect(db).get_table_names())
    if "alembic_version" not in tables:
        if tables & {"jobs", "events", "people"}:
            why = "it has tables with the names of ours, which we did not make"
            raise StoreError("this is somebody else's database", why, "name an empty one", where)
        return None
    stands = db.execute(text("SELECT version_num FROM alembic_version")).scalar_one_or_none()
    if stands is not None and stands not in KNOWN:
        why = f"its tables are at step {stands}, and this version knows {KNOWN[-1]}"
        raise StoreError("a newer version has made this database", why, "install that version or a later one", where)
    return stands
