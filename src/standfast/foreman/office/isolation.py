"""What is unsafe or untested now, replayed from what was really done, under the plan of the newest revision."""

from collections import OrderedDict
from collections.abc import Mapping, Sequence
from hashlib import sha256
from pathlib import Path
from threading import Lock
from typing import Any

from standfast.fieldwork.record.causal import known
from standfast.fieldwork.record.event import Event
from standfast.fieldwork.record.state import State
from standfast.fieldwork.record.told_now import Orders, told_now
from standfast.fieldwork.work_order import work_order
from standfast.foreman.office import handing
from standfast.foreman.office.cabinet import Cabinet, Refused
from standfast.foreman.pack import sitework
from standfast.foreman.plan import JobPlan
from standfast.words import ENGLISH, OTHERS, say

MOST_KEPT = 8
"""Plans that are kept worked out; one takes seconds to make."""
AGAINST = ("untested", "again", "cannot tell")
"""Kinds of rows that stand against a seal."""
_KEPT: OrderedDict[str, Orders] = OrderedDict()
_TURN = Lock()


def unsafe_now(store: Cabinet, job: str, events: Sequence[Event], firm: Path | None) -> list[dict[str, Any]]:
    """What the replay tells, in every language; see `told_now`. Nothing before any step was done.

    Where the plan cannot be worked out that is what is told: nobody takes silence for safe.
    """
    told = known(events)
    if not any(each.type == "done" or each.data.get("done") is True for each in told.counting("done", "reading")):
        return []
    try:
        return told_now(told, _orders(store, job, firm))
    except Refused:
        unknown = {language: say("replay.unknown", language) for language in (ENGLISH, *OTHERS)}
        return [{"kind": "cannot tell", "step": "", "text": unknown}]


def unanswered(rows: Sequence[Mapping[str, Any]], state: State) -> list[Mapping[str, Any]]:
    """What of the replay stands against a seal: what is untested, has to be done again or is unsafe as it stands.

    Not what would be unsafe in a step to come, what was so once, nor a step that a second person answered for.
    """
    answered = {id for id, step in state.work["steps"].items() if step["override"]}
    found = [each for each in rows if each["kind"] in AGAINST or (each["kind"] == "now" and not each["step"])]
    return [each for each in found if each["step"] not in answered]


def _orders(store: Cabinet, job: str, firm: Path | None) -> Orders:
    revision = store.job(job)
    key = sha256(repr((job, revision.text, sorted(revision.files.items()), str(firm))).encode()).hexdigest()
    with _TURN:
        if key not in _KEPT:
            _KEPT[key] = handing.worked(store, job, firm, _in_languages)
            while len(_KEPT) > MOST_KEPT:
                _KEPT.popitem(last=False)
        _KEPT.move_to_end(key)
        return _KEPT[key]


def _in_languages(plan: JobPlan) -> Orders:
    site = sitework(plan)
    plans = {language: site.in_language(language) for language in (ENGLISH, *OTHERS)}
    return {language: (each, work_order(each)) for language, each in plans.items()}
