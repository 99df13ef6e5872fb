"""`standfast import` and `standfast export`, as they are called."""

from pathlib import Path

import pytest
from calling import Call


@pytest.fixture(autouse=True)
def own_data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The user's data folder is one of the test."""
    monkeypatch.setenv("STANDFAST_DATA", str(tmp_path / "data"))
    monkeypatch.delenv("STANDFAST_DATABASE", raising=False)
    return tmp_path / "data"


def test_a_job_goes_in_and_out(call: Call, job: Path, own_data: Path, tmp_path: Path) -> None:
    came = call("import", job)
    assert (came.code, came.err) == (0, "")
    assert came.out.startswith("imported: One wall, one unit (invented): 1 revision, ")
    id = (job / "job.id").read_text().strip()
    assert came.out.endswith(f"id: {id}\n")
    assert (own_data / "standfast.db").is_file()
    assert "nothing new" in call("import", job).out
    came = call("export", id[:8], tmp_path / "copy")
    assert (came.code, came.err) == (0, "")
    assert came.out.startswith(f"exported into {tmp_path / 'copy'}: One wall, one unit (invented): 1 revision, ")
    assert (tmp_path / "copy" / "job.toml").read_bytes() == (job / "job.toml").read_bytes()
    before, after = call("check", job), call("check", tmp_path / "copy")
    assert (before.code, before.out) == (after.code, after.out)


def test_another_database_is_named_by_its_address(call: Call, job: Path, own_data: Path, tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path}/firm.db"
    assert call("import", job, "--database", url).code == 0
    assert (tmp_path / "firm.db").is_file()
    assert not own_data.exists()
    id = (job / "job.id").read_text().strip()
    assert call("export", id, tmp_path / "copy", "--database", url).code == 0
    came = call("export", id, tmp_path / "other")
    assert came.code == 2
    assert f"0 jobs have the id {id}: there are: none" in came.err


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("import", "nowhere"), "there is no such file (name a folder with a job.toml)"),
        (("import", ".", "--database", "oracle://x"), "oracle is no database that is served"),
        (("export", "1"), "Missing argument 'FOLDER'"),
        (("export", "..", "copy"), "0 jobs have the id .."),
    ],
)
def test_a_call_that_cannot_be_done_is_told(
    call: Call, job: Path, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...], told: str
) -> None:
    monkeypatch.chdir(job)
    came = call(*arguments)
    assert came.code == 2
    assert told in came.err
    assert came.err.count("\n") == 1
