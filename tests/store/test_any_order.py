"""Whatever is brought in whatever order, how often and with whatever in between: a store agrees with a plain list."""

from itertools import count
from uuid import UUID, uuid5

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test
from kept import Kept
from made_logs import FIRST_REVISION, JOB, NOW, A, B, C, line, log

from standfast.store.interface import Line

LOGS = {dev: log(dev, 6) for dev in (A, B, C)}
TEXTS = [*(each for log_ in LOGS.values() for each in log_), *(line(A, seq, note="other") for seq in (1, 2, 5)),
    line(A, 2, note="third"), line(B, 3, note="other")]  # fmt: skip


class AnyOrder(RuleBasedStateMachine):
    """Events, forks and gaps in any order, and a store that is closed and opened in between."""

    kept: Kept
    """A store; each run has a job of its own in it, or a folder of its own."""
    numbers = count()

    def __init__(self) -> None:
        super().__init__()
        self.job = JOB
        if self.kept.kind == "folder":
            self.kept.path = self.kept.folder / str(next(self.numbers))
            self.kept.again()
        else:
            self.job = str(uuid5(UUID(JOB), str(next(self.numbers))))
        self.kept.store.save(self.job, "x", FIRST_REVISION)
        self.arrived: list[Line] = []
        self.forks: list[Line] = []

    @rule(lines=st.lists(st.sampled_from(TEXTS), max_size=6))
    def bring(self, lines: list[Line]) -> None:
        before = len(self.arrived)
        told = []
        for each in lines:
            there = next((other for other in self.arrived if other[:2] == each[:2]), None)
            if there is None:
                self.arrived.append(each)
            elif there != each:
                told.append(each)
                self.forks += [each] if each not in self.forks else []
        taken = self.kept.store.append(self.job, lines, NOW)
        assert taken.new == len(self.arrived) - before
        assert {(each.dev, each.seq, each.other) for each in taken.forks} == {each[:3] for each in told}
        assert dict(taken.acked) == self.acked()

    @rule()
    def close_and_open(self) -> None:
        self.kept.again()

    @rule(beyond=st.dictionaries(st.sampled_from([A, B, C]), st.integers(0, 7)), limit=st.integers(1, 5))
    def ask(self, beyond: dict[str, int], limit: int) -> None:
        wanted = [each for each in self.arrived if each.seq > beyond.get(each.dev, 0)]
        assert list(self.kept.store.events(self.job, beyond, limit)) == wanted[:limit]

    @invariant()
    def all_is_there(self) -> None:
        store = self.kept.store
        assert list(store.events(self.job)) == self.arrived
        assert list(store.quarantine(self.job)) == self.forks
        assert dict(store.acked(self.job)) == self.acked()
        kept = {each[:2]: each.hash for each in self.arrived}
        wanted = [(kept[each[:2]], each.hash) for each in self.forks]
        assert [(each.kept, each.other) for each in store.forks(self.job)] == wanted

    def acked(self) -> dict[str, int]:
        found = {}
        for dev in {each.dev for each in self.arrived}:
            there, far = {each.seq for each in self.arrived if each.dev == dev}, 0
            while far + 1 in there:
                far += 1
            found[dev] = far
        return found


def test_any_order_gives_the_same(kept: Kept) -> None:
    machine = type("Machine", (AnyOrder,), {"kept": kept})
    run_state_machine_as_test(machine, settings=settings(max_examples=15, stateful_step_count=12))  # type: ignore[no-untyped-call]


def test_texts_hold_forks_and_their_places_are_not_alone() -> None:
    places = [each[:2] for each in TEXTS]
    assert len(TEXTS) - len(set(places)) == 5
