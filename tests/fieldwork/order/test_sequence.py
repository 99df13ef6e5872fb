"""Tests before power, joints before covers, nothing left in, no sensor open under load: decided and walked."""

import random
from collections import Counter

import pytest
from test_decide import SEEDS, random_job
from walk import walk_sequence

from standfast.fieldwork.order.acts import GROUPS, Act, Acts, Gate, Sensor, Site
from standfast.fieldwork.order.mending import mending, with_waits
from standfast.fieldwork.order.redo import done_again, invalidated
from standfast.fieldwork.order.sequence import out_of_sequence, proven

WORDS = {"fed before its test": "test", "before its turn": "turn", "joint not tight": "joint", "sensor open": "sensor"}


def sequenced_job(seed: int) -> tuple[Site, Acts]:
    """A random small job with tests, groups, joints and a sensor besides."""
    draw = random.Random(seed * 7 + 1)
    site, acts = random_job(seed)
    zones = sorted({zone for gate in site.gates for zone in (gate.a, gate.b)})
    some = []
    for act in acts.all:
        clears = (draw.choice(zones),) if draw.random() < 0.3 and not act.gate else ()
        first = draw.randrange(len(GROUPS))
        groups = GROUPS[first : first + draw.randint(1, 2)] if draw.random() < 0.3 else ()
        tightens = ((f"j{act.id}", draw.choice(["c0", "c1"])),) if draw.random() < 0.3 else ()
        some.append(act._replace(clears=clears, groups=groups, tightens=tightens))
    sensor = Sensor("c0", "c1", draw.choice(zones))  # its secondary and its seat change as those covers do
    shorted = Sensor("c0", "seat", draw.choice(zones), "c1")  # sits round its conductor all the time, with a link
    return site._replace(sensors=(sensor, shorted), covers=site.covers | {"seat"}), Acts(some)


@pytest.mark.parametrize("block", range(10))
def test_the_sequence_decided_is_that_of_walking_every_order(block: int) -> None:
    kinds = Counter[str]()
    for seed in SEEDS[block::10]:
        site, acts = sequenced_job(seed)
        found = {
            (WORDS[each.why], "" if each.why == "sensor open" else each.act,
             site.zone(each.what) if each.why == "fed before its test" else each.what)
            for each in out_of_sequence(site, acts) if each.why in WORDS
        }  # fmt: skip
        assert found == walk_sequence(site, acts), seed
        kinds.update(word for word, _, _ in found)
    assert set(kinds) == set(WORDS.values())  # every kind comes up


@pytest.mark.parametrize("seed", range(0, 400, 9))
def test_the_order_that_is_told_can_be_done(seed: int) -> None:
    site, acts = sequenced_job(seed)
    for each in out_of_sequence(site, acts):
        done = 0
        for id in each.order:
            place = acts.number[id]
            assert not acts.before[place] & ~done
            done |= 1 << place


SITE = Site((Gate("main", "grid", "new", closed=False),), {"utility": "grid"}, covers=frozenset({"lid"}))
JOB = (
    Act("off", uncovers="lid"),
    Act("tight", ("off",), touches=(), tightens=(("lug", "lid"),)),
    Act("test", ("tight",), clears=("new",), groups=("dead tests",)),
    Act("on", ("off", "tight"), covers="lid"),
    Act("feed", ("test",), gate="main", change="close", groups=("supply",)),
    Act("try", ("feed",), groups=("functional",)),
    Act("sign", ("try", "on"), groups=("hand over",)),
)


def without(act: str, before: str) -> Acts:
    return Acts(each._replace(after=tuple(b for b in each.after if b != before)) if each.id == act else each
                for each in JOB)  # fmt: skip


def test_the_small_job_is_in_sequence() -> None:
    assert proven(SITE, Acts(JOB)) == []


@pytest.mark.parametrize(
    ("act", "before", "whys", "mended"),
    [
        ("on", "tight", {"joint not tight"}, ("on", "tight")),
        ("feed", "test", {"fed before its test", "before its turn"}, ("feed", "test")),
        ("try", "feed", {"before its turn"}, ("try", "test")),
        ("sign", "try", {"before its turn"}, ("sign", "test")),
    ],
)
def test_each_wait_taken_away_is_found_and_mended(
    act: str, before: str, whys: set[str], mended: tuple[str, str]
) -> None:
    acts = without(act, before)
    found = proven(SITE, acts)
    assert {each.why for each in found} == whys
    waits = mending(SITE, acts, found[0])
    assert waits == (mended,)
    assert (found[0].act, found[0].what) not in {
        (each.act, each.what) for each in proven(SITE, with_waits(acts, waits))
    }


def test_a_spacer_left_in_and_a_connector_left_apart_are_told() -> None:
    site = SITE._replace(temporary=frozenset({"lock"}), covers=frozenset({"lid", "lock"}), joined=frozenset({"main"}))
    assert {(each.what, each.why) for each in proven(site, Acts(JOB))} == {("lock", "left in at the end")}
    out = Act("unlock", uncovers="lock")
    assert proven(site, Acts((*JOB, out))) == []
    parted = Act("part", ("sign",), gate="main", change="open")
    assert {(each.what, each.why) for each in proven(site, Acts((*JOB, out, parted)))} == {("main", "apart at the end")}
    again = Act("lock-again", ("unlock",), covers="lock")
    assert [each.why for each in proven(site, Acts((*JOB, out, again)))] == ["left in at the end"]


def test_a_secondary_is_joined_before_its_transformer_sits_round_what_is_live() -> None:
    site = Site((), {"utility": "grid"}, sensors=(Sensor("secondary", "seat", "grid"),))
    plug, fit = Act("plug", covers="secondary"), Act("fit", covers="seat")
    (found,) = proven(site, Acts((plug, fit)))
    assert (found.act, found.what, found.why, found.order) == ("fit", "secondary", "sensor open", ("fit",))
    assert mending(site, Acts((plug, fit)), found) == (("fit", "plug"),)
    assert proven(site, Acts((plug, fit._replace(after=("plug",))))) == []
    linked = site._replace(sensors=(Sensor("secondary", "seat", "grid", "link"),), covers=frozenset({"link"}))
    out = Act("out", after=("plug",), uncovers="link")
    assert "sensor open" not in {each.why for each in proven(linked, Acts((plug, fit, out)))}
    assert "sensor open" in {each.why for each in proven(linked, Acts((plug, fit, out._replace(after=()))))}
    built = site._replace(covers=frozenset({"secondary", "seat"}))
    part, off = Act("part", uncovers="secondary"), Act("off", uncovers="seat")
    assert "sensor open" in {each.why for each in proven(built, Acts((part, off)))}
    assert "sensor open" not in {each.why for each in proven(built, Acts((part._replace(after=("off",)), off)))}


def test_what_is_opened_again_makes_later_tests_and_signatures_worth_nothing() -> None:
    acts, done = Acts(JOB), [act.id for act in JOB]
    assert invalidated(acts, done, "off") == ("on", "sign")
    assert invalidated(acts, done, "tight") == ("on", "try", "sign")
    assert invalidated(acts, ["off", "tight"], "tight") == ()
    assert invalidated(acts, done, "sign") == ()
    wired = Acts((Act("prove", proves=("new",)), *(
        act._replace(touches=("new",), after=(*act.after, "prove")) if act.id == "tight" else act for act in JOB
    )))  # fmt: skip
    again = invalidated(wired, [act.id for act in wired.all], "tight")
    assert set(again) == {"prove", "test", "on", "try", "sign"}
    assert done_again(acts, done)["off"] == ("on", "sign") and "test" not in done_again(acts, done)
