"""standfast proof."""

import json
from collections import Counter
from pathlib import Path

import click


@click.command(epilog="Example: standfast proof my-cases.json")
@click.argument("cases", nargs=-1, type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print every outcome as JSON.")
@click.option("--all", "every", is_flag=True, help="List the cases that agree too.")
def command(cases: tuple[Path, ...], as_json: bool, every: bool) -> int:
    """Run published cases against the calculators: those in CASES, or those that ship.

    Each case agrees, disagrees, or has no calculator. Exit code 1 if any disagrees.
    """
    from standfast.foreman.proving import prove_files

    outcomes = prove_files(list(cases))
    counts: Counter[str] = Counter(outcome.verdict for outcome in outcomes)
    if as_json:
        keys = ("file", "id", "method", "verdict", "ours", "expected", "source", "reason")
        rows = [{key: getattr(outcome, key) for key in keys} for outcome in outcomes]
        summary = {key: counts[word] for key, word in _WORDS.items()}
        click.echo(json.dumps({"schema": 1, "cases": rows, "summary": summary}, indent=1, ensure_ascii=False))
    else:
        for outcome in outcomes:
            if every or outcome.verdict == "disagrees":
                click.echo(f"{outcome.verdict:13} {outcome.id} {outcome.method} {outcome.reason}".rstrip())
                if outcome.verdict == "disagrees":
                    click.echo(f"              ours {outcome.ours}, published {outcome.expected} ({outcome.source})")
        click.echo(", ".join(f"{counts[word]} {word}" for word in _WORDS.values()) + f" of {len(outcomes)} cases")
    return 1 if counts["disagrees"] else 0


_WORDS = {"agrees": "agrees", "disagrees": "disagrees", "no_calculator": "no calculator"}
