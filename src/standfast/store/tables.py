"""The tables of a database, the same on SQLite and PostgreSQL. `migrations/` makes them, step by step."""

from sqlalchemy import (
    BigInteger,
    Boolean,
    Column,
    ForeignKey,
    ForeignKeyConstraint,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
)

METADATA = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    }
)

ABOUT = Table(
    "about",
    METADATA,
    Column("name", Text, primary_key=True),
    Column("value", Text, nullable=False),
)
"""Of the database itself: what shows that a master key is the right one."""

JOBS = Table(
    "jobs",
    METADATA,
    Column("job", Text, primary_key=True),
    Column("title", Text, nullable=False),
    Column("number", Integer, nullable=False),
    Column("revision", Text, nullable=False),
)
"""Each job as its newest revision has it."""

REVISIONS = Table(
    "revisions",
    METADATA,
    Column("job", Text, ForeignKey("jobs.job"), primary_key=True),
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("revision", Text, nullable=False),
    Column("text", Text, nullable=False),
    Column("saved", Text, nullable=False),
    Column("by", Text, nullable=False),
)

NAMED = Table(
    "named",
    METADATA,
    Column("job", Text, primary_key=True),
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("path", Text, primary_key=True),
    Column("sha", Text, nullable=False),
    ForeignKeyConstraint(["job", "number"], ["revisions.job", "revisions.number"]),
)
"""The files that a revision names."""

EVENTS = Table(
    "events",
    METADATA,
    Column("job", Text, ForeignKey("jobs.job"), primary_key=True),
    Column("place", BigInteger, primary_key=True, autoincrement=False),
    Column("dev", Text, nullable=False),
    Column("seq", BigInteger, nullable=False),
    Column("hash", Text, nullable=False),
    Column("raw", Text, nullable=False),
    Column("arrived", Text, nullable=False),
    UniqueConstraint("job", "dev", "seq"),
)
"""The exact texts of events. `place` counts in the order in which they arrived."""

HEADS = Table(
    "heads",
    METADATA,
    Column("job", Text, ForeignKey("jobs.job"), primary_key=True),
    Column("dev", Text, primary_key=True),
    Column("acked", BigInteger, nullable=False),
)
"""How far each log stands without a gap."""

FORKS = Table(
    "forks",
    METADATA,
    Column("job", Text, ForeignKey("jobs.job"), primary_key=True),
    Column("dev", Text, primary_key=True),
    Column("seq", BigInteger, primary_key=True, autoincrement=False),
    Column("other", Text, primary_key=True),
    Column("kept", Text, nullable=False),
    Column("raw", Text, nullable=False),
    Column("arrived", Text, nullable=False),
    Column("place", BigInteger, nullable=False),
)
"""Second texts for one place of a log."""

FILES = Table(
    "files",
    METADATA,
    Column("job", Text, primary_key=True),
    Column("sha", Text, primary_key=True),
    Column("private", Boolean, primary_key=True),
    Column("length", BigInteger, nullable=False),
    Column("there", BigInteger, nullable=False),
    Column("done", Boolean, nullable=False),
    Column("erased", Text, nullable=False),
)
"""Files of a job. One of a job that is not there yet waits for its first revision."""

PIECES = Table(
    "pieces",
    METADATA,
    Column("job", Text, primary_key=True),
    Column("sha", Text, primary_key=True),
    Column("private", Boolean, primary_key=True),
    Column("start", BigInteger, primary_key=True, autoincrement=False),
    Column("bytes", LargeBinary, nullable=False),
    ForeignKeyConstraint(["job", "sha", "private"], ["files.job", "files.sha", "files.private"], ondelete="CASCADE"),
)
"""What is in them, piece by piece; sealed where they are private."""

KEYS = Table(
    "keys",
    METADATA,
    Column("job", Text, ForeignKey("jobs.job"), primary_key=True),
    Column("sealed", LargeBinary, nullable=False),
)
"""Of each job the key of its private files, under the master key."""

PEOPLE = Table(
    "people",
    METADATA,
    Column("id", Text, primary_key=True),
    Column("name", Text, nullable=False),
    Column("role", Text, nullable=False),
    Column("secret", Text, nullable=False),
    Column("language", Text, nullable=False),
)

DEVICES = Table(
    "devices",
    METADATA,
    Column("id", Text, primary_key=True),
    Column("name", Text, nullable=False),
    Column("key", Text, nullable=False),
    Column("token", Text, nullable=False),
    Column("enrolled", Text, nullable=False),
    Column("withdrawn", Text, nullable=False),
)

NOTES = Table(
    "notes",
    METADATA,
    Column("kind", Text, primary_key=True),
    Column("key", Text, primary_key=True),
    Column("value", Text, nullable=False),
    Column("until", Text, nullable=False),
)
"""Short texts that may run out: sessions, codes, challenges."""
