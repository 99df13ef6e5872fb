"""The bill of materials follows from the design, and says what it does not know."""

import csv
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_job import demo_text, make_plan, v, wires, word

from standfast.equipment.read import read, shipped
from standfast.fieldwork.by_maker import same_thing, words
from standfast.fieldwork.materials import as_csv, materials
from standfast.fieldwork.plan import Plan, Run
from standfast.fieldwork.runs import cut_length, named_size
from standfast.sheet import missing


def amounts(plan: Plan, group: str) -> dict[str, str]:
    return {row.what: row.amount for row in materials(plan).of(group)}  # type: ignore[arg-type]


def with_run(plan: Plan, **changes: object) -> Plan:
    return plan._replace(runs=[plan.runs[0]._replace(**changes)])


def test_a_cut_is_the_run_and_what_is_left_at_both_ends(plan: Plan) -> None:
    run = plan.runs[0]
    free = sum(plan.practice.number(f"free_at_{end}").quantity for end in run.ends)
    cut = cut_length(plan.practice, run).quantity * 12
    assert run.length.quantity + free <= cut / 12 < run.length.quantity + free + 1 / 12
    assert cut == pytest.approx(round(cut))


def test_a_run_through_a_switch_has_free_length_on_both_sides_and_two_more_connectors(plan: Plan) -> None:
    there = plan.runs[0]._replace(through=("Island switch",))
    free = plan.practice.number("free_at_disconnect").quantity
    more = cut_length(plan.practice, there).quantity - cut_length(plan.practice, plan.runs[0]).quantity
    assert more == pytest.approx(2 * free)
    connectors = [row for row in materials(plan._replace(runs=[there])).rows if "connector" in row.what]
    assert [row.quantity.quantity for row in connectors if "EMT" in row.what] == [4]


def test_conductors_are_bought_by_size_and_colour_over_all_runs(plan: Plan) -> None:
    rows = materials(plan).of("conductors")
    assert [row.what.rpartition(", ")[2] for row in rows] == ["black", "red", "white", "green"]
    total = sum(cut_length(plan.practice, run).quantity for run in plan.runs)
    assert all(total <= row.quantity.quantity < total + 1 for row in rows)
    assert all(run.name in row.use for row in rows for run in plan.runs)


def test_a_longer_run_never_needs_less(plan: Plan) -> None:
    def bought(feet: float) -> list[float]:
        rows = materials(with_run(plan, length=v("L_max", feet, "ft"))).rows
        return [
            row.quantity.quantity for row in rows if row.group in ("conductors", "raceway") and not row.quantity.missing
        ]

    short, long = bought(11.0), bought(31.0)
    assert len(short) == len(long)
    assert all(a <= b for a, b in zip(short, long, strict=True))
    assert sum(short) < sum(long)


def test_sticks_couplings_and_straps_of_a_long_run(plan: Plan) -> None:
    long = with_run(plan, length=v("L_max", 34.1, "ft"))
    found = amounts(long, "raceway")
    assert [found[what] for what in found if "sticks" in what] == ["4"]
    assert [found[what] for what in found if "coupling" in what] == ["3"]
    assert [found[what] for what in found if "Strap" in what] == ["4"]


def test_flexible_conduit_comes_by_the_foot_without_couplings(plan: Plan) -> None:
    found = amounts(with_run(plan, raceway=word("raceway", "fmc"), length=v("L_max", 6.2, "ft")), "raceway")
    assert found["flexible metal conduit 3/4 in"] == "7 ft"
    assert not any("coupling" in what for what in found)


def test_plastic_conduit_brings_cement_aluminium_its_compound_and_large_wires_bushings(plan: Plan) -> None:
    inside = tuple(
        wire._replace(material=word("material", "al"), size=word("size", "1/0")) for wire in wires("1/0", ("line", 2))
    )
    found = amounts(with_run(plan, raceway=word("raceway", "pvc-40"), wires=inside), "raceway")
    assert {"PVC primer and cement", "Oxide-inhibiting compound", "Insulated bushing 3/4 in"} <= found.keys()
    assert not any("bushing" in what for what in amounts(plan, "raceway"))


def test_a_wet_run_brings_fittings_and_sealant_for_wet_places(plan: Plan) -> None:
    dry, wet = with_run(plan, wet=False), with_run(plan, wet=True)
    assert not any("wet places" in what for what in amounts(dry, "raceway"))
    assert any("wet places" in what for what in amounts(wet, "raceway"))
    inside = {role: sheet for role, sheet in plan.sheets.items() if role != "battery"}
    built_in = read(
        shipped()["demo-wall-10"].replace("terminals for a remote switch", "built in"), "battery.toml"
    ).sheet
    assert built_in is not None
    dry, wet = (each._replace(sheets={**inside, "battery": built_in}) for each in (dry, wet))
    assert len(amounts(wet, "sealing")) > len(amounts(dry, "sealing"))


def test_a_shutdown_switch_outside_asks_for_sealant(plan: Plan) -> None:
    assert any("Exterior sealant" in what for what in amounts(with_run(plan, wet=False), "sealing"))


def test_what_is_not_known_is_said_and_not_guessed(plan: Plan) -> None:
    unknown = plan.runs[0]._replace(
        length=missing("L_max", "ft", "routes.battery-run.length"), trade_size=missing("trade_size", "", "size first")
    )
    bill = materials(plan._replace(runs=[unknown]))
    assert {row.amount for row in bill.of("conductors")} == {"not known"}
    assert {"routes.battery-run.length", "size first"} <= set(bill.needs)


