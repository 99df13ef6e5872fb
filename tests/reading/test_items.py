"""Items of lists in a text: taken out and added, with everything else as it was written."""

import pytest

from standfast.reading.write import put
from standfast.survey.read import changed, read

TEXT = '# a list\n[[walls]]\nid = "east" # the long one\n\n[[walls]]\nid = "north"\n\n[wishes]\nwall = "east"\n'


def test_an_item_is_taken_out_or_added_at_the_end() -> None:
    assert put(TEXT, ("walls", 1), None) == TEXT.replace('[[walls]]\nid = "north"\n\n', "")
    added = put(TEXT, ("walls", 2), {"id": "west", "length": "9 ft"})
    assert '[[walls]]\nid = "west"\nlength = "9 ft"\n' in added
    assert put(added, ("walls", 2), None).split() == TEXT.split()


def test_a_word_is_taken_out() -> None:
    assert put(TEXT, ("wishes", "wall"), None) == TEXT.replace('wall = "east"\n', "")
    assert put(TEXT, ("wishes", "left"), None) == TEXT


@pytest.mark.parametrize(("number", "value"), [(3, {"id": "west"}), (2, None), (0, {"id": "west"}), (0, "west")])
def test_what_is_no_item_is_refused(number: int, value: str | dict[str, object] | None) -> None:
    with pytest.raises(KeyError):
        put(TEXT, ("walls", number), value)


def test_the_first_item_of_a_list_that_is_not_there_begins_it() -> None:
    item: dict[str, object] = {"id": "surge", "what": "surge protection", "accepted": True}
    bare = '# kept\nschema = 1\n\n[job]\nname = "x"\ndate = 2026-05-04\nadoption = "us-2021"\n'
    written = put(bare, ("adders", 0), item)
    assert written.startswith(bare) and written.count("[[adders]]") == 1
    survey = read(bare).survey
    assert survey is not None
    assert changed(survey, [(("adders", 0), item)]) == read(written).survey
    assert changed(survey, [(("adders", 1), item)]) == survey, "there is no item before it"
