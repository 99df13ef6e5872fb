"""What a data sheet says in other languages: its own English text, and beside it what a crew reads instead.

A translation hangs on the text and not on the id of a step: where the English is changed, the old translation no longer
holds, and the English is printed until somebody translates it anew.
"""

import re
from collections.abc import Iterator
from typing import TypeVar

from standfast.faults import Fault
from standfast.reading import Document
from standfast.reading.quantities import Table, Text, shown

M = TypeVar("M", bound=Table)
_WORD = re.compile(r"[a-z]{2}")
_NUMBER = re.compile(r"\d+(?:[./]\d+)*")


class Translation(Table):
    """A text of this sheet in other languages."""

    text: Text
    """The English, word for word as it stands in the sheet."""
    es: Text | None = None
    """The same in Spanish, with the same numbers."""


def numbers(text: str) -> list[str]:
    """The numbers of a text, sorted; letters and marks of size that hold a digit count with theirs."""
    return sorted(_NUMBER.findall(text))


def wordless(text: str) -> bool:
    """True where nothing can be translated: ``L1, L2``."""
    return _WORD.search(text) is None


def other_numbers(document: Document[M], translations: tuple[Translation, ...]) -> Iterator[Fault]:
    """A fault for each translation with other numbers than its text."""
    for place, each in enumerate(translations):
        if each.es is not None and numbers(each.es) != numbers(each.text):
            what = f"{shown(each.es)} has other numbers than {shown(each.text)}"
            yield document.fault(("translations", place, "es"), what, "", "write the same numbers in both languages")
