"""Load of the house without the battery, by the method that the job names.

Each method gives a `House`: the lines of the calculation sheet and the current that the service carries. Vehicle
supplies never count for less than 220.57 says, in whatever method.
"""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from standfast.design.installation.build import JobFile
from standfast.design.wiring import controls
from standfast.rulebooks.nfpa70 import cooking, loads
from standfast.sheet import Check, Clause, Value, at_least, chosen, given, missing, one_of, settle, total, work, worst
from standfast.shelf import Edition
from standfast.survey.power import Appliance

FASTENED = ("water heater", "fastened in place")
ELECTRIC: dict[str, loads.HeatingKind] = {
    "central electric": "central electric",
    "separate units": "separate units",
    "heat pump": "heat pump",
    "heat pump with supplement": "heat pump supplemented",
    "air conditioner": "heat pump",
}


class Row(NamedTuple):
    """One line of a calculation sheet: what it is, and its value."""

    text: str
    value: Value


class House(NamedTuple):
    """Load of the house without the battery.

    Attributes:
        title: name of the method.
        rows: lines of the sheet.
        current: of each line conductor of the service, in A.
        clause: the clause of the method.
        checks: what the method asks before it may be used.
    """

    title: str
    rows: tuple[Row, ...]
    current: Value
    clause: Clause
    checks: tuple[Check, ...]


def house_load(book: Edition, job: JobFile) -> House:
    """The load by the method of the job; a current that is missing says what the method still needs."""
    methods: dict[str, Callable[[Edition, JobFile], House]] = {
        "existing": _existing,
        "new": _new,
        "measured": _measured,
        "standard": _standard,
    }
    word = job.content.loads.method
    if word is None:
        method = job.fact("loads.method", "method")
        return House("Load calculation", (), missing("I_house", "A", method.how), book.clause("standard_load"), ())
    return methods[word](book, job)


def _existing(book: Edition, job: JobFile) -> House:
    """220.83: an existing dwelling, with or without new heating or cooling."""
    rows = _general(book, job)
    values = [row.value for row in rows]
    heating, cooling = climate(job, "heating"), climate(job, "cooling")
    if any(_is_new(job, side) for side in ("heating", "cooling")):
        load = loads.optional_existing_new_hvac(book, values, heating, cooling)
        title, clause = "Optional method, existing dwelling, new heating or cooling", "optional_existing_new_hvac"
        extra = [Row("Heating or cooling, the larger, in full", load.hvac)]
    else:
        title, clause = "Optional method, existing dwelling", "optional_existing"
        larger = worst("S_hvac", [heating, cooling], "max", book.clause("noncoincident"))
        pooled, beside = _staying(job, larger)
        rows, extra = rows + pooled, beside
        load = loads.optional_existing(book, [row.value for row in rows])
    whole = total("S_total", [load.demand, *(row.value for row in extra)], "VA", book.clause(clause))
    rows = [*rows, Row("All of this", load.general), Row("After the factors of the method", load.demand), *extra]
    return _finish(book, job, title, rows, whole, clause)


def _staying(job: JobFile, larger: Value) -> tuple[list[Row], list[Row]]:
    """Existing heating or cooling: as a line of the pool, or beside it in full, as the job file says."""
    if not larger.missing and larger.quantity == 0:
        return [], []
    answer = job.fact("loads.hvac_in_pool", "in_pool")
    if answer.number is True:
        return [Row("Existing heating or cooling, the larger, in the pool by the job file", larger)], []
    value = larger if answer.number is False else missing("S_hvac", "VA", answer.how, answer)
    return [], [Row("Existing heating or cooling, the larger, in full beside the pool by the job file", value)]


