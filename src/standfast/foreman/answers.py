"""The verdicts of a job as plain data, one form for the command line and for the papers."""

import json

from standfast.foreman.plan import JobPlan
from standfast.sheet.printed import check_data


def answer(plan: JobPlan) -> dict[str, object]:
    """Job, adoption, every check with its working, and the counts; the form of ``schemas/check.json``."""
    return {
        "schema": 1,
        "job": plan.title,
        "adoption": plan.adoption.name,
        "checks": [check_data(check) for check in plan.ledger],
        "summary": plan.ledger.summary(),
    }


def as_json(data: object) -> str:
    """Data as text: one form, so that equal data give equal bytes."""
    return json.dumps(data, indent=1, ensure_ascii=False)
