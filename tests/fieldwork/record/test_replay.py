"""The isolation state replayed from what was done: with demo jobs, and against the walk over random small jobs."""

import importlib.util
import random
import sys
from pathlib import Path

import pytest
from tablet import Tablet

from standfast.fieldwork.order.acts import Act, Acts, Gate, Sensor, Site
from standfast.fieldwork.order.from_steps import step_of
from standfast.fieldwork.order.house import House
from standfast.fieldwork.record.causal import known
from standfast.fieldwork.record.replay import Unsafe, Untested, line, replay
from standfast.fieldwork.work_order import Decided, WorkOrder, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan

DEMOS = ("one_wall", "cabinet")


@pytest.fixture(scope="module")
def orders(tmp_path_factory: pytest.TempPathFactory) -> dict[str, WorkOrder]:
    return {name: work_order(sitework(make_plan(write_demo(name, tmp_path_factory.mktemp(name))))) for name in DEMOS}


@pytest.mark.parametrize("name", DEMOS)
def test_the_planned_day_is_safe_at_every_moment(orders: dict[str, WorkOrder], name: str) -> None:
    order = orders[name]
    ids = [step.id for step in order.steps]
    for upto in range(0, len(ids) + 1, 3):
        now = replay(order.decided, ids[:upto])
        assert (now.was, now.unsafe, now.untested, now.again, now.unknown) == ((), (), (), (), ())
    now = replay(order.decided, ids)
    assert now.live and not now.covers_off and not now.temporary


@pytest.mark.parametrize("name", DEMOS)
def test_a_proof_of_dead_that_was_left_out_shows_at_the_hands_that_need_it(
    orders: dict[str, WorkOrder], name: str
) -> None:
    order = orders[name]
    ids = [step.id for step in order.steps]
    proving = [step for step in order.steps if step.proves]
    assert proving
    shown, site = 0, order.decided.house.site
    for step in proving:
        now = replay(order.decided, [id for id in ids if id != step.id])
        zones = {site.zone(each) for each in (*step.proves, *step.waited)}
        for each in now.was:
            assert each.why in ("not proved dead", "still charged") and site.zone(each.what) in zones
        shown += bool(now.was)
    assert shown


@pytest.mark.parametrize("name", DEMOS)
def test_hands_before_the_power_is_off(orders: dict[str, WorkOrder], name: str) -> None:
    """The step of the day whose hands reach a conductor that was live in the morning, done first."""
    order = orders[name]
    morning = dict(replay(order.decided, ()).live)
    step = next(each for each in order.steps if set(each.touches) & set(morning))
    now = replay(order.decided, [step.id])
    assert now.was and {(each.step, each.why) for each in now.was if each.what in morning} == {(step.id, "live")}
    assert all(each.source for each in now.was if each.why == "live")


@pytest.mark.parametrize("name", DEMOS)
def test_a_test_that_was_left_out_is_told_once_its_conductors_are_fed(orders: dict[str, WorkOrder], name: str) -> None:
    order = orders[name]
    ids = [step.id for step in order.steps]
    told = 0
    for step in (each for each in order.steps if each.clears):
        now = replay(order.decided, [id for id in ids if id != step.id])
        assert {each.step for each in now.untested} <= {step.id}
        told += bool(now.untested)
    assert told


@pytest.mark.parametrize("name", DEMOS)
def test_what_was_opened_again_at_the_end_has_to_be_done_again(orders: dict[str, WorkOrder], name: str) -> None:
    order = orders[name]
    ids = [step.id for step in order.steps]
    opened = next(id for id, redo in order.redo.items() if redo and _step(order, id).tightens)
    now = replay(order.decided, [*ids, opened])
    expected = [id for id in order.redo[opened] if not _only_proves(order, id)]
    assert expected and list(now.again) == sorted(
        expected, key=[step_of(each.id) for each in order.decided.acts.all].index
    )
    again = replay(order.decided, [*ids, opened, *order.redo[opened]])
    assert again.again == ()


def _step(order: WorkOrder, id: str):  # type: ignore[no-untyped-def]
    return next(each for each in order.steps if each.id == id)


def _only_proves(order: WorkOrder, id: str) -> bool:
    step = _step(order, id)
    return bool(step.proves) and not step.clears and not step.groups


def decided(site: Site, *acts: Act) -> Decided:
    return Decided(House(site, {}), Acts(acts), ())


SITE = Site(
    (Gate("main", "grid", "panel", closed=True), Gate("new", "panel", "battery", closed=False, locks=False)),
    {"utility": "grid"}, charged=frozenset({"panel"}), covers=frozenset({"lid"}),
)  # fmt: skip
SMALL = decided(
    SITE,
    Act("open", gate="main", change="open"),
    Act("lock", ("open",), gate="main", change="lock"),
    Act("off", ("lock",), uncovers="lid"),
    Act("wait", ("lock",), waits=("panel",)),
    Act("prove", ("wait", "off"), proves=("panel", "battery")),
    Act("land", ("prove",), touches=("panel", "battery"), reaches=("lid",)),
    Act("test", ("land",), clears=("battery",), groups=("dead tests",)),
    Act("on", ("test",), covers="lid"),
    Act("join", ("test",), gate="new", change="close", shut=("lid",)),
    Act("unlock", ("on", "join"), gate="main", change="unlock"),
    Act("close", ("unlock",), gate="main", change="close", shut=("lid",)),
)
ORDER = ["open", "lock", "off", "wait", "prove", "land", "test", "on", "join", "unlock", "close"]


