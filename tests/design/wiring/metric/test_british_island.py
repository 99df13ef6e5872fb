"""The invented terraced house while the grid is away: earthing, joints of neutral and earth, what ends a fault."""

import pytest
from terrace_job import BARE, built, checks, question

from standfast.design.wiring.metric import british_notice
from standfast.design.wiring.metric.whole import wiring
from standfast.faults import NotInEdition


# Pitfall 19: the distributor's earth in island mode
def test_the_earth_of_a_pme_supply_is_not_relied_on() -> None:
    found = checks(("own_electrode = true", "own_electrode = false"))
    assert found["wiring.own-electrode"].verdict == "fail"
    tt = checks(('earthing = "TN-C-S"', 'earthing = "TT"\nelectrode_resistance = "90 ohm"'))
    assert tt["wiring.own-electrode"].verdict == "not applicable"


def test_the_neutral_of_the_supply_is_parted_too() -> None:
    found = checks(of_sheets=(("neutral_switched = true", "neutral_switched = false"),))
    assert found["wiring.island-neutral"].verdict == "fail"


def test_one_joint_of_neutral_and_earth_in_every_state() -> None:
    rows = wiring(question()).alone.bonds.rows
    assert len({row.state for row in rows}) >= 2
    assert {row.verdict for row in rows} == {"pass"}
    none = checks(of_sheets=(('neutral_bond = "while the grid is away"', 'neutral_bond = "none"'),))
    assert any(each.verdict == "fail" and "neutral-bond" in id for id, each in none.items())
    always = checks(of_sheets=(('neutral_bond = "while the grid is away"', 'neutral_bond = "always"'),))
    assert any(each.verdict == "fail" and "neutral-bond" in id for id, each in always.items())


def test_the_order_of_parting_and_joining_is_the_makers_word() -> None:
    id = "wiring.neutral-earth-order"
    assert checks()[id].condition
    assert checks(of_sheets=(("bond_interlocked = true", "bond_interlocked = false"),))[id].verdict == "fail"
    assert checks(of_sheets=(("bond_interlocked = true\n", ""),))[id].verdict == "cannot tell"


# Pitfall 35: the inverter trips no breaker
def test_a_breaker_alone_does_not_end_a_fault_on_the_inverter() -> None:
    id = "wiring.disconnection-island/backup/kitchen"
    assert checks()[id].verdict == "pass"
    assert checks()[id].condition
    bare = checks(BARE)[id]
    assert bare.verdict == "fail"
    assert bare.limit is not None
    assert bare.limit.quantity == pytest.approx(5 * 20)


def test_the_loop_on_the_inverter_is_its_own() -> None:
    kitchen = next(each for each in built().finals if each.id == "backup/kitchen")
    assert kitchen.loop.island is not None
    assert kitchen.loop.island.quantity > 230 / 45
    assert kitchen.loop.island_current is not None
    assert kitchen.loop.island_current.quantity == 45


def test_conductors_can_let_through_less_than_the_inverter_drives() -> None:
    found = built(('r1_r2 = "0.38 ohm"', 'r1_r2 = "6 ohm"'))
    kitchen = next(each for each in found.finals if each.id == "backup/kitchen")
    assert kitchen.loop.island_current is not None
    assert kitchen.loop.island_current.quantity < 45


def test_a_small_breaker_trips_only_where_the_inverter_drives_long_enough() -> None:
    id = "wiring.disconnection-island/backup/lights"
    assert not checks()[id].condition
    short = checks(of_sheets=(('island_fault_time = "0.2 s"', 'island_fault_time = "0.02 s"'),))[id]
    assert (short.verdict, bool(short.condition)) == ("pass", True)


def test_an_inverter_that_states_no_fault_current_cannot_be_told() -> None:
    found = checks(of_sheets=(('island_fault_current = "45 A"\n', ""),))
    assert found["wiring.disconnection-island/backup/kitchen"].verdict == "cannot tell"


