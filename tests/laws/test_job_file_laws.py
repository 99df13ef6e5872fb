"""Laws of both file formats: what is written is read back; templates, schema and reference know every word."""

import json
from collections.abc import Callable
from datetime import date
from functools import cache
from importlib import resources
from typing import Any, get_args

import jsonschema
import pytest
import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic.fields import FieldInfo

from standfast import equipment, survey
from standfast.equipment import schema as sheet_schema
from standfast.equipment.model import Kind, Sheet
from standfast.equipment.read import NEEDS, shipped
from standfast.reading.document import NOT_KNOWN, Document
from standfast.reading.help import sentence, table_in
from standfast.reading.kinds import bare, choices, is_list, measures
from standfast.reading.quantities import Of, Table
from standfast.reading.schema import every_table
from standfast.reading.write import put, write
from standfast.survey import schema as job_schema
from standfast.survey.firm import Firm
from standfast.survey.model import Job
from standfast.survey.write import new
from standfast.units import UNITS

GOOD = resources.files("standfast.foreman").joinpath("demos", "one_wall", "job.toml").read_text(encoding="utf-8")
DAY = date(2026, 5, 4)
Read = Callable[[str], Any]
FORMATS: list[tuple[type[Table], Read, dict[str, Any]]] = [
    (Job, survey.read, {"schema": 1}),
    (Sheet, lambda text: equipment.read(text, "x.toml"), {"schema": 1}),
]
WORDS = st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=8)


def value(field: FieldInfo) -> st.SearchStrategy[Any]:
    """Any value that a field takes, as TOML data."""
    return _value(field.annotation, tuple(field.metadata))


def _value(annotation: Any, metadata: tuple[Any, ...] = ()) -> st.SearchStrategy[Any]:
    kind = bare(annotation)
    inner = table_in(kind)
    if is_list(annotation):
        (*items,) = get_args(kind)
        if items[-1] is not Ellipsis:
            return st.tuples(*map(_value, items)).map(list)
        return st.lists(tables(inner) if inner else _value(items[0]), max_size=2)
    if inner is not None:
        return tables(inner)
    if choices(annotation):
        return st.sampled_from(get_args(kind))
    dimension = measures(annotation, metadata)
    if dimension:
        units = [name for name, unit in UNITS.items() if unit.dimension == dimension]
        return st.tuples(st.integers(1, 9000), st.sampled_from(units)).map(lambda pair: f"{pair[0]} {pair[1]}")
    if kind is bool:
        return st.booleans()
    if kind is int:
        return st.integers(0, 10_000)
    if kind is float:
        return st.floats(0, 1e6) | st.integers(0, 100)
    if kind is date:
        return st.dates()
    marks = [each for each in (*metadata, *get_args(annotation)) if "pattern" in repr(each)]
    return st.from_regex(r"[a-z0-9]{1,4}(-[a-z]{1,2})?", fullmatch=True) if marks else WORDS


@cache
def tables(table: type[Table]) -> st.SearchStrategy[dict[str, Any]]:
    """Any table of a class: optional words are absent, not known, or have a value."""
    due, free = {}, {}
    for name, field in table.model_fields.items():
        made = value(field)
        if field.is_required():
            due[field.alias or name] = made
        else:
            plain = table_in(field.annotation) is None
            free[field.alias or name] = made | st.just(NOT_KNOWN) if plain else made
    picked = st.lists(st.sampled_from(sorted(free)), max_size=4, unique=True) if free else st.just([])
    return st.builds(
        _some,
        st.fixed_dictionaries(due),
        picked.flatmap(
            lambda some: st.tuples(*(free[word].map(lambda made, word=word: (word, made)) for word in some))
        ),
    )


def _some(due: dict[str, Any], free: tuple[tuple[str, Any], ...]) -> dict[str, Any]:
    return {**due, **dict(free)}


@pytest.mark.parametrize("which", [0, 1], ids=["job", "sheet"])
@settings(max_examples=300)
@given(data=st.data())
def test_what_is_written_is_read_back(which: int, data: st.DataObject) -> None:
    model, read, _ = FORMATS[which]
    text = tomlkit.dumps(data.draw(tables(model)))
    document, faults = read(text)
    assert document is not None, faults
    again, more = read(write(document))
    assert again == document
    assert [fault.what for fault in more if "no TOML" in fault.what] == []


def test_the_demo_and_the_shipped_sheets_are_written_and_read_back() -> None:
    job, _ = survey.read(GOOD)
    assert job is not None
    assert survey.read(write(job)) == (job, [])
    for name, text in shipped().items():
        sheet, faults = equipment.read(text, f"{name}.toml")
        assert faults == []
        assert sheet is not None
        again, _ = equipment.read(write(sheet), f"{name}.toml")
        assert again == sheet


def test_a_document_differs_from_one_that_says_not_known() -> None:
    head = GOOD.replace("year_built = 1987", 'year_built = "not known"')
    absent = GOOD.replace("year_built = 1987\n", "")
    one, two = survey.read(head).survey, survey.read(absent).survey
    assert one is not None
    assert two is not None
    assert one.content == two.content
    assert one != two


