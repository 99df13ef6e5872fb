"""What is still to be found out, ordered by how many verdicts hang on it."""

import re
from collections.abc import Iterable, Iterator
from typing import Literal, NamedTuple

from standfast.sheet.check import Check

Why = Literal["missing", "assumed", "other"]

_WORD = r"(?P<word>[a-z]\w*(?:\.[\w-]+)*): "
_FILE = r"(?P<file>\S+\.toml) (?:says that it is not known|does not say|has no )"
_NEED = re.compile(rf"(?:^|(?<=; )|(?<=: )){_WORD}{_FILE}(?:\. Find out and write there: .*?\.(?=; |$)|[^;]*)")
_HEAD = re.compile(rf"{_WORD}(?:{_FILE})?")
"""A need as `Document.fact` words it: the word of the file, the file, and what to find out."""


class Wanted(NamedTuple):
    """One thing to find out.

    Attributes:
        need: what, and where to put it.
        why: a fact is *missing*; or it was *assumed* and may not decide; or a rule or a part does not go so far.
        checks: ids of the checks that cannot be told for want of it.
        alone: those among them that lack nothing else and rest on no assumption: finding it out settles them.
        word: word of the file that takes it, dotted; empty where no single word does.
        file: name of that file; empty where it is not told.
    """

    need: str
    why: Why
    checks: tuple[str, ...]
    alone: tuple[str, ...]
    word: str = ""
    file: str = ""


def wanted(checks: Iterable[Check]) -> list[Wanted]:
    """What the checks that cannot be told lack, each word of a file once.

    Returns:
        First what most checks hang on, then what settles most by itself, then in the order of the checks.
    """
    rows: dict[tuple[str, str], Wanted] = {}
    for check in checks:
        if check.verdict != "cannot tell":
            continue
        lacks = {_key(need): Wanted(need, why, (), (), *_key(need, word_only=True)) for need, why in _lacks(check)}
        for key, lack in lacks.items():
            row = rows.get(key, lack)
            alone = (*row.alone, check.id) if len(lacks) == 1 and _firm(check) else row.alone
            rows[key] = row._replace(checks=(*row.checks, check.id), alone=alone)
    return sorted(rows.values(), key=lambda row: (-len(row.checks), -len(row.alone)))


def _lacks(check: Check) -> Iterator[tuple[str, Why]]:
    """What a verdict lacks: the roots of its values and the facts that its reason names, else what it says itself."""
    roots = [each.how for each in check.values() if each.missing and not any(part.missing for part in each.inputs)]
    facts = [*roots, *(found[0] for found in _NEED.finditer(check.reason))]
    doubtful = [] if facts else [each for each in check.assumptions() if each.how in check.reason]
    yield from ((need, "missing") for need in facts)
    yield from ((f"{each.symbol} was assumed: {each.how}", "assumed") for each in doubtful)
    if not facts and not doubtful:
        yield check.reason, "other"


def _firm(check: Check) -> bool:
    """False where an assumption that bounds stands beside what is lacking: whether it is enough is not known yet."""
    return not any(each.bounding for each in check.assumptions() if each.how not in check.reason)


def _key(need: str, *, word_only: bool = False) -> tuple[str, str]:
    """The word of a need and its file; the need itself where it begins with no word."""
    found = _HEAD.match(need)
    if found is None or ("." not in found["word"] and not found["file"]):
        return ("", "") if word_only else (need, "")
    return found["word"], found["file"] or ""
