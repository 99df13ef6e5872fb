"""Sentences that the design says in English, in another language: found among those of the catalogue by their words."""

import re
from collections.abc import Callable
from functools import cache

from standfast.words.catalogue import keys, say, template

SUBJECT = "said."
JOINED = "; "
WRITTEN = "written"
"""Name of a part that the survey wrote."""


def translated(text: str, language: str, inner: Callable[[str], str]) -> str | None:
    """An English sentence in another language; None where the catalogue does not hold it.

    Args:
        text: the sentence. Of several that are joined by a semicolon each must be held.
        language: two letters.
        inner: what is made of a part that the sentence names: a device, a number, another sentence.
    """
    for key, pattern in _patterns():
        found = pattern.fullmatch(text)
        if found is not None:
            return say(key, language, **{name: inner(part) for name, part in found.groupdict().items()})
    pieces = text.split(JOINED)
    if len(pieces) == 1:
        return None
    told = [translated(piece, language, inner) for piece in pieces]
    return None if None in told else JOINED.join(each for each in told if each is not None)


@cache
def _patterns() -> tuple[tuple[str, re.Pattern[str]], ...]:
    """Key and pattern of every sentence, those with the most words of their own first."""
    found = [(key, template(key)) for key in keys() if key.startswith(SUBJECT)]
    found.sort(key=lambda each: (-len(re.sub(r"\{\w+\}", "", each[1])), each[0]))
    return tuple((key, re.compile(_pattern(text))) for key, text in found)


def _pattern(text: str) -> str:
    """A text with its parts in braces as groups that match anything but the end of a sentence."""
    pieces = re.split(r"\{(\w+)\}", text)
    return "".join(re.escape(piece) if place % 2 == 0 else _part(piece) for place, piece in enumerate(pieces))


def _part(name: str) -> str:
    """What a part may be; what the survey wrote in its own words may be several sentences."""
    return f"(?P<{name}>.+)" if name == WRITTEN else f"(?P<{name}>(?:(?!{JOINED}).)+?)"
