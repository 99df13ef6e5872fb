"""A current transformer on its way out: its shorting link in first, then off its conductor, then its secondary."""

from pathlib import Path

from standfast.aftercare.undone import cables_out, undo_id
from standfast.fieldwork.order.acts import Act, Acts
from standfast.fieldwork.order.house import all_gone, as_built
from standfast.fieldwork.order.sequence import proven
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan


def test_the_link_goes_in_before_the_transformer_comes_off_and_its_secondary_is_parted(tmp_path: Path) -> None:
    plan = sitework(make_plan(write_demo("cabinet", tmp_path)))
    (inverter,) = plan.of_role("inverter")
    steps = cables_out(plan, inverter, ())
    after = {each.id: each.after for each in steps}
    link, seat, leads = (undo_id(inverter, id) for id in ("links-out", "fit-meter", "join-meter"))
    assert link in after[seat] and seat in after[leads]
    others = [each.id for each in steps if each.id not in (link, seat, leads)]
    assert after[others[0]] == (leads,) and others[-1].startswith("on."), "no cable or cover before"
    assert all(each.hands and each.touches and each.behind for each in steps if each.id in (link, leads))


def test_the_removal_is_safe_and_a_transformer_that_stays_is_told(tmp_path: Path) -> None:
    plan = sitework(make_plan(write_demo("cabinet", tmp_path)))
    house = all_gone(as_built(plan))
    (sensor,) = house.site.sensors
    stays = [each for each in proven(house.site, Acts([Act("nothing")])) if each.why == "left in at the end"]
    assert {each.what for each in stays} == {sensor.secondary, sensor.around}
