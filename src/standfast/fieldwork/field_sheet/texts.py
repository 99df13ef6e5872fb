"""The same text in every language of the crew."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from standfast.commissioning.limit import Limit
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.work_order import WorkOrder

Data = dict[str, Any]
Text = dict[str, str]
"""A text by language."""
Orders = Mapping[str, WorkOrder]
"""The work order in each language; steps, numbers and limits are the same in all."""


def each(orders: Mapping[str, Any], told: Callable[[Any], str]) -> Text:
    """A text from what is there once for each language."""
    return {language: told(one) for language, one in orders.items()}


def lines(by_language: Mapping[str, Sequence[str]]) -> list[Text]:
    """Lines that stand in the same order in every language."""
    first = next(iter(by_language.values()))
    return [{language: found[place] for language, found in by_language.items()} for place in range(len(first))]


def said(plan: Plan, languages: Sequence[str], key: str, /, **parts: object) -> Text:
    """A text of the catalogue."""
    return {language: plan.in_language(language).say(key, **parts) for language in languages}


def limit_data(bounds: Sequence[Limit], text: Text, source: Text | None) -> Data | None:
    """A limit with the same one in other units under `also`; None where a reading is compared with nothing."""
    found: list[Data] = [one._asdict() for one in bounds]
    return {**found[0], "also": found[1:], "text": text, "source": source} if found else None