def test_nobody_said_whether_a_residual_device_is_there() -> None:
    unsaid = (BARE[0], 'breaker = "20 A", poles = 1, curve = "B", load = "2.2 kVA"')
    assert checks(unsaid)["wiring.disconnection-island/backup/kitchen"].verdict == "cannot tell"


# Pitfall 63
@pytest.mark.parametrize(("ohm", "told"), [(86, "pass"), (200, "pass"), (201, "fail"), (1500, "fail")])
def test_an_electrode_is_steady_up_to_200_ohm_whatever_the_device_allows(ohm: int, told: str) -> None:
    found = checks(('electrode_resistance = "86 ohm"', f'electrode_resistance = "{ohm} ohm"'))
    assert found["wiring.electrode-resistance"].verdict == told


def test_a_tt_installation_disconnects_in_half_the_time() -> None:
    tt = ('earthing = "TN-C-S"', 'earthing = "TT"\nelectrode_resistance = "90 ohm"')
    times = [built(*swaps).finals[0].loop.longest.quantity for swaps in ((), (tt,))]
    assert times == [0.4, 0.2]
    assert checks(tt)["wiring.tt-electrode"].verdict == "pass"
    assert checks(tt, BARE)["wiring.tt-electrode"].verdict == "cannot tell"


def test_nothing_is_asked_of_an_island_where_nothing_is_backed_up() -> None:
    found = checks(('mode = "circuits"', 'mode = "none"'))
    assert found["wiring.own-electrode"].verdict == "not applicable"
    assert not any(id.startswith("wiring.disconnection-island") for id in found)


# Notification
def test_more_than_16_ampere_a_phase_asks_first_and_less_tells_afterwards() -> None:
    assert checks(('approval = "invented-G99-2026-007"\n', ""))["wiring.grid-notification"].verdict == "cannot tell"
    small = (
        (', source_output = "16 A"', ""),
        ('source_output = "21.7 A", ', ""),
        ('approval = "invented-G99-2026-007"\n', ""),
    )
    sheet = (('output_current = "21.7 A"', 'output_current = "16 A"'),)
    found = checks(*small, of_sheets=sheet)["wiring.grid-notification"]
    assert found.verdict == "pass"
    assert "28 days" in found.condition


def test_the_form_holds_every_source_and_says_what_it_lacks() -> None:
    told = british_notice.notification(question())
    answers = {each.asked: each.answer for each in told.fields}
    assert answers["All sources: current per phase"].quantity == pytest.approx(37.7)
    assert answers["Source main/pv (there already): current per phase"].quantity == 16
    lacking = british_notice.notification(question(('account = "00 0000 0000 000"\n', "")))
    assert next(each.answer for each in lacking.fields if each.asked.startswith("Account")).missing


def test_under_an_edition_held_in_part_nothing_is_borrowed() -> None:
    found = checks(codes="uk-2024")
    assert found["wiring.assembly-rating/main"].verdict == "pass"
    with pytest.raises(NotInEdition, match="no clause is held"):
        checks(codes="uk-2026")


@pytest.mark.parametrize(("time", "told"), [("0.2 s", "pass"), ("0.4 s", "pass"), ("2 s", "fail")])
def test_an_inverter_stops_in_time_at_a_fault_on_its_own_circuit(time: str, told: str) -> None:
    found = checks(of_sheets=(('island_fault_time = "0.2 s"', f'island_fault_time = "{time}"'),))
    assert found["wiring.disconnection-island/battery-1"].verdict == told


def test_a_less_sensitive_device_asks_for_a_better_electrode() -> None:
    tt = ('earthing = "TN-C-S"', 'earthing = "TT"\nelectrode_resistance = "190 ohm"')
    assert checks(tt)["wiring.tt-electrode"].verdict == "pass"
    kitchen = 'rated = "{}", bidirectional = false }}, load = "2.2 kVA"'
    slow = (kitchen.format("30 mA"), kitchen.format("300 mA"))
    found = checks(tt, slow)["wiring.tt-electrode"]
    assert found.verdict == "fail"
    assert found.limit is not None
    assert found.limit.quantity == pytest.approx(50 / 0.3)
