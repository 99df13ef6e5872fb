"""Siting of the unit of a job: place, checks, remedies, missing facts, other walls."""

from importlib.resources import files
from typing import Any

import pytest

from standfast.design.siting.choosing import Question, cheapest
from standfast.design.siting.frames import Frame, moved
from standfast.design.siting.keepouts import Keepout, keepouts
from standfast.design.siting.layout import Facts, Layout, Maker, Room, Thing, Unit
from standfast.design.siting.placed import Siting
from standfast.design.siting.rules import judge
from standfast.design.siting.solid import Solid, Span
from standfast.design.siting.spaces import free_places, spaces, zones
from standfast.design.siting.whole import in_force, site, why_not
from standfast.equipment.read import DataSheet, find, read, shipped
from standfast.faults import BadFormula
from standfast.sheet import Check, Value, given, missing
from standfast.shelf import adoption
from standfast.survey import read as read_job

US = adoption("us-2021")
DEMO = (files("standfast.foreman") / "demos" / "one_wall" / "job.toml").read_text("utf-8")
ROLES = {"fastener": "demo-lag-5-16", "disconnect": "demo-disconnect-60", "island_switch": "demo-island-switch"}


def sited(*swaps: tuple[str, str], sheet: tuple[tuple[str, str], ...] = ()) -> Siting:
    """The demo job with words changed, sited."""
    text = DEMO
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new, 1)
    reading = read_job(text)
    assert reading.survey is not None
    assert not reading.faults
    battery = shipped()["demo-wall-10"]
    for old, new in sheet:
        assert old in battery, old
        battery = battery.replace(old, new, 1)
    found = read(battery, "battery.toml").sheet
    assert found is not None
    return site(US, reading.survey, {"battery": found, **{role: _sheet(id) for role, id in ROLES.items()}})


def _sheet(id: str) -> DataSheet:
    found = find(id).sheet
    assert found is not None
    return found


def check(siting: Siting, id: str) -> Check:
    return next(each for each in siting.checks if each.id == f"siting.{id}")


@pytest.fixture(scope="module")
def demo() -> Siting:
    return sited()


def test_the_demo_unit_stands_free_with_its_holes_in_the_middle_of_studs(demo: Siting) -> None:
    assert [each.id for each in demo.checks if each.open] == []
    assert demo.places[0].wall == "garage-east"
    studs = demo.judged[0].layout.room
    assert studs is not None and studs.studs is not None
    for across, _ in demo.places[0].holes:
        assert min(abs(across * 10 - each) for each in studs.studs.centres) < 1
    assert len({each.id for each in demo.checks}) == len(demo.checks)


def test_every_check_has_a_clause_and_a_number_or_a_reason(demo: Siting) -> None:
    for each in demo.checks:
        assert each.clause.clause
        assert each.demand is not None or each.verdict in ("pass", "not applicable")
    clear = check(demo, "maker-clearance/battery-1/battery-disconnect")
    assert clear.demand is not None and clear.limit is not None
    assert [value.symbol for value in clear.values()][:2] == ["clear_mm", "t_placing"]


def test_the_margin_is_taken_at_the_bad_end_of_the_tolerance() -> None:
    loose, tight = sited(('placing = "10 mm"', 'placing = "25 mm"')), sited(('placing = "10 mm"', 'placing = "5 mm"'))
    id = "working-depth/battery-1/opposite-face"
    one, other = check(loose, id), check(tight, id)
    assert one.margin is not None and other.margin is not None
    assert other.margin - one.margin == pytest.approx(20)


def test_a_wished_place_is_kept_even_where_it_is_refused() -> None:
    siting = sited(('wall = "garage-east"\nhandle', 'wall = "garage-east"\nleft = "8 ft"\nbottom = "40 in"\nhandle'))
    assert siting.places[0].left.quantity == pytest.approx(2438.4)
    assert check(siting, "overlap/battery-1/battery-disconnect").verdict == "fail"