def _new(book: Edition, job: JobFile) -> House:
    """220.82: a new dwelling."""
    rows = _general(book, job)
    general, cooling = [row.value for row in rows], climate(job, "cooling")
    lighting, circuits, appliances = general[0], general[1], general[2:]
    load = loads.optional_new(book, lighting, circuits, appliances, _heating(job), cooling)
    rows += [
        Row("All of this", load.general),
        Row("After the factors of the method", load.demand),
        Row("Heating or cooling, the larger at its factor", load.hvac),
    ]
    found = _finish(book, job, "Optional method, new dwelling", rows, load.total, "optional_new")
    id, title, clause = "load.method-service", "Service that the method for new dwellings is for", "optional_new"
    service, least = job.fact("supply.service", "I_service", "A"), "optional_new_least"
    asked = settle(id, title, book.clause(clause),
                   lambda: at_least(id, title, book.clause(clause), service, book.number(least)))  # fmt: skip
    return found._replace(checks=(asked,))


def _standard(book: Edition, job: JobFile) -> House:
    """Article 220 Part III."""
    by_kind: dict[str, list[tuple[Appliance, Value]]] = {}
    unlisted = _unlisted(job)
    for each in job.content.loads.appliances:
        by_kind.setdefault(each.kind, []).append((each, appliance(book, job, each)))
    lighting, circuits = lighting_and_circuits(book, job)
    rows = [
        Row("General lighting and receptacles", lighting),
        Row("Small-appliance and laundry circuits", circuits),
    ]
    counted = [loads.lighting_demand(book, total("S", [lighting, circuits], "VA"))]
    rows.append(Row("Of these, demand", counted[0]))
    if "cooking" in by_kind:
        ratings = [value for _, value in by_kind["cooking"]]
        counted.append(cooking_demand(book, ratings))
        rows.append(Row(f"Cooking, {len(ratings)} by the demand table", counted[-1]))
    dryers = loads.dryer_demand(book, [value for _, value in by_kind.get("dryer", [])])
    fastened = [value for kind in FASTENED for _, value in by_kind.get(kind, [])]
    on_lines = loads.fastened_demand(book, fastened, loads.fastened_factor(book, fastened))
    rows += [Row("Clothes dryers", dryers), Row("Appliances fastened in place", on_lines)]
    others = [pair for kind, pairs in by_kind.items() if kind not in ("cooking", "dryer", *FASTENED) for pair in pairs]
    rows += [Row(_named(each), value) for each, value in others]
    hvac = worst("S_hvac", [climate(job, "heating"), climate(job, "cooling")], "max", book.clause("noncoincident"))
    fan = blower(job)
    motors = [value for each, value in others if each.kind in ("motor", "pool")] + [hvac]
    more = _motor_more(book, worst("S_motor", motors, "max", book.clause("largest_motor")))
    rows += [
        *unlisted,
        *fan,
        Row("Heating or cooling, the larger", hvac),
        Row("A quarter of the largest motor; heating or cooling taken as one", more),
    ]
    counted += [dryers, on_lines, *(value for _, value in others), *(row.value for row in (*unlisted, *fan))]
    counted += [hvac, more]
    whole = total("S_total", counted, "VA", book.clause("standard_load"))
    return _finish(book, job, "Standard method", rows, whole, "standard_load")


def _measured(book: Edition, job: JobFile) -> House:
    """220.87: recorded demand of an existing dwelling, and what is new."""
    checks, voltage = _record(book, job), job.fact("supply.voltage", "U", "V")
    spoiled = [check for check in checks if check.verdict != "pass"]
    recorded = job.fact("loads.measured_max", "S_max", "VA")
    if spoiled:
        why = "; ".join(check.reason or f"{check.title}: {check.verdict}" for check in spoiled)
        recorded = missing("S_max", "VA", f"the recorded demand cannot be used ({why}): take another method")
    new = _unlisted(job) + [
        Row(_named(each), appliance(book, job, each)) for each in job.content.loads.appliances if each.state == "new"
    ]
    new += [Row(f"New {side}", climate(job, side)) for side in ("heating", "cooling") if _is_new(job, side)]
    added = total("S_new", [row.value for row in new], "VA", book.clause("measured_load"))
    greatest = work("I_max", "S / U", "A", None, S=recorded, U=voltage)
    current = loads.measured_demand(book, greatest, work("I_new", "S / U", "A", None, S=added, U=voltage))
    rows = [Row("Greatest recorded demand", recorded), Row("Greatest recorded current", greatest), *new]
    return House("Recorded demand", tuple(rows), current, book.clause("measured_load"), tuple(checks))


