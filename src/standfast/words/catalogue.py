"""Opens the catalogue: one folder a language, one TOML file a subject, one text a key.

A text may hold names in braces, which are replaced when it is said: ``"Drill {count} holes."``
"""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

import tomli

ENGLISH = "en"
OTHERS = ("es",)
"""Languages beside English in which papers of the crew are written."""


def say(key: str, language: str = ENGLISH, /, **parts: object) -> str:
    """A text of the catalogue.

    Args:
        key: subject and name: ``materials.bushing``.
        language: two letters. A text that it lacks is said in English, and marked as English.
        parts: what stands for the names in braces.

    Raises:
        LookupError: where there is no such text, or the text names a part that was not given.
    """
    texts = _texts(language)
    if key not in texts and language != ENGLISH:
        return texts["common.in_english"].format(text=say(key, **parts))
    try:
        return texts[key].format_map(parts)
    except KeyError as error:
        raise LookupError(f"the catalogue {language!r} cannot say {key!r}: {error} is not there") from None


def has(key: str, language: str = ENGLISH) -> bool:
    """True where the language holds the text."""
    return key in _texts(language)


def named(key: str, *, metric: bool) -> str:
    """The key of a text as it is said where a house has an earth and no ground; the same key where that is alike."""
    other = f"metric.{key}"
    return other if metric and has(other) else key


def languages() -> list[str]:
    """The languages of the catalogue."""
    return sorted(folder.name for folder in files("standfast.words").iterdir() if len(folder.name) == 2)


def template(key: str, language: str = ENGLISH) -> str:
    """A text as it stands in the catalogue, with the names of its parts in braces."""
    return _texts(language)[key]


def keys(language: str = ENGLISH) -> list[str]:
    """All keys of a language."""
    return sorted(_texts(language))


@cache
def _texts(language: str) -> Mapping[str, str]:
    folder = files("standfast.words") / language
    if not folder.is_dir():
        raise LookupError(f"the catalogue holds no language {language!r}")
    found: dict[str, str] = {}
    for path in sorted(folder.iterdir(), key=lambda each: each.name):
        if path.name.endswith(".toml"):
            found.update(_flat(path.name.removesuffix(".toml"), tomli.loads(path.read_text("utf-8"))))
    return found


def _flat(before: str, table: Mapping[str, Any]) -> dict[str, str]:
    found: dict[str, str] = {}
    for name, value in table.items():
        key = f"{before}.{name}"
        found.update(_flat(key, value) if isinstance(value, Mapping) else {key: str(value)})
    return found
