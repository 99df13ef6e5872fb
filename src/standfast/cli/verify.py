"""standfast verify."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from standfast.cli.printing import WORDS

if TYPE_CHECKING:
    from standfast.foreman.verifying import Finding, Report


@click.command(epilog="Example: standfast verify my-job")
@click.argument("record", type=click.Path(path_type=Path), default=".")
@click.option("--key", "keys", multiple=True, help="A public key that the office has of a device; may come again.")
@click.option(
    "--root", "roots", multiple=True, type=click.Path(path_type=Path),
    help="A file with a certificate of a time stamping authority that you trust, PEM; may come again.",
)  # fmt: skip
@click.option("--all", "every", is_flag=True, help="List what is told and harmless too.")
@click.option("--json", "as_json", is_flag=True, help="Print everything as JSON.")
def command(record: Path, keys: tuple[str, ...], roots: tuple[Path, ...], every: bool, as_json: bool) -> int:
    """Say what can be proven of a field RECORD, what was changed in it, and what nobody can tell.

    RECORD is a job folder, a record.ndjson, or an export as a zip; no server and no database is asked. What cannot be
    known is never ticked: that nothing was cut off the end of a log, for one, only a seal or another log can show.
    Exit code 0: nothing was changed and nothing is open; 1: something was, or cannot be told.
    """
    from standfast.foreman.verifying import verify_record

    report = verify_record(record, keys, roots)
    if as_json:
        click.echo(json.dumps(_data(report), indent=1))
    else:
        for line in _lines(report, every=every):
            click.echo(_shown(line))
    return 0 if report.word == "pass" else 1


def _shown(line: str) -> str:
    """A line without marks that do not show: a record from elsewhere could write over what the terminal shows."""
    return "".join(each if each.isprintable() else "?" for each in line)


def _lines(report: "Report", *, every: bool) -> Iterator[str]:
    yield f"record of job {report.job}" if report.job else "no record"
    for log in report.logs:
        key = "its key is known" if log.trusted else "its key is not vouched for"
        sealed = f", sealed to {log.sealed}" if log.sealed else ""
        yield f"log {log.dev}: {log.events} events to {log.last}, signed to {log.signed}{sealed}; {key}"
    for finding in report.findings:
        if every or finding.word != "pass":
            yield from _finding(finding)
    if report.state is None:
        yield "ready for handover: cannot tell, no field sheet of this record is at hand"
    elif report.state.ready:
        yield f"ready for handover: yes; state {report.state.hash}"
    else:
        yield "ready for handover: no"
        yield from (f"{'':14} {each['why']}: {each['what']}" for each in report.state.because)
    counts = _summary(report)
    yield f"{WORDS.get(report.word, report.word)}: {counts['fail']} changed or missing, {counts['cannot_tell']} open"


def _finding(finding: "Finding") -> Iterator[str]:
    where = f"{finding.file}:{finding.line}" if finding.line else finding.file
    event = f"log {finding.dev} event {finding.seq}" if finding.dev else ""
    yield f"{WORDS.get(finding.word, finding.word):14} {finding.kind}: {finding.what}"
    if where or event:
        yield f"{'':14} {', '.join(filter(None, (where, event)))}"
    yield f"{'':14} because: {finding.why}"
    if finding.todo:
        yield f"{'':14} what to do: {finding.todo}"


def _data(report: "Report") -> dict[str, object]:
    state = report.state
    return {
        "schema": 1,
        "job": report.job,
        "verdict": report.word,
        "logs": [log._asdict() for log in report.logs],
        "findings": [
            {
                "kind": each.kind, "verdict": each.word, "file": each.file, "line": each.line, "dev": each.dev,
                "seq": each.seq, "what": each.what, "why": each.why, "do": each.todo,
            }
            for each in report.findings
        ],
        "state": None if state is None else {
            "hash": state.hash, "ready": state.ready, "because": [dict(each) for each in state.because],
        },
        "summary": _summary(report),
    }  # fmt: skip


def _summary(report: "Report") -> dict[str, int]:
    words = [each.word for each in report.findings]
    return {word.replace(" ", "_"): words.count(word) for word in ("pass", "fail", "cannot tell")}
