"""Every language of the catalogue says the same: same keys, same parts, same numbers, and no word left in English."""

import re
from collections.abc import Iterator

import pytest

from standfast.equipment.model import Sheet
from standfast.equipment.read import read, shipped
from standfast.equipment.translated import numbers, wordless
from standfast.words import ENGLISH, OTHERS, languages, say
from standfast.words.catalogue import keys, template

PART = re.compile(r"\{(\w+)\}")
SMALL = re.compile(r"\b(the|and|of|with|is|are|to the|from|before|after|each|not)\b", re.IGNORECASE)
"""Words that no Spanish sentence holds."""
SAME = re.compile(r"EMT|IMC|THHN/THWN-2|XHHW(-2)?|THW")
"""Trade names that are the same everywhere."""


def test_the_languages_are_those_that_are_named() -> None:
    assert languages() == sorted((ENGLISH, *OTHERS))


@pytest.mark.parametrize("language", OTHERS)
def test_every_text_is_there_with_its_parts_and_its_numbers(language: str) -> None:
    assert keys(language) == keys(ENGLISH)
    for key in keys(ENGLISH):
        english, other = template(key, ENGLISH), template(key, language)
        assert sorted(set(PART.findall(english))) == sorted(set(PART.findall(other))), key
        assert numbers(PART.sub("", english)) == numbers(PART.sub("", other)), key


def test_no_english_is_left() -> None:
    for key in keys("es"):
        text, english = PART.sub("", template(key, "es")), PART.sub("", template(key, ENGLISH))
        assert SMALL.search(text) is None, (key, text)
        plain = re.sub(r"\W|\d|in\b", "", english)
        if len(plain) > 12 and not SAME.fullmatch(english):
            assert text != english, key


def test_a_text_without_translation_is_told_to_be_english() -> None:
    told = say("common.in_english", "es", text="Take it off.")
    assert told == "Take it off. (en inglés)"


def _texts(sheet: Sheet) -> Iterator[str]:
    for step in sheet.steps:
        yield from (step.text, *step.cautions, *step.states, *step.tools)
        for asked in step.reads:
            yield from (asked.what, asked.limit or "")
    for shown in sheet.indications:
        yield from (shown.shows, shown.meaning)
    for gate in (*sheet.gates, *sheet.sensors, *sheet.temporary):
        yield gate.name
    for zone in sheet.zones:
        yield zone.under or ""
    for part in (*sheet.parts, *sheet.terminals):
        yield part.name or ""
    for joint in sheet.joints:
        yield from (joint.name or "", *(joint.tool or "").split(" and "))
    for item in (*sheet.box.contents, *sheet.box.not_in_box):
        yield from (item.name, item.use or "")
    if sheet.link is not None:
        yield from (sheet.link.address_switch or "", sheet.link.terminator_switch or "")


@pytest.mark.parametrize("id", sorted(id for id in shipped() if id.startswith("demo-")))
def test_invented_sheets_are_translated_whole_and_no_translation_is_stale(id: str) -> None:
    found = read(shipped()[id], id).sheet
    assert found is not None
    asked = {text for text in _texts(found.sheet) if text and not wordless(text)}
    drives = {each.drive for each in (found.sheet.fastener, found.sheet.anchor) if each is not None and each.drive}
    there = {each.text for each in found.sheet.translations}
    assert there <= asked | drives
    if found.sheet.steps:
        assert asked <= there, asked - there


def test_other_numbers_in_a_translation_are_a_fault() -> None:
    text = shipped()["demo-lag-5-16"].replace('es = "dado hexagonal de 1/2 in"', 'es = "dado hexagonal de 3/4 in"')
    faults = read(text, "lag.toml").faults
    assert [each.what for each in faults] == ['"dado hexagonal de 3/4 in" has other numbers than "1/2 in hex socket"']
    assert faults[0].line > 1


@pytest.mark.parametrize("language", (ENGLISH, *OTHERS))
def test_the_words_of_metric_countries_stand_in_for_texts_that_there_are(language: str) -> None:
    """Each stands for a text of the base, and names no part that the base is not given but for those of breakers."""
    known = set(keys(language))
    others = [key for key in known if key.startswith("metric.")]
    assert len(others) > 60
    for key in others:
        base = key.removeprefix("metric.")
        assert base in known, key
        more = {"kind", "more"} if base == "materials.breaker" else set()
        assert set(PART.findall(template(key, language))) <= set(PART.findall(template(base, language))) | more, key


AMERICAN = re.compile(
    r"\b(ground(ed|ing)?|panel(board)?s?|raceway|utility|permit set|AWG|lbf|gypsum|service disconnect|lockout)\b", re.I
)


def test_the_words_of_metric_countries_are_not_american() -> None:
    parts = re.compile(r"\{\w+\}")
    for key in (key for key in keys() if key.startswith("metric.")):
        assert AMERICAN.search(parts.sub("", template(key))) is None, key