def _record(book: Edition, job: JobFile) -> list[Check]:
    """Whether a record of demand may be used: long enough, fine enough, and of a house without storage or PV."""
    clause = book.clause("measured_record")
    over, by = job.fact("loads.measured_over", "t_record", "d"), job.fact("loads.measured_by", "recorded_by")
    sources = _sources(job)
    whole = book.number("measured_year")
    short = not over.missing and over.quantity < whole.quantity
    limit = book.number("measured_days") if short else whole
    none = given("n_allowed", 0.0, "1", "a source or battery in the house hides demand from the record")
    spoiled = at_least(
        "load.record-sources", "No source or battery hides demand from the record", clause, none, sources
    )
    return [
        at_least("load.record-length", "The record is long enough", clause, over, limit),
        one_of(
            "load.record-method", "The record shows the greatest demand", clause, by, book.number("measured_recording")
        ),
        spoiled,
    ]


def _sources(job: JobFile) -> Value:
    """How many sources and batteries stood in the house while its demand was recorded."""
    found = [
        job.fact(f"panels.{panel.id}.circuits.{circuit.id}.source_output", "I_source", "A")
        for panel in job.content.panels
        for circuit in panel.circuits
        if circuit.source_output is not None and circuit.state != "new"
    ]
    for room in job.content.rooms:
        if room.other_storage is not None and room.other_storage.number > 0:
            found.append(job.fact(f"rooms.{room.id}.other_storage", "E_other", "kWh"))
    return chosen("n_sources", float(len(found)), "1", "existing sources and storage in the job file", None, *found)


def lighting_and_circuits(book: Edition, job: JobFile) -> tuple[Value, Value]:
    """General lighting, and small-appliance and laundry circuits, each in VA."""
    area = job.fact("site.floor_area", "A", "ft2")
    small = job.fact("loads.small_appliance_circuits", "n_small", "1")
    laundry = job.fact("loads.laundry_circuits", "n_laundry", "1")
    return loads.lighting(book, area), loads.circuits(book, small, laundry)


def appliance(book: Edition, job: JobFile, each: Appliance) -> Value:
    """Nameplate of an appliance in VA."""
    rating = job.fact(f"loads.appliances.{each.id}.rating", f"S_{each.id.replace('-', '_')}", "VA")
    control = controls.holding(job, each.id)
    if control is not None:
        why = f"held back by the {control.name or control.id}: its setting stands for it"
        return chosen(rating.symbol, 0.0, "VA", why, book.clause("controlled_load"), rating)
    return loads.vehicle_supply(book, rating) if each.kind == "vehicle charger" else rating


def cooking_demand(book: Edition, nameplates: Sequence[Value]) -> Value:
    """Demand in VA of cooking appliances by the table, from their nameplates in VA."""
    ratings = [work("P", "S / kVA", "kW", None, S=each, kVA=_kva()) for each in nameplates]
    return work("S_cooking", "P * kVA", "VA", None, P=cooking.standard_demand(book, ratings), kVA=_kva())


