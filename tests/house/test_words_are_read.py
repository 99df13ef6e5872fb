"""A word of a file that nothing reads is a promise that nobody keeps: whoever writes it believes that it counts.

A word counts as read where the program names it: as an attribute, a keyword, or inside a text that is a path. Paths
that are put together from parts are told here.
"""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from standfast.equipment.model import Sheet
from standfast.reading.help import table_in
from standfast.reading.quantities import Table
from standfast.survey.firm import Firm
from standfast.survey.model import Job

SRC = Path(__file__).parents[2] / "src" / "standfast"
PUT_TOGETHER = {
    "Supply.metal_water_pipe": "supply.metal_{pipe}_pipe", "Supply.metal_gas_pipe": "supply.metal_{pipe}_pipe",
    "Room.ambient_low": "{room}.ambient_{end}",
    "Fixing.base_hole": "fixing.{'base_' if self.part == 'foot' else ''}{word}",
}  # fmt: skip
ON_RECORD = {
    "Source.checked_on", "Listing.statement",  # where the sheet has it from
    "Handling.carry", "Obstacle.ignition_source",
    "Electrical.power_factor", "DcPort.voltage_nominal",
    "DcPort.reverse_protected", "PvInput.current_max",
    "Body.handles", "Fixing.bracket_mass", "Fixing.level_within", "Joint.across_flats",
    "Environment.direct_sun", "Environment.altitude_max", "Environment.rated_ambient",
    "Aid.slope_max", "Aid.push_force",
}  # fmt: skip
"""Words that stand on record and that no check reads, see docs/limits.md. This list may only get shorter."""


def words(table: type[Table]) -> Iterator[tuple[str, str]]:
    """Table and word, and the words of every table inside."""
    waiting, seen = [table], set()
    while waiting:
        each = waiting.pop()
        if each in seen:
            continue
        seen.add(each)
        for name, field in each.model_fields.items():
            yield each.__name__, field.alias or name
            inner = table_in(field.annotation)
            waiting += [] if inner is None else [inner]


def named() -> set[str]:
    """Every word that the program names outside the sentences about itself."""
    found: set[str] = set()
    for path in SRC.rglob("*.py"):
        tree = ast.parse(path.read_text("utf-8"))
        told = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
        for node in ast.walk(tree):
            match node:
                case ast.Attribute(_, name) | ast.keyword(str(name)):
                    found |= {name, name.removesuffix("_")}
                case ast.Constant(str(text)) if id(node) not in told and " " not in text:
                    found |= set(re.findall(r"\w+", text))
    return found


NAMED = named()


@pytest.mark.parametrize("model", [Job, Sheet, Firm], ids=["job", "sheet", "firm"])
def test_every_word_is_read_or_stands_on_record(model: type[Table]) -> None:
    unread = {f"{table}.{word}" for table, word in words(model) if word not in NAMED}
    assert unread - PUT_TOGETHER.keys() <= ON_RECORD


def test_nothing_stands_on_record_that_is_read_or_gone() -> None:
    unread = {f"{table}.{word}" for model in (Job, Sheet, Firm) for table, word in words(model) if word not in NAMED}
    assert unread >= ON_RECORD


def test_the_paths_that_are_put_together_are_there() -> None:
    text = "\n".join(path.read_text("utf-8") for path in SRC.rglob("*.py"))
    assert all(path in text for path in PUT_TOGETHER.values())