def test_why_not_here_names_every_rule_and_by_how_much(demo: Siting) -> None:
    found = {each.id: each for each in why_not(US, demo, "battery-1", 1050, 1000)}
    assert found["siting.overlap/battery-1/main-panel"].margin is not None
    assert "siting.dedicated-space/battery-1/main-panel" in found
    assert "siting.working-width/main-panel" in found
    assert "siting.studs/battery-1" in found
    for each in found.values():
        assert each.margin is None or each.margin < 0


@pytest.mark.parametrize(
    ("swap", "id", "verdict", "word"),
    [
        (('other_storage = "0 kWh"\n', ""), "energy-attached-garage", "cannot tell", "other_storage"),
        (('other_storage = "0 kWh"', 'other_storage = "70 kWh"'), "energy-attached-garage", "fail", ""),
        (("separated = true", "separated = false"), "garage-separation/battery-1", "fail", "not separated"),
        (("separated = true\n", ""), "garage-separation/battery-1", "cannot tell", "separated"),
        (('kind = "attached garage"', 'kind = "bedroom"'), "forbidden-place/battery-1", "fail", "bedroom"),
        (('kind = "attached garage"', 'kind = "laundry"'), "permitted-place/battery-1", "fail", "laundry"),
        (
            ('detection = "heat detector, interconnected"', 'detection = "none"'),
            "fire-detection/battery-1",
            "fail",
            "",
        ),
        (('facing = "21 ft"', 'facing = "40 in"'), "working-depth/battery-1/opposite-face", "fail", ""),
        (('facing = "21 ft"\n', ""), "working-depth/battery-1", "cannot tell", "facing"),
        (("flood_hazard_area = false\n", ""), "flood-level/battery-1", "cannot tell", "flood"),
        (('ambient_high = "104 °F"', 'ambient_high = "130 °F"'), "temperature/battery-1/high", "fail", ""),
        (('ambient_high = "104 °F"', 'ambient_high = "not known"'), "temperature/battery-1/high", "cannot tell", ""),
        (('first_stud = "14-1/2 in"\n', ""), "studs/battery-1", "cannot tell", "first_stud"),
        (('wall = "side wall"', 'wall = "end wall"'), "vehicle-damage/battery-1", "fail", "vehicle can hit it"),
        (('depth = "4 in"', ""), "working-width/main-panel", "cannot tell", "stands out"),
    ],
)
def test_each_fact_decides_and_a_missing_one_is_never_a_pass(
    swap: tuple[str, str], id: str, verdict: str, word: str
) -> None:
    found = check(sited(swap), id)
    assert found.verdict == verdict
    assert word in found.reason


@pytest.mark.parametrize(
    ("distance", "verdict"),
    [('protection_distance = "4 ft"', "pass"), ('protection_distance = "2 ft"', "fail"), ("", "cannot tell")],
)
def test_a_protected_end_wall_passes_on_that_condition(distance: str, verdict: str) -> None:
    protected = f'clear_height = "7 ft"\nprotection = "bollard"\n{distance}'
    swaps = (('wall = "side wall"', 'wall = "end wall"'), ('clear_height = "7 ft"\nprotection = "none"', protected))
    siting = sited(*swaps)
    found = check(siting, "vehicle-damage/battery-1")
    assert (found.verdict, found.condition) == ("pass", "vehicle_protection")
    assert check(siting, "protection-depth/battery-1").verdict == verdict


@pytest.mark.parametrize(
    ("swap", "id"),
    [
        (('left = "6 in"', 'left = "not known"'), "maker-clearance/battery-1/left"),
        (('switch_height = "36 in"\n', ""), "handle-height/battery-1"),
        (('temperature_max = "122 °F"\n', ""), "temperature/battery-1/high"),
        (('rated = "10.2 kWh"\n', ""), "unit-energy/battery-1"),
        (('chemistry = "lithium iron phosphate"', 'chemistry = "lead acid"'), "hydrogen-ventilation/battery-1"),
    ],
)
def test_a_fact_that_the_data_sheet_lacks_cannot_be_told(swap: tuple[str, str], id: str) -> None:
    assert check(sited(sheet=(swap,)), id).verdict == "cannot tell"


def test_a_unit_without_a_size_is_refused() -> None:
    with pytest.raises(BadFormula, match="width"):
        sited(sheet=(('width = "24 in"\n', ""),))


