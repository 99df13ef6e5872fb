"""The removal of every demo job: safe in every order, as the trade does it, and at its goal when it is done."""

from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from demo_jobs import DEMOS, Removed

from standfast import shelf
from standfast.aftercare.carriage import CONDITIONS, Condition
from standfast.aftercare.goal import Reached, reached
from standfast.aftercare.leaving import leaving
from standfast.aftercare.making import ASSESSED, DEAD, DISCHARGE, HOUSE, SEEN, SEEN_HOUSE
from standfast.aftercare.removal import Removal, removal
from standfast.design.wiring.bonds import Bonds
from standfast.equipment.read import shipped
from standfast.fieldwork.order.from_steps import acts_of
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import WorkStep
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan
from standfast.foreman.removals import planned

DONE = Reached((), (), (), ())


def before(made: Removal, first: str, then: str) -> bool:
    """Whether one step comes before another in every order."""
    acts = acts_of(made.steps)
    return acts.precedes(acts.number[first], acts.number[then])


def ids(made: Removal, begins: str) -> list[str]:
    return [each.id for each in made.steps if each.id.startswith(begins)]


@pytest.mark.parametrize("condition", CONDITIONS)
@pytest.mark.parametrize("name", DEMOS)
def test_no_order_is_unsafe_and_the_goal_is_reached(removed: Removed, name: str, condition: Condition) -> None:
    made = removed(name, condition)
    assert made.decided.unsafe == ()
    assert reached(made, [each.id for each in made.steps]) == DONE
    assert {part.id for part in made.leaves.parts} == set(made.taken)
    assert made.bonds.rows and all(row.verdict == "pass" and row.bonds.number == 1 for row in made.bonds.rows)
    assert all(check.verdict == "pass" for check in made.bonds.checks)


@pytest.mark.parametrize("name", DEMOS)
def test_what_leaves_is_the_battery_and_what_stays_is_the_house(plan_of: Callable[[str], Plan], name: str) -> None:
    plan = plan_of(name)
    leaves = leaving(plan)
    gone, kept = {part.id for part in leaves.parts}, set(leaves.graph.parts)
    assert gone | kept == set(plan.installation.parts) and not gone & kept
    assert all(not plan.installation.parts[id].existing for id in gone)
    assert {part.kind for part in leaves.graph.parts.values()} & {"battery", "transfer equipment"} == set()
    assert {part.id for part in plan.installation.of_kind("load", "array", "busbar")} <= kept


@pytest.mark.parametrize("name", DEMOS)
def test_a_step_left_out_is_missed_by_the_goal(removed: Removed, name: str) -> None:
    """The look at the end is no formality: without its step a part is still there, a load unfed, a lock on."""
    made = removed(name, "sound")
    order = [each.id for each in made.steps]
    for id in sorted(set(made.taken.values())):
        assert reached(made, [each for each in order if each != id]).left
    assert reached(made, [each for each in order if each != "house.restore"]) != DONE


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("dropped", ["lock", "open", "prove"])
def test_a_removal_with_a_hole_is_told(removed: Removed, name: str, dropped: str) -> None:
    """Without its locks, its opened switches or its proofs the same removal is unsafe, so the decision decides."""
    from standfast.fieldwork.order.decide import unsafe

    made = removed(name, "sound")

    def holed(each: WorkStep) -> WorkStep:
        if dropped == "prove":
            return each._replace(proves=())
        if each.id.startswith("house."):
            return each
        return each._replace(turns=tuple(turn for turn in each.turns if turn.change != dropped))

    assert unsafe(made.decided.house.site, acts_of([holed(each) for each in made.steps]))


def test_a_stack_comes_away_as_the_trade_does_it(removed: Removed) -> None:
    """Rules of thumb without a source, as the rulebook holds them; the plan is derived and not made from them."""
    rows = shelf.edition("practice", "2026").table("stack_removal")
    assert rows.facts["seen"] == "common practice"
    made = removed("stack_outdoors", "sound")
    steps: dict[str, Sequence[str]] = {
        "inverter off": ["off.ac-inverter-1", "off.inverter-1"], "battery breaker off": ["off.battery-1"],
        "battery breaker verified off": ["off.seen"], "its cover off": ["off.battery-1/wiring-cover"],
        "cables out": ids(made, "out.battery-1."), "head released": ["undo.battery-1.head"],
        "pack off": ["off.battery-1", DEAD], "module connectors apart": ["undo.battery-1.connect-modules"],
        "everything else down": [each for each in ids(made, "undo.battery-1.") if not each.endswith(".off")],
        "side supports off": ["undo.battery-1.brace.off"],
    }  # fmt: skip
    assert len(rows.rows) == 5
    for row in rows.rows:
        for first in steps[str(row["first"])]:
            assert all(before(made, first, then) for then in steps[str(row["then"])]), (row, first)
    assert len(steps["cables out"]) == 3 and len(steps["everything else down"]) == 5


