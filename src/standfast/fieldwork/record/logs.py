"""How far each log is known, where something is missing, where two texts stand in one place, which files are named."""

from collections.abc import Iterator, Mapping
from typing import Any

from standfast.fieldwork.record.causal import Known, listed, text
from standfast.fieldwork.record.event import Event
from standfast.fieldwork.record.values import SHA, resolves, settles

Places = Mapping[str, Mapping[int, list[Event]]]


def logs(told: Known, sheet: Mapping[str, Any]) -> dict[str, Any]:
    """Devices, gaps, forks, files, what was erased, what the sheet does not know and what this version does not."""
    places: dict[str, dict[int, list[Event]]] = {}
    for each in sorted((*told.events, *told.later), key=lambda one: (one.dev, one.seq, one.hash)):
        places.setdefault(each.dev, {}).setdefault(each.seq, []).append(each)
    sheets = {each.dev: text(each.data, "sheet") for each in told.of("begin", "sheet")}
    erased = {sha for each in told.of("erased") for sha in listed(each.data, "what") if _is_file(sha)}
    return {
        "devices": {
            dev: {"last": max(own), "events": len(own), "sheet": sheets.get(dev, "")} for dev, own in places.items()
        },
        "gaps": list(_gaps(told, places)),
        "forks": list(_forks(told, places)),
        "files": sorted(set(files(told))),
        "erased": sorted(erased),
        "unknown": list(_unknown(told, sheet)),
        "later": [each.id for each in told.later],
    }  # fmt: skip


def files(told: Known) -> Iterator[str]:
    """Hashes of the files that a record names."""
    for each in told.events:
        if each.type == "manifest":
            yield from filter(_is_file, listed(each.data, "files"))
        for key in {"photo": ("sha",), "problem": ("sha",), "sign": ("image",)}.get(each.type, ()):
            if _is_file(each.data.get(key)):
                yield each.data[key]


def _is_file(sha: object) -> bool:
    return isinstance(sha, str) and bool(SHA.fullmatch(sha))


def _gaps(told: Known, places: Places) -> Iterator[dict[str, Any]]:
    """Places that are missing, before what is there and before what somebody has seen."""
    seen: dict[str, int] = {dev: max(own) for dev, own in places.items()}
    for each in (*told.events, *told.later):
        for dev, far in each.seen.items():
            seen[dev] = max(seen.get(dev, 0), far)
    for dev in sorted(seen):
        before = 0
        for seq in [*sorted(places.get(dev, {})), seen[dev] + 1]:
            if seq > before + 1:
                yield {"dev": dev, "first": before + 1, "last": seq - 1}
            before = seq


def _forks(told: Known, places: Places) -> Iterator[dict[str, Any]]:
    said = resolves(told)
    for dev in sorted(places):
        for seq in sorted(places[dev]):
            if len(places[dev][seq]) > 1:
                ids = [each.id for each in places[dev][seq]]
                settled = settles(ids, said)
                yield {"dev": dev, "seq": seq, "events": ids, "settled": settled}


def _unknown(told: Known, sheet: Mapping[str, Any]) -> Iterator[str]:
    """Ids of events that name a step or an item which is not on the sheet."""
    steps = {"", *(step["id"] for step in sheet["steps"])}
    items = {"", *(item["id"] for step in sheet["steps"] for item in step["items"])}
    for event in told.events:
        parts = listed(event.data, "values") if event.type == "reading" else [event.data]
        if event.step not in steps or not items.issuperset(text(each, "item") for each in parts):
            yield event.id
