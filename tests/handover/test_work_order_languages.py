"""The work order in two languages and two widths: identical numbers and clauses, hold points, pictures, one file."""

import re
from collections import Counter
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import NamedTuple

import pytest

from standfast.foreman.demo import DEMOS, write_demo
from standfast.foreman.pack import Papers, papers
from standfast.foreman.plan import make_plan
from standfast.handover.step_marks import Position
from standfast.paper.document import Document, HoldBar, Sheet, StepCard, Table, data
from standfast.paper.html import html

WHOLE = [name for name in DEMOS if name not in ("faulty", "failing", "half-surveyed")]
NUMBER = re.compile(r"\d+(?:[.,/-]\d+)*")
CLAUSE = re.compile(r"\b(?:NEC|NFPA|IRC|IFC|CFR|BS|AS/NZS|AS|IEC|UL)\b[^;,()]*?\d[\w.()/-]*")
NOT_READ = {"kind", "mark", "look", "size", "width", "widths", "name_mm", "tall", "right", "level", "height", "style"}


def texts(block: object) -> Iterator[str]:
    """Every text of a block that a person reads."""
    if isinstance(block, str):
        yield block
    elif isinstance(block, dict):
        yield str(block.get("text", ""))
    elif isinstance(block, tuple) and hasattr(block, "_asdict"):
        for name, value in block._asdict().items():
            if name not in NOT_READ and not (type(block).__name__ == "Picture" and name == "name"):
                yield from texts(value)
    elif isinstance(block, tuple | list):
        for each in block:
            yield from texts(each)


class Made(NamedTuple):
    papers: Papers
    english: Document
    spanish: Document
    names: frozenset[str]