@pytest.mark.parametrize("name", DEMOS)
def test_isolation_follows_the_electrical_safety_standard(removed: Removed, name: str) -> None:
    """NFPA 70E 120.5: open, see, release, lock, prove; locks go on as each switch opens, before the proof anyway."""
    made = removed(name, "sound")
    found = [(stage, seen) for stage, seen in (("make dead", SEEN), (HOUSE, SEEN_HOUSE))]
    for stage, seen in found:
        here = [each for each in made.steps if each.stage == stage and not each.id.startswith("off.leads-")]
        early = [each.id for each in here if any(turn.change == "open" for turn in each.turns)]
        waits, proofs = ([each.id for each in here if getattr(each, word)] for word in ("waited", "proves"))
        assert early and proofs
        assert all(before(made, id, seen) for id in early)
        assert all(before(made, seen, id) for id in (*waits, *proofs))
        assert all(before(made, wait, proof) for wait in waits for proof in proofs)
    for each in made.steps:
        if each.proves:
            assert (each.readings[0].what, each.readings[-1].what) == (
                "tester on a live source, before", "tester on a live source, after",
            )  # fmt: skip
            assert len(each.readings) >= 5
        for terminal in each.touches:
            own = [proof.id for proof in made.steps if terminal in proof.proves]
            assert own and all(before(made, proof, each.id) for proof in own), (each.id, terminal)


def test_poles_come_out_one_at_a_time_and_ground_last(removed: Removed) -> None:
    made = removed("stack_outdoors", "sound")
    cables = [each for each in made.steps if each.id.startswith("out.inverter-1.")]
    assert [each.id.rpartition(".")[2] for each in cables][-2:] == ["link", "ground"]
    direct = [each for each in cables if each.id.rpartition(".")[2] in ("battery", "pv")]
    assert len(direct) == 2
    for each in direct:
        assert "one pole at a time" in each.text and "lug" in each.text
        assert "plus and minus never bare together" in " ".join(each.cautions)


def test_what_no_switch_holds_off_is_parted_before_the_proof(removed: Removed) -> None:
    made = removed("cabinet", "sound")
    leads = next(each for each in made.steps if each.id == "off.leads-battery-1")
    assert before(made, leads.id, "off.dead-battery-1") and before(made, "off.battery-1/busbar-cover", leads.id)
    assert any("insulated tools" in each for each in leads.cautions)


@pytest.mark.parametrize("name", DEMOS)
def test_a_damaged_unit_is_left_alone_until_somebody_has_assessed_it(removed: Removed, name: str) -> None:
    made = removed(name, "damaged")
    assert DISCHARGE not in {each.id for each in made.steps}
    units = {part.id for part in made.leaves.parts if part.kind == "battery"}
    for each in made.steps:
        at_unit = any(name.partition(":")[0] in units for name in (*each.touches, *each.proves))
        turns = any(turn.gate.partition("/")[0] in units and not turn.gate.endswith("/breaker") for turn in each.turns)
        if at_unit or turns or each.takes_off or each.stage == "take down":
            assert before(made, ASSESSED, each.id), each.id
    assert before(made, next(iter(ids(made, "off.ac-"))), ASSESSED)
    assessed = next(each for each in made.steps if each.id == ASSESSED)
    cautions = " ".join(assessed.cautions)
    assert "not charged, not discharged" in cautions and "Nobody touches it alone" in cautions
    told = " ".join(each.text for each in made.steps)
    assert "no air, no recycling shortcut" in told and "outdoors in the open" in told


def test_the_state_of_charge_is_the_data_sheets_and_never_a_guess(removed: Removed) -> None:
    stated = next(each for each in removed("stack_outdoors", "sound").steps if each.id == DISCHARGE)
    assert "30 %" in stated.text and "demo-stack-15.toml" in stated.text
    silent = next(each for each in removed("verandah", "sound").steps if each.id == DISCHARGE)
    assert "states no state of charge" in silent.text and "%" not in silent.text


