"""Several units of one job: spacing, working space and energy together, wishes, and what does not fit."""

from itertools import pairwise

import pytest
from walls_job import US, check, job, lefts, obstacle, open_ids, placed, room, sheet, wall, wish

from standfast.design.siting.energy import COUNTED_APART
from standfast.design.siting.later import later
from standfast.design.siting.openings import BY_TEST
from standfast.design.siting.spaces import free_places
from standfast.design.siting.whole import why_not
from standfast.equipment.read import shipped

INCH = 25.4
WIDE = 24 * INCH
APART = 36 * INCH + 10
REPORT = ('between_units = "12 in"', 'between_units = "12 in"\nspacing_report = "Invented fire test report 7"')
LOOSE = ('between_units = "12 in"\n', "")


def answered(word: str, what: str = "unit spacing") -> str:
    return f'[[acceptances]]\nid = "answer"\nwhat = "{what}"\n{word}\n'


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_units_stand_apart_by_the_code_and_the_placing_tolerance(count: int) -> None:
    siting = placed(job(room(), wall(), quantity=count))
    assert [each.id for each in siting.places] == [f"battery-{number}" for number in range(1, count + 1)]
    assert open_ids(siting) == set()
    assert siting.proven and siting.bound is not None
    places = sorted(lefts(siting))
    assert all(other - one >= WIDE + APART - 1e-6 for one, other in pairwise(places))
    pairs = [each for each in siting.checks if each.id.startswith("siting.unit-spacing/")]
    assert len(pairs) == count * (count - 1) // 2


def test_five_units_that_do_not_fit_side_by_side_say_by_how_much() -> None:
    # 20 ft hold four of 24 in with 3 ft between them, and 6 in at each end: 4·24 + 3·36 + 12 = 216 of 240 in
    siting = placed(job(room(), wall(length="20 ft"), quantity=5))
    assert siting.bound is None and siting.proven
    assert any(each.startswith(("unit-spacing/", "overlap/", "maker-clearance/")) for each in open_ids(siting))
    short = [check(siting, each) for each in open_ids(siting) if each.startswith("unit-spacing/")]
    assert short and all(each.margin is not None and each.margin < 0 for each in short)


def test_a_wished_pair_too_near_fails_by_what_is_missing() -> None:
    siting = placed(job(room(), wall(), wish(1, left="40 in", bottom="14 in"), wish(2, left="90 in", bottom="14 in")))
    found = check(siting, "unit-spacing/battery-1/battery-2")
    assert found.verdict == "fail"
    assert found.margin == pytest.approx((90 - 40 - 24 - 36) * INCH - 10)
    assert found.clause.clause == "R328.3.1"


# A smaller spacing by fire test report

SHORT = wall(length="8 ft")
"""Two units with 12 in between them fit on it, not with 3 ft."""


@pytest.mark.parametrize(
    ("answer", "swap", "verdict", "condition"),
    [
        ("accepted = true", REPORT, "pass", BY_TEST),
        ("accepted = false", REPORT, "fail", ""),
        ('note = "asked"', REPORT, "cannot tell", ""),
        ("", REPORT, "cannot tell", ""),
        ("accepted = true", LOOSE, "fail", ""),
        ("accepted = true", ('between_units = "12 in"', 'between_units = "12 in"'), "fail", ""),
    ],
    ids=["accepted", "refused", "not answered", "not asked", "no spacing on the sheet", "no report on the sheet"],
)
def test_the_smaller_spacing_needs_a_report_and_the_authority(
    answer: str, swap: tuple[str, str], verdict: str, condition: str
) -> None:
    parts = [room(), SHORT, *([answered(answer)] if answer else [])]
    siting = placed(job(*parts), sheet(swap))
    found = check(siting, "unit-spacing/battery-1/battery-2")
    assert (found.verdict, found.condition) == (verdict, condition)
    if verdict == "cannot tell":
        assert 'acceptances]] "unit spacing"' in found.reason
        assert siting.bound is not None and not siting.proven
    if verdict == "fail":
        assert found.margin is not None and found.margin < 0


