"""Adapters that look up a limit of a code, or the look of a mark: (code, quantity) leads to a number on the shelf."""

from functools import cache
from importlib.resources import files
from typing import Any

import tomli

from standfast import shelf
from standfast.proof.endings import plain
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.methods import method


@method("code.limit")
def code_limit(case: Inputs) -> dict[str, Any]:
    """A number, or a set of numbers, that a code fixes without calculation."""
    return _looked_up("limit", case.word("code"), case.word("quantity"))


@method("label.spec")
def label_spec(case: Inputs) -> dict[str, Any]:
    """Size and look of a mark."""
    return _looked_up("label", case.word("standard"), case.word("label"))


@cache
def lookups() -> dict[str, dict[str, dict[str, dict[str, str]]]]:
    """The table: what is asked (``limit``, ``label``), the code, the quantity, then book, edition and keys."""
    return tomli.loads((files("standfast.proof") / "lookups.toml").read_text("utf-8"))


def _looked_up(kind: str, code: str, quantity: str) -> dict[str, Any]:
    try:
        entry = dict(lookups()[kind][code][quantity])
    except KeyError:
        raise BadCase(f"no {kind} is entered for {code!r} and {quantity!r}") from None
    held = shelf.edition(entry.pop("book"), entry.pop("edition"))
    return {name: plain(held.number(key), name) for name, key in entry.items()}