def test_fasteners_have_spares_and_the_placed_count(plan: Plan) -> None:
    row = materials(plan).of("fixing")[0]
    assert row.quantity.quantity == len(plan.held[0].spots) + 1
    assert "6 placed and 1 spare" in row.amount
    assert row.ground == "common practice"


def test_a_new_panel_brings_a_breaker_for_every_circuit_it_takes_over(plan: Plan) -> None:
    found = amounts(plan, "switchgear")
    assert found["Breaker 1-pole 20 A, family W"] == "3"
    assert found["Breaker 2-pole 60 A, family W"] == "1"
    assert found["Breaker 2-pole 30 A, family W"] == "1"


def test_the_breaker_of_the_battery_is_the_one_that_the_wiring_chose(plan: Plan) -> None:
    found = amounts(plan._replace(breakers={"battery-1": v("I_n", 40.0, "A")}), "switchgear")
    assert "Breaker 2-pole 40 A, family W" in found
    assert "Breaker 2-pole 30 A, family W" not in found


def test_a_detector_is_on_the_list_only_where_none_sounds_in_the_dwelling() -> None:
    known = 'detection = "heat detector, interconnected"'
    assert not materials(make_plan()).of("detection")
    alone = make_plan(demo_text().replace(known, 'detection = "none"'))
    assert [row.what.split(",")[0] for row in materials(alone).of("detection")] == ["Heat detector"]
    unknown = materials(make_plan(demo_text().replace(known, ""))).of("detection")
    assert len(unknown) == 1
    assert "find out" in unknown[0].use


def test_a_barrier_is_on_the_list_where_a_vehicle_reaches_the_unit() -> None:
    """What the check of the drawing says is what the van carries: one barrier where it fails, none where it passes."""
    assert not materials(make_plan()).of("vehicle protection")
    assert len(materials(make_plan()._replace(struck=True)).of("vehicle protection")) == 1


def test_what_the_maker_names_is_merged_with_the_same_thing(plan: Plan) -> None:
    bill = materials(plan)
    assert [row.what for row in bill.of("named by the maker")] == ["Conduit hub 3/4 in"]
    (lag,) = [row for row in bill.of("fixing") if row.what.startswith("Lag screw")]
    assert lag.what.endswith("with washer 7/8 in") and lag.use.endswith("the maker names 6")
    (switch,) = [row for row in bill.rows if "emergency shutdown" in row.what]
    assert switch.group == "switchgear" and switch.use.endswith("the maker names 1")


def test_a_hub_of_another_size_than_the_raceway_is_said(plan: Plan) -> None:
    small = with_run(plan, trade_size=word("trade_size", "1/2"))
    (hub,) = materials(small).of("named by the maker")
    assert "the raceway here is 1/2 in" in hub.use and "reducing bushing" in hub.use
    (fits,) = materials(plan).of("named by the maker")
    assert "reducing" not in fits.use and fits.ground == "data sheet"


def test_spaces_that_circuits_leave_are_closed_and_new_panels_are_screwed_on(plan: Plan) -> None:
    rows = materials(plan).rows
    (filler,) = [row for row in rows if row.what.startswith("Filler plate")]
    assert filler.quantity.quantity == 6
    assert any(row.what.startswith("Screws for Backup panel") for row in rows)


@given(st.text("abc xyz,1/2", max_size=12))
def test_a_thing_is_the_same_as_itself_and_as_itself_with_more_words(name: str) -> None:
    if words(name):
        assert same_thing(name, name) and same_thing(name, f"long {name} of steel")
        assert not same_thing(f"{name} other", name)


def test_what_only_custom_asks_is_marked(plan: Plan) -> None:
    bill = materials(plan)
    rows = [*bill.of("protective equipment"), *bill.of("sealing")]
    rows += [row for row in bill.rows if row.what.startswith("Backing board")]
    assert len(rows) > 6 and {row.ground for row in rows} == {"common practice"}


def test_labels_are_counted(plan: Plan) -> None:
    assert materials(plan).of("labels")[0].quantity.quantity == len(plan.labels)
    assert not materials(plan._replace(labels=[])).of("labels")


def test_every_quantity_can_say_where_it_comes_from(plan: Plan) -> None:
    for row in materials(plan).rows:
        assert row.what
        assert row.use
        assert row.quantity.how or row.quantity.clause, row.what


def test_csv_holds_every_row_and_reads_back(plan: Plan) -> None:
    bill = materials(plan)
    rows = list(csv.reader(StringIO(as_csv(bill), newline="")))
    assert rows[0] == ["group", "what", "amount", "use", "basis", "of", "box"]
    assert [row[1] for row in rows[1:]] == [row.what for row in bill.rows]


@pytest.mark.parametrize(("size", "text"), [("10", "10 AWG"), ("4/0", "4/0 AWG"), ("250", "250 kcmil"), ("1", "1 AWG")])
def test_sizes_are_named(size: str, text: str) -> None:
    assert named_size(size) == text


def test_every_raceway_of_the_survey_has_its_supports(plan: Plan) -> None:
    table = plan.practice.table("supports")
    kinds = {str(row["raceway"]) for row in table.rows}
    run: Run = plan.runs[0]
    for kind in kinds:
        assert amounts(with_run(plan, raceway=word("raceway", kind), wires=run.wires), "raceway")
