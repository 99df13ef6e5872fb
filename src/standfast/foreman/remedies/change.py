"""What a remedy is made of: words of the job file with their new values, and ladders of changes."""

import json
from collections.abc import Iterable
from typing import NamedTuple

from standfast.reading.positions import Path
from standfast.sheet import Clause


class Entry(NamedTuple):
    """A new item of a list of the job file, as JSON, and what is told of it."""

    json: str
    told: str = "added as it was found"


New = str | bool | int | Entry | tuple[int, ...] | None
"""A new value; a tuple is a list of counts; None takes the word, or the item of a list, out of the file."""


class Word(NamedTuple):
    """A word of the job file, by keys and list numbers, and its new value."""

    path: Path
    value: New

    @property
    def plain(self) -> str | bool | int | list[int] | dict[str, object] | None:
        """The value as it is written into the file."""
        if isinstance(self.value, tuple) and not isinstance(self.value, Entry):
            return list(self.value)
        if not isinstance(self.value, Entry):
            return self.value
        table: dict[str, object] = json.loads(self.value.json)
        return table


class Change(NamedTuple):
    """A change that a person can really make.

    Attributes:
        says: what is done.
        words: the words of the job file that say so.
        work: word of the price list for the work and the parts that it brings; empty where it has none of its own.
    """

    says: str
    words: tuple[Word, ...]
    work: str = ""


class Ladder(NamedTuple):
    """Changes of one kind, from the least to the greatest.

    Attributes:
        changes: the steps.
        rising: true where every step beyond one that clears a check clears it too, so that it can be halved.
    """

    changes: tuple[Change, ...]
    rising: bool = False


class Remedy(NamedTuple):
    """A change that was tried: it clears checks and opens none.

    Attributes:
        change: what is changed.
        text: what to do, what to write where in the job file, and for a way out which clause allows it at what price.
        clears: ids of the checks that stood open and do not any more.
        clause: of a way out among several that the code gives, the one that allows it.
        more: of a way out, what it costs beyond the job as it is; None where no list prices it.
    """

    change: Change
    text: str
    clears: tuple[str, ...]
    clause: Clause | None = None
    more: float | None = None


def one(says: str, *words: tuple[Path, New]) -> Change:
    """A change of these words."""
    return Change(says, tuple(Word(*each) for each in words))


def with_(first: Change, second: Change) -> Change:
    """Two changes together."""
    return Change(f"{first.says}, and {second.says}", (*first.words, *second.words))


def apart(first: Change, second: Change) -> bool:
    """True where two changes touch no word in common, and neither moves the items of a list."""
    if any(isinstance(word.path[-1], int) for word in (*first.words, *second.words)):
        return False
    return not {word.path for word in first.words} & {word.path for word in second.words}


def ladder(changes: Iterable[Change], *, rising: bool = False) -> Ladder:
    """A ladder of these changes."""
    return Ladder(tuple(changes), rising)


def sentence(file: str, raw: object, change: Change) -> str:
    """``put in a breaker of 30 A (job.toml: panels.main.circuits.battery.breaker = "30 A")``.

    Args:
        file: name of the job file.
        raw: its plain data, for the ids of list items.
        change: the change.
    """
    return f"{change.says} ({file}: {'; '.join(_written(raw, word) for word in change.words)})"


def dotted(raw: object, path: Path) -> str:
    """A path as people write it: items of a list by their id, or by their number counted from 0."""
    parts: list[str] = []
    here = raw
    for part in path:
        if isinstance(here, dict):
            here = here.get(part)
        elif isinstance(here, list) and isinstance(part, int) and part < len(here):
            here = here[part]
            id = here.get("id") if isinstance(here, dict) else None
            parts.append(str(part) if id is None else str(id))
            continue
        else:
            here = None
        parts.append(str(part))
    return ".".join(parts)


def _written(raw: object, word: Word) -> str:
    name, value = dotted(raw, word.path), word.plain
    if isinstance(word.value, Entry) and isinstance(value, dict):
        return f"{dotted(raw, word.path[:-1])}.{value.get('id')} {word.value.told}"
    return f"{name} taken out" if value is None else f"{name} = {json.dumps(value, ensure_ascii=False)}"
