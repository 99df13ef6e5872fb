"""Units that stand on the floor or on a pad, and a new inverter on the wall beside them."""

import pytest
from walls_job import check, job, lefts, obstacle, open_ids, placed, room, sheet, wall, wish

from standfast.design.siting.placed import Siting
from standfast.equipment.read import DataSheet

INCH = 25.4
STACK = sheet(id="demo-stack-15")
WIDE, DEEP = 26 * INCH, 12 * INCH
YARD = room("yard", kind='"outside"', opens_into='"yard"')


def footing(**words: str) -> str:
    return "[walls.footing]\n" + "".join(f'{word} = "{value}"\n' for word, value in words.items())


PAD = {"kind": "concrete pad", "left": "40 in", "width": "60 in", "depth": "36 in", "height": "4 in"}
FLOOR = {"kind": "concrete slab", "depth": "9 ft", "height": "0 in"}


def standing(*parts: str, quantity: int = 1, battery: DataSheet = STACK, inverter: DataSheet | None = None) -> Siting:
    return placed(job(room(), *parts, quantity=quantity), battery, inverter)


def test_a_unit_on_a_floor_stands_on_it_and_is_not_asked_for_a_height() -> None:
    siting = standing(wall("east", footing(**FLOOR)))
    assert siting.places[0].bottom.quantity == 0
    assert open_ids(siting) == set()
    asked = {each.id.removeprefix("siting.") for each in siting.checks}
    assert "on-its-footing/battery-1/front" in asked
    assert not any(each.startswith("mounting-height/") for each in asked)
    assert "maker-clearance/battery-1/below" not in asked


def test_a_unit_on_a_pad_stands_at_its_height_with_its_whole_foot_on_it() -> None:
    siting = standing(wall("east", footing(**PAD)))
    place = siting.places[0]
    assert place.bottom.quantity == pytest.approx(4 * INCH)
    assert 40 * INCH + 10 <= place.left.quantity <= 100 * INCH - WIDE - 10
    for side in ("left", "right", "front"):
        assert check(siting, f"on-its-footing/battery-1/{side}").verdict == "pass"
    front = check(siting, "on-its-footing/battery-1/front")
    assert front.margin == pytest.approx((36 - 12) * INCH - 10)


@pytest.mark.parametrize(
    ("changed", "side", "short"),
    [
        ({"depth": "11 in"}, "front", -1 * INCH - 10),
        ({"depth": "12 in"}, "front", -10),
        ({"width": "20 in"}, "right", None),
    ],
)
def test_a_pad_too_small_fails_by_what_hangs_over(changed: dict[str, str], side: str, short: float | None) -> None:
    siting = standing(wall("east", footing(**{**PAD, **changed})))
    found = check(siting, f"on-its-footing/battery-1/{side}")
    if short is None:
        ends = [check(siting, f"on-its-footing/battery-1/{each}") for each in ("left", "right")]
        assert "fail" in {each.verdict for each in ends}
        # both ends together lack the width of the unit and twice the tolerance
        total = sum(each.margin for each in ends if each.margin is not None)
        assert total == pytest.approx(20 * INCH - WIDE - 20)
    else:
        assert found.verdict == "fail" and found.margin == pytest.approx(short)


@pytest.mark.parametrize(
    ("words", "id"),
    [
        (None, "on-its-footing/battery-1"),
        ({"height": ""}, "on-its-footing/battery-1"),
        ({"depth": ""}, "on-its-footing/battery-1/front"),
    ],
)
def test_a_footing_that_nobody_measured_cannot_be_told(words: dict[str, str] | None, id: str) -> None:
    known = {word: value for word, value in {**FLOOR, **(words or {})}.items() if value}
    siting = standing(wall("east", *([] if words is None else [footing(**known)])))
    assert check(siting, id).verdict == "cannot tell"


def test_two_units_on_a_pad_keep_apart_and_one_pad_too_short_says_so() -> None:
    wide = standing(wall("east", footing(**{**PAD, "width": "100 in"})), quantity=2)
    assert open_ids(wide) == set()
    assert abs(lefts(wide)[0] - lefts(wide)[1]) >= WIDE + 36 * INCH + 10 - 1e-6
    short = standing(wall("east", footing(**{**PAD, "width": "80 in"})), quantity=2)
    assert short.bound is None and short.proven
    assert open_ids(short) & {
        "unit-spacing/battery-1/battery-2", "on-its-footing/battery-2/left", "on-its-footing/battery-2/right",
    }  # fmt: skip