@settings(max_examples=15)
@given(st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=10))
def test_one_word_is_put_and_everything_else_stays(name: str) -> None:
    text = put(GOOD, ("walls", 1, "obstacles", 0, "left"), "12 ft")
    text = put(text, ("owner", "name"), name)
    before, after = GOOD.split("\n"), text.split("\n")
    changed = [number for number, (a, b) in enumerate(zip(before, after, strict=True)) if a != b]
    assert len(changed) <= 2
    job, _ = survey.read(text)
    assert job is not None
    assert job.job.owner.name == name
    assert job.job.walls[1].obstacles[0].left.text == "12 ft"


def test_a_word_is_put_into_a_table_that_was_not_there_and_not_into_an_item_that_is_not() -> None:
    assert 'left = "3 ft"' in put("schema = 1\n", ("wishes", "left"), "3 ft")
    with pytest.raises(KeyError):
        put(GOOD, ("walls", 9, "id"), "x")
    with pytest.raises(KeyError):
        put(GOOD, ("walls", 0), "x")


def live(text: str) -> str:
    """A template with the # taken away from every word and head."""
    return "\n".join(
        row[1:] if row.startswith("#") and row[1:2] not in (" ", ":", "") else row for row in text.split("\n")
    )


def test_a_new_job_has_no_fault_and_holds_every_word_explained() -> None:
    text = new('House "A" §', DAY, "us-2021")
    job, faults = survey.read(text)
    assert faults == []
    assert job is not None
    assert job.job.job.name == 'House "A" §'
    assert_holds_every_word(text, Job)


@pytest.mark.parametrize("kind", get_args(Kind))
def test_a_new_sheet_of_each_kind_asks_for_its_head_alone_and_holds_every_word_explained(kind: Kind) -> None:
    text = sheet_schema.new("my-sheet", kind)
    _, faults = equipment.read(text, "my-sheet.toml")
    asked = ("no invented", "maker is still the placeholder", "name is still the placeholder")
    assert [word in fault.what for word, fault in zip(asked, faults, strict=True)] == [True, True, True]
    filled = text.replace("#invented = true", "invented = true", 1).replace('"…"', '"Ours"', 2)
    sheet, faults = equipment.read(filled, "my-sheet.toml")
    assert faults == []
    assert sheet is not None
    assert sheet.sheet.kind == kind
    assert all(getattr(sheet.sheet, table) is not None for table in NEEDS[kind])
    assert_holds_every_word(text, Sheet)


def assert_holds_every_word(text: str, model: type[Table]) -> None:
    rows = set(live(text).split("\n"))
    for table in every_table(model):
        for name, field in table.model_fields.items():
            word = field.alias or name
            if table_in(field.annotation) is None:
                assert any(row.startswith(f"{word} = ") for row in rows), word
            else:
                assert any(row.strip("[]").rpartition(".")[2] == word for row in rows if row.startswith("[")), word
            assert sentence(table, name).split()[0] in text


@pytest.mark.parametrize("model", [Job, Sheet, Firm])
def test_every_word_has_a_sentence_and_every_table_a_line(model: type[Table]) -> None:
    for table in every_table(model):
        assert table.__doc__, table
        for name in table.model_fields:
            assert sentence(table, name).endswith("."), f"{table.__name__}.{name}"


@pytest.mark.parametrize("model", [Job, Sheet, Firm])
def test_every_example_that_a_sentence_ends_with_is_accepted(model: type[Table]) -> None:
    text = live(new("x", DAY, "us-2021") if model is Job else sheet_schema.new("x", "anchor"))
    read = survey.read if model is Job else (lambda text: equipment.read(text, "x.toml"))
    kinds = ("is not a word", "no unit", "measures", "is not a", "too small", "is no TOML")
    wrong = [str(fault) for fault in read(text).faults if any(kind in fault.what for kind in kinds)]
    assert wrong == []


@pytest.mark.parametrize("made", [job_schema.schema(), sheet_schema.schema()], ids=["job", "sheet"])
def test_the_schema_describes_every_word_and_takes_not_known_where_it_is_allowed(made: dict[str, Any]) -> None:
    json.dumps(made)
    for body in (*made["$defs"].values(), made):
        for word, given_ in body["properties"].items():
            assert given_["description"], word
            refers = "$ref" in json.dumps(given_)
            free = word not in body.get("required", [])
            allows = NOT_KNOWN in json.dumps({k: v for k, v in given_.items() if k != "description"}) or given_ == {
                **given_,
                "type": "string",
            }
            assert refers or not free or allows, word
        assert body["additionalProperties"] is False


def test_the_demo_agrees_with_the_schema() -> None:
    plain = json.loads(json.dumps(tomlkit.parse(GOOD).unwrap(), default=str))
    jsonschema.validate(plain, job_schema.schema())


def test_quantities_know_an_example_of_every_dimension() -> None:
    for dimension in {unit.dimension for unit in UNITS.values()}:
        from standfast.reading.quantities import EXAMPLES

        assert Of(dimension).read(EXAMPLES[dimension]).dimension == dimension


def test_documents_compare_with_documents_only() -> None:
    job = survey.read(GOOD).survey
    assert job is not None
    assert job != "job"
    assert isinstance(job, Document)
    assert len({job, survey.read(GOOD).survey}) == 1
