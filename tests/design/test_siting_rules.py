"""Rules of siting beyond the published layouts: every word, both readings, missing facts."""

from typing import Any

import pytest

from standfast.design.siting.layout import Layout, Thing, Unit
from standfast.design.siting.rules import judge
from standfast.design.siting.solid import Solid, Span
from standfast.faults import NotInEdition
from standfast.proof.inputs import BadCase, Inputs
from standfast.proof.siting import layout, limit
from standfast.shelf import adoption

US, US24, CA = "us-irc2021-nfpa855-2023", "us-irc2024", "us-ca-crc2022"
UK, AU, AU1 = "uk-pas63100-2024", "au-asnzs5139-2019", "au-asnzs5139-2019-a1"
BOX = {"w_mm": 700, "h_mm": 1100, "d_mm": 200}


def judged(
    adoption: str,
    rules: list[str],
    units: list[dict[str, Any]],
    features: list[dict[str, Any]] | None = None,
    view: str = "wall elevation",
    **facts: Any,
) -> dict[str, Any]:
    case = {"adoption": adoption, "rules": rules, "view": view, "units": units, "features": features or []}
    return layout(Inputs({**case, "facts": facts}))


def outdoors(x: float = 0, y: float = 600, **more: Any) -> dict[str, Any]:
    return {"x_mm": x, "y_mm": y, **BOX, "place": "exterior_wall", **more}


def garage(x: float = 0, y: float = 600, **more: Any) -> dict[str, Any]:
    return outdoors(x, y, **more) | {"place": "attached_garage"}


WINDOW = {"kind": "window", "x_mm": 1350, "y_mm": 2350, "w_mm": 900, "h_mm": 600, "leads_into_dwelling": True}


def test_a_rectangle_refuses_what_the_true_distance_allows() -> None:
    assert judged(US, ["US-LOC-EXT-3FT"], [outdoors()], [WINDOW])["verdict"] == "pass"
    found = judged(US, ["US-LOC-EXT-3FT"], [outdoors()], [WINDOW], zone_shape="rectangle")
    assert (found["verdict"], found["actual_mm"]) == ("fail", 650.0)


def test_the_printed_millimetres_allow_what_feet_refuse() -> None:
    beside = WINDOW | {"x_mm": 1614, "y_mm": 1000}
    assert judged(US, ["US-LOC-EXT-3FT"], [outdoors()], [beside], limits_in="mm")["margin_mm"] == 0
    assert judged(US, ["US-LOC-EXT-3FT"], [outdoors()], [beside], limits_in="ft_in")["verdict"] == "fail"


def test_an_opening_of_unknown_kind_is_never_a_pass() -> None:
    unit = Unit("unit-1", Solid(Span(0, 7000), Span(0, 2000), Span(6000, 17_000)), place="exterior wall")
    window = Thing("window-1", "window", Solid(Span(50_000, 60_000), Span(0, 0), Span(10_000, 20_000)))
    (check,) = judge(adoption("us-2021"), Layout((unit,), (window,)), ["opening-clearance"])
    assert (check.verdict, check.id) == ("cannot tell", "siting.opening-clearance/unit-1/window-1")
    assert "window 1 leads directly into the dwelling" in check.reason


def test_an_opening_asks_nothing_of_a_unit_indoors() -> None:
    assert judged(US, ["US-LOC-EXT-3FT"], [garage()], [WINDOW | {"x_mm": 800, "y_mm": 600}]) == {"verdict": "pass"}


def test_two_rules_that_tie_bind_neither() -> None:
    near = WINDOW | {"x_mm": 900, "y_mm": 1000}
    found = judged(CA, ["CA-DOORWIN-DIRECT", "US-LOC-EXT-3FT"], [outdoors()], [near], limits_in="ft_in")
    assert found["verdict"] == "fail" and "binding_rule" not in found and found["actual_mm"] == 200


