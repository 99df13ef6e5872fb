"""What the chosen work brings under the adopted edition: each trigger met, not met and not known; adders; defects."""

import re
from collections.abc import Mapping
from importlib import resources
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from standfast import shelf
from standfast.design.knock_on.whole import KnockOn, knock_on
from standfast.design.knock_on.work import WORDS, brought
from standfast.equipment.prices import shipped
from standfast.faults import NotInEdition
from standfast.sheet import Check, Value
from standfast.shelf import Adoption
from standfast.survey import read
from standfast.survey.read import Survey, changed
from standfast.terms import ExistingPart

DEMO = resources.files("standfast.foreman").joinpath("demos/one_wall/job.toml").read_text("utf-8")
US = shelf.adoption("us-2021")


def survey() -> Survey:
    reading = read(DEMO)
    assert reading.survey is not None, reading.faults
    return reading.survey


SURVEY = survey()
"""The demo job, which holds every fact that is asked for."""
ADDERS, DEFECTS = ("adders",), ("defects",)
PANEL, BACKUP = ("panels", 0), ("panels", 1)
SERVICE = (("panels", 0, "state"), "new"), (("panels", 0, "free_spaces"), 8)


def with_(*changes: tuple[tuple[str | int, ...], object]) -> Survey:
    job = changed(SURVEY, changes)
    assert job is not None, changes
    return job


def asked(*changes: tuple[tuple[str | int, ...], object], adoption: Adoption = US) -> dict[str, Check]:
    return {check.id: check for check in knock_on(with_(*changes), adoption, shipped()).checks}


def bare(*changes: tuple[tuple[str | int, ...], object], adoption: Adoption = US) -> dict[str, Check]:
    """The checks of the demo job without its adders."""
    return asked(*((("adders", number), None) for number in (2, 1, 0)), *changes, adoption=adoption)


def test_the_demo_is_answered_and_says_what_it_does_on_the_side() -> None:
    found = knock_on(SURVEY, US, shipped())
    assert not [check.id for check in found.checks if check.open]
    states = {row.asked.id: row.state for row in found.rows}
    assert states["existing.circuit-directory/main"] == "done with this job"
    assert states["existing.closed-openings/main"] == "in order"
    assert states["existing.surge-protection/main"] == "not asked"
    done = [row for row in found.rows if row.state == "done with this job"]
    assert len(done) == 3 and all(row.price is not None and row.price.invented for row in done)
    assert all("done with this job" in row.check.condition for row in done)


