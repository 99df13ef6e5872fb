"""Sentences of the design are found by their words and told in another language; what is not held is not guessed."""

import re

import pytest

from standfast.words.catalogue import keys, template
from standfast.words.said import translated

PART = re.compile(r"\{(\w+)\}")
SENTENCES = [key for key in keys() if key.startswith("said.")]


def same(part: str) -> str:
    return translated(part, "es", same) or part


@pytest.mark.parametrize("key", SENTENCES)
def test_every_sentence_is_found_by_its_own_words(key: str) -> None:
    names = PART.findall(template(key))
    words = {name: f"{number}7 kg" for number, name in enumerate(names, 1)}
    english = template(key).format_map(words)
    assert translated(english, "es", same) == template(key, "es").format_map(words)


def test_sentences_joined_by_a_semicolon_are_told_each() -> None:
    told = translated("one person's lifting index is 10.3; the maker asks for an aid", "es", same)
    assert told == "el índice de levantamiento de una persona es 10.3; el fabricante pide una ayuda"


def test_what_the_catalogue_does_not_hold_is_not_guessed() -> None:
    assert translated("The aid sings", "es", same) is None
    assert translated("the maker asks for an aid; the aid sings", "es", same) is None
    assert translated("the maker asks for an aid, often", "es", same) is None


def test_parts_are_told_too_and_their_numbers_stay() -> None:
    told = translated("done with this job: put in a surge-protective device at Backup panel", "es", same)
    assert told == "se hace con este trabajo: poner un protector contra sobretensiones en Backup panel"
    assert translated("There are enough people for the aid", "es", same) == "Hay gente suficiente para la ayuda"
