"""Turns what the model says about a faulty value into a Fault that a tradesperson can act on."""

import difflib
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from pydantic_core import ErrorDetails

from standfast.faults import Fault
from standfast.reading.help import annotation, homes_of, sentence, table_at, table_in, words_of
from standfast.reading.kinds import choices
from standfast.reading.positions import Index, Path
from standfast.reading.quantities import Table, shown

_KINDS: dict[str, tuple[str, str]] = {
    "string_type": ("text", 'write it in quotes, for instance "…"'),
    "bool_type": ("true or false", "write true or false, without quotes"),
    "int_type": ("a whole number", "write a whole number without quotes and without a unit"),
    "float_type": ("a number", "write a number without quotes and without a unit"),
    "tuple_type": ("a list", "write a list in square brackets: [ …, … ]"),
    "date_type": ("a date", "write year-month-day without quotes: 2026-05-04"),
    "model_type": ("a table", "write its words under a head in square brackets"),
    "model_attributes_type": ("a table", "write its words under a head in square brackets"),
    "finite_number": ("a number", "write a finite number"),
}


def complaints(
    file: str, errors: Sequence[ErrorDetails], model: type[Table], places: Index, unknown: frozenset[Path]
) -> Iterator[Fault]:
    """The faults of a file.

    Args:
        file: its name.
        errors: what the model says.
        model: the class of the whole file.
        places: the places of its words.
        unknown: paths that say "not known".
    """
    misspelt: set[Path] = set()
    for error in errors:
        path = error["loc"]
        if error["type"] == "extra_forbidden":
            near = _close(str(path[-1]), words_of(table_at(model, path[:-1])))
            misspelt.update((*path[:-1], each) for each in near)
            yield Fault(file, *places.word(path), *_stranger(str(path[-1]), path[:-1], model))
    for error in errors:
        path = error["loc"]
        if error["type"] == "missing" and path in unknown:
            what = f"{path[-1]} cannot be not known"
            yield Fault(file, *places.value(path), what, "other words hang on it", f"write {path[-1]}")
        elif error["type"] == "missing" and path not in misspelt:
            yield Fault(file, *places.word(path[:-1]), *_absent(path, model))
        elif error["type"] not in ("missing", "extra_forbidden"):
            ctx = error.get("ctx", {})
            yield Fault(file, *places.value(path), *_wrong(error["type"], ctx, word_of(path), error["input"]))


def _stranger(word: str, at: Path, model: type[Table]) -> tuple[str, str, str]:
    """A word that its table does not know: the nearest one it knows, or the tables that know this one."""
    known = words_of(table_at(model, at))
    near, homes = _close(word, known), homes_of(model, word)
    if near:
        advice = f"did you mean {near[0]}?"
    elif homes:
        advice = f"it belongs under {' or '.join(homes[:3])}"
    else:
        advice = f"known here: {', '.join(known)}" if known else "take it out"
    return f"{shown(word)} is not a word that is known here", "", advice


def _absent(path: Path, model: type[Table]) -> tuple[str, str, str]:
    """A word that must be there and is not."""
    *at, word = path
    name = word_of(tuple(at)) if at else "the file"
    if isinstance(word, int):
        return f"{name}: item {word + 1} is missing here", "", f"write {word + 1} of them"
    table = table_at(model, tuple(at))
    why = (sentence(table, word) or sentence(table, word + "_")).rstrip(".") if table else ""
    kind = annotation(table, word) if table else None
    if table_in(kind) is not None:
        return f"{name} has no [{word}]", why, f"add the table [{word}]"
    only = choices(kind)
    return f"{name} has no {word}", why, f"add {word} = {only[0] if len(only) == 1 else '…'}"


def _wrong(kind: str, ctx: Mapping[str, Any], word: str, raw: object) -> tuple[str, str, str]:
    text = shown(raw)
    if kind == "fault":
        return f"{word}: {ctx['what']}", str(ctx["why"]), str(ctx["todo"])
    if kind == "literal_error":
        known = [each.strip("'") for each in str(ctx["expected"]).replace(" or ", ", ").split(", ")]
        return f"{word}: {text} is not a word that is known here", "", nearest(str(raw), known)
    if kind == "string_pattern_mismatch":
        why = "other words refer to it"
        return f"{word}: {text} cannot be a name", why, "use small letters, digits and hyphens: garage-east"
    if kind in _KINDS or kind.endswith(("_type", "_parsing")):
        due, todo = _KINDS.get(kind, ("another kind of value", "see the reference of the file format"))
        return f"{word}: {text} is not {due}", "", todo
    limits = {"greater_than_equal": "ge", "greater_than": "gt", "less_than_equal": "le", "less_than": "lt"}
    if kind in limits:
        side = "at least" if kind == "greater_than_equal" else "above" if kind == "greater_than" else "at most"
        return f"{word}: {text} is out of range", f"it must be {side} {ctx[limits[kind]]}", "check the number"
    if kind in ("too_short", "too_long", "string_too_short", "string_too_long"):
        return f"{word}: it is {kind.removeprefix('string_').replace('_', ' ')}", "", _length(ctx)
    return f"{word}: {text} is not accepted", kind.replace("_", " "), "see the reference of the file format"


def _length(ctx: Mapping[str, Any]) -> str:
    if "min_length" in ctx:
        return f"write at least {ctx['min_length']}"
    return f"write at most {ctx.get('max_length', 'a few')}"


_FEW = 8
"""Known words that are all listed behind the nearest one."""


def nearest(word: str, known: list[str]) -> str:
    """Advice for a word that is not known: the nearest one, and what else there is where that is not much."""
    near = _close(word, known)
    listed = ", ".join(map(shown, known))
    if not near:
        return f"use one of {listed}"
    return f"did you mean {shown(near[0])}?" + (f" Known: {listed}" if len(known) <= _FEW else "")


def _close(word: str, known: list[str]) -> list[str]:
    """The nearest known word, if one is near or begins alike."""
    begins = [each for each in known if len(word) > 2 and (each.startswith(word) or word.startswith(each))]
    return difflib.get_close_matches(word, known, 1, 0.6) or begins[:1]


def word_of(path: Path) -> str:
    """A path as people write it, without list numbers, since the line tells them: ``walls.openings.left``."""
    return ".".join(shown(part, quote=False) for part in path if not isinstance(part, int))
