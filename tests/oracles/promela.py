"""The order of a job as a model for spin: every step that is ready may be next; assertions say what is unsafe."""

from collections.abc import Iterator

from standfast.fieldwork.order.acts import Acts, Site, members
from standfast.fieldwork.order.power import NEVER, Power, Window


def model(site: Site, acts: Acts) -> str:
    """The model of a house and the acts on it, in the language of spin.

    `d` holds the acts that are done, `p` the terminals proved dead since they were last fed, `c` the zones that are
    charged. While an act waits to be done its hands may be at work: its assertions hold from the moment it is ready.
    """
    power = Power(site, acts)
    touched = sorted({each for act in acts.all for each in act.touches})
    zones = sorted({site.zone(each) for act in acts.all for each in (*act.touches, *act.waits)})
    live = {zone: _live(power, zone) for zone in zones}
    seen = [
        *(f"  p[{place}] = p[{place}] && !LIVE{zones.index(site.zone(each))};" for place, each in enumerate(touched)),
        *(f"  c[{place}] = c[{place}] || LIVE{place};" for place, zone in enumerate(zones) if zone in site.charged),
    ]
    lines = [
        f"bool d[{len(acts)}]; bool p[{max(1, len(touched))}]; bool c[{max(1, len(zones))}]; byte s;",
        *(f"#define LIVE{place} ({live[zone]})" for place, zone in enumerate(zones)),
        "active proctype work() {",
        "  do :: atomic {",
        *seen,
        *_assertions(site, acts, power, touched, zones),
        "  if",
        *(f"  :: {_ready(acts, place)} -> s = {place}" for place in range(len(acts))),
        "  :: else -> goto done",
        "  fi;",
        "  d[s] = true;",
        "  if",
        *(line for place in range(len(acts)) for line in _waits(site, acts, place, zones)),
        "  :: else -> skip",
        "  fi;",
        *seen,
        "  if",
        *(line for place in range(len(acts)) for line in _proofs(site, acts, place, touched, zones)),
        "  :: else -> skip",
        "  fi",
        "  } od;",
        "  done: skip",
        "}",
    ]
    return "\n".join(lines) + "\n"


def _ready(acts: Acts, place: int) -> str:
    return " && ".join([f"!d[{place}]", *(f"d[{each}]" for each in members(acts.before[place]))])


def _waits(site: Site, acts: Acts, place: int, zones: list[str]) -> Iterator[str]:
    found = dict.fromkeys(zones.index(site.zone(each)) for each in acts.all[place].waits)
    if found:
        yield f"  :: s == {place} -> " + "; ".join(f"c[{zone}] = c[{zone}] && LIVE{zone}" for zone in found)


def _proofs(site: Site, acts: Acts, place: int, touched: list[str], zones: list[str]) -> Iterator[str]:
    found = [(touched.index(each), zones.index(site.zone(each))) for each in acts.all[place].proves if each in touched]
    if found:
        told = (f"p[{at}] = p[{at}] || (!LIVE{zone} && !c[{zone}])" for at, zone in found)
        yield f"  :: s == {place} -> " + "; ".join(told)


def _assertions(site: Site, acts: Acts, power: Power, touched: list[str], zones: list[str]) -> Iterator[str]:
    """What holds while an act is ready or being done."""
    for place, act in enumerate(acts.all):
        ready = _ready(acts, place)
        for each in act.touches:
            if power.ways(site.zone(each)):
                safe = f"!LIVE{zones.index(site.zone(each))} && p[{touched.index(each)}]"
                yield f"  assert(!({ready}) || ({safe}));"


def _live(power: Power, zone: str) -> str:
    """Whether a zone is fed, from the acts that are done."""
    ways = []
    for _, gates in power.ways(zone):
        ways.append(" && ".join(_in_any(power.windows_of(gate.id)) for gate in gates) or "true")
    return " || ".join(f"({way})" for way in ways) or "false"


def _in_any(windows: list[Window]) -> str:
    found = []
    for each in windows:
        parts = [] if each.begins == NEVER else [f"d[{each.begins}]"]
        parts += [] if each.ends == NEVER else [f"!d[{each.ends}]"]
        found.append(" && ".join(parts) or "true")
    return "(" + " || ".join(f"({each})" for each in found) + ")"
