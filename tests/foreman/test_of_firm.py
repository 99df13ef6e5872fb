"""The firm file: people, calibration, stock and prices reach the job; what is at odds is a fault with its place."""

import re
from pathlib import Path

import pytest

from standfast.cli import run
from standfast.design.choice.told import sentences
from standfast.faults import FaultsFound
from standfast.fieldwork.own_things import owned
from standfast.fieldwork.tools import tools
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import papers, sitework
from standfast.foreman.plan import JobPlan, make_plan
from standfast.survey.firm import new, read

PAGE = (Path(__file__).parents[2] / "docs" / "firm-file.md").read_text("utf-8")
FIRM = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)[0]
METER = '\n[[tools]]\nid = "meter"\nkind = "multimeter"\n'


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return write_demo("one-wall", tmp_path / "house")


def planned(job: Path, firm: str, words: str = "") -> JobPlan:
    folder = job.parent / "firm"
    folder.mkdir(exist_ok=True)
    (folder / "firm.toml").write_text(firm, "utf-8")
    if words:
        text = (job / "job.toml").read_text("utf-8")
        (job / "job.toml").write_text(text.replace("[contractor]\n", f"[contractor]\n{words}\n", 1), "utf-8")
    return make_plan(job, folder)


def verdict(plan: JobPlan, id: str) -> str:
    return next(check.verdict for check in plan.ledger if check.id == id)


def found(job: Path, firm: str, words: str = "") -> list[str]:
    with pytest.raises(FaultsFound) as raised:
        planned(job, firm, words)
    return [str(each) for each in raised.value.faults]


def test_the_example_of_the_page_has_no_fault_and_a_new_firm_file_neither() -> None:
    assert read(FIRM, "firm.toml").faults == []
    assert read(new("Our firm"), "firm.toml").faults == []


@pytest.mark.parametrize(
    ("until", "said"), [("2026-05-04", "pass"), ("2026-05-03", "fail"), ("", "cannot tell")], ids=str
)
def test_a_torque_tool_must_be_in_calibration_on_the_day_of_the_job(job: Path, until: str, said: str) -> None:
    line = f"calibrated_until = {until}" if until else ""
    plan = planned(job, FIRM.replace("calibrated_until = 2027-02-01", line))
    check = next(each for each in plan.ledger if each.id == "fieldwork.calibration/screwdriver-1")
    assert (check.verdict, check.clause.clause) == (said, "110.14(D)")


def test_a_torque_tool_that_no_joint_of_the_job_needs_is_not_asked_about(job: Path) -> None:
    far = FIRM.replace("5 lbf.in", "200 N.m").replace("60 lbf.in", "400 N.m")
    assert not [each for each in planned(job, far).ledger if each.id.startswith("fieldwork.calibration/")]


def test_an_instrument_without_a_date_cannot_be_told(job: Path) -> None:
    assert verdict(planned(job, FIRM + METER), "fieldwork.calibration/meter") == "cannot tell"


@pytest.mark.parametrize(("ends", "said"), [("2027-01-31", "pass"), ("2026-05-03", "fail")])
def test_the_licence_of_who_does_the_work_must_count(job: Path, ends: str, said: str) -> None:
    firm = FIRM.replace("licence_expires = 2027-01-31", f"licence_expires = {ends}")
    assert verdict(planned(job, firm, 'people = ["first"]'), "fieldwork.licence/first") == said


def test_a_job_without_a_licensed_person_cannot_be_told(job: Path) -> None:
    firm = FIRM.replace('role = "licensed electrician"', 'role = "helper"')
    assert verdict(planned(job, firm, 'people = ["first"]'), "fieldwork.licensed-person") == "cannot tell"


def test_the_contractor_is_filled_in_and_never_overruled(job: Path) -> None:
    text = (job / "job.toml").read_text("utf-8")
    (job / "job.toml").write_text(text.replace('phone = "555-0101"\n', ""), "utf-8")
    contractor = planned(job, FIRM, 'people = ["first"]').survey.job.contractor
    assert contractor.phone == "555-0101"
    assert contractor.responsible == "Licensed person of the invented firm"


def test_what_is_at_odds_is_told_with_both_sides(job: Path) -> None:
    faults = found(job, FIRM.replace('"C-00000"', '"C-11111"'), 'people = ["nobody-here"]')
    assert [re.search(r"job\.toml:\d+:\d+: ", each) is not None for each in faults] == [True, True]
    assert any('licence is "C-00000"' in each and "C-11111" in each for each in faults)
    assert any("nobody-here" in each for each in faults)


def test_sheets_that_are_not_there_are_faults_of_the_firm_file(job: Path) -> None:
    broken = FIRM.replace('sheet = "demo-lag-5-16"', 'sheet = "our-lag"').replace(
        "demo-lag-5-16 = 1.10", "our-screw = 1"
    )
    faults = found(job, broken + '\n[[aids]]\nsheet = "our-aid"\n')
    assert [name for name in ("our-lag", "our-screw", "our-aid") if any(name in each for each in faults)] == [
        "our-lag", "our-screw", "our-aid",
    ]  # fmt: skip
    assert all("firm.toml:" in each for each in faults)


