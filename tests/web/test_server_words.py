"""Every word of the office is said on a page, and every word that a page says is in the catalogue of every language."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from firm import Firm

from standfast.web.office import page
from standfast.web.security.answers import in_words
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


KINDS = {
    "Refused", "TooOften", "NotNamed", "TooLarge", "WrongKind", "NotAllowed", "NotThere", "NoSheet", "Stopped",
}  # fmt: skip
FOR_PROGRAMMERS = {
    "A file is named by its SHA-256.", "JSON is taken here, as application/json.", "See /api/v1/openapi.json.",
    "It is Ed25519, 32 bytes in base64.", "Install standfast[passkeys].", "Start it with --name and its name.",
    "Start the server with --tsa https://…", 'Install them: pip install "standfast[timestamp]"', "Send it to that one.",
}  # fmt: skip
"""Said to who writes a program or starts the server; in English."""
SRC = ROOM.parents[1]


def refusals() -> Iterator[str]:
    """Every sentence that is refused with; of one with a number in it a sample."""
    places = [*(SRC / "foreman" / "office").glob("*.py"), *(SRC / "web").rglob("*.py"), SRC / "foreman/field_record.py"]
    for path in places:
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            match node:
                case ast.Call(ast.Name(name), words) if name in KINDS:
                    yield from (each.value for each in words if isinstance(each, ast.Constant) if each.value)
                case ast.Assign([ast.Name("_WHY")], ast.Dict(_, values)):
                    yield from (sample(each) for each in values)


def sample(node: ast.expr) -> str:
    match node:
        case ast.Constant(str(text)):
            return text
        case ast.JoinedStr(parts):
            return "".join(sample(each) for each in parts)
    return "12"


def test_what_is_refused_is_said_in_every_language() -> None:
    said = {text for text in refusals() if isinstance(text, str)}
    assert len(said) > 100
    same = {text for text in said - FOR_PROGRAMMERS if in_words(text, "es") == text}
    assert same == set()
    assert {text for text in said if in_words(text, "en") != text} == set()


def test_a_number_in_a_refusal_is_kept() -> None:
    assert in_words("Wait 15 minutes.", "es") == "Espere 15 minutos."
    assert (
        in_words("Something that nobody has put into Spanish.", "es") == "Something that nobody has put into Spanish."
    )


def test_a_refusal_reaches_the_tablet_in_its_language(firm: Firm) -> None:
    answer = firm.browser().get("/api/v1/jobs", headers={"Accept-Language": "es-US"})
    assert answer.json()["what"] == "Aquí no ha entrado nadie."
