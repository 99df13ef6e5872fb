"""The position index against a writer that knows where it put every word."""

from typing import Any

import pytest
import tomli
from hypothesis import given
from hypothesis import strategies as st

from standfast.reading.document import leaves
from standfast.reading.positions import Index, Path, Place, index, shifted

BARE = st.from_regex(r"[A-Za-z0-9_-]{1,6}", fullmatch=True)
QUOTED = st.sampled_from(['"a b"', "'c.d'", '"e\\"f"', '"#g"', '"h]"', "'i = 1'", '""'])
SCALARS = st.sampled_from([
    "1", "-2.5e3", "true", "inf", "1979-05-27T07:32:00Z", "1979-05-27 07:32:00", "07:32:00", '"plain"', "'single'",
    '"es\\"caped ] } #"', '""', "''", '"""many\n# no comment\n[nor head]"""', "'''raw\n\"\"\" = {'''", '"""two""""',
    "'''one''''", '"""es\\"""caped"""', '"""\n  trimmed \\\n   text"""',
])  # fmt: skip
GAPS = st.sampled_from(["", " ", "\n", " # [a] = {\n", "\n\n  # it's \"open\n  ", "\t"])
ROWS = st.sampled_from(["", "\n", "# comment = [\n", "   \n", "\t# [[x]]\n"])
TREES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(lambda items: ("list", items)),
        st.dictionaries(BARE | QUOTED, inner, max_size=3).map(lambda items: ("inline", items)),
    ),
    max_leaves=6,
)


class Writer:
    """Writes TOML and notes where each word and value begins."""

    def __init__(self, draw: Any) -> None:
        self.draw, self.text, self.heads = draw, "", set()
        self.words: dict[Path, Place] = {}
        self.values: dict[Path, Place] = {}

    def here(self) -> Place:
        before = self.text.rpartition("\n")
        return Place(self.text.count("\n") + 1, len(before[2]) + 1)

    def value(self, path: Path, tree: Any) -> None:
        self.values[path] = self.here()
        if isinstance(tree, str):
            self.text += tree
        elif tree[0] == "list":
            self.text += "["
            for number, item in enumerate(tree[1]):
                self.text += self.draw(GAPS)
                self.words[(*path, number)] = self.here()
                self.value((*path, number), item)
                self.text += self.draw(GAPS) + ","
            self.text += self.draw(GAPS) + "]"
        else:
            self.text += "{ "
            for number, (key, item) in enumerate(distinct(tree[1]).items()):
                self.text += ", " if number else ""
                self.pair(path, (key,), item)
            self.text += " }"

    def pair(self, path: Path, keys: tuple[str, ...], tree: Any) -> None:
        for number, key in enumerate(keys):
            self.text += " . " if number else ""
            path = (*path, plain(key))
            self.words.setdefault(path, self.here())
            self.values.setdefault(path, self.here())
            self.text += key
        self.text += self.draw(st.sampled_from(["=", " = ", "  =\t"]))
        self.value(path, tree)

    def pairs(self, path: Path, trees: dict[str, Any]) -> None:
        for key, tree in distinct(trees).items():
            self.text += self.draw(ROWS) + self.draw(st.sampled_from(["", "  "]))
            dotted = self.draw(st.booleans())
            self.pair(path, (key, "dot") if dotted else (key,), tree)
            self.text += self.draw(st.sampled_from(["\n", " # end ] }\n", "\n\n"]))

    def head(self, path: Path, keys: tuple[str, ...], *, many: bool, numbers: tuple[int, ...]) -> Path:
        """A head; `numbers` are list numbers to put behind the keys (-1 for none)."""
        self.text += self.draw(ROWS)
        start = self.here()
        self.text += ("[[" if many else "[") + " . ".join(keys) + ("]]" if many else "]") + "\n"
        way: Path = ()
        for key, number in zip(keys, numbers, strict=True):
            for step in ((plain(key),), (plain(key), number)) if number >= 0 else ((plain(key),),):
                here = (*way, *step)
                self.words.setdefault(here, start)
                self.values.setdefault(here, start)
            way = here
        return way


def plain(key: str) -> str:
    (found,) = tomli.loads(f"{key} = 1")
    return found


def distinct(trees: dict[str, Any]) -> dict[str, Any]:
    return dict({plain(key): (key, tree) for key, tree in trees.items()}.values())


@given(st.data())
def test_every_path_is_where_the_writer_put_it(data: st.DataObject) -> None:
    writer = Writer(data.draw)
    tables = st.dictionaries(BARE | QUOTED, TREES, max_size=3)
    writer.pairs((), data.draw(tables))
    for name in ("zz-one", '"zz two"'):
        for number in range(data.draw(st.integers(0, 2))):
            path = writer.head((), (name,), many=True, numbers=(number,))
            writer.pairs(path, data.draw(tables))
            for nth in range(data.draw(st.integers(0, 2))):
                inner = writer.head(path, (name, "zz-in"), many=True, numbers=(number, nth))
                writer.pairs(inner, data.draw(tables))
            if data.draw(st.booleans()):
                inner = writer.head(path, (name, "zz-tab", "zz-deep"), many=False, numbers=(number, -1, -1))
                writer.pairs(inner, data.draw(tables))
    if data.draw(st.booleans()):
        writer.pairs(writer.head((), ("zz-last",), many=False, numbers=(-1,)), data.draw(tables))
    tomli.loads(writer.text)
    assert index(writer.text) == Index(writer.words, writer.values)


@given(st.data())
def test_every_leaf_of_the_parsed_text_has_a_place(data: st.DataObject) -> None:
    writer = Writer(data.draw)
    writer.pairs((), data.draw(st.dictionaries(BARE | QUOTED, TREES, max_size=5)))
    places = index(writer.text)
    assert all(path in places.values for path, _ in leaves(tomli.loads(writer.text)))


def test_windows_line_ends_count_as_one() -> None:
    places = index('a = 1\r\n[b]\r\nc = ["x",\r\n  "y"]\r\n')
    assert places.words[("b", "c")] == Place(3, 1)
    assert places.values[("b", "c", 1)] == Place(4, 3)


def test_an_absent_word_is_placed_at_the_nearest_table() -> None:
    places = index("a = 1\n[b]\nc = 1\n")
    assert places.word(("b", "d", "e")) == Place(2, 1)
    assert places.word(("x",)) == Place(1, 1)


@pytest.mark.parametrize(
    ("way", "out", "left"),
    [
        (("walls", 2, "id"), ("walls", 1), ("walls", 1, "id")),
        (("walls", 1, "id"), ("walls", 1), ()),
        (("walls", 0, "id"), ("walls", 1), ("walls", 0, "id")),
        (("rooms", 2, "id"), ("walls", 1), ("rooms", 2, "id")),
        (("walls",), ("walls", 1), ("walls",)),
        (("walls", 2, "id"), ("walls", 1, "id"), ("walls", 2, "id")),
    ],
)
def test_later_items_move_up_when_one_is_taken_out(way: Path, out: Path, left: Path) -> None:
    assert shifted(way, out) == left
