"""The permit set: what is on it, and when it is not ready."""

from collections.abc import Callable

import pytest

from standfast.handover.contents import Contents
from standfast.handover.counter import missing, printed
from standfast.handover.particulars import NOT_READY, READY
from standfast.handover.permit_set import PermitSet, permit_set
from standfast.paper.document import Block, CheckCard, Facts, Frame, Keep, Sheet, Sides, Table
from standfast.paper.drawing import DoesNotFit, Drawing, Note
from standfast.paper.pdf import Press

Make = Callable[..., Contents]
PDF_TO_SVG = [
    ("battery-cut-sheet.pdf", "battery-cut-sheet.svg"),
    ("battery-instructions.pdf", "battery-instructions.svg"),
    ("battery-listing.pdf", "battery-listing.svg"),
    ("fault-current-letter.pdf", "fault-current-letter.svg"),
]


def complete(contents: Make, *changes: tuple[str, str], settled: bool = True) -> PermitSet:
    """The set with every document of the counter list; `changes` then take something away."""
    return permit_set(contents(*PDF_TO_SVG, *changes, settled=settled))


def sheet(made: PermitSet, code: str) -> Sheet:
    return next(each for each in made.document.sheets if each.code == code)


def flat(blocks: "list[Block] | tuple[Block, ...]") -> list[Block]:
    found: list[Block] = []
    for block in blocks:
        found.append(block)
        if isinstance(block, Sides):
            for column in block.columns:
                found += flat(list(column))
        elif isinstance(block, Frame | Keep):
            found += flat(list(block.blocks))
    return found


def test_a_complete_set_is_for_review_and_an_open_check_makes_it_not_ready(contents: Make) -> None:
    made = complete(contents)
    assert made.against == [] and made.ready and made.document.strip.state == READY
    opened = complete(contents, settled=False)
    assert opened.against == ["1 check cannot be told"] and not opened.ready
    assert opened.document.strip.state == NOT_READY
    frames = [block for block in flat(list(sheet(opened, "G1").blocks)) if isinstance(block, Frame)]
    assert [frame.title for frame in frames] == [NOT_READY]


@pytest.mark.parametrize(
    ("change", "needed"),
    [
        (('parcel = "000-111-22"\n', ""), "parcel number (parcel in [site])"),
        (('licence = "C-00000"\n', ""), "licence of the contractor (licence in [contractor])"),
        (("licence_expires = 2027-03-31", "licence_expires = 2026-05-03"), "a licence that is valid on the date"),
        (('name = "Owner of the invented house"\n', ""), "name of the owner (name in [owner])"),
    ],
)
def test_a_missing_particular_is_named_with_its_place(contents: Make, change: tuple[str, str], needed: str) -> None:
    made = complete(contents, change)
    lacking = missing(made.counter)
    assert [each.id for each in lacking] == ["application"]
    assert needed in lacking[0].remark
    assert made.document.strip.state == NOT_READY


def test_a_licence_is_valid_on_its_last_day_and_shown_expired_after_it(contents: Make) -> None:
    last = complete(contents, ("licence_expires = 2027-03-31", "licence_expires = 2026-05-04"))
    assert last.ready and last.document.strip.licence.endswith("expires 2026-05-04")
    after = complete(contents, ("licence_expires = 2027-03-31", "licence_expires = 2026-05-03"))
    assert "EXPIRED 2026-05-03" in after.document.strip.licence


def test_an_absent_file_and_an_absent_entry_are_told_apart(contents: Make) -> None:
    made = permit_set(contents(*PDF_TO_SVG, files={}))
    remarks = {each.id: each.remark for each in missing(made.counter)}
    assert remarks["cut-sheet"] == "put battery-cut-sheet.svg into the folder documents/"
    gone = complete(contents, ('kind = "listing certificate"', 'kind = "other"'))
    remarks = {each.id: each.remark for each in missing(gone.counter)}
    assert remarks == {"listing": 'add [[documents]] of kind "listing certificate" with its file'}


def test_an_evaluation_report_is_asked_for_anchors_and_a_fire_test_report_for_departures(contents: Make) -> None:
    whole = contents(*PDF_TO_SVG)
    answers = {each.id: each.answer for each in permit_set(whole).counter}
    assert answers["evaluation"] == answers["fire-test"] == "not asked here"
    harder = whole._replace(drilled=["concrete"], departs="units stand closer than 3 ft")
    answers = {each.id: each.answer for each in permit_set(harder).counter}
    assert answers["evaluation"] == answers["fire-test"] == "missing"


def test_a_part_that_was_not_drawn_is_missing(contents: Make) -> None:
    whole = contents(*PDF_TO_SVG)
    drawings = {part: drawing for part, drawing in whole.drawings.items() if part != "site plan"}
    made = permit_set(whole._replace(drawings=drawings))
    assert [each.id for each in missing(made.counter)] == ["site-plan"]
    assert "A1" not in [each.code for each in made.document.sheets]


def test_every_check_stands_once_with_its_working(contents: Make) -> None:
    whole = contents(*PDF_TO_SVG)
    made = permit_set(whole)
    cards = [
        block for each in made.document.sheets for block in flat(list(each.blocks)) if isinstance(block, CheckCard)
    ]
    asked = [check for check in whole.ledger if check.verdict != "not applicable"]
    assert sorted(card.id for card in cards) == sorted(check.id for check in asked)
    card = next(card for card in cards if card.id == "wiring.interrupting/main")
    assert card.line == "I_f = 9.4 kA ≤ I_cn = 22 kA; margin 12.6 kA"
    assert card.clause == "NEC 2023 110.9"
    assert ("I_f = 9.4 kA", "job.toml:1:1") in [(text, ground) for _, text, ground in card.working]
    tables = [block for block in flat(list(sheet(made, "C1").blocks)) if isinstance(block, Table)]
    assert [row[0] for table in tables for row in table.rows] == ["Is it above the flood?"]


