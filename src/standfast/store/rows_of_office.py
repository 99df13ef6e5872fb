"""Accounts, tablets and short texts that run out, as rows of a database. None of it ever leaves the database."""

from collections.abc import Iterator, Sequence

from sqlalchemy import Table, and_, delete, select

from standfast.store.interface import Device, Person
from standfast.store.link import Link, rows
from standfast.store.named import moment
from standfast.store.tables import DEVICES, NOTES, PEOPLE


class OfficeRows:
    """The part of a database that keeps what is the office's own."""

    _link: Link

    def people(self) -> Sequence[Person]:
        """Every account, by name."""
        with self._link.read() as db:
            return sorted((Person(*each) for each in db.execute(select(PEOPLE))), key=lambda each: (each.name, each.id))

    def keep_person(self, person: Person) -> None:
        """Add or replace an account."""
        self._keep(PEOPLE, person._asdict())

    def devices(self) -> Sequence[Device]:
        """Every tablet, by name."""
        with self._link.read() as db:
            return sorted(
                (Device(*each) for each in db.execute(select(DEVICES))), key=lambda each: (each.name, each.id)
            )

    def keep_device(self, device: Device) -> None:
        """Add or replace a tablet."""
        self._keep(DEVICES, device._asdict())

    def put(self, kind: str, key: str, value: str, until: str = "") -> None:
        """Keep a short text that may run out; see `Office.put`."""
        if until:
            moment(until)
        self._keep(NOTES, {"kind": kind, "key": key, "value": value, "until": until})

    def get(self, kind: str, key: str, now: str) -> str | None:
        """The text, where it is there and still counts."""
        ours = and_(NOTES.c.kind == kind, NOTES.c.key == key)
        with self._link.read() as db:
            found = db.execute(select(NOTES.c.value, NOTES.c.until).where(ours)).first()
        return found.value if found is not None and _counts(found.until, now) else None

    def take(self, kind: str, key: str, now: str) -> str | None:
        """The same, and it is gone: of two who take one text, one gets it."""
        ours = and_(NOTES.c.kind == kind, NOTES.c.key == key)
        with self._link.write() as db:
            found = db.execute(delete(NOTES).where(ours).returning(NOTES.c.value, NOTES.c.until)).first()
        return found.value if found is not None and _counts(found.until, now) else None

    def keys(self, kind: str, now: str) -> Iterator[str]:
        """Keys of a kind that still count, in their order; those that have run out are thrown away."""
        with self._link.read() as db:
            found = db.execute(select(NOTES.c.key, NOTES.c.until).where(NOTES.c.kind == kind)).all()
        over = [each for each in found if not _counts(each.until, now)]
        if over:
            with self._link.write() as db:
                for key, until in over:
                    # One that was put anew meanwhile has another end.
                    gone = and_(NOTES.c.kind == kind, NOTES.c.key == key, NOTES.c.until == until)
                    db.execute(delete(NOTES).where(gone))
        return iter(sorted(each.key for each in found if _counts(each.until, now)))

    def _keep(self, table: Table, row: dict[str, str]) -> None:
        """Add a row, or put it in the place of the one that has its key."""
        key = [column.name for column in table.primary_key]
        with self._link.write(f"{table.name} {' '.join(row[name] for name in key)}") as db:
            ours = and_(*[table.c[name] == row[name] for name in key])
            if not rows(db, table.update().where(ours).values(row)):
                db.execute(table.insert().values(row))


def _counts(until: str, now: str) -> bool:
    return not until or moment(now) < moment(until)