def climate(job: JobFile, side: str) -> Value:
    """Electric load in VA of ``heating`` or ``cooling``; zero for gas, whose blower is an appliance of its own."""
    path, symbol = f"loads.{side}", f"S_{side}"
    kind = job.fact(f"{path}.kind", "kind")
    if kind.missing:
        return missing(symbol, "VA", kind.how, kind)
    if kind.word not in ELECTRIC:
        return chosen(symbol, 0.0, "VA", f"{side}: {kind.word}", None, kind)
    state = job.fact(f"{path}.state", "state")
    if state.missing:
        return missing(symbol, "VA", state.how, state)
    rating = job.fact(f"{path}.rating", symbol, "VA")
    if kind.word != "heat pump with supplement":
        return rating
    supplement, together = (
        job.fact(f"{path}.supplement", "S_supplement", "VA"),
        job.fact(f"{path}.supplement_together", "together"),
    )
    if together.missing:
        return missing(symbol, "VA", together.how, together)
    if together.yes:
        return total(symbol, [rating, supplement], "VA")
    return worst(symbol, [rating, supplement], "max")


def _general(book: Edition, job: JobFile) -> list[Row]:
    """Lighting, circuits, every appliance, and the blower of a gas furnace: the pool of the optional methods."""
    lighting, circuits = lighting_and_circuits(book, job)
    rows = [Row("General lighting and receptacles", lighting), Row("Small-appliance and laundry circuits", circuits)]
    rows += [Row(_named(each), appliance(book, job, each)) for each in job.content.loads.appliances]
    return rows + _unlisted(job) + blower(job)


def surveyed(job: JobFile) -> Value:
    """How many appliances the job lists; missing where it has no list, since that does not say that there are none."""
    return job.count("loads.appliances", "n_appliances")


def _unlisted(job: JobFile) -> list[Row]:
    """A line that nobody can fill, where the appliances were not listed."""
    count = surveyed(job)
    return [Row("Appliances", missing("S_appliances", "VA", count.how, count))] if count.missing else []


def blower(job: JobFile) -> list[Row]:
    """The blower of gas heating, which is a load of its own; none where nothing is heated by gas."""
    heating = job.content.loads.heating
    if heating is None or heating.kind != "gas":
        return []
    return [Row("Blower of the gas heating", job.fact("loads.heating.rating", "S_blower", "VA"))]


def _heating(job: JobFile) -> loads.Heating:
    kind = job.fact("loads.heating.kind", "kind")
    if kind.missing:
        return loads.Heating("heat pump", missing("S_heating", "VA", kind.how, kind))
    if kind.word not in ELECTRIC:
        return loads.Heating("none")
    rating, found = job.fact("loads.heating.rating", "S_heating", "VA"), ELECTRIC[kind.word]
    if found == "heat pump supplemented":
        together = job.fact("loads.heating.supplement_together", "together")
        supplement = job.fact("loads.heating.supplement", "S_supplement", "VA")
        if together.missing:
            return loads.Heating("heat pump", missing("S_heating", "VA", together.how, together))
        return loads.Heating(found, rating, supplement, interlocked=not together.yes)
    if found == "separate units":
        units = job.fact("loads.heating.units", "n_units", "1")
        if units.missing:
            return loads.Heating("heat pump", missing("S_heating", "VA", units.how, units))
        return loads.Heating(found, rating, units=int(units.quantity))
    return loads.Heating(found, rating)


def _finish(book: Edition, job: JobFile, title: str, rows: Sequence[Row], whole: Value, clause: str) -> House:
    voltage = job.fact("supply.voltage", "U", "V")
    lines = (*rows, Row("Load of the house", whole))
    return House(title, lines, loads.line_current(whole, voltage), book.clause(clause), ())


def _motor_more(book: Edition, largest: Value) -> Value:
    return work(
        "S_M_more", "k_motor * S_M", "VA", book.clause("largest_motor"), book.number("largest_motor"), S_M=largest
    )


def _is_new(job: JobFile, side: str) -> bool:
    found = job.content.loads.heating if side == "heating" else job.content.loads.cooling
    return found is not None and found.state == "new" and found.kind in ELECTRIC


def _named(each: Appliance) -> str:
    text = each.name or each.id.replace("-", " ").capitalize()
    return f"{text} (new)" if each.state == "new" else text


def _kva() -> Value:
    return given("kVA", 1000.0, "VA/kW", "one kVA counts as one kW")
