"""The tools of the job, derived from its joints, holes, raceways and tests."""

from typing import Literal, NamedTuple

from standfast.fieldwork.by_maker import same_thing
from standfast.fieldwork.holes import passes
from standfast.fieldwork.instruments import due, named
from standfast.fieldwork.isolation import isolations
from standfast.fieldwork.joints import Joint, joints
from standfast.fieldwork.plan import Held, Plan
from standfast.fieldwork.rows import bit_both, counted, length_of
from standfast.fieldwork.runs import STEEL, bent_by_hand
from standfast.sheet import Value
from standfast.shelf import Edition
from standfast.units import convert, show

Shelf = Literal[
    "torque",
    "drilling",
    "finding",
    "dust",
    "testing",
    "isolation",
    "wiring",
    "lifting",
    "setting out",
    "named by the maker",
]
Ground = Literal["data sheet", "electrical code", "common practice", "job"]


LARGE_FT = 25.0
"""Wrenches that reach beyond are marked in pound-feet."""


class Tool(NamedTuple):
    """One tool: where it lies, what it is with its size, what for, on what ground it is asked, and its other names.

    A torque tool has the settings that it is needed for, N·m; an instrument its name in the table of instruments.
    """

    shelf: Shelf
    what: str
    use: str
    ground: Ground
    also: str = ""
    settings_nm: tuple[float, ...] = ()
    instrument: str = ""


class Tools(NamedTuple):
    """The tool list, the joints that no listed torque tool covers, and the torque tool of each joint by its id."""

    rows: tuple[Tool, ...]
    uncovered: tuple[str, ...]
    by_joint: dict[str, str]


def tools(plan: Plan) -> Tools:
    """The tools of a job: those that the maker names too stand once."""
    all_joints = joints(plan)
    torque, uncovered, by_joint = torque_tools(plan, all_joints)
    rows = torque + _drilling(plan) + _finding(plan) + _testing(plan) + _isolation(plan) + _wiring(plan)
    rows += _lifting(plan) + _setting_out(plan)
    return Tools(tuple(_with_named(plan, rows, all_joints)), tuple(uncovered), by_joint)


def torque_tools(plan: Plan, all_joints: list[Joint]) -> tuple[list[Tool], list[str], dict[str, str]]:
    """The fewest torque tools that cover every stated torque, smallest tool first, the joints left over, and which
    tool each joint was given to.

    A tool counts from a fifth of its greatest setting (common practice). Going up the torques, each is given to the
    tool already taken if it covers it, else to the tool that covers it and reaches highest.
    """
    ladder = _ladder(plan.practice, "torque_tools_metric" if plan.metric else "torque_tools")
    stated = sorted((j for j in all_joints if not j.torque.missing), key=lambda j: (j.torque.quantity, j.id))
    taken: dict[str, list[Joint]] = {}
    silent = "; ".join(dict.fromkeys(joint.name for joint in all_joints if joint.torque.missing))
    uncovered = [plan.say("tools.torque_not_stated", name=silent)] if silent else []
    beyond: dict[str, list[str]] = {}
    for joint in stated:
        fitting = [tool for tool in ladder if tool.least_nm <= joint.torque.quantity <= tool.greatest_nm]
        if not fitting:
            beyond.setdefault(joint.shown, []).append(joint.name)
            continue
        had = next((tool for tool in fitting if tool.name in taken), None)
        taken.setdefault((had or fitting[-1]).name, []).append(joint)
    uncovered += [plan.say("tools.torque_uncovered", name="; ".join(names), torque=shown)
                  for shown, names in beyond.items()]  # fmt: skip
    rows, by_joint = [], {}
    for tool in ladder:
        if tool.name in taken:
            by_joint.update(dict.fromkeys((j.id for j in taken[tool.name]), plan.say(f"tools.{_key(tool.name)}")))
            large = not plan.metric and convert(tool.greatest, tool.unit, "lbf·ft") > LARGE_FT
            unit = "lbf·ft" if large else tool.unit
            ends = (convert(each, tool.unit, unit) for each in (tool.least, tool.greatest))
            span = dict(zip(("least", "greatest"), (show(each, unit) for each in ends), strict=True))
            what = plan.say("tools.torque", tool=plan.say(f"tools.{_key(tool.name)}"), **span)
            settings = tuple(joint.torque.quantity for joint in taken[tool.name])
            use = _settings(plan, taken[tool.name])
            rows.append(Tool("torque", what, use, "electrical code", settings_nm=settings))
    if taken:
        rows.append(Tool("torque", plan.say("tools.mark"), plan.say("tools.mark_use"), "common practice"))
    return rows, uncovered, by_joint


