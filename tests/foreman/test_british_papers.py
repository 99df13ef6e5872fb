"""The papers of the British demo: circuits, the operator's form, the papers that are asked, codes out of force."""

import csv
import json
from pathlib import Path

import pytest

from standfast.fieldwork.work_order import work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import Papers, pack, papers, sitework
from standfast.foreman.plan import JobPlan, make_plan
from standfast.paper.document import Document


def planned(folder: Path, *swaps: tuple[str, str]) -> JobPlan:
    path = write_demo("terrace", folder) / "job.toml"
    text = path.read_text("utf-8")
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new)
    path.write_text(text, "utf-8")
    return make_plan(folder)


def titles(document: Document) -> list[str]:
    return [each.title for each in document.sheets]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[JobPlan, Papers]:
    plan = planned(tmp_path_factory.mktemp("terrace"))
    return plan, papers(plan)


def test_the_set_has_the_circuits_and_the_notice(made: tuple[JobPlan, Papers]) -> None:
    found = titles(made[1].permit.document)
    assert {"Circuits", "Notice to the grid operator", "Labels", "One-line diagram"} <= set(found)
    missing = [each.document for each in made[1].permit.counter if each.answer == "missing"]
    assert missing == []


def test_nothing_is_left_undrawn_and_no_size_of_america_stands_on_the_one_line(made: tuple[JobPlan, Papers]) -> None:
    drawn = made[1].drawings["one-line schedule"].svg()
    assert "10 mm² + 4 mm²" in drawn
    assert "AWG" not in drawn
    assert drawn.count("conductors not known") == 1  # the cable of the PV that is there, which nobody surveyed


def test_both_diagrams_say_when_the_inverter_joins_neutral_and_earth(made: tuple[JobPlan, Papers]) -> None:
    one, three = (made[1].drawings[name].svg() for name in ("one-line", "three-line"))
    for shown, joined in ((one, "neutral and earth joined"), (three, "N and earth joined here")):
        assert shown.count(joined) == 1
        assert "while the grid is away" in shown[shown.index(joined) :].partition("</text>")[2].partition("</text>")[0]


def test_cables_are_bought_and_laid(made: tuple[JobPlan, Papers]) -> None:
    assert "90 °C thermosetting, armoured, 6 mm² with protective conductor 6 mm²" in made[1].materials


def test_the_form_is_written_as_data_and_as_rows(tmp_path: Path) -> None:
    out = tmp_path / "out"
    pack(planned(tmp_path))
    told = json.loads((out / "notification.json").read_text("utf-8"))
    assert told["procedure"] == "apply before connection"
    rows = list(csv.reader((out / "notification.csv").read_text("utf-8").splitlines()))
    assert [row[0] for row in rows[1:]] == [each["asked"] for each in told["fields"]]
    circuits = list(csv.DictReader((out / "circuits.csv").read_text("utf-8").splitlines()))
    assert [row["circuit"] for row in circuits] == ["battery-1", "backup-feeder"]
    assert float(circuits[0]["I_n A"]) == 32


def test_a_job_after_its_codes_were_withdrawn_is_told_so_on_the_cover(tmp_path: Path) -> None:
    late = planned(tmp_path, ('adoption = "uk"', 'adoption = "uk-2022"'))
    against = papers(late).permit.against
    assert against[0].startswith("the job is dated 2026-06-08, and these codes are in force from 2022-03-28 until")


def test_a_job_under_the_amendment_that_is_held_in_part_is_worked_out_as_far_as_it_goes(tmp_path: Path) -> None:
    plan = planned(
        tmp_path, ("date = 2026-06-08", "date = 2026-11-25"), ("licence_expires = 2027", "licence_expires = 2028")
    )
    assert plan.adoption.name == "uk-2026"
    told = {check.id: check.verdict for check in plan.ledger.open}
    assert told["wiring.unstated"] == "cannot tell"
    assert "fail" not in told.values()


def test_every_drawing_is_one_that_a_draughtsman_would_sign(made: tuple[JobPlan, Papers]) -> None:
    assert len(made[1].drawings) > 5
    for part, drawing in made[1].drawings.items():
        drawing.finish()
        assert drawing.flaws() == [], part


def test_in_every_order_of_the_work_hands_reach_in_after_the_proof_of_dead(made: tuple[JobPlan, Papers]) -> None:
    order = work_order(sitework(made[0]))
    assert order.unsafe == ()
    laid = [each.id for each in order.steps if each.id.startswith("job.run-")]
    assert laid == ["job.run-battery-run", "job.run-isolator-run", "job.run-backup-feeder"]
    seen = " ".join(reading.limit for each in order.steps for reading in each.readings)
    assert "line and neutral of the grid are open" in seen


def test_loops_and_residual_devices_are_tried_on_the_grid_and_on_the_inverter(made: tuple[JobPlan, Papers]) -> None:
    tests = {each.what: each for each in work_order(sitework(made[0])).tests}
    assert tests["Earth fault loop impedance: Fridge and kitchen sockets"].limit == "at most 1.748 ohm"
    tripping = tests["Tripping time of the residual device: Fridge and kitchen sockets"]
    assert [each.what for each in tripping.readings] == ["on the grid", "grid away"]
    assert tripping.limit == "at most 0.3 s"
    assert tests["Resistance of the earth electrode"].when == "connected"
    (volts,) = [each for each in tests.values() if each.what.startswith("Voltages")]
    assert [each.what for each in volts.readings] == ["L–N", "L–PE", "N–PE"]


def test_no_price_stands_for_circuits_that_no_price_chose(made: tuple[JobPlan, Papers]) -> None:
    (limits,) = [each for each in made[1].permit.document.sheets if each.code == "N1"]
    assert "USD" not in str(limits.blocks)
