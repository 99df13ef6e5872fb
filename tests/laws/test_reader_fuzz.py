"""Broken files: whatever is done to a job or a data sheet, the readers give faults with a place, never a traceback."""

import os
import random
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from standfast import equipment, survey
from standfast.equipment.read import shipped
from standfast.faults import Fault
from standfast.foreman.demo import DEMOS, job_text
from standfast.survey import firm

CASES = int(os.environ.get("STANDFAST_CASES", "1000"))
"""How many damaged files each reader gets: `make oracle` asks for 10,000."""
JOBS = [job_text(name) for name in DEMOS]
SHEETS = list(shipped().values())
FIRMS = re.findall(
    r"```toml\n(.*?)```", (Path(__file__).parents[2] / "docs" / "firm-file.md").read_text("utf-8"), re.DOTALL
)
JUNK = [
    "", "0", "-1", "1e999", "nan", "true", "[]", "{}", "[[1]]", '""', '"not known"', '"3"', '"3 ft"', '"-3 ft"',
    '"1/0 in"', '"3 lightyears"', '"5 kW"', '"° °"', "2026-13-45", "2026-05-04", "'''", '"""', "[", "]", "{", "}",
    "=", "#", "\\", "\x00", "\ufeff", "\r", '"\\uD800"', '"\\u0000"', "9" * 40, '"' + "9" * 60 + ' ft"', "é",
    "'garage-east'", '"Garage East"', "a.b = 1", "[job]", "[[walls]]", "[walls]", "[[job]]", "[walls.build_up]",
    "x" * 3000, "[" * 60, "[" * 2000, "9" * 5000, '{ a = { b = [ { c = 1 } ] } }',
]  # fmt: skip
Read = Callable[[str], tuple[object, list[Fault]]]
READERS: list[tuple[Read, list[str]]] = [
    (lambda text: survey.read(text, "job.toml"), JOBS),
    (lambda text: equipment.read(text, "sheet.toml"), SHEETS),
    (lambda text: firm.read(text, "firm.toml"), FIRMS),
]


def damaged(chance: random.Random, texts: list[str]) -> str:
    """Some tables of some files, changed in a few places."""
    tables = [table for text in texts for table in re.split(r"\n\n(?=\[|#)", text)]
    head = chance.choice(texts).split("\n\n[", 2)
    text = "\n\n".join(["\n\n[".join(head[:2]), *chance.sample(tables, min(len(tables), chance.randint(1, 6)))])
    for _ in range(chance.randint(1, 5)):
        text = chance.choice(CHANGES)(chance, text)
    return text


def _anywhere(chance: random.Random, text: str) -> str:
    at = chance.randint(0, len(text))
    return text[:at] + chance.choice(JUNK) + text[at + chance.choice([0, 0, 1, 5, 80]) :]


def _value(chance: random.Random, text: str) -> str:
    rows = text.split("\n")
    places = [number for number, row in enumerate(rows) if "=" in row]
    if places:
        number = chance.choice(places)
        rows[number] = rows[number].partition("=")[0] + "= " + chance.choice(JUNK)
    return "\n".join(rows)


def _word(chance: random.Random, text: str) -> str:
    words = re.findall(r"\w+", text)
    return text.replace(chance.choice(words), chance.choice([*words, *JUNK]), chance.randint(1, 3)) if words else text


def _rows(chance: random.Random, text: str) -> str:
    rows = text.split("\n")
    one, two = chance.randrange(len(rows)), chance.randrange(len(rows))
    rows[one] = rows[two] if chance.random() < 0.7 else ""
    return "\n".join(rows)


CHANGES = [_anywhere, _value, _value, _word, _rows]


def sound(read: Read, text: str) -> bool:
    """Reads and checks that each fault can be shown; true where something was understood."""
    found, faults = read(text)
    rows = text.split("\n")
    for fault in faults:
        assert fault.line in range(1, len(rows) + 1), fault
        assert fault.column in range(1, len(rows[fault.line - 1]) + 2), fault
        assert fault.what, fault
        assert str(fault).isprintable(), fault
    assert found is not None or faults
    assert len(set(faults)) == len(faults)
    assert [fault.line for fault in faults] == sorted(fault.line for fault in faults)
    return found is not None


@pytest.mark.parametrize("which", [0, 1], ids=["job", "sheet"])
def test_damaged_files_give_faults_and_no_traceback(which: int) -> None:
    read, texts = READERS[which]
    understood = sum(sound(read, damaged(random.Random(number), texts)) for number in range(CASES))
    # The damage must be of both kinds, or the fuzzer tests nothing.
    assert 0.1 * CASES < understood < CASES


@given(st.text(max_size=200))
def test_any_text_gives_faults_and_no_traceback(text: str) -> None:
    for read, _ in READERS:
        sound(read, text)


TREES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-5, 10**25)
    | st.floats()
    | st.text(max_size=5)
    | st.sampled_from(["3 ft", "not known"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["id", "kind", "left", "at", "x"]), inner, max_size=3)
    ),
    max_leaves=8,
)


@given(
    st.dictionaries(
        st.sampled_from(["schema", "job", "walls", "land", "panels", "kind", "steps", "body"]), TREES, max_size=4
    )
)
def test_any_tree_of_toml_gives_faults_and_no_traceback(tree: dict[str, object]) -> None:
    text = "".join(f"{key} = {toml(value)}\n" for key, value in tree.items())
    for read, _ in READERS:
        sound(read, text)


def toml(value: object) -> str:
    if isinstance(value, bool) or value is None:
        return str(bool(value)).lower()
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, list):
        return "[" + ", ".join(map(toml, value)) + "]"
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {toml(each)}" for key, each in value.items()) + " }"
    return "'" + "".join(letter for letter in str(value) if letter.isprintable() and letter != "'") + "'"