def test_a_cap_on_the_dwelling_counts_every_place() -> None:
    units = [{"kwh": 13.5, "place": place} for place in ("attached_garage", "exterior_wall") for _ in range(5)]
    rules = ["US-E-ATTGAR-80", "US-E-EXTWALL-80"]
    assert judged(US, rules, units, view="none")["actual_kwh"] == 67.5
    capped = judged(US, rules, units, view="none", energy_counted="per_dwelling")
    assert (capped["verdict"], capped["actual_kwh"], capped["margin_kwh"]) == ("fail", 135, -55)


def test_detached_buildings_share_one_limit() -> None:
    units = [{"kwh": 20, "place": place} for place in ("detached_garage", "detached_shed") for _ in range(3)]
    assert judged(US, ["US-E-DETGAR-80"], units, view="none")["actual_kwh"] == 120


@pytest.mark.parametrize(
    ("place", "beyond", "verdict"),
    [
        ("bedroom", None, "fail"),
        ("habitable_room", None, "fail"),
        ("closet", "hall", "pass"),
        ("closet", "bedroom", "fail"),
    ],
)
def test_rooms_where_nobody_may_sleep_beside_a_unit(place: str, beyond: str | None, verdict: str) -> None:
    unit = {"place": place} | ({"place_opens_into": beyond} if beyond else {})
    assert judged(US, ["US-LOC-NO-SLEEP"], [unit], view="none")["verdict"] == verdict


def test_bare_framing_gets_board_first() -> None:
    found = judged(US, ["US-LOC-UTIL-GYP"], [{"place": "utility_closet"}], view="none", room_lining="bare_studs")
    assert found == {"verdict": "pass", "condition": "type_x_gypsum_5_8_in", "binding_rule": "US-LOC-UTIL-GYP"}
    for lining in ("finished", "type_x_gypsum_5_8_in", "noncombustible"):
        found = judged(US, ["US-LOC-UTIL-GYP"], [{"place": "basement"}], view="none", room_lining=lining)
        assert found == {"verdict": "pass"}
    with pytest.raises(BadCase, match="lined"):
        judged(US, ["US-LOC-UTIL-GYP"], [{"place": "basement"}], view="none")


PATH = {"kind": "garage_door_projection", "x_mm": 600, "w_mm": 4800, "clear_height_mm": 2250}


@pytest.mark.parametrize("rules", [["CA-IMPACT-PATH"], ["CA-IMPACT-PATH", "CA-IMPACT-EXC-76"]])
def test_a_low_door_lowers_the_driving_path(rules: list[str]) -> None:
    unit = garage(2000, 1000)
    found = judged(CA, rules, [unit], [PATH], garage_wall="back")
    assert "condition" not in found and found["required_mm"] == 914.4
    tall = PATH | {"clear_height_mm": 2290}
    found = judged(CA, rules, [unit], [tall], garage_wall="back")
    assert found["condition"] == "vehicle_protection" and found["required_mm"] == 1219.2


def test_beside_the_path_only_low_units_are_judged() -> None:
    assert judged(US24, ["CA-IMPACT-BACK-36"], [garage(6000, 1300)], [PATH], garage_wall="back") == {"verdict": "pass"}
    found = judged(US24, ["CA-IMPACT-BACK-36"], [garage(6320, 300)], [PATH], garage_wall="back")
    assert (found["actual_mm"], found["margin_mm"]) == (920, pytest.approx(5.6))
    assert judged(US24, ["CA-IMPACT-BACK-36"], [garage(6000, 300)], [PATH], garage_wall="side") == {"verdict": "pass"}


PANEL = {"kind": "panel", "x_mm": 1000, "y_mm": 1000, "w_mm": 360, "h_mm": 800, "d_mm": 100}


