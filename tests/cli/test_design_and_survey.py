"""The chosen design as data, and the list of what is still to be found out."""

import json
from pathlib import Path
from typing import Any

import pytest
from calling import Call, change
from test_answers import checked

from standfast.foreman.demo import write_demo
from standfast.units import feet_inches, show

UNKNOWN = ('fault_current = "9.4 kA"', 'fault_current = "not known"')


def test_the_design_of_the_demo_follows_its_schema_and_tells_every_part(call: Call, demo: Path) -> None:
    found = call("design", demo, "--json")
    assert (found.code, found.err) == (0, "")
    data = checked("design", found.out)
    (unit,) = data["units"]
    assert (unit["unit"], unit["wall"]) == ("battery-1", "garage-east")
    assert unit["left_mm"] > 0
    for part in ("circuits", "busbars", "fault_currents", "labels", "lifting", "existing"):
        assert data[part], part
    assert all(each["option"] is not None and each["verdict"] == "pass" for each in data["busbars"])
    assert data["summary"]["fail"] == data["summary"]["cannot_tell"] == 0


def test_what_the_work_brings_of_the_existing_house_is_listed_with_clause_and_price(call: Call, demo: Path) -> None:
    found = {each["id"]: each for each in checked("design", call("design", demo, "--json").out)["existing"]}
    directory = found["existing.circuit-directory/main"]
    assert (directory["state"], directory["work"]) == ("done with this job", ["panel worked on"])
    assert directory["price"] > 0 and directory["invented"]
    assert "existing.surge-protection/main" not in found, "this job does not bring it"
    text = call("design", demo).out
    assert "circuit directory at main: done with this job (NEC 2023 408.4(A); brought by: panel worked on)" in text


def test_the_design_agrees_with_the_checks(call: Call, demo: Path) -> None:
    data = checked("design", call("design", demo, "--json").out)
    checks = {each["id"]: each for each in checked("check", call("check", demo, "--json").out)["checks"]}
    unit = data["circuits"][0]
    assert unit["device_a"] == checks["wiring.device-rating/battery-1"]["demand"]["number"]
    assert unit["needed_a"] == checks["wiring.device-rating/battery-1"]["limit"]["number"]
    at = {each["at"]: each["ka"] for each in data["fault_currents"]}
    assert at["main"] == checks["wiring.interrupting-rating/main"]["demand"]["number"]
    least = {each["at"]: each["least_ka"] for each in data["fault_currents"]}
    assert least["battery-1/inverter"] == checks["wiring.fault-trips/battery-1"]["demand"]["number"]


def test_plain_text_tells_the_same(call: Call, demo: Path) -> None:
    plain = call("design", demo)
    data = checked("design", call("design", demo, "--json").out)
    assert (plain.code, plain.err) == (0, "")
    unit = data["units"][0]
    for told in (unit["wall"], unit["fixing"]["name"], *(each["wording"] for each in data["labels"])):
        assert told in plain.out
    assert all(row["name"] in plain.out for row in data["lifting"])
    assert "NOT TO BE BUILT" not in plain.out


def test_what_is_not_known_is_null_and_said(call: Call, job: Path) -> None:
    change(job / "job.toml", *UNKNOWN)
    found = call("design", job, "--json")
    data = checked("design", found.out)
    assert found.code == 1
    assert {each["ka"] for each in data["fault_currents"]} == {None}
    plain = call("design", job)
    assert "fault     not known at main" in plain.out
    assert "NOT TO BE BUILT" in plain.out


@pytest.mark.parametrize("name", ["stack-outdoors", "cabinet"])
def test_a_standing_unit_is_told_with_its_foot_and_an_inverter_with_its_wall(
    call: Call, tmp_path: Path, name: str
) -> None:
    job = str(write_demo(name, tmp_path / name))
    data = checked("design", call("design", job, "--json").out)
    (unit,) = data["units"]
    foot, inverter = unit["fixing"]["foot"], data["inverter"]
    assert len(foot["holes"]) == 4
    assert inverter["fixing"]["sheet"] == "demo-lag-5-16"
    assert inverter["fixing"]["foot"] is None
    plain = call("design", job).out
    assert f"inverter on {inverter['wall']}" in plain
    assert f"4 × {foot['name']} in the floor" in plain


def test_nothing_is_to_be_found_out_for_the_demo(call: Call, demo: Path) -> None:
    found = call("survey", demo)
    assert (found.code, found.err) == (0, "")
    assert found.out.splitlines()[-1].endswith("to find out: 0")
    assert checked("survey", call("survey", demo, "--json").out)["wanted"] == []


