"""Random houses as job files: panels in a tree, batteries and arrays on any of them, every run of its own length."""

import random
import tomllib
from typing import Any, NamedTuple

import tomlkit

from standfast.design.wiring.whole import Wiring, wire
from standfast.equipment.read import KINDS, find
from standfast.foreman.demo import job_text
from standfast.shelf import edition
from standfast.survey import Survey
from standfast.survey.read import read

NEC, HANDBOOK = edition("nfpa70", "2023"), edition("handbook", "2026")
PANELS = ("main", "garage", "barn", "loft")


class House(NamedTuple):
    """A random house: its words, the panel above each panel but the first, and the wiring that standfast gives it.

    Attributes:
        survey: the job.
        above: by panel, where it is fed from.
        arrays: rated output in A of the arrays that were there, by panel.
        wiring: what the design says.
    """

    survey: Survey
    above: dict[str, str]
    arrays: dict[str, list[float]]
    wiring: Wiring


def house(seed: int, transformer: dict[str, str] | None = None) -> House:
    """A house with two to four panels, one to three batteries that feed or charge, and existing arrays.

    Args:
        seed: of chance.
        transformer: words of ``[supply.transformer]`` in place of the fault current that the utility states.
    """
    chance = random.Random(seed)
    words = tomllib.loads(job_text("detached_pair"))
    if transformer is not None:
        stated = ("fault_current", "fault_current_source", "fault_x_over_r", "least_fault_current")
        words["supply"] = {word: each for word, each in words["supply"].items() if word not in stated}
        words["supply"]["transformer"] = transformer
    panels = PANELS[: chance.randint(2, 4)]
    above = {panel: chance.choice(panels[:at]) for at, panel in enumerate(panels) if at}
    mould = {each["id"]: {**each, "spaces": 40, "free_spaces": 2} for each in words["panels"]}
    mould["main"]["circuits"] = [each for each in mould["main"]["circuits"] if each["id"] != "garage-feeder"]
    mould["garage"]["circuits"] = [each for each in mould["garage"]["circuits"] if "feeds" not in each]
    words["panels"] = [mould["main"], *(_panel(mould["garage"], each, above[each]) for each in panels[1:])]
    words["routes"] = [_feeder(chance, above[each], each) for each in panels[1:]]
    by_id = {each["id"]: each for each in words["panels"]}
    for below, over in above.items():
        by_id[over]["circuits"].append(_circuit(f"{below}-feeder", below, "existing"))
    words["equipment"]["quantity"] = chance.randint(1, 3)
    for at in range(1, words["equipment"]["quantity"] + 1):
        panel = chance.choice(panels)
        by_id[panel]["circuits"].append(_circuit(f"battery-{at}", f"battery-{at}", "new"))
        words["routes"].append(_own_run(chance, f"battery-{at}", panel))
    arrays = {panel: [float(chance.randint(8, 40))] for panel in panels if chance.random() < 0.4}
    for panel, found in arrays.items():
        pv = {"id": f"{panel}-pv", "breaker": "50 A", "poles": 2, "phases": "line to line", "state": "existing"}
        by_id[panel]["circuits"].append({**pv, "source_output": f"{found[0]:g} A"})
    survey, faults = read(tomlkit.dumps(words))
    if survey is None or faults:
        raise AssertionError([str(each) for each in faults])
    return House(survey, above, arrays, wire(NEC, HANDBOOK, survey, sheets(survey)))


def grown(circuits: int) -> Survey:
    """A house with so many circuits of loads in panels of 40 spaces, and two batteries on the last of them.

    Four panels are fed from each one before; the feeders are counted among the circuits of no panel but the one above.
    """
    chance, each_panel = random.Random(circuits), 10
    words = tomllib.loads(job_text("detached_pair"))
    mould = {each["id"]: {**each, "spaces": 40, "free_spaces": 2} for each in words["panels"]}
    names = ["main", "garage", *(f"panel-{at}" for at in range(2, -(-circuits // each_panel)))]
    above = {name: names[(at - 1) // 4] for at, name in enumerate(names) if at}
    mould["garage"]["circuits"] = []
    words["panels"] = [mould["main"], *(_panel(mould["garage"], name, above[name]) for name in names[1:])]
    words["routes"] = [_feeder(chance, above[name], name) for name in names[1:]]
    for at, panel in enumerate(words["panels"]):
        count = min(each_panel, circuits - at * each_panel)
        panel["circuits"] = [_load(f"load-{at}-{number}", number) for number in range(max(count, 0))]
        panel["circuits"] += [
            _circuit(f"{each}-feeder", each, "existing") for each in names if above.get(each) == panel["id"]
        ]
    for number in (1, 2):
        words["panels"][-1]["circuits"].append(_circuit(f"battery-{number}", f"battery-{number}", "new"))
        words["routes"].append(_own_run(chance, f"battery-{number}", names[-1]))
    words["backup"]["mode"] = "circuits"
    words["backup"]["transfer"] = "manual"
    survey, faults = read(tomlkit.dumps(words))
    if survey is None or faults:
        raise AssertionError([str(each) for each in faults])
    return survey


def sheets(survey: Survey) -> dict[str, Any]:
    """The data sheets that a job names."""
    chosen = {role: getattr(survey.job.equipment, role) for role in KINDS}
    return {role: sheet for role, id in chosen.items() if id is not None and (sheet := find(id).sheet) is not None}


def _panel(mould: dict[str, Any], id: str, above: str) -> dict[str, Any]:
    circuits = [{**each, "id": f"{id}-{each['id']}"} for each in mould["circuits"]]
    return {**mould, "id": id, "name": f"Panel {id}", "fed_from": above, "circuits": circuits}


def _load(id: str, number: int) -> dict[str, Any]:
    found = {"id": id, "spaces": [number + 1], "breaker": "20 A", "poles": 1, "load": "1200 VA", "state": "existing"}
    return {**found, "phases": "line to neutral", "backed_up": number % 2 == 0, "has_motor": False}


def _circuit(id: str, feeds: str, state: str) -> dict[str, Any]:
    found = {"id": id, "feeds": feeds, "poles": 2, "state": state}
    return found | ({"breaker": "30 A", "phases": "line to line"} if state == "new" else
                    {"breaker": "100 A", "phases": "both"})  # fmt: skip


def _feeder(chance: random.Random, above: str, below: str) -> dict[str, Any]:
    metal, size = chance.choice(("cu", "al")), chance.choice(("3", "1", "1/0", "2/0", "4/0"))
    sets = chance.choice((1, 2)) if "/" in size else 1
    return {
        "id": f"{below}-feeder", "from": above, "to": below, "length": f"{chance.randint(10, 200)} ft",
        "ambient": "86 °F", "wet": False, "raceway": "pvc-40", "trade_size": "2", "other_current_carrying": 0,
        "conductors": {"size": size, "material": metal, "insulation": "xhhw", "ground": "6", "sets": sets},
        "state": "existing",
    }  # fmt: skip


def _own_run(chance: random.Random, battery: str, panel: str) -> dict[str, Any]:
    return {
        "id": f"{battery}-run", "from": battery, "to": panel, "length": f"{chance.randint(3, 120)} ft",
        "ambient": "104 °F", "wet": False, "raceway": "emt", "other_current_carrying": 0, "state": "new",
        "conductors": {"material": "cu", "insulation": "thhn", "sets": 1},
    }  # fmt: skip
