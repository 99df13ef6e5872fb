"""Remedies: every one, written into the file, clears its checks and opens nothing; no surveyed fact is touched."""

import os
import random
import re
from importlib import resources
from pathlib import Path

import pytest

from standfast.foreman.plan import JobPlan, make_plan
from standfast.foreman.remedies import Remedy, remedied
from standfast.foreman.remedies.change import dotted
from standfast.survey.read import changed, read
from standfast.survey.write import put
from standfast.terms import Verdict

DEMO = resources.files("standfast.foreman").joinpath("demos", "one_wall", "job.toml").read_text("utf-8")
CASES = 200 if "STANDFAST_CASES" in os.environ else 16
Damage = tuple[tuple[str | int, ...], tuple[str | int | bool, ...]]
BATTERY = ("panels", 1, "circuits", 6)
LENGTH = ("routes", 0, "length")
FEEDER = ("panels", 0, "circuits", 17)
DAMAGES: tuple[Damage, ...] = (
    ((*BATTERY, "breaker"), ("15 A", "20 A", "25 A", "45 A", "50 A", "60 A", "33 A")),
    ((*FEEDER, "breaker"), ("20 A", "30 A", "40 A", "45 A")),
    (("panels", 0, "source_position"), ("same end", "elsewhere")),
    (("panels", 0, "busbar"), ("125 A", "150 A")),
    (("panels", 1, "busbar"), ("60 A", "70 A")),
    (("panels", 0, "breaker_interrupting"), ("5 kA", "9 kA")),
    (("panels", 1, "breaker_interrupting"), ("5 kA", "9 kA")),
    (("panels", 0, "short_circuit_rating"), ("5 kA", "9 kA")),
    (("panels", 1, "short_circuit_rating"), ("5 kA", "9 kA")),
    (("panels", 1, "neutral_bonded"), (True,)),
    (("supply", "main_interrupting"), ("5 kA", "9 kA")),
    (("routes", 0, "conductors", "size"), ("14", "12", "6", "4", "1")),
    (("routes", 2, "conductors", "size"), ("14", "10", "8", "1", "2/0")),
    (("routes", 0, "conductors", "material"), ("al",)),
    (("routes", 0, "trade_size"), ("1/2",)),
    (("routes", 2, "trade_size"), ("1/2",)),
    (LENGTH, ("900 ft",)),
    (("equipment", "fastener"), ("demo-screw-10",)),
    (("equipment", "battery"), ("demo-wall-10",)),
    (("handling", "crew"), (1,)),
    (("wishes", "left"), ("1 ft", "4 ft", "8 ft", "9 ft", "12 ft 3 in", "18 ft")),
    (("wishes", "bottom"), ("2 in", "8 in", "3 ft 4 in", "5 ft")),
    (("wishes", "handle_height"), ("3 ft", "3 ft 6 in")),
    (("wishes", "keep_clear"), ("21 ft",)),
    (("wishes", "wall"), ("garage-north",)),
    (("walls", 0, "vehicle_path", "wall"), ("end wall",)),
    (("rooms", 0, "detection"), ("none", "smoke alarm, alone")),
    (("rooms", 0, "separated"), (False,)),
    (("panels", 1, "circuits", 3, "load"), ("2200 VA", "2800 VA")),
    (("panels", 1, "circuits", 1, "motor", "locked_rotor"), ("70 A",)),
    (("loads", "appliances", 0, "rating"), ("40 kVA",)),
    (("supply", "service"), ("100 A",)),
    (("panels", 0, "circuits", 9, "backed_up"), (True,)),
    (("supply", "electrode_conductor", "size"), ("8",)),
    (("walls", 0, "obstacles", 1, "left"), ("58 in", "64 in")),
    (("walls", 0, "obstacles", 2, "left"), ("52 in",)),
)
"""A word of the demo job and values that one trade or another refuses."""
CHOSEN = re.compile(
    r"equipment\.[a-z_]+|wishes\.(wall|left|bottom|handle_height|keep_clear)|handling\.crew|loads\.charging_limit"
    r"|backup\.transfer|supply\.(main|main_interrupting|main_bonding|service|busbar)|rooms\.[^.]+\.(detection|separated)"
    r"|walls\.[^.]+\.(vehicle_path\.protection(_distance)?|build_up\.lining(_thickness)?"
    r"|obstacles\.[^.]+\.left)|supply\.electrode_conductor\.size"
    r"|routes\.[^.]+\.(trade_size|conductors\.(size|material))|panels\.[^.]+\.circuits\.[^.]+\.(breaker|backed_up|spaces|source_output)"
    r"|panels\.[^.]+\.(source_position|busbar|main|spaces|free_spaces|state|neutral_bonded|breaker_interrupting"
    r"|short_circuit_rating|surge_protection)"
)
"""What a remedy may change: what is chosen, wished, put in or exchanged. The facts of the place stay as surveyed."""