def test_without_a_wished_wall_the_one_with_fewest_open_checks_is_chosen() -> None:
    siting = sited(('wall = "garage-east"\nhandle', "handle"))
    assert [each.wall for each in siting.walls] == ["garage-east", "garage-north"]
    open = {each.wall: each.open for each in siting.walls}
    assert open[siting.places[0].wall] == min(open.values())


def test_a_face_that_is_not_placed_in_plan_is_not_forgotten() -> None:
    siting = sited(('start = ["42 ft 6 in", "51 ft 6 in"]\nend = ["63 ft 6 in", "51 ft 6 in"]\n', ""))
    found = check(siting, "walls-in-plan/battery-1/garage-north")
    assert found.verdict == "cannot tell" and "start and end" in found.reason


def test_things_on_the_next_wall_are_seen_from_this_one(demo: Siting) -> None:
    heater = next(each for each in demo.judged[0].layout.things if each.id == "water-heater")
    assert heater.solid == Solid(Span(0, 6604), Span(2032, 7620), Span(4572, 19812))
    assert not heater.on_wall


def test_a_wall_askew_sees_a_box_that_is_never_farther_away() -> None:
    from fractions import Fraction
    from math import hypot, sqrt

    straight = Frame(Fraction(0), Fraction(0), (1.0, 0.0))
    askew = Frame(Fraction(1000), Fraction(500), (1 / sqrt(2), 1 / sqrt(2)))
    solid = Solid(Span(200, 800), Span(0, 300), Span(0, 10))
    box = moved(solid, askew, straight)
    assert box.x is not None and box.y is not None
    for across in (200, 500, 800):
        for out in (0, 150, 300):
            x, y = straight.here(askew.plan(across, out))
            assert box.x.low <= x <= box.x.high and box.y.low <= y <= box.y.high
            assert hypot(x, y) >= 0


# The edges of single rules, in keep-out and check alike


def mm(number: float) -> Value:
    return given("x", number, "mm", "test")


def bare(*things: Thing, **facts: Any) -> Layout:
    words = given("w", "indoors and outdoors", "", "test")
    free = {"left": mm(100), "right": mm(150), "above": mm(300), "below": mm(200), "front": mm(900)}
    maker = Maker(free, mm(0), mm(2000), mm(100), words, mm(0), mm(50), words, words)
    unit = Unit("battery-1", Solid(None, Span(0, 2000), Span(0, 9000)), 6000, place="exterior wall", maker=maker)
    room = Room(missing("d", "", "x"), False, missing("p", "", "x"), missing("p", "mm", "x"), mm(40), mm(0))
    known = Facts(wall_from=0, wall_to=100_000, ceiling=40_000, placing=mm(10), **facts)
    return Layout((unit,), things, known, room)


def both(layout: Layout, rule: str, left: int, bottom: int) -> tuple[bool, bool]:
    """Whether keep-out and check allow a place."""
    (unit,) = layout.units
    asked = [each for each in keepouts(in_force(US, layout), layout, unit) if each.rule == rule]
    free = not any(each.refuses(Span(left, left + 6000), Span(bottom, bottom + 9000)) for each in asked)
    solid = Solid(Span(left, left + 6000), unit.solid.y, Span(bottom, bottom + 9000))
    checks = judge(US, layout._replace(units=(unit._replace(solid=solid),)), [rule])
    return free, not any(each.verdict == "fail" for each in checks)


BODY = Thing("box", "water heater", Solid(Span(50_000, 55_000), Span(0, 4000), Span(14_000, 20_000)))


@pytest.mark.parametrize(
    ("left", "bottom"),
    [
        (50_000 - 1500 - 100 - 6000, 15_000),
        (55_000 + 1000 + 100, 15_000),
        (50_000, 20_000 + 2000 + 100),
        (50_000, 3900),
    ],
    ids=["left of it", "right of it", "above it", "below it"],
)
def test_the_makers_space_is_exact_on_every_side(left: int, bottom: int) -> None:
    low = 3900 + 9000 + 3000 + 100 if bottom == 3900 else 14_000
    layout = bare(BODY._replace(solid=BODY.solid._replace(z=Span(low, 20_000))))
    assert both(layout, "maker-clearance", left, bottom) == (True, True)
    around = [both(layout, "maker-clearance", left + x, bottom + z) for x, z in ((1, 0), (-1, 0), (0, 1), (0, -1))]
    assert around.count((False, False)) == 1
    assert around.count((True, True)) == 3


