"""Who can feed this conductor: from which end, how much at one time, and what clears it."""

from fed_house import SUN, house_of

from standfast.design.installation import Installation, Link, Part
from standfast.design.wiring.feeds import Feed, has_loop
from standfast.sheet import Value


def amps(value: Value | None) -> float:
    assert value is not None
    return value.quantity


def cleared(feed: Feed) -> dict[str, str]:
    return {each.source: each.device for each in feed.clearing}


def test_a_feeder_is_fed_from_both_its_ends() -> None:
    feeder = house_of().feeds["backup-feeder"]
    assert feeder.from_utility.sources == ("utility",)
    assert amps(feeder.from_utility.current) == 60
    assert feeder.from_other.sources == ("battery-1/inverter",)
    assert amps(feeder.from_other.current) == 24
    assert amps(feeder.through) == 60
    assert cleared(feeder) == {"utility": "main/backup-feeder", "battery-1/inverter": "backup/main"}


def test_the_conductors_ahead_of_the_service_have_nothing_that_limits_the_utility() -> None:
    entrance = house_of().feeds["service entrance"]
    assert entrance.from_utility.current is None and entrance.through is None
    assert amps(entrance.from_other.current) == 24
    assert cleared(entrance) == {"utility": "", "battery-1/inverter": "service-disconnect"}


def test_a_busbar_gathers_its_feed_and_every_source_on_it() -> None:
    main = house_of(SUN).feeds["main"]
    assert amps(main.from_utility.current) == 200
    assert amps(main.from_other.current) == 24 + 16
    assert amps(main.through) == 240
    assert main.state is not None and main.state.id == "grid"


def test_a_breaker_lets_through_no_more_than_its_rating() -> None:
    branch = house_of(SUN).feeds["main/range–main/range/load"]
    assert set(branch.from_utility.sources) == {"utility", "battery-1/inverter", "main/sun/source"}
    assert amps(branch.through) == 50
    assert branch.from_other.sources == ()
    assert set(cleared(branch).values()) == {"main/range"}


def test_an_inverter_circuit_is_cleared_towards_the_panel_only() -> None:
    run = house_of().feeds["battery-run"]
    assert cleared(run) == {"utility": "battery-1/breaker", "battery-1/inverter": ""}
    assert amps(run.from_other.current) == 24


def test_an_interlocked_generator_adds_nothing_to_the_grid() -> None:
    alone = house_of(generator="interlocked = true\nwith_battery = true").feeds["main"]
    assert amps(alone.through) == 224
    joined = house_of(generator="interlocked = false\nwith_battery = true").feeds["main"]
    assert amps(joined.through) == 254
    assert joined.state is not None and joined.state.id == "generator-joined-grid"


def test_nobody_said_whether_it_is_interlocked_so_the_sum_is_not_known() -> None:
    through = house_of(generator="with_battery = true").feeds["main"].through
    assert through is not None and through.missing
    assert "generators.generator.interlocked" in through.how


def test_a_panel_on_lugs_has_no_device_where_its_feed_arrives() -> None:
    lugs = house_of(('main = "60 A"', "main_lugs = true"))
    assert amps(lugs.feeds["backup"].from_utility.current) == 60
    assert cleared(lugs.feeds["backup-feeder"])["battery-1/inverter"] == "battery-1/breaker"


def test_feed_through_lugs_bring_the_whole_busbar_on() -> None:
    changes = (
        ('feeds = "backup"\n', ""), ('id = "backup-feeder"\nfrom', 'id = "lugs"\nfrom'),
        ('fed_through = "island switch"', 'fed_by = "feed-through lugs"'), ('main = "60 A"', "main_lugs = true"), SUN,
    )  # fmt: skip
    lugs = house_of(*changes).feeds["lugs"]
    assert amps(lugs.from_utility.current) == 200 + 16
    assert cleared(lugs)["utility"] == "service-disconnect"


def test_a_tap_hangs_on_the_load_side_of_the_feeder_device() -> None:
    more = '\n[[panels]]\nid = "shed"\nfed_from = "backup"\nfed_by = "tap"\nmain = "30 A"\ncircuits = []\n'
    house = house_of(more=more)
    tap = house.feeds["backup to shed"]
    assert tap.a == "main/backup-feeder"
    assert amps(tap.from_utility.current) == 60 + 24
    assert house.graph.busbars_to_utility("shed")[1].id == "main"


def test_conductors_that_lead_back_are_told() -> None:
    parts = [Part(id, "busbar", id, {}, True) for id in ("one", "two", "three")]
    ring = [Link("a", "one", "two", "conductor"), Link("b", "two", "three", "conductor")]
    assert not has_loop(Installation(parts, ring))
    assert has_loop(Installation(parts, [*ring, Link("c", "three", "one", "conductor")]))