def test_a_small_day_as_planned() -> None:
    now = replay(SMALL, ORDER[:6])
    assert (now.open, now.locks, now.covers_off) == (("main", "new"), ("main",), ("lid",))
    assert [zone for zone, _ in now.live] == ["grid"]
    now = replay(SMALL, ORDER)
    assert now.live == (("battery", "utility"), ("grid", "utility"), ("panel", "utility"))
    assert not (now.was or now.unsafe or now.untested or now.again or now.locks or now.covers_off)


def test_open_without_its_lock_counts_as_closed() -> None:
    now = replay(SMALL, ["open", "off", "prove", "land"])
    assert now.was == (Unsafe("land", "panel", "live", "utility", ("main",)),)


def test_no_wait_and_the_charge_is_there() -> None:
    assert replay(SMALL, ["open", "lock", "off", "prove", "land"]).was == (Unsafe("land", "panel", "still charged"),)


def test_a_proof_ends_when_the_power_was_back() -> None:
    done = ["open", "lock", "off", "wait", "prove", "close", "open", "lock", "wait"]
    assert replay(SMALL, done).unsafe == (Unsafe("land", "panel", "live again after the proof"),)


def test_a_cover_that_is_on_where_hands_must_reach_and_off_where_power_comes() -> None:
    assert Unsafe("land", "lid", "cover on") in replay(SMALL, ["open", "lock", "wait", "prove", "land"]).was
    assert Unsafe("close", "lid", "cover off") in replay(SMALL, [*ORDER[:7], "join", "unlock", "close"]).was


def test_fed_without_its_test_and_after_it_counts_no_longer() -> None:
    left_out = [each for each in ORDER if each != "test"]
    assert replay(SMALL, left_out).untested == (Untested("test", "battery", "utility"),)
    early = ["test", *left_out]  # tested, and only then landed: it was another circuit that was tested
    now = replay(SMALL, early)
    assert now.again == ("test",) and now.untested == (Untested("test", "battery", "utility"),)


def test_a_measuring_transformer_left_open_round_a_live_conductor() -> None:
    site = SITE._replace(covers=frozenset({"ct"}), sensors=(Sensor("ct/secondary", "ct", "grid"),))
    now = replay(decided(site, Act("join", covers="ct/secondary")), ())
    assert now.unsafe == (Unsafe("", "ct/secondary", "sensor open", "utility", ()),)
    assert replay(decided(site, Act("join", covers="ct/secondary")), ["join"]).unsafe == ()


def test_steps_that_the_plan_does_not_have() -> None:
    assert replay(SMALL, ["open", "sweep", "open"]).unknown == ("sweep",)


def _walk_of_orders():  # type: ignore[no-untyped-def]
    """The walk over every order and its random jobs, which stand with the tests of the order of work."""
    folder = Path(__file__).parents[1] / "order"
    found = []
    for name in ("walk", "test_decide"):
        spec = importlib.util.spec_from_file_location(name, folder / f"{name}.py")
        assert spec is not None and spec.loader is not None
        module = sys.modules.get(name)
        if module is None:
            module = importlib.util.module_from_spec(spec)
            sys.modules[name] = module
            spec.loader.exec_module(module)
        found.append(module)
    return found


@pytest.mark.parametrize("block", range(4))
def test_every_order_that_is_replayed_shows_what_the_walk_knows(block: int) -> None:
    """What some order makes unsafe and what replaying every allowed order shows are the same."""
    walk, jobs = _walk_of_orders()
    for seed in range(block, 200, 4):
        site, acts = jobs.random_job(seed)
        expected = {(act, what, live) for act, what, live in walk.walk(site, acts)[0]}
        shown = set()
        for order in _orders(acts, seed):
            for each in replay(Decided(House(site, {}), acts, ()), order).was:
                shown.add((each.step, each.what, each.why == "live"))
        assert shown <= expected, seed
        if len(acts) <= 5:
            assert shown == expected, seed


def _orders(acts: Acts, seed: int) -> list[list[str]]:
    """Every allowed order of a small job; of a larger one forty by chance."""
    if len(acts) <= 5:
        found: list[list[str]] = []
        ways: list[list[int]] = [[]]
        while ways:
            way = ways.pop()
            done = sum(1 << each for each in way)
            if len(way) == len(acts):
                found.append([acts.all[each].id for each in way])
            ways += [[*way, n] for n in range(len(acts)) if n not in way and not acts.before[n] & ~done]
        return found
    draw = random.Random(seed)
    return [_by_chance(acts, draw) for _ in range(40)]


def _by_chance(acts: Acts, draw: random.Random) -> list[str]:
    way: list[int] = []
    while len(way) < len(acts):
        done = sum(1 << each for each in way)
        way.append(draw.choice([n for n in range(len(acts)) if n not in way and not acts.before[n] & ~done]))
    return [acts.all[each].id for each in way]


def test_the_order_in_which_steps_were_done_as_far_as_anybody_knows() -> None:
    a, b = Tablet("a"), Tablet("b")
    b.tell("done", "two")
    a.sees(b)
    a.tell("done", "three")
    a.reads("r", "2", step="four", done=True)
    b.tell("done", "apart")
    void = a.tell("done", "slipped")
    a.tell("void", of=void, reason="slipped")
    found = line(known([*a.log, *b.log]))
    assert found.steps == ("two", "three", "four", "apart")
    assert found.unsure == (("three", "apart"), ("four", "apart"))