def test_a_door_leaf_sweeps_a_quarter_disc_cut_at_the_depth_of_the_unit() -> None:
    at = Solid(Span(0, 0), Span(6000, 6000), Span(0, 20_000))
    door = Thing("leaf", "door leaf", at, leaf=8000, closed_towards="minus y", opens_towards="plus x")
    # at the depth of 200 mm the hinge is 400 mm away: sqrt(810² − 400²) = 704.3… mm along the wall
    assert both(bare(door), "door-swing", 7044, 5000) == (True, True)
    assert both(bare(door), "door-swing", 7043, 5000) == (False, False)
    assert both(bare(door), "door-swing", 0, 20_000) == (True, True)


def test_an_opening_round_the_corner_counts_by_its_true_distance() -> None:
    window = Thing(
        "window", "window", Solid(Span(0, 0), Span(7000, 12_000), Span(0, 20_000)), leads_into_dwelling=True,
        on_wall=False,
    )  # fmt: skip
    # out of the wall's plane it is 500 mm away: sqrt(924.4² − 500²) = 777.5… mm along the wall
    assert both(bare(window), "opening-clearance", 7776, 5000) == (True, True)
    assert both(bare(window), "opening-clearance", 7775, 5000) == (False, False)


def test_a_slot_exactly_as_wide_as_the_unit_is_found() -> None:
    high = Span(-(10**9), 10**9)
    sides = [Keepout("a", "l", Span(-(10**9), 5370), high), Keepout("a", "r", Span(11_430, 10**9), high)]
    found = cheapest(Question(6060, 9000, sides, (0, 0)))
    assert found is not None and found.left == 5370
    assert cheapest(Question(6061, 9000, sides, (0, 0))) is None


# New things of the wall beside other things of it

OUTLET = """[[walls.obstacles]]
id = "outlet"
"""


def beside_the_outlet(kind: str, left: str, bottom: str, height: str = "10 in", state: str = "existing") -> Siting:
    """The demo with one more thing on the wall of the unit."""
    placed = f'left = "{left}"\nbottom = "{bottom}"\nwidth = "6 in"\nheight = "{height}"\ndepth = "3 in"\n'
    more = f'[[walls.obstacles]]\nid = "one-more"\nkind = "{kind}"\n{placed}state = "{state}"\n\n'
    return sited((OUTLET, more + OUTLET))


def test_each_new_thing_is_judged_once_with_every_other_thing_of_the_wall(demo: Siting) -> None:
    pairs = [each.id.split("/")[1:] for each in demo.checks if each.id.startswith("siting.overlap/")]
    things = [pair for pair in pairs if pair[0] != "battery-1"]
    old, new = {"main-panel", "outlet"}, {"backup-panel", "island-switch", "battery-disconnect"}
    assert all(one in new for one, _ in things)
    every = {frozenset((one, other)) for one in new for other in new | old if one != other}
    assert {frozenset(pair) for pair in things} == every and len(things) == len(every) == 9
    assert check(demo, "overlap/backup-panel/island-switch").margin == pytest.approx(2 * 25.4 - 10)


def test_a_new_panel_on_another_thing_fails_by_how_far_it_overlaps() -> None:
    # it reaches from 1016 mm to 1384.3 mm, the old panel from 1041.4 mm to 1409.7 mm, and higher both ways
    siting = sited(('left = "76 in"', 'left = "1016.0 mm"'))
    found = check(siting, "overlap/backup-panel/main-panel")
    assert found.verdict == "fail"
    assert found.margin == pytest.approx(-(1384.3 - 1041.4) - 10)
    assert check(siting, "overlap/backup-panel/island-switch").verdict == "pass"


