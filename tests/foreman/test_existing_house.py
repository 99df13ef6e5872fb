"""The existing house on the whole way: what lacks is told with its remedy, what is agreed is brought and done."""

from pathlib import Path

import pytest

from standfast.fieldwork.materials import materials
from standfast.fieldwork.work_order import work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import pack, sitework
from standfast.foreman.plan import JobPlan, make_plan
from standfast.foreman.remedies import remedied
from standfast.sheet import Check
from standfast.survey.write import put

OFFERS = "# What the work brings under the adopted code, offered with the job and agreed to by the owner.\n"


def planned(folder: Path, *changes: tuple[str, str], offers: bool = True) -> JobPlan:
    job = write_demo("one-wall", folder) / "job.toml"
    text = job.read_text("utf-8")
    if not offers:
        head, rest = text.split(OFFERS)
        text = head + rest[rest.index("# What the survey found") :]
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    job.write_text(text, "utf-8")
    return make_plan(folder)


def opened(plan: JobPlan) -> list[str]:
    return [check.id for check in plan.ledger.open]


def test_what_lacks_is_told_with_the_offer_that_clears_it(tmp_path: Path) -> None:
    plan = remedied(planned(tmp_path, offers=False))
    lacking = ["existing.circuit-directory/main", "existing.feeder-surge-protection/backup",
               "existing.carbon-monoxide-alarms"]  # fmt: skip
    assert opened(plan) == lacking
    for check in plan.ledger.open:
        (text,) = check.remedies
        assert "do it with this job, if the owner agrees: " in text and "USD, an invented price" in text
        assert "accepted = true" in text
    for remedy in plan.remedies:
        text = plan.folder.text
        for word in remedy.change.words:
            text = put(text, word.path, word.plain)
        (tmp_path / "job.toml").write_text(text, "utf-8")
        assert opened(make_plan(tmp_path)) == [id for id in lacking if id not in remedy.clears]


def test_a_declined_offer_and_an_open_danger_have_remedies(tmp_path: Path) -> None:
    plan = remedied(planned(
        tmp_path, ('at = "main"\naccepted = true', 'at = "main"\naccepted = false'),
        ('action = "with this job"', 'action = "left"'),
    ))  # fmt: skip
    found = {check.id: check for check in plan.ledger.open}
    assert set(found) == {"existing.circuit-directory/main", "existing.defect/hot-outlet"}
    assert "adders.directory.accepted = true" in found["existing.circuit-directory/main"].remedies[0]
    assert "defects.hot-outlet.action" in found["existing.defect/hot-outlet"].remedies[0]


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> JobPlan:
    return planned(tmp_path_factory.mktemp("job"))


def test_what_is_agreed_reaches_the_materials(demo: JobPlan) -> None:
    rows = materials(sitework(demo)).of("existing house")
    assert {row.use.partition(":")[0] for row in rows} == {
        "Main panel", "Backup panel", "dwelling", "living room, receptacle by the window"
    }  # fmt: skip
    assert not any("attic" in row.use for row in rows), "what is left is not brought"


def test_what_is_agreed_is_a_step_in_its_place(demo: JobPlan) -> None:
    order = work_order(sitework(demo))
    numbers = {id: number for id, number in order.numbers.items() if id.startswith("job.existing-")}
    assert len(numbers) == 4
    dead, restore = order.numbers["job.dead"], order.numbers["job.restore"]
    surge, defect = numbers["job.existing-feeder-surge-protection-backup"], numbers["job.existing-defect-hot-outlet"]
    assert dead < surge < order.numbers["job.check"] and dead < defect < order.numbers["job.check"]
    assert restore < numbers["job.existing-circuit-directory-main"] < order.numbers["job.handover"]
    texts = {step.id: step.text for step in order.steps}
    assert "Brown mark round one slot" in texts["job.existing-defect-hot-outlet"]
    assert all(text[0].isupper() and text.endswith(".") for id, text in texts.items() if id in numbers)


def test_an_offer_that_nothing_asks_is_still_done(tmp_path: Path) -> None:
    more = '[[adders]]\nid = "surge-main"\nwhat = "surge protection"\nat = "main"\naccepted = true\n\n[[documents]]'
    plan = planned(tmp_path, ('[[documents]]\nid = "cut-sheet-battery"', f'{more}\nid = "cut-sheet-battery"'))
    assert plan.ledger["existing.surge-protection/main"].verdict == "not applicable"
    uses = [row.use for row in materials(sitework(plan)).of("existing house")]
    assert uses.count("Main panel") == 2


def test_checks_of_existing_parts_are_asked_of_the_survey(tmp_path: Path) -> None:
    from standfast.sheet.wanted import wanted

    plan = planned(tmp_path, ("openings_closed = true\n", ""), ("metal_gas_pipe = true\n", ""))
    assert opened(plan) == ["existing.closed-openings/main"]
    (row,) = wanted(plan.ledger)
    assert "panels.main.openings_closed" in row.need


def test_no_verdict_of_an_existing_part_stands_without_a_reason_or_a_ground(demo: JobPlan) -> None:
    found: list[Check] = [check for check in demo.ledger if check.id.startswith("existing.")]
    assert len(found) == len(demo.design.existing.checks) > 15
    for check in found:
        assert check.reason if check.verdict == "not applicable" else check.basis != "survey", check.id


def test_a_breaker_with_arc_fault_protection_is_not_brought_twice(tmp_path: Path) -> None:
    offer = '[[adders]]\nid = "arc"\nwhat = "arc-fault protection"\nat = "kitchen-lights"\naccepted = true\n\n'
    plan = planned(
        tmp_path, ("# What the survey found", f"{offer}# What the survey found"),
        ('serves = ["kitchen", "hallway"]\nextended = "4 ft"', 'serves = ["kitchen", "hallway"]\nextended = "9 ft"'),
    )  # fmt: skip
    assert plan.ledger["existing.arc-fault/kitchen-lights"].verdict == "pass"
    rows = materials(sitework(plan)).rows
    assert [row.group for row in rows if "Kitchen and hall lights" in row.use] == ["existing house"]


def test_the_sheet_for_the_owner_is_packed(demo: JobPlan) -> None:
    packed = pack(demo)
    assert demo.folder.path / "out" / "existing-defects.pdf" in packed.paths


def test_an_offer_for_all_places_is_done_where_the_part_lacks_only(tmp_path: Path) -> None:
    offer = '[[adders]]\nid = "arc"\nwhat = "arc-fault protection"\naccepted = true\n\n'
    plan = planned(
        tmp_path, ("# What the survey found", f"{offer}# What the survey found"),
        ('serves = ["kitchen", "hallway"]\nextended = "4 ft"', 'serves = ["kitchen", "hallway"]\nextended = "9 ft"'),
    )  # fmt: skip
    done = [each.where for each in sitework(plan).extras if each.key == "arc_fault"]
    assert done == ["Kitchen and hall lights"]