def _with_named(plan: Plan, rows: list[Tool], all_joints: list[Joint]) -> list[Tool]:
    """The list with what the data sheet names: merged where it is there already, left out where it is in the box."""
    made = [plan.sheets[role].sheet for role in dict.fromkeys(each.role for each in plan.devices)]
    found, in_box = list(rows), [plan.told(sheet, item.name) for sheet in made for item in sheet.box.contents]
    fits: dict[str, list[str]] = {}
    for joint in all_joints:
        for tool in joint.tool.split(plan.say("tools.and")):
            fits.setdefault(tool, []).append(joint.name)
    named = {tool: plan.say("tools.fits", name="; ".join(dict.fromkeys(names))) for tool, names in fits.items()}
    told = [plan.told(sheet, tool) for sheet in made for step in sheet.steps for tool in step.tools]
    named |= {tool: plan.say("tools.maker_use") for tool in told if tool not in named}
    for tool, use in named.items():
        if not tool or any(same_thing(tool, name) for name in in_box):
            continue
        place = next((at for at, row in enumerate(found) if same_thing(tool, row.what, row.also)), None)
        if place is None:
            found.append(Tool("named by the maker", tool, use, "data sheet"))
    return found


def _settings(plan: Plan, covered: list[Joint]) -> str:
    """The settings that the tool is needed for, each once; which joint takes which stands in the torque table."""
    shown = " · ".join(dict.fromkeys(joint.shown for joint in covered))
    return plan.say("tools.torque_use", settings=shown)


class _Torque(NamedTuple):
    name: str
    least: float
    greatest: float
    unit: str
    least_nm: float
    greatest_nm: float


def _ladder(practice: Edition, name: str) -> list[_Torque]:
    table = practice.table(name)
    share = practice.number("torque_tool_least").quantity / 100
    unit = table.unit("greatest")
    found = []
    for row in table.rows:
        greatest = table.pick("T_max", "greatest", tool=row["tool"]).quantity
        ends = (convert(share * greatest, unit, "N·m"), convert(greatest, unit, "N·m"))
        found.append(_Torque(str(row["tool"]), share * greatest, greatest, unit, *ends))
    return sorted(found, key=lambda tool: tool.greatest)


def _drilling(plan: Plan) -> list[Tool]:
    """One bit a diameter and material, long enough for the deepest hole it drills."""
    deepest: dict[tuple[str, float], tuple[Value, Value]] = {}
    rows = []
    for held in plan.held:
        for each in passes(held):
            if each.bit.missing or each.depth.missing:
                rows.append(Tool("drilling", plan.say("tools.bit_unknown", name=held.name), held.name, "job"))
                continue
            key = (held.base, each.bit.quantity)
            known = deepest.get(key)
            if known is None or known[1].quantity < each.depth.quantity:
                deepest[key] = (each.bit, each.depth)
    for (base, _), (bit, depth) in sorted(deepest.items()):
        metric = plan.metric
        words = {
            "bit": bit_both(bit, plan.language, metric=metric), "depth": length_of(depth, plan.language, metric=metric),
        }  # fmt: skip
        what, also = plan.say(f"tools.bit_{base}", **words), plan.say("tools.bit_also")
        rows.append(Tool("drilling", what, plan.say("tools.bit_use"), "data sheet", also))
    if not plan.held and plan.drilled:
        what, also = plan.say("tools.bit_of_anchor"), plan.say("tools.bit_also")
        rows.append(Tool("drilling", what, plan.say("tools.bit_of_anchor_use"), "job", also))
    for base in plan.drilled:
        what, also = plan.say(f"tools.drill_{base}"), plan.say("tools.drill_also")
        rows.append(Tool("drilling", what, plan.say("tools.drill_use"), "job", also))
    drives = dict.fromkeys(plan.told(held.fastener.content, drive(held)) for held in plan.held)
    rows += [Tool("drilling", each, plan.say("tools.drive_use"), "data sheet") for each in drives if each]
    return list(dict.fromkeys(rows))


def drive(held: Held) -> str:
    """What turns the screw or anchor that holds a thing; empty where its data sheet does not say."""
    sheet = held.fastener.content
    return next((each.drive for each in (sheet.fastener, sheet.anchor) if each is not None and each.drive), "")


def _finding(plan: Plan) -> list[Tool]:
    rows = [_usual(plan, "finding", "detector", also=True)]
    if "wood" in plan.drilled:
        rows.append(_usual(plan, "finding", "stud", also=True))
    for base in plan.drilled:
        what, also = plan.say(f"tools.dust_{base}"), plan.say("tools.dust_also")
        rows.append(Tool("dust", what, plan.say("tools.dust_use"), "common practice", also))
    return rows


def _usual(plan: Plan, shelf: Shelf, key: str, *, also: bool = False) -> Tool:
    other = plan.say(f"tools.{key}_also") if also else ""
    return Tool(shelf, plan.say(f"tools.{key}"), plan.say(f"tools.{key}_use"), "common practice", other)


