"""The verdicts of a job as plain data, one form for the command line and for the papers."""

import json

from standfast.foreman.plan import JobPlan
from standfast.foreman.remedies.change import Remedy, dotted
from standfast.sheet.printed import check_data


def answer(plan: JobPlan) -> dict[str, object]:
    """Job, adoption, every check with its working, and the counts; the form of ``schemas/check.json``."""
    return {
        "schema": 1,
        "job": plan.title,
        "adoption": plan.adoption.name,
        "checks": [check_data(check) for check in plan.ledger],
        "summary": plan.ledger.summary(),
        "remedies": [_remedy(plan, each) for each in plan.remedies],
    }


def _remedy(plan: JobPlan, remedy: Remedy) -> dict[str, object]:
    """A remedy as data: a program that writes its changes into the job file does what the text says."""
    changes = [
        {"word": dotted(plan.survey.raw, word.path), "path": list(word.path), "value": word.plain}
        for word in remedy.change.words
    ]
    clause = None if remedy.clause is None else str(remedy.clause)
    return {
        "text": remedy.text, "changes": changes, "clears": list(remedy.clears), "clause": clause, "more": remedy.more,
    }  # fmt: skip


def as_json(data: object) -> str:
    """Data as text: one form, so that equal data give equal bytes."""
    return json.dumps(data, indent=1, ensure_ascii=False)
