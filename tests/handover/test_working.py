"""Working printed once: what is used again is cited, and nothing that differs is taken for the same."""

from standfast.handover.working import Working
from standfast.sheet import Check, Clause, Value, at_most, given, work

NEC = Clause("NEC", "2023", "210.19(A)")


def check(id: str, demand: Value, limit: Value) -> Check:
    return at_most(id, id, NEC, demand, limit)


def test_a_line_stands_once_and_is_cited_afterwards() -> None:
    current, factor = given("I", 24.0, "A", "job.toml:3:1"), given("k", 1.25, "1", "job.toml:4:1")
    needed = work("I_req", "k * I", "A", NEC, factor, current)
    working = Working()
    lines, cited = working.of(check("one", needed, given("I_n", 30.0, "A", "job.toml:5:1")))
    assert [number for number, _, _ in lines] == ["1", "2", "3", "4"]
    assert lines[2] == ("3", "I_req = k × I = 1.25 × 24 A = 30 A", "NEC 2023 210.19(A)")
    assert cited == ""
    lines, cited = working.of(check("two", needed, given("I_z", 40.0, "A", "job.toml:6:1")))
    assert lines == [("5", "I_z = 40 A", "job.toml:6:1")]
    assert cited == "I_req = 30 A (3)"


def test_equal_lines_from_other_inputs_are_not_the_same() -> None:
    working = Working()
    for place, number in (("a", "2"), ("b", "5")):
        doubled = work("y", "2 * x", "A", None, given("x", 5.0, "A", place))
        lines, cited = working.of(check(place, doubled, given("m", 20.0, "A", place)))
        assert [line[0] for line in lines][1] == number and cited == ""


def test_the_same_fact_made_twice_is_the_same_line() -> None:
    working = Working()
    working.of(check("a", given("x", 5.0, "A", "job.toml:1:1"), given("m", 20.0, "A", "job.toml:2:1")))
    lines, cited = working.of(check("b", given("x", 5.0, "A", "job.toml:1:1"), given("n", 9.0, "A", "job.toml:3:1")))
    assert len(lines) == 1 and cited == "x = 5 A (1)"


def test_every_step_of_every_check_is_printed_or_cited() -> None:
    shared = given("x", 5.0, "A", "here")
    working, printed = Working(), set()
    for step in range(6):
        shared = work(f"y_{step}", "z + z0", "A", None, z=shared, z0=given("z0", float(step), "A", "there"))
        made = check(str(step), shared, given(f"m_{step}", 100.0, "A", "limit"))
        lines, cited = working.of(made)
        printed |= {text.split(" = ")[0] for _, text, _ in lines}
        assert {value.symbol for value in made.values()} <= printed
        assert cited.startswith(f"y_{step - 1} = ") or step == 0