def test_assumptions_become_a_table_to_fill_in_on_site(contents: Make) -> None:
    tables = [block for block in flat(list(sheet(complete(contents), "N1").blocks)) if isinstance(block, Table)]
    row = tables[0].rows[0]
    assert row[0] == {"style": "bold", "text": "G = 0.35"} and row[1] == "species not stated" and row[-1] == ""


def test_what_was_not_checked_is_told_for_every_book_with_its_reason(contents: Make) -> None:
    whole = contents(*PDF_TO_SVG)
    tables = [block for block in flat(list(sheet(permit_set(whole), "N1").blocks)) if isinstance(block, Table)][1:]
    told = sum(len(table.rows) for table in tables)
    books = [whole.adoption.book(name) for name in whole.adoption.books]
    held = [each for book in books for each in book.coverage.get("clause", ()) if each["state"] != "done"]
    assert told == len(held) > 20


def test_panels_show_both_states_with_what_is_new(contents: Make) -> None:
    blocks = flat(list(sheet(complete(contents), "E2").blocks))
    tables = [block for block in blocks if isinstance(block, Table)]
    existing, new, backup = tables[:3]
    bold = {"style": "bold", "text": "NEW Feeder of the backup panel"}
    assert bold not in [cell for row in existing.rows for cell in row]
    assert bold in [cell for row in new.rows for cell in row]
    assert new.rows[13][:4] == ["27", bold, "60/2", ""] and new.rows[14][:2] == ["29", "with 27"]
    assert {"style": "bold", "text": "NEW Battery"} in [cell for row in backup.rows for cell in row]


def test_a_moved_circuit_stands_in_both_panels_at_its_time(contents: Make) -> None:
    blocks = flat(list(sheet(complete(contents), "E2").blocks))
    existing, new, backup = [block for block in blocks if isinstance(block, Table)][:3]
    assert existing.rows[10][:4] == ["21", "Refrigerator", "20/1", "700"]
    assert new.rows[10][:2] == ["21", "free"]
    assert backup.rows[0][:4] == ["1", "Refrigerator (from Main panel 21)", "20/1", "700"]
    assert [cell for row in existing.rows for cell in row].count("free") == 4


def test_a_space_is_called_free_only_where_every_circuit_has_its_place(contents: Make) -> None:
    lost = contents(*PDF_TO_SVG, ("spaces = [9]\n", ""))
    blocks = flat(list(sheet(permit_set(lost), "E2").blocks))
    existing, loose = [block for block in blocks if isinstance(block, Table)][:2]
    cells = [cell for row in existing.rows for cell in row]
    assert "free" not in cells and cells.count("not known") == 5
    assert loose.rows[0][0] == "Bedroom lights and receptacles"


def test_the_set_prints_with_its_documents_and_the_same_bytes_again(contents: Make, press: Press) -> None:
    made = complete(contents)
    first, second = press.pdf(made.document), press.pdf(complete(contents).document)
    assert first.pdf == second.pdf
    assert {"G1", "A1", "A2", "A3", "E1", "E2", "E3", "C1", "N1", "D1", "D2", "D3", "D4"} <= set(first.numbers)
    lines = printed(made.counter, first.numbers)
    assert f"in the set, sheet {first.numbers['A1']} (A1)  Site plan with property lines" in "\n".join(lines)


def test_the_counter_list_stands_on_the_cover(contents: Make) -> None:
    made = complete(contents)
    tables = [block for block in flat(list(sheet(made, "G1").blocks)) if isinstance(block, Table)]
    documents = [row[0] for table in tables for row in table.rows]
    assert all(each.document in documents for each in made.counter)


def test_every_condition_of_every_list_is_known(contents: Make) -> None:
    whole = contents(*PDF_TO_SVG)
    rows = whole.adoption.book("permitguide").table("documents").rows
    assert len(permit_set(whole).counter) == len(rows) > 15


def test_long_texts_are_cut_on_the_strip_and_whole_on_the_cover(contents: Make, press: Press) -> None:
    scope = "words that go on " * 100
    made = complete(contents, ("Add one wall-hung battery unit of 10.2 kWh and a panel", scope))
    assert made.document.strip.scope.endswith("… (whole text on the cover)") and len(made.document.strip.scope) < 300
    facts = [block for block in flat(list(sheet(made, "G1").blocks)) if isinstance(block, Facts)]
    assert any(scope.strip() in str(row[1]) for row in facts[0].rows)
    assert press.pdf(made.document).numbers["G1"] == 1


def test_a_title_strip_that_would_run_over_is_refused(contents: Make, press: Press) -> None:
    document = complete(contents).document
    overfull = document._replace(strip=document.strip._replace(scope="words that go on " * 100))
    with pytest.raises(DoesNotFit, match="title strip of sheet G1 holds more than fits"):
        press.pdf(overfull)


def test_many_notes_of_a_drawing_get_a_sheet_of_their_own(contents: Make, press: Press) -> None:
    whole = contents(*PDF_TO_SVG)
    drawing = whole.drawings["elevation"]
    few, many = Drawing("A", "a", 100, 50), Drawing("A", "a", 100, 50)
    few.notes += [Note(str(number), "text") for number in range(5)]
    many.notes += [Note(str(number), "text") for number in range(6)]
    for made, notes in ((few, 5), (many, 1)):
        strips = permit_set(whole._replace(drawings={**whole.drawings, "elevation": made}))
        assert len(sheet(strips, "A2").notes) == notes
    assert drawing.notes == []