def written(value: object) -> Iterator[str]:
    """Every text of a job file."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for each in value.values() if isinstance(value, dict) else value:
            yield from written(each)


@pytest.fixture(scope="module", params=WHOLE)
def made(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Made:
    folder: Path = tmp_path_factory.mktemp(request.param)
    plan = make_plan(write_demo(request.param, folder))
    found = papers(plan, ("es",))
    both = found.work_orders.documents
    names = {text for text in written(plan.survey.raw) if OF_THE_PROGRAM.search(text)}
    names |= {data.sheet.name for data in plan.sheets.values()}
    return Made(found, both["work-order"], both["work-order.es"], frozenset(names))


def test_both_languages_hold_the_same_numbers_and_clauses(made: Made) -> None:
    for english, spanish in zip(made.english.sheets, made.spanish.sheets, strict=True):
        assert english.code == spanish.code
        both = [" \n ".join(texts(each.blocks)) for each in (english, spanish)]
        numbers = [Counter(NUMBER.findall(each)) for each in both]
        assert numbers[0] == numbers[1], (english.code, numbers[0] - numbers[1], numbers[1] - numbers[0])
        clauses = [Counter(CLAUSE.findall(each)) for each in both]
        assert clauses[0] == clauses[1], english.code


def test_both_languages_have_the_same_steps_bars_and_pictures(made: Made) -> None:
    shapes = [
        [
            (
                type(each).__name__,
                getattr(each, "number", ""),
                len(getattr(each, "readings", ())),
                len(getattr(each, "pictures", ())),
            )
            for sheet in document.sheets
            for each in sheet.blocks
        ]
        for document in (made.english, made.spanish)
    ]
    assert shapes[0] == shapes[1]
    assert made.english.pictures.keys() == made.spanish.pictures.keys()


def test_what_is_not_translated_says_so(made: Made) -> None:
    """A step in English without the mark would be taken for a translation that went wrong."""
    cards = [each for sheet in made.spanish.sheets for each in sheet.blocks if isinstance(each, StepCard)]
    english = [each for sheet in made.english.sheets for each in sheet.blocks if isinstance(each, StepCard)]
    for card, other in zip(cards, english, strict=True):
        assert card.text != other.text
        for caution, said in zip(card.cautions, other.cautions, strict=True):
            assert caution != said
        if not card.text.startswith("Prepare el izaje"):  # its reason is worked out in English
            assert "(en inglés)" not in card.text, card.text  # invented sheets are translated whole


OF_THE_PROGRAM = re.compile(r"\b(is|are|before|after|each|not|from|who|must|when|where)\b", re.I)


def test_no_sentence_of_the_program_stands_in_english_unmarked(made: Made) -> None:
    """Of tables, lists and cards of every sheet. Names, and what the survey wrote, stand as they were written."""
    for sheet in made.spanish.sheets:
        for text in texts(sheet.blocks):
            if "(en inglés)" in text or "en inglés como en el equipo" in text:
                continue
            own = text
            for name in sorted(made.names, key=len, reverse=True):
                own = own.replace(name, "")
            assert OF_THE_PROGRAM.search(own) is None, (sheet.code, text)


def test_verdicts_are_told_in_the_language_of_the_paper(made: Made) -> None:
    words = [data(each)["words"] for each in (made.english, made.spanish)]
    assert [each["pass"] for each in words] == ["pass", "cumple"]
    page = html(made.spanish)
    assert not re.search(r">[✓×?–] (PASS|FAIL|CANNOT TELL|NOT APPLICABLE)<", page)
    assert ("✓ CUMPLE" in page) == ("✓ PASS" in html(made.english))


def steps(document: Document) -> Sheet:
    return next(each for each in document.sheets if each.code == "W8")


def test_a_second_person_looks_before_hands_reach_in_before_power_and_at_the_end(made: Made) -> None:
    blocks = steps(made.english).blocks
    bars = [place for place, each in enumerate(blocks) if isinstance(each, HoldBar)]
    assert len(bars) >= 4
    before = [next(each for each in blocks[place:] if isinstance(each, StepCard)) for place in bars]
    assert before[-1].text.startswith("Show the owner")
    torqued = [int(each.number) for each in blocks if isinstance(each, StepCard) and each.ticks]
    dead = next(bar for bar in bars if "read no voltage" in blocks[bar].text)  # type: ignore[union-attr]
    first = next(int(each.number) for each in blocks[dead:] if isinstance(each, StepCard))
    wired = [number for number in torqued if number >= first]
    assert wired, "no terminal is tightened behind the bar"
    power = next(bar for bar in bars if "All dead tests" in blocks[bar].text)  # type: ignore[union-attr]
    assert dead < power < bars[-1]


def test_pictures_say_in_words_what_they_show(made: Made) -> None:
    cards = [each for each in steps(made.english).blocks if isinstance(each, StepCard)]
    shown = [each for card in cards for each in card.pictures]
    assert any("OPEN, LOCKED" in each.description for each in shown)
    drilled = next(each for each in made.english.sheets if each.code == "W5").blocks
    assert any(each.description.startswith("Holes of") for each in shown) == any(
        isinstance(each, Table) for each in drilled
    )
    for each in shown:
        svg = made.english.pictures[each.name]
        assert svg.startswith("<svg") and each.description
    isolating = next(card for card in cards if "open, lock and tag" in card.text)
    told = "Switches and locks of this step: "
    switches = next(each.description for each in isolating.pictures if each.description.startswith(told))
    rows = switches.removeprefix(told).split("; ")
    assert all(row.rstrip(".").endswith("OPEN, LOCKED") for row in rows)


def test_a_lock_stays_where_it_is_until_it_is_taken_off() -> None:
    held = Position(closed=True, locked=False).turned("open").turned("lock")
    assert held == Position(closed=False, locked=True)
    assert held.turned("unlock").turned("close") == Position(closed=True, locked=False)


class Page(HTMLParser):
    """What the laws of the page are read from."""

    def __init__(self) -> None:
        super().__init__()
        self.levels: list[int] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.fetched: list[str] = []
        self.inputs: list[dict[str, str | None]] = []
        self.labelled: set[str] = set()
        self.in_label, self.within, self.marks = 0, set[int](), list[str]()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        self.marks.append(tag)
        if len(tag) == 2 and tag[0] == "h" and tag[1].isdigit():
            self.levels.append(int(tag[1]))
        self.ids += [str(found["id"])] if "id" in found else []
        self.links += [str(found["href"])] if tag == "a" else []
        self.fetched += [str(found[name]) for name in ("src", "srcset") if name in found] + [tag] * (tag == "link")
        self.in_label += tag == "label"
        if tag == "label" and found.get("for"):
            self.labelled.add(str(found["for"]))
        if tag == "input":
            self.inputs.append({**found, "inside": "yes" if self.in_label else None})
        if tag == "svg":
            assert found.get("role") == "img" and found.get("aria-label")

    def handle_endtag(self, tag: str) -> None:
        self.in_label -= tag == "label"


def test_the_page_is_one_file_with_names_for_everything(made: Made) -> None:
    for document in (made.english, made.spanish):
        text = html(document)
        page = Page()
        page.feed(text)
        assert f'<html lang="{document.language}"' in text
        assert not page.fetched and "@import" not in text and "url(http" not in text
        assert page.levels.count(1) == 1
        assert all(after - before <= 1 for before, after in zip(page.levels, page.levels[1:], strict=False))
        assert len(set(page.ids)) == len(page.ids)
        assert {"header", "nav", "main", "footer"} <= set(page.marks)
        assert all(link.startswith("#") and link[1:] in page.ids for link in page.links)
        for each in page.inputs:
            assert each["inside"] or each.get("aria-label") or each.get("id") in page.labelled, each
        for card in (each for sheet in document.sheets for each in sheet.blocks if isinstance(each, StepCard)):
            assert f'id="s{card.number}"' in text


def test_other_steps_keep_no_ticks_of_these(made: Made) -> None:
    def key(document: Document) -> str:
        found = re.search(r'data-key="(\w+)"', html(document))
        assert found is not None
        return found[1]

    sheet = steps(made.english)
    fewer = made.english._replace(sheets=[sheet._replace(blocks=list(sheet.blocks)[:-1])])
    assert key(made.english._replace(sheets=[sheet])) != key(fewer)