def test_two_answers_count_as_the_one_that_helps_least() -> None:
    twice = answered("accepted = true") + answered("accepted = false").replace('"answer"', '"second"')
    found = check(placed(job(room(), SHORT, twice), sheet(REPORT)), "unit-spacing/battery-1/battery-2")
    assert found.verdict == "fail"


def test_a_pair_as_far_apart_as_the_code_asks_hangs_on_no_report() -> None:
    found = check(placed(job(room(), wall()), sheet(REPORT)), "unit-spacing/battery-1/battery-2")
    assert (found.verdict, found.condition) == ("pass", "")


def test_a_maker_that_asks_for_more_than_the_code_is_heard() -> None:
    siting = placed(job(room(), wall()), sheet(('between_units = "12 in"', 'between_units = "60 in"')))
    assert open_ids(siting) == set()
    assert abs(lefts(siting)[1] - lefts(siting)[0]) >= WIDE + 60 * INCH + 10 - 1e-6
    near = job(room(), wall(), wish(1, left="40 in", bottom="14 in"), wish(2, left="110 in", bottom="14 in"))
    found = check(
        placed(near, sheet(('between_units = "12 in"', 'between_units = "60 in"'))),
        "maker-clearance/battery-1/battery-2",
    )
    assert found.verdict == "fail" and found.margin == pytest.approx((110 - 40 - 24 - 60) * INCH - 10)


@pytest.mark.parametrize(
    "swap", [LOOSE, ('between_units = "12 in"', 'between_units = "not known"')], ids=["out", "not known"]
)
def test_a_space_between_units_that_nobody_knows_is_no_pass(swap: tuple[str, str]) -> None:
    """Free space beside a unit says nothing of another unit there; too little of it fails all the same."""
    far, near = (
        placed(
            job(room(), wall(), wish(1, left="40 in", bottom="14 in"), wish(2, left=left, bottom="14 in")), sheet(swap)
        )
        for left in ("110 in", "66 in")
    )
    found = check(far, "maker-clearance/battery-1/battery-2")
    assert found.verdict == "cannot tell" and "clearances.between_units" in found.reason
    assert check(near, "maker-clearance/battery-1/battery-2").verdict == "fail"


def test_one_unit_alone_asks_for_no_space_between_units() -> None:
    assert open_ids(placed(job(room(), wall(), quantity=1), sheet(LOOSE))) == set()


@pytest.mark.parametrize(("word", "end"), [("floor_min", "least"), ("floor_max", "greatest")])
def test_a_height_that_the_sheet_says_nobody_knows_is_asked_for_and_one_left_out_is_not(word: str, end: str) -> None:
    text = next(row for row in shipped()["demo-wall-10"].splitlines() if row.startswith(f"{word} = "))
    asked, left_out = (
        {each.id: each.verdict for each in placed(job(room(), wall()), sheet((text, new))).checks}
        for new in (f'{word} = "not known"', "")
    )
    assert asked[f"siting.mounting-height/battery-1/{end}"] == "cannot tell"
    assert f"siting.mounting-height/battery-1/{end}" not in left_out


def test_a_report_for_more_than_the_code_asks_changes_nothing_of_the_code() -> None:
    wide = ('between_units = "12 in"', 'between_units = "60 in"\nspacing_report = "Invented fire test report 7"')
    near = wish(1, left="40 in", bottom="14 in") + wish(2, left="110 in", bottom="14 in")
    siting = placed(job(room(), wall(), near, answered("accepted = true")), sheet(wide))
    assert check(siting, "unit-spacing/battery-1/battery-2").verdict == "pass"
    assert check(siting, "maker-clearance/battery-1/battery-2").verdict == "fail"


# Working space of what is on the wall

PANEL = obstacle("main-panel", "100 in")
"""Its working space is 30 in wide and holds the 16 in of the panel."""


