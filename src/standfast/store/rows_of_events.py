"""The field record as rows of a database.

Whoever brings events to a job is alone with its record for one transaction: so the arrivals of a job are counted
without a gap, and of two texts for one place one is kept and the other one set aside, in whatever order they come.
"""

from collections.abc import Sequence

from sqlalchemy import Connection, and_, false, func, or_, select

from standfast.store.interface import Fork, Line, Taken, Vector
from standfast.store.link import rows
from standfast.store.named import LAST, sound
from standfast.store.rows_of_jobs import JobRows
from standfast.store.tables import EVENTS, FORKS, HEADS

_LINE = (EVENTS.c.dev, EVENTS.c.seq, EVENTS.c.hash, EVENTS.c.raw)


class EventRows(JobRows):
    """The part of a database that keeps events."""

    def append(self, job: str, lines: Sequence[Line], now: str) -> Taken:
        """Take events; see `Events.append`."""
        sound(lines)
        with self._link.write(f"record {job}") as db:
            self._known(db, job)
            kept = _kept(db, job, lines)
            new: dict[tuple[str, int], Line] = {}
            forks: dict[Fork, Line] = {}
            for each in lines:
                place = (each.dev, each.seq)
                before = kept.get(place) or new.setdefault(place, each).hash
                if before != each.hash:
                    forks[Fork(*place, before, each.hash)] = each
            _add(db, job, list(new.values()), now)
            _set_aside(db, job, forks, now)
            for dev in {each.dev for each in new.values()}:
                _count(db, job, dev)
            return Taken(len(new), _acked(db, job), tuple(forks))

    def events(self, job: str, beyond: Vector | None = None, limit: int | None = None) -> Sequence[Line]:
        """Events beyond a vector, in the order in which they arrived."""
        with self._link.read() as db:
            self._known(db, job)
            wanted = EVENTS.c.job == job
            if beyond:
                # Of each log what lies beyond: asked so, no event is read that is not wanted.
                far = {dev: min(beyond.get(dev, 0), LAST) for dev in _acked(db, job)}
                wanted = or_(
                    *[and_(wanted, EVENTS.c.dev == dev, EVENTS.c.seq > seq) for dev, seq in far.items()], false()
                )
            asked = select(*_LINE).where(wanted).order_by(EVENTS.c.place).limit(limit)
            return [Line(*each) for each in db.execute(asked)]

    def acked(self, job: str) -> Vector:
        """Of each device, how far its log stands without a gap."""
        with self._link.read() as db:
            self._known(db, job)
            return _acked(db, job)

    def forks(self, job: str) -> Sequence[Fork]:
        """Places with more than one text."""
        with self._link.read() as db:
            self._known(db, job)
            asked = select(FORKS.c.dev, FORKS.c.seq, FORKS.c.kept, FORKS.c.other).where(FORKS.c.job == job)
            return [Fork(*each) for each in db.execute(asked.order_by(FORKS.c.place))]

    def quarantine(self, job: str) -> Sequence[Line]:
        """The texts that stand in quarantine."""
        with self._link.read() as db:
            self._known(db, job)
            asked = select(FORKS.c.dev, FORKS.c.seq, FORKS.c.other, FORKS.c.raw).where(FORKS.c.job == job)
            return [Line(*each) for each in db.execute(asked.order_by(FORKS.c.place))]


def _kept(db: Connection, job: str, lines: Sequence[Line]) -> dict[tuple[str, int], str]:
    """Hashes of what is there already at the places of the lines, and between them."""
    found: dict[tuple[str, int], str] = {}
    for dev in {each.dev for each in lines}:
        places = [each.seq for each in lines if each.dev == dev]
        ours = and_(EVENTS.c.job == job, EVENTS.c.dev == dev, EVENTS.c.seq.between(min(places), max(places)))
        found.update(((dev, seq), hash) for seq, hash in db.execute(select(EVENTS.c.seq, EVENTS.c.hash).where(ours)))
    return found


def _add(db: Connection, job: str, lines: Sequence[Line], now: str) -> None:
    if not lines:
        return
    last = db.execute(select(func.max(EVENTS.c.place)).where(EVENTS.c.job == job)).scalar() or 0
    data = [{"job": job, "place": last + 1 + at, **each._asdict(), "arrived": now} for at, each in enumerate(lines)]
    db.execute(EVENTS.insert(), data)


def _set_aside(db: Connection, job: str, forks: dict[Fork, Line], now: str) -> None:
    for fork, line in forks.items():
        row = {"job": job, "dev": fork.dev, "seq": fork.seq, "other": fork.other}
        there = and_(*[FORKS.c[name] == value for name, value in row.items()])
        if db.execute(select(FORKS.c.seq).where(there)).first() is None:
            last = db.execute(select(func.max(FORKS.c.place)).where(FORKS.c.job == job)).scalar() or 0
            db.execute(FORKS.insert().values(**row, kept=fork.kept, raw=line.raw, arrived=now, place=last + 1))


def _count(db: Connection, job: str, dev: str) -> None:
    """Go on counting where a log was lengthened, from where it stood up to the next gap."""
    ours = and_(HEADS.c.job == job, HEADS.c.dev == dev)
    stood = db.execute(select(HEADS.c.acked).where(ours)).scalar()
    far = stood or 0
    beyond = and_(EVENTS.c.job == job, EVENTS.c.dev == dev, EVENTS.c.seq > far)
    for seq in db.execute(select(EVENTS.c.seq).where(beyond).order_by(EVENTS.c.seq)).scalars():
        if seq != far + 1:
            break
        far = seq
    if stood is None:
        db.execute(HEADS.insert().values(job=job, dev=dev, acked=far))
    elif far != stood:
        rows(db, HEADS.update().where(ours).values(acked=far))


def _acked(db: Connection, job: str) -> dict[str, int]:
    heads = db.execute(select(HEADS.c.dev, HEADS.c.acked).where(HEADS.c.job == job))
    return {str(each.dev): int(each.acked) for each in heads}
