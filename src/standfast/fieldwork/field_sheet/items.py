"""What a step asks to be recorded: readings, torques, marks, serial numbers, photos, times to watch."""

from collections.abc import Iterator, Sequence

from standfast.equipment.task import Step
from standfast.fieldwork.field_sheet.texts import Data, Orders, each, limit_data, said
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.steps import Reading, WorkStep
from standfast.reading.quantities import amount
from standfast.survey.firm import TORQUE


def items(plan: Plan, orders: Orders, place: int, tests: Sequence[Data]) -> list[Data]:
    """The items of a step, in the order in which they are filled in; its photo comes last.

    Args:
        plan: the job.
        orders: the work order in each language.
        place: of the step in it.
        tests: items of the tests that it does.
    """
    steps = {language: order.steps[place] for language, order in orders.items()}
    first = next(iter(orders.values()))
    step = first.steps[place]
    hides = any(hold.step == step.id and hold.kind == "cover" for hold in first.holds)
    found = [item for number in range(len(step.readings)) for item in _reading(steps, number)]
    return [*found, *tests, *_timer(plan, list(orders), step), *_photo(plan, list(orders), step, hides=hides)]


def _reading(steps: dict[str, WorkStep], number: int) -> Iterator[Data]:
    step = next(iter(steps.values()))
    asked = step.readings[number]
    if asked.kind == "tool":
        return  # a torque is recorded with its tool
    texts = {language: one.readings[number] for language, one in steps.items()}
    yield {
        "id": f"{step.id}/{number + 1}",
        "kind": _kind(asked),
        "what": each(texts, lambda one: one.what),
        "unit": asked.unit or (asked.bounds[0].unit if asked.bounds else ""),
        "count": asked.spaces,
        "limit": limit_data(asked.bounds, each(texts, lambda one: one.limit), None),
        "told": each(texts, lambda one: one.limit) if asked.limit and not asked.bounds else None,
        "tool_kind": sorted(TORQUE) if asked.kind == "torque" else [],
    }


def _kind(asked: Reading) -> str:
    if asked.kind:
        return asked.kind
    return "reading" if asked.unit else "mark"


def _timer(plan: Plan, languages: list[str], step: WorkStep) -> Iterator[Data]:
    """The time after which an indication is judged, or that a wait lasts, as the data sheet has it."""
    device = next((one for one in plan.devices if step.id.startswith(f"{one.id}.")), None)
    own = None if device is None else _own(device.sheet.steps, step.id.removeprefix(f"{device.id}."))
    if device is None or own is None:
        return
    shown = next((one for one in device.sheet.indications if one.id == own.indication), None)
    waits = own.does.time if own.does is not None and own.does.change == "wait" else None
    within = waits or own.within or (None if shown is None else shown.within)
    if within is None:
        return
    sheet = device.sheet
    what = (
        said(plan, languages, "record.wait_out")
        if shown is None or waits
        else {language: plan.in_language(language).told(sheet, shown.shows) for language in languages}
    )
    yield {
        "id": f"{step.id}/timer", "kind": "timer", "what": what, "unit": "s", "count": 1, "limit": None,
        "seconds": max(1, round(amount(within, "s"))), "judged": waits is None, "tool_kind": [],
    }  # fmt: skip


def _own(steps: Sequence[Step], id: str) -> Step | None:
    return next((one for one in steps if one.id == id), None)


def _photo(plan: Plan, languages: list[str], step: WorkStep, *, hides: bool) -> Iterator[Data]:
    """A photo where joints are about to be covered, and where the data sheet or an authority asks for one."""
    if not hides and plan.say("order.keep_photo") not in step.evidence:
        return
    why = "covered" if hides or step.puts_on else "maker" if step.source == "data sheet" else "authority"
    yield {
        "id": f"{step.id}/photo", "kind": "photo", "what": said(plan, languages, f"record.photo_{why}"), "unit": "",
        "count": 1, "limit": None, "why": why, "tool_kind": [],
    }  # fmt: skip
