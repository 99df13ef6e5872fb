"""Rows of the van that follow from the way of a run, ends of conductors, walls between, the day and the store."""

from pathlib import Path

import pytest

from standfast.design.siting.solid import Span
from standfast.design.wiring.along import Middle, Surface, bends
from standfast.equipment.prices import shipped as shipped_prices
from standfast.equipment.read import shipped
from standfast.fieldwork.cut_plan import cut_plans
from standfast.fieldwork.material import Group, Material
from standfast.fieldwork.materials import materials
from standfast.fieldwork.pick_list import Pick, Store, pick_list
from standfast.fieldwork.plan import Plan
from standfast.fieldwork.tools import tools
from standfast.fieldwork.ways import Way
from standfast.fieldwork.work_order import work_order
from standfast.foreman.demo import write_demo
from standfast.foreman.pack import sitework
from standfast.foreman.plan import make_plan
from standfast.sheet import chosen, given, missing

FIRM = 'schema = 1\n[firm]\nname = "Invented Electric"\ninvented = true\n'


def site(
    name: str, folder: Path, *changes: tuple[str, str], firm: str = "", sheet: tuple[str, str, str] | None = None
) -> Plan:
    job = write_demo(name, folder / "house")
    text = (job / "job.toml").read_text("utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    (job / "job.toml").write_text(text, "utf-8")
    if sheet is not None:
        id, old, new = sheet
        assert shipped()[id].count(old) == 1, old
        (job / "sheets").mkdir(exist_ok=True)
        (job / "sheets" / f"{id}.toml").write_text(shipped()[id].replace(old, new), "utf-8")
    if firm:
        (folder / "firm").mkdir()
        (folder / "firm" / "firm.toml").write_text(firm, "utf-8")
    return sitework(make_plan(job, folder / "firm" if firm else None))


def rows(plan: Plan, group: Group, word: str = "") -> list[Material]:
    return [row for row in materials(plan).rows if row.group == group and word in row.what]


@pytest.fixture(scope="module")
def wall(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    return site("one-wall", tmp_path_factory.mktemp("wall"))


TWO = Surface({"left": 0, "right": 30000}, (), 25000)
DOOR = Surface({"left": 0}, ((Span(10000, 19000), Span(0, 20000)),), 25000)


@pytest.mark.parametrize(
    ("surface", "one", "other", "count"),
    [
        (TWO, Middle("left", 1000, 15000), Middle("left", 9000, 15000), 0),
        (TWO, Middle("left", 1000, 15000), Middle("left", 1000, 5000), 0),
        (TWO, Middle("left", 1000, 15000), Middle("left", 9000, 5000), 1),
        (TWO, Middle("left", 1000, 15000), Middle("right", 2000, 15000), 1),
        (TWO, Middle("left", 1000, 15000), Middle("right", 2000, 5000), 2),
        (DOOR, Middle("left", 1000, 15000), Middle("left", 25000, 15000), 2),
        (DOOR, Middle("left", 1000, 15000), Middle("left", 25000, 20000), 1),
    ],
    ids=["level", "plumb", "across and down", "round the corner", "both", "over a door", "up to its lintel"],
)
def test_quarter_bends_are_those_of_the_shortest_way(surface: Surface, one: Middle, other: Middle, count: int) -> None:
    assert bends(surface, one, other) == count == bends(surface, other, one)


def test_a_run_along_the_wall_has_its_bends_counted_and_made_of_the_stick(tmp_path: Path, wall: Plan) -> None:
    along = ('to = "disconnect"\nlength = "6 ft"', 'to = "disconnect"\nalong = "wall"\nextra = "20 in"')
    plan = site("one-wall", tmp_path, along)
    (known,) = [row for row in rows(plan, "raceway", "Bends") if "battery-run" in row.of]
    count = plan.ways["battery-run"].bends.quantity
    assert known.amount == f"{count:g}, made of the stick" and known.quantity.quantity == 0
    assert "360°" in known.use and f"that of the other: {count:g};" in known.use
    unknown = [row for row in rows(wall, "raceway", "Bends") if "battery-run" in row.of]
    assert [row.amount for row in unknown] == ["count on site"]


def test_bends_that_no_hand_bender_makes_are_bought_with_two_couplings_each(wall: Plan) -> None:
    run = next(run for run in wall.runs if run.id == "battery-run")
    plastic = run._replace(raceway=given("raceway", "pvc-40", "", "job"))
    three = Way(("garage", "garage"), chosen("n_bend", 3.0, "1", "along the wall", None))
    bent = wall._replace(runs=[plastic], ways={run.id: three})
    straight = wall._replace(runs=[plastic], ways={})
    (elbow,) = rows(bent, "raceway", "Elbow of 90°")
    assert elbow.quantity.quantity == 3
    assert [row.quantity.quantity for row in rows(bent, "raceway", "coupling")] == [6.0]
    assert rows(straight, "raceway", "coupling") == []
    assert rows(straight, "raceway", "Elbow") == []


def test_every_strap_says_its_section_and_its_spacing(wall: Plan) -> None:
    straps = rows(wall, "raceway", "Strap")
    assert straps
    for row in straps:
        assert "358.30 of the electrical code" in row.use and "every 10 ft" in row.use
        assert "memory" in row.ground


@pytest.mark.parametrize(
    ("rooms", "what", "amount"),
    [
        (("garage", "outside"), "outer wall", "1"),
        (("garage", "kitchen"), "Fire-blocking seal", "1"),
        (("hall", "kitchen"), "between two rooms", "1"),
        (None, "Seal of an entry through a wall", "count on site"),
    ],
    ids=str,
)
def test_each_entry_through_a_wall_has_its_seal(
    wall: Plan, rooms: tuple[str, str] | None, what: str, amount: str
) -> None:
    room = wall.survey.job.rooms[0]
    kinds = {"garage": "attached garage", "kitchen": "kitchen", "hall": "hall", "outside": "outside"}
    made = [room.model_copy(update={"id": id, "kind": kind}) for id, kind in kinds.items()]
    content = wall.survey.content.model_copy(update={"rooms": tuple(made)})
    survey = type(wall.survey)(wall.survey.file, content, wall.survey.index, wall.survey.unknown, wall.survey.raw)
    ways = dict(wall.ways) | {"battery-run": Way(rooms, missing("n_bend", "1", "not known"))}
    seals = rows(wall._replace(survey=survey, ways=ways), "sealing", what)
    assert [row.amount for row in seals if "battery-run" in row.of] == [amount]
    assert rows(wall, "sealing", "Seal of an entry") == []  # every run of this job stays in one room


def test_lugs_are_for_studs_and_a_terminal_that_clamps_takes_none(tmp_path: Path) -> None:
    plan = site("cabinet", tmp_path)
    (lugs,) = rows(plan, "conductors", "lugs")
    assert "1/0 AWG, hole for stud 3/8 in" in lugs.what
    ends = sum(
        wire.number
        for run in plan.runs for part in run.parts for wire in run.wires
        if wire.use in ("positive", "negative") and plan.installation.parts[part].kind in ("fuse", "disconnect")
    )  # fmt: skip
    assert ends == 16 and lugs.quantity.quantity == 16 + 4  # a fifth more, up
    assert lugs.needs == ()


def test_a_stud_that_no_sheet_states_is_asked_for(tmp_path: Path) -> None:
    plan = site("cabinet", tmp_path, sheet=("demo-fuse-250", 'stud = "3/8"\n', ""))
    unknown = [row for row in rows(plan, "conductors", "lugs") if "stud of each terminal" in row.what]
    assert [len(row.needs) for row in unknown] == [1]
    assert "Battery 1 DC fuse" in unknown[0].needs[0]


def test_ferrules_are_as_long_as_the_terminal_asks(tmp_path: Path) -> None:
    plan = site("terrace", tmp_path)
    found = {row.what: row.quantity.quantity for row in rows(plan, "conductors", "Ferrules")}
    assert found["Ferrules 6 mm², sleeve for 12 mm stripped"] == 3 + 2  # line, neutral, earth at the unit; two spare
    ends = sum(2 * 2 + 2 for _ in plan.cables)
    assert sum(found.values()) == ends + sum(max(2, -(-(number - 2) // 6)) for number in found.values())


def test_the_neutral_earth_relay_is_on_the_list_where_nothing_makes_that_joint(tmp_path: Path) -> None:
    bond = 'neutral_bond = "while the grid is away"'
    made = site("terrace", tmp_path / "made")
    none = site("terrace", tmp_path / "none", sheet=("demo-wall-5", bond, 'neutral_bond = "none"'))
    open_ = site("terrace", tmp_path / "open", sheet=("demo-wall-5", bond, ""))
    assert rows(made, "switchgear", "relay") == []
    (row,) = rows(none, "switchgear", "relay")
    assert row.needs == () and "licensed person" in row.use
    (row,) = rows(open_, "switchgear", "relay")
    assert "neutral_bond" in row.needs[0]


def test_singles_lie_in_conduit_or_trunking_and_have_no_glands(tmp_path: Path) -> None:
    plan = site("terrace", tmp_path)
    single = plan.cables[0]._replace(cable=given("cable", "70 °C thermoplastic, singles in conduit", "", "job"))
    found = rows(plan._replace(cables=[single]), "raceway")
    assert not [row for row in found if "Gland" in row.what or "Clips" in row.what]
    (trunking,) = [row for row in found if row.what.startswith("Conduit or trunking")]
    assert trunking.quantity.quantity == -(-single.length.quantity // 1)
    assert "kind and size" in trunking.needs[0]
    assert [row.amount for row in found if row.what.startswith("Bends, couplers")] == ["count on site"]


def picks(plan: Plan) -> list[Pick]:
    return pick_list(plan, materials(plan), tools(plan), work_order(plan), Store(None, shipped_prices()))


@pytest.mark.parametrize("name", ["one-wall", "terrace", "cabinet"])
def test_what_people_wear_stands_with_the_steps_at_which_they_wear_it(tmp_path: Path, name: str) -> None:
    plan = site(name, tmp_path)
    order = work_order(plan)
    worn = {pick.what: pick for pick in picks(plan) if pick.place == "people"}
    table = plan.practice.table("protective")
    assert {plan.say(f"materials.{row['item']}") for row in table.rows} <= worn.keys()
    fixed = {number for step in order.steps if step.stage == "fix" for number in [order.numbers[step.id]]}
    assert fixed and fixed <= spread(worn[plan.say("materials.respirator")].steps)
    proved = {order.numbers[step.id] for step in order.steps if step.proves}
    arc = worn[plan.say("materials.arc")]
    assert proved and proved <= spread(arc.steps)
    assert "settled by the" in arc.why and arc.ground == "common practice"


def spread(steps: str) -> set[int]:
    """The numbers of ``3, 5–7``."""
    found = set[int]()
    for part in steps.split(", "):
        first, _, last = part.partition("–")
        found |= set(range(int(first), int(last or first) + 1))
    return found


def test_pieces_are_cut_from_the_lengths_that_lie_in_the_store(tmp_path: Path, wall: Plan) -> None:
    store = FIRM + (
        '\n[[wares]]\nwhat = "emt 1/2"\nlength = "24 ft"\neach = "8 ft"\n'
        '\n[[wares]]\nwhat = "cu 10"\nlength = "60 ft"\neach = "60 ft"\n'
    )
    plan = site("one-wall", tmp_path, firm=store)
    bars = {found.what: (found.bar.quantity, found.bar.how) for found in cut_plans(plan)}
    emt = next(bars[what] for what in bars if what.startswith("EMT 1/2"))
    copper = next(bars[what] for what in bars if "10 AWG" in what)
    assert (emt[0], copper[0]) == (8, 60)
    assert "firm.toml:" in emt[1] and "firm.toml:" in copper[1]
    usual = {found.what: found.bar.quantity for found in cut_plans(wall)}
    assert next(usual[what] for what in usual if what.startswith("EMT 1/2")) == 10
