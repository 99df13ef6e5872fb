"""The faulty demo, once its file is mended, fails rules of every trade."""

from importlib import resources
from pathlib import Path

from standfast.foreman.plan import make_plan

FAULTY = resources.files("standfast.foreman").joinpath("demos", "faulty", "job.toml").read_text(encoding="utf-8")


def mended() -> str:
    rows = FAULTY.split("\n")
    return "\n".join(row.partition("# mend:")[2].strip() if "# mend:" in row else row for row in rows)


def test_the_mended_demo_fails_in_every_trade(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(mended(), "utf-8")
    plan = make_plan(tmp_path)
    failed = {check.id.partition(".")[0] for check in plan.ledger if check.verdict == "fail"}
    assert {"siting", "anchorage", "load", "wiring", "backup", "lifting"} <= failed
    assert any(check.verdict == "cannot tell" for check in plan.ledger)