@pytest.mark.parametrize(
    ("left", "right", "verdicts"),
    [
        ("73 in", "117 in", ("pass", "pass", "fail")),
        ("73 in", "128 in", ("pass", "pass", "pass")),
        ("66 in", "118 in", ("pass", "pass", "fail")),
    ],
)
def test_two_units_block_a_working_space_that_each_leaves_free(
    left: str, right: str, verdicts: tuple[str, str, str]
) -> None:
    each = [
        placed(job(room(), wall("east", PANEL), wish(1, left=edge, bottom="14 in"), quantity=1))
        for edge in (left, right)
    ]
    both = placed(
        job(room(), wall("east", PANEL), wish(1, left=left, bottom="14 in"), wish(2, left=right, bottom="14 in"))
    )
    found = [check(siting, "working-width/main-panel") for siting in (*each, both)]
    assert tuple(check.verdict for check in found) == verdicts
    clear = (float(right.split()[0]) - float(left.split()[0]) - 24) * INCH
    assert found[2].margin == pytest.approx(clear - 10 - 30 * INCH)


def test_units_that_are_free_to_be_chosen_leave_the_working_space_free_together() -> None:
    siting = placed(job(room(), wall("east", obstacle("main-panel", "60 in"), length="13 ft")))
    assert open_ids(siting) == set()
    assert check(siting, "working-width/main-panel").verdict == "pass"


@pytest.mark.parametrize(
    ("left", "unit", "verdicts"),
    [("2 in", "205 in", ["fail"]), ("40 in", "205 in", ["pass"]), ("2 in", "20 in", [])],
    ids=["in front of it", "beside it", "far from it"],
)
def test_a_unit_round_the_corner_can_stand_in_the_working_space_of_a_panel(
    left: str, unit: str, verdicts: list[str]
) -> None:
    # a unit on the next wall is 7-1/2 in deep; 11 in off the corner it is within the 3 ft before the panel
    east = wall("east", obstacle("main-panel", left), start='["20 ft", "20 ft"]', end='["20 ft", "0 ft"]')
    north = wall("north", start='["0 ft", "20 ft"]', end='["20 ft", "20 ft"]')
    siting = placed(job(room(), east, north, wish(1, "north", left=unit, bottom="14 in"), quantity=1))
    found = [each for each in siting.checks if each.id == "siting.working-width/main-panel"]
    assert [each.verdict for each in found] == verdicts


def test_a_place_that_blocks_a_panel_round_the_corner_is_not_chosen() -> None:
    east = wall("east", obstacle("main-panel", "2 in"), start='["20 ft", "20 ft"]', end='["20 ft", "0 ft"]')
    kitchen = '[[walls.openings]]\nid = "way"\nkind = "door"\nleft = "0 in"\nbottom = "0 in"\nheight = "80 in"\n'
    north = wall("north", kitchen, 'width = "170 in"\n', start='["0 ft", "20 ft"]', end='["20 ft", "20 ft"]')
    siting = placed(job(room(), east, north, wish(1, "north"), quantity=1))
    # 170 in of door leave 70 in; the last 4 in + 3 ft of them are before the panel
    assert 170 * INCH <= siting.places[0].left.quantity <= (240 - 40 - 24) * INCH
    assert "working-width/main-panel" not in open_ids(siting)


# Energy of the place, and of the property

BIG = ('rated = "10.2 kWh"', 'rated = "18 kWh"')


def energy(count: int, *rooms: str, walls: str = "") -> str:
    siting = placed(job(*(rooms or (room(),)), wall(length="60 ft"), walls, quantity=count), sheet(BIG))
    return check(siting, "energy-attached-garage").verdict


@pytest.mark.parametrize(
    ("count", "other", "verdict"),
    [(4, '"0 kWh"', "pass"), (5, '"0 kWh"', "fail"), (4, '"8 kWh"', "pass"), (4, '"8.1 kWh"', "fail")],
)
def test_the_energy_of_all_units_and_of_other_storage_counts_in_a_place(count: int, other: str, verdict: str) -> None:
    assert energy(count, room(other_storage=other)) == verdict


