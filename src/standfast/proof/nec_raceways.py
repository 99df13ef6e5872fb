"""Raceway fill and box fill by the NEC 2023."""

from typing import Any, get_args

from standfast.proof.inputs import Inputs
from standfast.proof.methods import method
from standfast.proof.nec_circuits import BOOK, size, word
from standfast.rulebooks.nfpa70 import boxes, raceways
from standfast.sheet import Value, at_most
from standfast.terms import Raceway, TradeSize

INSULATIONS = ("thhn", "xhhw", "xhhw-2", "thw")


@method("nec.raceway_fill")
def fill(case: Inputs) -> dict[str, Any]:
    """Conductors of any sizes in one raceway."""
    groups = [
        raceways.Group(each.value("count", "n", "1"), size(each), word(each, "insulation", *INSULATIONS))
        for each in case.items("conductors")
    ]
    found = raceways.fill(BOOK, word(case, "raceway", *get_args(Raceway)), _trade_size(case), groups)
    check = at_most("fill", "Raceway fill", BOOK.clause("raceway_fill"), found.area, found.limit)
    return {
        "area_in2": found.area.quantity,
        "limit_in2": found.limit.quantity,
        "fill_pct": found.percent.quantity,
        "verdict": check.verdict,
    }


@method("nec.raceway_fill.max_count")
def max_count(case: Inputs) -> dict[str, Any]:
    """How many equal conductors a raceway takes."""
    raceway, kind = word(case, "raceway", *get_args(Raceway)), word(case, "insulation", *INSULATIONS)
    found = [raceways.most_equal(BOOK, raceway, _trade_size(cell), size(cell), kind) for cell in case.items("cells")]
    return {"count": [value.quantity for value in found]}


@method("nec.box_fill")
def box_fill(case: Inputs) -> dict[str, Any]:
    """Least volume of a box."""
    found = boxes.least_volume(
        BOOK,
        [_counted(each) for each in case.items("conductors", [])],
        [_counted(each) for each in case.items("egcs", [])],
        [_counted(each) for each in case.items("devices", [])],
        case.yes("internal_clamps", False),
    )
    return {"volume_in3": found.quantity}


def _counted(each: Inputs) -> boxes.Counted:
    return boxes.Counted(size(each), each.value("count", "n", "1"))


def _trade_size(case: Inputs) -> Value:
    return word(case, "trade_size", *get_args(TradeSize))
