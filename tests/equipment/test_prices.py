"""The price list: read with its faults, and a firm's prices over the invented ones."""

from importlib.resources import files

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
    assert both.of("conductor", "cu 8") == shipped().of("conductor", "cu 8")
    assert both.of("conductor", "cu 11") is None


def test_two_currencies_make_no_sum() -> None:
    firm = Prices(False, "EUR", {"demo-breaker": 20.0})
    assert shipped().over(firm) is firm
