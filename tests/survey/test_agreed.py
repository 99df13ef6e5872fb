"""Facts that the file states twice, and differently, are told with both places."""

from importlib.resources import files

from standfast.design.wiring.agreed import outputs
from standfast.equipment.read import find
from standfast.survey.read import read

ONE, PAIR = (
    (files("standfast.foreman") / "demos" / name / "job.toml").read_text("utf-8")
    for name in ("one_wall", "detached_pair")
)


def told(text: str) -> list[str]:
    return [f"{each.what}: {each.why}; {each.todo}" for each in read(text).faults]


def test_the_service_and_its_panel() -> None:
    other = ONE.replace('busbar = "200 A"', 'busbar = "225 A"', 1)
    assert told(other) == [
        'busbar is "200 A" in panel "main" and "225 A" in [supply]: the panel that the utility feeds is the service '
        "equipment; make supply.busbar and panels.main.busbar one"
    ]
    same = ONE.replace('busbar = "200 A"', 'busbar = "0.2 kA"', 1)
    assert told(same) == []
    outside = ONE.replace('mark = "not service equipment"', 'mark = "service disconnect"')
    assert told(outside.replace('main = "200 A"', 'main = "225 A"', 1)) == []  # the service disconnect stands by itself


def test_the_least_fault_current_is_not_above_the_greatest() -> None:
    stated = 'fault_current = "9.4 kA"'
    assert stated in ONE and 'least_fault_current = "' in ONE
    more = ONE.replace(stated, 'fault_current = "2 kA"', 1)
    (fault,) = told(more)
    assert fault.startswith('least_fault_current is "') and 'and fault_current is "2 kA"' in fault
    assert "ask the utility" in fault
    least = ONE[ONE.index('least_fault_current = "') :].split('"')[1]
    assert told(ONE.replace(stated, f'fault_current = "{least}"', 1)) == []  # one current, stated for both


def test_sources_sit_where_the_panel_says() -> None:
    middle = ONE.replace("spaces = [10, 12]", "spaces = [8, 10]")
    assert told(middle) == [
        '"battery" takes spaces [8, 10] of 12: source_position of "backup" is "opposite end", and these are at no end; '
        "correct the spaces, or panels.backup.source_position"
    ]
    panel = middle.index('id = "backup"\nname')
    free = middle[:panel] + middle[panel:].replace(
        'source_position = "opposite end"', 'source_position = "elsewhere"', 1
    )
    assert told(free) == []


def test_units_beside_each_other_sit_at_one_end_and_not_at_both() -> None:
    assert told(PAIR) == []
    panel = PAIR.index('id = "garage"\nname')
    end = PAIR[panel:].replace('source_position = "elsewhere"', 'source_position = "opposite end"', 1)
    assert told(PAIR[:panel] + end) == []
    circuits = end.replace("spaces = [1]", "spaces = [9]").replace("spaces = [3]", "spaces = [11]")
    (fault,) = told(PAIR[:panel] + circuits.replace("spaces = [9, 11]", "spaces = [1, 3]"))
    assert "names one" in fault and '"battery-2" takes spaces [10, 12]' in fault


def test_the_output_of_a_circuit_and_of_its_sheet() -> None:
    sheet = find("demo-wall-10").sheet
    text = PAIR.replace('source_output = "24 A"', 'source_output = "20 A"', 1)
    job = read(text).survey
    assert job is not None and sheet is not None
    (fault,) = outputs(job, {"battery": sheet})
    assert fault.what == 'source_output of "battery-1" is "20 A"'
    assert fault.why == 'demo-wall-10.toml states an output_current of "24 A"'
    good = read(PAIR).survey
    assert good is not None and list(outputs(good, {"battery": sheet})) == []