def test_two_units_together_can_block_a_panel() -> None:
    found = judged(US, ["NEC-WS-WIDTH"], [garage(150), garage(1500)], [PANEL])
    assert (found["verdict"], found["actual_mm"]) == ("fail", 650)
    flat = {"d_mm": 100}
    assert judged(US, ["NEC-WS-WIDTH"], [garage(150) | flat, garage(1500) | flat], [PANEL]) == {"verdict": "pass"}
    wide = PANEL | {"w_mm": 900}
    found = judged(US, ["NEC-WS-WIDTH"], [garage(150), garage(2000)], [wide])
    assert (found["required_mm"], found["actual_mm"]) == (900, 1150)
    assert judged(US, ["NEC-WS-WIDTH"], [garage(150)], [PANEL]) == {"verdict": "pass"}


def test_working_depth_hangs_on_volts_and_on_work_on_live_parts() -> None:
    unit, face = {"x_mm": 0, "y_mm": 0, "w_mm": 700, "d_mm": 200}, {"kind": "opposite_face", "y_mm": 1100}
    rules = ["NEC-706-SPACES", "NEC-WS-DEPTH"]

    def plan(**facts: Any) -> dict[str, Any]:
        return judged(US, rules, [unit], [face], "plan", **facts)

    found = plan(likely_worked_on_live=True, volts_to_ground_v=120)
    assert (found["binding_rule"], found["actual_mm"], found["verdict"]) == ("NEC-WS-DEPTH", 900, "fail")
    assert plan(likely_worked_on_live=False, volts_to_ground_v=120) == {"verdict": "pass"}
    with pytest.raises(BadCase, match="what faces"):
        plan(likely_worked_on_live=True, volts_to_ground_v=277)
    with pytest.raises(BadCase, match="live"):
        plan(volts_to_ground_v=120)


def test_flood_and_ignition_heights() -> None:
    level = {"kind": "base_flood_level", "y_mm": 400}
    found = judged(US, ["US-FLOOD-EQUIP"], [outdoors()], [level], flood_hazard_area=True)
    assert (found["required_mm"], found["actual_mm"]) == (pytest.approx(704.8), 600)
    assert judged(US, ["US-FLOOD-EQUIP"], [outdoors()], [level], flood_hazard_area=False) == {"verdict": "pass"}
    assert judged(US, ["US-GARAGE-18IN"], [garage(0, 400)]) == {"verdict": "pass"}
    assert judged(US, ["US-GARAGE-18IN"], [garage(0, 400)], m1307_3_applied=True)["margin_mm"] == pytest.approx(-57.2)


def test_an_unlisted_battery_needs_approval_before_distances_count() -> None:
    shed = {"kind": "shed", "x_mm": 0, "y_mm": 0, "w_mm": 2400, "d_mm": 1800}
    wall = {"kind": "house_wall", "x_mm": 3000, "y_mm": -500, "d_mm": 4000}
    unit = {"x_mm": 400, "y_mm": 300, "w_mm": 700, "d_mm": 200, "place": "detached_shed"}

    def asked(**facts: Any) -> dict[str, Any]:
        return judged(US, ["US-EVSHED-5FT"], [unit], [shed, wall], "plan", **facts)

    unlisted = {"battery": "unlisted_repurposed_vehicle"}
    assert asked(**unlisted, authority_approved=True)["actual_mm"] == 600
    assert asked(**unlisted, authority_approved=False) == {"verdict": "fail", "binding_rule": "US-EVSHED-5FT"}
    assert asked(battery="listed") == {"verdict": "pass"}


def test_gas_is_measured_to_a_corner() -> None:
    vent = {"kind": "gas_regulator_vent", "x_mm": 1300, "y_mm": 2300}
    assert judged(US, ["US-GAS-3FT"], [outdoors()], [vent])["actual_mm"] == pytest.approx(848.528, abs=1e-3)
    cylinder = {"kind": "gas_cylinder", "x_mm": 2000, "y_mm": 0, "w_mm": 300, "h_mm": 600, "filling": "in_situ"}
    assert judged(AU, ["AU-GAS-CYL-1500"], [outdoors()], [cylinder]) == {"verdict": "pass"}
    cylinder["filling"] = "exchange"
    assert judged(AU, ["AU-GAS-CYL-1500"], [outdoors()], [cylinder])["margin_mm"] == -200