TWICE: dict[tuple[str | int, ...], tuple[str | int, ...]] = {("panels", 0, "busbar"): ("supply", "busbar")}
"""Words that say one fact at a second place: both are spoilt, or the file contradicts itself."""


def spoilt(text: str, path: tuple[str | int, ...], value: str | int | bool) -> str:
    text = put(text, path, value)
    return put(text, TWICE[path], value) if path in TWICE else text


def damaged(seed: int) -> str:
    """The demo job with one to three words spoilt."""
    chance = random.Random(seed)
    text = DEMO
    for path, values in chance.sample(DAMAGES, chance.randint(1, 3)):
        text = spoilt(text, path, chance.choice(values))
    return text


def planned(folder: Path, text: str) -> JobPlan:
    (folder / "job.toml").write_text(text, "utf-8")
    return make_plan(folder)


def written(text: str, remedy: Remedy) -> str:
    for word in remedy.change.words:
        text = put(text, word.path, word.plain)
    return text


def verdicts(plan: JobPlan) -> dict[str, Verdict]:
    return {check.id: check.verdict for check in plan.ledger if check.open}


@pytest.mark.parametrize("seed", range(CASES))
def test_every_remedy_written_into_the_file_clears_its_checks_and_opens_none(seed: int, tmp_path: Path) -> None:
    text = damaged(seed)
    plan = remedied(planned(tmp_path, text))
    before = verdicts(plan)
    told = [text for check in plan.ledger for text in check.remedies]
    assert set(told) <= {remedy.text for remedy in plan.remedies}
    for remedy in plan.remedies:
        after = planned(tmp_path, written(text, remedy))
        still = verdicts(after)
        assert not set(remedy.clears) & set(still)
        assert set(still) <= set(before)
        assert all(before[id] == "fail" for id, verdict in still.items() if verdict == "fail")
        for path, _ in remedy.change.words:
            if isinstance(path[-1], int):
                assert path[:1] == ("controls",) or path[:1] + path[2:3] == ("panels", "circuits")
                continue
            assert CHOSEN.fullmatch(dotted(plan.survey.raw, path))


def test_damage_is_done_and_all_but_the_longest_run_has_a_remedy(tmp_path: Path) -> None:
    harmless = 0
    for path, values in DAMAGES:
        plan = remedied(planned(tmp_path, spoilt(DEMO, path, values[0])))
        harmless += not plan.ledger.open
        if path != LENGTH:
            assert all(check.remedies for check in plan.ledger.open)
    assert harmless <= 4


def test_where_no_part_fits_no_remedy_is_made_up(tmp_path: Path) -> None:
    plan = plan_of(tmp_path, (LENGTH, "900 ft"))  # the wire that it asks for goes into no terminal at hand
    drop = plan.ledger["wiring.voltage-drop/battery-1"]
    assert (drop.verdict, drop.remedies) == ("fail", ())


def plan_of(folder: Path, *changes: tuple[tuple[str | int, ...], str | int | bool]) -> JobPlan:
    text = DEMO
    for path, value in changes:
        text = spoilt(text, path, value)
    return remedied(planned(folder, text))


def test_the_least_step_is_taken(tmp_path: Path) -> None:
    plan = plan_of(tmp_path, ((*BATTERY, "breaker"), "15 A"))
    rating = plan.ledger["wiring.device-rating/battery-1"].remedies
    assert rating[0] == 'put in a breaker of 30 A (job.toml: panels.backup.circuits.battery.breaker = "30 A")'
    plan = plan_of(tmp_path, (("routes", 0, "trade_size"), "1/2"), (("routes", 0, "conductors", "size"), "8"))
    fill = plan.ledger["wiring.raceway-fill/battery-1/battery-run"].remedies
    assert fill[0] == 'run a raceway of trade size 3/4 (job.toml: routes.battery-run.trade_size = "3/4")'


def test_two_changes_are_told_together_where_one_is_not_enough(tmp_path: Path) -> None:
    plan = plan_of(tmp_path, ((*BATTERY, "breaker"), "15 A"), (("routes", 0, "conductors", "size"), "14"))
    (rating, *_) = plan.ledger["wiring.device-rating/battery-1"].remedies
    assert rating.startswith("put in a breaker of 30 A, and run conductors of size 10 (")


def test_a_unit_on_other_things_is_moved_the_least_way(tmp_path: Path) -> None:
    plan = plan_of(tmp_path, (("wishes", "left"), "9 ft"))
    (first, *_) = plan.ledger["siting.studs/battery-1"].remedies
    assert first == 'move the unit 1 ft 2-1/2 in right (job.toml: wishes.left = "10 ft 2-1/2 in")'


