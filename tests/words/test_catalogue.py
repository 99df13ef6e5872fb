"""The catalogue says what it is asked, and fails loudly where it cannot."""

import pytest

from standfast.words import has, languages, say


def test_parts_are_put_in() -> None:
    assert say("materials.coupling", raceway="EMT", size="3/4", wet="") == "EMT coupling 3/4 in"


def test_unknown_keys_parts_and_languages_are_errors() -> None:
    with pytest.raises(LookupError, match=r"materials\.nothing"):
        say("materials.nothing")
    with pytest.raises(LookupError, match="raceway"):
        say("materials.coupling")
    with pytest.raises(LookupError, match="no language"):
        say("materials.coupling", "xx")


def test_english_is_there() -> None:
    assert "en" in languages()
    assert has("order.rule")
    assert not has("order.nothing")
