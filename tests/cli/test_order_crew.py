"""The crew's day in what `standfast order` prints."""

from pathlib import Path

from calling import Call
from test_answers import checked

from standfast.foreman.demo import write_demo


def test_the_day_stands_in_the_data_and_respects_the_order(call: Call, tmp_path: Path) -> None:
    found = call("order", write_demo("terrace", tmp_path / "terrace"), "--json")
    data = checked("order", found.out)
    day, after = data["schedule"], {step["number"]: step["after"] for step in data["steps"]}
    times = {each["step"]: each for each in day["steps"]}
    assert times.keys() == after.keys()
    for number, waits in after.items():
        assert all(times[before]["free"] <= times[number]["start"] for before in waits)
        assert set(times[number]["people"]) <= set(day["people"])
    assert max(each["free"] for each in times.values()) == day["minutes"] == day["work_minutes"] >= day["least_minutes"]
    assert len(day["off"]) == 7 and {each["name"] for each in day["off"]} >= {"Boiler, pump and network", "Cooker"}
    for each in day["off"]:
        assert (times[each["opened_by"]]["start"], times[each["back_by"]]["end"]) == (each["start"], each["end"])
    text = call("order", tmp_path / "terrace").out
    assert "THE CREW'S DAY" in text and all(line in text for line in (*day["crew"], *day["owner"]))


def test_a_job_without_people_has_no_day_and_says_why(call: Call, tmp_path: Path) -> None:
    job = write_demo("terrace", tmp_path / "terrace")
    file = job / "job.toml"
    text = file.read_text("utf-8")
    assert text.count("\ncrew = 2\n") == 1
    file.write_text(text.replace("\ncrew = 2\n", "\n"), "utf-8")
    day = checked("order", call("order", job, "--json").out)["schedule"]
    assert (day["minutes"], day["steps"], day["off"], day["proven"]) == (None, [], [], False)
    assert "handling.crew" in day["crew"][0]
