"""Amendments of a place: what it changes prints its own clause, what it leaves alone is the book's."""

from datetime import date
from pathlib import Path

import pytest

from standfast.design.siting.layout import Layout, Thing, Unit
from standfast.design.siting.rules import bound, judge
from standfast.design.siting.solid import Solid, Span
from standfast.faults import NotInEdition
from standfast.foreman.in_force import in_force
from standfast.handover.particulars import codes
from standfast.sheet.printed import ground
from standfast.shelf import Adoption, Compared, adoption, amended, edition, overlay

TOWN, MODEL = adoption("quarrystead-2025"), adoption("us-2021")


def test_a_changed_number_prints_the_clause_of_the_town_and_what_it_stands_in_place_of() -> None:
    town, model = TOWN.book("irc").number("opening_clearance"), MODEL.book("irc").number("opening_clearance")
    assert (town.quantity, model.quantity) == (5, 3)
    assert str(town.clause) == "Quarrystead 2025 ordinance 12-3"
    said = ground(town)
    assert "Amendments of Quarrystead, an invented town" in said
    assert "in place of IRC 2021 R328.4(3)" in said


def test_what_the_town_leaves_alone_is_the_books_own() -> None:
    for key in ("unit_spacing", "unit_energy"):
        town, model = TOWN.book("irc").number(key), MODEL.book("irc").number(key)
        assert (town.number, str(town.clause), town.seen) == (model.number, str(model.clause), model.seen)
    assert TOWN.book("irc").clause("unit_spacing") == MODEL.book("irc").clause("unit_spacing")
    assert TOWN.book("nfpa70") is MODEL.book("nfpa70")
    assert TOWN.book("irc").coverage == MODEL.book("irc").coverage


def test_the_book_and_other_adoptions_do_not_know_of_the_town() -> None:
    TOWN.book("irc").number("opening_clearance")
    assert edition("irc", "2021").number("opening_clearance").quantity == 3
    with pytest.raises(NotInEdition, match="no number is held"):
        TOWN.book("irc").number("no such thing")


def test_a_rule_of_siting_is_asked_under_the_clause_and_with_the_distance_of_the_town() -> None:
    ask = bound(TOWN, "opening-clearance")
    assert ask.distance("opening_clearance", "ft in").quantity == pytest.approx(1524)
    assert ask.distance("opening_clearance", "mm").quantity == pytest.approx(1524)
    assert str(ask.clause) == "Quarrystead 2025 ordinance 12-3"


def test_a_window_that_the_model_code_allows_is_too_near_in_the_town() -> None:
    unit = Unit("unit-1", Solid(Span(0, 7000), Span(0, 2000), Span(6000, 17_000)), place="exterior wall")
    span = Solid(Span(19_000, 28_000), Span(0, 0), Span(8000, 15_000))
    window = Thing("window-1", "window", span, leads_into_dwelling=True)
    layout = Layout((unit,), (window,))
    expected = ((MODEL, "pass", "IRC 2021 R328.4(3)"), (TOWN, "fail", "Quarrystead 2025 ordinance 12-3"))
    for adopted, verdict, clause in expected:
        (check,) = judge(adopted, layout, ["opening-clearance"])
        assert (check.verdict, str(check.clause)) == (verdict, clause)
        assert check.demand is not None
        assert check.demand.quantity == 1200


def test_a_copy_of_the_book_says_nothing_about_what_the_town_has_changed() -> None:
    said = [
        Compared("irc", "2021", key, (), "", "A. Tester", "2026-03-01", "101")
        for key in ("opening_clearance", "unit_spacing")
    ]
    town, model = TOWN.read_in_print(said).book("irc"), MODEL.read_in_print(said).book("irc")
    assert (model.number("opening_clearance").seen, town.number("opening_clearance").seen) == ("print", "memory")
    assert (model.number("unit_spacing").seen, town.number("unit_spacing").seen) == ("print", "print")


def test_the_cover_lists_the_amendments_among_the_codes_and_says_what_is_held_in_part() -> None:
    rows = codes(TOWN, adopted=True)
    assert ("Quarrystead", "2025", "Amendments of Quarrystead, an invented town, 2025") in rows
    assert not [row for row in rows if "held in part" in row[2]]
    assert not [row for row in codes(TOWN, adopted=False) if row[0] == "Quarrystead"]
    assert ("NEC", "2020", "NFPA 70-2020, National Electrical Code, held in part") in codes(
        adoption("us-2020"), adopted=True
    )


def test_a_town_may_change_a_row_of_a_table_and_add_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "test-town"
    (folder / "nfpa70" / "tables").mkdir(parents=True)
    (folder / "overlay.toml").write_text(
        'title = "Amendments of a test town"\nshort = "Town"\nedition = "1"\ninvented = true\nwhere = "test"\n'
    )
    (folder / "nfpa70" / "tables.toml").write_text(
        '[working_depth]\nfile = "depth.csv"\nclause = "rule 7"\nseen = "secondary"\nwhere = "test"\n'
    )
    (folder / "nfpa70" / "tables" / "depth.csv").write_text(
        "condition,volts_to_ground,depth\n2,600,4.5\n2,2000,6\n", "utf-8"
    )
    monkeypatch.setattr(amended, "_shelf", lambda name: tmp_path)
    place = overlay("test-town")
    assert place.books == ("nfpa70",)
    town = Adoption("test", "test", {"nfpa70": "2023"}, {}, (place,)).book("nfpa70").table("working_depth")
    model = edition("nfpa70", "2023").table("working_depth")
    changed = town.pick("d", "depth", condition=2, volts_to_ground=600)
    assert (changed.quantity, str(changed.clause)) == (4.5, "Town 1 rule 7")
    assert "in place of NEC 2023 Table 110.26(A)(1)" in changed.how
    between = town.pick("d", "depth", condition=2, volts_to_ground=480)
    assert (between.quantity, str(between.clause)) == (4.5, "Town 1 rule 7")
    assert town.pick("d", "depth", condition=2, volts_to_ground=1500).quantity == 6
    kept = town.pick("d", "depth", condition=1, volts_to_ground=600)
    assert (kept.quantity, str(kept.clause)) == (3, "NEC 2023 Table 110.26(A)(1)")
    assert model.pick("d", "depth", condition=2, volts_to_ground=600).quantity == 3.5


def test_an_overlay_that_is_not_there_is_refused() -> None:
    with pytest.raises(NotInEdition, match="no amendments 'nowhere'"):
        overlay("nowhere")


@pytest.mark.parametrize(
    ("name", "day", "verdicts"),
    [
        ("quarrystead-2022", date(2022, 7, 1), ["pass"]),
        ("quarrystead-2022", date(2025, 6, 30), ["pass"]),
        ("quarrystead-2022", date(2025, 7, 1), ["cannot tell"]),
        ("quarrystead-2022", date(2022, 6, 30), ["cannot tell"]),
        ("quarrystead-2025", date(2031, 1, 1), ["pass"]),
        ("us-2021", date(2031, 1, 1), []),
    ],
)
def test_a_job_dated_outside_its_adoption_is_told(name: str, day: date, verdicts: list[str]) -> None:
    assert [check.verdict for check in in_force(adoption(name), day)] == verdicts