CASES: Mapping[str, tuple[list[Any], list[Any], list[Any]]] = {
    # check: changes that make it pass, lack, not known. The work that brings it is in each.
    "surge-protection/main": (
        [*SERVICE, (("panels", 0, "surge_protection"), True)],
        [*SERVICE, (("panels", 0, "surge_protection"), False)],
        [*SERVICE, (("panels", 0, "surge_protection"), None)],
    ),
    "feeder-surge-protection/backup": (
        [(("panels", 1, "surge_protection"), True)],
        [(("panels", 1, "surge_protection"), False)],
        [(("panels", 1, "surge_protection"), None)],
    ),
    "circuit-directory/main": (
        [(("panels", 0, "directory"), True)],
        [(("panels", 0, "directory"), False)],
        [(("panels", 0, "directory"), None)],
    ),
    "closed-openings/main": (
        [(("panels", 0, "openings_closed"), True)],
        [(("panels", 0, "openings_closed"), False)],
        [(("panels", 0, "openings_closed"), None)],
    ),
    "water-pipe-bond": (
        [(("supply", "water_pipe_bonded"), True)],
        [(("supply", "water_pipe_bonded"), False)],
        [(("supply", "water_pipe_bonded"), None)],
    ),
    "gas-pipe-bond": (
        [(("supply", "gas_pipe_bonded"), True)],
        [(("supply", "gas_pipe_bonded"), False)],
        [(("supply", "gas_pipe_bonded"), False), (("supply", "metal_gas_pipe"), None)],
    ),
    "electrodes-joined": (
        [(("supply", "electrodes"), ["ground rods", "metal water pipe"])],
        [(("supply", "electrodes"), ["ground rods", "metal water pipe"]), (("supply", "electrodes_joined"), False)],
        [(("supply", "electrodes"), ["ground rods", "metal water pipe"]), (("supply", "electrodes_joined"), None)],
    ),
    "second-electrode": (
        [(("supply", "electrodes"), ["ground rods", "metal water pipe"])],
        [(("supply", "electrodes"), ["metal water pipe"])],
        [(("supply", "electrodes"), None)],
    ),
    "intersystem-bonding": (
        [*SERVICE],
        [*SERVICE, (("supply", "intersystem_bonding"), False)],
        [*SERVICE, (("supply", "intersystem_bonding"), None)],
    ),
    "smoke-alarms": (
        [(("site", "smoke_alarms"), "in every place, interconnected")],
        [(("site", "smoke_alarms"), "not in every place")],
        [(("site", "smoke_alarms"), None)],
    ),
    "carbon-monoxide-alarms": (
        [(("site", "co_alarms"), True)],
        [(("site", "co_alarms"), False)],
        [(("site", "co_alarms"), None)],
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_part_that_the_work_brings_is_in_order_lacking_or_not_known(name: str) -> None:
    for changes, verdict in zip(CASES[name], ("pass", "fail", "cannot tell"), strict=True):
        check = bare(*changes)[f"existing.{name}"]
        assert check.verdict == verdict, (name, changes, check.reason)
    assert check.reason, "what is to be found out"


def test_every_part_has_an_offer_a_price_and_a_text() -> None:
    from typing import get_args

    from standfast.design.knock_on.parts import IDS
    from standfast.words import has

    assert set(IDS) == set(get_args(ExistingPart)) == set(shipped().adder)
    assert all(has(f"existing.{word.replace('-', '_')}") for word in IDS.values())
    assert {f"existing.{name.partition('/')[0]}" for name in CASES} | {"existing.arc-fault"} == {
        f"existing.{word}" for word in IDS.values()
    }


@pytest.mark.parametrize(
    ("changes", "id"),
    [
        ([], "surge-protection/main"),
        ([], "intersystem-bonding"),
        (
            [(("panels", 1, "state"), "existing"), (("panels", 1, "free_spaces"), None)],
            "feeder-surge-protection/backup",
        ),
        ([(("supply", "water_pipe_bonded"), None), (("supply", "metal_water_pipe"), False)], "water-pipe-bond"),
        ([(("supply", "electrodes_joined"), None)], "electrodes-joined"),
    ],
)
def test_work_that_the_job_does_not_do_brings_nothing(changes: list[Any], id: str) -> None:
    check = bare(*changes)[f"existing.{id}"]
    assert check.verdict == "not applicable" and check.reason


def test_work_that_is_not_known_leaves_the_part_open() -> None:
    found = bare((("panels", 0, "state"), None), (("panels", 0, "surge_protection"), True))
    for id in ("surge-protection/main", "circuit-directory/main", "intersystem-bonding"):
        assert found[f"existing.{id}"].verdict == "cannot tell"
        assert "panels.main.state" in found[f"existing.{id}"].reason


def test_a_dwelling_that_is_being_built_is_not_altered() -> None:
    """Only where no panel and no circuit is there; an exchanged panel over old circuits is an alteration."""
    assert bare(*SERVICE)["existing.smoke-alarms"].verdict == "pass"
    new = re.sub(r'state = "existing"', 'state = "new"', re.sub(r"moved_(from|spaces) = .*\n", "", DEMO))
    reading = read(re.sub(r"free_spaces = .*\n", "", new))
    assert reading.survey is not None, reading.faults
    found = {check.id: check for check in knock_on(reading.survey, US, shipped()).checks}
    assert found["existing.smoke-alarms"].verdict == "not applicable"
    assert not any(id.startswith("existing.arc-fault") for id in found)


KITCHEN = ("panels", 1, "circuits", 3)


@pytest.mark.parametrize(
    ("changes", "verdict"),
    [
        ({"extended": "6 ft"}, "pass"),
        ({"extended": "6 ft 1 in"}, "fail"),
        ({"extended": "9 ft", "arc_fault": True}, "pass"),
        ({"extended": None}, "cannot tell"),
        ({"extended": None, "arc_fault": True}, "pass"),
        ({"extended": "9 ft", "arc_fault": None}, "cannot tell"),
        ({"extended": "9 ft", "serves": None}, "cannot tell"),
        ({"extended": "9 ft", "serves": ["garage", "outdoors"]}, "not applicable"),
        ({"extended": "9 ft", "serves": ["garage", "hallway"]}, "fail"),
        ({"extended": "9 ft", "breaker": "30 A"}, "not applicable"),
        ({"extended": "9 ft", "phases": "line to line"}, "not applicable"),
    ],
)
def test_a_moved_circuit_that_is_made_longer_by_more_than_six_feet_is_protected(
    changes: dict[str, object], verdict: str
) -> None:
    check = bare(*(((*KITCHEN, word), value) for word, value in changes.items()))[
        "existing.arc-fault/kitchen-receptacles"
    ]
    assert check.verdict == verdict, check.reason
    assert verdict != "pass" or "arc_fault" in changes or "only spliced" in check.condition


def test_carbon_monoxide_is_asked_where_fuel_is_burnt_or_a_garage_opens_into_the_dwelling() -> None:
    shut = (("rooms", 0, "opens_into"), "outside")
    none = (("site", "co_alarms"), False)
    assert bare(none)["existing.carbon-monoxide-alarms"].verdict == "fail"
    assert bare(none, shut)["existing.carbon-monoxide-alarms"].verdict == "fail"
    without = bare(none, shut, (("site", "fuel_burning"), False))["existing.carbon-monoxide-alarms"]
    assert without.verdict == "not applicable"
    assert (
        bare(none, shut, (("site", "fuel_burning"), None))["existing.carbon-monoxide-alarms"].verdict == "cannot tell"
    )


def offer(number: int, **words: object) -> list[tuple[tuple[str | int, ...], object]]:
    return [(("adders", number), {"id": f"offer-{number}", **words})]


def test_an_offer_counts_only_where_the_owner_agreed() -> None:
    lack = (("panels", 0, "openings_closed"), False)
    id = "existing.closed-openings/main"
    assert asked(lack, *offer(3, what="closed openings", accepted=True))[id].verdict == "pass"
    declined = asked(lack, *offer(3, what="closed openings", accepted=False))[id]
    assert declined.verdict == "fail"
    silent = asked(lack, *offer(3, what="closed openings"))[id]
    assert silent.verdict == "cannot tell" and "adders.offer-3.accepted" in silent.reason


def test_an_offer_at_one_place_goes_before_one_for_all_and_does_not_reach_another() -> None:
    lack = (("panels", 0, "openings_closed"), False)
    id = "existing.closed-openings/main"
    for_all = offer(3, what="closed openings", accepted=True)
    here = offer(4, what="closed openings", at="main", accepted=False)
    elsewhere = offer(4, what="closed openings", at="backup", accepted=False)
    assert asked(lack, *for_all, *here)[id].verdict == "fail"
    assert asked(lack, *for_all, *elsewhere)[id].verdict == "pass"
    assert asked(lack, *offer(3, what="closed openings", at="backup", accepted=True))[id].verdict == "fail"


def test_each_edition_names_its_own_clauses_and_asks_its_own() -> None:
    of_2020 = bare(adoption=shelf.adoption("us-2020"))
    of_2023 = bare()
    assert str(of_2020["existing.arc-fault/kitchen-lights"].clause) == "NEC 2020 210.12(D)"
    assert str(of_2023["existing.arc-fault/kitchen-lights"].clause) == "NEC 2023 210.12(E)"
    assert of_2020["existing.feeder-surge-protection/backup"].verdict == "not applicable"
    assert of_2023["existing.feeder-surge-protection/backup"].verdict == "fail"
    assert str(of_2023["existing.smoke-alarms"].clause) == "IRC 2021 R314.2.2"
    of_2024 = bare(adoption=shelf.adoption("us-irc2024"))
    assert str(of_2024["existing.smoke-alarms"].clause) == "IRC 2024 R310.2.2"


class Place(shelf.Edition):
    """An edition as an invented place amends it: some of its numbers are others, or are not there."""

    def __init__(self, book: shelf.Edition, **triggers: object) -> None:
        super().__init__(book.book, book.edition, book.folder)
        self._triggers = triggers

    def number(self, key: str, symbol: str = "") -> Value:
        if key not in self._triggers:
            return super().number(key, symbol)
        found = self._triggers[key]
        if not isinstance(found, tuple):
            raise NotInEdition(f"no number is held for {key!r}")
        return Value(symbol or key, found, "", "table", "invented", self.cited("ordinance 1"), "memory")


def placed(book: str, **triggers: object) -> Adoption:
    amended = Place(US.book(book), **triggers)

    class Here(Adoption):
        __slots__ = ()

        def book(self, name: str) -> shelf.Edition:
            return amended if name == book else super().book(name)

    return Here(*US)


def test_a_place_switches_a_trigger_off_on_or_names_work_that_nobody_knows() -> None:
    none = (("site", "smoke_alarms"), "none")
    assert bare(none)["existing.smoke-alarms"].verdict == "fail"
    off = bare(none, adoption=placed("irc", brought_smoke_alarms=()))["existing.smoke-alarms"]
    assert off.verdict == "not applicable" and "no kind of work" in off.reason
    always = placed("nfpa70", brought_surge_protection=("source added",))
    assert bare(adoption=always)["existing.surge-protection/main"].verdict == "fail"
    strange = bare(adoption=placed("nfpa70", brought_surge_protection=("full moon",)))["existing.surge-protection/main"]
    assert strange.verdict == "cannot tell" and "full moon" in strange.reason
    gap = bare(adoption=placed("nfpa70", brought_surge_protection=None))["existing.surge-protection/main"]
    assert gap.verdict == "cannot tell" and "not in this edition" in str(gap.clause)


def test_every_trigger_of_every_edition_names_work_that_is_known() -> None:
    for year in ("2020", "2023"):
        _triggers_are_known(shelf.edition("nfpa70", year))
    for year in ("2021", "2024"):
        _triggers_are_known(shelf.edition("irc", year))


def _triggers_are_known(book: shelf.Edition) -> None:
    keys = [key for key in book.read("numbers.toml") if key.startswith("brought_")]
    assert keys
    for key in keys:
        trigger = book.number(key)
        assert isinstance(trigger.number, tuple) and set(trigger.number) <= set(WORDS), key
        assert brought(trigger, {}).number is False


@pytest.mark.parametrize(
    ("danger", "action", "verdict"),
    [
        ("immediate", "with this job", "pass"),
        ("immediate", "made safe", "pass"),
        ("immediate", "left", "fail"),
        ("immediate", None, "cannot tell"),
        ("soon", "left", "not applicable"),
        ("note", None, "not applicable"),
        (None, "with this job", "cannot tell"),
    ],
)
def test_a_known_danger_is_mended_or_made_safe_before_a_source_is_joined(
    danger: str | None, action: str | None, verdict: str
) -> None:
    found = asked((("defects", 0, "danger"), danger), (("defects", 0, "action"), action))
    assert found["existing.defect/hot-outlet"].verdict == verdict


SURVEYED = [
    *((*way, word) for way, words in (
        (("site",), ("smoke_alarms", "co_alarms", "fuel_burning")),
        (("supply",), ("electrodes", "water_pipe_bonded", "gas_pipe_bonded", "metal_water_pipe", "metal_gas_pipe",
                       "electrodes_joined", "intersystem_bonding")),
        (PANEL, ("state", "directory", "openings_closed", "surge_protection")),
        (BACKUP, ("state", "surge_protection")),
        (("rooms", 0), ("opens_into",)),
        *((("panels", 1, "circuits", number), ("serves", "extended", "arc_fault", "breaker", "phases", "state"))
          for number in range(3)),
        (("defects", 0), ("danger", "action")),
    ) for word in words),
]  # fmt: skip
CHOICES: Mapping[str, list[object]] = {
    "smoke_alarms": ["in every place, interconnected", "in every place, not interconnected", "not in every place"],
    "electrodes": [["metal water pipe"], ["ground rods"], ["ground rods", "metal water pipe"]],
    "opens_into": ["kitchen", "outside"], "serves": [["garage"], ["kitchen"], ["hallway", "garage"]],
    "extended": ["0 ft", "6 ft", "7 ft"], "breaker": ["15 A", "30 A"], "phases": ["line to line", "line to neutral"],
    "danger": ["immediate", "soon", "note"], "action": ["with this job", "made safe", "left"],
}  # fmt: skip
"""Words with other values than yes and no. `state` stays: it decides which parts there are."""
JOBS = st.fixed_dictionaries(
    {way: st.sampled_from(CHOICES.get(str(way[-1]), [True, False])) for way in SURVEYED if way[-1] != "state"}
)


@given(facts=JOBS, kept=st.booleans(), taken=st.sets(st.sampled_from(SURVEYED), min_size=1, max_size=3))
@settings(max_examples=60)
def test_taking_surveyed_words_out_never_makes_a_part_pass(
    facts: dict[tuple[str | int, ...], object], kept: bool, taken: set[tuple[str | int, ...]]
) -> None:
    offers = [] if kept else [(("adders", number), None) for number in (2, 1, 0)]
    full = changed(SURVEY, [*offers, *facts.items()])
    less = changed(SURVEY, [*offers, *facts.items(), *((way, None) for way in sorted(taken, key=str))])
    if full is None or less is None:
        return
    before = {check.id: check.verdict for check in _checks(full)}
    for check in _checks(less):
        assert check.verdict != "pass" or before.get(check.id, "pass") == "pass", (check.id, taken)
        assert check.verdict != "fail" or before.get(check.id) == "fail", (check.id, taken)


def _checks(job: Survey) -> list[Check]:
    found: KnockOn = knock_on(job, US, shipped())
    return found.checks


def test_no_other_module_knows_an_edition() -> None:
    text = "".join(
        path.read_text("utf-8") for path in resources.files("standfast.design").joinpath("knock_on").iterdir()
        if path.name.endswith(".py")
    )  # fmt: skip
    assert not re.search(r"\b20(20|21|23|24)\b", text)