def test_an_array_stays_apart_and_is_told(removed: Removed) -> None:
    made = removed("stack_outdoors", "sound")
    assert "roof-array" in made.leaves.graph.parts
    turns = [turn.change for each in made.steps for turn in each.turns if turn.gate == "roof-array/connectors"]
    assert turns == ["open"]
    live = next(each for each in made.steps if each.id == "house.live")
    assert any("live in daylight" in each for each in live.cautions)


def test_the_breaker_of_a_generator_is_not_closed_on_a_house_with_its_grid(removed: Removed) -> None:
    made = removed("many_sources", "sound")
    closed = {turn.gate for each in made.steps for turn in each.turns if turn.change == "close"}
    assert "meter-main/generator-inlet" not in closed and "main/backup-feeder" in closed


def test_bonds_that_nobody_knows_are_told_and_not_passed(plan_of: Callable[[str], Plan]) -> None:
    made = removal(plan_of("one_wall"), None, Bonds(), "sound")
    bond = next(each for each in made.steps if each.id == "house.bond")
    assert "not known" in bond.text and "not held" in made.asked[0].rule


def test_the_joint_of_the_house_is_seen_and_never_opened(removed: Removed) -> None:
    """Only the panel that was made dead is measured in; where it holds the joint itself nothing is lifted."""
    for name, lifted in (("one_wall", True), ("stack_outdoors", False)):
        bond = next(each for each in removed(name, "sound").steps if each.id == "house.bond")
        assert "nobody opens it" in bond.text
        assert any("neutral of its feeder lifted" in each.what for each in bond.readings) is lifted


def test_tools_that_tighten_or_drill_undo_nothing(removed: Removed) -> None:
    for name in DEMOS:
        tools = {tool for each in removed(name, "sound").steps for tool in each.tools}
        assert tools and not [tool for tool in tools if "torque" in tool or "drill" in tool or "scanner" in tool]


@pytest.mark.parametrize("locks", ["false", "true"])
def test_a_switch_that_cannot_be_locked_is_no_isolation(tmp_path: Path, locks: str) -> None:
    folder = write_demo("one_wall", tmp_path / "house")
    sheet = shipped()["demo-wall-10"]
    assert sheet.count("locks = true") == 1
    (folder / "sheets").mkdir(exist_ok=True)
    (folder / "sheets" / "demo-wall-10.toml").write_text(sheet.replace("locks = true", f"locks = {locks}"), "utf-8")
    job = make_plan(folder, runner_up=False)
    made = planned(job, sitework(job))["sound"]
    assert {each.why for each in made.decided.unsafe} == (set() if locks == "true" else {"live"})


@pytest.mark.parametrize("name", DEMOS)
def test_nobody_walks_the_way_to_a_damaged_unit_before_it_was_assessed(removed: Removed, name: str) -> None:
    made = removed(name, "damaged").numbers
    assert made["prepare.assessed"] < made["prepare.lift"]


def test_what_holds_to_wall_and_floor_is_undone_with_its_own_tool(removed: Removed) -> None:
    steps = {each.id: each for each in removed("stack_outdoors", "sound").steps}
    base, brace = steps["undo.battery-1.base"], steps["undo.battery-1.brace.off"]
    assert any("Screw anchor 1/2 in" in each for each in base.first) and base.tools == ("3/4 in hex socket",)
    assert any("Lag screw 5/16 in" in each for each in brace.first) and brace.tools == ("1/2 in hex socket",)
    assert steps["undo.battery-1.brace"].tools == ("13 mm socket",)


def test_cables_for_which_a_sheet_has_no_terminal_come_out_too(removed: Removed) -> None:
    made = removed("detached_pair", "sound").numbers
    for id in ("battery-1", "battery-2"):
        assert made[f"out.{id}.ac-neutral"] < made[f"out.{id}.cables"] < made[f"out.{id}.ground"]
    assert "out.battery-1.cables" not in removed("stack_outdoors", "sound").numbers


def test_one_switch_alone_has_no_order(removed: Removed) -> None:
    steps = {each.id: each for each in removed("stack_outdoors", "damaged").steps}
    assert "in this order" not in steps["off.ac-inverter-1"].text
    assert (
        "in this order"
        in {each.id: each for each in removed("stack_outdoors", "sound").steps}["off.ac-inverter-1"].text
    )
