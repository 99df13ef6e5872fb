"""The steps that make the tables, and the tables that the program asks, are the same; on both kinds of database."""

from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from kept import KEYED, Kept
from made_logs import FIRST_REVISION, JOB
from sqlalchemy import inspect, text

from standfast.store import schema
from standfast.store.database import open_store
from standfast.store.interface import StoreError
from standfast.store.link import Link
from standfast.store.tables import METADATA


def test_the_steps_make_the_tables_that_are_asked(base: Kept) -> None:
    with base.database._link.read() as db:
        context = MigrationContext.configure(db, opts={"compare_type": True})
        assert compare_metadata(context, METADATA) == []
        found = inspect(db)
        assert set(found.get_table_names()) == {*METADATA.tables, "alembic_version"}
        for table in METADATA.sorted_tables:
            keys = found.get_pk_constraint(table.name)["constrained_columns"]
            assert keys == [each.name for each in table.primary_key], table.name
            columns = {each["name"]: each["nullable"] for each in found.get_columns(table.name)}
            assert columns == {each.name: False for each in table.columns}, table.name
            foreign = {tuple(each["constrained_columns"]) for each in found.get_foreign_keys(table.name)}
            assert foreign == {tuple(each.column_keys) for each in table.foreign_key_constraints}, table.name


def test_a_difference_would_have_been_seen(base: Kept) -> None:
    with base.database._link.write() as db:
        db.execute(text("ALTER TABLE notes ADD COLUMN more TEXT"))
    with base.database._link.read() as db:
        assert compare_metadata(MigrationContext.configure(db), METADATA)


def test_every_step_is_known_in_its_order() -> None:
    folder = Path(schema.__file__).parent / "migrations" / "versions"
    assert [each.name[:4] for each in sorted(folder.glob("[0-9]*.py"))] == list(schema.KNOWN)


def test_a_database_of_a_newer_version_is_refused_and_left_as_it_is(base: Kept) -> None:
    base.with_job()
    with base.database._link.write() as db:
        db.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    with pytest.raises(
        StoreError, match=r"a newer version has made this database: its tables are at step 9999"
    ) as told:
        base.open()
    assert "install that version" in str(told.value)
    with base.database._link.read() as db:
        assert db.execute(text("SELECT version_num FROM alembic_version")).scalar_one() == "9999"
    assert base.store.job(JOB).text == FIRST_REVISION.text


def test_tables_of_somebody_else_are_left_alone(base: Kept, tmp_path: Path) -> None:
    with base.database._link.write() as db:
        db.execute(text("DROP TABLE alembic_version"))
    with pytest.raises(StoreError, match="somebody else's database"):
        base.open()


def test_a_step_that_fails_leaves_no_table(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    url = f"sqlite:///{tmp_path}/new.db"
    link = Link(url)

    def fail(db: object, to: str = "") -> None:
        real(db, to or schema.KNOWN[-1])  # type: ignore[arg-type]
        raise StoreError("the disk went away")

    real = schema.upgrade
    monkeypatch.setattr(schema, "upgrade", fail)
    with pytest.raises(StoreError, match="the disk went away"):
        schema.bring_up(link)
    with link.read() as db:
        assert inspect(db).get_table_names() == []
    monkeypatch.undo()
    link.close()
    open_store(url, KEYED).close()


def test_what_is_no_database_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "notes.txt"
    file.write_bytes(b"a shopping list\n" * 100)
    file.chmod(0o600)
    with pytest.raises(StoreError, match="not a database"):
        open_store(f"sqlite:///{file}", {})
    assert file.read_bytes() == b"a shopping list\n" * 100