def test_storage_of_which_nobody_knows_is_never_none() -> None:
    assert energy(2, room(other_storage='"not known"')) == "cannot tell"
    assert energy(2, room(), room("second", other_storage='"not known"')) == "cannot tell"
    assert energy(2, room(), room("second", other_storage='"50 kWh"')) == "fail"


def test_places_count_each_by_itself_on_the_condition_that_the_authority_counts_so() -> None:
    shed = room("shed", kind='"detached shed"', other_storage='"0 kWh"')
    walls = wall("shed-wall", room='"shed"', length="60 ft")
    wishes = [wish(number, "east" if number < 4 else "shed-wall") for number in range(1, 7)]
    siting = placed(job(room(), shed, wall(length="60 ft"), walls, *wishes, quantity=6), sheet(BIG))
    garage, other = check(siting, "energy-attached-garage"), check(siting, "energy-detached-building")
    assert (garage.verdict, garage.condition) == ("pass", COUNTED_APART)
    assert (other.verdict, other.condition) == ("pass", COUNTED_APART)
    assert garage.demand is not None and garage.demand.quantity == pytest.approx(54)
    fewer = placed(job(room(), shed, wall(length="60 ft"), walls, *wishes[:4], quantity=4), sheet(BIG))
    assert check(fewer, "energy-attached-garage").condition == ""


def test_each_unit_over_twenty_kilowatt_hours_is_refused() -> None:
    siting = placed(job(room(), wall()), sheet(('rated = "10.2 kWh"', 'rated = "20.4 kWh"')))
    for number in (1, 2):
        found = check(siting, f"unit-energy/battery-{number}")
        assert found.verdict == "fail" and found.margin == pytest.approx(-0.4)


# Wishes, walls, mirrors


def test_each_unit_stands_where_it_is_wished() -> None:
    west = wall("west", facing='"20 ft"')
    siting = placed(job(room(), wall(), west, wish(1, "west", left="50 in"), wish(2, "east", bottom="20 in")))
    one, other = siting.places
    assert (one.wall, other.wall) == ("west", "east")
    assert one.left.quantity == pytest.approx(50 * INCH)
    assert other.bottom.quantity == pytest.approx(20 * INCH)
    assert {each.wall for each in siting.judged} == {"east", "west"}
    far = check(siting, "unit-spacing/battery-1/battery-2")
    assert far.verdict == "cannot tell" and "start and end" in far.reason


CORNER = (
    wall("east", start='["20 ft", "20 ft"]', end='["20 ft", "0 ft"]'),
    wall("north", start='["0 ft", "20 ft"]', end='["20 ft", "20 ft"]'),
)
"""Two walls that meet at the left end of east, the right end of north."""


@pytest.mark.parametrize(("left", "verdict"), [("50 in", "pass"), ("40 in", "fail")])
def test_spacing_counts_round_the_inside_corner(left: str, verdict: str) -> None:
    # the unit on north ends 6.5 in off the corner, 7-1/2 in deep: on east the gap begins there
    wishes = wish(1, "east", left=left, bottom="14 in") + wish(2, "north", left="209.5 in", bottom="14 in")
    found = check(placed(job(room(), *CORNER, wishes)), "unit-spacing/battery-1/battery-2")
    gap = (float(left.split()[0]) - 7.5) * INCH
    assert found.verdict == verdict
    assert found.margin == pytest.approx(gap - 10 - 36 * INCH)


def test_units_that_one_wall_does_not_hold_are_spread_and_keep_apart_at_the_corner() -> None:
    siting = placed(job(room(), *CORNER, quantity=7))
    assert open_ids(siting) == set()
    assert {each.wall for each in siting.places} == {"east", "north"}


