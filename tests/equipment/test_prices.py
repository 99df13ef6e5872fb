"""The price list: read with its faults, and a firm's prices over the invented ones."""

from importlib.resources import files

import pytest

from standfast.equipment.price_list import read
from standfast.equipment.prices import TABLES, Price, Prices, shipped

HEAD = 'schema = 1\ninvented = false\ncurrency = "USD"\n'


def test_the_shipped_list_is_invented_and_has_no_fault() -> None:
    found, faults = read((files("standfast.equipment") / "prices.toml").read_text("utf-8"), "prices.toml")
    assert faults == [] and found == shipped()
    assert found is not None and found.invented and all(getattr(found, table) for table in TABLES)


def test_larger_conductors_and_raceways_are_not_cheaper_in_the_shipped_list() -> None:
    for table in (shipped().conductor, shipped().raceway, shipped().fitting):
        by_kind: dict[str, list[float]] = {}
        for word, price in table.items():
            by_kind.setdefault(word.partition(" ")[0], []).append(price)
        assert all(prices == sorted(prices) for prices in by_kind.values())


def test_bad_rows_are_faults_with_their_place() -> None:
    text = f'{HEAD}[conductor]\n"cu 11" = 1.0\n"al 4" = -1.0\n[breaker]\nx = 3.0\n[work]\nblok = 1.0\n[lamp]\na = 1\n'
    found, faults = read(text, "p.toml")
    assert [(fault.line, fault.what.partition(":")[0]) for fault in faults] == [
        (5, 'conductor has no "cu 11"'), (6, "conductor.al 4"), (8, '"x" names no breaker'),
        (10, 'work has no "blok"'), (11, '"lamp" is not a word that is known here'),
    ]  # fmt: skip
    assert all(fault.todo for fault in faults) and found is not None


def test_a_list_without_a_head_is_no_list() -> None:
    found, faults = read('[conductor]\n"cu 10" = 1.0\n', "p.toml")
    assert found is None and len(faults) == 3


def test_the_prices_of_a_firm_go_before_the_invented_ones_and_say_so() -> None:
    firm, faults = read(f'{HEAD}[conductor]\n"cu 10" = 0.5\n', "firm.toml")
    assert firm is not None and not faults
    both = shipped().over(firm)
    assert both.of("conductor", "cu 10") == Price(0.5, invented=False)
    assert both.of("conductor", "al 8") == shipped().of("conductor", "al 8")
    assert both.of("conductor", "cu 11") is None


def test_invented_prices_of_a_kind_keep_their_proportion_to_those_of_the_firm() -> None:
    firm, _ = read(f'{HEAD}[conductor]\n"cu 10" = 0.58\n"cu 6" = 0.74\n[raceway]\n"emt 1/2" = 2.0\n', "firm.toml")
    assert firm is not None
    bare, both = shipped(), shipped().over(firm)
    times = 0.58 / bare.conductor["cu 10"]
    assert times > 1.5 and bare.conductor["cu 6"] == 0.74, "the two rows of the firm lie in different proportions"
    assert both.of("conductor", "cu 8") == Price(bare.conductor["cu 8"] * times, invented=True)
    assert both.of("conductor", "cu 6") == Price(0.74, invented=False)
    assert both.raceway["emt 3/4"] / both.raceway["emt 1/2"] == pytest.approx(
        bare.raceway["emt 3/4"] / bare.raceway["emt 1/2"]
    )
    assert both.fitting == bare.fitting and both.breaker == bare.breaker
    assert both.scaled == ("conductor cu", "raceway emt")
    assert bare.scaled == ()


def test_two_currencies_make_no_sum() -> None:
    firm = Prices(False, "EUR", {"demo-breaker": 20.0})
    assert shipped().over(firm) is firm
