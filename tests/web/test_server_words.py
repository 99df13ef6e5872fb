"""Every word of the office is said on a page, and every word that a page says is in the catalogue of every language."""

import re
from pathlib import Path

import pytest

from standfast.web.office import page
from standfast.words import has, languages
from standfast.words.catalogue import keys

ROOM = Path(page.__file__).parent
TEXT = "\n".join(path.read_text("utf-8") for path in [*ROOM.rglob("*.html"), *ROOM.glob("*.py")])
SAID = set(re.findall(r"""\bt\(\s*["']([a-z_]+)["']\s*[,)]""", TEXT))
PUT_TOGETHER = set(re.findall(r"""["']([a-z]+_)["'] ~""", TEXT))
OWN = {key.removeprefix("office.") for key in keys() if key.startswith("office.")}


def test_every_word_of_a_page_is_in_every_language() -> None:
    assert len(SAID) > 80
    assert not [
        f"{language}: {word}" for word in SAID for language in languages() if not has(f"office.{word}", language)
    ]


def test_every_word_is_said() -> None:
    assert {word for word in OWN - SAID if not any(word.startswith(each) for each in PUT_TOGETHER)} == set()


@pytest.mark.parametrize("beginning", sorted(PUT_TOGETHER))
def test_words_that_are_put_together_are_there(beginning: str) -> None:
    assert [word for word in OWN if word.startswith(beginning)]


def test_every_state_of_a_record_can_be_said() -> None:
    reasons = {
        "no value", "limit not readable", "wrong unit", "over range", "not a number", "uncertainty not readable",
        "near the limit", "too early", "not seen", "check failed", "no photo",
    }  # fmt: skip
    whys = {
        "step open", "step void", "step early", "step again", "hold open", "hold refused", "hold same person",
        "item open", "item part", "item disputed", "item fail", "item cannot tell", "tool fail", "tool cannot tell",
        "log gap", "log fork", "problem open",
    }  # fmt: skip
    words = {f"reason_{each}" for each in reasons} | {f"because_{each}" for each in whys}
    words |= {f"word_{each}" for each in ("pass", "fail", "cannot tell", "recorded")}
    assert not [each for each in words if not has(f"office.{each.replace(' ', '_')}")]