@pytest.mark.parametrize(("left", "verdict"), [("2298.6 mm", "fail"), ("2308.7 mm", "pass"), ("2308.5 mm", "fail")])
def test_new_things_stand_apart_by_the_placing_tolerance(left: str, verdict: str) -> None:
    # the right edge of the new panel is at 76 in + 14-1/2 in = 2298.7 mm, the tolerance 10 mm
    siting = sited(('left = "106 in"', f'left = "{left}"'))
    assert check(siting, "overlap/backup-panel/battery-disconnect").verdict == verdict


def test_two_old_things_on_each_other_are_not_for_the_job_to_judge() -> None:
    siting = beside_the_outlet("junction box", "42 in", "50 in")
    ids = {each.id for each in siting.checks}
    assert "siting.overlap/backup-panel/one-more" in ids
    assert not {"siting.overlap/one-more/main-panel", "siting.overlap/main-panel/one-more"} & ids
    new = beside_the_outlet("junction box", "42 in", "50 in", state="new")
    assert check(new, "overlap/one-more/main-panel").verdict == "fail"


@pytest.mark.parametrize("kind", ["water pipe", "gas pipe", "duct", "appliance", "water heater"])
@pytest.mark.parametrize(
    ("left", "bottom", "verdict"),
    [
        ("80 in", "90 in", "fail"),
        ("80 in", "4 in", "fail"),
        ("70 in", "90 in", "fail"),
        ("69 in", "90 in", "pass"),
        ("91 in", "90 in", "pass"),
    ],
    ids=["above", "below", "no room for the tolerance", "left", "right"],
)
def test_nothing_foreign_is_above_or_below_a_new_panel(kind: str, left: str, bottom: str, verdict: str) -> None:
    siting = beside_the_outlet(kind, left, bottom)
    assert check(siting, "dedicated-space/backup-panel/one-more").verdict == verdict


@pytest.mark.parametrize("kind", ["junction box", "disconnect", "meter", "socket outlet"])
def test_electrical_equipment_above_a_new_panel_is_not_foreign(kind: str) -> None:
    siting = beside_the_outlet(kind, "80 in", "90 in")
    assert not [each for each in siting.checks if each.id == "siting.dedicated-space/backup-panel/one-more"]


def test_a_duct_above_an_old_panel_is_not_for_the_job_to_judge() -> None:
    siting = beside_the_outlet("duct", "44 in", "90 in")
    ids = {each.id for each in siting.checks}
    assert "siting.dedicated-space/main-panel/one-more" not in ids
    assert check(siting, "dedicated-space/backup-panel/one-more").verdict == "pass"


# Shapes for drawings, and other adoptions


def test_free_places_hold_the_chosen_corner_and_no_refused_one(demo: Siting) -> None:
    from shapely import Point, Polygon

    shapes = [Polygon(ring) for ring in free_places(demo.judged[0])]
    assert shapes
    corner = Point(demo.places[0].left.quantity, demo.places[0].bottom.quantity)
    assert any(shape.buffer(0.2).contains(corner) for shape in shapes)
    for shape in shapes:
        inside = shape.representative_point()
        assert demo.judged[0].question.free(round(inside.x * 10), round(inside.y * 10))


def test_spaces_are_where_the_rules_measure_them(demo: Siting) -> None:
    kinds = {each.kind for each in spaces(US, demo.judged[0])}
    assert kinds == {"working space", "dedicated space", "free space of the maker"}
    working = {each.thing: each.solid for each in spaces(US, demo.judged[0]) if each.kind == "working space"}
    assert set(working) == {"main-panel", "backup-panel", "island-switch", "battery-disconnect", "battery-1"}
    for thing, solid in working.items():
        assert solid.x is not None and solid.y is not None and solid.z is not None
        assert solid.x.high - solid.x.low >= 7620
        assert solid.y.high - solid.y.low == 9144
        own = (
            demo.places[0].unit.solid
            if thing == demo.places[0].id
            else next(t.solid for t in demo.judged[0].layout.things if t.id == thing)
        )
        assert own.x is not None and solid.x.low <= own.x.low and own.x.high <= solid.x.high