def surveyed(call: Call, job: Path) -> dict[str, Any]:
    found = call("survey", job, "--json")
    assert found.code == 1
    return checked("survey", found.out)


def test_what_most_verdicts_hang_on_comes_first_and_settles_them_when_it_is_found(call: Call, job: Path) -> None:
    change(job / "job.toml", *UNKNOWN)
    text = (job / "job.toml").read_text("utf-8")
    change(job / "job.toml", "crew = 2", 'crew = "not known"')
    data = surveyed(call, job)
    counts = [len(each["checks"]) for each in data["wanted"]]
    assert counts == sorted(counts, reverse=True)
    first = data["wanted"][0]
    assert first["need"].startswith("supply.fault_current: ")
    assert any(each["need"].startswith("handling.crew: ") for each in data["wanted"][1:])
    untold = json.loads(call("check", job, "--json").out)["checks"]
    open_ids = {each["id"] for each in untold if each["verdict"] == "cannot tell"}
    assert {id for each in data["wanted"] for id in each["checks"]} == open_ids
    assert len(open_ids) == data["cannot_tell"]
    (job / "job.toml").write_text(text.replace(UNKNOWN[1], UNKNOWN[0]), "utf-8")
    now = {each["id"]: each["verdict"] for each in json.loads(call("check", job, "--json").out)["checks"]}
    assert first["alone"]
    assert {now[id] for id in first["alone"]} == {"pass"}
    plain = call("survey", job)
    assert plain.code == 0


def test_the_plain_list_names_each_need_and_what_it_holds_up(call: Call, job: Path) -> None:
    change(job / "job.toml", *UNKNOWN)
    data, plain = surveyed(call, job), call("survey", job)
    assert plain.code == 1
    for each in data["wanted"]:
        assert f"{len(each['checks']):4}  {each['need']}" in plain.out
        assert all(id in plain.out for id in each["checks"])


def test_each_row_names_the_word_and_the_file_that_take_it(call: Call, job: Path) -> None:
    change(job / "job.toml", *UNKNOWN)
    change(job / "job.toml", 'first_stud = "14-1/2 in"', 'first_stud = "not known"')
    words = {each["word"]: each for each in surveyed(call, job)["wanted"]}
    assert words.keys() == {"supply.fault_current", "walls.garage-east.build_up.first_stud"}
    stud = words["walls.garage-east.build_up.first_stud"]
    assert {each["file"] for each in words.values()} == {"job.toml"}
    assert {"siting.studs/battery-1", "anchorage.wood-withdrawal/battery-1"} <= set(stud["checks"])


def test_the_documents_that_the_authority_asks_are_told_at_the_end(call: Call, job: Path) -> None:
    change(job / "job.toml", 'address = "12 Example Lane, Sampletown"\n', "")
    (job / "documents" / "battery-cut-sheet.pdf").unlink()
    found = call("survey", job)
    data = checked("survey", call("survey", job, "--json").out)
    assert (found.code, data["wanted"], data["cannot_tell"]) == (1, [], 0)
    application, sheet = data["documents"]
    assert "address of the site (address in [site])" in application["add"]
    assert sheet["add"] == "put battery-cut-sheet.pdf into the folder documents/"
    for each in data["documents"]:
        assert f"document  {each['document']}: {each['add']}" in found.out
    assert "documents missing: 2" in found.out.splitlines()[-1]
    assert "2 of the documents that the authority asks are missing" in call("pack", job).out


def test_a_telephone_that_nobody_stated_is_asked_for_and_not_engraved(call: Call, job: Path) -> None:
    change(job / "job.toml", 'responsible = "Licensed person of the invented firm"\nphone = "555-0101"\n',
           'responsible = "Licensed person of the invented firm"\n')  # fmt: skip
    (row,) = surveyed(call, job)["wanted"]
    assert (row["word"], row["alone"]) == ("contractor.phone", ["labels.emergency-telephone"])
    words = [each["wording"] for each in checked("design", call("design", job, "--json").out)["labels"]]
    assert any("EMERGENCY TELEPHONE ________" in each for each in words)
    assert not any("NOT KNOWN" in each for each in words)


def test_the_design_speaks_the_unit_of_the_job(call: Call, job: Path) -> None:
    left = checked("design", call("design", job, "--json").out)["units"][0]["left_mm"]
    assert f"{feet_inches(left)} ({show(left, 'mm')}) from its left end" in call("design", job).out
    text = (job / "job.toml").read_text("utf-8")
    (job / "job.toml").write_text(text.replace('length = "21 ft"', 'length = "6400.8 mm"'), "utf-8")
    assert f"on garage-east, {show(left, 'mm')} from its left end" in call("design", job).out