def test_a_hanging_unit_asks_for_no_footing() -> None:
    siting = standing(wall("east", footing(**PAD)), battery=sheet())
    assert not [each for each in siting.checks if each.id.startswith("siting.on-its-footing/")]
    assert siting.places[0].bottom.quantity >= 12 * INCH


def test_outdoors_a_standing_unit_is_on_the_ground_and_a_hanging_one_on_the_wall() -> None:
    outside = wall("east", footing(**FLOOR), room='"yard"')
    ids = [{each.id for each in placed(job(YARD, outside, quantity=1), battery).checks} for battery in (STACK, sheet())]
    assert "siting.energy-ground" in ids[0] and "siting.energy-exterior-wall" not in ids[0]
    assert "siting.energy-exterior-wall" in ids[1] and "siting.energy-ground" not in ids[1]


# A new inverter on the wall

HYBRID = sheet(id="demo-hybrid-8")


def inverter(left: str, bottom: str = "38 in", **changed: str) -> str:
    words = {"kind": '"inverter"', "width": '"18 in"', "height": '"27 in"', "depth": '"8.5 in"', "state": '"new"'}
    return obstacle("inverter", left, **{**words, "bottom": f'"{bottom}"', **changed})


def test_the_free_space_that_the_inverter_asks_for_is_kept() -> None:
    siting = standing(wall("east", inverter("100 in"), footing(**FLOOR)), inverter=HYBRID)
    assert open_ids(siting) == set()
    assert check(siting, "maker-clearance/inverter/battery-1").verdict == "pass"
    left = siting.places[0].left.quantity
    assert left + WIDE <= (100 - 8) * INCH - 10 + 1e-6 or left >= (100 + 18 + 8) * INCH + 10 - 1e-6
    near = standing(wall("east", inverter("100 in"), footing(**FLOOR)), wish(1, left="120 in"), inverter=HYBRID)
    found = check(near, "maker-clearance/inverter/battery-1")
    # 2 in beside it, of 8 in
    assert found.verdict == "fail" and found.margin == pytest.approx((2 - 8) * INCH - 10)


@pytest.mark.parametrize(
    ("left", "bottom", "id", "margin"),
    [
        ("4 in", "38 in", "maker-clearance/inverter/left", (4 - 8) * INCH - 10),
        ("100 in", "12 in", "mounting-height/inverter/least", (12 - 18) * INCH - 10),
        ("100 in", "60 in", "mounting-height/inverter/greatest", (54 - 60) * INCH - 10),
        ("100 in", "76 in", "maker-clearance/inverter/above", (108 - 76 - 27 - 12) * INCH - 10),
    ],
)
def test_a_new_inverter_is_judged_by_its_own_sheet(left: str, bottom: str, id: str, margin: float) -> None:
    siting = standing(wall("east", inverter(left, bottom), footing(**FLOOR)), inverter=HYBRID)
    found = check(siting, id)
    assert found.verdict == "fail" and found.margin == pytest.approx(margin)


def test_an_inverter_without_a_sheet_cannot_be_told_and_an_old_one_is_not_asked() -> None:
    new = standing(wall("east", inverter("100 in"), footing(**FLOOR)))
    assert check(new, "maker-clearance/inverter").verdict == "cannot tell"
    old = standing(wall("east", inverter("100 in", state='"existing"'), footing(**FLOOR)), inverter=HYBRID)
    assert not [each for each in old.checks if each.id.startswith("siting.maker-clearance/inverter")]


def test_an_inverter_on_another_wall_is_judged_there() -> None:
    walls = (wall("east", footing(**FLOOR)), wall("west", inverter("2 in")))
    siting = standing(*walls, wish(1, "east"), inverter=HYBRID)
    assert [each.wall for each in siting.judged] == ["east"]
    assert check(siting, "maker-clearance/inverter/left").margin == pytest.approx((2 - 8) * INCH - 10)


def test_a_new_inverter_wants_working_space_before_it() -> None:
    walls = wall("east", inverter("100 in"), footing(**FLOOR), facing='"40 in"')
    siting = standing(walls, inverter=HYBRID)
    found = check(siting, "equipment-depth/inverter")
    assert found.verdict == "fail"
    assert found.margin == pytest.approx((40 - 8.5 - 36) * INCH - 10)


def test_the_run_of_a_unit_with_a_separate_inverter_goes_there() -> None:
    siting = standing(wall("east", inverter("100 in"), footing(**FLOOR)), wish(1, left="30 in"), inverter=HYBRID)
    across, up = (100 + 9 - 30 - 13) * INCH, (38 + 13.5 - 31) * INCH
    assert siting.places[0].run.quantity == pytest.approx(across + up, abs=0.2)