FACING = (
    wall("east", start='["48 in", "240 in"]', end='["48 in", "0 in"]', facing='"48 in"'),
    wall("west", start='["0 in", "0 in"]', end='["0 in", "240 in"]', facing='"48 in"'),
)
"""Two walls 48 in apart: a unit 7-1/2 in deep leaves 40-1/2 in before it, two that face each other leave 33 in."""


def test_units_that_face_each_other_in_a_narrow_room_block_their_working_space_together() -> None:
    facing = wish(1, "east", left="100 in", bottom="14 in") + wish(2, "west", left="116 in", bottom="14 in")
    siting = placed(job(room(), *FACING, facing))
    for number in (1, 2):
        assert check(siting, f"unit-working-width/battery-{number}").verdict == "fail"
        assert check(siting, f"working-depth/battery-{number}/opposite-face").verdict == "pass"
    # the cheapest place of the second alone is just across: it is put aside, and nobody calls that the least cost
    aside = placed(job(room(), *FACING, wish(1, "east", left="205 in", bottom="14 in"), wish(2, "west")))
    assert open_ids(aside) == set()
    assert not aside.proven and aside.need


def mirrored(*things: tuple[float, float]) -> tuple[str, str]:
    """A wall of 240 in with things (left, width in in), and its mirror image."""
    one = [obstacle(f"thing-{at}", f"{left} in", width=f'"{wide} in"') for at, (left, wide) in enumerate(things)]
    other = [
        obstacle(f"thing-{at}", f"{240 - left - wide} in", width=f'"{wide} in"')
        for at, (left, wide) in enumerate(things)
    ]
    return wall("east", *one), wall("east", *other)


@pytest.mark.parametrize("things", [((30, 16),), ((100, 16), (200, 20)), ((20, 14), (120, 20), (220, 10))])
@pytest.mark.parametrize("count", [2, 3])
def test_a_mirrored_wall_costs_the_same(things: tuple[tuple[float, float], ...], count: int) -> None:
    one, other = (placed(job(room(), each, quantity=count)) for each in mirrored(*things))
    assert one.bound == other.bound
    if one.bound is None:
        assert open_ids(one) and open_ids(other)
        return
    turned = "".join(
        wish(number, left=f"{240 * INCH - WIDE - place.left.quantity} mm", bottom=f"{place.bottom.quantity} mm")
        for number, place in enumerate(one.places, 1)
    )
    there = placed(job(room(), mirrored(*things)[1], turned, quantity=count))
    assert open_ids(one) == open_ids(other) == open_ids(there) == set()


# One more unit, another place


def test_a_further_unit_is_told_and_is_no_verdict() -> None:
    siting = placed(job(room(), wall(length="20 ft"), quantity=2))
    found = later(US, siting, "east")
    assert found.unit == "battery-3" and found.spot is not None and not found.stopped
    assert str(found).startswith("A further unit (Battery 3) fits at ")
    region = free_places(siting.on("east")._replace(question=found.question))
    assert region and min(x for ring in region for x, _ in ring) >= 0
    full = placed(job(room(), wall(length="8 ft"), quantity=1))
    assert later(US, full, "east").spot is None
    assert str(later(US, full, "east")) == "No further unit fits on east."


def test_room_for_a_further_unit_that_the_energy_of_the_place_forbids() -> None:
    siting = placed(job(room(other_storage='"60 kWh"'), wall(), quantity=1), sheet(BIG))
    found = later(US, siting, "east")
    assert found.spot is not None
    assert [each.id for each in found.stopped] == ["siting.energy-attached-garage"]
    assert "open would be" in str(found)


def test_why_not_elsewhere_counts_the_other_units() -> None:
    siting = placed(job(room(), wall(), wish(1, left="40 in", bottom="14 in")))
    found = {each.id for each in why_not(US, siting, "battery-2", 50 * INCH, 14 * INCH)}
    assert {"siting.unit-spacing/battery-1/battery-2", "siting.overlap/battery-1/battery-2"} <= found