def test_an_invented_firm_does_no_real_job(job: Path) -> None:
    text = (job / "job.toml").read_text("utf-8")
    (job / "job.toml").write_text(text.replace("invented = true\ndate", "invented = false\ndate", 1), "utf-8")
    assert any("is invented and the job is not" in each for each in found(job, FIRM))


def test_the_lists_name_the_own_tool_and_what_lies_in_the_store(job: Path) -> None:
    bare, ours = make_plan(job), planned(job, FIRM)
    assert "in stock" not in papers(bare).materials
    row = next(line for line in papers(ours).materials.splitlines() if "Lag screw 5/16" in line)
    assert "4 in stock, 3 to buy" in row


def test_a_unit_that_lies_in_the_store_is_not_bought(job: Path) -> None:
    ours = planned(job, FIRM + '\n[[stock]]\nsheet = "demo-wall-10"\ncount = 1\n')
    row = next(line for line in papers(ours).materials.splitlines() if "Wall Unit 10" in line)
    assert row.startswith("chosen equipment,") and "1 in stock, 0 to buy" in row
    bare = next(line for line in papers(make_plan(job)).materials.splitlines() if "Wall Unit 10" in line)
    assert "in stock" not in bare


def test_prices_of_the_firm_order_and_decide_nothing(job: Path) -> None:
    bare, ours = make_plan(job), planned(job, FIRM)
    own_tools = ("fieldwork.calibration", "fieldwork.torque-tools", "fieldwork.instrument")
    same = [(check.id, check.verdict) for check in ours.ledger if not check.id.startswith(own_tools)]
    assert same == [(check.id, check.verdict) for check in bare.ledger]


def test_dearer_prices_of_the_firm_make_no_larger_size_the_cheaper_one(job: Path) -> None:
    """The firm prices two sizes, at twice the invented list: the sizes that are chosen stay those of the bare list."""
    dear = FIRM.replace('"cu 10" = 0.58', '"cu 10" = 0.58\n\n[prices.raceway]\n"emt 1/2" = 2.0')
    dear = dear.replace("invented = true\n", "", 1)
    bare, ours = make_plan(job).design, planned(job, dear).design
    for one, other in zip(bare.wiring.circuits, ours.wiring.circuits, strict=True):
        assert one.conductor.size.word == other.conductor.size.word
        assert [tube.trade_size.word for tube in one.raceways] == [tube.trade_size.word for tube in other.raceways]
    told = " ".join(sentences(ours.choice))
    assert "The firm prices some sizes of conductor cu, raceway emt" in told
    assert "keep their proportion" not in " ".join(sentences(bare.choice))
    assert any(row.price is not None and not row.price.invented for row in ours.choice.best.rows)


def test_a_new_firm_file_is_never_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["new-firm", str(tmp_path / "ours")]) == 0
    assert run(["new-firm", str(tmp_path / "ours")]) == 2
    assert "firm.toml" in capsys.readouterr().err


def test_people_without_a_firm_file_cannot_be_told(job: Path) -> None:
    text = (job / "job.toml").read_text("utf-8")
    (job / "job.toml").write_text(text.replace("[contractor]\n", '[contractor]\npeople = ["first"]\n', 1), "utf-8")
    check = next(each for each in make_plan(job).ledger if each.id == "fieldwork.licensed-person")
    assert check.verdict == "cannot tell"
    assert "--firm" in check.reason


def test_the_firm_file_itself_names_its_folder(job: Path) -> None:
    planned(job, FIRM)
    assert make_plan(job, job.parent / "firm" / "firm.toml").firm is not None


def test_prices_of_nothing_that_is_sold_are_faults(job: Path) -> None:
    wrong = FIRM.replace('"cu 10" = 0.58', '"cooper 10" = 0.58') + '\n[prices.breaker]\n"W 25" = 51\n'
    faults = found(job, wrong)
    assert any('conductor has no "cooper 10"' in each for each in faults)
    assert any('there is no data sheet "W"' in each for each in faults)


def test_a_failed_calibration_says_both_dates_and_what_to_do(job: Path) -> None:
    plan = planned(job, FIRM.replace("calibrated_until = 2027-02-01", "calibrated_until = 2026-03-01"))
    (check,) = [each for each in plan.ledger if each.id == "fieldwork.calibration/screwdriver-1"]
    assert all(text in check.reason for text in ("2026-03-01", "2026-05-04", "take it off the list"))


@pytest.mark.parametrize(("aid", "said"), [("demo-wall-lift", "; ours"), ("demo-module-lift", "hire it")])
def test_the_tool_list_says_whose_the_lifting_aid_is(job: Path, aid: str, said: str) -> None:
    plan = planned(job, FIRM + f'\n[[aids]]\nsheet = "{aid}"\ncount = 1\n')
    assert plan.firm is not None
    site = sitework(plan)
    rows = [row for row in owned(site, tools(site), plan.firm.firm).rows if row.shelf == "lifting"]
    assert [row.use.endswith(said) for row in rows] == [True]
