"""Printed tables that follow from other tables: conductors in a raceway by counting one by one, and the Zs table.

Informative Annex C of the NEC says how many equal conductors a raceway takes. Every count follows from Chapter 9 Tables
1, 4 and 5 with Note 7 (a rest of 0.8 is one more). Here it is counted by putting in one after the other in decimal
arithmetic; `raceways.most_equal` divides. The counts for EMT below are from memory of Table C.1 (`memory`), the Zs
table is BS 7671:2018 Table 41.3 for 0.4 s as reference cards give it.
"""

import csv
from decimal import Decimal
from importlib.resources import files

import pytest

from standfast import shelf
from standfast.rulebooks.bs7671 import earth_fault
from standfast.rulebooks.nfpa70 import raceways
from standfast.sheet import Value, given

NEC = shelf.edition("nfpa70", "2023")
BS7671 = shelf.edition("bs7671", "2018-a2")

SHARES = {1: Decimal("0.53"), 2: Decimal("0.31"), 3: Decimal("0.40")}
"""Chapter 9 Table 1; the last for three and more."""

IN_EMT = {  # memory: Table C.1, THHN
    "14": {"1/2": 12, "3/4": 22, "1": 35, "1-1/4": 61},
    "12": {"1/2": 9, "3/4": 16, "1": 26, "1-1/4": 45},
    "10": {"1/2": 5, "3/4": 10, "1": 16, "1-1/4": 28},
    "8": {"1/2": 3, "3/4": 6, "1": 9, "1-1/4": 16},
    "6": {"1/2": 2, "3/4": 4, "1": 7, "1-1/4": 12},
}

ZS_OHM = {
    "b": {
        6: 7.28,
        10: 4.37,
        16: 2.73,
        20: 2.19,
        25: 1.75,
        32: 1.37,
        40: 1.09,
        50: 0.87,
        63: 0.69,
        80: 0.55,
        100: 0.44,
        125: 0.35,
    },
    "c": {
        6: 3.64,
        10: 2.19,
        16: 1.37,
        20: 1.09,
        25: 0.87,
        32: 0.68,
        40: 0.55,
        50: 0.44,
        63: 0.35,
        80: 0.27,
        100: 0.22,
        125: 0.17,
    },
    "d": {
        6: 1.82,
        10: 1.09,
        16: 0.68,
        20: 0.55,
        25: 0.44,
        32: 0.34,
        40: 0.27,
        50: 0.22,
        63: 0.17,
        80: 0.14,
        100: 0.11,
        125: 0.09,
    },
}


def rows(name: str) -> list[dict[str, str]]:
    """The rows of a table as they stand in its file."""
    text = (files("standfast.rulebooks.nfpa70") / "editions" / "2023" / "tables" / name).read_text("utf-8")
    return list(csv.DictReader(text.splitlines()))


def counted(inside: Decimal, one: Decimal) -> int:
    """How many go in: the n-th may be larger than what is left by a fifth of itself."""
    most, n = 0, 1
    while n <= 3 or most == n - 1:
        if (n - 1) * one + Decimal("0.8") * one <= SHARES[min(n, 3)] * inside:
            most = n
        n += 1
    return most


def say(word: str) -> Value:
    """A word of the test."""
    return given("x", word, "", "test")


def test_counts_in_every_raceway_against_putting_in_one_by_one() -> None:
    tubes, insulated, asked = rows("ch9_t4.csv"), rows("ch9_t5.csv"), 0
    for tube in tubes:
        for row in insulated:
            ours = raceways.most_equal(
                NEC, say(tube["raceway"]), say(tube["trade_size"]), say(row["size"]), say(row["insulation"])
            )
            assert ours.quantity == counted(Decimal(tube["area"]), Decimal(row["area"])), (tube, row)
            asked += 1
    assert asked > 5000


@pytest.mark.parametrize("size", IN_EMT)
def test_counts_in_emt_as_printed(size: str) -> None:
    for trade_size, count in IN_EMT[size].items():
        assert raceways.most_equal(NEC, say("emt"), say(trade_size), say(size), say("thhn")).quantity == count


@pytest.mark.parametrize("curve", ZS_OHM)
def test_the_zs_table_from_its_formula(curve: str) -> None:
    for rating, printed in ZS_OHM[curve].items():
        values = given("I_n", float(rating), "A", "test"), given("U_0", 230.0, "V", "test")
        ours = earth_fault.greatest_loop_impedance(BS7671, curve, *values, given("C_min", 0.95, "1", "test"))
        assert ours.quantity == pytest.approx(printed, abs=0.005 + 1e-9)