@pytest.mark.parametrize(
    ("rule", "place", "facts", "verdict"),
    [
        ("UK-NO-LOFT", "loft", {}, "fail"),
        ("UK-NO-LOFT", "roof_space", {}, "fail"),
        ("UK-NO-LOFT", "void", {}, "fail"),
        ("UK-NO-LOFT", "utility_room", {}, "pass"),
        ("UK-NO-SLEEP", "bedroom", {}, "fail"),
        ("UK-NO-ESCAPE", "corridor", {"escape_route": "unprotected"}, "fail"),
        ("UK-NO-ESCAPE", "corridor", {"escape_route": "protected"}, "pass"),
        ("UK-NO-PROTECTED", "corridor", {"escape_route": "protected"}, "fail"),
        ("UK-SEP-INDOOR", "utility_room", {"fire_separation": False}, "fail"),
        ("UK-SEP-INDOOR", "exterior_wall", {}, "pass"),
        ("UK-DETECT", "utility_room", {"detection_interlinked": False}, "fail"),
        ("UK-OUTDOOR-FIRST", "utility_room", {"outdoors_practicable": False, "reason_recorded": False}, "fail"),
    ],
)
def test_british_places(rule: str, place: str, facts: dict[str, Any], verdict: str) -> None:
    assert judged(UK, [rule], [{"place": place}], view="none", **facts)["verdict"] == verdict


def test_a_missing_fact_about_a_place_is_never_a_pass() -> None:
    for rule in ("UK-NO-ESCAPE", "UK-NO-PROTECTED", "UK-SEP-INDOOR", "UK-DETECT"):
        with pytest.raises(BadCase, match="not known"):
            judged(UK, [rule], [{"place": "utility_room"}], view="none")


def test_the_australian_zone_is_one_rectangle() -> None:
    rules = ["AU-WINDOW-SIDE-600", "AU-WINDOW-ABOVE-900"]
    window = {"kind": "window", "w_mm": 900, "h_mm": 600, "opens_into": "habitable_room"}
    diagonal = judged(AU1, rules, [outdoors()], [window | {"x_mm": 1200, "y_mm": 2400}])
    assert (diagonal["verdict"], diagonal["binding_rule"], diagonal["margin_mm"]) == (
        "fail",
        "AU-WINDOW-SIDE-600",
        -100,
    )
    tie = judged(AU1, rules, [outdoors()], [window | {"x_mm": 1200, "y_mm": 2500}])
    assert (tie["verdict"], tie["margin_mm"]) == ("fail", -100) and "binding_rule" not in tie
    below = judged(AU1, rules, [outdoors()], [window | {"x_mm": 100, "y_mm": 0, "h_mm": 300}])
    assert below["verdict"] == "fail"
    other = window | {"x_mm": 800, "y_mm": 700, "opens_into": "non_habitable_room"}
    assert judged(AU1, rules, [outdoors()], [other]) == {"verdict": "pass"}


def test_a_wall_that_can_burn_needs_a_barrier_of_the_right_size() -> None:
    facts = {"wall_build": "timber_frame", "room_behind": "kitchen"}
    rules = ["AU-BARRIER", "AU-BARRIER-EXTENT"]
    assert judged(AU, rules, [outdoors()], **facts) == {"verdict": "fail", "binding_rule": "AU-BARRIER"}
    sheet = {"kind": "barrier", "x_mm": -650, "y_mm": 500, "w_mm": 2000, "h_mm": 1900, "material": "tile"}
    found = judged(AU, rules, [outdoors()], [sheet], ceiling_mm=2400, **facts)
    assert (found["verdict"], found["required_mm"], found["actual_mm"]) == ("pass", 700, 700)
    assert judged(AU, rules, [outdoors()], [sheet], **facts)["margin_mm"] == -200
    assert judged(AU, rules, [outdoors()], wall_build="masonry", room_behind="bedroom") == {"verdict": "pass"}
    assert judged(AU, rules, [outdoors()], wall_build="timber_frame", room_behind="garage") == {"verdict": "pass"}
    with pytest.raises(BadCase, match="made of"):
        judged(AU, rules, [outdoors()], room_behind="bedroom")


