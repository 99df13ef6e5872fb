"""What the reader of data sheets says, and where sheets are looked up."""

import pytest

from standfast.equipment import find, read
from standfast.equipment.model import Sheet
from standfast.equipment.read import KINDS, misfit, shipped
from standfast.survey.model import Chosen

HEAD = (
    'schema = 1\nid = "x"\nkind = "aid"\ninvented = true\nmaker = "Invented"\nname = "X"\n'
    '[aid]\nrated_load = "150 kg"\n'
)


def said(text: str) -> list[str]:
    return [str(fault) for fault in read(text, "x.toml").faults]


@pytest.mark.parametrize("name", sorted(shipped()))
def test_every_shipped_sheet_is_in_order_and_says_that_it_is_invented(name: str) -> None:
    sheet, faults = find(name)
    assert faults == []
    assert sheet is not None
    assert sheet.sheet.invented
    assert "nvented" in sheet.sheet.maker
    assert "nvented" in str(sheet.sheet.source.document)


@pytest.mark.parametrize(
    ("lines", "fault"),
    [
        ('[body]\nmass = 52', "x.toml:10:8: body.mass: 52 has no unit: a mass is due here"),
        ('[body]\nweight = "52 kg"', '"weight" is not a word that is known here'),
        ('[[terminals]]\nid = "a"\nwire_min = "10 AWG"', 'terminals.wire_min: "10 AWG" is not a word'),
        ('[[terminals]]\nid = "a"\n[[terminals]]\nid = "a"', 'id "a" is there twice: line 9 has it too'),
        ('[[steps]]\nid = "a"\ntext = "t"\nafter = ["b"]', 'x.toml:12:10: there is no step "b"'),
        ('[[steps]]\nid = "a"\ntext = "t"\nafter = ["a"]', 'step "a" can never begin'),
        ('[[steps]]\nid = "a"\ntext = "t"\njoint = "j"', 'there is no joint or terminal "j"'),
        ('[[steps]]\nid = "a"\ntext = "t"\nindication = "j"', 'there is no indication "j"'),
        ('[[steps]]\nid = "a"\ntext = "t"\ndoes = { change = "opened" }', 'did you mean "open"?'),
        ("[fixing]\nholes = [[1, 2]]", "fixing.holes: 1 has no unit"),
    ],
)  # fmt: skip
def test_a_fault_says_where_what_and_what_to_do(lines: str, fault: str) -> None:
    assert fault in said(HEAD + lines + "\n")[0]


def test_steps_that_wait_for_each_other_are_found_and_free_ones_are_not_blamed() -> None:
    step = '[[steps]]\nid = "{}"\ntext = "t"\nafter = [{}]\n'
    steps = step.format("a", "") + step.format("b", '"a", "d"') + step.format("c", '"b"') + step.format("d", '"c"')
    (fault,) = said(HEAD + steps)
    assert fault.startswith("x.toml:16:")
    assert 'step "b" can never begin: "b" waits for "d" waits for "c" waits for "b"' in fault


@pytest.mark.parametrize("kind", ["battery unit", "lag screw", "anchor", "breaker", "brace plug"])
def test_a_sheet_needs_the_tables_of_its_kind(kind: str) -> None:
    assert any("needs the table [" in each for each in said(HEAD.replace('"aid"', f'"{kind}"')))


def test_a_faulty_head_gives_no_sheet_but_the_other_faults_too() -> None:
    sheet, faults = read(HEAD.replace('maker = "Invented"', "maker = 3") + "[body]\nmass = 3\n", "x.toml")
    assert sheet is None
    assert [fault.line for fault in faults] == [5, 10]


def test_the_job_wins_over_the_firm_and_the_firm_over_the_package() -> None:
    job, firm = HEAD.replace('"X"', '"of the job"'), HEAD.replace('"X"', '"of the firm"')

    def name(*folders: dict[str, str], id: str = "x") -> str:
        sheet, faults = find(id, *folders)
        assert faults == []
        assert sheet is not None
        return sheet.sheet.name

    assert name({"x": job}, {"x": firm}) == "of the job"
    assert name({}, {"x": firm}) == "of the firm"
    assert name({}, {}, id="demo-wall-lift") == "Hand-cranked wall lift 160"
    mine = HEAD.replace('id = "x"', 'id = "demo-wall-lift"').replace('"X"', '"mine"')
    assert name({}, {"demo-wall-lift": mine}, id="demo-wall-lift") == "mine"


def test_a_sheet_that_is_nowhere_is_a_fault_with_the_nearest_id() -> None:
    sheet, faults = find("demo-wall-11", {}, {})
    assert sheet is None
    assert 'did you mean "demo-wall-10"?' in faults[0].todo


def test_a_sheet_with_another_id_than_its_file_is_a_fault() -> None:
    (fault,) = find("y", {"y": HEAD}).faults
    assert 'id is "x" in a file that is called y.toml' in fault.what


def test_facts_of_a_sheet_name_their_place_in_the_sheet() -> None:
    sheet = find("demo-anchor-3-8").sheet
    assert sheet is not None
    assert sheet.fact("anchor.steel_shear", "V_sa", "lb").quantity == pytest.approx(4400)
    assert sheet.fact("anchor.steel_area", "A_se", "in2").quantity == pytest.approx(0.0993)
    assert sheet.fact("anchor.k_cracked", "k_c", "1").quantity == 17
    assert sheet.fact("anchor.category", "category", "1").quantity == 1
    assert sheet.fact("anchor.hole_depth", "h", "mm").how.startswith("demo-anchor-3-8.toml:")
    missing = sheet.fact("anchor.pullout_cracked", "N_p", "lb")
    assert missing.missing
    assert "Pullout strength" in missing.how


def test_the_invented_battery_asks_for_a_30_ampere_breaker_and_cannot_be_lifted_by_one_person() -> None:
    sheet = find("demo-wall-10").sheet
    assert sheet is not None
    content: Sheet = sheet.sheet
    assert sheet.fact("electrical.output_current", "I", "A").quantity * 1.25 == pytest.approx(30)
    assert 100 < sheet.fact("body.mass", "m", "kg").quantity < 130
    assert content.fixing is not None
    assert len(content.fixing.holes) == content.fixing.least_fasteners


def test_every_role_of_a_job_knows_its_kinds_and_refuses_others() -> None:
    assert set(KINDS) == set(Chosen.model_fields) - {"quantity"}
    battery, screw = find("demo-wall-10").sheet, find("demo-lag-5-16").sheet
    assert battery is not None
    assert screw is not None
    assert misfit("battery", battery.sheet) == ""
    assert misfit("fastener", screw.sheet) == ""
    assert 'names a sheet of kind "lag screw", not battery unit' in misfit("battery", screw.sheet)


def test_a_brace_is_bolted_to_a_part_that_stands_already() -> None:
    stack = shipped()["demo-stack-15"]
    assert read(stack, "x.toml").faults == []
    high = stack.replace('["5 in", "50 in"], ["21 in", "50 in"]', '["5 in", "55 in"], ["21 in", "55 in"]')
    assert high != stack
    (fault,) = said(high)
    assert 'step "brace" bolts the brace to the part "head", which is not there yet' in fault
    late = high.replace('after = ["stack-modules"]', 'after = ["head"]').replace(
        'after = ["brace"]', 'after = ["stack-modules"]'
    )
    assert read(late, "x.toml").faults == []
