"""Remedies of every whole demo, damaged by chance: each, written into the file, clears its checks and opens none."""

import os
import random
import re
from collections.abc import Mapping
from pathlib import Path

import pytest
import tomli
from test_remedies import CHOSEN, planned, verdicts, written

from standfast.foreman.demo import job_text
from standfast.foreman.remedies import remedied
from standfast.foreman.remedies.change import dotted
from standfast.survey.write import put

CASES = 50 if "STANDFAST_CASES" in os.environ else 4
"""Damaged jobs of each demo: `make oracle` asks for 200 in all."""
Way = tuple[str | int, ...]
Values = tuple[str | int | bool, ...]
HOUSE: dict[str, Values] = {
    "panels.main.breaker_interrupting": ("5 kA", "8 kA"),
    "panels.main.short_circuit_rating": ("5 kA",),
    "panels.main.source_position": ("same end", "elsewhere"),
    "supply.main_interrupting": ("5 kA",),
    "supply.service": ("100 A",),
    "supply.electrode_conductor.size": ("8",),
    "equipment.fastener": ("demo-screw-10",),
    "handling.crew": (1,),
    "wishes.keep_clear": ("30 ft",),
}
"""Words that every demo has, with values that one trade or another refuses."""
DAMAGES: Mapping[str, dict[str, Values]] = {
    "one-wall": {
        "wishes.left": ("1 ft", "5 ft", "9 ft"),
        "panels.backup.circuits.battery.breaker": ("15 A", "60 A"),
        "adders.surge-device.accepted": (False,),
        "adders.directory.accepted": (False,),
    },
    "detached-pair": {
        "panels.garage.circuits.battery-1.breaker": ("15 A", "45 A", "60 A"),
        "panels.garage.circuits.battery-2.breaker": ("20 A", "50 A"),
        "panels.main.circuits.garage-feeder.breaker": ("40 A", "60 A"),
        "panels.garage.busbar": ("60 A", "100 A"),
        "panels.garage.source_position": ("same end",),
        "panels.garage.breaker_interrupting": ("5 kA",),
        "panels.garage.short_circuit_rating": ("5 kA",),
        "panels.garage.neutral_bonded": (True,),
        "routes.battery-1-run.conductors.size": ("14", "12"),
        "routes.disconnect-2-run.conductors.size": ("14",),
        "routes.battery-2-run.trade_size": ("1/2",),
        "rooms.garage.detection": ("none",),
        "walls.garage-west.vehicle_path.wall": ("end wall",),
        "walls.garage-west.obstacles.disconnect-1.left": ("45 in",),
    },
    "stack-outdoors": {
        "wishes.left": ("1 ft", "5 ft", "9 ft"),
        "panels.main.circuits.inverter.breaker": ("30 A", "60 A"),
        "routes.dc-run.conductors.size": ("14", "10", "8"),
        "routes.dc-run.trade_size": ("1/2",),
        "routes.inverter-run.conductors.size": ("14", "12"),
        "routes.pv-run.conductors.size": ("14",),
        "arrays.roof-array.modules": (16,),
        "arrays.roof-array.rapid_shutdown": (False,),
        "equipment.base_anchor": ("demo-anchor-3-8",),
        "equipment.inverter_fastener": ("demo-screw-10",),
        "walls.house-east.obstacles.inverter.left": ("25 ft 6 in", "26 ft"),
        "walls.house-east.footing.doweled": (False,),
        "walls.house-east.footing.thickness": ("3 in",),
    },
    "cabinet": {
        "wishes.left": ("1 ft", "5 ft", "9 ft"),
        "panels.backup.circuits.inverter.breaker": ("25 A", "60 A"),
        "panels.backup.neutral_bonded": (True,),
        "panels.backup.busbar": ("60 A",),
        "panels.backup.breaker_interrupting": ("5 kA",),
        "routes.dc-battery.conductors.size": ("6", "2"),
        "routes.dc-inverter.conductors.size": ("6", "1"),
        "routes.dc-battery.trade_size": ("1",),
        "equipment.dc_disconnect": ("demo-dc-disconnect-60",),
        "equipment.base_anchor": ("demo-anchor-3-8",),
        "equipment.inverter_fastener": ("demo-screw-10",),
        "rooms.utility-room.detection": ("none",),
        "walls.utility-east.obstacles.inverter.left": ("92 in", "96 in"),
        "adders.surge-device.accepted": (False,),
        "adders.arc-breaker.accepted": (False,),
    },
}
ALSO = re.compile(
    r"arrays\.[^.]+\.(modules|strings|input|rapid_shutdown)|equipment\.quantity|panels\.[^.]+\.electrodes"
    r"|walls\.[^.]+\.footing\.\w+|routes\.[^.]+\.conductors\.\w+|wishes\.units\.[^.]+\.\w+"
    r"|adders\.[^.]+(\.accepted)?|walls\.[^.]+\.obstacles\.[^.]+\.(left|bottom)"
)
"""What a remedy may change beside the words of the first demo: also chosen, wished, put in or offered."""


NO_WAY_OUT = {f"anchorage.concrete-{word}/battery-1/foot" for word in ("thickness", "depth", "hole")}
"""Failures that no change of what is chosen clears: a slab or pad that is too thin for every anchor."""


def way_to(text: str, word: str) -> Way:
    """The way to a dotted word; items of a list are named by their ids."""
    data, way = tomli.loads(text), list[str | int]()
    for part in word.split("."):
        if isinstance(data, list):
            number = next(at for at, each in enumerate(data) if each["id"] == part)
            way, data = [*way, number], data[number]
        else:
            way, data = [*way, part], data.get(part, {})
    return tuple(way)


def damaged(demo: str, seed: int) -> str:
    """A demo with one to three words spoilt."""
    chance, text = random.Random(f"{demo} {seed}"), job_text(demo)
    words = {**HOUSE, **DAMAGES[demo]}
    for word in chance.sample(sorted(words), chance.randint(1, 3)):
        text = put(text, way_to(text, word), chance.choice(words[word]))
    return text


@pytest.mark.parametrize("seed", range(CASES))
@pytest.mark.parametrize("demo", list(DAMAGES))
def test_every_remedy_of_a_damaged_demo_clears_its_checks_and_opens_none(demo: str, seed: int, tmp_path: Path) -> None:
    text = damaged(demo, seed)
    plan = remedied(planned(tmp_path, text))
    before = verdicts(plan)
    assert plan.remedies or {check.id for check in plan.ledger if check.verdict == "fail"} <= NO_WAY_OUT
    for remedy in plan.remedies:
        still = verdicts(planned(tmp_path, written(text, remedy)))
        assert not set(remedy.clears) & set(still), remedy.text
        assert set(still) <= set(before), remedy.text
        assert all(before[id] == "fail" for id, verdict in still.items() if verdict == "fail"), remedy.text
        for path, _ in remedy.change.words:
            word = dotted(plan.survey.raw, path)
            assert isinstance(path[-1], int) or CHOSEN.fullmatch(word) or ALSO.fullmatch(word), word
