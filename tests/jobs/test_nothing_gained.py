"""What is not known is never to the good: a fact taken away makes no check pass, and none goes silently."""

import os
import random
import re
from pathlib import Path

import pytest
from damaged_demos import (
    WHOLE,
    Data,
    Folder,
    Way,
    another_number,
    another_quantity,
    another_sheet,
    at,
    planned,
    put,
    sound,
    without,
)

from standfast.foreman.plan import JobPlan
from standfast.sheet import Check

CASES = 60 if "STANDFAST_CASES" in os.environ else 3
"""Damaged jobs of each demo: `make oracle` asks for the larger number."""
FACTS = 3
"""Facts that are taken away for each check that is open."""


def way_to(data: object, word: str) -> Way | None:
    """The way to a dotted word of a file; items of a list are named by their ids or numbers."""
    way: list[str | int] = []
    for part in word.split("."):
        if isinstance(data, list):
            ids = [each.get("id") if isinstance(each, dict) else None for each in data]
            number = ids.index(part) if part in ids else int(part) if part.isdecimal() else len(data)
            if number >= len(data):
                return None
            way.append(number)
            data = data[number]
        elif isinstance(data, dict) and part in data:
            way.append(part)
            data = data[part]
        else:
            return None
    return tuple(way)


def spoilt(demo: str, seed: int) -> Folder:
    """A demo with a few numbers and sheets that are wrong: some checks of it fail."""
    chance = random.Random(f"{demo} {seed}")
    folder = sound(demo)
    for _ in range(chance.randint(2, 5)):
        chance.choice([*[another_number] * 4, another_sheet, another_quantity])(chance, folder)
    return folder


def facts(plan: JobPlan, chance: random.Random) -> list[tuple[str, str]]:
    """Words that open checks rest on, with the files they stand in."""
    found: dict[tuple[str, str], None] = {}
    for check in chance.sample(plan.ledger.open, min(4, len(plan.ledger.open))):
        given = {value.how for value in check.values() if value.kind == "given" and ".toml:" in value.how}
        for place in chance.sample(sorted(given), min(FACTS, len(given))):
            file, _, word = place.partition(" ")
            found[file.partition(":")[0], word] = None
    return list(found)


def chosen(plan: JobPlan) -> object:
    """What the program chose by itself: where it chooses anew, other things are asked about."""
    best = plan.design.choice.best
    fixings = [held.fixing and held.fixing.content.id for held in plan.design.anchorages]
    spots = [(place.wall, place.left.number, place.bottom.number) for place in plan.design.siting.places]
    return best.wired.picks, fixings, spots, plan.survey.job.equipment.quantity, plan.sheets.keys()


def gained(before: JobPlan, after: JobPlan) -> list[str]:
    """What stands better than it did."""
    now = {check.id: check for check in after.ledger}
    was = {check.id: check for check in before.ledger}
    told = any(worse(was.get(check.id), check) for check in after.ledger.open)
    lost = [f"{check.id} is gone" for check in before.ledger.open if check.id not in now and not told]
    better = [
        f"{check.id}: {check.verdict}, now {now[check.id].verdict}"
        for check in before.ledger.open
        if check.id in now and not now[check.id].open
    ]
    return lost + better


def worse(before: Check | None, after: Check) -> bool:
    """An open check that asks for something it did not ask for."""
    return before is None or (after.verdict == "cannot tell" and before.reason != after.reason)


ANSWERED = re.compile(
    r"rooms\.[^.]+\.ambient_(high|low)|clearances\.floor_(min|max)|parts\.[^.]+\.coupling|handling\.lift_to"
    r"|anchor\.(least_spacing|steel_tension|k_(un)?cracked|yield_strength)|fastener\.washer"
    r"|electrical\.motor_start_current|equipment\.quantity"
)
"""Words that say something by being left out: the room is as hot as the place, the maker asks for no height, the report
states no spacing of its own and that of the code holds. Nothing is said of them by *not known*."""
OPEN = re.compile(r"panels\.[^.]+\.circuits\.[^.]+\.(breaker|motor\.locked_rotor)|terminals\.[^.]+\.bending_space")
"""Words in whose place something else answers: a breaker is chosen, the code has a rule for the start of a motor by its
full-load current, the listing of a part covers the space of its terminals on a condition."""


def taken(folder: Folder, file: str, word: str, *, out: bool) -> Folder | None:
    """The folder with a word left out, or said to be not known."""
    made = folder.copy()
    data: Data | None = made.job if file == "job.toml" else made.sheets.get(file.removesuffix(".toml"))
    way = None if data is None else way_to(data, word)
    if way is None or OPEN.fullmatch(word) or not isinstance(at(data, way[:-1]), dict):
        return None
    if out and not ANSWERED.fullmatch(word):
        without(data, way)
    else:
        put(data, way, "not known")
    return made


@pytest.mark.parametrize("seed", range(CASES))
@pytest.mark.parametrize("demo", WHOLE)
def test_a_fact_taken_away_clears_nothing(demo: str, seed: int, tmp_path: Path) -> None:
    folder, chance = spoilt(demo, seed), random.Random(seed)
    before = planned(folder, tmp_path)
    if before is None:
        return
    for file, word in facts(before, chance):
        made = taken(folder, file, word, out=chance.random() < 0.5)
        after = planned(made, tmp_path) if made is not None else None
        if after is not None and chosen(before) == chosen(after):
            assert gained(before, after) == [], (file, word)


@pytest.mark.parametrize(
    ("demo", "file", "word", "id"),
    [
        ("one-wall", "job.toml", "rooms.garage.ambient_high", "siting.temperature/battery-1/high"),
        ("one-wall", "demo-lag-5-16.toml", "fastener.washer", "anchorage.bracket-head/battery-1"),
        ("cabinet", "demo-slab-anchor-1-2.toml", "anchor.least_spacing", "anchorage.concrete-spacing/battery-1/foot"),
        ("cabinet", "demo-slab-anchor-1-2.toml", "anchor.k_cracked", "anchorage.concrete-breakout/battery-1/foot"),
        ("cabinet", "demo-slab-anchor-1-2.toml", "anchor.steel_tension", "anchorage.concrete-steel/battery-1/foot"),
        ("cabinet", "job.toml", "equipment.quantity", "wiring.dc-ports/inverter-1"),
    ],
)
def test_what_a_file_says_is_not_known_is_not_taken_from_elsewhere(
    demo: str, file: str, word: str, id: str, tmp_path: Path
) -> None:
    """Left out, each of these words has a meaning of its own; said to be not known, it has none."""
    folder = sound(demo)
    *table, name = word.split(".")
    data = folder.job if file == "job.toml" else folder.sheets[file.removesuffix(".toml")]
    way = way_to(data, ".".join(table))
    assert way is not None
    at(data, way)[name] = "not known"
    plan = planned(folder, tmp_path)
    assert plan is not None
    assert plan.ledger[id].verdict == "cannot tell"
    assert word in plan.ledger[id].reason
