"""The first tables."""

from alembic import op
from sqlalchemy import (
    BigInteger,
    Boolean,
    Column,
    ForeignKeyConstraint,
    Integer,
    LargeBinary,
    PrimaryKeyConstraint,
    Text,
    UniqueConstraint,
)

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make them."""
    _jobs()
    _record()
    _files()
    _office()


def _jobs() -> None:
    op.create_table(
        "about",
        Column("name", Text, nullable=False),
        Column("value", Text, nullable=False),
        PrimaryKeyConstraint("name", name="pk_about"),
    )
    op.create_table(
        "jobs",
        Column("job", Text, nullable=False),
        Column("title", Text, nullable=False),
        Column("number", Integer, nullable=False),
        Column("revision", Text, nullable=False),
        PrimaryKeyConstraint("job", name="pk_jobs"),
    )
    op.create_table(
        "revisions",
        Column("job", Text, nullable=False),
        Column("number", Integer, nullable=False),
        Column("revision", Text, nullable=False),
        Column("text", Text, nullable=False),
        Column("saved", Text, nullable=False),
        Column("by", Text, nullable=False),
        ForeignKeyConstraint(["job"], ["jobs.job"], name="fk_revisions_job"),
        PrimaryKeyConstraint("job", "number", name="pk_revisions"),
    )
    op.create_table(
        "named",
        Column("job", Text, nullable=False),
        Column("number", Integer, nullable=False),
        Column("path", Text, nullable=False),
        Column("sha", Text, nullable=False),
        ForeignKeyConstraint(["job", "number"], ["revisions.job", "revisions.number"], name="fk_named_job"),
        PrimaryKeyConstraint("job", "number", "path", name="pk_named"),
    )


def _record() -> None:
    op.create_table(
        "events",
        Column("job", Text, nullable=False),
        Column("place", BigInteger, nullable=False),
        Column("dev", Text, nullable=False),
        Column("seq", BigInteger, nullable=False),
        Column("hash", Text, nullable=False),
        Column("raw", Text, nullable=False),
        Column("arrived", Text, nullable=False),
        UniqueConstraint("job", "dev", "seq", name="uq_events_job_dev_seq"),
        ForeignKeyConstraint(["job"], ["jobs.job"], name="fk_events_job"),
        PrimaryKeyConstraint("job", "place", name="pk_events"),
    )
    op.create_table(
        "heads",
        Column("job", Text, nullable=False),
        Column("dev", Text, nullable=False),
        Column("acked", BigInteger, nullable=False),
        ForeignKeyConstraint(["job"], ["jobs.job"], name="fk_heads_job"),
        PrimaryKeyConstraint("job", "dev", name="pk_heads"),
    )
    op.create_table(
        "forks",
        Column("job", Text, nullable=False),
        Column("dev", Text, nullable=False),
        Column("seq", BigInteger, nullable=False),
        Column("other", Text, nullable=False),
        Column("kept", Text, nullable=False),
        Column("raw", Text, nullable=False),
        Column("arrived", Text, nullable=False),
        Column("place", BigInteger, nullable=False),
        ForeignKeyConstraint(["job"], ["jobs.job"], name="fk_forks_job"),
        PrimaryKeyConstraint("job", "dev", "seq", "other", name="pk_forks"),
    )


def _files() -> None:
    op.create_table(
        "files",
        Column("job", Text, nullable=False),
        Column("sha", Text, nullable=False),
        Column("private", Boolean, nullable=False),
        Column("length", BigInteger, nullable=False),
        Column("there", BigInteger, nullable=False),
        Column("done", Boolean, nullable=False),
        Column("erased", Text, nullable=False),
        PrimaryKeyConstraint("job", "sha", "private", name="pk_files"),
    )
    op.create_table(
        "pieces",
        Column("job", Text, nullable=False),
        Column("sha", Text, nullable=False),
        Column("private", Boolean, nullable=False),
        Column("start", BigInteger, nullable=False),
        Column("bytes", LargeBinary, nullable=False),
        ForeignKeyConstraint(
            ["job", "sha", "private"],
            ["files.job", "files.sha", "files.private"],
            ondelete="CASCADE",
            name="fk_pieces_job",
        ),
        PrimaryKeyConstraint("job", "sha", "private", "start", name="pk_pieces"),
    )
    op.create_table(
        "keys",
        Column("job", Text, nullable=False),
        Column("sealed", LargeBinary, nullable=False),
        ForeignKeyConstraint(["job"], ["jobs.job"], name="fk_keys_job"),
        PrimaryKeyConstraint("job", name="pk_keys"),
    )


def _office() -> None:
    op.create_table(
        "people",
        Column("id", Text, nullable=False),
        Column("name", Text, nullable=False),
        Column("role", Text, nullable=False),
        Column("secret", Text, nullable=False),
        Column("language", Text, nullable=False),
        PrimaryKeyConstraint("id", name="pk_people"),
    )
    op.create_table(
        "devices",
        Column("id", Text, nullable=False),
        Column("name", Text, nullable=False),
        Column("key", Text, nullable=False),
        Column("token", Text, nullable=False),
        Column("enrolled", Text, nullable=False),
        Column("withdrawn", Text, nullable=False),
        PrimaryKeyConstraint("id", name="pk_devices"),
    )
    op.create_table(
        "notes",
        Column("kind", Text, nullable=False),
        Column("key", Text, nullable=False),
        Column("value", Text, nullable=False),
        Column("until", Text, nullable=False),
        PrimaryKeyConstraint("kind", "key", name="pk_notes"),
    )