def test_zones_are_the_union_of_their_keep_outs_cut_off_at_the_wall(demo: Siting) -> None:
    (zone,) = zones(US, demo.judged[0], "dedicated-space", "opening-clearance")
    assert zone.rule == "dedicated-space" and len(zone.rings) == 2
    for ring in zone.rings:
        assert min(z for _, z in ring) == 0 and max(z for _, z in ring) <= 2743.2


@pytest.mark.parametrize("name", ["us-irc2024", "us-ca-crc2022", "uk-pas63100-2024", "au-asnzs5139-2019-a1"])
def test_a_thin_adoption_judges_what_it_states_and_borrows_nothing(name: str) -> None:
    survey = read_job(DEMO).survey
    assert survey is not None
    books = adoption(name)
    sheets = {"battery": _sheet("demo-wall-10"), **{role: _sheet(id) for role, id in ROLES.items()}}
    siting = site(books, survey, sheets)
    stated = {(books.book(book).short, year) for book, year in books.books.items()}
    stated |= {(sheet.sheet.name, "data sheet") for sheet in sheets.values()}
    assert siting.checks
    assert {(each.clause.book, each.clause.edition) for each in siting.checks} <= stated


@pytest.mark.parametrize("word", ["width", "height", "depth"])
def test_a_device_that_is_drawn_smaller_than_it_is_fails(word: str) -> None:
    size = {"width": "8 in", "height": "12 in", "depth": "5 in"}
    old = "".join(f'\n{each} = "{is_}"' for each, is_ in size.items())
    new = "".join(f'\n{each} = "{"3 in" if each == word else is_}"' for each, is_ in size.items())
    found = check(sited((old, new)), "drawn-size/battery-disconnect")
    assert found.verdict == "fail"
    assert "draw it 8 in × 12 in × 5 in" in found.reason
    assert str(found.clause) == "Disconnect 60 A, two-pole, without fuses data sheet [body]"


def test_what_a_device_is_that_nobody_calls_by_a_known_name_is_asked(demo: Siting) -> None:
    assert check(demo, "drawn-size/battery-disconnect").verdict == "pass"
    assert check(demo, "drawn-size/island-switch").verdict == "pass"
    unsized = sited(('depth = "5 in"\nvolts_to_ground = "120 V"\nstate = "new"', 'state = "new"'))
    assert check(unsized, "drawn-size/battery-disconnect").verdict == "cannot tell"
    other = sited(('disconnect = "demo-disconnect-60"\n', ""))
    found = check(other, "drawn-size/battery-disconnect")
    assert (found.verdict, "call it as routes call" in found.reason) == ("cannot tell", True)


def test_the_driving_path_of_a_later_code_asks_for_protection_beside_it_too() -> None:
    beside = 'wall = "side wall"\nleft = "0 ft"\nright = "20 ft"'
    text = DEMO.replace(beside, 'wall = "end wall"\nleft = "0 ft"\nright = "9 ft"')
    survey = read_job(text.replace('clear_height = "7 ft"', 'clear_height = "8 ft"')).survey
    assert survey is not None
    siting = site(adoption("us-irc2024"), survey, {"battery": _sheet("demo-wall-10")})
    found = check(siting, "beside-vehicle-path/battery-1")
    assert found.margin is not None and found.margin >= 0
    assert siting.places[0].left.quantity >= 9 * 304.8 + 914.4 + 10


def test_checks_that_compare_no_numbers_show_what_they_rest_on(demo: Siting) -> None:
    for id, word in {
        "weather": "indoors", "listing": "UL 9540", "permitted-place": "attached garage",
        "forbidden-place": "attached garage",
    }.items():  # fmt: skip
        found = check(demo, f"{id}/battery-1")
        assert found.verdict == "pass" and found.demand is not None
        assert word in str(found.demand.number)
    separated = check(demo, "garage-separation/battery-1").demand
    assert separated is not None and separated.yes


def test_a_unit_out_of_the_way_of_vehicles_says_what_was_surveyed_and_by_whose_reading(demo: Siting) -> None:
    found = check(demo, "vehicle-damage/battery-1")
    assert found.verdict == "pass" and found.demand is not None
    assert "the wall runs beside the vehicle" in found.demand.how
    assert "the authority reads it as Model permit guideline 2021 step 4" in found.condition
