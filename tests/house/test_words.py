"""Every text that the program says is in the catalogue of every language, with the parts that it names."""

import ast
import string
from collections.abc import Iterator
from pathlib import Path

from standfast.words import has, languages
from standfast.words.catalogue import keys

SRC = Path(__file__).parents[2] / "src" / "standfast"


def said() -> Iterator[tuple[str, str, set[str], bool]]:
    """Place, key, names of parts, and whether more parts come from a mapping."""
    for path in sorted(SRC.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            match node:
                case ast.Call(ast.Name("say") | ast.Attribute(_, "say"), [ast.Constant(str(key)), *_], words):
                    names = {word.arg for word in words if word.arg is not None}
                    yield f"{path.name}:{node.lineno}", key, names, any(word.arg is None for word in words)


def test_every_key_that_is_said_is_in_every_language() -> None:
    found = list(said())
    assert len(found) > 50
    for place, key, _, _ in found:
        for language in languages():
            assert has(key, language), f"{place}: {language} cannot say {key!r}"


def test_every_text_gets_the_parts_that_it_names() -> None:
    from standfast.words.catalogue import _texts

    for place, key, names, more in said():
        for language in languages():
            asked = {name for _, name, _, _ in string.Formatter().parse(_texts(language)[key]) if name}
            if not more:
                assert asked <= names, f"{place}: {key!r} names {asked - names}"


def test_languages_hold_the_same_keys() -> None:
    first, *others = languages()
    for other in others:
        assert keys(other) == keys(first)
