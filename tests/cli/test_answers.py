"""The commands that answer: exit codes, plain lines, and JSON that follows its schema."""

import json
from pathlib import Path
from typing import Any

import pytest
from calling import Call, change
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from standfast.proof.run import shipped

SCHEMAS = Path(__file__).parents[2] / "src" / "standfast" / "cli" / "schemas"
FILES = {path.stem: json.loads(path.read_text("utf-8")) for path in SCHEMAS.glob("*.json")}
REGISTRY: Registry[Any] = Registry().with_resources(
    (f"{name}.json", Resource.from_contents(schema)) for name, schema in FILES.items()
)


def number_that_is_none(text: str) -> float:
    raise AssertionError(f"{text} is no number of JSON")


def checked(command: str, text: str) -> dict[str, Any]:
    """The data of an answer that follows the schema of its command."""
    data: dict[str, Any] = json.loads(text, parse_constant=number_that_is_none)
    Draft202012Validator(FILES[command], registry=REGISTRY).validate(data)
    return data


@pytest.mark.parametrize("name", FILES)
def test_a_schema_is_one_and_knows_a_wrong_answer(name: str) -> None:
    Draft202012Validator.check_schema(FILES[name])
    found = Draft202012Validator(FILES[name], registry=REGISTRY)
    assert not found.is_valid({"schema": 2})
    assert not found.is_valid({})


def test_check_of_the_demo_is_clean(call: Call, demo: Path) -> None:
    found = call("check", demo)
    assert (found.code, found.err) == (0, "")
    head, *_, counts = found.out.splitlines()
    assert "adoption us-2021" in head
    assert " 0 fail, 0 cannot be told" in counts
    data = checked("check", call("check", demo, "--json").out)
    assert f"{data['summary']['pass']} pass" in counts
    assert len(data["checks"]) == sum(data["summary"].values())


def test_all_lists_every_check_with_its_clause(call: Call, demo: Path) -> None:
    plain, every = call("check", demo), call("check", demo, "--all")
    data = checked("check", call("check", demo, "--json").out)
    assert len(plain.out.splitlines()) == 2
    for check in data["checks"]:
        assert check["id"] in every.out
        assert check["clause"] in every.out