def test_where_the_job_speaks_mm_a_remedy_does(tmp_path: Path) -> None:
    plan = plan_of(tmp_path, (("wishes", "left"), "2743.2 mm"))
    (first, *_) = plan.ledger["siting.studs/battery-1"].remedies
    assert re.fullmatch(r'move the unit [\d.]+ mm right \(job.toml: wishes.left = "[\d.]+ mm"\)', first)


def test_a_circuit_too_many_on_the_backup_is_left_in_the_panel_where_it_is(tmp_path: Path) -> None:
    plan = plan_of(tmp_path, (("panels", 1, "circuits", 3, "load"), "2800 VA"))
    (first, *_) = plan.ledger["backup.capacity"].remedies
    assert first.startswith("leave off the backup, in the panel where it is now: Kitchen and hall lights (")
    (remedy, *_) = [each for each in plan.remedies if each.text == first]
    after = read(written(put(DEMO, ("panels", 1, "circuits", 3, "load"), "2800 VA"), remedy)).survey
    assert after is not None
    (kept,) = [each for each in after.job.panels[0].circuits if each.id == "kitchen-lights"]
    assert (kept.spaces, kept.moved_from, kept.backed_up) == ((23,), None, False)
    assert "kitchen-lights" not in [each.id for each in after.job.panels[1].circuits]


def test_a_new_panel_too_small_is_chosen_larger(tmp_path: Path) -> None:
    small = DEMO.replace("spaces = 12\nfree_spaces = 4\n", "spaces = 6\n")
    for space in range(1, 7):
        small = small.replace(f"\nspaces = [{space}]\nbreaker", "\nbreaker")
    plan = remedied(planned(tmp_path, small.replace("spaces = [10, 12]\n", "")))
    assert plan.ledger["wiring.panel-spaces/backup"].verdict == "fail"
    (first, *_) = plan.ledger["wiring.panel-spaces/backup"].remedies
    assert first == "choose a backup panel with 8 spaces (job.toml: panels.backup.spaces = 8)"


def test_a_job_without_failures_is_not_searched(tmp_path: Path) -> None:
    plan = planned(tmp_path, DEMO)
    assert not plan.ledger.open
    assert remedied(plan) is plan


def test_a_missing_fact_has_no_remedy(tmp_path: Path) -> None:
    plan = plan_of(tmp_path, (("supply", "fault_current"), "not known"), (("walls", 0, "height"), "not known"))
    missing = [check for check in plan.ledger if check.verdict == "cannot tell"]
    assert missing
    assert not any(check.remedies for check in missing)


def test_the_same_job_has_the_same_remedies(tmp_path: Path) -> None:
    first, second = (remedied(planned(tmp_path, damaged(7))).remedies for _ in range(2))
    assert first == second


def test_a_change_is_tried_as_the_file_would_say_it() -> None:
    survey = read(DEMO).survey
    assert survey is not None
    for path, values in DAMAGES:
        ways = [path, *([TWICE[path]] if path in TWICE else [])]
        tried = changed(survey, [(way, values[-1]) for way in ways])
        assert tried is not None
        assert tried == read(spoilt(DEMO, path, values[-1])).survey
    assert changed(survey, [(("panels", 0, "busbar"), "150 A")]) is None  # [supply] says another one
    assert changed(survey, [(("wishes", "wall"), None)]) == read(put(DEMO, ("wishes", "wall"), None)).survey
    assert changed(survey, [(("wishes", "left"), "a long way")]) is None
    assert changed(survey, [(("wishes", "wall"), "nowhere")]) is None


def test_another_sheet_is_taken_from_the_folder_of_the_job(tmp_path: Path) -> None:
    sheet = resources.files("standfast.equipment").joinpath("sheets", "demo-breaker.toml").read_text("utf-8")
    weak = sheet.replace('"10 kA"', '"5 kA"').replace('id = "demo-breaker"', 'id = "weak"')
    (tmp_path / "sheets").mkdir()
    (tmp_path / "sheets" / "weak.toml").write_text(weak, "utf-8")
    plan = plan_of(tmp_path, (("equipment", "breaker"), "weak"))
    check = plan.ledger["wiring.interrupting-rating/battery-1/breaker"]
    assert check.verdict == "fail"
    assert 'equipment.breaker = "demo-breaker"' in check.remedies[0]
    real = put(put(DEMO, ("equipment", "breaker"), "weak"), ("job", "invented"), value=False)
    assert not remedied(planned(tmp_path, real)).ledger[check.id].remedies  # an invented sheet is no way out