def _testing(plan: Plan) -> list[Tool]:
    """What proves dead, and the instruments of every due test with the tests that ask them."""
    volts = plan.survey.fact("supply.voltage", "V_LL", "V")
    shown = plan.say("common.not_known") if volts.missing else show(volts.quantity, "V")
    rows = [
        Tool("testing", plan.say(f"tools.{name}", volts=shown), plan.say(f"tools.{name}_use"), "common practice")
        for name in ("tester", "proving_unit")
    ]
    rows[0] = rows[0]._replace(instrument="voltage tester")
    for name, tests in due(plan).items():
        use = plan.say("tools.instrument_use", tests=", ".join(test.id for test in tests))
        also = plan.say("tools.meter_also") if name == "multimeter" else ""
        rows.append(Tool("testing", named(plan, name), use, "common practice", also, instrument=name))
    if plan.of_role("inverter"):
        high = _highest_dc(plan)
        what, use = plan.say("tools.dc_tester", volts=high), plan.say("tools.dc_tester_use")
        rows += [Tool("testing", what, use, "common practice", plan.say("tools.dc_tester_also"))]
        rows += [_usual(plan, "testing", "dc_gloves")]
    return rows


def _highest_dc(plan: Plan) -> str:
    """The highest voltage of the DC side: of the batteries, and what the inputs for arrays withstand."""
    battery = plan.sheets["battery"].fact("dc.voltage_max", "U_max", "V")
    inputs = [each.voltage_max for each in plan.sheets["inverter"].sheet.pv_inputs]
    known = [float(each.number) for each in inputs if each is not None]
    if battery.missing or len(known) < len(inputs):
        return plan.say("common.not_known")
    return show(max([battery.quantity, *known]), "V")


def _isolation(plan: Plan) -> list[Tool]:
    """Locks; lamps where a panel is made dead, with the panel's name."""
    rows = [_usual(plan, "isolation", "lock")]
    panels = ", ".join(each.panel for each in isolations(plan) if not each.direct)
    if panels:
        what, use = plan.say("tools.lamp"), plan.say("tools.lamp_use", panels=panels)
        rows.append(Tool("isolation", what, use, "common practice"))
    return rows


def _wiring(plan: Plan) -> list[Tool]:
    rows = []
    known = [run for run in plan.runs if not (run.raceway.missing or run.trade_size.missing)]
    sizes = sorted({(run.raceway.word, run.trade_size.word) for run in known})
    for raceway, size in sizes:
        words = {"raceway": plan.say(f"materials.{raceway}"), "size": size}
        kind = _bent(plan, raceway, size)
        rows.append(
            Tool("wiring", plan.say(f"tools.{kind}", **words), plan.say(f"tools.{kind}_use"), "common practice")
        )
        rows.append(
            Tool("wiring", plan.say("tools.knockout", size=size), plan.say("tools.knockout_use"), "common practice")
        )
    if plan.runs:
        found = [wire.size for run in plan.runs for wire in run.wires if not wire.size.missing]
        wires = ", ".join(dict.fromkeys(size.word for size in found)) or plan.say("common.not_known")
        rows.append(Tool("wiring", plan.say("tools.strippers", sizes=wires), plan.say("tools.strippers_use"), "job"))
        rows.append(_usual(plan, "wiring", "fish"))
    if plan.cables:
        areas = [value for each in plan.cables for value in (each.area, each.protective)]
        sizes_mm = ", ".join(dict.fromkeys(counted(value, plan.language) for value in areas))
        words = {"areas": sizes_mm}
        for name in ("cable_strippers", "ferrule_crimper"):
            rows.append(Tool("wiring", plan.say(f"tools.{name}", **words), plan.say(f"tools.{name}_use"), "job"))
        rows += [_usual(plan, "wiring", name) for name in ("gland_spanners", "hole_saws")]
    lugs = [wire.size for run in plan.runs for wire in run.wires if wire.use in ("positive", "negative")]
    if lugs:
        shown = ", ".join(dict.fromkeys(plan.say("common.not_known") if each.missing else each.word for each in lugs))
        rows.append(
            Tool("wiring", plan.say("tools.lug_crimper", sizes=shown), plan.say("tools.lug_crimper_use"), "job")
        )
    return list(dict.fromkeys(rows))


def _bent(plan: Plan, raceway: str, size: str) -> str:
    """What a raceway is brought into shape with: steel by hand up to a size, beyond it by a machine or in elbows."""
    if raceway not in STEEL:
        return "cutter"
    return "bender" if bent_by_hand(plan.practice, raceway, size) else "large_bender"


def _lifting(plan: Plan) -> list[Tool]:
    if plan.lift is None or not plan.lift.aid:
        return []
    return [Tool("lifting", plan.lift.aid, plan.lift.reason, "job", plan.say("tools.aid_also"))]


def _setting_out(plan: Plan) -> list[Tool]:
    rows = [_usual(plan, "setting out", name) for name in ("level", "tape", "hand", "camera")]
    reach = plan.practice.number("reach_from_floor")
    highest = [spot.y.quantity for held in plan.held for spot in held.spots if not spot.y.missing]
    if highest and max(highest) > convert(reach.quantity, reach.unit, "mm"):
        rows.append(_usual(plan, "setting out", "platform"))
    return rows


def _key(name: str) -> str:
    return name.replace(" ", "_").replace("/", "_")