def test_the_job_may_be_named_as_folder_or_file_or_be_the_current_folder(
    call: Call, demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = call("check", demo)
    assert call("check", demo / "job.toml") == folder
    monkeypatch.chdir(demo)
    assert call("check") == folder


def test_a_failing_check_gives_one_and_is_told_with_what_it_compared(call: Call, job: Path) -> None:
    change(job / "job.toml", 'fault_current = "9.4 kA"', 'fault_current = "30 kA"')
    found = call("check", job)
    assert (found.code, found.err) == (1, "")
    assert "FAIL" in found.out
    assert "kA ≤ 22 kA; margin −" in found.out
    assert "NEC 2023 110.9" in found.out
    again = call("check", job, "--json")
    assert again.code == 1
    data = checked("check", again.out)
    failing = [each for each in data["checks"] if each["verdict"] == "fail"]
    assert len(failing) == data["summary"]["fail"] > 0
    assert all(each["margin"] is None or each["margin"] < 0 for each in failing)


def test_a_missing_fact_is_never_a_pass(call: Call, job: Path) -> None:
    change(job / "job.toml", 'fault_current = "9.4 kA"', 'fault_current = "not known"')
    found = call("check", job, "--json")
    assert found.code == 1
    data = checked("check", found.out)
    untold = [each for each in data["checks"] if each["verdict"] == "cannot tell"]
    assert untold
    assert any("supply.fault_current" in each["reason"] for each in untold)
    assert all(each["reason"] for each in untold)


def test_explain_shows_the_working_of_the_checks_that_hold_the_text(call: Call, demo: Path) -> None:
    found = call("explain", demo, "wiring.interrupting")
    assert (found.code, found.err) == (0, "")
    assert "110.9" in found.out
    assert "job.toml:" in found.out
    assert "Weakest ground:" in found.out
    assert all(line == line.rstrip() for line in found.out.splitlines())
    data = checked("explain", call("explain", demo, "wiring.interrupting", "--json").out)
    assert all("wiring.interrupting" in each["id"] for each in data["checks"])
    assert all(each["id"] in found.out for each in data["checks"])
    for each in data["checks"]:
        assert all(step["line"] in found.out for step in each["working"])


def test_explain_answers_for_a_failing_job_too(call: Call, job: Path) -> None:
    change(job / "job.toml", 'fault_current = "9.4 kA"', 'fault_current = "30 kA"')
    assert call("explain", job, "wiring.interrupting").code == 0


def test_explain_of_no_check_names_near_ones(call: Call, demo: Path) -> None:
    found = call("explain", demo, "wiring.interupting-rating/battery")
    assert (found.code, found.out) == (2, "")
    assert "wiring.interrupting-rating/" in found.err
    assert "--all" in found.err
    assert call("explain", demo, "zzzz").err.count("\n") == 1


def case() -> dict[str, Any]:
    """A shipped case whose answer is one number."""
    for _, cases in shipped():
        for each in cases:
            if len(each["expected"]) == 1 and isinstance(next(iter(each["expected"].values())), float):
                return dict(each)
    raise AssertionError("no such case ships")


def test_proof_of_a_file_agrees_disagrees_or_knows_no_calculator(call: Call, tmp_path: Path) -> None:
    right, wrong, unknown = case(), case(), case()
    ((key, value),) = wrong["expected"].items()
    wrong |= {"id": "wrong", "expected": {key: value * 1.5}}
    unknown |= {"id": "unknown", "method": "of.nobody"}
    file = tmp_path / "cases.json"
    file.write_text(json.dumps([right, unknown]), "utf-8")
    found = call("proof", file)
    assert found == (0, "1 agrees, 0 disagrees, 1 no calculator of 2 cases\n", "")
    file.write_text(json.dumps([right, wrong, unknown]), "utf-8")
    found = call("proof", file)
    assert found.code == 1
    assert found.out.startswith("disagrees     wrong ")
    again = call("proof", file, "--json")
    assert again.code == 1
    data = checked("proof", again.out)
    assert data["summary"] == {"agrees": 1, "disagrees": 1, "no_calculator": 1}
    assert [each["verdict"] for each in data["cases"]] == ["agrees", "disagrees", "no calculator"]
    assert right["id"] in call("proof", file, "--all").out


def test_pack_writes_the_papers_and_tells_the_counter_list(call: Call, job: Path) -> None:
    found = call("pack", job, "--json")
    data = checked("pack", found.out)
    assert found.err == ""
    assert found.code == (0 if data["ready"] else 1)
    names = [Path(each).relative_to(job / "out").as_posix() for each in data["written"]]
    assert {"permit-set.pdf", "work-order.pdf", "materials.csv", "checks.json"} < set(names)
    assert any(name.startswith("drawings/") for name in names)
    assert all(Path(each).is_file() for each in data["written"])
    assert len(data["counter"]) > 5
    assert checked("check", (job / "out" / "checks.json").read_text("utf-8"))["summary"]["fail"] == 0


def test_a_set_with_something_open_is_not_ready(call: Call, job: Path) -> None:
    change(job / "job.toml", 'fault_current = "9.4 kA"', 'fault_current = "30 kA"')
    found = call("pack", job)
    assert found.code == 1
    assert "NOT READY TO SUBMIT: " in found.out
    assert found.out.startswith("Counter list:\n")


def test_the_demo_says_what_it_made_and_that_it_is_invented(call: Call, tmp_path: Path) -> None:
    found = call("demo", "--out", tmp_path / "demo")
    assert found.err == ""
    assert "invented" in found.out
    written = [line.split(maxsplit=1)[1] for line in found.out.splitlines() if line.split()[0] == "written"]
    assert all(Path(each).is_file() for each in written)
    assert found.code == (0 if "Ready for review." in found.out else 1)


def test_the_faulty_demo_gives_its_faults_and_writes_no_paper(call: Call, tmp_path: Path) -> None:
    found = call("demo", "faulty", "--out", tmp_path / "demo")
    assert (found.code, found.out) == (2, "")
    assert len(found.err.splitlines()) > 10
    assert not (tmp_path / "demo" / "out").exists()
