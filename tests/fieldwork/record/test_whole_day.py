"""The day of a demo job, recorded from its real field sheet: ready at its end, and safe in the replay."""

import json
from hashlib import sha256
from typing import Any

import pytest
from tablet import Sheet, Tablet, card, rewritten

from standfast.fieldwork.record.causal import known
from standfast.fieldwork.record.fold import fold
from standfast.fieldwork.record.replay import line, replay
from standfast.fieldwork.record.sheet import read_sheet
from standfast.fieldwork.work_order import WorkOrder, work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.field import field_sheet
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan


@pytest.fixture(scope="module", params=["one_wall", "cabinet"])
def job(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Sheet, WorkOrder]:
    plan = make_plan(write_demo(request.param, tmp_path_factory.mktemp("job")))
    sheet = json.loads(field_sheet(plan, ("en",)))
    kinds = sorted({kind for step in sheet["steps"] for item in step["items"] for kind in item["tool_kind"]})
    sheet["tools"] = [{"id": kind, "kind": kind, "calibrated_until": "2027-01-01"} for kind in kinds]
    return dict(read_sheet(json.dumps(sheet))), work_order(sitework(plan))


def answered(one: Tablet, step: Sheet, item: Sheet) -> None:
    """Record an item as it should be."""
    sha = sha256(item["id"].encode()).hexdigest()
    match item["kind"]:
        case "photo":
            one.tell("photo", step["id"], item=item["id"], sha=sha, bytes=9, mime="image/jpeg", equal=item["count"])
        case "timer":
            waited = item["seconds"] * 1000
            one.tell("timer", step["id"], item=item["id"], seconds=item["seconds"], waited_ms=waited, judged="seen")
        case "serial":
            for number in range(item["count"]):
                one.tell("scan", step["id"], item=item["id"], text=f"{item['id']}-{number}", typed=False)
        case _:
            value = item["limit"]["value"] if item["limit"] else "1"
            tool = item["tool_kind"][0] if item["tool_kind"] else ""
            unit = item["limit"]["unit"] if item["limit"] else item["unit"]
            one.reads(item["id"], value, unit, step["id"], tool, n=item["count"])


def day(sheet: Sheet) -> Tablet:
    one = Tablet("a", "ana")
    for step in sheet["steps"]:
        for hold in step["holds"]:
            one.tell("hold", step["id"], kind=hold["kind"], by=card("ben"), seen=True)
        for item in step["items"]:
            answered(one, step, item)
        one.tell("done", step["id"])
    one.tell("clock", server="2026-11-25T18:00:00.000Z", wall="", mono=1, boot="a")
    return one


def test_a_day_without_a_fault_is_ready_and_its_replay_safe(job: tuple[Sheet, WorkOrder]) -> None:
    sheet, order = job
    one = day(sheet)
    state = fold(one.log, sheet)
    assert state.because == () and state.ready
    done = line(known(one.log))
    assert list(done.steps) == [step.id for step in order.steps] and done.unsure == ()
    now = replay(order.decided, done.steps)
    assert (now.was, now.unsafe, now.untested, now.again, now.unknown) == ((), (), (), (), ())


def test_each_entry_that_was_never_made_blocks_the_handover(job: tuple[Sheet, WorkOrder]) -> None:
    """Whatever nobody recorded of the day, it is not ready: nothing is counted that was not told."""
    sheet, _ = job
    one = day(sheet)
    for place in range(0, len(one.log), 11):
        left = [each for number, each in enumerate(one.log) if number != place]
        events = [rewritten(each, seq=seq, app="test") for seq, each in enumerate(left, 1)]
        state = fold(events, sheet)
        assert state.logs["gaps"] == [] and not state.ready, one.log[place].raw


def failing(item: Sheet) -> str | None:
    """A value that is outside the limit; None where there is no limit."""
    bound: Any = item["limit"]
    if not bound:
        return None
    return {"at least": "-99999", "at most": "99999", "between": "-99999", "equal": "-99999"}[bound["relation"]]


def test_each_reading_that_fails_blocks_the_handover(job: tuple[Sheet, WorkOrder]) -> None:
    sheet, _ = job
    one = day(sheet)
    items = [item for step in sheet["steps"] for item in step["items"] if failing(item)]
    assert len(items) > 20
    for item in items[::3]:
        late = Tablet("b", "ben")
        late.seen = {one.dev: len(one.log)}
        late.reads(item["id"], failing(item) or "", item["limit"]["unit"], tool="x", n=item["count"])
        state = fold([*one.log, *late.log], sheet)
        assert {"why": "item fail", "what": item["id"]} in state.because