def test_the_amendment_allows_a_wide_exit_on_a_condition_only_where_it_is_wide() -> None:
    door = {"kind": "door", "x_mm": 1000, "y_mm": 0, "w_mm": 900, "h_mm": 2100, "is_exit": True}
    assert judged(AU1, ["AU-EXIT-600"], [garage()], [door])["verdict"] == "fail"
    assert judged(AU1, ["AU-EXIT-600"], [garage()], [door | {"w_mm": 901}])["condition"] == "remaining_opening_enough"
    assert judged(AU1, ["AU-EXIT-600"], [garage()], [door | {"x_mm": 1300, "w_mm": 2400}])["margin_mm"] == 0


def test_a_row_uses_both_sides_of_an_opening() -> None:
    units = [{"y_mm": 600, "w_mm": 700, "h_mm": 1100, "place": "exterior_wall"} for _ in range(2)]
    window = {"kind": "window", "x_mm": 2000, "y_mm": 1000, "w_mm": 600, "h_mm": 900, "leads_into_dwelling": True}
    facts = {"arrangement": "side_by_side", "wall_from_mm": 0, "wall_to_mm": 4600}
    assert judged(US, ["US-SPACING-3FT", "US-LOC-EXT-3FT"], units, [window], **facts)["verdict"] == "pass"
    facts["wall_to_mm"] = 4200
    assert judged(US, ["US-SPACING-3FT", "US-LOC-EXT-3FT"], units, [window], **facts)["verdict"] == "fail"


def test_words_that_nobody_knows_are_refused() -> None:
    for bad in ({"adoption": "us-1999"}, {"rules": ["NOBODY"]}, {"rules": []}, {"view": "side"}):
        case = {"adoption": US, "rules": ["US-E-UNIT-20"], "view": "none", "units": [{"kwh": 5, "place": "loft"}]}
        with pytest.raises(BadCase):
            layout(Inputs({**case, "features": [], "facts": {}, **bad}))
    with pytest.raises(BadCase, match="nothing reads"):
        judged(US, ["US-E-UNIT-20"], [{"kwh": 5, "colour": "white"}], view="none")
    with pytest.raises(BadCase, match="place"):
        judged(US, ["US-E-UNIT-20"], [{"kwh": 5, "place": "ship"}], view="none")
    with pytest.raises(BadCase, match="rated energy"):
        judged(US, ["US-E-UNIT-20"], [{"place": "loft"}], view="none")


def test_a_rule_that_no_book_in_force_states_is_refused() -> None:
    with pytest.raises(NotInEdition, match="states"):
        judged(UK, ["US-GAS-3FT"], [outdoors()])
    with pytest.raises(NotInEdition, match="holds"):
        limit(Inputs({"adoption": AU, "quantity": "zone_front"}))


def test_limits_of_a_thin_adoption_come_from_another_book_in_force() -> None:
    assert limit(Inputs({"adoption": US24, "quantity": "unit_spacing"})) == {"limit_ft": 3, "limit_printed_mm": 914}
    assert limit(Inputs({"adoption": CA, "quantity": "scope_energy"})) == {"limit_kwh": 1}
    assert limit(Inputs({"adoption": UK, "quantity": "opening_clearance"})) == {"limit_mm": 1000}
    assert limit(Inputs({"adoption": US, "quantity": "repurposed_battery_clearance"}))["limit_ft"] == 5
