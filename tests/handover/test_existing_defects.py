"""The sheet that the owner signs before the contract holds every part that lacks, every defect, and room to sign."""

from collections.abc import Iterator
from importlib import resources

import pytest

from standfast import shelf
from standfast.design.knock_on.whole import KnockOn, knock_on
from standfast.equipment.prices import Prices, shipped
from standfast.handover.existing_defects import existing_defects
from standfast.paper.document import Document, Fields, Table, data
from standfast.paper.pdf import Press
from standfast.sheet import Clause, Ledger, at_most, given
from standfast.survey import read
from standfast.survey.read import Survey, changed

DEMO = resources.files("standfast.foreman").joinpath("demos/one_wall/job.toml").read_text("utf-8")
US = shelf.adoption("us-2021")
Change = tuple[tuple[str | int, ...], object]
NO_OFFERS: list[Change] = [(("adders", number), None) for number in (2, 1, 0)]
NO_DEFECTS: list[Change] = [(("defects", number), None) for number in (1, 0)]


def made(*changes: Change, prices: Prices | None = None, ledger: Ledger | None = None) -> tuple[KnockOn, Document]:
    reading = read(DEMO)
    assert reading.survey is not None
    job: Survey | None = changed(reading.survey, changes)
    assert job is not None
    found = knock_on(job, US, prices or shipped())
    return found, existing_defects(job.job, b"", US, found, ledger or Ledger(found.checks))


def texts(plain: object) -> Iterator[str]:
    """Every text of a document as plain data; the pieces of one text stand in one line."""
    if isinstance(plain, str):
        yield plain
    elif isinstance(plain, dict):
        yield from (text for value in plain.values() for text in texts(value))
    elif isinstance(plain, list | tuple):
        flat = [each for each in plain if isinstance(each, str) or (isinstance(each, dict) and "style" in each)]
        if len(flat) == len(plain) and not all(isinstance(each, str) for each in flat):
            yield "".join(each if isinstance(each, str) else each["text"] for each in plain)
        else:
            yield from (text for value in plain for text in texts(value))


def whole(document: Document) -> str:
    return "\n".join(texts(data(document)["sheets"]))


LACKING: list[Change] = [
    (("panels", 0, "openings_closed"), False), (("supply", "gas_pipe_bonded"), False),
    (("site", "smoke_alarms"), "none"), (("panels", 1, "circuits", 3, "extended"), "12 ft"),
]  # fmt: skip


def test_every_part_that_lacks_or_is_not_known_stands_on_it_with_clause_and_price() -> None:
    found, document = made(*NO_OFFERS, *LACKING, (("supply", "water_pipe_bonded"), None))
    page = whole(document)
    lacking = [row for row in found.rows if row.state == "lacking"]
    assert len(lacking) >= 7
    for row in lacking:
        assert row.asked.title in page and str(row.check.clause) in page
        assert row.price is not None and f"{row.price.amount:,.0f} USD*" in page
    unknown = [row for row in found.rows if row.state == "not known"]
    assert [row.asked.id for row in unknown] == ["existing.water-pipe-bond"]
    assert unknown[0].check.title in page and "supply.water_pipe_bonded" in page
    total = sum(row.price.amount for row in lacking if row.price is not None)
    assert f"Together {total:,.0f} USD" in page and "agreed so far 0 USD" in page


def test_what_the_owner_agreed_to_or_declined_is_told() -> None:
    _, document = made(*LACKING)
    assert whole(document).count("Agreed so far.") == 3
    _, document = made((("adders", 1, "accepted"), False))
    page = whole(document)
    assert page.count("Agreed so far.") == 2 and page.count("Declined so far.") == 1


def test_a_part_without_a_price_is_not_counted_as_free() -> None:
    found, document = made(prices=Prices(False, "EUR", {}))
    assert all(row.price is None for row in found.rows)
    page = whole(document)
    assert "to be offered" in page and "Together 0 EUR and 3 not priced" in page
    assert "invented and are no offer" not in page


def test_known_defects_stand_on_it_with_what_is_left_and_its_risk() -> None:
    _, document = made()
    page = whole(document)
    for text in ("Brown mark round one slot", "DANGER NOW", "Mended with this job", "Wires joined without a box",
                 "A joint that gets warm", "NEC 300.15", "Left as it is"):  # fmt: skip
        assert text in page
    assert "the work does not begin" not in page.partition("3. What this sheet")[0]
    _, left = made((("defects", 0, "action"), "left"))
    assert "DANGER NOW: mended or made safe, or the work does not begin" in whole(left)


def test_a_house_with_nothing_to_sign_says_so_and_can_still_be_signed() -> None:
    good: list[Change] = [
        *NO_OFFERS, *NO_DEFECTS, (("panels", 0, "directory"), True), (("panels", 1, "surge_protection"), True),
        (("site", "co_alarms"), True),
    ]  # fmt: skip
    found, document = made(*good)
    assert {row.state for row in found.rows} == {"in order", "not asked"}
    page = whole(document)
    assert "Nothing: what is there may stay as it is." in page and "The survey wrote down none." in page
    assert "owner" in page and "Fields" not in page
    assert "fields" in str(data(document))


def test_an_open_check_of_another_trade_on_an_existing_part_stands_on_it_and_on_a_new_one_not() -> None:
    found, _ = made()
    nec = Clause("NEC", "2023", "110.9")
    fault, rating = given("I_f", 12.0, "kA", "job.toml:1:1"), given("I_cn", 10.0, "kA", "job.toml:2:1")
    ledger = Ledger(found.checks)
    for id, title in (("wiring.interrupting-rating/main", "The old breakers break the fault current"),
                      ("wiring.interrupting-rating/backup", "The new breakers break the fault current")):  # fmt: skip
        ledger.add(at_most(id, title, nec, fault, rating))
    page = whole(made(ledger=ledger)[1])
    assert "The old breakers" in page and "The new breakers" not in page


def test_every_row_to_sign_has_its_boxes() -> None:
    found, document = made(*NO_OFFERS, *LACKING)
    tables = [block for block in document.sheets[0].blocks if isinstance(block, Table) and "Owner" in block.head]
    rows = [row for table in tables for row in table.rows]
    assert len(rows) == sum(row.state == "lacking" for row in found.rows) + 2
    assert all(str(row[-1]).count("'box'") == 2 for row in rows)
    assert not any(isinstance(block, Fields) for block in document.sheets[0].blocks), "they are kept with the words"


def test_a_danger_that_is_there_now_cannot_be_declined() -> None:
    _, document = made()
    rows = [row for block in document.sheets[0].blocks if isinstance(block, Table) for row in block.rows]
    now, later = (next(row for row in rows if str(number) in str(row[0])) for number in ("D1", "D2"))
    assert "decline" not in str(now[-1]) and "make it safe" in str(now[-1])
    assert "decline" in str(later[-1])


@pytest.mark.parametrize("changes", [[], [*NO_OFFERS, *LACKING]])
def test_it_prints(changes: list[Change]) -> None:
    _, document = made(*changes)
    with Press() as press:
        printed = press.pdf(document)
    assert printed.pdf.startswith(b"%PDF") and set(printed.numbers) == {"X1"}
