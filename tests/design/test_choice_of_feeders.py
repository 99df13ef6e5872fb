"""The choice goes over all circuits at once, new feeders too: it equals trying every combination."""

import random

import pytest
from choice_job import Case, Change, Picks, base, everything, kinds, metals, sheets, sizes
from test_choice import EITHER_METAL, scaled

from standfast.equipment.prices import TABLES
from standfast.sheet import chosen

FEEDER = "routes.backup-feeder"
NUMBER = 2
"""Of the route of the feeder to the backup panel."""
FIXED: list[Change] = [(("wishes", "left"), "154-1/2 in"), (("wishes", "bottom"), "30 in")]


def of_feeder(word: str, *values: str) -> list[Picks]:
    """Values of a word of the feeder, and what is worked out anyway."""
    symbol = word.rpartition(".")[2]
    return [{}, *({f"{FEEDER}.{word}": chosen(symbol, each, "", "test", None)} for each in values)]


def case(seed: int) -> tuple[Case, list[list[Picks]]]:
    """The unit in one place; metal, size and raceway of its circuit and of the feeder of its panel are open."""
    draw = random.Random(seed)
    changes = [
        *FIXED, *EITHER_METAL,
        (("routes", NUMBER, "conductors"), {"materials": ["cu", "al"], "insulation": "xhhw"}),
        (("routes", NUMBER, "raceway"), None), (("routes", NUMBER, "raceways"), ["emt", "pvc-40"]),
        (("routes", NUMBER, "length"), f"{draw.randint(3, 60)} ft"),
    ]  # fmt: skip
    picks = [sizes("8"), metals("al"), of_feeder("conductors.material", "al"), of_feeder("conductors.size", "6", "4")]
    picks.append([{f"{FEEDER}.raceway": chosen("raceway", each, "", "test", None)} for each in ("emt", "pvc-40")])
    if draw.random() < 0.5:
        changes += [(("routes", 0, "raceway"), None), (("routes", 0, "raceways"), ["emt", "pvc-40"])]
        picks.append(kinds("emt", "pvc-40"))
    prices = scaled({table: 4 ** draw.uniform(-1, 1) for table in TABLES})
    dearer = {word: each * 4 ** draw.uniform(-1, 1) for word, each in prices.conductor.items()}
    taken = sheets(terminals='["cu", "al"]')
    return Case(base(*changes), taken, prices._replace(conductor=dearer)), picks


@pytest.mark.parametrize("seed", range(4))
def test_the_choice_over_all_circuits_is_that_of_an_exhaustive_search(seed: int) -> None:
    made, picks = case(seed)
    found = made.choose()
    assert {each.id for each in found.best.wired.wiring.circuits} == {"battery-1", "backup-feeder"}
    opened, price = everything(made, picks)
    assert found.best.open == opened
    assert found.best.price == pytest.approx(price, abs=1e-6)
    assert found.proven
