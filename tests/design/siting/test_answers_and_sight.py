"""What the authority answered about the ignition height, the disconnect in sight, and faults of wishes."""

import pytest
from walls_job import HEAD, check, job, obstacle, placed, room, wall, wish

from standfast.survey import read

INCH = 25.4


def answer(word: str) -> str:
    return f'[[acceptances]]\nid = "answer"\nwhat = "ignition height"\n{word}\n'


@pytest.mark.parametrize(
    ("bottom", "words", "verdict", "says"),
    [
        ("14 in", "", "cannot tell", "ask the authority, and write its answer as [[acceptances]] 'ignition height'"),
        ("14 in", answer("accepted = true"), "not applicable", "the authority accepts it lower"),
        ("14 in", answer("accepted = false"), "fail", ""),
        ("14 in", answer('note = "asked in May"'), "cannot tell", "acceptances.answer.accepted"),
        ("19 in", "", "pass", ""),
        ("19 in", answer("accepted = false"), "pass", ""),
        ("18 in", answer("accepted = false"), "fail", ""),
    ],
)
def test_the_answer_of_the_authority_decides_how_the_ignition_height_reads(
    bottom: str, words: str, verdict: str, says: str
) -> None:
    siting = placed(job(room(), wall(), wish(1, left="40 in", bottom=bottom), quantity=1, low=words))
    found = check(siting, "ignition-height/battery-1")
    assert found.verdict == verdict
    assert says in found.reason
    if verdict == "fail":
        assert found.margin == pytest.approx((float(bottom.split()[0]) - 18) * INCH - 10)


def test_outside_a_garage_nobody_asks_for_the_ignition_height() -> None:
    shed = room("shed", kind='"detached shed"')
    siting = placed(job(shed, wall(room='"shed"'), quantity=1, low=answer("accepted = false")))
    assert not [each for each in siting.checks if each.id.startswith("siting.ignition-height")]


NEW = {"kind": '"disconnect"', "width": '"8 in"', "height": '"12 in"', "state": '"new"'}


def test_each_unit_has_its_disconnect_in_sight_and_at_a_distance() -> None:
    things = (obstacle("disconnect-1", "10 in", **NEW), obstacle("disconnect-2", "230 in", **NEW))
    wishes = wish(1, left="40 in", bottom="45 in") + wish(2, left="130 in", bottom="45 in")
    one, two = placed(job(room(), wall("east", *things), wishes)).places
    assert one.disconnect_in_sight.yes and two.disconnect_in_sight.yes
    assert one.disconnect_distance.unit == "ft"
    assert one.disconnect_distance.quantity == pytest.approx((40 - 18) / 12, abs=1e-3)
    assert two.disconnect_distance.quantity == pytest.approx((230 - 154) / 12, abs=1e-3)


@pytest.mark.parametrize("thing", ["", obstacle("disconnect-9", "10 in", **NEW)])
def test_a_disconnect_that_is_on_no_wall_of_its_unit_is_not_known(thing: str) -> None:
    for place in placed(job(room(), wall("east", thing))).places:
        assert place.disconnect_in_sight.missing and place.disconnect_distance.missing
        assert f'"{place.id.replace("battery", "disconnect")}"' in place.disconnect_in_sight.how


def test_the_only_new_disconnect_of_the_only_unit_is_its_own_whatever_its_name() -> None:
    named = placed(job(room(), wall("east", obstacle("switch", "10 in", **NEW)), quantity=1))
    assert named.places[0].disconnect_in_sight.yes
    old = obstacle("switch", "10 in", **{**NEW, "state": '"existing"'})
    assert placed(job(room(), wall("east", old), quantity=1)).places[0].disconnect_in_sight.missing


@pytest.mark.parametrize(
    ("words", "quantity", "what"),
    [
        (wish(3), 2, 'there is no unit "battery-3"'),
        (wish(1) + wish(1), 2, 'id "battery-1" is there twice'),
        (wish(1, "south"), 2, 'there is no wall "south"'),
        ('[wishes]\nwall = "east"\nleft = "3 ft"\n', 2, "wishes.left could mean any of 2 units"),
        ('[wishes]\nleft = "3 ft"\n', 1, "a left edge is wished, but no wall"),
        ('[[wishes.units]]\nid = "battery-2"\nleft = "3 ft"\n', 2, "a left edge is wished, but no wall"),
        ('[wishes]\nbottom = "3 ft"\n', 3, "wishes.bottom could mean any of 3 units"),
        ("", 9, "quantity is 9: a job holds 8 units at most"),
    ],
)
def test_wishes_that_cannot_be_meant_are_faults_with_their_place(words: str, quantity: int, what: str) -> None:
    text = HEAD + room() + wall() + words + f'[equipment]\nbattery = "demo-wall-10"\nquantity = {quantity}\n'
    (fault,) = read(text).faults
    assert fault.what == what
    assert fault.line > 1 and fault.todo


@pytest.mark.parametrize(
    ("words", "quantity"), [(wish(2), 2), ('[wishes]\nwall = "east"\nleft = "3 ft"\n', 1), ("", 8)]
)
def test_wishes_that_are_clear_are_none(words: str, quantity: int) -> None:
    text = HEAD + room() + wall() + words + f'[equipment]\nbattery = "demo-wall-10"\nquantity = {quantity}\n'
    assert not read(text).faults


def test_a_lower_edge_is_kept_on_whatever_wall() -> None:
    siting = placed(job(room(), wall(), '[[wishes.units]]\nid = "battery-2"\nbottom = "20 in"\n'))
    assert siting.places[1].bottom.quantity == pytest.approx(20 * INCH)
    assert siting.places[0].bottom.quantity != siting.places[1].bottom.quantity
